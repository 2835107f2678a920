// Needs against values which pages quoting NRC 2007 print, and against the 500 kg
// table recomputed from the same equations.
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>

#include "model/requirements.h"
#include "tests/model/arithmetic.h"
#include "tests/model/classes.h"

namespace haymow::published_requirements_test {
namespace {

using printed::floor_of;
using printed::half_digit;
using printed::horse_of;
using printed::nutrient_by_symbol;
using printed::stage_named;
using printed::weight_on_curve;

std::ifstream opened(const std::string& name) {
  std::ifstream file(std::string(HAYMOW_SOURCE_DIR) + "/tests/model/" + name);
  if (!file) throw std::runtime_error("cannot open " + name);
  return file;
}

std::vector<std::string> csv_fields(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      fields.emplace_back();
    } else {
      fields.back() += c;
    }
  }
  return fields;
}

struct PrintedValue {
  std::string page;
  std::string stage;
  std::string bodyweight_kg;
  std::string mature_kg;
  std::string nutrient;
  std::string value;
  std::string unit;
};

std::vector<PrintedValue> printed_values() {
  std::ifstream file = opened("requirement_checks.csv");
  std::string line;
  std::getline(file, line);  // heading
  std::vector<PrintedValue> values;
  while (std::getline(file, line)) {
    const std::vector<std::string> f = csv_fields(line);
    if (f.size() != 11) throw std::runtime_error("not 11 fields: " + line);
    values.push_back({f[2], f[3], f[4], f[5], f[8], f[9], f[10]});
  }
  return values;
}

/// Where a page gives a rate instead of an amount, any weight will do.
Horse horse_for(const PrintedValue& printed) {
  const std::string kg = printed.bodyweight_kg.empty() ? printed.mature_kg : printed.bodyweight_kg;
  const double age_months = 12.0;
  return horse_of(kg.empty() ? 500.0 : std::stod(kg), stage_named(printed.stage, age_months));
}

/// The need in the unit and on the basis of the page; throws for an unknown one.
double need_on_basis(const PrintedValue& printed) {
  const Horse horse = horse_for(printed);
  const Requirements needs = nrc_2007(horse);
  const Nutrient nutrient = nutrient_by_symbol(printed.nutrient);
  const double floor = needs.find(nutrient)->floor.value();
  const std::string& unit = printed.unit;
  if (unit == "Mcal/d") return floor / mj_per_mcal;
  if (unit == "g/d" || unit == "mg/d") return floor;
  if (unit == "g/d (150% of requirement)" || unit == "mg/d (150% of requirement)") {
    return 1.5 * floor;
  }
  if (unit == "mg/kg DM") return floor / needs.standard_intake.in_kg();
  if (unit == "IU/kg BW/d") return floor / horse.bodyweight.in_kg();
  throw std::runtime_error("no basis for " + unit);
}

TEST(PublishedRequirements, EveryPrintedValueIsMet) {
  const std::vector<PrintedValue> values = printed_values();
  int compared = 0;
  for (const PrintedValue& printed : values) {
    SCOPED_TRACE(printed.stage + " " + printed.nutrient + " " + printed.value + " " + printed.unit +
                 ", " + printed.page);
    const double value = std::stod(printed.value);
    // One unit of the last printed digit or 1 %, whichever is larger.
    const double tolerance = std::max(2.0 * half_digit(printed.value), 0.01 * value);
    EXPECT_NEAR(need_on_basis(printed), value, tolerance);
    ++compared;
  }
  EXPECT_EQ(compared, 58) << "rows of requirement_checks.csv";
}

// One page prints 67.8 g where the equation gives 47.3; its protein and phosphorus
// agree to the digit, and 67.8 does not fit 59.1 g for a 500 kg mare. Taken as a
// misprint (http://www.endurance.net/RideCamp/archives/past/08/7/msg00390.html).
TEST(PublishedRequirements, CalciumOfAMareInMilkStaysWithTheEquation) {
  EXPECT_NEAR(floor_of(horse_of(400.0, Lactating{1}), Nutrient::calcium), 47.3, 0.05);
}

// One page prints 500 mg for a 500 kg mare in milk: the same 50 mg/kg, but on 10 kg
// of dry matter, where the standard reckons with 12.5 kg.
TEST(PublishedRequirements, IronOfAMareInMilkIsOnTheStandardIntake) {
  const Requirements needs = nrc_2007(horse_of(500.0, Lactating{1}));
  EXPECT_NEAR(needs.find(Nutrient::iron)->floor.value(), 625.0, 1e-9);
  EXPECT_NEAR(10.0 * needs.find(Nutrient::iron)->floor.value() / needs.standard_intake.in_kg(),
              500.0, 1e-9);
}

