// Every question's answer is the answer to a file in which the change was written by
// hand: here the second file's text is made by replacing a piece of the first's.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>
#include <string>
#include <vector>

#include "scenarios/ask.h"
#include "scenarios/report_ask.h"
#include "tests/scenarios/files.h"

namespace haymow::ask_test {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::SizeIs;

const std::string base =
    "money: GBP\n"
    "horses:\n"
    "  - name: Juniper\n"
    "    bodyweight: 540 kg\n"
    "    work: light\n"
    "    meals: 3\n"
    "    condition: {now: 5, aim: 5}\n"
    "  - name: Pocket\n"
    "    bodyweight: 300 kg\n"
    "    work: none\n"
    "forage:\n"
    "  - {feed: 'meadow hay, late cut', name: our hay, price: 4.50 per bale, on hand: 140 bales of "
    "18 kg, waste: 8 %}\n"
    "  - {feed: oat straw, price: 110 per tonne}\n"
    "market:\n"
    "  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}\n"
    "  - {feed: 'sugar beet pulp, unmolassed', name: beet pulp, price: 14.20 per 20 kg bag}\n"
    "  - {feed: 'oats, rolled', name: oats, price: 11.60 per 20 kg bag}\n"
    "  - {feed: balancer pellet, name: balancer, price: 28.00 per 20 kg bag}\n"
    "  - {feed: vitamin and mineral powder, name: minerals, price: 21.00 per 3 kg tub}\n"
    "  - {feed: salt, price: 11.00 per 25 kg bag}\n";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  if (at == std::string::npos) throw std::logic_error("not in the file: " + what);
  return text.replace(at, what.size(), by);
}

std::vector<AskedAnswer> answers_to(const std::string& text, const RunOptions& options = {}) {
  const Scenario scenario = read_scenario(text, "f.yaml");
  return ask(scenario, run(scenario, options), options);
}

std::string asking(const std::string& question, const std::string& file = base) {
  return file + "ask:\n  - " + question + "\n";
}

void expect_same_amounts(const HorseAnswer& asked, const HorseAnswer& by_hand) {
  ASSERT_EQ(asked.status, by_hand.status);
  if (asked.status != AnswerStatus::found) return;
  const double cost = by_hand.ration->cost.in_units();
  EXPECT_NEAR(asked.ration->cost.in_units(), cost, 1e-9 * cost);
  ASSERT_EQ(asked.practical.has_value(), by_hand.practical.has_value());
  const double to_feed = cost_to_feed(by_hand)->in_units();
  EXPECT_NEAR(cost_to_feed(asked)->in_units(), to_feed, 1e-9 * to_feed);
  EXPECT_TRUE(asked.certificate.holds());
  if (asked.practical) {
    EXPECT_EQ(asked.practical->steps, by_hand.practical->steps);
  }
}

/// The answers of both, and of the other spells.
void expect_as_by_hand(const std::vector<HorseAnswer>& asked,
                       const std::vector<HorseAnswer>& by_hand) {
  ASSERT_EQ(asked.size(), by_hand.size());
  for (std::size_t h = 0; h < asked.size(); ++h) {
    SCOPED_TRACE(by_hand[h].question.horse.name);
    expect_same_amounts(asked[h], by_hand[h]);
    ASSERT_EQ(asked[h].other_spells.size(), by_hand[h].other_spells.size());
    for (std::size_t s = 0; s < asked[h].other_spells.size(); ++s) {
      expect_same_amounts(asked[h].other_spells[s], by_hand[h].other_spells[s]);
    }
  }
}

/// One change: as a question, and what is replaced by what in the file.
struct ByHand {
  std::string question;
  std::vector<std::pair<std::string, std::string>> replacements;
};

