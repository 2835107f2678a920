// What a horse needs a day: one row for each nutrient, with the equation filled
// in and how sure it is. A standard is a function from a horse to such rows, so
// a second standard needs no change anywhere else.
#pragma once

#include <optional>
#include <string>
#include <vector>

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
  std::string source;  // bibliography key of the standard
  /// A floor that is forced on the ration; otherwise it is judged and reported.
  bool forced = true;
};

struct Requirements {
  std::vector<Requirement> rows;  // in the order of required_nutrients()
  KgDryMatter standard_intake;    // dry matter a day the standard reckons with
  std::string standard_intake_equation;

  [[nodiscard]] const Requirement* find(Nutrient nutrient) const;
};

/// Needs by NRC 2007, with adjustments for condition aim, cold and the
/// individual. Floors for every required nutrient. Ceilings are of two kinds:
/// energy (105 % of the floor) and tolerances of total dry matter, which depend
/// on intake and are therefore rules (rules.h), not rows here.
/// Throws std::invalid_argument for a month or age the standard does not cover.
[[nodiscard]] Requirements nrc_2007(const Horse& horse);

/// Bodyweight from a tape: kg = girth^2 x length / 11,880 (cm), Carroll and
/// Huntington 1988, from memory; about 10 % either way. Divisors for young
/// horses and ponies from the same form in inches and pounds.
enum class BodyShape { adult, pony, yearling, weanling };
[[nodiscard]] Bodyweight bodyweight_from_tape(Centimetres girth, Centimetres length,
                                              BodyShape shape = BodyShape::adult);
/// From girth alone: kg = 80 x girth^3 (m), Marcenac and Aublet 1964.
[[nodiscard]] Bodyweight bodyweight_from_girth(Centimetres girth);

}  // namespace haymow
