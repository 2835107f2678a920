// Grass in the program, and the ration judged at the ends of its range; worked on
// paper with feeds of round figures.
#include "model/grass_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/no_ration.h"
#include "model/practical.h"
#include "model/share_stock.h"
#include "solver/certify.h"
#include "solver/solve.h"
#include "tests/model/hand_made.h"

namespace haymow::grass_check_test {
namespace {

using hand_made::feed_of;
using hand_made::limit_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;
using hand_made::row_of;
using testing::IsEmpty;
using testing::SizeIs;

// Hay and cubes are all dry. Grass is half water: 12 MJ per kg of dry matter.
const Feed hay = feed_of("hay", FeedGroup::hay, 1000.0,
                         {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, 50.0}});
const Feed cubes = feed_of("cubes", FeedGroup::compound, 1000.0,
                           {{Nutrient::energy, 10.0}, {Nutrient::crude_protein, 250.0}});
const Feed pasture = feed_of("grass", FeedGroup::grass, 500.0,
                             {{Nutrient::energy, 12.0}, {Nutrient::crude_protein, 150.0}});

RationQuestion at_grass(RationQuestion question, double low, double expected, double high) {
  question.offers.push_back(offer_of(pasture, 0.0));
  question.grass = GrassToday{question.offers.size() - 1, KgDryMatter{expected},
                              KgDryMatter{expected}, KgDryMatter{low}, KgDryMatter{high}};
  return question;
}

struct Answer {
  Formulation formulation;
  Solution solution;
};
Answer answer_to(const RationQuestion& question) {
  Answer answer{formulate(question), {}};
  answer.solution = solve(answer.formulation.program);
  EXPECT_EQ(answer.solution.status, Status::optimal);
  EXPECT_TRUE(certify(answer.formulation.program, answer.solution).holds());
  return answer;
}

// 100 MJ: 2 kg of dry matter of grass bring 24, the hay the other 76.
TEST(Grass, IsEatenAsReckonedAndTheHayFillsTheRest) {
  const RationQuestion question = at_grass(
      question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 100.0)}), 1.0, 2.0, 4.0);
  const Answer answer = answer_to(question);
  EXPECT_NEAR(answer.solution.columns[1], 4.0, 1e-9);  // as fed
  EXPECT_NEAR(answer.solution.columns[0], 7.6, 1e-9);
  EXPECT_NEAR(answer.solution.cost, 0.2 * 7.6, 1e-9);
}

// Without it the forage floor of 7.5 kg would ask for that much hay.
TEST(Grass, CountsAsForage) {
  const RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 50.0)},
                           {limit_of("forage/min", 1.5)}),
               1.0, 2.0, 4.0);
  EXPECT_NEAR(answer_to(question).solution.columns[0], 5.5, 1e-9);
}

// Horses were seen to graze more than the rule lets a keeper put before them.
TEST(Grass, ThatIsGrazedIsNotUnderTheRuleForCutGrass) {
  RationQuestion question =
      at_grass(question_of(500.0,
                           {offer_of(hay, 0.2), offer_of(feed_of("cut grass", FeedGroup::grass,
                                                                 500.0, {{Nutrient::energy, 12.0}}),
                                                         0.01)},
                           {need_of(Nutrient::energy, 100.0)}, {limit_of("grass/max", 2.0)}),
               1.0, 2.0, 4.0);
  const Answer answer = answer_to(question);
  EXPECT_NEAR(answer.solution.columns[2], 4.0, 1e-9);
  EXPECT_NEAR(answer.solution.columns[1], 1.0, 1e-9);  // 2 g per kg of 500 kg
}

TEST(Grass, OfUnknownProteinHelpsNoFloor) {
  RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::crude_protein, 400.0)}),
               1.0, 2.0, 4.0);
  question.offers[1].feed.composition[Nutrient::crude_protein].reset();
  EXPECT_NEAR(answer_to(question).solution.columns[0], 8.0, 1e-9);
}

