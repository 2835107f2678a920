#include "scenarios/scenario_calendar.h"

#include <fmt/format.h>

#include <string>

#include "feeds/plain_text.h"
#include "model/horse_on_day.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_life_stage.h"

namespace haymow {
namespace {

// A mare still in milk then has nursed her foal for half a year.
constexpr int last_day_in_milk = 182;

class CalendarReader {
 public:
  CalendarReader(const MapReader& map, const SeasonStart& season, Horse& horse)
      : map_(map), season_(season), horse_(horse), findings_(map.findings()) {}

  void read() {
    read_foaling();
    read_weaned();
    read_entries();
  }

 private:
  std::optional<int> day_in(const YamlEntry& entry) {
    const auto text = text_of(entry.value, ticked(entry.key.text), findings_);
    if (!text) return std::nullopt;
    const auto date = accepted(read_date(*text), entry.value, findings_);
    if (!date) return std::nullopt;
    if (season_.from) return static_cast<int>(days_between(*season_.from, *date).in_days());
    if (!season_.given) {
      findings_.error(entry.value.span,
                      {"the days until this date cannot be counted without a first day",
                       "write `season: {from: 2026-11-01, until: 2027-04-20}`", ""});
    }
    return std::nullopt;
  }

  void read_foaling() {
    const YamlEntry* entry = map_.find("foaling");
    if (entry == nullptr) return;
    const auto day = day_in(*entry);
    if (!day) return;
    if (*day > days_in_foal || *day < -last_day_in_milk) {
      findings_.error(
          entry->value.span,
          {*day > 0 ? fmt::format("a mare who foals {} days after the first day of the season is "
                                  "not in foal on it; she carries for {} days",
                                  *day, days_in_foal)
                    : fmt::format("a foal born {} days before the first day of the season is "
                                  "weaned by then",
                                  -*day),
           "check the date, or write what she does now, such as `work: none`", ""});
      return;
    }
    horse_.calendar.foaling = *day;
    horse_.stage = horse_on(horse_, 0).stage;
  }

  void read_weaned() {
    const YamlEntry* entry = map_.find("weaned");
    if (entry == nullptr) return;
    const auto foaling = expected_foaling(horse_);
    const bool misread = map_.find_quietly("foaling") != nullptr && !horse_.calendar.foaling;
    if (misread) return;
    if (!foaling) {
      findings_.error(entry->key.span, {"`weaned` is for a mare in foal or in milk",
                                        "write `foaling: 2027-03-14`, or delete `weaned`", ""});
      return;
    }
    const auto day = day_in(*entry);
    if (!day) return;
    if (*day <= *foaling) {
      findings_.error(entry->value.span, {"the foal is weaned before it is born",
                                          "check this date and that of the foaling", ""});
      return;
    }
    horse_.calendar.weaning = *day;
  }

  void read_entries() {
    const YamlEntry* entry = map_.find("calendar");
    if (entry == nullptr) return;
    if (entry->value.kind != YamlKind::list) {
      findings_.error(
          entry->value.span,
          {fmt::format("`calendar` is {}; expected a list", describe(entry->value.kind)),
           "write `calendar: [{from: 2027-02-01, work: moderate}]`", ""});
      return;
    }
    for (const YamlNode& node : entry->value.items) read_entry(node);
  }

  void read_entry(const YamlNode& node) {
    const MapReader map(node, "an entry of the calendar", calendar_keys, findings_);
    if (!map.is_map()) return;
    const YamlEntry* from = map.need("from", "write `from: 2027-02-01`");
    const auto stage = read_life_stage(map);
    const auto day = from != nullptr ? day_in(*from) : std::nullopt;
    if (!day || !stage) return;
    auto& stages = horse_.calendar.stages;
    if (!stages.empty() && *day <= stages.back().day) {
      findings_.error(from->value.span, {"this date is not after that of the entry before",
                                         "put the entries in order of their dates", ""});
      return;
    }
    if (*day <= 0) {
      findings_.error(from->value.span,
                      {"this date is not after the first day of the season",
                       "write what the horse does on the first day beside its name", ""});
      return;
    }
    stages.push_back({*day, *stage});
  }

  const MapReader& map_;
  const SeasonStart& season_;
  Horse& horse_;
  Findings& findings_;
};

}  // namespace

void read_calendar(const MapReader& map, const SeasonStart& season, Horse& horse) {
  CalendarReader(map, season, horse).read();
}

}  // namespace haymow
