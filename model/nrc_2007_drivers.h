// What the needs of NRC 2007 are driven by in one horse: its class, weight,
// intake, sweat, milk, gain and the growth of a foetus, each with its working.
#pragma once

#include <optional>

#include "model/nrc_2007_table.h"
#include "model/stable.h"
#include "model/worked.h"

namespace haymow::nrc {

/// The month by which the standard counts age, pregnancy and milk.
inline constexpr double days_per_month = 30.4;

/// What a mare in foal carries and lays down.
struct Gestation {
  Worked conceptus;  // kg: foetus, placenta and womb
  Worked gain;       // kg a day
};

struct Drivers {
  Group group = Group::maintenance_average;
  int completed_months = 0;  // of age; 0 for adults
  int lactation_month = 0;   // 0 when not in milk
  Worked bodyweight;         // kg
  Worked intake;             // kg dry matter a day, by the standard
  std::optional<Exertion> exertion;
  std::optional<Worked> sweat;  // kg a day
  std::optional<Worked> milk;   // kg a day
  std::optional<Worked> gain;   // kg a day, of a growing horse
  std::optional<Gestation> gestation;
  std::optional<Worked> age_months;  // of a growing horse
};

/// Throws std::invalid_argument for a weight, month or age the standard does not cover.
[[nodiscard]] Drivers drivers_of(const Horse& horse);

/// What a growing horse of that age weighs, as a share of its mature weight. Source:
/// the growth curve of NRC 2007, from memory.
[[nodiscard]] double share_of_mature_weight(double age_months);

}  // namespace haymow::nrc
