// What a winter and a stretch that were stopped still say, and what they must not.
#include "scenarios/report_stopped.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "scenarios/progress_line.h"
#include "scenarios/report_stretch.h"
#include "scenarios/report_winter.h"
#include "tests/scenarios/hand_plan.h"

namespace haymow::stopped_test {
namespace {

using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::Not;

Scenario yard() {
  return read_scenario(
      "money: GBP\n"
      "season: {from: 2027-11-15, until: 2027-12-12}\n"
      "horses:\n"
      "  - {name: Cob, bodyweight: 500 kg, work: light}\n"
      "forage:\n"
      "  - {feed: 'meadow hay, average', name: hay, price: 5 per 20 kg bale, waste: 5 %}\n"
      "market:\n"
      "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
      "  - {feed: balancer pellet, name: balancer, price: 28 per 20 kg bag}\n"
      "  - {feed: vitamin and mineral powder, name: minerals, price: 21 per 3 kg tub}\n"
      "  - {feed: limestone flour, price: 6.50 per 3 kg tub}\n"
      "  - {feed: salt, price: 11 per 25 kg bag}\n",
      "yard.yaml");
}

/// Stops when the stage of that name begins.
struct StopAt {
  explicit StopAt(std::string name) : stage(std::move(name)) {
    watch.season.stop = [this] { return stopped; };
    watch.stage = [this](std::string_view what) { stopped = stopped || what == stage; };
  }
  StopAt(const StopAt&) = delete;
  StopAt& operator=(const StopAt&) = delete;

  std::string stage;
  bool stopped = false;
  Watch watch;
};

std::string text_of(const Report& report) { return write_text(report, 200, false); }

TEST(Stopped, AWinterKeepsItsPlanAndSaysNothingOfALongerOne) {
  const StopAt at("what a week more would cost");
  Planners planners = hand::planners();
  planners.watch = at.watch;
  const Scenario scenario = yard();
  const WinterAnswer answer = winter(scenario, planners);
  EXPECT_TRUE(answer.stopped);
  EXPECT_TRUE(answer.bills.has_value());
  EXPECT_FALSE(answer.other.has_value());
  const std::string text = text_of(winter_report(scenario, answer, {}));
  EXPECT_THAT(text, HasSubstr("Stopped before it was done"));
  EXPECT_THAT(text, HasSubstr("The plan is certified"));
  EXPECT_THAT(text, Not(HasSubstr("there is no plan")));
  EXPECT_THAT(winter_json(scenario, answer), HasSubstr("\"stopped\": true"));
}

TEST(Stopped, ByTheTimeAWinterSaysSoAndDoesNotBlameAnybody) {
  const StopAt at("what a week more would cost");
  Planners planners = hand::planners();
  planners.watch = at.watch;
  const Scenario scenario = yard();
  WinterAnswer answer = winter(scenario, planners);
  answer.time_is_up = true;
  const std::string text = text_of(winter_report(scenario, answer, {}));
  EXPECT_THAT(text, HasSubstr("The time was over before it was done"));
  EXPECT_THAT(text, Not(HasSubstr("Stopped")));
  EXPECT_THAT(text, Not(HasSubstr("No other file was written")));
}

// What was not proven to have no plan must not read as if it were.
TEST(OutOfTime, WhatALongerWinterCostsIsNotProvenAndNotWithoutAPlan) {
  Planners planners = hand::planners();
  planners.bound = [](const SeasonQuestion&) {
    SeasonPlan plan;
    plan.status = SeasonStatus::limit_reached;
    plan.lower_bound = Money{1.0};
    return plan;
  };
  const Scenario scenario = yard();
  const WinterAnswer answer = winter(scenario, planners);
  ASSERT_TRUE(answer.other.has_value());
  const std::string text = text_of(winter_report(scenario, answer, {}));
  EXPECT_THAT(text, HasSubstr("A week more of winter: what it costs was not proven in time."));
  EXPECT_THAT(text, Not(HasSubstr("there is no plan")));
  const std::string json = winter_json(scenario, answer);
  EXPECT_THAT(json, HasSubstr("\"week_more_costs\": null"));
  EXPECT_THAT(json, ContainsRegex("\"not_proven\": \\[\\s*\"week_more_costs\""));
}

TEST(OutOfTime, AProofThatALongerWinterHasNoPlanIsSaid) {
  Planners planners = hand::planners();
  planners.bound = [](const SeasonQuestion&) {
    SeasonPlan plan;
    plan.status = SeasonStatus::none;
    return plan;
  };
  const Scenario scenario = yard();
  const std::string text = text_of(winter_report(scenario, winter(scenario, planners), {}));
  EXPECT_THAT(text, HasSubstr("For a winter a week longer there is no plan"));
}

TEST(Stopped, AStretchLeavesOutThePartAtWorkAndThoseAfterIt) {
  const StopAt at("what bought hay may cost");
  const Scenario scenario = yard();
  const StretchAnswer answer = stretch(scenario, at.watch);
  EXPECT_EQ(answer.stopped_in, StretchPart::prices);
  EXPECT_TRUE(answer.found());
  const std::string text = text_of(stretch_report(scenario, answer, {}));
  EXPECT_THAT(text, HasSubstr("Stopped before it was done"));
  EXPECT_THAT(text, HasSubstr("What is not told below was not worked out"));
  EXPECT_THAT(text, Not(HasSubstr("bought hay may cost")));
  EXPECT_THAT(text, Not(HasSubstr("buys no hay")));
  EXPECT_THAT(text, Not(HasSubstr("four weeks longer")));
}

TEST(Stopped, AStretchWithoutAPlanByThenSaysSo) {
  const StopAt at("planning the season");
  const Scenario scenario = yard();
  const StretchAnswer answer = stretch(scenario, at.watch);
  EXPECT_FALSE(answer.found());
  EXPECT_THAT(text_of(stretch_report(scenario, answer, {})), HasSubstr("No plan was proven"));
}

TEST(Stopped, NothingIsSaidOfItWhereNothingWasStopped) {
  const Scenario scenario = yard();
  const std::string text = text_of(stretch_report(scenario, stretch(scenario), {}));
  EXPECT_THAT(text, Not(HasSubstr("Stopped")));
  EXPECT_THAT(text, HasSubstr("bought hay may cost"));
}

TEST(ProgressLine, SaysTheStepInWords) {
  EXPECT_EQ(progress_in_words({SeasonStep::whole_packs, 3, 12}), "whole packs, 3 of at most 12");
}

}  // namespace
}  // namespace haymow::stopped_test
