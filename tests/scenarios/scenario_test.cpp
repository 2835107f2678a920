// Sound scenario files and what is read from them. Files with a mistake are in
// mistakes/ and scenario_mistakes_test.cpp.
#include "scenarios/scenario.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <variant>

#include "tests/scenarios/files.h"
#include "tests/scenarios/message_page.h"

namespace haymow::scenario_test {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const Scenario& everything() {
  static const Scenario scenario =
      read_scenario(test_files::text_of("everything.yaml"), "everything.yaml");
  return scenario;
}

const Horse& horse(std::string_view name) {
  for (const Horse& horse : everything().stable.horses) {
    if (horse.name == name) return horse;
  }
  throw std::out_of_range(std::string(name));
}

const Offer& offer(std::string_view name) {
  for (const Offer& offer : everything().stable.offers) {
    if (offer.name == name) return offer;
  }
  throw std::out_of_range(std::string(name));
}

/// The messages of what was assumed.
std::vector<std::string> remarks_of(std::string_view text) {
  std::vector<std::string> messages;
  for (const Diagnostic& remark : read_scenario(text, "f.yaml").remarks) {
    EXPECT_EQ(remark.severity, Severity::warning);
    EXPECT_TRUE(message_page::explains(remark.message)) << remark.message;
    messages.push_back(remark.message);
  }
  return messages;
}

constexpr std::string_view one_horse = R"(money: GBP
horses: [{name: Juniper, bodyweight: 540 kg, work: none}]
)";
std::string with(std::string_view offers) { return std::string(one_horse) + std::string(offers); }

TEST(Scenario, YardMoneyAndSeason) {
  EXPECT_EQ(everything().stable.yard,
            "Ninefields Yard, Gro\xc3\x9f"
            "au");
  EXPECT_EQ(everything().stable.money, "GBP");
  // 30 of November, 31, 31, 28, 31 and 20 of April: both ends are fed.
  ASSERT_TRUE(everything().stable.season);
  EXPECT_EQ(everything().stable.season->in_days(), 171.0);
}

TEST(Scenario, HorsesKeepTheOrderOfTheFile) {
  std::vector<std::string> names;
  for (const Horse& h : everything().stable.horses) names.push_back(h.name);
  EXPECT_THAT(names, ElementsAre("Juniper", "Pocket", "\xd0\x81\xd0\xbb\xd0\xba\xd0\xb0", "Skylark",
                                 "Bramble", "Fern", "Oakley", "Hazel"));
}

TEST(Scenario, LifeStages) {
  EXPECT_EQ(describe(horse("Juniper").stage), describe(Working{WorkLevel::moderate}));
  EXPECT_EQ(describe(horse("Pocket").stage), describe(Idle{MaintenanceLevel::average}));
  EXPECT_EQ(describe(horse("\xd0\x81\xd0\xbb\xd0\xba\xd0\xb0").stage),
            describe(Idle{MaintenanceLevel::elevated}));
  EXPECT_EQ(describe(horse("Bramble").stage), describe(Pregnant{9}));
  EXPECT_EQ(describe(horse("Fern").stage), describe(Lactating{2}));
  EXPECT_EQ(describe(horse("Oakley").stage), describe(Stallion{true}));
  EXPECT_EQ(describe(horse("Skylark").stage), describe(Growing{14.0, WorkLevel::light}));
}

TEST(Scenario, PoundsAreKilograms) {
  EXPECT_THAT(horse("Skylark").bodyweight.in_kg(), DoubleNear(750 * 0.45359237, 1e-9));
  ASSERT_TRUE(horse("Skylark").mature_weight);
  EXPECT_THAT(horse("Skylark").mature_weight->in_kg(), DoubleNear(1150 * 0.45359237, 1e-9));
}

TEST(Scenario, ATapedHorseIsWeighedAndSaysHow) {
  const Horse& pocket = horse("Pocket");
  // A pony's tape, girth and length in metres (Martinson 2014), within a tenth.
  EXPECT_THAT(pocket.bodyweight.in_kg(), DoubleNear(1.58 * 1.58 * 1.26 * 1e6 / 11880.0, 30.0));
  EXPECT_THAT(pocket.bodyweight_note, HasSubstr("girth 158 cm and length 126 cm"));
  EXPECT_THAT(horse("\xd0\x81\xd0\xbb\xd0\xba\xd0\xb0").bodyweight_note,
              HasSubstr("girth 190.5 cm alone"));
  EXPECT_EQ(horse("Juniper").bodyweight_note, "");
}

