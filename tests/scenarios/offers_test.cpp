// The choice of feeds on the command line, and the answers it leads to.
#include "scenarios/offers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "scenarios/offers_options.h"

namespace haymow::offers_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

Scenario yard() {
  return read_scenario(
      "money: GBP\n"
      "horses:\n"
      "  - {name: Fern, bodyweight: 500 kg, work: light}\n"
      "  - {name: Colic, bodyweight: 500 kg, work: none, health: [colic]}\n"
      "forage:\n"
      "  - {feed: 'meadow hay, average', name: our hay, price: 200 per tonne, waste: 8 %}\n"
      "  - {feed: oat straw, price: 110 per tonne}\n"
      "market:\n"
      "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
      "  - {feed: balancer pellet, price: 28.00 per 20 kg bag}\n"
      "  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}\n"
      "  - {feed: salt, price: 11.00 per 25 kg bag}\n",
      "f.yaml");
}

std::vector<std::string> names_of(const Scenario& scenario) {
  std::vector<std::string> names;
  for (const Offer& offer : scenario.stable.offers) names.push_back(offer.name);
  return names;
}

OffersOptions plain() {
  OffersOptions options;
  options.alternatives.count = 1;
  return options;
}

TEST(OffersChoice, OfAPriceListKeepsTheYardsOwnForageAlone) {
  OffersOptions options = plain();
  Offer barley = yard().stable.offers[2];
  barley.name = "barley";
  options.only = std::vector<Offer>{barley};
  EXPECT_THAT(names_of(with_choice(yard(), options)),
              ElementsAre("our hay", "oat straw", "barley"));
}

TEST(OffersChoice, IsAWishOfEveryHorse) {
  OffersOptions options = plain();
  options.without = {"straw"};
  options.with = {{"oats", KgAsFed{0.5}}};
  const Scenario chosen = with_choice(yard(), options);
  for (const Horse& horse : chosen.stable.horses) {
    ASSERT_EQ(horse.wishes.size(), 2U);
    EXPECT_EQ(horse.wishes[0].kind, WishKind::none);
    EXPECT_EQ(horse.wishes[1].amount, KgAsFed{0.5});
  }
}

TEST(OffersChoice, OfTheSameFeedTwiceIsTheStricter) {
  OffersOptions options = plain();
  options.with = {{"oats", KgAsFed{0.5}}, {"oats", KgAsFed{0.8}}, {"oats", KgAsFed{0.2}}};
  const Scenario chosen = with_choice(yard(), options);
  ASSERT_EQ(chosen.stable.horses[0].wishes.size(), 1U);
  EXPECT_EQ(chosen.stable.horses[0].wishes[0].amount, KgAsFed{0.8});
}

TEST(Offers, AreAnsweredInTheOrderOfTheFileAndRefusedWhereAVetIsNeeded) {
  const auto answers = offers(yard(), plain());
  ASSERT_EQ(answers.size(), 2U);
  EXPECT_EQ(answers[0].answer.status, AnswerStatus::found);
  EXPECT_EQ(answers[0].ranges.size(), 3U);
  EXPECT_FALSE(answers[0].swaps.empty());
  EXPECT_FALSE(answers[0].cost_of_free_choice) << "nothing was chosen";
  EXPECT_EQ(answers[1].answer.status, AnswerStatus::refused);
  EXPECT_TRUE(answers[1].ranges.empty());
  EXPECT_TRUE(answers[1].curves.unused.empty());
}

TEST(Offers, WithAChoiceCostNoLessThanWithoutAndSayWhatThatCosts) {
  const auto free = offers(yard(), plain());
  OffersOptions options = plain();
  options.with = {{"oats", KgAsFed{1.0}}};
  const auto chosen = offers(yard(), options);
  ASSERT_EQ(chosen[0].answer.status, AnswerStatus::found);
  EXPECT_GE(chosen[0].answer.solution.columns[2], 1.0 - 1e-9);
  EXPECT_GT(chosen[0].answer.solution.cost, free[0].answer.solution.cost);
  ASSERT_TRUE(chosen[0].cost_of_free_choice);
  EXPECT_NEAR(chosen[0].cost_of_free_choice->in_units(),
              free[0].answer.practical->ration.cost.in_units(), 1e-9);
  EXPECT_FALSE(chosen[1].cost_of_free_choice) << "there is no ration with a free choice, either";
}

TEST(Offers, WithoutAnyForageHaveNoRationButTheCostOfTheFreeChoice) {
  OffersOptions options = plain();
  options.without = {"hay", "straw"};
  const auto answers = offers(yard(), options);
  EXPECT_EQ(answers[0].answer.status, AnswerStatus::none);
  EXPECT_TRUE(answers[0].mixes.empty());
  EXPECT_TRUE(answers[0].cost_of_free_choice);
}

OffersWords words_with(std::vector<std::string> OffersWords::*member,
                       const std::vector<std::string>& values) {
  OffersWords words;
  words.*member = values;
  return words;
}

TEST(OffersWordsRead, MustNameWhatIsOnOffer) {
  const auto complaint = [](const OffersWords& words) {
    Scenario scenario = yard();
    try {
      (void)offers_options(words, scenario);
    } catch (const UsageError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  EXPECT_THAT(complaint(words_with(&OffersWords::without, {"oast"})),
              HasSubstr("did you mean `oats`"));
  EXPECT_THAT(complaint(words_with(&OffersWords::with, {"oats"})),
              HasSubstr("--with takes a feed and the least"));
  EXPECT_THAT(complaint(words_with(&OffersWords::with, {"oats: 1"})), HasSubstr("--with oats"));
  OffersWords points_of_nothing;
  points_of_nothing.curves = "points.csv";
  EXPECT_THAT(complaint(points_of_nothing), HasSubstr("--curves writes the points"));
  EXPECT_EQ(complaint(words_with(&OffersWords::with, {"oats: 1 kg"})), "");
}

}  // namespace
}  // namespace haymow::offers_test
