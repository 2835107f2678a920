// Soaking as a keeper reads it: the clock of the file, the section, hay in water.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "scenarios/report.h"
#include "scenarios/report_soaking.h"
#include "scenarios/scenario_feeding_times.h"

namespace haymow::soaking_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

std::string yard(const std::string& times, const std::string& horse, const std::string& hay = "",
                 const std::string& beet = "") {
  return "money: GBP\n" + times + "horses:\n  - {name: Ember, bodyweight: 500 kg, work: light" +
         horse +
         "}\n"
         "forage:\n"
         "  - {feed: \"meadow hay, late cut\", name: hay, price: 0.20 per kg" +
         hay +
         "}\n"
         "market:\n"
         "  - {feed: \"sugar beet pulp, unmolassed\", name: beet, price: 0.60 per kg" +
         beet +
         "}\n"
         "  - {feed: soya bean meal, price: 0.80 per kg}\n"
         "  - {feed: balancer pellet, price: 1.30 per kg}\n"
         "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
         "  - {feed: limestone flour, price: 2.00 per kg}\n"
         "  - {feed: salt, price: 0.50 per kg}\n";
}

const char* const two_kg = ", feeds: {exactly: {beet: 2 kg}}";

Scenario read(const std::string& text) { return read_scenario(text, "f.yaml"); }

/// The report on one line, so that no line break falls into a sentence.
std::string text_of(const std::string& text) {
  const Scenario scenario = read(text);
  std::string line;
  for (const char c : write_text(ration_report(scenario, run(scenario), {}), 200, false)) {
    const bool blank = c == ' ' || c == '\n';
    if (!blank || !line.ends_with(' ')) line += blank ? ' ' : c;
  }
  return line;
}

std::vector<int> minutes_of(const Horse& horse) {
  std::vector<int> minutes;
  for (const TimeOfDay time : horse.feeding_times) minutes.push_back(time.minutes);
  return minutes;
}

TEST(FeedingTimes, AreMealsByTheClock) {
  const Horse horse = read(yard("feeding times: [18:00, 07:00, 12:30]\n", "")).stable.horses[0];
  EXPECT_EQ(horse.meals, 3);
  EXPECT_THAT(minutes_of(horse), ElementsAre(420, 750, 1080));
}

TEST(FeedingTimes, OfAHorseComeBeforeThoseOfTheYard) {
  const Horse horse =
      read(yard("feeding times: [07:00, 18:00]\n", ", feeding times: [6:15]")).stable.horses[0];
  EXPECT_EQ(horse.meals, 1);
  EXPECT_THAT(minutes_of(horse), ElementsAre(375));
}

TEST(FeedingTimes, ThatDoNotFitAHorsesMealsAreSaidAloud) {
  const Scenario scenario = read(yard("feeding times: [07:00, 18:00]\n", ", meals: 3"));
  EXPECT_EQ(scenario.stable.horses[0].meals, 3);
  EXPECT_THAT(minutes_of(scenario.stable.horses[0]), IsEmpty());
  ASSERT_EQ(scenario.remarks.size(), 1U);
  EXPECT_THAT(scenario.remarks[0].message, HasSubstr("told without the clock"));
}

TEST(FeedingTimes, OfTheYardLeaveAHorseThatCannotChewItsFourMeals) {
  const Scenario scenario =
      read(yard("feeding times: [07:00, 18:00]\n", ", health: [cannot chew long forage]"));
  EXPECT_FALSE(scenario.stable.horses[0].meals);
  EXPECT_THAT(minutes_of(scenario.stable.horses[0]), IsEmpty());
}

TEST(FeedingTimes, AreReadByTheClockOnly) {
  EXPECT_EQ(read_time_of_day("00:00").value->minutes, 0);
  EXPECT_EQ(read_time_of_day("23:59").value->minutes, 1439);
  for (const char* wrong :
       {"24:00", "12:60", "7", "7.30", "07:0", "-1:00", "7 am", "", ":", "007:00", "12:300"}) {
    EXPECT_TRUE(read_time_of_day(wrong).complaint) << wrong;
  }
}

