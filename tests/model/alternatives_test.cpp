#include "model/alternatives.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solver/solve.h"
#include "tests/model/any_stable.h"
#include "tests/model/hand_made.h"

namespace haymow::alternatives_test {
namespace {

using hand_made::feed_of;
using hand_made::need_of;
using hand_made::offer_of;
using hand_made::question_of;

struct Asked {
  explicit Asked(RationQuestion given) : question(std::move(given)) {
    formulation = formulate(question);
    solution = solve(formulation.program);
    if (solution.status != Status::optimal) return;
    fed =
        practical_ration(question, formulation, certify(formulation.program, solution).lower_bound);
  }
  RationQuestion question;
  Formulation formulation;
  Solution solution;
  std::optional<PracticalRation> fed;
};

// Three forages of 10 MJ a kg at 0.20, 0.205 and 0.30; 100 MJ are needed. The
// second is 2.5 % dearer than the first, the third 50 %.
Asked three_forages() {
  const auto forage = [](const char* name, FeedGroup group) {
    return feed_of(name, group, 1000.0, {{Nutrient::energy, 10.0}});
  };
  return Asked(question_of(500.0,
                           {offer_of(forage("hay", FeedGroup::hay), 0.20),
                            offer_of(forage("haylage", FeedGroup::haylage), 0.205),
                            offer_of(forage("chaff", FeedGroup::dried_forage), 0.30)},
                           {need_of(Nutrient::energy, 100.0)}));
}

TEST(Alternatives, AreOtherFeedsWithinTheMargin) {
  const Asked asked = three_forages();
  ASSERT_TRUE(asked.fed);
  const auto found = alternatives(asked.question, asked.formulation, asked.solution, *asked.fed,
                                  {.count = 4, .margin = 0.05});
  ASSERT_FALSE(found.empty());
  EXPECT_THAT(found.front().feeds, ::testing::ElementsAre(1));
  EXPECT_NEAR(found.front().dearer, 0.025, 1e-9);
  EXPECT_NEAR(found.front().practical.amounts[1], 10.0, 1e-9);
}

TEST(Alternatives, AreNotThereWithinASmallerMargin) {
  const Asked asked = three_forages();
  ASSERT_TRUE(asked.fed);
  const auto found = alternatives(asked.question, asked.formulation, asked.solution, *asked.fed,
                                  {.count = 4, .margin = 0.001});
  EXPECT_TRUE(found.empty());
}

TEST(Alternatives, AreNoMoreThanAsked) {
  const Asked asked = three_forages();
  ASSERT_TRUE(asked.fed);
  EXPECT_TRUE(alternatives(asked.question, asked.formulation, asked.solution, *asked.fed,
                           {.count = 0, .margin = 0.05})
                  .empty());
}

// 1 g a kilogram of bodyweight is allowed of oil: 0.5 kg. With 0.4 kg it is 20 % away.
TEST(NearestLimit, IsMeasuredByItsBound) {
  RowMeaning row;
  row.id = "maker/oil/max";
  row.family = RowFamily::maker;
  row.side = Side::upper;
  row.bound = 0.5;
  row.part = {{0, 1.0}};
  Formulation formulation;
  formulation.rows.push_back(row);
  const auto nearest = nearest_limit(formulation, {0.4});
  ASSERT_TRUE(nearest);
  EXPECT_NEAR(nearest->distance, 0.2, 1e-12);
}

RationQuestion with_only(RationQuestion question, const std::vector<bool>& keep) {
  std::vector<Offer> kept;
  for (std::size_t j = 0; j < keep.size(); ++j) {
    if (keep[j]) kept.push_back(question.offers[j]);
  }
  question.offers = std::move(kept);
  return question;
}

// Grass is the last offer, given and not chosen: every mix has it, and offers keep
// their numbers in steps, meals and ration.
TEST(Alternatives, OfAHorseAtGrassKeepTheGrassAndTheNumbersOfTheOffers) {
  RationQuestion question = three_forages().question;
  question.offers.push_back(
      offer_of(feed_of("grass", FeedGroup::grass, 200.0, {{Nutrient::energy, 10.0}}), 0.0));
  question.grass =
      GrassToday{3, KgDryMatter{2.0}, KgDryMatter{2.0}, KgDryMatter{1.0}, KgDryMatter{3.0}};
  const Asked asked(std::move(question));
  ASSERT_TRUE(asked.fed);
  const auto found = alternatives(asked.question, asked.formulation, asked.solution, *asked.fed,
                                  {.count = 4, .margin = 0.05});
  ASSERT_FALSE(found.empty());
  EXPECT_THAT(found.front().feeds, ::testing::ElementsAre(1, 3));
  const PracticalRation& practical = found.front().practical;
  ASSERT_EQ(practical.steps.size(), 4U);
  EXPECT_NEAR(practical.amounts[3], 10.0, 1e-9);  // 2 kg dry of 200 g a kg
  EXPECT_NEAR(practical.steps[1] * practical.weighings[1].step.in_kg(), 8.0, 1e-9);
}

// A feed deleted and a feed wished away: the same least cost, or both none.
RC_GTEST_PROP(AlternativesLaws, DoingWithoutIsDeleting, ()) {
  RationQuestion question = any_stable::question();
  question.horse.wishes.clear();  // a wish drawn may be the one that is made below
  const auto gone =
      static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(question.offers.size())));
  std::vector<bool> keep(question.offers.size(), true);
  // A wish's word may mean more than one offer.
  const std::string word = question.offers[gone].name;
  RationQuestion wished = question;
  wished.horse.wishes.push_back({WishKind::none, word, KgAsFed{}, {}});
  const Formulation with_wish = formulate(wished);
  const RowMeaning& row = with_wish.rows.back();
  RC_PRE(row.id == "wish/none " + word + "/max");
  for (const Term& t : row.part) keep[static_cast<std::size_t>(t.column)] = false;
  const Solution without = solve(with_wish.program);
  const Solution deleted = solve(formulate(with_only(question, keep)).program);
  RC_ASSERT(without.status == deleted.status);
  if (without.status == Status::optimal) {
    RC_ASSERT(std::abs(without.cost - deleted.cost) <= 1e-7 * std::max(1.0, deleted.cost));
  }
}

// The rows of the plain formulation; a share of the barn may give by one step.
RC_GTEST_PROP(AlternativesLaws, KeepEveryRowAndDifferPairwise, ()) {
  const Asked asked(any_stable::question());
  RC_PRE(asked.fed.has_value());
  const AlternativesAsked wanted{.count = 3, .margin = 0.05};
  const auto found =
      alternatives(asked.question, asked.formulation, asked.solution, *asked.fed, wanted);
  RC_ASSERT(found.size() <= wanted.count);
  std::vector<const Ration*> all{&asked.fed->ration};
  for (const Alternative& a : found) {
    RC_ASSERT(broken_rows(asked.formulation.rows, a.practical.amounts).empty());
    RC_ASSERT(a.certificate.holds());
    RC_ASSERT(a.practical.certificate.largest_violation <= certificate_tolerance);
    const double cost = a.practical.ration.cost.in_units();
    const double most = std::max(asked.fed->ration.cost.in_units(), asked.solution.cost);
    RC_ASSERT(cost <= most * (1.0 + wanted.margin) + 1e-9);
    RC_ASSERT(cost >= a.certificate.lower_bound - 1e-6);
    for (const Ration* other : all) RC_ASSERT(really_differ(a.practical.ration, *other));
    all.push_back(&a.practical.ration);
  }
}

}  // namespace
}  // namespace haymow::alternatives_test