const std::vector<ByHand>& changes_by_hand() {
  static const std::vector<ByHand> all{
      {"prices: {our hay: 6 per bale}", {{"4.50 per bale", "6 per bale"}}},
      {"prices: {oats: 8.10 per 20 kg bag, beet pulp: 9 per 20 kg bag}",
       {{"11.60 per", "8.10 per"}, {"14.20 per", "9 per"}}},
      {"on hand: {our hay: 90 bales of 18 kg}", {{"140 bales", "90 bales"}}},
      {"horses: {Juniper: {work: heavy}}", {{"work: light", "work: heavy"}}},
      {"horses: {Pocket: {bodyweight: 320 kg}}", {{"300 kg", "320 kg"}}},
      {"horses: {Juniper: {health: [gastric ulcers]}}",
       {{"    meals: 3\n", "    meals: 3\n    health: [gastric ulcers]\n"}}},
      {"horses: {Juniper: {condition: {aim: 6}}}", {{"aim: 5", "aim: 6"}}},
      {"horses: {Juniper: {meals: 2}}", {{"meals: 3", "meals: 2"}}},
      {"horses: {Juniper: {meals: }}", {{"    meals: 3\n", ""}}},
      {"horses: {Pocket: {feeds: {at least: {our hay: 4 kg}, none: [minerals]}}}",
       {{"    work: none\n",
         "    work: none\n    feeds: {at least: {our hay: 4 kg}, none: [minerals]}\n"}}},
      {"forage: {our hay: {waste: 15 %, analysis: {dry matter: 85 %, energy: 8.9 MJ/kg DM, crude "
       "protein: 90 g/kg DM}}}",
       {{"waste: 8 %",
         "waste: 15 %, analysis: {dry matter: 85 %, energy: 8.9 MJ/kg DM, crude protein: 90 g/kg "
         "DM}"}}},
      {"market: [{feed: soya bean meal, price: 16.50 per 20 kg bag}]",
       {{"  - {feed: salt,",
         "  - {feed: soya bean meal, price: 16.50 per 20 kg bag}\n  - {feed: salt,"}}},
      {"season: {from: 2026-11-01, until: 2027-01-31}",
       {{"money: GBP\n", "money: GBP\nseason: {from: 2026-11-01, until: 2027-01-31}\n"}}},
      {"without: [oat straw]",
       {{"    meals: 3\n", "    meals: 3\n    feeds: {none: [oat straw]}\n"},
        {"    work: none\n", "    work: none\n    feeds: {none: [oat straw]}\n"}}},
      {"{without: [alfalfa], prices: {oats: 14 per 20 kg bag}, horses: {Pocket: {work: light}}}",
       {{"  - {feed: alfalfa chaff, price: 15.50 per 15 kg bag}\n", ""},
        {"11.60 per", "14 per"},
        {"work: none", "work: light"}}},
  };
  return all;
}

class AskedByHand : public ::testing::TestWithParam<std::size_t> {};

TEST_P(AskedByHand, HasTheAnswerOfTheFileWithTheChangeInIt) {
  const ByHand& change = changes_by_hand()[GetParam()];
  SCOPED_TRACE(change.question);
  std::string text = base;
  for (const auto& [what, by] : change.replacements) text = replaced(text, what, by);
  const auto asked = answers_to(asking(change.question));
  ASSERT_THAT(asked, SizeIs(1));
  const auto by_hand = run(read_scenario(text, "g.yaml"));
  const bool same_lists =
      by_hand[0].question.offers.size() == asked[0].answers[0].question.offers.size() &&
      change.question.find("market: [") == std::string::npos;
  if (same_lists) {
    expect_as_by_hand(asked[0].answers, by_hand);
    return;
  }
  // A feed is gone from the list or stands elsewhere in it: to the gram the costs are the
  // same, in whole steps the search may stop at another ration within its gap.
  for (std::size_t h = 0; h < by_hand.size(); ++h) {
    const double cost = by_hand[h].ration->cost.in_units();
    EXPECT_NEAR(asked[0].answers[h].ration->cost.in_units(), cost, 1e-9 * cost);
    const double to_feed = cost_to_feed(by_hand[h])->in_units();
    EXPECT_NEAR(cost_to_feed(asked[0].answers[h])->in_units(), to_feed, practical_gap * to_feed);
  }
}

INSTANTIATE_TEST_SUITE_P(Changes, AskedByHand, ::testing::Range(std::size_t{0}, std::size_t{15}));

