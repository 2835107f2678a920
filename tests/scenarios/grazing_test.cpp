// Grazing from the scenario file to the report.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "model/grazing.h"
#include "scenarios/audit.h"
#include "scenarios/report.h"
#include "scenarios/report_grazing.h"
#include "scenarios/run.h"
#include "scenarios/season_months.h"
#include "tests/matchers.h"
#include "tests/scenarios/files.h"
#include "tests/scenarios/second_opinion.h"

namespace haymow::grazing_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

const Scenario& summerfield() {
  static const Scenario scenario = read_scenario(
      test_files::text_at(std::string(HAYMOW_SOURCE_DIR) + "/scenarios/examples/summerfield.yaml"),
      "summerfield.yaml");
  return scenario;
}

const std::vector<HorseAnswer>& summerfield_answers() {
  static const std::vector<HorseAnswer> answers = run(summerfield());
  return answers;
}

std::string yard(const std::string& grazing, const std::string& head = "",
                 const std::string& horse = "bodyweight: 500 kg, work: light",
                 const std::string& hay = "") {
  return head + "money: GBP\nhorses:\n  - {name: Fern, " + horse + ", grazing: " + grazing +
         "}\nforage:\n  - {feed: \"meadow hay, late cut\", name: hay, price: 150 per tonne" + hay +
         "}\n  - {feed: oat straw, price: 110 per tonne}\n"
         "market:\n"
         "  - {feed: \"oats, rolled\", name: oats, price: 0.5 per kg}\n"
         "  - {feed: balancer pellet, price: 1.30 per kg}\n"
         "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
         "  - {feed: limestone flour, price: 2.00 per kg}\n"
         "  - {feed: salt, price: 0.50 per kg}\n";
}

Scenario scenario_of(const std::string& text) { return read_scenario(text, "fern.yaml"); }

std::string told(const Scenario& scenario) {
  return write_text(ration_report(scenario, run(scenario), {}), 200, false);
}

std::vector<const HorseAnswer*> all_answers(const std::vector<HorseAnswer>& answers) {
  std::vector<const HorseAnswer*> all;
  for (const HorseAnswer& answer : answers) {
    all.push_back(&answer);
    for (const HorseAnswer& other : answer.other_spells) all.push_back(&other);
  }
  return all;
}

// --- months -------------------------------------------------------------------------------

TEST(SeasonMonths, AreCutAtTheTurnOfTheMonth) {
  const auto months = months_of(Date{2027, 3, 15}, Date{2027, 5, 2});
  ASSERT_THAT(months, SizeIs(3));
  EXPECT_EQ(months[0].days, Days{17.0});
  EXPECT_EQ(months[1].days, Days{30.0});
  EXPECT_EQ(months[2].days, Days{2.0});
}

TEST(SeasonMonths, GoOverTheYearAndKnowALeapDay) {
  const auto months = months_of(Date{2027, 12, 31}, Date{2028, 3, 1});
  ASSERT_THAT(months, SizeIs(4));
  EXPECT_EQ(months[0].days, Days{1.0});
  EXPECT_EQ(months[1].year, 2028);
  EXPECT_EQ(months[2].days, Days{29.0});
  EXPECT_EQ(months[3].days, Days{1.0});
}

TEST(SeasonMonths, AddUpToTheSeason) {
  Days sum;
  for (const auto& m : months_of(summerfield().from, summerfield().until)) sum += m.days;
  EXPECT_EQ(sum, *summerfield().stable.season);
  EXPECT_THAT(months_of(std::nullopt, std::nullopt), IsEmpty());
}

// --- reading ------------------------------------------------------------------------------

TEST(GrazingFile, IsReadByMonths) {
  const Scenario all = read_scenario(test_files::text_of("everything.yaml"), "everything.yaml");
  const Grazing& grazing = *all.stable.horses.front().grazing;
  ASSERT_TRUE(grazing.in(1));
  EXPECT_EQ(grazing.in(1)->hours, 4.5);
  EXPECT_FALSE(grazing.in(1)->muzzle);
  EXPECT_TRUE(grazing.in(11)->muzzle);
  EXPECT_EQ(grazing.in(4)->hours, 1.5);
  EXPECT_EQ(grazing.in(4)->sward, Sward::fair);
  EXPECT_FALSE(grazing.in(6));
  EXPECT_NEAR(*grazing.hectares_a_horse, 1.5 * 0.40468564224, 1e-9);
}

// --- the answers -------------------------------------------------------------------------

TEST(GrazingRun, EveryMonthOfTheExampleIsCertified) {
  const auto all = all_answers(summerfield_answers());
  ASSERT_GT(all.size(), 6U);
  for (const HorseAnswer* answer : all) {
    ASSERT_EQ(answer->status, AnswerStatus::found);
    EXPECT_TRUE(answer->certificate.holds());
    EXPECT_THAT(broken_rows(answer->formulation.rows, answer->solution.columns), IsEmpty());
    ASSERT_TRUE(answer->practical);
    EXPECT_THAT(broken_rows(answer->formulation.rows, answer->practical->amounts), IsEmpty());
    ASSERT_TRUE(answer->question.grass);
    const double grass = answer->question.grass->most.in_kg();
    EXPECT_THAT(
        grass,
        IsNear(grass_eaten(answer->question.horse, *answer->spell.month).expected.in_kg(), 1e-12));
  }
}

