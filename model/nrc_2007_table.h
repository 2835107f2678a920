// The coefficients of NRC 2007 as one table: which class of horse, which
// nutrient, how much for each kilogram of bodyweight, dry matter, sweat, milk or
// gain, and how each is known. Only numbers; nrc_2007.cpp does the sums.
#pragma once

#include <optional>

#include "model/requirements.h"

namespace haymow::nrc {

/// Classes of horse in the order of the standard's tables, so that neighbours
/// which share a coefficient share a line.
enum class Group {
  maintenance_minimum,
  maintenance_average,
  maintenance_elevated,
  stallion_resting,
  stallion_breeding,
  work_light,
  work_moderate,
  work_heavy,
  work_very_heavy,
  pregnant_1_4,
  pregnant_5_6,
  pregnant_7_8,
  pregnant_9_11,
  lactating_1_3,
  lactating_4_6,
  growing,
  growing_light,
  growing_moderate,
  growing_heavy,
  growing_very_heavy,
};

/// One cell: need a day = sum of coefficient times driver, in the nutrient's unit.
struct Coefficients {
  double per_kg = 0.0;         // of bodyweight (mature weight for a mare in foal)
  double per_kg_intake = 0.0;  // of the standard's dry matter intake
  double per_kg_sweat = 0.0;
  double per_kg_milk = 0.0;
  double per_kg_gain = 0.0;
  double bodyweight_absorbed = 1.0;  // share absorbed: divides per_kg
  double milk_absorbed = 1.0;        // share absorbed: divides per_kg_milk
};

struct Line {
  Nutrient nutrient = Nutrient::energy;
  Group first = Group::maintenance_minimum;
  Group last = Group::growing_very_heavy;
  Confidence confidence = Confidence::low;
  Coefficients cell;
  int until_month = 1000;  // of age, completed months; lines of one nutrient go by age
};

/// Energy: maintenance in Mcal per kg, times a multiple for work.
struct EnergyLine {
  Group first;
  Group last;
  Confidence confidence;
  double mcal_per_kg;  // growing: per kg at one month, falling with age
  double multiple;
};

struct IntakeLine {
  Group first;
  Group last;
  double share_of_bodyweight;  // kg dry matter per kg and day
};

/// Work done, in protein and sweat.
struct Exertion {
  double sweat_per_kg;     // kg per kg of bodyweight and day
  double muscle_g_per_kg;  // g crude protein per kg of bodyweight and day
};

/// The line for a nutrient other than energy; throws std::logic_error when the
/// table has none.
[[nodiscard]] const Line& line_for(Nutrient nutrient, Group group, int completed_months);
[[nodiscard]] const EnergyLine& energy_line_for(Group group);
[[nodiscard]] double standard_intake_share(Group group);
[[nodiscard]] std::optional<Exertion> exertion_of(Group group);
/// Share of absorbed protein that becomes growth, by completed months of age.
[[nodiscard]] double growth_efficiency(int completed_months);
/// Milk, kg per kg of bodyweight and day; month 1 to 6.
[[nodiscard]] double milk_per_kg(int month);

}  // namespace haymow::nrc