TEST(Grass, IsNotWeighedInSteps) {
  const RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 100.0)}), 1.0,
               2.0333, 4.0);
  const Answer answer = answer_to(question);
  const auto practical = practical_ration(question, answer.formulation, answer.solution.cost);
  ASSERT_TRUE(practical);
  EXPECT_NEAR(practical->amounts[1], 4.0666, 1e-9);
  EXPECT_NEAR(practical->amounts[0], 7.6, 1e-9);  // 75.6 MJ in steps of 100 g
}

// 1 kg of grass for 2: 12 MJ of 100 are short, and 1.2 kg of hay has them. A fifth of
// what is put out is wasted, so that is 1.5 kg.
TEST(GrassCheck, SaysHowMuchMoreHayLittleGrassAsksFor) {
  const RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2, 0.2)}, {need_of(Nutrient::energy, 100.0)}),
               1.0, 2.0, 2.0);
  const Answer answer = answer_to(question);
  const GrassCheck check = check_grass(question, answer.formulation, answer.solution.columns);
  ASSERT_THAT(check.low.misses, SizeIs(1));
  EXPECT_EQ(check.low.misses[0].row.id, "energy/min");
  EXPECT_NEAR(missed_share(check.low.misses[0]), 0.12, 1e-9);
  ASSERT_THAT(check.low.hay, SizeIs(1));
  EXPECT_NEAR(check.low.hay[0].put_out.in_kg(), 1.5, 1e-9);
  EXPECT_FALSE(check.low.instead);
  EXPECT_THAT(check.high.misses, IsEmpty());
  EXPECT_EQ(check.high.hay_left.in_kg(), 0.0);
}

// 4 kg of grass for 2, and 2 kg of hay left: 56 + 48 MJ, 102 allowed. 5.4 kg of hay
// in place of 7.6 keep it.
TEST(GrassCheck, SaysHowMuchLessHayMuchGrassAsksFor) {
  const RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 100.0, 102.0)}),
               2.0, 2.0, 4.0);
  const Answer answer = answer_to(question);
  const GrassCheck check = check_grass(question, answer.formulation, answer.solution.columns);
  EXPECT_THAT(check.low.misses, IsEmpty());
  EXPECT_NEAR(check.high.hay_left.in_kg(), 2.0, 1e-9);
  ASSERT_THAT(check.high.misses, SizeIs(1));
  EXPECT_EQ(check.high.misses[0].row.id, "energy/max");
  EXPECT_NEAR(check.high.misses[0].value, 104.0, 1e-9);
  ASSERT_THAT(check.high.hay, SizeIs(1));
  EXPECT_NEAR(check.high.hay[0].put_out.in_kg(), -2.2, 1e-9);
}

// More grass than there is hay to leave: all of it stays, and what is eaten grows.
TEST(GrassCheck, LeavesNoMoreHayThanThereIs) {
  const RationQuestion question = at_grass(
      question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 34.0)}), 2.0, 2.0, 8.0);
  const Answer answer = answer_to(question);
  const GrassCheck check = check_grass(question, answer.formulation, answer.solution.columns);
  EXPECT_NEAR(check.high.hay_left.in_kg(), 1.0, 1e-9);
  EXPECT_NEAR(check.high.amounts[0], 0.0, 1e-9);
  EXPECT_NEAR(check.high.amounts[1], 16.0, 1e-9);
}

// 700 g of protein, 120 MJ at most. With no grass hay alone cannot bring the protein:
// 10.4 kg would be 104 MJ and 520 g. The cheapest ration then has cubes:
// hay + cubes with 50 h + 250 c = 700 and 10 (h + c) = 104.
TEST(GrassCheck, ProposesAnotherRationWhereHayIsNotEnough) {
  const RationQuestion question = at_grass(
      question_of(
          500.0, {offer_of(hay, 0.2), offer_of(cubes, 0.9)},
          {need_of(Nutrient::energy, 104.0, 120.0), need_of(Nutrient::crude_protein, 700.0)}),
      0.0, 2.0, 2.0);
  const Answer answer = answer_to(question);
  const GrassCheck check = check_grass(question, answer.formulation, answer.solution.columns);
  EXPECT_THAT(check.low.misses, testing::Not(IsEmpty()));
  EXPECT_THAT(check.low.hay, IsEmpty());
  ASSERT_TRUE(check.low.instead);
  double cubes_kg = 0.0;
  for (const Portion& p : check.low.instead->portions) {
    if (p.offer == 1) cubes_kg = p.eaten.in_kg();
  }
  EXPECT_NEAR(cubes_kg, (700.0 - 50.0 * 10.4) / 200.0, 1e-6);
}