// The 500 kg quick-glance page: 500 kg at maintenance, some values at 1.5 times
// the need (calcium 30, phosphorus 21, copper 150, selenium 2 taken as doubled).
TEST(PublishedRequirements, IdleHorseOf500KgFallsInThePrintedRanges) {
  const Horse least = horse_of(500.0, Idle{MaintenanceLevel::minimum});
  const Horse average = horse_of(500.0, Idle{MaintenanceLevel::average});
  const Horse most = horse_of(500.0, Idle{MaintenanceLevel::elevated});
  EXPECT_NEAR(floor_of(least, Nutrient::energy) / mj_per_mcal, 15.2, 0.1);
  EXPECT_NEAR(floor_of(most, Nutrient::energy) / mj_per_mcal, 18.2, 0.1);
  EXPECT_NEAR(floor_of(average, Nutrient::crude_protein), 630.0, 0.5);
  EXPECT_NEAR(floor_of(horse_of(500.0, Working{WorkLevel::light}), Nutrient::crude_protein), 699.0,
              0.5);
  EXPECT_THAT(floor_of(average, Nutrient::lysine),
              ::testing::AllOf(::testing::Ge(20.0), ::testing::Le(30.0)));
  EXPECT_NEAR(1.5 * floor_of(average, Nutrient::calcium), 30.0, 0.05);
  EXPECT_NEAR(1.5 * floor_of(average, Nutrient::phosphorus), 21.0, 0.05);
  EXPECT_NEAR(floor_of(average, Nutrient::potassium), 25.0, 0.05);
  EXPECT_NEAR(floor_of(average, Nutrient::sodium), 10.0, 0.05);
  EXPECT_NEAR(floor_of(average, Nutrient::chloride), 40.0, 0.05);
  EXPECT_NEAR(1.5 * floor_of(average, Nutrient::copper), 150.0, 0.5);
  EXPECT_NEAR(floor_of(average, Nutrient::iodine), 3.5, 0.05);
  EXPECT_NEAR(floor_of(average, Nutrient::iron), 400.0, 0.5);
}

/// One row of the recomputed table; columns by symbol.
struct TableRow {
  std::string stage;
  double age_months = 0.0;
  std::vector<std::string> values;
};

TableRow table_row(const std::string& line) {
  std::istringstream words(line);
  TableRow row;
  words >> row.stage;
  for (std::string word; words >> word;) {
    if (word.find("mo") != std::string::npos) {
      row.age_months = std::stod(word);
    } else {
      row.values.push_back(word);
    }
  }
  return row;
}

// The equations' own values, from memory, without an outside check: this guards
// against change, it does not prove the standard right. Bodyweight and gain are
// not needs; a growing horse is put on the curve at 500 kg mature weight, and
// that mature weight is left for the program to find.
TEST(PublishedRequirements, TheRecomputed500KgTableStands) {
  std::ifstream file = opened("nrc_2007_500_kg.txt");
  std::string line;
  std::getline(file, line);
  const TableRow heading = table_row(line);
  int rows = 0;
  while (std::getline(file, line)) {
    const TableRow row = table_row(line);
    ASSERT_EQ(row.values.size(), heading.values.size()) << line;
    const double kg = row.age_months > 0.0 ? weight_on_curve(500.0, row.age_months) : 500.0;
    const Horse horse = horse_of(kg, stage_named(row.stage, row.age_months));
    const Requirements needs = nrc_2007(horse);
    for (std::size_t i = 2; i < row.values.size(); ++i) {  // after BW and ADG
      const Nutrient nutrient = nutrient_by_symbol(heading.values[i]);
      const double mj_or_one = nutrient == Nutrient::energy ? mj_per_mcal : 1.0;
      EXPECT_NEAR(needs.find(nutrient)->floor.value() / mj_or_one, std::stod(row.values[i]),
                  1.01 * half_digit(row.values[i]))
          << line << "\n"
          << heading.values[i];
    }
    ++rows;
  }
  EXPECT_EQ(heading.values.size(), 24U);
  EXPECT_EQ(rows, 36);
}

}  // namespace
}  // namespace haymow::published_requirements_test
