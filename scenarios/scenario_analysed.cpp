#include "scenarios/scenario_analysed.h"

#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_values.h"

namespace haymow {

void read_analysed(const MapReader& map, const SeasonStart& season, Offer& offer,
                   Findings& findings) {
  const YamlEntry* entry = map.find("analysed");
  if (entry == nullptr) return;
  if (map.find_quietly("analysis") == nullptr) {
    findings.error(entry->key.span,
                   {"`analysed` is the day of an `analysis`, and there is none",
                    "write the figures under `analysis`, or delete `analysed`", ""});
    return;
  }
  const auto text = text_of(entry->value, "`analysed`", findings);
  if (!text) return;
  const auto date = accepted(read_date(*text), entry->value, findings);
  if (!date) return;
  if (!season.from) {
    if (season.given) return;  // reported there
    findings.error(entry->value.span,
                   {"how old the analysis is cannot be told without a first day",
                    "write `season: {from: 2026-11-01, until: 2027-04-20}`", ""});
    return;
  }
  offer.analysis_age = days_between(*date, *season.from);
}

}  // namespace haymow
