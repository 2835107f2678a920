// How much of something is in a feed: "71 g/kg DM", "10 %", "5000 IU/kg". The
// basis, as fed or dry matter, is part of the unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "feeds/quantity.h"

namespace haymow {

/// Per kilogram of what a content is stated. Not plain `Basis`: that is a word of
/// the solver, and one name may mean one thing only in a program (ODR).
enum class ContentBasis { as_fed, dry_matter };

enum class ContentKind { mass, units, energy };  // g, IU, MJ in a kilogram

struct Content {
  double value = 0.0;  // g, IU or MJ in a kg
  ContentKind kind = ContentKind::mass;
  std::optional<ContentBasis> basis;  // absent: not written
};

/// Units: %, g/kg, mg/kg, mcg/kg, ppm, mg/lb, IU/kg, IU/lb, MJ/kg, kcal/kg,
/// Mcal/kg, Mcal/lb, each with "DM" or "as fed" behind it or with neither.
/// Not negative; a mass of more than a kilogram in a kilogram is refused.
[[nodiscard]] Reading<Content> read_content(std::string_view text);

/// A content that reads, its number times `factor`, with its unit and no basis:
/// "10 % as fed" by 1.25 is "12.5 %".
[[nodiscard]] std::string scaled_content(std::string_view text, double factor);

}  // namespace haymow
