#include "scenarios/run.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "feeds/feed_table.h"
#include "scenarios/report.h"
#include "solver/solve.h"
#include "tests/matchers.h"
#include "tests/scenarios/examples.h"

namespace haymow::run_test {
namespace {

using examples::answer_for;
using examples::ninefields_answers;
using testing::IsEmpty;
using testing::SizeIs;

// Hay with straw, cubes, a balancer and salt: enough for an ordinary horse.
std::string yard(const std::string& horses, const std::string& hay_extra = "",
                 const std::string& head = "") {
  return head + "money: GBP\nhorses:\n" + horses +
         "forage:\n"
         "  - {feed: \"meadow hay, average\", name: hay, price: 0.20 per kg" +
         hay_extra +
         "}\n"
         "  - {feed: oat straw, price: 0.10 per kg}\n"
         "market:\n"
         "  - {feed: \"haylage, meadow\", name: haylage, price: 0.60 per kg}\n"
         "  - {feed: oats, price: 0.40 per kg}\n"
         "  - {feed: conditioning cubes, price: 0.60 per kg}\n"
         "  - {feed: soya bean meal, price: 0.80 per kg}\n"
         "  - {feed: balancer pellet, price: 1.30 per kg}\n"
         "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
         "  - {feed: limestone flour, price: 2.00 per kg}\n"
         "  - {feed: salt, price: 0.50 per kg}\n";
}

std::vector<HorseAnswer> answers_to(const std::string& text) {
  return run(read_scenario(text, "test.yaml"));
}

constexpr const char* idle_horse = "  - {name: Ember, bodyweight: 500 kg, work: none}\n";

// --- every answer of the example ------------------------------------------------

TEST(Run, AnswersComeInTheFilesOrder) {
  std::vector<std::string> names;
  for (const HorseAnswer& answer : ninefields_answers())
    names.push_back(answer.question.horse.name);
  EXPECT_THAT(names, testing::ElementsAre("Juniper", "Bramble", "Pocket", "Skylark"));
}

TEST(Run, EveryFoundRationIsCertifiedAndKeepsEveryRow) {
  for (const HorseAnswer& answer : ninefields_answers()) {
    const std::string& name = answer.question.horse.name;
    ASSERT_EQ(answer.status, AnswerStatus::found) << name;
    EXPECT_TRUE(answer.certificate.holds()) << name;
    EXPECT_THAT(broken_rows(answer.formulation.rows, answer.solution.columns), IsEmpty()) << name;
    EXPECT_THAT(answer.ration->cost.in_units(), IsNear(answer.solution.cost, 1e-6)) << name;
  }
}

TEST(Run, ThePracticalRationKeepsEveryRowAndCostsNoLess) {
  for (const HorseAnswer& answer : ninefields_answers()) {
    const std::string& name = answer.question.horse.name;
    ASSERT_TRUE(answer.practical) << name;
    EXPECT_THAT(broken_rows(answer.formulation.rows, answer.practical->amounts), IsEmpty()) << name;
    EXPECT_GE(answer.practical->ration.cost.in_units(), answer.solution.cost * (1.0 - 1e-9))
        << name;
    EXPECT_THAT(answer.explanation->limits, testing::Not(IsEmpty())) << name;
  }
}

// --- meals -------------------------------------------------------------------------

TEST(Run, MealsAreAsTheFileSays) {
  EXPECT_EQ(answer_for("Juniper").question.meals, 3);
  EXPECT_EQ(answer_for("Juniper").ration->meals, 3);
}

TEST(Run, AnIdleHorseOnHayGetsOneMeal) {
  const auto answers = answers_to(yard(idle_horse));
  ASSERT_EQ(answers.front().status, AnswerStatus::found);
  EXPECT_EQ(answers.front().question.meals, 1);
}

// Fewest meals that work: with one fewer there is no ration, or it costs more
// than 2 % above that with four meals.
TEST(Run, AHorseInHardWorkGetsTheFewestMealsThatWork) {
  const auto answers =
      answers_to(yard("  - {name: Comet, bodyweight: 500 kg, work: very heavy}\n") +
                 "  - {feed: \"vegetable oil, soya\", price: 2.50 per kg}\n" +
                 "  - {feed: \"meadow hay, early cut\", price: 0.20 per kg}\n");
  const HorseAnswer& comet = answers.front();
  ASSERT_EQ(comet.status, AnswerStatus::found);
  ASSERT_EQ(comet.question.meals, 2);
  const auto cost_with = [&](int meals) {
    RationQuestion question = comet.question;
    question.meals = meals;
    const Solution solution = solve(formulate(question).program);
    if (solution.status != Status::optimal) return unlimited;
    return solution.cost;
  };
  EXPECT_GT(cost_with(1), 1.02 * cost_with(4));
  EXPECT_LE(cost_with(2), 1.02 * cost_with(4));
}

TEST(Run, AHorseOnMashGetsFourMealsAtLeast) {
  const Scenario scenario = read_scenario(
      "money: GBP\nhorses:\n"
      "  - {name: Elder, bodyweight: 450 kg, work: none, health: [cannot chew long forage]}\n"
      "market:\n"
      "  - {feed: grass nuts, price: 0.50 per kg}\n"
      "  - {feed: \"sugar beet pulp, unmolassed\", price: 0.60 per kg}\n"
      "  - {feed: balancer pellet, price: 1.30 per kg}\n"
      "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
      "  - {feed: limestone flour, price: 2.00 per kg}\n"
      "  - {feed: salt, price: 0.50 per kg}\n",
      "test.yaml");
  const auto answers = run(scenario);
  EXPECT_GE(answers.front().question.meals, 4);
}

// --- portions ---

TEST(Run, WhatIsScoopedOrSlicedComesInPiecesAndUnequalMealsKeepTheirLimits) {
  const Scenario scenario = read_scenario(
      "money: GBP\nhorses:\n"
      "  - {name: Comet, bodyweight: 500 kg, work: heavy, meals: [20 %, 40 %, 40 %]}\n"
      "forage:\n"
      "  - {feed: \"meadow hay, average\", name: hay, price: 0.20 per kg, slice: 2.2 kg}\n"
      "market:\n"
      "  - {feed: stud cubes, price: 0.60 per kg, scoop: 1.4 kg}\n"
      "  - {feed: oats, price: 0.50 per kg}\n"
      "  - {feed: balancer pellet, price: 1.30 per kg}\n"
      "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
      "  - {feed: salt, price: 0.50 per kg}\n",
      "test.yaml");
  const auto answers = run(scenario);
  ASSERT_EQ(answers.front().status, AnswerStatus::found);
  ASSERT_TRUE(answers.front().practical);
  const PracticalRation& practical = *answers.front().practical;
  ASSERT_EQ(practical.meals.size(), 3U);
  for (const Portion& p : practical.ration.portions) {
    const Offer& offer = answers.front().question.offers[p.offer];
    if (!offer.fed_in) continue;
    // Halves only where whole ones leave no ration, and then told.
    ASSERT_NE(practical.choices.portions, PortionUse::by_weight);
    const double of_a_step = practical.choices.portions == PortionUse::half ? 2.0 : 1.0;
    const double pieces = of_a_step * (p.put_out / offer.fed_in->weight);
    EXPECT_NEAR(pieces, std::round(pieces), 1e-9) << offer.name;
  }
  // The limits of a meal: 1 g of starch and 0.4 % of dry matter for a kg of the horse.
  for (const Meal& meal : practical.meals) {
    EXPECT_LE(meal.starch_g, 500.0 * (1.0 + 1e-6));
    EXPECT_LE(meal.dry_matter.in_kg(), 2.0 * (1.0 + 1e-6));
  }
}

// --- promises ----------------------------------------------------------------------

HorseAnswer promised(const std::string& horse, double probability) {
  for (HorseAnswer& answer : run(examples::ninefields(), {probability})) {
    if (answer.question.horse.name == horse) return std::move(answer);
  }
  throw std::out_of_range(horse);
}

TEST(Run, APromiseIsCertifiedCostsMoreAndHoldsInWholeSteps) {
  const HorseAnswer answer = promised("Skylark", 0.9);
  ASSERT_EQ(answer.status, AnswerStatus::found);
  ASSERT_TRUE(answer.promise && answer.practical);
  EXPECT_TRUE(answer.certificate.holds());
  EXPECT_LE(answer.promise->largest_miss, certificate_tolerance);
  EXPECT_GT(answer.ration->cost, answer.promise->cost_without);
  for (const FloorDoubt& doubt : floor_doubts(answer.question, answer.practical->amounts)) {
    const auto& names = answer.promise->promise.guarded;
    if (std::find(names.begin(), names.end(), doubt.nutrient) == names.end()) continue;
    EXPECT_GE(doubt.kept, 0.9 - 1e-6) << traits_of(doubt.nutrient).name;
  }
}

TEST(Run, APromiseThatNothingKeepsSaysWhatCouldBeKept) {
  const HorseAnswer answer = promised("Pocket", 0.99);
  ASSERT_EQ(answer.status, AnswerStatus::none);
  ASSERT_TRUE(answer.promise && answer.promise->most);
  EXPECT_FALSE(answer.no_ration.has_value());
  EXPECT_THAT(answer.promise->conflict, testing::Not(IsEmpty()));
  EXPECT_LT(*answer.promise->most, 0.99);
  if (*answer.promise->most > 0.5) {
    EXPECT_EQ(promised("Pocket", *answer.promise->most).status, AnswerStatus::found);
  }
}

// --- refusals --------------------------------------------------------------------------

class RefusedState : public testing::TestWithParam<HealthState> {};

TEST_P(RefusedState, IsNeverPlannedFor) {
  const auto answers = answers_to(yard(fmt::format(
      "  - {{name: Ember, bodyweight: 500 kg, work: none, health: [{}]}}\n", name_of(GetParam()))));
  ASSERT_THAT(answers, SizeIs(1));
  EXPECT_EQ(answers.front().status, AnswerStatus::refused);
  EXPECT_FALSE(answers.front().ration);
  EXPECT_FALSE(answers.front().practical);
  EXPECT_FALSE(answers.front().no_ration);
}

INSTANTIATE_TEST_SUITE_P(Run, RefusedState,
                         testing::Values(HealthState::starved, HealthState::acute_laminitis,
                                         HealthState::colic, HealthState::off_feed));

TEST(Run, ARefusedHorseDoesNotStopTheOthers) {
  const auto answers =
      answers_to(yard("  - {name: Ash, bodyweight: 500 kg, work: none, health: [colic]}\n" +
                      std::string(idle_horse)));
  ASSERT_THAT(answers, SizeIs(2));
  EXPECT_EQ(answers[0].status, AnswerStatus::refused);
  EXPECT_EQ(answers[1].status, AnswerStatus::found);
}

// --- none -----------------------------------------------------------------------------------

TEST(Run, ADefiniteNoIsProvenAndExplained) {
  const auto answers = answers_to("money: GBP\nhorses:\n" + std::string(idle_horse) +
                                  "market:\n  - {feed: oats, price: 0.40 per kg}\n");
  const HorseAnswer& ember = answers.front();
  ASSERT_EQ(ember.status, AnswerStatus::none);
  EXPECT_GT(ember.no_ration->proof_strength, 1e-6);
  EXPECT_THAT(ember.no_ration->conflict, testing::Not(IsEmpty()));
  EXPECT_THAT(ember.no_ration->misses, testing::Not(IsEmpty()));
  EXPECT_FALSE(ember.ration);
}

// In very heavy work on this yard's hay no number of meals is enough. The reason
// told must not be a meal size that the tool itself has chosen.
TEST(Run, ANoIsExplainedWithAsManyMealsAsMayBeChosen) {
  const auto answers =
      answers_to(yard("  - {name: Comet, bodyweight: 500 kg, work: very heavy}\n"));
  const HorseAnswer& comet = answers.front();
  ASSERT_EQ(comet.status, AnswerStatus::none);
  EXPECT_EQ(comet.question.meals, 4);
  for (const RowMeaning& row : comet.no_ration->conflict) {
    EXPECT_NE(row.family, RowFamily::meal) << row.id;
  }
  EXPECT_THAT(comet.no_ration->mends, testing::Not(IsEmpty()));
}

TEST(Run, ANoIsExplainedWithTheMealsOfTheFile) {
  const auto answers =
      answers_to(yard("  - {name: Comet, bodyweight: 500 kg, work: very heavy, meals: 1}\n"));
  ASSERT_EQ(answers.front().status, AnswerStatus::none);
  EXPECT_EQ(answers.front().question.meals, 1);
}

// --- failed ---------------------------------------------------------------------------------

// A price below zero, which no file can hold: the cost falls without end. Nothing
// may be shown of an answer that is not certified.
TEST(Run, AnAnswerThatDoesNotCertifyIsOurFailure) {
  Offer hay;
  hay.name = "hay";
  hay.feed = *find_feed("meadow hay, average");
  hay.price_per_kg = Money{-1.0};
  RationQuestion question;
  question.horse.bodyweight = Bodyweight{500.0};
  question.offers = {hay};
  const HorseAnswer failed = answer(question);
  EXPECT_EQ(failed.status, AnswerStatus::failed);
  EXPECT_FALSE(failed.certificate.holds());
  EXPECT_FALSE(failed.ration);
  EXPECT_FALSE(failed.practical);
  EXPECT_FALSE(failed.explanation);
  EXPECT_FALSE(failed.no_ration);
}

// --- stock ------------------------------------------------------------------------------------

constexpr const char* season = "season: {from: 2026-11-01, until: 2027-02-08}\n";  // 100 days

TEST(Run, AShortStockIsSharedOverTheSeason) {
  const std::string horses =
      "  - {name: Ember, bodyweight: 500 kg, work: none}\n"
      "  - {name: Flint, bodyweight: 600 kg, work: light}\n";
  const auto answers = answers_to(yard(horses, ", on hand: 800 kg", season));
  double hay_a_day = 0.0;
  for (const HorseAnswer& answer : answers) {
    ASSERT_EQ(answer.status, AnswerStatus::found) << answer.question.horse.name;
    ASSERT_THAT(answer.question.stock_a_day, testing::Not(IsEmpty()));
    for (const Portion& p : answer.practical->ration.portions) {
      if (answer.question.offers[p.offer].name == "hay") hay_a_day += p.put_out.in_kg();
    }
  }
  // 8 kg a day, and one step of the scale more for each horse.
  EXPECT_LE(hay_a_day, 8.0 + 0.1 * 2 + 1e-6);
  EXPECT_GT(hay_a_day, 7.0);
}

TEST(Run, AnAmpleStockIsNotRationed) {
  const auto answers = answers_to(yard(idle_horse, ", on hand: 5000 kg", season));
  EXPECT_THAT(answers.front().question.stock_a_day, IsEmpty());
}

TEST(Run, WithoutASeasonNoStockHasToLast) {
  const auto answers = answers_to(yard(idle_horse, ", on hand: 10 kg"));
  EXPECT_EQ(answers.front().status, AnswerStatus::found);
  EXPECT_THAT(answers.front().question.stock_a_day, IsEmpty());
}

// The cheapest ration with half the hay cannot be cheaper than with all of it.
TEST(Run, LessHayNeverCostsLess) {
  const auto ample = answers_to(yard(idle_horse, ", on hand: 5000 kg", season));
  const auto scant = answers_to(yard(idle_horse, ", on hand: 300 kg", season));
  ASSERT_EQ(scant.front().status, AnswerStatus::found);
  EXPECT_GT(scant.front().solution.cost, ample.front().solution.cost);
}

// --- the same again --------------------------------------------------------------------------

TEST(Run, TheSameInputGivesTheSameAnswerToTheLastByte) {
  const Scenario scenario = examples::ninefields();
  const ReportOptions options{Units::metric, true};
  const auto again = run(scenario);
  EXPECT_EQ(ration_json(scenario, again), ration_json(scenario, ninefields_answers()));
  EXPECT_EQ(write_text(ration_report(scenario, again, options), 80, false),
            write_text(ration_report(scenario, ninefields_answers(), options), 80, false));
}

}  // namespace
}  // namespace haymow::run_test
