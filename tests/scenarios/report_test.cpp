#include "scenarios/report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/scenarios/examples.h"

namespace haymow::report_test {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::string& yaml, const ReportOptions& options = {}) {
  const Scenario scenario = read_scenario(yaml, "test.yaml");
  return write_text(ration_report(scenario, run(scenario), options), 200, false);
}

// Good hay and an easy keeper: the commonest honest clash.
constexpr const char* easy_keeper =
    "money: GBP\n"
    "horses:\n"
    "  - {name: Pudding, bodyweight: 400 kg, work: none, energy factor: 0.95}\n"
    "forage:\n"
    "  - {feed: \"meadow hay, early cut\", name: good hay, price: 0.20 per kg}\n"
    "market:\n"
    "  - {feed: balancer pellet, price: 1.30 per kg}\n"
    "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
    "  - {feed: salt, price: 0.50 per kg}\n";

constexpr const char* colic =
    "money: GBP\n"
    "horses:\n"
    "  - {name: Ash, bodyweight: 500 kg, work: none, health: [colic]}\n"
    "forage:\n"
    "  - {feed: \"meadow hay, average\", name: hay, price: 0.20 per kg}\n";

// --- a ration ------------------------------------------------------------------------

TEST(Report, EveryHorseHasItsPartWithACostAndACertificate) {
  const Scenario scenario = examples::ninefields();
  const Report report = ration_report(scenario, examples::ninefields_answers(), {});
  ASSERT_EQ(report.parts.size(), 4U);
  for (const Report::Part& part : report.parts) {
    EXPECT_TRUE(part.good);
    EXPECT_THAT(part.headline, HasSubstr("GBP a day"));
    EXPECT_THAT(part.sections.back().sentences.back(), HasSubstr("Certified"));
  }
  EXPECT_THAT(report.title, HasSubstr("4 of 4 horses fed"));
}

TEST(Report, EveryRowOfATableHasAsManyCellsAsHeadings) {
  const Scenario scenario = examples::ninefields();
  const ReportOptions verbose{Units::metric, true};
  for (const Report& report :
       {ration_report(scenario, examples::ninefields_answers(), verbose), needs_report(scenario),
        audit_report(scenario, audit(scenario), verbose)}) {
    for (const Report::Part& part : report.parts) {
      for (const Section& section : part.sections) {
        if (!section.table) continue;
        for (const auto& row : section.table->rows) {
          EXPECT_EQ(row.size(), section.table->headings.size()) << part.headline;
        }
      }
    }
  }
}

TEST(Report, ItEndsWithTheCautions) {
  const std::string text = write_text(
      ration_report(examples::ninefields(), examples::ninefields_answers(), {}), 200, false);
  for (const char* words : {"Before you feed this", "Weigh the horse, the hay and the bucket",
                            "Change over 10 to 14 days", "Least cost is not best diet",
                            "When to stop and ask", "call the vet"}) {
    EXPECT_THAT(text, HasSubstr(words));
  }
}

TEST(Report, AHealthStateBringsItsAdvice) {
  const std::string text = write_text(
      ration_report(examples::ninefields(), examples::ninefields_answers(), {}), 200, false);
  EXPECT_THAT(text, HasSubstr("Because of Juniper's health"));
  EXPECT_THAT(text, HasSubstr("never more than 6 hours without"));
  EXPECT_THAT(text, HasSubstr("Because of Pocket's health"));
}

// 2 kg of beet pulp in two meals: 1 kg in 3 litres of water a meal, 45 minutes
// in cold or 15 in warm.
TEST(Report, SoakingIsSaidWithWaterAndTime) {
  const std::string text = text_of(
      "money: GBP\n"
      "horses:\n"
      "  - {name: Ember, bodyweight: 500 kg, work: light, meals: 2,\n"
      "     feeds: {exactly: {\"sugar beet pulp, unmolassed\": 2 kg}}}\n"
      "forage:\n"
      "  - {feed: \"meadow hay, late cut\", name: hay, price: 0.20 per kg}\n"
      "market:\n"
      "  - {feed: \"sugar beet pulp, unmolassed\", name: beet, price: 0.60 per kg}\n"
      "  - {feed: soya bean meal, price: 0.80 per kg}\n"
      "  - {feed: balancer pellet, price: 1.30 per kg}\n"
      "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
      "  - {feed: limestone flour, price: 2.00 per kg}\n"
      "  - {feed: salt, price: 0.50 per kg}\n");
  EXPECT_THAT(
      text, HasSubstr("Soak beet: 1.0 kg dry in 3.0 litres (3.0 kg) of water a meal, 45 minutes in "
                      "cold water or 15 minutes in warm, in a "
                      "bucket of at least 5 litres"));
}

TEST(Report, UsUnitsLeaveNoKilograms) {
  const ReportOptions options{Units::us, false};
  const Report report =
      ration_report(examples::ninefields(), examples::ninefields_answers(), options);
  for (const Report::Part& part : report.parts) {
    EXPECT_THAT(part.headline, HasSubstr(" lb"));
    EXPECT_THAT(part.headline, Not(HasSubstr(" kg")));
  }
}

// --- no ration ---------------------------------------------------------------------------

