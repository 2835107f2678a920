// What a horse needs a day: one row for each nutrient, with the equation filled
// in and how sure it is. A standard is a function from a horse to such rows, so
// a second standard needs no change anywhere else.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/bodyweight.h"  // callers of the tape formulas look here
#include "model/nutrient.h"
#include "model/stable.h"
#include "model/units.h"

namespace haymow {

/// How an equation is known.
enum class Confidence {
  printed,      // a coefficient or result was confirmed on a printed page
  memory,       // remembered, and consistent with table values remembered apart
  back_fitted,  // form remembered, coefficients solved from remembered values
  low,          // verify before relying on it
};
[[nodiscard]] std::string_view name_of(Confidence confidence);

struct Requirement {
  Nutrient nutrient = Nutrient::energy;
  std::optional<double> floor;    // least a day, in the nutrient's unit
  std::optional<double> ceiling;  // most a day, in the nutrient's unit
  std::string equation;           // with the numbers filled in: "0.04 x 500 kg = 20 g"
  std::string ceiling_equation;   // likewise; empty without a ceiling
  Confidence confidence = Confidence::memory;
  std::string source;  // bibliography key of the standard or trial of the basic figure
  /// A floor that is forced on the ration; otherwise it is judged and reported.
  bool forced = true;
};

struct Requirements {
  std::vector<Requirement> rows;  // in the order of required_nutrients()
  KgDryMatter standard_intake;    // dry matter a day the standard reckons with
  std::string standard_intake_equation;

  [[nodiscard]] const Requirement* find(Nutrient nutrient) const;
};

/// Needs by NRC 2007, a row for each of required_nutrients(), every one with a
/// floor. Energy is adjusted for the individual, cold and a dated condition aim
/// (energy_adjustments.h). Concentrations are reckoned on the standard's own
/// intake, so that a need does not move with the ration. Ceilings are of two
/// kinds: energy (105 % of the floor) and tolerances of total dry matter, which
/// depend on intake and are therefore rules (rules.h), not rows here.
/// Throws std::invalid_argument, with a sentence, for a month or age the standard
/// does not cover and for a weight, factor or time that is not above zero.
[[nodiscard]] Requirements nrc_2007(const Horse& horse);

}  // namespace haymow
