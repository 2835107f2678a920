#include "scenarios/barn_in_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "scenarios/report.h"

namespace haymow::barn_in_steps_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

// Two or more horses and hay for a hundred days, so that 1 kg a day is 100 kg.
std::string yard(const std::string& horses, const std::string& hay_on_hand) {
  return "money: GBP\nseason: {from: 2026-11-01, until: 2027-02-08}\nhorses:\n" + horses +
         "forage:\n"
         "  - {feed: 'meadow hay, average', name: our hay, on hand: " +
         hay_on_hand +
         ", price: 150 per tonne}\n"
         "market:\n"
         "  - {feed: 'meadow hay, late cut', name: bought hay, price: 250 per tonne}\n"
         "  - {feed: oat straw, price: 200 per tonne}\n"
         "  - {feed: 'oats, rolled', name: oats, price: 400 per tonne}\n"
         "  - {feed: soya bean meal, price: 700 per tonne}\n"
         "  - {feed: balancer pellet, price: 1000 per tonne}\n"
         "  - {feed: vitamin and mineral powder, price: 7 per kg}\n"
         "  - {feed: salt, price: 0.5 per kg}\n";
}

const std::string three =
    "  - {name: Fern, bodyweight: 512 kg, work: light}\n"
    "  - {name: Wisp, bodyweight: 487 kg, work: moderate}\n"
    "  - {name: Dot, bodyweight: 333 kg, work: none}\n";

double put_out_kg(const std::vector<HorseAnswer>& answers, std::size_t offer) {
  double sum = 0.0;
  for (const HorseAnswer& answer : answers) {
    if (!answer.practical) continue;
    for (const Portion& p : answer.practical->ration.portions) {
      if (p.offer == offer) sum += p.put_out.in_kg();
    }
  }
  return sum;
}

std::string told(const Scenario& scenario, const std::vector<HorseAnswer>& answers) {
  return write_text(ration_report(scenario, answers, {}), 200, false);
}

TEST(BarnInSteps, WholeStepsStayWithinAShortBarn) {
  // Stocks that no step of 100 g divides; each must last.
  for (const std::string stock : {"1733 kg", "1511 kg", "1287 kg", "903 kg"}) {
    const Scenario scenario = read_scenario(yard(three, stock), "f.yaml");
    const auto answers = run(scenario);
    for (const HorseAnswer& a : answers) ASSERT_TRUE(a.practical) << a.question.horse.name;
    EXPECT_FALSE(over_the_barn(answers, 0, *scenario.stable.season)) << stock;
    EXPECT_LE(put_out_kg(answers, 0), std::stod(stock) / 100.0 + 1e-3) << stock;
    EXPECT_GT(put_out_kg(answers, 0), std::stod(stock) / 100.0 - 1.0) << stock;
    for (const HorseAnswer& a : answers) {
      EXPECT_TRUE(
          broken_rows(
              formulate(question_for(a.question.horse, a.question.offers, a.question.meals)).rows,
              a.practical->amounts)
              .empty());
    }
    EXPECT_THAT(told(scenario, answers), Not(HasSubstr("more than the barn has"))) << stock;
  }
}

// The keeper wants 8.03 kg of our hay in the horse, and there are 8.04 kg a day.
// In slices of 2.1 kg nothing fits; the exact amount is dealt out to the gram.
TEST(BarnInSteps, AnExactWishTakesNoMoreThanItSays) {
  const Scenario scenario = read_scenario(yard("  - {name: Fern, bodyweight: 512 kg, work: light, "
                                               "feeds: {exactly: {our hay: 8.03 kg}}}\n",
                                               "804 kg"),
                                          "f.yaml");
  const auto answers = run(scenario);
  ASSERT_TRUE(answers[0].practical);
  EXPECT_NEAR(put_out_kg(answers, 0), 8.03, 1e-9);
  EXPECT_FALSE(over_the_barn(answers, 0, *scenario.stable.season));
}

// Forage floor, energy ceiling and no other forage: the least hay that will do is
// not a whole number of steps, and the barn holds just that least.
TEST(BarnInSteps, WhatCannotBeMendedIsToldInKilogramsAndDays) {
  const std::string horse = "  - {name: Fern, bodyweight: 500 kg, work: none}\n";
  std::string text = yard(horse, "7535 kg");
  // Only our hay is long forage here: 1.5 % of 500 kg is 7.5 kg of dry matter.
  const auto cut = [&](const std::string& line) {
    const auto at = text.find(line);
    ASSERT_NE(at, std::string::npos);
    text.erase(at, text.find('\n', at) + 1 - at);
  };
  cut("  - {feed: 'meadow hay, late cut'");
  cut("  - {feed: oat straw");
  const Scenario endless = read_scenario(text, "f.yaml");
  const double dry = endless.stable.offers[0].feed.dry_matter_share();
  const double least = 7.5 / dry;
  // A thousandth of a kilogram a day above the least: no step of 10 g fits.
  const double stock = (std::floor(least * 100.0) / 100.0 + 0.0095) * 100.0;
  ASSERT_GT(stock, least * 100.0);
  text.replace(text.find("7535 kg"), 7, std::to_string(stock) + " kg");
  const Scenario scenario = read_scenario(text, "f.yaml");
  const auto answers = run(scenario);
  ASSERT_EQ(answers[0].status, AnswerStatus::found);
  ASSERT_TRUE(answers[0].practical);
  const auto over = over_the_barn(answers, 0, *scenario.stable.season);
  ASSERT_TRUE(over);
  EXPECT_TRUE(answers[0].practical->choices.above_share);
  EXPECT_THAT(told(scenario, answers), HasSubstr("more than the barn has for the season: it runs "
                                                 "out "));
}

}  // namespace
}  // namespace haymow::barn_in_steps_test
