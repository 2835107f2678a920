// Answers solved again in fractions, from the file to the report.
#include "scenarios/exact_answer.h"

#include <gtest/gtest.h>

#include <cmath>

#include "scenarios/scenario.h"
#include "tests/scenarios/examples.h"

namespace haymow::exact_answer_test {
namespace {

RunOptions exactly() {
  RunOptions options;
  options.exact = true;
  return options;
}

TEST(ExactAnswer, EveryHorseOfTheExampleIsConfirmed) {
  for (const HorseAnswer& answer : run(examples::ninefields(), exactly())) {
    const std::string& name = answer.question.horse.name;
    ASSERT_EQ(answer.status, AnswerStatus::found) << name;
    ASSERT_TRUE(answer.exact) << name;
    EXPECT_TRUE(answer.exact->confirms_cost()) << name;
    EXPECT_LT(std::abs(answer.exact->difference), 1e-6) << name;
    // Weak duality bounds the cost from below without the solver's word.
    EXPECT_GE(answer.exact->cost, answer.certificate.lower_bound - 1e-6) << name;
  }
}

TEST(ExactAnswer, IsNotThereUnasked) {
  for (const HorseAnswer& answer : examples::ninefields_answers()) EXPECT_FALSE(answer.exact);
}

TEST(ExactAnswer, AClashIsConfirmed) {
  const auto answers = run(read_scenario("money: GBP\nhorses:\n"
                                         "  - {name: Ember, bodyweight: 500 kg, work: none}\n"
                                         "market:\n  - {feed: oats, price: 0.40 per kg}\n",
                                         "test.yaml"),
                           exactly());
  const HorseAnswer& ember = answers.front();
  ASSERT_EQ(ember.status, AnswerStatus::none);
  ASSERT_TRUE(ember.exact);
  EXPECT_EQ(ember.exact->status, Status::infeasible);
  EXPECT_TRUE(is_confirmed(ember, *ember.exact));
}

// An optimum is no confirmation of a clash, nor a clash of a ration.
TEST(ExactAnswer, TheOtherAnswerConfirmsNothing) {
  HorseAnswer none;
  none.no_ration.emplace();
  HorseAnswer found;
  ExactCheck optimum;
  optimum.status = Status::optimal;
  ExactCheck clash;
  clash.status = Status::infeasible;
  EXPECT_FALSE(is_confirmed(none, optimum));
  EXPECT_TRUE(is_confirmed(none, clash));
  EXPECT_FALSE(is_confirmed(found, clash));
  EXPECT_TRUE(is_confirmed(found, optimum));
  EXPECT_FALSE(is_confirmed(found, ExactCheck{}));
}

}  // namespace
}  // namespace haymow::exact_answer_test
