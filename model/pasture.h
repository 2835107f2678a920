// What a keeper says of a horse's grass: how long it is out, on what, with or
// without a muzzle, month by month. What it eats there is in grazing.h.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "model/source_position.h"

namespace haymow {

inline constexpr int months_in_year = 12;

/// How much grass stands on the field.
enum class Sward { none, poor, fair, good };
[[nodiscard]] constexpr std::string_view name_of(Sward sward) {
  switch (sward) {
    case Sward::none:
      return "none";
    case Sward::poor:
      return "poor";
    case Sward::fair:
      return "fair";
    case Sward::good:
      return "good";
  }
  return "";
}

struct Turnout {
  double hours = 0.0;  // a day, 0 to 24
  Sward sward = Sward::fair;
  bool muzzle = false;
};

struct Grazing {
  /// January first; absent: the file says nothing of that month.
  std::array<std::optional<Turnout>, months_in_year> months;
  std::optional<double> hectares_a_horse;  // absent: reckoned with usual stocking
  std::optional<int> month;                // 1 to 12, to plan for; absent: those of the season
  SourcePosition position;

  /// Nothing where the file is silent. `month_of_year`: 1 to 12.
  [[nodiscard]] const std::optional<Turnout>& in(int month_of_year) const {
    return months.at(static_cast<std::size_t>(month_of_year - 1));
  }
};

}  // namespace haymow
