#include "model/nrc_2007_drivers.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

namespace haymow::nrc {
namespace {

// The growth curve of NRC 2007, from memory: 9.7 % of mature weight at birth, the
// rest approached at 7.72 % a month. The gain is its slope.
constexpr double birth_share = 0.097;
constexpr double growth_share = 0.903;
constexpr double growth_rate_per_month = -0.0772;
constexpr double gain_percent_of_mature = 6.97121;  // 0.0772 x 90.3
constexpr double percent = 100.0;

// Foetus, from memory: birth weight x 1e-9 x day^3.5512; its gain is the slope.
constexpr double foetus_scale = 1e-9;
constexpr double foetus_power = 3.5512;
// Placenta and womb, back-fitted: 0.045 kg a day at 500 kg from day 150 on.
constexpr double placenta_gain_per_kg = 0.00009;
constexpr double placenta_from_day = 150.0;

constexpr int first_growing_month = 4;
constexpr int last_growing_month = 24;
constexpr int last_pregnant_month = 11;
constexpr int last_lactating_month = 6;
// Up to this month a mare in foal is fed as an idle one.
constexpr int last_early_month = 4;

Group group_of(const Idle& stage) {
  switch (stage.level) {
    case MaintenanceLevel::minimum:
      return Group::maintenance_minimum;
    case MaintenanceLevel::average:
      return Group::maintenance_average;
    case MaintenanceLevel::elevated:
      return Group::maintenance_elevated;
  }
  throw std::invalid_argument("this level of maintenance is not in the standard");
}

Group worked_group(WorkLevel level, Group light) {
  // The four levels of work follow one another in Group.
  return static_cast<Group>(static_cast<int>(light) + static_cast<int>(level));
}

Group group_of(const Pregnant& stage) {
  if (stage.month <= last_early_month) return Group::pregnant_1_4;
  if (stage.month <= 6) return Group::pregnant_5_6;
  if (stage.month <= 8) return Group::pregnant_7_8;
  return Group::pregnant_9_11;
}

void check_month(const char* what, int month, int last) {
  if (month >= 1 && month <= last) return;
  throw std::invalid_argument(fmt::format(
      "the standard covers {} from month 1 to {}; month {} was asked for", what, last, month));
}

Gestation gestation_of(const Worked& mature, int month) {
  const Worked day = step("day of gestation",
                          figure(days_per_month, "days/month") * figure(month, "months"), "days");
  const Worked birth = step("birth weight", figure(birth_share, "kg/kg") * mature, "kg");
  const Worked foetus =
      step("foetus", birth * figure(foetus_scale) * power(day, foetus_power), "kg");
  const Worked foetus_gain =
      step("gain of foetus",
           birth * figure(foetus_scale) * figure(foetus_power) * power(day, foetus_power - 1.0),
           "kg/day");
  const Worked placenta_gain =
      step("gain of placenta and womb", figure(placenta_gain_per_kg, "kg/kg") * mature, "kg/day");
  const Worked placenta =
      step("placenta and womb", placenta_gain * (day - figure(placenta_from_day, "days")), "kg");
  return {step("foetus, placenta and womb", foetus + placenta, "kg"),
          step("gain of all three", foetus_gain + placenta_gain, "kg/day")};
}

Worked mature_weight_of(const Horse& horse, const Worked& age) {
  if (horse.mature_weight) return amount(horse.mature_weight->in_kg(), "kg");
  const Worked share =
      figure(birth_share) +
      figure(growth_share) * (figure(1.0) - exponential(figure(growth_rate_per_month) * age));
  return step("mature weight, not given, so by the standard's growth curve",
              amount(horse.bodyweight.in_kg(), "kg") / share, "kg");
}

void set_growth(Drivers& drivers, const Horse& horse, const Growing& stage) {
  const double months = stage.age_months;
  if (!std::isfinite(months) || months < first_growing_month || months > last_growing_month) {
    throw std::invalid_argument(
        fmt::format("the standard covers growing horses from {} to {} months old; {} months was "
                    "asked for; an older horse is idle or working",
                    first_growing_month, last_growing_month, months));
  }
  drivers.group = stage.work ? worked_group(*stage.work, Group::growing_light) : Group::growing;
  drivers.completed_months = static_cast<int>(std::floor(months));
  const Worked age = amount(months, "months");
  drivers.age_months = age;
  drivers.gain = step("gain a day",
                      mature_weight_of(horse, age) * figure(gain_percent_of_mature) *
                          exponential(figure(growth_rate_per_month) * age) /
                          figure(days_per_month) / figure(percent),
                      "kg");
}

struct SetStage {
  Drivers& drivers;
  const Horse& horse;

  void operator()(const Idle& stage) const { drivers.group = group_of(stage); }
  void operator()(const Stallion& stage) const {
    drivers.group = stage.breeding ? Group::stallion_breeding : Group::stallion_resting;
  }
  void operator()(const Working& stage) const {
    drivers.group = worked_group(stage.level, Group::work_light);
  }
  void operator()(const Pregnant& stage) const {
    check_month("pregnancy", stage.month, last_pregnant_month);
    drivers.group = group_of(stage);
    if (stage.month > last_early_month) {
      drivers.gestation = gestation_of(drivers.bodyweight, stage.month);
    }
  }
  void operator()(const Lactating& stage) const {
    check_month("lactation", stage.month, last_lactating_month);
    constexpr int last_early_milk_month = 3;
    drivers.group =
        stage.month <= last_early_milk_month ? Group::lactating_1_3 : Group::lactating_4_6;
    drivers.lactation_month = stage.month;
    drivers.milk =
        step("milk a day", figure(milk_per_kg(stage.month), "kg/kg") * drivers.bodyweight, "kg");
  }
  void operator()(const Growing& stage) const { set_growth(drivers, horse, stage); }
};

void check_weight(double kg, const char* what) {
  if (std::isfinite(kg) && kg > 0.0) return;
  throw std::invalid_argument(std::string("the ") + what + " must be above 0 kg");
}

}  // namespace

Drivers drivers_of(const Horse& horse) {
  check_weight(horse.bodyweight.in_kg(), "bodyweight");
  if (horse.mature_weight) check_weight(horse.mature_weight->in_kg(), "mature weight");
  Drivers drivers;
  drivers.bodyweight = amount(horse.bodyweight.in_kg(), "kg");
  std::visit(SetStage{drivers, horse}, horse.stage);
  drivers.intake =
      step("dry matter a day by the standard",
           figure(standard_intake_share(drivers.group), "kg/kg") * drivers.bodyweight, "kg");
  drivers.exertion = exertion_of(drivers.group);
  if (drivers.exertion) {
    drivers.sweat = step(
        "sweat a day", figure(drivers.exertion->sweat_per_kg, "kg/kg") * drivers.bodyweight, "kg");
  }
  return drivers;
}

double share_of_mature_weight(double age_months) {
  return birth_share + growth_share * (1.0 - std::exp(growth_rate_per_month * age_months));
}

}  // namespace haymow::nrc