TEST(GrazingRun, OtherSolversFindTheSameCost) {
  std::size_t compared = 0;
  for (const HorseAnswer* answer : all_answers(summerfield_answers())) {
    for (const auto& [solver, cost] : second_opinion::optima_of(answer->formulation.program)) {
      ASSERT_TRUE(cost) << solver;
      EXPECT_THAT(*cost, IsNear(answer->solution.cost, 1e-6)) << solver;
      ++compared;
    }
    if (compared > 8) return;
  }
  if (compared == 0) GTEST_SKIP() << "no other solver is installed";
}

TEST(GrazingRun, MonthsWithTheSameGrassAreOneSpell) {
  const Scenario scenario = scenario_of(yard("{turnout: 6 h, grass: fair, area: 3 ha}",
                                             "season: {from: 2027-04-01, until: 2027-10-31}\n"));
  const auto answers = run(scenario);
  // Spring, summer and autumn; on three hectares growth never ends it.
  ASSERT_THAT(answers.front().other_spells, SizeIs(2));
  EXPECT_THAT(answers.front().spell.months, SizeIs(2));
  EXPECT_THAT(answers.front().other_spells[0].spell.months, SizeIs(3));
}

// A season of winter months without grass is answered once, as without `grazing`.
TEST(GrazingRun, WithoutGrassNothingChanges) {
  const std::string head = "season: {from: 2027-06-01, until: 2027-08-31}\n";
  const auto bare = run(scenario_of(yard("{turnout: 24 h, grass: none}", head)));
  std::string plain = yard("{turnout: 24 h, grass: none}", head);
  plain.erase(plain.find(", grazing"),
              std::string(", grazing: {turnout: 24 h, grass: none}").size());
  const auto indoors = run(scenario_of(plain));
  EXPECT_THAT(bare.front().other_spells, IsEmpty());
  EXPECT_EQ(bare.front().solution.columns, indoors.front().solution.columns);
}

TEST(GrazingRun, MoreGrassCostsNoMoreHay) {
  double before = unlimited;
  for (const int hours : {0, 1, 2, 3, 4}) {
    const auto answers =
        run(scenario_of(yard(fmt::format("{{month: june, turnout: {} h, grass: fair}}", hours))));
    ASSERT_EQ(answers.front().status, AnswerStatus::found) << hours;
    EXPECT_LE(answers.front().solution.cost, before * (1.0 + 1e-9)) << hours;
    before = answers.front().solution.cost;
  }
}

// What the months take of a short barn adds up to what is in it.
TEST(GrazingRun, AShortBarnIsSharedOverTheMonths) {
  const Scenario scenario = scenario_of(
      yard("{turnout: {november: 2 h, december to february: 0 h, march to may: 5 h}, grass: fair}",
           "season: {from: 2026-11-01, until: 2027-05-31}\n", "bodyweight: 500 kg, work: light",
           ", on hand: 1100 kg, waste: 10 %"));
  const auto answers = run(scenario);
  double used = 0.0;
  double weighed = 0.0;
  for (const HorseAnswer* answer : all_answers(answers)) {
    ASSERT_EQ(answer->status, AnswerStatus::found);
    const double days = answer->spell.days.in_days();
    used += days * answer->solution.columns[0] / 0.9;
    weighed += days * answer->practical->amounts[0] / 0.9;
    EXPECT_THAT(answer->question.stock_a_day, Not(IsEmpty()));
  }
  EXPECT_THAT(used, IsNear(1100.0, 1e-5));
  EXPECT_LE(weighed, 1100.0 + 0.1 * 212.0);  // a step of the scale a day
}

TEST(GrazingRun, GrassAndFatClashForAGoodDoer) {
  const Scenario scenario =
      scenario_of(yard("{month: june, turnout: 24 h, grass: good, area: 1 ha}", "",
                       "bodyweight: 500 kg, work: none"));
  const auto answers = run(scenario);
  ASSERT_EQ(answers.front().status, AnswerStatus::none);
  EXPECT_GT(answers.front().no_ration->proof_strength, certificate_tolerance);
  const std::string text = told(scenario);
  EXPECT_THAT(text, HasSubstr("eats grass at pasture, reckoned at 10.0 kg of dry matter"));
  EXPECT_THAT(text, HasSubstr("with a muzzle it eats no more in all its hours"));
}

