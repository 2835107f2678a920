// Prices and amounts as people have them, through the reader, the plan and the
// comparison of prices; and the published budgets that can be found.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "scenarios/feed_costs.h"
#include "scenarios/price_arithmetic.h"
#include "scenarios/report.h"
#include "tests/scenarios/examples.h"

namespace haymow::prices_test {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double short_ton_kg = 2000.0 * kg_per_lb;

Scenario yard_with(const std::string& offers, const std::string& season = "") {
  return read_scenario("money: GBP\n" + season +
                           "horses: [{name: J, bodyweight: 500 kg, work: none}]\n"
                           "forage:\n" +
                           offers,
                       "f.yaml");
}

Offer offer_with(const std::string& keys) {
  return yard_with("  - {feed: 'meadow hay, average', name: hay, " + keys + "}\n")
      .stable.offers.front();
}

double eaten_price(const std::string& keys) {
  return offer_with(keys).cost_per_kg_eaten().in_units();
}

std::vector<std::string> remarks(const std::string& keys) {
  std::vector<std::string> messages;
  for (const Diagnostic& d :
       yard_with("  - {feed: 'meadow hay, average', name: hay, " + keys + "}\n").remarks) {
    messages.push_back(d.message);
  }
  return messages;
}

// --- as people have them ---------------------------------------------------------------------

TEST(Prices, DeliveryAddsToThePriceOfAKilogram) {
  const Offer hay = offer_with("price: 150 per tonne, delivery: 35 per load of 2 t");
  EXPECT_NEAR(hay.delivery_per_kg.in_units(), 0.0175, 1e-12);
  EXPECT_NEAR(hay.cost_per_kg_eaten().in_units(), 0.1675, 1e-12);
  EXPECT_NEAR(eaten_price("price: 4.50 per 18 kg bale, delivery: 1 per bale"), 5.5 / 18.0, 1e-12);
}

TEST(Prices, ABaleOfAStatedSizeIsTheOneThePriceIsFor) {
  const Offer hay = offer_with("price: 45 per bale, on hand: 20 quadrant bales");
  EXPECT_EQ(hay.on_hand->in_kg(), 5000.0);  // 250 kg, the light end
  EXPECT_NEAR(hay.price_per_kg.in_units(), 45.0 / 250.0, 1e-12);
  EXPECT_NEAR(eaten_price("price: 45 per bale, on hand: 20 quadrant bales of 300 kg"), 0.15, 1e-12);
}

TEST(Prices, ABaleNobodyWeighedIsRemarkedWithItsRangeAndItsSource) {
  EXPECT_THAT(
      remarks("price: 45 per quadrant bale"),
      Contains("what a quadrant bale of `hay` weighs is not written; 250 kg is assumed, the "
               "light end of 250 to 350 kg (a British hay farm's page of bale sizes, "
               "undated); a kg costs 0.129 to 0.18 by that, and 0.18 is planned with"));
  EXPECT_THAT(remarks("price: 45 per 300 kg quadrant bale"), ::testing::IsEmpty());
}

TEST(Prices, ALossByAPublishedWayIsRemarkedWithItsSource) {
  EXPECT_THAT(
      remarks("price: 1 per kg, stored: outdoors on the ground"),
      Contains(AllOf(HasSubstr("25 to 37 % (planned as 37 %)"), HasSubstr("hayandforage.com"))));
  EXPECT_THAT(remarks("price: 1 per kg, fed from: round bale without feeder"),
              Contains(HasSubstr("ate only 1.3 % of their bodyweight")));
  EXPECT_THAT(remarks("price: 1 per kg, fed from: round bale ring"),
              Not(Contains(HasSubstr("ate only"))));
}

TEST(Prices, TheRangeOfACostHoldsWhatIsPlanned) {
  const Offer hay = offer_with(
      "price: 45 per quadrant bale, delivery: 4 per bale, stored: outdoors on the ground, "
      "fed from: field");
  const MoneyRange range = cost_per_kg_eaten_range(hay);
  EXPECT_NEAR(range.least.in_units(), 49.0 / 350.0 / (0.75 * 0.90), 1e-12);
  EXPECT_NEAR(range.most.in_units(), 49.0 / 250.0 / (0.63 * 0.80), 1e-12);
  EXPECT_NEAR(range.planned.in_units(), range.most.in_units(), 1e-12);
}

TEST(Prices, TheSumIsShown) {
  const Offer hay = offer_with(
      "price: 150 per tonne, delivery: 35 per load of 2 t, stored: barn, fed from: hay rack");
  EXPECT_EQ(price_arithmetic(hay, Wording(Units::metric, "GBP")),
            "150 per tonne: 150.00 / 1000 kg = 0.15 a kg; delivery 35 per load of 2 t: 35.00 / "
            "2000 kg = 0.0175 a kg; together 0.1675 a kg; 6 % lost in the store (barn) and 5 % "
            "not eaten (hay rack): 0.1675 / (0.94 x 0.95) = 0.1876 a kg eaten; anything from "
            "0.1856 to 0.1876 a kg eaten");
}

TEST(Prices, TheJsonHoldsTheSameFigures) {
  const Scenario yard = yard_with(
      "  - {feed: 'meadow hay, average', name: hay, price: 45 per quadrant bale,\n"
      "     delivery: 35 per load of 2 t, fed from: hay rack, stored: barn}\n");
  const auto json = nlohmann::json::parse(prices_json(yard));
  const auto& hay = json["prices"][0];
  EXPECT_NEAR(hay["cost_per_kg_eaten"].get<double>(),
              (45.0 / 250.0 + 35.0 / 2000.0) / (0.94 * 0.95), 1e-12);
  EXPECT_EQ(hay["waste"]["share"], 0.05);
  EXPECT_EQ(hay["storage_loss"]["most_share"], 0.06);
  EXPECT_EQ(hay["pack_not_weighed"]["kg_most"], 350.0);
  EXPECT_EQ(hay["price"]["written"], "45 per quadrant bale");
  EXPECT_LT(hay["cost_per_kg_eaten_least"], hay["cost_per_kg_eaten"]);
}

// --- the plan --------------------------------------------------------------------------------

// Everything the plan says of a feed follows from what is eaten, by hand.
TEST(Prices, ThePlanPutsOutAndPaysForWhatIsLost) {
  Scenario yard = examples::ninefields();
  for (Offer& offer : yard.stable.offers) {
    offer.delivery_per_kg = Money{0.03};
    if (!offer.feed.is_long_forage()) continue;
    offer.waste = 0.10;
    offer.storage_loss = 0.20;
    offer.soaking_loss = offer.feed.group == FeedGroup::hay ? 0.05 : 0.0;
  }
  yard.stable.offers.front().on_hand = KgAsFed{5500.0};
  const double days = yard.stable.season->in_days();
  double hay_put_out = 0.0;
  double hay_step = 0.0;
  for (const HorseAnswer& answer : run(yard)) {
    ASSERT_EQ(answer.status, AnswerStatus::found) << answer.question.horse.name;
    ASSERT_TRUE(answer.practical);
    hay_step += weighing_of(FeedGroup::hay).step.in_kg();
    for (const Portion& p : answer.practical->ration.portions) {
      const Offer& offer = answer.question.offers[p.offer];
      const double wasted = offer.feed.is_long_forage() ? 0.9 : 1.0;
      const double washed = offer.feed.group == FeedGroup::hay ? 0.95 : 1.0;
      const double stored = offer.feed.is_long_forage() ? 0.8 : 1.0;
      EXPECT_NEAR(p.put_out.in_kg(), p.eaten.in_kg() / (wasted * washed), 1e-9);
      EXPECT_NEAR(p.cost.in_units(),
                  p.put_out.in_kg() / stored * (offer.price_per_kg.in_units() + 0.03), 1e-9);
      if (p.offer == 0) hay_put_out += p.put_out.in_kg();
    }
  }
  // A stock row gives by one step of the scale for each horse.
  EXPECT_LE(hay_put_out * days, 5500.0 * 0.8 + hay_step * days + 1e-6);
  EXPECT_GT(hay_put_out * days, 5500.0 * 0.8 * 0.9) << "the hay is dear to replace and all used";
}

TEST(Prices, TheReportSaysWhatTheStoreTakesAndWhatTheSeasonTakes) {
  const Scenario yard = yard_with(
      "  - {feed: 'meadow hay, late cut', name: hay, price: 0.10 per kg, on hand: 9 t,\n"
      "     storage loss: 25 %}\n"
      "market:\n"
      "  - {feed: soya bean meal, price: 0.80 per kg}\n"
      "  - {feed: balancer pellet, price: 1.30 per kg}\n"
      "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
      "  - {feed: salt, price: 0.50 per kg}\n",
      "season: {from: 2026-11-01, until: 2027-02-08}\n");
  const auto answers = run(yard);
  ASSERT_EQ(answers[0].status, AnswerStatus::found);
  double put_out = 0.0;
  for (const Portion& p : answers[0].practical->ration.portions) {
    if (p.offer == 0) put_out = p.put_out.in_kg();
  }
  const std::string text = write_text(ration_report(yard, answers, {}), 200, false);
  EXPECT_THAT(text, HasSubstr("9000 kg, of which the store takes 25 %, lasts " +
                              std::to_string(std::lround(6750.0 / put_out)) + " days"));
  EXPECT_THAT(text, HasSubstr("the season has 100 and takes " +
                              std::to_string(std::lround(put_out * 100.0 / 0.75)) + " kg"));
}

// --- published examples ----------------------------------------------------------------------

// B1, a university extension answer (via trade advice): 1,000 lb at 2.5 % = 25 lb a
// day from 15 October to 15 May: 5,350 lb, 2.7 short tons, 107 bales of 50 lb, six of
// 900 lb; two horses double. The source counted 214 days; with both ends fed there
// are 213, so 25 lb less, and the same bales.
TEST(PublishedBudgets, AWinterForOneHorse) {
  const Scenario yard = yard_with("  - {feed: 'meadow hay', price: 5 per 50 lb bale}\n",
                                  "season: {from: 2026-10-15, until: 2027-05-15}\n");
  const KgAsFed a_day{25.0 * kg_per_lb};
  const double lb =
      to_buy(a_day, *yard.stable.season, yard.stable.offers[0].losses()).in_kg() / kg_per_lb;
  EXPECT_NEAR(lb, 213.0 * 25.0, 1e-6);
  EXPECT_NEAR(to_buy(a_day, Days{214.0}, {}).in_kg() / kg_per_lb, 5350.0, 1e-6);
  EXPECT_EQ(std::ceil(lb / 50.0), 107.0);
  EXPECT_EQ(std::ceil(lb / 900.0), 6.0);
  EXPECT_NEAR(lb / 2000.0, 2.7, 0.05);
  EXPECT_NEAR(to_buy(2.0 * a_day, Days{214.0}, {}).in_kg() / kg_per_lb, 10700.0, 1e-6);
}

// B4, a teaching slide: 3,000 bales of 80 lb, 150 head, 210 days: 240,000 lb, 1,143
// lb a day, 7.6 lb a head (exact 7.62).
TEST(PublishedBudgets, AStockOverAHerd) {
  const Offer hay = offer_with("price: 4 per bale, on hand: 3000 bales of 80 lb");
  const double lb = hay.stock_to_put_out()->in_kg() / kg_per_lb;
  EXPECT_NEAR(lb, 240000.0, 1e-6);
  EXPECT_NEAR(lb / 210.0, 1143.0, 0.5);
  EXPECT_NEAR(lb / 210.0 / 150.0, 7.6, 0.05);
}

// B5, agproud.com, round bale hay storage: hay at 80 a ton, 20 % lost in storage: 16 a
// ton lost. What is left has cost 100 a ton.
TEST(PublishedBudgets, WhatStorageLosses) {
  const Offer hay = offer_with("price: 80 per short ton, stored: gravel pad");
  const double a_ton = hay.price_per_kg.in_units() * short_ton_kg;
  EXPECT_NEAR(a_ton * hay.storage_loss, 16.0, 1e-9);
  EXPECT_NEAR(hay.cost_per_kg_eaten().in_units() * short_ton_kg, 100.0, 1e-9);
}

// B6, a forum, exact: 40 lb a day for 180 days and 10 lb for 180, bales of 50 lb:
// 144 + 36 = 180 bales.
TEST(PublishedBudgets, BalesForTwoHorsesAYear) {
  const auto bales = [](double lb_a_day) {
    return to_buy(KgAsFed{lb_a_day * kg_per_lb}, Days{180.0}, {}).in_kg() / (50.0 * kg_per_lb);
  };
  EXPECT_NEAR(bales(40.0), 144.0, 1e-9);
  EXPECT_NEAR(bales(10.0), 36.0, 1e-9);
}

// B8, a forum: 10 short tons, 11 horses, 100 days: 18.2 lb a head. The same post: 260 a
// ton delivered beside 6 a bale, which is 480 a ton, so 80 bales of 25 lb to a ton.
TEST(PublishedBudgets, ByTheTonOrByTheBale) {
  const Offer by_ton = offer_with("price: 260 per short ton, on hand: 10 short tons");
  EXPECT_NEAR(by_ton.stock_to_put_out()->in_kg() / kg_per_lb / 11.0 / 100.0, 18.2, 0.05);
  const double by_bale = eaten_price("price: 6 per bale of 25 lb") * short_ton_kg;
  EXPECT_NEAR(by_bale, 480.0, 1e-9);
  EXPECT_NEAR(by_ton.cost_per_kg_eaten().in_units() * short_ton_kg, 260.0, 1e-9);
}

// B10, horseandhound.co.uk, keeping hay costs down: a 350 kg bale at 35 is worth 17 to
// 20 small ones at 3 and saves up to 25: 100 a tonne against 150 (bales of 20 kg) to
// 171 (of 17.5 kg, twenty to the big one).
TEST(PublishedBudgets, ABigBaleOrSmallOnes) {
  const auto a_tonne = [](const std::string& keys) { return 1000.0 * eaten_price(keys); };
  EXPECT_NEAR(a_tonne("price: 35 per 350 kg bale"), 100.0, 1e-9);
  EXPECT_NEAR(a_tonne("price: 3 per 20 kg bale"), 150.0, 1e-9);
  EXPECT_NEAR(a_tonne("price: 3 per 17.5 kg bale"), 171.4, 0.05);
  EXPECT_NEAR(350.0 * eaten_price("price: 3 per 17.5 kg bale") - 35.0, 25.0, 1e-9);
}

// B14, the same slides as B4: barley at 88 % dry matter, 0.78 Mcal (net energy there,
// which changes no arithmetic) a lb and 8.8 % digestible protein, 130 a ton: 0.095 a
// Mcal and 0.84 a lb of protein, in dry matter.
TEST(PublishedBudgets, APriceOfEnergyAndOfProtein) {
  const Scenario yard = read_scenario(
      "money: USD\n"
      "horses: [{name: J, bodyweight: 500 kg, work: none}]\n"
      "market:\n"
      "  - {name: barley, group: cereal, price: 130 per short ton,\n"
      "     analysis: {dry matter: 88 %, energy: 0.78 Mcal/lb DM, crude protein: 8.8 % DM}}\n",
      "f.yaml");
  const FeedCost cost = feed_costs(yard).front();
  EXPECT_NEAR(cost.per_megajoule->in_units() * mj_per_mcal, 0.095, 0.0005);
  EXPECT_NEAR(cost.per_100_g_protein->in_units() * 10.0 * kg_per_lb, 0.84, 0.005);
}

}  // namespace
}  // namespace haymow::prices_test
