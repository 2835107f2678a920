// Laws that hold for every horse, tried on many.
#include <cmath>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "model/requirements.h"
#include "tests/model/arithmetic.h"
#include "tests/model/classes.h"

namespace haymow::requirements_laws_test {
namespace {

using printed::Arithmetic;
using printed::half_digit;
using printed::horse_of;
using printed::lines_of;
using printed::PrintedLine;

/// A number between two bounds, in steps of a hundredth.
double any_between(double low, double high) {
  return *rc::gen::inRange(static_cast<int>(low * 100.0), static_cast<int>(high * 100.0) + 1) /
         100.0;
}

WorkLevel any_level() {
  return *rc::gen::element(WorkLevel::light, WorkLevel::moderate, WorkLevel::heavy,
                           WorkLevel::very_heavy);
}

LifeStage any_stage() {
  switch (*rc::gen::inRange(0, 7)) {
    case 0:
      return Idle{*rc::gen::element(MaintenanceLevel::minimum, MaintenanceLevel::average,
                                    MaintenanceLevel::elevated)};
    case 1:
      return Stallion{*rc::gen::arbitrary<bool>()};
    case 2:
      return Working{any_level()};
    case 3:
      return Pregnant{*rc::gen::inRange(1, 12)};
    case 4:
      return Lactating{*rc::gen::inRange(1, 7)};
    case 5:
      return Growing{any_between(4.0, 24.0), std::nullopt};
    default:
      return Growing{any_between(4.0, 24.0), any_level()};
  }
}

Horse any_horse() { return horse_of(any_between(80.0, 1000.0), any_stage()); }

Horse any_adjusted_horse() {
  Horse horse = any_horse();
  horse.energy_factor = any_between(0.7, 1.5);
  if (*rc::gen::arbitrary<bool>()) {
    horse.cold = Cold{any_between(-40.0, 10.0), any_between(-15.0, 10.0), std::nullopt};
  }
  if (*rc::gen::arbitrary<bool>()) {
    horse.condition =
        ConditionAim{any_between(3.0, 9.0), any_between(4.0, 7.0), Days{any_between(20.0, 300.0)}};
  }
  if (*rc::gen::arbitrary<bool>()) horse.health = {HealthState::overweight};
  return horse;
}

void check_no_less(const Horse& easier, const Horse& harder) {
  const Requirements less = nrc_2007(easier);
  const Requirements more = nrc_2007(harder);
  for (std::size_t i = 0; i < less.rows.size(); ++i) {
    RC_ASSERT(more.rows[i].floor.value() >= less.rows[i].floor.value());
  }
}

RC_GTEST_PROP(RequirementLaws, EveryFloorIsFiniteAndAboveZero, ()) {
  const Requirements needs = nrc_2007(any_adjusted_horse());
  RC_ASSERT(needs.rows.size() == required_nutrients().size());
  for (const Requirement& row : needs.rows) {
    RC_ASSERT(std::isfinite(row.floor.value()));
    RC_ASSERT(row.floor.value() > 0.0);
    RC_ASSERT(!row.ceiling || *row.ceiling > *row.floor);
  }
}

RC_GTEST_PROP(RequirementLaws, EquationEndsInTheFloorAsPrinted, ()) {
  for (const Requirement& row : nrc_2007(any_adjusted_horse()).rows) {
    const NutrientTraits& traits = traits_of(row.nutrient);
    const std::string end =
        fmt::format(" = {:.{}f} {}", row.floor.value(), traits.decimals, traits.unit);
    RC_ASSERT(row.equation.size() > end.size());
    RC_ASSERT(row.equation.substr(row.equation.size() - end.size()) == end);
  }
}

/// Numbers inside a line are shown to five figures, so a line that is worked out
/// again may be off by a few parts in ten thousand, and by half its last digit.
void check_lines(const std::string& equation) {
  for (const PrintedLine& line : lines_of(equation)) {
    const double again = Arithmetic(line.sum).value();
    const double printed = std::stod(line.result);
    RC_LOG() << equation << "\n" << line.sum << " = " << again << "\n";
    RC_ASSERT(std::abs(again - printed) <=
              0.0005 * std::abs(printed) + 1.2 * half_digit(line.result));
  }
}

RC_GTEST_PROP(RequirementLaws, EveryPrintedLineWorksOutAsItSays, ()) {
  const Requirements needs = nrc_2007(any_adjusted_horse());
  check_lines(needs.standard_intake_equation);
  for (const Requirement& row : needs.rows) {
    check_lines(row.equation);
    if (row.ceiling) check_lines(row.ceiling_equation);
  }
}

RC_GTEST_PROP(RequirementLaws, NeedsRiseWithBodyweight, ()) {
  const Horse lighter = any_horse();
  const Horse heavier =
      horse_of(lighter.bodyweight.in_kg() + any_between(0.1, 200.0), lighter.stage);
  const Requirements less = nrc_2007(lighter);
  const Requirements more = nrc_2007(heavier);
  for (std::size_t i = 0; i < less.rows.size(); ++i) {
    RC_ASSERT(more.rows[i].floor.value() > less.rows[i].floor.value());
  }
}

RC_GTEST_PROP(RequirementLaws, NeedsNeverFallWithWork, ()) {
  const double kg = any_between(80.0, 1000.0);
  check_no_less(horse_of(kg, Idle{}), horse_of(kg, Working{WorkLevel::light}));
  check_no_less(horse_of(kg, Working{WorkLevel::light}),
                horse_of(kg, Working{WorkLevel::moderate}));
  check_no_less(horse_of(kg, Working{WorkLevel::moderate}),
                horse_of(kg, Working{WorkLevel::heavy}));
  check_no_less(horse_of(kg, Working{WorkLevel::heavy}),
                horse_of(kg, Working{WorkLevel::very_heavy}));
}

RC_GTEST_PROP(RequirementLaws, NeedsOfTheYoungNeverFallWithWork, ()) {
  const double kg = any_between(80.0, 600.0);
  const double age = any_between(4.0, 24.0);
  const auto at = [&](WorkLevel level) { return horse_of(kg, Growing{age, level}); };
  check_no_less(at(WorkLevel::light), at(WorkLevel::moderate));
  check_no_less(at(WorkLevel::moderate), at(WorkLevel::heavy));
  check_no_less(at(WorkLevel::heavy), at(WorkLevel::very_heavy));
}

RC_GTEST_PROP(RequirementLaws, NeedsNeverFallThroughLatePregnancy, ()) {
  const double kg = any_between(80.0, 1000.0);
  for (int month = 5; month < 11; ++month) {
    check_no_less(horse_of(kg, Pregnant{month}), horse_of(kg, Pregnant{month + 1}));
  }
}

RC_GTEST_PROP(RequirementLaws, LossNeverTakesMoreThanAFifthOfMaintenance, ()) {
  Horse horse = horse_of(any_between(80.0, 1000.0), Idle{});
  horse.condition = ConditionAim{any_between(5.1, 9.0), 5.0, Days{any_between(10.0, 400.0)}};
  const double standard = 0.0333 * horse.bodyweight.in_kg() * mj_per_mcal;
  const double planned = nrc_2007(horse).find(Nutrient::energy)->floor.value();
  RC_ASSERT(planned < standard);
  RC_ASSERT(planned >= 0.8 * standard - 1e-9);
}

RC_GTEST_PROP(RequirementLaws, ColderNeverNeedsLess, ()) {
  Horse mild = any_horse();
  mild.cold = Cold{any_between(-30.0, 10.0), any_between(-15.0, 10.0), std::nullopt};
  Horse colder = mild;
  colder.cold->temperature_c -= any_between(0.0, 20.0);
  check_no_less(mild, colder);
}

}  // namespace
}  // namespace haymow::requirements_laws_test