TEST(Scenario, ConditionColdHealthAndMeals) {
  const Horse& juniper = horse("Juniper");
  ASSERT_TRUE(juniper.condition);
  EXPECT_EQ(juniper.condition->now, 4.0);
  EXPECT_EQ(juniper.condition->aim, 5.0);
  EXPECT_EQ(juniper.condition->within->in_days(), 92.0);  // November, December, January
  EXPECT_EQ(juniper.meals, 3);
  EXPECT_THAT(juniper.health, ElementsAre(HealthState::gastric_ulcers));
  const auto& cold = horse("\xd0\x81\xd0\xbb\xd0\xba\xd0\xb0").cold;
  ASSERT_TRUE(cold);
  EXPECT_EQ(cold->temperature_c, -20.0);
  EXPECT_THAT(cold->critical_c, DoubleNear(5.0, 1e-9));
  EXPECT_EQ(horse("Pocket").energy_factor, 0.9);
  // Without an aim the condition stays.
  EXPECT_EQ(horse("Bramble").condition->aim, 5.0);
  EXPECT_FALSE(horse("Bramble").condition->within);
}

TEST(Scenario, WishesInstructionsAndWhatIsFed) {
  const Horse& juniper = horse("Juniper");
  ASSERT_EQ(juniper.wishes.size(), 4U);
  EXPECT_EQ(juniper.wishes[0].kind, WishKind::none);
  EXPECT_EQ(juniper.wishes[0].what, "alfalfa");
  EXPECT_EQ(juniper.wishes[1].what, "our hay");
  EXPECT_EQ(juniper.wishes[1].amount.in_kg(), 6.0);
  EXPECT_EQ(juniper.wishes[2].amount.in_kg(), 1.5);
  EXPECT_THAT(juniper.wishes[3].amount.in_kg(), DoubleNear(0.028349523125, 1e-12));
  ASSERT_EQ(juniper.fed_now.size(), 2U);
  EXPECT_EQ(juniper.fed_now[0].first, "our hay");
  EXPECT_EQ(juniper.fed_now[1].first, "oats, whole");
  ASSERT_EQ(horse("Pocket").instructions.size(), 1U);
  EXPECT_EQ(horse("Pocket").instructions[0].number, 1.25);
  EXPECT_EQ(horse("Pocket").instructions[0].by, "vet, 2026-10-02");
}

TEST(Scenario, AnAnalysisReplacesTheFiguresOfTheTable) {
  const Offer& hay = offer("our hay");
  EXPECT_TRUE(hay.own);
  EXPECT_EQ(hay.feed.dry_matter.value, 860.0);
  EXPECT_THAT(hay.feed.composition[Nutrient::calcium]->value, DoubleNear(3.6, 1e-12));
  EXPECT_EQ(hay.feed.composition[Nutrient::calcium]->origin, FigureOrigin::laboratory);
  EXPECT_THAT(hay.feed.composition[Nutrient::copper]->value, DoubleNear(4.0, 1e-12));
  // NSC is starch and WSC; fructan is WSC without ESC.
  EXPECT_THAT(hay.feed.composition[Nutrient::starch]->value, DoubleNear(20.0, 1e-9));
  EXPECT_THAT(hay.feed.composition[Nutrient::fructan]->value, DoubleNear(30.0, 1e-9));
  // What the laboratory did not look for stays as the table has it.
  EXPECT_NE(hay.feed.composition[Nutrient::potassium]->origin, FigureOrigin::laboratory);
}