// 10 kg of grass are 120 MJ where 100 are allowed: 8.33 kg would do.
TEST(Grass, TooMuchOfItIsToldAndTheAmountThatWouldDo) {
  const RationQuestion question =
      at_grass(question_of(500.0, {offer_of(hay, 0.2)}, {need_of(Nutrient::energy, 90.0, 100.0)}),
               6.0, 10.0, 12.0);
  const Formulation formulation = formulate(question);
  ASSERT_EQ(solve(formulation.program).status, Status::infeasible);
  const NoRation no = explain_no_ration(question, formulation, {});
  EXPECT_NO_THROW((void)row_of(no.conflict, "grazing/min"));
  const auto mend = std::find_if(no.mends.begin(), no.mends.end(),
                                 [](const Mend& m) { return m.row && m.row->id == "grazing/min"; });
  ASSERT_NE(mend, no.mends.end());
  EXPECT_LE(mend->to, 100.0 / 12.0);
  EXPECT_GE(mend->to, 0.97 * 100.0 / 12.0);
  // The nearest ration gives none of the grass away: nobody holds it back.
  ASSERT_THAT(no.nearest.portions, SizeIs(1));
  EXPECT_NEAR(no.nearest.portions[0].dry_matter.in_kg(), 10.0, 1e-6);
}

// 60 days on hay alone, 10 kg; 40 days at grass, 7.6 kg: 904 kg in all.
TEST(ShareStock, CountsEachStretchOfTheSeasonForItsDays) {
  Offer stocked = offer_of(hay, 0.1);
  const Offer bought = offer_of(cubes, 0.5);
  const auto shared = [&](double on_hand_kg) {
    stocked.on_hand = KgAsFed{on_hand_kg};
    const RationQuestion winter =
        question_of(500.0, {stocked, bought}, {need_of(Nutrient::energy, 100.0)});
    return share_stock({winter, at_grass(winter, 1.0, 2.0, 4.0)}, Days{100.0},
                       {Days{60.0}, Days{40.0}});
  };
  EXPECT_THAT(shared(904.1).a_day, testing::Each(IsEmpty()));
  const StockShares shortage = shared(850.0);
  EXPECT_TRUE(shortage.cheapest);
  ASSERT_THAT(shortage.a_day, testing::Each(SizeIs(2)));
  const double used = 60.0 * shortage.a_day[0][0]->in_kg() + 40.0 * shortage.a_day[1][0]->in_kg();
  EXPECT_NEAR(used, 850.0, 1e-3);
}

// The order of the questions does not matter: grass first.
TEST(ShareStock, TakesAHorseAtGrassFirst) {
  Offer stocked = offer_of(hay, 0.1);
  stocked.on_hand = KgAsFed{850.0};
  const RationQuestion winter =
      question_of(500.0, {stocked, offer_of(cubes, 0.5)}, {need_of(Nutrient::energy, 100.0)});
  const StockShares shares =
      share_stock({at_grass(winter, 1.0, 2.0, 4.0), winter}, Days{100.0}, {Days{40.0}, Days{60.0}});
  ASSERT_THAT(shares.a_day, testing::Each(SizeIs(2)));
  EXPECT_NEAR(40.0 * shares.a_day[0][0]->in_kg() + 60.0 * shares.a_day[1][0]->in_kg(), 850.0, 1e-3);
}

}  // namespace
}  // namespace haymow::grass_check_test
