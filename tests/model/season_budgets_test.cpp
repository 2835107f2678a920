// Published winter feed budgets, each through the program. The sources are those of the
// examples: a university extension's answer on hay for a winter, its slides on balancing
// a ration, agproud.com on round bale storage, horse forums, horseandhound.co.uk on
// keeping hay costs down, and the pages named beside each.
#include <gtest/gtest.h>

#include <cmath>

#include "model/season_plan.h"
#include "tests/model/hand_yard.h"

namespace haymow::season_budgets_test {
namespace {

using namespace hand_made;

constexpr double lb = kg_per_lb;
constexpr double kg_per_short_ton = 2000.0 * kg_per_lb;

SeasonPlan found(const SeasonQuestion& yard) {
  SeasonPlan plan = plan_season(yard);
  EXPECT_EQ(plan.status, SeasonStatus::found);
  EXPECT_TRUE(plan.certificate.holds());
  return plan;
}

int packs_in(const SeasonPlan& plan) {
  int packs = 0;
  for (const OrderLine& line : plan.orders) packs += line.packs.value_or(0);
  return packs;
}

double kg_in(const SeasonPlan& plan) {
  double kg = 0.0;
  for (const OrderLine& line : plan.orders) kg += line.amount.in_kg();
  return kg;
}

SeasonQuestion hay_in_bales(int horses, double lb_a_day, int days, double lb_a_bale) {
  SeasonQuestion yard = yard_of(horses, lb_a_day * lb, days, {fed("hay", 0.2)});
  yard.supply[0].pack = KgAsFed{lb_a_bale * lb};
  return yard;
}

// Extension: 1,000 lb at 2.5 %, 214 days: 5,350 lb, 2.7 short tons, 107 bales of 50 lb
// or six of 900; two horses take double.
TEST(SeasonBudgets, OneHorseFromOctoberToMay) {
  const SeasonPlan plan = found(hay_in_bales(1, 25.0, 214, 50.0));
  EXPECT_NEAR(kg_in(plan) / lb, 5350.0, 1e-6);
  EXPECT_NEAR(kg_in(plan) / kg_per_short_ton, 2.7, 0.05);
  EXPECT_EQ(packs_in(plan), 107);
  EXPECT_EQ(packs_in(found(hay_in_bales(1, 25.0, 214, 900.0))), 6);
  EXPECT_EQ(packs_in(found(hay_in_bales(2, 25.0, 214, 50.0))), 214);
}

// The slides: 3,000 bales of 80 lb, 150 head, 210 days: 240,000 lb, 1,143 lb a day, 7.6 lb
// a head. So 7.61 lb lasts and 7.63 does not.
TEST(SeasonBudgets, AStockOfBalesForAHerd) {
  Offer hay = fed("hay", 0.2);
  hay.on_hand = KgAsFed{3000 * 80.0 * lb};
  const SeasonPlan plan = found(yard_of(150, 7.61 * lb, 210, {hay}));
  EXPECT_NEAR(plan.stock[0][0].put_out / 7.0 / lb, 1143.0, 2.0);
  EXPECT_EQ(plan_season(yard_of(150, 7.63 * lb, 210, {hay})).status, SeasonStatus::none);
}

// agproud.com: at 80 a tonne and 20 % lost in the store, 16 a tonne is lost.
TEST(SeasonBudgets, WhatTheStoreLosesOfATonne) {
  Offer hay = fed("hay", 0.08);
  hay.storage_loss = 0.2;
  const SeasonPlan plan = found(yard_of(1, 800.0 / 70.0, 70, {hay}));
  double lost = 0.0;
  for (const StockWeek& week : plan.stock[0]) lost += week.lost;
  EXPECT_NEAR(kg_in(plan), 1000.0, 1e-6);
  EXPECT_NEAR(0.08 * lost, 16.0, 1e-9);
}

// A forum, exact: two horses, 40 lb a day, 180 days in bales of 50 lb, then 10 lb a day
// for 180 days: 144 + 36 = 180 bales.
TEST(SeasonBudgets, TwoHorsesOverAYear) {
  SeasonQuestion yard = empty_yard(180, {fed("hay", 0.2)});
  const std::vector<SeasonWeek> winter = yard.weeks;
  for (SeasonWeek week : winter) {
    week.first_day += 180;
    yard.weeks.push_back(week);
  }
  yard.supply[0].price_per_kg.assign(yard.weeks.size(), Money{0.2});
  yard.supply[0].pack = KgAsFed{50.0 * lb};
  const std::size_t cold = add_ration(yard, 20.0 * lb);
  const std::size_t warm = add_ration(yard, 5.0 * lb);
  for (const char* name : {"one", "two"}) {
    add_horse(yard, name, cold);
    for (std::size_t w = winter.size(); w < yard.weeks.size(); ++w) {
      yard.horses.back().ration_of_week[w] = warm;
    }
  }
  const SeasonPlan plan = found(yard);
  EXPECT_EQ(packs_in(plan), 180);
  double in_winter = 0.0;
  for (std::size_t w = 0; w < winter.size(); ++w) in_winter += plan.stock[0][w].put_out;
  EXPECT_NEAR(in_winter / (50.0 * lb), 144.0, 1e-6);
}

// A forum: ten short tons for eleven mostly small horses last 100 days, 18.2 lb a head.
TEST(SeasonBudgets, TenTonsForElevenHorses) {
  Offer hay = fed("hay", 0.2);
  hay.on_hand = KgAsFed{10.0 * kg_per_short_ton};
  const SeasonPlan plan = found(yard_of(11, 18.18 * lb, 100, {hay}));
  EXPECT_LT(plan.stock[0].back().closing, 0.001 * hay.on_hand->in_kg());
  EXPECT_EQ(plan_season(yard_of(11, 18.18 * lb, 101, {hay})).status, SeasonStatus::none);
}

// horseandhound.co.uk: a big bale of 350 kg at 35 is 17 to 20 small ones at 3: saves up
// to 25.
TEST(SeasonBudgets, ABigBaleForManySmallOnes) {
  SeasonQuestion yard = yard_of(1, 10.0, 35, {fed("small", 3.0 / 17.5), fed("big", 35.0 / 350.0)});
  yard.supply[0].pack = KgAsFed{17.5};
  yard.supply[1].pack = KgAsFed{350.0};
  const SeasonPlan plan = found(yard);
  EXPECT_NEAR(plan.cost.in_units(), 35.0, 1e-9);
  EXPECT_EQ(packs_in(plan), 1);
  yard.supply[1].can_be_bought = false;
  const SeasonPlan small = found(yard);
  EXPECT_EQ(packs_in(small), 20);
  EXPECT_NEAR((small.cost - plan.cost).in_units(), 25.0, 1e-9);
}

// A blog's livery yard: 20 horses, 6 flakes a day at 0.50, 30 days: 1,800.
TEST(SeasonBudgets, FlakesForTwentyHorses) {
  const SeasonPlan plan = found(yard_of(20, 6.0, 30, {fed("flakes", 0.5)}));
  EXPECT_NEAR(plan.cost.in_units(), 1800.0, 1e-6);
}

// redmountaintrails.com: twelve horses, a little over a ton a week at 220: about 1,000 a
// month. A little over is taken as 5 %.
TEST(SeasonBudgets, TwelveHorsesAtFreeChoice) {
  const double kg_a_day = 1.05 * kg_per_short_ton / 7.0 / 12.0;
  const SeasonPlan plan = found(yard_of(12, kg_a_day, 30, {fed("hay", 220.0 / kg_per_short_ton)}));
  EXPECT_NEAR(plan.cost.in_units(), 1000.0, 25.0);
}

// A boarding barn's page: half a bale to one at 3.25 to 4.00 a day, 5 to 10 lb of grain at
// 8.99 to 13.99 for 50 lb: 2.53 to 6.80 a day, 75.90 to 204 a month.
TEST(SeasonBudgets, HayAndGrainForAMonth) {
  struct Case {
    double bale, bales, grain, grain_lb, a_day, a_month;
  };
  for (const Case& c :
       {Case{3.25, 0.5, 8.99, 5.0, 2.53, 75.90}, {4.0, 1.0, 13.99, 10.0, 6.80, 204.0}}) {
    const double kg_a_bale = 50.0 * lb;
    SeasonQuestion yard = empty_yard(
        30, {fed("hay", c.bale / kg_a_bale),
             offer_of(feed_of("grain", FeedGroup::cereal, 1000.0, {}), c.grain / (50.0 * lb))});
    const std::size_t ration = add_ration(yard, c.bales * kg_a_bale);
    yard.rations[ration].horse.wishes = {
        {WishKind::exactly, "grain", KgAsFed{c.grain_lb * lb}, {}}};
    add_horse(yard, "boarder", ration);
    const SeasonPlan plan = found(yard);
    EXPECT_NEAR(plan.cost.in_units() / 30.0, c.a_day, 0.01);
    EXPECT_NEAR(plan.cost.in_units(), c.a_month, 0.3);
  }
}

// The slides, exact: barley of 88 % dry matter with 0.78 Mcal and 8.8 % digestible protein
// a pound of it, at 130 a short ton: 0.095 a Mcal, 0.84 a pound of protein.
TEST(SeasonBudgets, ThePriceOfEnergyAndOfProtein) {
  const Offer barley = offer_of(
      feed_of("barley", FeedGroup::cereal, 880.0,
              {{Nutrient::energy, 0.78 * mj_per_mcal / lb}, {Nutrient::crude_protein, 88.0}}),
      130.0 / kg_per_short_ton);
  const auto cost_of = [&](Nutrient nutrient, double amount) {
    SeasonQuestion yard = empty_yard(7, {barley});
    yard.rations.push_back(question_of(500.0, yard.offers, {need_of(nutrient, amount)}));
    add_horse(yard, "one", 0);
    return found(yard).cost.in_units() / 7.0;
  };
  EXPECT_NEAR(cost_of(Nutrient::energy, mj_per_mcal), 0.095, 0.0005);
  EXPECT_NEAR(cost_of(Nutrient::crude_protein, 1000.0 * lb), 0.84, 0.005);
}

}  // namespace
}  // namespace haymow::season_budgets_test
