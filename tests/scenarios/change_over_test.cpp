// Changing over from what is fed now: calendar, words and JSON. The steps are held
// by tests/model/change_plan_test.cpp and change_laws_test.cpp.
#include "scenarios/change_over.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "scenarios/report.h"
#include "scenarios/report_change.h"
#include "scenarios/run.h"
#include "scenarios/scenario_dates.h"
#include "tests/scenarios/examples.h"

namespace haymow::change_over_test {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

std::string yard(const std::string& horse, const std::string& head = "") {
  return head + "money: GBP\nhorses:\n  - {name: Ember, bodyweight: 500 kg, meals: 2, " + horse +
         "}\n"
         "forage:\n"
         "  - {feed: \"meadow hay, average\", name: hay, price: 0.20 per kg, waste: 10 %}\n"
         "  - {feed: oat straw, price: 0.10 per kg}\n"
         "market:\n"
         "  - {feed: conditioning cubes, price: 0.60 per kg}\n"
         "  - {feed: balancer pellet, price: 1.30 per kg}\n"
         "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
         "  - {feed: salt, price: 0.50 per kg}\n";
}

constexpr const char* on_oats = "work: light, fed now: {hay: 9 kg, \"oats, whole\": 2 kg}";

HorseAnswer answer_to(const std::string& text) {
  return run(read_scenario(text, "test.yaml")).front();
}

std::string text_for(const std::string& text, bool verbose = false) {
  const Scenario scenario = read_scenario(text, "test.yaml");
  ReportOptions options;
  options.verbose = verbose;
  return write_text(ration_report(scenario, run(scenario), options), 200, false);
}

std::string text_of(const HorseAnswer& answer) {
  Report report;
  report.parts.push_back({"Ember", true, {}});
  add_change_sections(report.parts.back(), answer, Wording(Units::metric, "GBP"), false);
  return write_text(report, 200, false);
}

// --- when there is one -----------------------------------------------------------

TEST(ChangeOver, NeedsToKnowWhatIsFedNow) {
  EXPECT_FALSE(answer_to(yard("work: light")).change);
  EXPECT_THAT(text_for(yard("work: light")), Not(HasSubstr("Changing over")));
}

TEST(ChangeOver, IsNotPlannedForAHorseThatIsRefused) {
  EXPECT_FALSE(
      answer_to(yard("work: light, health: [colic], fed now: {hay: 9 kg}")).change.has_value());
}

TEST(ChangeOver, EndsInTheRationThatIsShown) {
  const HorseAnswer answer = answer_to(yard(on_oats));
  ASSERT_TRUE(answer.change && answer.practical);
  const std::vector<double>& last = answer.change->plan.steps.back().amounts;
  for (std::size_t j = 0; j < last.size(); ++j) {
    EXPECT_DOUBLE_EQ(last[j],
                     j < answer.practical->amounts.size() ? answer.practical->amounts[j] : 0.0);
  }
}

// A promise against bad batches adds columns behind those of the feeds, where a feed
// that is not on offer has its place here.
TEST(ChangeOver, ColumnsBehindTheFeedsAreNoAmounts) {
  const Scenario scenario = read_scenario(yard(on_oats), "test.yaml");
  HorseAnswer answer = run(scenario).front();
  answer.practical.reset();
  answer.solution.columns.push_back(3.0);
  const auto change = change_over(scenario, answer);
  ASSERT_TRUE(change);
  ASSERT_EQ(change->not_on_offer.size(), 1U);
  EXPECT_EQ(change->between.then.back(), 0.0);
}

TEST(ChangeOver, StartsFromWhatIsEatenOfWhatIsPutOut) {
  EXPECT_NEAR(answer_to(yard(on_oats)).change->between.now[0], 8.1, 1e-9);
}

TEST(ChangeOver, WhatAWishOrAStockAsksMakesNoStepUnsafe) {
  const HorseAnswer answer =
      answer_to(yard(std::string(on_oats) + ", feeds: {at least: {hay: 9.5 kg}}"));
  ASSERT_TRUE(answer.change);
  for (const RowMeaning& row : answer.change->between.formulation.rows) {
    EXPECT_NE(row.family, RowFamily::wish);
    EXPECT_NE(row.family, RowFamily::stock);
  }
}

// --- words -------------------------------------------------------------------------

TEST(ChangeOver, AFeedThatIsNotOnOfferIsKeptBack) {
  const HorseAnswer answer = answer_to(yard(on_oats));
  EXPECT_THAT(answer.change->not_on_offer, ElementsAre("oats, whole"));
  double needed = 0.0;
  for (const ChangeStep& step : answer.change->plan.steps) {
    if (step.to_day) needed += (*step.to_day - step.from_day + 1) * step.amounts.back();
  }
  ASSERT_GT(needed, 5.0);
  EXPECT_THAT(text_of(answer),
              HasSubstr(fmt::format("Keep back {:.1f} kg of oats, whole to finish", needed)));
}

TEST(ChangeOver, NothingIsSaidInManyWordsWhereNothingChanges) {
  const HorseAnswer before = answer_to(yard("work: light"));
  std::string fed = "work: light, fed now: {";
  for (const Portion& p : before.practical->ration.portions) {
    fed +=
        fmt::format("\"{}\": {:.3f} kg, ", before.question.offers[p.offer].name, p.put_out.in_kg());
  }
  const HorseAnswer after = answer_to(yard(fed + "}"));
  ASSERT_TRUE(after.change);
  EXPECT_FALSE(after.change->plan.changes);
  EXPECT_THAT(text_of(after), AllOf(HasSubstr("Nothing changes: this is what Ember is fed now."),
                                    Not(HasSubstr("put out a day"))));
}

TEST(ChangeOver, WithoutASafeWayItSendsToTheVetAndShowsNoSteps) {
  HorseAnswer answer = answer_to(yard(on_oats));
  ChangePlan& plan = answer.change->plan;
  plan.safe = false;
  plan.steps.clear();
  for (const RowMeaning& row : answer.change->between.formulation.rows) {
    if (row.id == "forage/min") plan.unavoidable.push_back({row, 7.4});
  }
  EXPECT_THAT(text_of(answer),
              AllOf(HasSubstr("a limit that is kept now: forage. Ask your vet how to change over."),
                    Not(HasSubstr("put out a day"))));
}

TEST(ChangeOver, AHorseThatIsHardlyFedGetsNoSlowSteps) {
  const HorseAnswer answer = answer_to(yard("work: light, fed now: {hay: 3 kg}"));
  ASSERT_TRUE(answer.change);
  EXPECT_TRUE(answer.change->plan.steps.empty());
  EXPECT_THAT(text_of(answer), AllOf(HasSubstr("such as grass"), HasSubstr("ask your vet"),
                                     Not(HasSubstr("put out a day"))));
}

TEST(ChangeOver, ManyStepsAreShownOnRequest) {
  const HorseAnswer& bramble = examples::answer_for("Bramble");
  const std::size_t steps = bramble.change->plan.steps.size();
  ASSERT_GT(steps, 4U);
  Report::Part few;
  Report::Part all;
  add_change_sections(few, bramble, Wording(Units::metric, "GBP"), false);
  add_change_sections(all, bramble, Wording(Units::metric, "GBP"), true);
  EXPECT_EQ(few.sections.size(), 1U);
  std::size_t columns = 0;
  for (const Section& section : all.sections) columns += section.table->headings.size() - 1;
  EXPECT_EQ(columns, steps + 1);  // and what is fed now
}

// --- days --------------------------------------------------------------------------

TEST(ChangeOver, CountsDaysWhereTheFileHasNoDate) {
  const std::string text = text_for(yard(on_oats), true);
  EXPECT_THAT(text, HasSubstr("day 1"));
  EXPECT_THAT(text, HasSubstr("day 15"));
}

TEST(ChangeOver, BeginsWithTheSeasonUnlessTheFileSaysWhen) {
  const std::string season = "season: {from: 2026-12-20, until: 2027-03-31}\n";
  EXPECT_THAT(text_for(yard(on_oats, season), true),
              AllOf(HasSubstr("20 Dec"), HasSubstr("3 Jan")));
  EXPECT_THAT(text_for(yard(on_oats, season + "change: {from: 2028-02-20}\n"), true),
              AllOf(HasSubstr("20 Feb"), HasSubstr("5 Mar")));  // a leap year
}

TEST(ChangeOver, TakesTheDaysThatTheFileAsksFor) {
  EXPECT_EQ(answer_to(yard(on_oats, "change: {over: 3 weeks}\n")).change->plan.days, 21);
  EXPECT_EQ(answer_to(yard(on_oats, "change: {over: 10 days}\n")).change->plan.days, 10);
  EXPECT_EQ(answer_to(yard(on_oats)).change->plan.days, 14);
}

TEST(ChangeOver, SaysWhyItIsNoFaster) {
  const std::string text = text_for(
      yard(std::string(on_oats) + ", health: [gastric ulcers]", "change: {over: 10 days}\n"));
  EXPECT_THAT(text, HasSubstr("over 14 days"));
  EXPECT_THAT(text, HasSubstr("Not faster, because of gastric ulcers."));
}

TEST(ScenarioDates, DaysAreCountedOverTheEndOfMonthsAndYears) {
  EXPECT_EQ(iso_text(days_after({2028, 2, 28}, 1)), "2028-02-29");
  EXPECT_EQ(iso_text(days_after({2027, 2, 28}, 1)), "2027-03-01");
  EXPECT_EQ(iso_text(days_after({2026, 12, 31}, 1)), "2027-01-01");
  EXPECT_EQ(short_text({2026, 11, 1}), "1 Nov");
}

// --- JSON --------------------------------------------------------------------------

TEST(ChangeOver, TheJsonHasTheSameSteps) {
  const HorseAnswer answer =
      answer_to(yard(on_oats, "change: {from: 2026-11-02, over: 14 days}\n"));
  const auto json = change_json(*answer.change);
  EXPECT_EQ(json["first_day"], "2026-11-02");
  EXPECT_EQ(json["days"], 14);
  ASSERT_EQ(json["steps"].size(), answer.change->plan.steps.size());
  EXPECT_EQ(json["steps"].front()["from_date"], "2026-11-02");
  EXPECT_EQ(json["steps"].back()["from_date"], "2026-11-16");
  EXPECT_TRUE(json["steps"].back()["to_date"].is_null());
  bool told = false;
  for (const auto& feed : json["on_the_way"]) {
    if (feed["feed"] == "oats, whole") told = feed["on_offer"] == false;
  }
  EXPECT_TRUE(told);
}

TEST(ChangeOver, TheJsonIsLeftOutWhereNothingIsFedNow) {
  const Scenario scenario = read_scenario(yard("work: light"), "test.yaml");
  EXPECT_THAT(ration_json(scenario, run(scenario)), Not(HasSubstr("change_plan")));
}

}  // namespace
}  // namespace haymow::change_over_test
