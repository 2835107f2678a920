#include "scenarios/draw_ruler.h"

#include <fmt/format.h>

#include <algorithm>

namespace haymow {
namespace {

constexpr double line_length = ruler_width - 2.0 * ruler_margin;
constexpr double middle = 10.0;    // of the height of 20
constexpr double half_mark = 6.5;  // of the lozenge
constexpr double half_tick = 7.0;

// 0 at the floor, 1 at the ceiling; outside that where the value is outside.
double share_of(const Ruler& ruler, double value) {
  const double floor = ruler.floor.value_or(0.0);
  if (ruler.ceiling) {
    const double length = *ruler.ceiling - floor;
    return length > 0.0 ? (value - floor) / length : 0.5;
  }
  if (value >= floor) return value > 0.0 ? 1.0 - floor / value : 0.0;
  return value / floor - 1.0;
}

std::string tick(double x) {
  return fmt::format(R"(<path class="end" d="M{:.1f} {}V{}"/>)", x, middle - half_tick,
                     middle + half_tick);
}

}  // namespace

double place_on_ruler(const Ruler& ruler, double value) {
  const double x = ruler_margin + line_length * share_of(ruler, value);
  return std::clamp(x, half_mark, ruler_width - half_mark);
}

std::string draw_ruler(const Ruler& ruler) {
  const double right = ruler_width - ruler_margin;
  const double x = place_on_ruler(ruler, ruler.supplied);
  std::string out = fmt::format(R"(<svg class="ruler" viewBox="0 0 {} 20" aria-hidden="true">)"
                                R"(<path class="line" d="M{} {}H{}"/>)",
                                ruler_width, ruler_margin, middle, right);
  if (ruler.floor) out += tick(ruler_margin);
  if (ruler.ceiling) {
    out += tick(right);
  } else {
    out += fmt::format(R"(<path class="open" d="M{} {}H{}"/>)", right, middle, ruler_width);
  }
  out += fmt::format(R"(<path class="mark" d="M{:.1f} {}L{:.1f} {}L{:.1f} {}L{:.1f} {}Z"/></svg>)",
                     x, middle - half_mark, x + half_mark, middle, x, middle + half_mark,
                     x - half_mark, middle);
  return out;
}

}  // namespace haymow