TEST(Ask, GivesTheAnswerByHandWhenHorsesShareABarnAndGraze) {
  const std::string shared = replaced(
      replaced(base, "money: GBP\n", "money: GBP\nseason: {from: 2027-03-01, until: 2027-06-30}\n"),
      "    work: none\n",
      "    work: none\n    grazing: {turnout: {March: 2 h, april to june: 4 h}, grass: fair}\n");
  const auto asked =
      answers_to(asking("horses: {Juniper: {work: moderate}}", shared), {.confidence = 0.8});
  const std::string by_hand = replaced(shared, "work: light", "work: moderate");
  ASSERT_THAT(asked, SizeIs(1));
  // Juniper's share of the hay bears on Pocket: both are asked again.
  EXPECT_FALSE(asked[0].horses[1].as_before);
  expect_as_by_hand(asked[0].answers, run(read_scenario(by_hand, "g.yaml"), {.confidence = 0.8}));
}

TEST(Ask, DoesNotAskAHorseAgainThatNothingBearsOn) {
  const auto asked = answers_to(asking("horses: {Juniper: {work: heavy}}"));
  EXPECT_FALSE(asked[0].horses[0].as_before);
  EXPECT_TRUE(asked[0].horses[1].as_before);
  EXPECT_THAT(asked[0].horses[1].feeds, SizeIs(0));
}

TEST(Ask, TakesTheSameFewStepsFromTheAnswerBefore) {
  const Scenario scenario = read_scenario(asking("prices: {our hay: 4.60 per bale}"), "f.yaml");
  const auto before = run(scenario);
  const auto asked = ask(scenario, before);
  const auto from_nothing = run(scenario.asked[0].scenario);
  for (std::size_t h = 0; h < before.size(); ++h) {
    EXPECT_LT(asked[0].answers[h].solution.iterations, from_nothing[h].solution.iterations);
  }
}

TEST(Ask, SaysWhatComesInAndWhatGoesOut) {
  const auto asked = answers_to(asking("without: [oat straw]"));
  const auto& feeds = asked[0].horses[0].feeds;
  const auto straw = [](const FeedDifference& d) {
    return d.feed == "oat straw" && d.before > KgAsFed{1.0} && d.after == KgAsFed{};
  };
  EXPECT_TRUE(std::any_of(feeds.begin(), feeds.end(), straw));
  // Without straw the hay makes the forage.
  const auto hay = [](const FeedDifference& d) {
    return d.feed == "our hay" && d.after > d.before;
  };
  EXPECT_TRUE(std::any_of(feeds.begin(), feeds.end(), hay));
}

TEST(Ask, ADearerFeedNeverLowersTheCost) {
  rc::check([] {
    static const std::vector<std::pair<std::string, double>> feeds{
        {"our hay", 4.5}, {"oats", 11.6}, {"beet pulp", 14.2}, {"balancer", 28.0}};
    static const std::vector<std::string> packs{"bale", "20 kg bag", "20 kg bag", "20 kg bag"};
    const auto f = *rc::gen::inRange<std::size_t>(0, feeds.size());
    const double price = feeds[f].second * (100 + *rc::gen::inRange(1, 200)) / 100.0;
    const auto asked = answers_to(asking("prices: {" + feeds[f].first + ": " +
                                         std::to_string(price) + " per " + packs[f] + "}"));
    for (const HorseDifference& horse : asked[0].horses) {
      RC_ASSERT(horse.exactly_dearer_by()->in_units() > -1e-9);
    }
  });
}

TEST(Ask, DoingWithoutAnUnusedFeedChangesNothing) {
  const Scenario plain = read_scenario(base, "f.yaml");
  const auto answers = run(plain);
  for (std::size_t f = 0; f < plain.stable.offers.size(); ++f) {
    const auto eaten = [&](const HorseAnswer& a) {
      return a.solution.columns[f] > 1e-9 || a.amounts_to_feed()[f] > 1e-9;
    };
    if (std::any_of(answers.begin(), answers.end(), eaten)) continue;
    SCOPED_TRACE(plain.stable.offers[f].name);
    const auto asked = answers_to(asking("without: ['" + plain.stable.offers[f].name + "']"));
    for (const HorseDifference& horse : asked[0].horses) {
      EXPECT_NEAR(horse.exactly_dearer_by()->in_units(), 0.0, 1e-9);
      EXPECT_NEAR(horse.dearer_by()->in_units(), 0.0, 1e-9);
      EXPECT_THAT(horse.feeds, SizeIs(0));
    }
  }
}