TEST(GrazingRun, AMonthWithoutARationIsNoSilentOne) {
  const Scenario scenario =
      scenario_of(yard("{turnout: {april: 3 h, may to june: 24 h}, grass: good, area: 2 ha}",
                       "season: {from: 2027-04-01, until: 2027-06-30}\n",
                       "bodyweight: 500 kg, work: none", ", on hand: 5000 kg"));
  const auto answers = run(scenario);
  EXPECT_EQ(answers.front().status, AnswerStatus::found);
  EXPECT_EQ(answers.front().worst(), AnswerStatus::none);
  const std::string text = told(scenario);
  EXPECT_THAT(text, HasSubstr("In May these cannot all hold"));
  const Section barn =
      season_stock_section(scenario, answers, Wording(Units::metric, scenario.stable.money));
  ASSERT_THAT(barn.sentences, SizeIs(1));
  EXPECT_THAT(barn.sentences[0], HasSubstr("without a ration are not in this sum"));
  const auto json = nlohmann::json::parse(ration_json(scenario, answers));
  EXPECT_EQ(json["status"], "none");
  EXPECT_EQ(json["horses"][0]["status"], "found");
  EXPECT_EQ(json["horses"][0]["months"][1]["status"], "none");
}

// --- laminitis ---------------------------------------------------------------------------

TEST(GrazingRun, AHorseProneToLaminitisGetsACaution) {
  const std::string pony = "bodyweight: 250 kg, work: none, health: [laminitis-prone]";
  const Scenario scenario =
      scenario_of(yard("{month: june, turnout: 2 h, grass: poor, muzzle: yes}", "", pony));
  EXPECT_THAT(told(scenario), HasSubstr("CAUTION: grass can bring laminitis back"));
  // Spring grass alone, all day, is far over the sugar limit.
  const Scenario rich =
      scenario_of(yard("{month: april, turnout: 24 h, grass: good, area: 1 ha}", "", pony));
  EXPECT_EQ(run(rich).front().status, AnswerStatus::none);
  EXPECT_THAT(told(rich), HasSubstr("CAUTION"));
}

// --- report, JSON, audit -------------------------------------------------------------------

TEST(GrazingReport, GivesTheRangeAndBothItsEnds) {
  const std::string text = told(scenario_of(yard("{month: june, turnout: 7 h, grass: fair}")));
  EXPECT_THAT(text, HasSubstr("reckoned at 3.0 kg of dry matter, between 1.2 kg and 7.2 kg"));
  EXPECT_THAT(text, HasSubstr("If it eats only 1.2 kg of grass and all its hay"));
  EXPECT_THAT(text, HasSubstr("If it eats as much as 7.2 kg of grass"));
  EXPECT_THAT(text, HasSubstr("Fern: grass, summer (3.0 kg of dry matter), "));
}

TEST(GrazingReport, SaysWhenTheBarnRunsOut) {
  Scenario scenario = summerfield();
  const Wording words(Units::metric, "GBP");
  const Section enough = season_stock_section(scenario, summerfield_answers(), words);
  ASSERT_THAT(enough.sentences, SizeIs(1));
  EXPECT_THAT(enough.sentences[0], Not(HasSubstr("runs out")));
  for (Offer& offer : scenario.stable.offers) {
    if (offer.on_hand) offer.on_hand = KgAsFed{200.0};
  }
  // 17 days of March take about 143 kg; April has the rest.
  const Section shortage = season_stock_section(scenario, summerfield_answers(), words);
  EXPECT_THAT(shortage.sentences[0], HasSubstr("It runs out in April 2027, after "));
}

TEST(GrazingReport, JsonHasEveryMonthOfTheSeason) {
  const auto json = nlohmann::json::parse(ration_json(summerfield(), summerfield_answers()));
  for (const auto& horse : json["horses"]) {
    double days = 0.0;
    int last = 0;
    for (const auto& month : horse["months"]) {
      days += month["days"].get<double>();
      EXPECT_GT(month["month"].get<int>(), last);
      last = month["month"].get<int>();
      EXPECT_LE(month["certificate"]["relative_gap"].get<double>(), 1e-6);
      EXPECT_LE(month["grazing"]["low_kg_dry_matter"], month["grazing"]["expected_kg_dry_matter"]);
    }
    EXPECT_EQ(days, 231.0);
  }
}

// 3 kg of dry matter of grass beside what is fed; a figure of the keeper's own goes
// before the reckoned one.
TEST(GrazingAudit, CountsTheGrass) {
  const auto audited = [](const std::string& fed) {
    return audit(scenario_of(yard("{month: june, turnout: 7 h, grass: fair}", "",
                                  "bodyweight: 500 kg, work: light, fed now: {" + fed + "}")))
        .front();
  };
  const Audit with_grass = audited("hay: 6 kg");
  double grass = 0.0;
  for (const Portion& p : with_grass.ration.portions) {
    if (with_grass.question.grazes(p.offer)) grass = p.dry_matter.in_kg();
  }
  EXPECT_THAT(grass, IsNear(3.0, 1e-9));
  const Audit own_figure = audited("hay: 6 kg, \"grass, summer\": 10 kg");
  EXPECT_FALSE(own_figure.question.grass);
}

}  // namespace
}  // namespace haymow::grazing_test
