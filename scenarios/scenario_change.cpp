#include "scenarios/scenario_change.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "model/change_plan.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_keys.h"

namespace haymow {
namespace {

// Longer than any source asks for (the longest is four weeks): a slip of the pen.
constexpr double most_change_days = 60.0;

const Dimension& whole_days() {
  static constexpr std::array units{Unit{"days", 1.0, true}, Unit{"day", 1.0, false},
                                    Unit{"weeks", 7.0, true}, Unit{"week", 7.0, false}};
  static constexpr Dimension dimension{"a time", "14 days", units};
  return dimension;
}

std::optional<Days> read_over(const MapReader& change) {
  const auto days = change.amount("over", whole_days());
  if (!days) return std::nullopt;
  const SourceSpan& span = change.find("over")->value.span;
  Findings& findings = change.findings();
  if (*days < fewest_change_days) {
    findings.error(span, {fmt::format("a change over {:.4g} days is too fast: it takes at least "
                                      "{} days",
                                      *days, fewest_change_days),
                          "write `over: 14 days`; a hurried change of feed, of hay above all, "
                          "brings on colic",
                          ""});
    return std::nullopt;
  }
  if (*days > most_change_days || *days != std::floor(*days)) {
    findings.error(span,
                   {*days > most_change_days
                        ? fmt::format("a change over {:.4g} days is longer than two months", *days)
                        : fmt::format("`over` of {:.4g} days is not a whole number", *days),
                    "write whole days from 10 to 60, such as `over: 14 days`", ""});
    return std::nullopt;
  }
  return Days{*days};
}

}  // namespace

ChangeAsked read_change(const MapReader& file) {
  ChangeAsked asked;
  const YamlEntry* entry = file.find("change");
  if (entry == nullptr) return asked;
  const MapReader change(entry->value, "change", change_keys, file.findings());
  if (!change.is_map()) return asked;
  if (const YamlEntry* from = change.find("from")) {
    if (const auto text = text_of(from->value, "`from`", file.findings())) {
      asked.from = accepted(read_date(*text), from->value, file.findings());
    }
  }
  asked.over = read_over(change);
  return asked;
}

}  // namespace haymow