TEST(Scenario, ALabelIsOfTheFeedAsFed) {
  const Feed& cube = offer("corner shop low-starch cube").feed;
  EXPECT_EQ(cube.group, FeedGroup::compound);
  EXPECT_TRUE(cube.traits.contains(FeedTrait::hard));
  EXPECT_THAT(cube.composition[Nutrient::crude_protein]->value, DoubleNear(100.0 / 0.88, 1e-9));
  EXPECT_THAT(cube.composition[Nutrient::energy]->value, DoubleNear(10.0 / 0.88, 1e-9));
  EXPECT_THAT(cube.composition[Nutrient::copper]->value, DoubleNear(30.0 / 0.88, 1e-9));
  // 1 mg of the form in bags is 1 IU.
  EXPECT_THAT(cube.composition[Nutrient::vitamin_e]->value, DoubleNear(200.0 / 0.88, 1e-9));
  // Not on the label: unknown, which is not nothing.
  EXPECT_FALSE(cube.composition[Nutrient::zinc]);
}

TEST(Scenario, PricesAreByTheKilogramAndStocksInKilograms) {
  EXPECT_THAT(offer("our hay").price_per_kg.in_units(), DoubleNear(4.5 / 18.0, 1e-12));
  EXPECT_EQ(offer("our hay").on_hand->in_kg(), 140 * 18.0);
  EXPECT_EQ(offer("our hay").waste, 0.08);
  EXPECT_EQ(offer("oat straw").price_per_kg.in_units(), 0.0);
  EXPECT_EQ(offer("oat straw").on_hand->in_kg(), 2500.0);
  EXPECT_THAT(offer("oats, whole").price_per_kg.in_units(),
              DoubleNear(9 / (50 * 0.45359237), 1e-12));
  EXPECT_FALSE(offer("oats, whole").on_hand);
  EXPECT_THAT(offer("vegetable oil, rapeseed").price_per_kg.in_units(),
              DoubleNear(18.0 / (5 * *offer("vegetable oil, rapeseed").feed.kg_per_litre), 1e-12));
}

TEST(Scenario, SoakingAndTheMakersDailyAmount) {
  const auto& soaking = offer("sugar beet pulp, unmolassed").feed.soaking;
  ASSERT_TRUE(soaking);
  EXPECT_EQ(soaking->water_parts, 4.0);
  EXPECT_EQ(soaking->cold_minutes, 720.0);
  EXPECT_EQ(soaking->warm_minutes, 45.0);
  const auto& most = offer("joint powder").feed.daily_most;
  ASSERT_TRUE(most);
  EXPECT_THAT(most->amount.in_kg(), DoubleNear(0.06, 1e-12));
  EXPECT_EQ(most->per->in_kg(), 500.0);
  EXPECT_THAT(offer("joint powder").feed.dry_matter.value, DoubleNear(950.0, 1e-9));
}

TEST(Scenario, WordsThatOnlyComeNearAreSaidAloud) {
  std::vector<std::string> messages;
  for (const Diagnostic& remark : everything().remarks) messages.push_back(remark.message);
  EXPECT_THAT(messages, ::testing::IsSupersetOf({"`meadow hay` is taken to be `our hay`",
                                                 "`oats` is taken to be `oats, whole`"}));
}

TEST(Scenario, TheSameWithWindowsLinesAndAByteOrderMark) {
  std::string text = "\xef\xbb\xbf";
  for (const char c : test_files::text_of("everything.yaml")) {
    if (c == '\n') text += '\r';
    text += c;
  }
  const Scenario scenario = read_scenario(text, "everything.yaml");
  ASSERT_EQ(scenario.stable.horses.size(), everything().stable.horses.size());
  EXPECT_EQ(scenario.stable.yard, everything().stable.yard);
  EXPECT_EQ(scenario.stable.horses[1].instructions[0].by, "vet, 2026-10-02");
  EXPECT_EQ(scenario.stable.offers.back().name, "joint powder");
}

TEST(Scenario, TwoHundredHorses) {
  std::string text = "money: EUR\nforage: [{feed: oat straw, price: 0 per kg}]\nhorses:\n";
  for (int i = 1; i <= 200; ++i) {
    text += "  - {name: horse " + std::to_string(i) + ", bodyweight: 540 kg, work: light}\n";
  }
  const Scenario scenario = read_scenario(text, "f.yaml");
  ASSERT_EQ(scenario.stable.horses.size(), 200U);
  EXPECT_EQ(scenario.stable.horses[199].name, "horse 200");
}