// 1 kg of beet a meal for 12 hours: 19:00 the day before for 07:00, 06:00 for 18:00.
TEST(SoakingSection, SaysWhenToPutItInAcrossMidnight) {
  const std::string text = text_of(yard("feeding times: [07:00, 18:00]\n", two_kg, "",
                                        ", soaking: {water: 4 parts, cold: 12 h, warm: 45 min}"));
  EXPECT_THAT(text,
              HasSubstr("Soak beet: 1.0 kg dry in 4.0 litres (4.0 kg) of water a meal, 12 "
                        "hours in cold water or 45 minutes in warm, in a bucket of at least 7 "
                        "litres"));
  EXPECT_THAT(text, HasSubstr("Put it in at 19:00 the day before (warm: 06:15) for 07:00 and 06:00 "
                              "(warm: 17:15) for 18:00."));
  EXPECT_THAT(text, HasSubstr("keeps 12 hours"));
  EXPECT_THAT(text, HasSubstr("vinegar or wine"));
  EXPECT_THAT(text, HasSubstr("ferment while it soaks"));
}

TEST(SoakingSection, WithoutAClockSaysSoLongBefore) {
  EXPECT_THAT(text_of(yard("", ", meals: 2" + std::string(two_kg))),
              HasSubstr("Put it in so long before each feed."));
}

TEST(SoakingSection, IsNotThereWhereNothingIsSoaked) {
  EXPECT_THAT(text_of(yard("", ", feeds: {none: [beet]}")), Not(HasSubstr("What to soak")));
}

// Soaked for half an hour, 5 % of the dry matter is made up: the same is eaten, more
// is put out, and it costs more; the sugar of the hay is what it was.
TEST(SoakedHay, IsMadeUpAndNeverCountedAsLessSugar) {
  const std::string horse = ", meals: 2, feeds: {none: [beet], exactly: {hay: 9.5 kg}}";
  const Scenario dry = read(yard("", horse));
  const Scenario wet = read(yard("", horse, ", soaked: 30 min"));
  const HorseAnswer before = run(dry)[0];
  const HorseAnswer after = run(wet)[0];
  ASSERT_EQ(before.status, AnswerStatus::found);
  ASSERT_EQ(after.status, AnswerStatus::found);
  const Portion& eaten_dry = before.ration->portions[0];
  const Portion& eaten_wet = after.ration->portions[0];
  EXPECT_NEAR(eaten_wet.eaten / eaten_dry.eaten, 1.0, 1e-6);
  EXPECT_NEAR(eaten_wet.put_out / eaten_dry.put_out, 1.0 / 0.95, 1e-6);
  EXPECT_NEAR(eaten_wet.cost / eaten_dry.cost, 1.0 / 0.95, 1e-6);
  const auto& sugar_dry = dry.stable.offers[0].feed.composition[Nutrient::sugar];
  const auto& sugar_wet = wet.stable.offers[0].feed.composition[Nutrient::sugar];
  EXPECT_EQ(sugar_dry->value, sugar_wet->value);
}

// A sugar limit that the hay breaks dry, it breaks soaked for a night as well.
TEST(SoakedHay, MendsNoSugarLimit) {
  const std::string horse = ", meals: 2, health: [laminitis-prone]";
  const std::string sweet = ", analysis: {WSC: 22 % DM, dry matter: 86 %}";
  EXPECT_EQ(run(read(yard("", horse, sweet)))[0].status, AnswerStatus::none);
  EXPECT_EQ(run(read(yard("", horse, sweet + ", soaked: 16 h")))[0].status, AnswerStatus::none);
}

TEST(SoakedHay, IsToldWithTheRangeAndTheCautions) {
  const std::string text = text_of(yard("", ", meals: 2", ", soaked: 16 h"));
  EXPECT_THAT(text, HasSubstr("wash out 20 % of its dry matter"));
  EXPECT_THAT(text, HasSubstr("run from 9 to 54 %"));
  EXPECT_THAT(text, HasSubstr("none of it is reckoned with here"));
  EXPECT_THAT(text, HasSubstr("Feed it at once"));
  EXPECT_THAT(text, HasSubstr("Pour the water away"));
  EXPECT_THAT(text, HasSubstr("Phosphorus, potassium and magnesium always fall"));
}

}  // namespace
}  // namespace haymow::soaking_test