TEST(Ask, NamesAQuestionByItsChanges) {
  const Scenario scenario = read_scenario(
      asking("{without: [alfalfa], prices: {our hay: 6 per bale}, horses: {Pocket: {meals: 2}}}"),
      "f.yaml");
  EXPECT_EQ(scenario.asked[0].what_if,
            "our hay: price 6 per bale; Pocket: meals 2; without alfalfa");
}

TEST(Ask, LeavesTheFileAsItStandsToItsOwnAnswer) {
  const Scenario with = read_scenario(asking("without: [oat straw]"), "f.yaml");
  const Scenario plain = read_scenario(base, "f.yaml");
  expect_as_by_hand(run(with), run(plain));
}

// ---- the mistakes -------------------------------------------------------------

std::vector<Diagnostic> mistakes_in(const std::string& text) {
  try {
    (void)read_scenario(text, "f.yaml");
  } catch (const InputError& error) {
    return error.diagnostics();
  }
  return {};
}

TEST(Ask, TellsAMistakeOfTheFileOnceHoweverManyQuestions) {
  const std::string wrong = replaced(base, "work: light", "work: lihgt");
  const auto found = mistakes_in(wrong +
                                 "ask:\n  - prices: {our hay: 6 per bale}\n"
                                 "  - horses: {Pocket: {work: havy}}\n");
  ASSERT_THAT(found, SizeIs(2));
  EXPECT_EQ(found[0].position.line, 5);
  EXPECT_THAT(found[1].message, HasSubstr("havy"));
}

TEST(Ask, SaysInWhichQuestionAMistakeElsewhereArises) {
  // Pregnant and at work: each sound by itself; the other half is in the file.
  const auto found = mistakes_in(asking("horses: {Juniper: {pregnant: month 9}}"));
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_THAT(found[0].note + found[0].message, HasSubstr("the question in line 22"));
}

TEST(Ask, TellsEveryMistakeOfEveryQuestionAtOnce) {
  const auto found = mistakes_in(base +
                                 "ask:\n  - prices: {our hey: 6 per bale}\n"
                                 "  - horses: {Junipr: {work: heavy}}\n"
                                 "  - prices: {our hay: 4.5 per bale}\n"
                                 "  - without: [soya]\n"
                                 "  - pricse: {our hay: 6 per bale}\n"
                                 "  - horses: {Juniper: {wrok: heavy}}\n");
  std::vector<int> lines;
  for (const Diagnostic& d : found) lines.push_back(d.position.line - 20);
  EXPECT_THAT(lines, ::testing::ElementsAre(2, 3, 4, 5, 6, 7));
  EXPECT_THAT(found[0].help, HasSubstr("our hay"));
  EXPECT_THAT(found[1].help, HasSubstr("Juniper"));
  EXPECT_THAT(found[2].message, HasSubstr("changes nothing"));
}

// ---- the words ----------------------------------------------------------------

std::string told(const std::string& text) {
  const Scenario scenario = read_scenario(text, "f.yaml");
  const auto answers = run(scenario);
  const Wording words(Units::metric, scenario.stable.money);
  Report report;
  for (Section& s : asked_sections(scenario, ask(scenario, answers), words)) {
    report.closing.push_back(std::move(s));
  }
  return write_text(report, 200, false);
}

TEST(ReportAsk, SaysNothingWithoutQuestions) { EXPECT_EQ(told(base), ""); }

TEST(ReportAsk, SaysWhyThereIsNoRation) {
  EXPECT_THAT(told(asking("{what if: no forage, without: [our hay, oat straw]}")),
              AllOf(HasSubstr("no forage"), HasSubstr("no ration. These cannot all hold: ")));
}

TEST(ReportAsk, SaysFeedAsBeforeWhereNothingComesOfIt) {
  EXPECT_THAT(told(asking("{what if: minerals are dear, prices: {salt: 11.10 per 25 kg bag}}")),
              HasSubstr("feed as before"));
}

TEST(ReportAsk, DoesNotSplitALetterWhenItShortensALongQuestion) {
  std::string name;
  for (int i = 0; i < 60; ++i) name += "\xd1\x91";
  const std::string text = told(asking("{what if: " + name + ", without: [oat straw]}"));
  std::string kept;
  for (int i = 0; i < 40; ++i) kept += "\xd1\x91";
  EXPECT_THAT(text, HasSubstr("  " + kept + "...  "));
}

}  // namespace
}  // namespace haymow::ask_test
