// What solving again in fractions came to, in sentences.
#include <fmt/format.h>

#include <cmath>

#include "scenarios/wording.h"

namespace haymow {
namespace {

// Differences below this are one rounding; their digits differ between machines.
constexpr double one_rounding = 1e-12;

constexpr std::string_view again =
    "Solved again without rounding, in fractions within 1e-9 of the figures";
constexpr std::string_view our_failure =
    "This is our failure, not your file's. Please report it with the file.";

}  // namespace

std::string Wording::exact(const ExactCheck& check, std::size_t other_spells) const {
  if (!check.finished()) {
    return fmt::format(
        "Solving again in fractions did not come to an end in time, so nothing is confirmed. "
        "{} Without --exact there is an answer.",
        our_failure);
  }
  if (check.status == Status::infeasible) {
    return fmt::format("{}, no amounts at all keep every limit. {}", again, our_failure);
  }
  const double difference = std::abs(check.difference);
  const std::string cost = fmt::format("{:.6f} {} a day", check.cost, money_);
  if (!check.confirms_cost()) {
    return fmt::format("{}, the least cost is {}; the answer found differs by {:.0e}, too much. {}",
                       again, cost, difference, our_failure);
  }
  std::string out = fmt::format(
      "{}: before amounts are rounded to steps the least cost is {}. The answer found differs by "
      "{}{}.",
      again, cost,
      difference < one_rounding ? std::string("less than 1e-12")
                                : fmt::format("{:.0e}", difference),
      check.same_basis ? "; the same feeds and limits decide it"
                       : "; other feeds or limits that cost as much decide it");
  if (other_spells > 0) {
    out += fmt::format(" The ration{} of {} other stretch{} of the season {} confirmed too.",
                       other_spells == 1 ? "" : "s", other_spells, other_spells == 1 ? "" : "es",
                       other_spells == 1 ? "is" : "are");
  }
  return out;
}

std::string Wording::exact_clash(const ExactCheck& check) const {
  if (!check.finished()) return exact(check);
  if (check.status == Status::infeasible) {
    return fmt::format("{}: the demands above cannot all hold.", again);
  }
  return fmt::format("{}, the demands above can all hold, by a hair. {}", again, our_failure);
}

}  // namespace haymow