TEST(Report, AnEasyKeeperOnGoodHayIsToldWhyAndWhatToDo) {
  const std::string text = text_of(easy_keeper);
  EXPECT_THAT(text, HasSubstr("Pudding: no ration keeps every limit"));
  EXPECT_THAT(text, HasSubstr("- Forage dry matter is at least 1.5 % of bodyweight a day (for "
                              "Pudding 6.0 kg of dry matter)."));
  EXPECT_THAT(text, HasSubstr("- So energy cannot be less than "));
  EXPECT_THAT(text, HasSubstr("- But Pudding should have at most "));
  EXPECT_THAT(text, HasSubstr("What would mend it, cheapest first"));
  EXPECT_THAT(text, HasSubstr(" straw a day, not on offer now: the rest then costs "));
  EXPECT_THAT(text, HasSubstr("which is not safe as it stands"));
  EXPECT_THAT(text, HasSubstr("Proven without the solver's word"));
  EXPECT_THAT(text, Not(HasSubstr("Certified")));
}

// --- refused -------------------------------------------------------------------------------

TEST(Report, ARefusedHorseGetsAVetAndNoRation) {
  const std::string text = text_of(colic);
  EXPECT_THAT(text, HasSubstr("Ash: no plan; this needs a vet"));
  EXPECT_THAT(text, HasSubstr("Colic is an emergency: take feed away and call the vet now."));
  EXPECT_THAT(text, Not(HasSubstr("What to feed")));
  EXPECT_THAT(text, Not(HasSubstr("Certified")));
}

// --- JSON ------------------------------------------------------------------------------------

TEST(Report, JsonHoldsTheNumbersOfTheAnswer) {
  const auto& answers = examples::ninefields_answers();
  const auto json = nlohmann::json::parse(ration_json(examples::ninefields(), answers));
  ASSERT_EQ(json.at("horses").size(), answers.size());
  for (std::size_t h = 0; h < answers.size(); ++h) {
    const auto& horse = json.at("horses").at(h);
    const HorseAnswer& answer = answers[h];
    EXPECT_EQ(horse.at("status"), "found");
    EXPECT_LT(horse.at("certificate").at("relative_gap").get<double>(), 1e-6);
    double sum = 0.0;
    for (const auto& feed : horse.at("feeds")) sum += feed.at("cost_per_day").get<double>();
    EXPECT_NEAR(sum, horse.at("cost_per_day").get<double>(), 1e-9);
    const double practical = answer.practical->ration.cost.in_units();
    const double cheapest = answer.ration->cost.in_units();
    const double told = horse.at("cost_per_day").get<double>();
    EXPECT_TRUE(told == practical || told == cheapest) << told;
  }
}

TEST(Report, JsonOfARefusalSaysRefused) {
  const Scenario scenario = read_scenario(colic, "test.yaml");
  const auto json = nlohmann::json::parse(ration_json(scenario, run(scenario)));
  EXPECT_EQ(json.at("horses").at(0).at("status"), "refused");
  EXPECT_FALSE(json.at("horses").at(0).contains("feeds"));
}

// --- needs and audit ---------------------------------------------------------------------------

TEST(Report, NeedsCarryTheirEquationsWithTheNumbersIn) {
  const Scenario scenario = read_scenario(colic, "test.yaml");
  const std::string text = write_text(needs_report(scenario), 200, false);
  EXPECT_THAT(text, HasSubstr("Ash: 500 kg"));
  EXPECT_THAT(text, HasSubstr("By which equation"));
  EXPECT_THAT(text, HasSubstr("- calcium: 0.04 g/kg x 500 kg = 20.0 g"));
  EXPECT_THAT(text, HasSubstr("- forage/min: forage dry matter is at least 1.5 % of bodyweight a "
                              "day [law; "));
}

TEST(Report, TheAuditSaysWhatIsMissedAndWhatTheCheapestWouldCost) {
  const Scenario scenario = examples::ninefields();
  const std::string text = write_text(audit_report(scenario, audit(scenario), {}), 200, false);
  EXPECT_THAT(text, HasSubstr("Juniper: what is fed now misses "));
  EXPECT_THAT(text, HasSubstr("Beside the cheapest safe ration"));
  EXPECT_THAT(text, HasSubstr("a day more than now (4.27 GBP)."));
}

// --- text ----------------------------------------------------------------------------------------

TEST(Report, LinesFitTheWidth) {
  const Report report = ration_report(examples::ninefields(), examples::ninefields_answers(), {});
  for (const int width : {80, 120}) {
    std::istringstream lines(write_text(report, width, false));
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(line.size(), static_cast<std::size_t>(width)) << line;
    }
  }
}

TEST(Report, ColourChangesNoWord) {
  const Report report = ration_report(examples::ninefields(), examples::ninefields_answers(), {});
  std::string plain;
  bool escape = false;
  for (const char c : write_text(report, 80, true)) {
    if (c == '\033') escape = true;
    if (!escape) plain += c;
    if (escape && c == 'm') escape = false;
  }
  EXPECT_EQ(plain, write_text(report, 80, false));
}

}  // namespace
}  // namespace haymow::report_test
