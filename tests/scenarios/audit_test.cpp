#include "scenarios/audit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/scenarios/examples.h"

namespace haymow::audit_test {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

std::string scenario_text(const std::string& horse) {
  return "money: GBP\nhorses:\n  - {name: Ember, bodyweight: 500 kg, work: none, " + horse +
         "}\n"
         "forage:\n"
         "  - {feed: \"meadow hay, average\", name: our hay, price: 0.20 per kg, waste: 10 %}\n"
         "market:\n"
         "  - {feed: oats, price: 0.40 per kg}\n"
         "  - {feed: balancer pellet, price: 1.30 per kg}\n"
         "  - {feed: salt, price: 0.50 per kg}\n";
}

std::vector<Audit> audits_of(const std::string& horse) {
  return audit(read_scenario(scenario_text(horse), "test.yaml"));
}

std::vector<std::string> missed(const Audit& audit) {
  std::vector<std::string> ids;
  for (const Broken& broken : audit.broken) ids.push_back(broken.row.id);
  return ids;
}

TEST(Audit, OneForEachHorseThatIsFed) {
  EXPECT_THAT(audits_of("meals: 2"), IsEmpty());
  EXPECT_EQ(audits_of("fed now: {our hay: 9 kg}").size(), 1U);
}

// 10 kg put out, a tenth wasted: 9 kg are eaten and 10 kg are paid for.
TEST(Audit, WhatIsWastedFeedsNobodyAndCostsAllTheSame) {
  const Audit audit = audits_of("fed now: {our hay: 10 kg}").front();
  ASSERT_EQ(audit.ration.portions.size(), 1U);
  EXPECT_NEAR(audit.ration.portions[0].eaten.in_kg(), 9.0, 1e-9);
  EXPECT_NEAR(audit.ration.portions[0].put_out.in_kg(), 10.0, 1e-9);
  EXPECT_NEAR(audit.ration.cost.in_units(), 2.00, 1e-9);
}

// 4 kg of hay are no 7.5 kg of forage and give less energy than any horse needs.
TEST(Audit, FindsWhatIsMissing) {
  const Audit audit = audits_of("fed now: {our hay: 4 kg}").front();
  EXPECT_FALSE(audit.adequate());
  EXPECT_THAT(missed(audit), Contains("forage/min"));
  EXPECT_THAT(missed(audit), Contains("energy/min"));
  EXPECT_THAT(missed(audit), Not(Contains("energy/max")));
}

// 10 kg of hay and 4 kg of oats for a horse without work: too much energy, and
// 4 kg of oats in one meal are too large a meal with too much starch.
TEST(Audit, FindsWhatIsTooMuch) {
  const Audit audit = audits_of("meals: 1, fed now: {our hay: 10 kg, oats: 4 kg}").front();
  EXPECT_THAT(missed(audit), Contains("energy/max"));
  EXPECT_THAT(missed(audit), Contains("meal_size/max"));
  EXPECT_THAT(missed(audit), Contains("starch_meal/max"));
  EXPECT_THAT(missed(audit), Not(Contains("energy/min")));
}

TEST(Audit, MealsOfTheFileMakeSmallerMeals) {
  const Audit audit = audits_of("meals: 4, fed now: {our hay: 10 kg, oats: 4 kg}").front();
  EXPECT_THAT(missed(audit), Not(Contains("meal_size/max")));
}

// The cheapest safe ration, weighed out to the gram, is adequate by the audit:
// both judge by the same rows.
TEST(Audit, TheCheapestSafeRationIsAdequate) {
  Scenario scenario = examples::ninefields();
  for (std::size_t h = 0; h < scenario.stable.horses.size(); ++h) {
    const HorseAnswer& answer = examples::ninefields_answers()[h];
    ASSERT_EQ(answer.status, AnswerStatus::found);
    Horse& horse = scenario.stable.horses[h];
    horse.fed_now.clear();
    horse.meals = answer.question.meals;
    for (const Portion& p : answer.practical->ration.portions) {
      horse.fed_now.emplace_back(answer.question.offers[p.offer].name, p.put_out);
    }
  }
  for (const Audit& audit : audit(scenario)) {
    EXPECT_THAT(missed(audit), IsEmpty()) << audit.question.horse.name;
    EXPECT_TRUE(audit.adequate());
  }
}

// The oats cost 0.40; a feed of the table that is not on offer has no price.
TEST(Audit, AFeedThatIsNotOnOfferCountsButHasNoPrice) {
  const Audit audit =
      audits_of("fed now: {our hay: 9 kg, oats: 1 kg, \"barley, flaked\": 1 kg}").front();
  EXPECT_THAT(audit.without_price, ElementsAre("barley, flaked"));
  EXPECT_EQ(audit.ration.portions.size(), 3U);
  EXPECT_NEAR(audit.ration.cost.in_units(), 9.0 * 0.20 + 0.40, 1e-9);
}

TEST(Audit, AWishDoesNotMakeAFeedInadequate) {
  const Audit with_wish =
      audits_of("feeds: {none: [oats]}, fed now: {our hay: 10 kg, oats: 1 kg}").front();
  for (const std::string& id : missed(with_wish)) {
    EXPECT_FALSE(id.starts_with("wish/")) << id;
  }
  EXPECT_THAT(with_wish.best.question.horse.wishes, Not(IsEmpty()));
}

// Juniper of the example: 9 kg of hay, wasted by 8 %, at 86 % dry matter is
// 7.12 kg of forage, short of 1.5 % of 540 kg, 8.1 kg.
TEST(Audit, JuniperIsShortOfForage) {
  const Audit audit = haymow::audit(examples::ninefields()).front();
  EXPECT_EQ(audit.question.horse.name, "Juniper");
  EXPECT_THAT(missed(audit), Contains("forage/min"));
  EXPECT_NEAR(audit.ration.forage.in_kg(), 9.0 * 0.92 * 0.86, 1e-9);
  // 9 kg at 4.50 a bale of 18 kg, 2.5 kg at 11.60 and 1 kg at 11.40 a bag of 20.
  EXPECT_NEAR(audit.ration.cost.in_units(),
              9.0 * 4.50 / 18.0 + 2.5 * 11.60 / 20.0 + 1.0 * 11.40 / 20.0, 1e-9);
  EXPECT_EQ(audit.best.status, AnswerStatus::found);
}

}  // namespace
}  // namespace haymow::audit_test
