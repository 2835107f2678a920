#include "scenarios/report_limit_curve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scenarios/curve_changes.h"

namespace haymow {
namespace {

std::string bound_told(const LimitPath& path, double bound, const Wording& words) {
  const std::string told = words.quantity(bound, path.frontier.row.unit);
  if (!path.need || *path.need <= 0.0) return told;
  return fmt::format("{} ({} of the need)", told, Wording::percent(bound / *path.need));
}

std::string standing_told(const LimitPath& path, const Wording& words) {
  const MovableLimit& limit = *path.limit;
  const bool floor = limit.row.side == Side::lower;
  std::string told;
  if (limit.in_force) {
    told = fmt::format("The limit is {} {} now", floor ? "at least" : "at most",
                       bound_told(path, limit.row.bound, words));
  } else {
    told = "This horse has no such limit now";
  }
  if (limit.now)
    told += fmt::format("; the cheapest ration has {}", bound_told(path, *limit.now, words));
  return told + ".";
}

std::string caution_told(const LimitPath& path) {
  const auto& rule = path.limit->row.limit;
  const bool maker_or_need = path.limit->row.family == RowFamily::need;
  if (maker_or_need && path.limit->row.side == Side::lower) {
    return "Below its need a horse goes short: the figures are for thought, not for feeding.";
  }
  if (!rule || rule->strength == Strength::guide) return "";
  return rule->strength == Strength::law
             ? "It is a welfare limit: it is not moved beyond its absolute figure."
             : "To loosen it takes the word of a vet or registered nutritionist, written under "
               "`instructions`.";
}

// Where rations end inside what was asked about.
std::string end_told(const LimitPath& path, const Wording& words) {
  const auto& corners = path.frontier.corners;
  const double flat = 1e-6;  // of the cost: the certificate's tolerance
  const bool floor = path.frontier.row.side == Side::lower;
  if (path.frontier.ends_at) {
    return fmt::format("{} {} there is no ration.", floor ? "Above" : "Below",
                       bound_told(path, *path.frontier.ends_at, words));
  }
  if (corners.empty()) return "There is no ration, wherever the limit is set.";
  const double rise = std::abs((corners.back().cost - corners.front().cost).in_units());
  return rise <= flat * std::max(1.0, corners.front().cost.in_units())
             ? "Nowhere in this range does it hold the ration."
             : "";
}

}  // namespace

Section limit_curve_section(const LimitPath& path, const Wording& words) {
  const Frontier& found = path.frontier;
  Section section{fmt::format("As the limit on {} moves", path.asked.name), {}, {}};
  if (!found.corners.empty()) {
    // Nearer to the end than this part of the range, a corner reads as the end.
    const double close_by = 1e-3 * (found.corners.back().bound - found.corners.front().bound);
    section.table = Table{};
    section.table->headings = {found.row.side == Side::lower ? "at least" : "at most", "cost a day",
                               "what changes here"};
    section.table->last_is_prose = true;
    for (std::size_t k = 0; k < found.corners.size(); ++k) {
      const std::string change = corner_change(path, k);
      const bool end = k == 0 || k + 1 == found.corners.size();
      const bool by_the_end = found.corners.back().bound - found.corners[k].bound < close_by;
      if (!end && by_the_end) continue;
      // Of a share, a corner at which nobody sees a change is none.
      if (!end && change.empty() && !found.straight) continue;
      section.table->rows.push_back({bound_told(path, found.corners[k].bound, words),
                                     Wording::money(found.corners[k].cost.in_units()),
                                     end || !change.empty() ? change : "amounts move another way"});
    }
  }
  section.sentences.push_back(standing_told(path, words));
  for (std::string sentence : {end_told(path, words), caution_told(path)}) {
    if (!sentence.empty()) section.sentences.push_back(std::move(sentence));
  }
  if (found.corners.size() > 1) {
    section.sentences.push_back(found.straight
                                    ? "Between two lines cost and amounts go in a straight line."
                                    : "Between two lines cost and amounts go in a shallow bow; "
                                      "--curves has points of it.");
  }
  return section;
}

}  // namespace haymow