TEST(Scenario, WhatIsOwnMayCostNothingWithoutARemark) {
  EXPECT_THAT(remarks_of(with("forage: [{feed: oat straw, price: 0 per kg}]\n")), IsEmpty());
}

TEST(Scenario, AGiftOfTheMarketIsSaidAloud) {
  EXPECT_THAT(remarks_of(with("market: [{feed: oat straw, price: 0 per kg}]\n")),
              ElementsAre("`oat straw` costs nothing, so as much of it as the limits allow will be "
                          "used"));
}

TEST(Scenario, TheWeightOfABaleIsAssumedOnceAndSaidAloud) {
  const std::string text =
      with("forage: [{feed: oat straw, on hand: 9 bales, price: 2 per bale}]\n");
  EXPECT_THAT(
      remarks_of(text),
      ElementsAre("what a bale of `oat straw` weighs is not written; 10 kg is assumed, the "
                  "light end of 10 to 14 kg (from memory); a kg costs 0.143 to 0.2 by that, "
                  "and 0.2 is planned with"));
  const Scenario scenario = read_scenario(text, "f.yaml");
  EXPECT_EQ(scenario.stable.offers[0].on_hand->in_kg(), 90.0);
  EXPECT_THAT(scenario.stable.offers[0].price_per_kg.in_units(), DoubleNear(2.0 / 10.0, 1e-12));
}

TEST(Scenario, NoForageAtAllIsSaidAloud) {
  EXPECT_THAT(remarks_of(with("market: [{feed: 'oats, whole', price: 1 per kg}]\n")),
              ElementsAre("no hay, haylage, straw or grass is on offer"));
}

TEST(Scenario, ALabelWithoutDryMatterIsSaidAloud) {
  EXPECT_THAT(
      remarks_of(with("forage: [{feed: oat straw, price: 0 per kg}]\nmarket:\n"
                      "  - {name: cube, group: compound, price: 1 per kg,\n"
                      "     label: {energy: 10 MJ/kg}}\n")),
      ElementsAre("the label gives no dry matter; 88 % is assumed, as usual for such feed"));
}

TEST(Scenario, TheCriticalTemperatureIsAssumedAndSaidAloud) {
  EXPECT_THAT(remarks_of("money: GBP\nforage: [{feed: oat straw, price: 0 per kg}]\nhorses:\n"
                         "  - {name: J, bodyweight: 500 kg, work: none,\n"
                         "     cold: {temperature: -20 C}}\n"),
              ElementsAre("no critical temperature is given; -15 C is assumed, of a grown horse "
                          "used to cold"));
}

TEST(Scenario, ANameThatIsPartOfAnotherMeansBoth) {
  EXPECT_THAT(remarks_of("money: GBP\nforage: [{feed: oat straw, price: 0 per kg}]\nmarket:\n"
                         "  - {name: cube, group: compound, price: 1 per kg,\n"
                         "     label: {dry matter: 88 %, energy: 10 MJ/kg}}\n"
                         "  - {name: stud cube, group: compound, price: 1 per kg,\n"
                         "     label: {dry matter: 88 %, energy: 10 MJ/kg}}\n"
                         "horses:\n"
                         "  - {name: J, bodyweight: 500 kg, work: none,\n"
                         "     feeds: {at least: {cube: 1 kg}}}\n"),
              ElementsAre("`cube` means `cube` and `stud cube` together"));
}

TEST(Scenario, TheAgeOfAnAnalysisIsCountedToTheFirstDayOfTheSeason) {
  const Scenario scenario = read_scenario(
      "money: GBP\nseason: {from: 2026-11-01, until: 2027-04-20}\nhorses:\n"
      "  - {name: Juniper, bodyweight: 540 kg, work: none}\nforage:\n"
      "  - {feed: \"meadow hay, average\", analysis: {crude protein: 71 g/kg DM}, "
      "analysed: 2026-09-15, price: 0.2 per kg}\n",
      "test.yaml");
  ASSERT_TRUE(scenario.stable.offers[0].analysis_age.has_value());
  EXPECT_EQ(scenario.stable.offers[0].analysis_age->in_days(), 47.0);
}

}  // namespace
}  // namespace haymow::scenario_test
