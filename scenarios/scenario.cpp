#include "scenarios/scenario.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "feeds/source_text.h"
#include "scenarios/scenario_ask.h"
#include "scenarios/scenario_change.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_feeding_times.h"
#include "scenarios/scenario_horse.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_offers.h"
#include "scenarios/scenario_parts.h"
#include "scenarios/scenario_ranges.h"
#include "scenarios/scenario_stores.h"
#include "scenarios/scenario_values.h"
#include "scenarios/season_months.h"

namespace haymow {
namespace {

/// A longer season is a slip in a year (common practice, no source).
constexpr double most_season_days = 731.0;

std::optional<Date> date_of(const MapReader& season, std::string_view key, Findings& findings) {
  const YamlEntry* entry = season.need(key, fmt::format("write `{}: 2026-11-01`", key));
  if (entry == nullptr) return std::nullopt;
  const auto text = text_of(entry->value, ticked(key), findings);
  if (!text) return std::nullopt;
  return accepted(read_date(*text), entry->value, findings);
}

void read_season(const MapReader& file, Scenario& scenario, Findings& findings) {
  const YamlEntry* entry = file.find("season");
  if (entry == nullptr) return;
  const MapReader season(entry->value, "season", season_keys, findings);
  if (!season.is_map()) return;
  scenario.from = date_of(season, "from", findings);
  scenario.until = date_of(season, "until", findings);
  if (!scenario.from || !scenario.until) return;
  // Both days are fed.
  const Days days = days_between(*scenario.from, *scenario.until) + Days{1.0};
  const YamlEntry* until = season.find("until");
  if (days.in_days() >= 1.0) read_may_end(season, scenario);
  const Days longest = days_between(*scenario.from, latest_end(scenario)) + Days{1.0};
  if (days.in_days() < 1.0) {
    findings.error(until->value.span,
                   {"the season ends before it begins", "exchange the two dates, or mend one", ""});
  } else if (longest > Days{most_season_days}) {
    const YamlEntry* at = days > Days{most_season_days} ? until : season.find("may end");
    findings.error(at->value.span, {fmt::format("a season of {:.0f} days is longer than two years",
                                                longest.in_days()),
                                    "check the years", ""});
  } else {
    scenario.stable.season = days;
  }
}

void read_money(const MapReader& file, Scenario& scenario, Findings& findings) {
  const YamlEntry* entry =
      file.need("money", "write the currency by its three letters: `money: GBP`");
  if (entry == nullptr) return;
  const auto text = text_of(entry->value, "`money`", findings);
  if (!text) return;
  const bool code = text->size() == 3 && std::all_of(text->begin(), text->end(),
                                                     [](char c) { return c >= 'A' && c <= 'Z'; });
  if (!code) {
    findings.error(entry->value.span,
                   {fmt::format("`{}` is not a currency code", *text),
                    "write three capital letters, such as `GBP`, `EUR` or `USD`", ""});
    return;
  }
  scenario.stable.money = *text;
}

/// The offers; true when every entry could be read.
bool read_all_offers(const MapReader& file, Scenario& scenario, Findings& findings) {
  const std::size_t before = findings.error_count();
  const YamlEntry* forage = file.find("forage");
  const YamlEntry* market = file.find("market");
  const SeasonStart season{scenario.from, scenario.until, file.find_quietly("season") != nullptr};
  auto& all = scenario.stable.offers;
  std::vector<EnergyGap> gaps;
  if (forage != nullptr) read_offers(forage->value, true, season, all, gaps, findings);
  if (market != nullptr) read_offers(market->value, false, season, all, gaps, findings);
  fill_energy(all, gaps, energy_equation_of(file, findings), findings);
  for (const YamlEntry* list : {forage, market}) {
    if (list != nullptr) read_ranges(list->value, scenario, findings);
  }
  const bool complete = findings.error_count() == before;
  if (complete && scenario.stable.offers.empty() && file.is_map()) {
    findings.error(file.span(), {"no feed is on offer",
                                 "list what is in the barn under `forage` and what can be bought "
                                 "under `market`",
                                 ""});
    return false;
  }
  const auto& offers = scenario.stable.offers;
  const bool long_forage = std::any_of(
      offers.begin(), offers.end(), [](const Offer& offer) { return offer.feed.is_long_forage(); });
  if (complete && !long_forage) {
    findings.remark(file.span(), {"no hay, haylage, straw or grass is on offer",
                                  "list the forage under `forage` or `market`; without it no "
                                  "ration keeps the limits",
                                  ""});
  }
  return complete;
}

// `scenario` has everything but its horses.
void read_horses(const MapReader& file, bool complete, Scenario& scenario, Findings& findings) {
  const FeedNames names{scenario.stable.offers, complete};
  const YamlEntry* entry =
      file.need("horses", "write `horses:` and below it `  - name: ...` for each horse");
  if (entry == nullptr) return;
  const YamlNode& list = entry->value;
  if (list.kind != YamlKind::list || list.items.empty()) {
    findings.error(list.span,
                   {list.kind == YamlKind::list
                        ? "`horses` is an empty list"
                        : fmt::format("`horses` is {}; expected a list", describe(list.kind)),
                    "write `horses:` and below it `  - name: ...` for each horse", ""});
    return;
  }
  SeasonStart season{scenario.from, scenario.until, file.find_quietly("season") != nullptr};
  if (scenario.may_end) season.until = latest_end(scenario);
  if (scenario.from)
    season.first_temperature_c =
        scenario.climate_c.at(static_cast<std::size_t>(scenario.from->month - 1));
  const std::vector<TimeOfDay> yard_times = read_feeding_times(file, findings);
  std::map<std::string, int> line_of_name;
  for (const YamlNode& node : list.items) {
    Horse horse = read_horse(node, season, names, findings);
    const auto [first, is_new] =
        line_of_name.try_emplace(lower_case(horse.name), horse.position.line);
    if (!is_new && !horse.name.empty()) {
      findings.error(node.span, {fmt::format("two horses are called `{}`", horse.name),
                                 "give one of them another `name`",
                                 fmt::format("the first is in line {}", first->second)});
    }
    take_yard_feeding_times(yard_times, node, horse, findings);
    scenario.stable.horses.push_back(std::move(horse));
  }
}

// Every month of the season has a temperature, or none has.
void check_climate(const MapReader& file, const Scenario& scenario) {
  const YamlEntry* entry = file.find_quietly("climate");
  if (entry == nullptr || entry->value.kind != YamlKind::map) return;
  const auto until = scenario.may_end ? latest_end(scenario) : scenario.until;
  for (const MonthOfSeason& m : months_of(scenario.from, until)) {
    if (scenario.climate_c.at(static_cast<std::size_t>(m.month - 1))) continue;
    file.findings().error(
        entry->key.span,
        {fmt::format("`climate` says nothing of {}, which is planned for", month_name(m.month)),
         fmt::format("add `{}: ...`", lower_case(month_name(m.month))), ""});
    return;
  }
}

}  // namespace

YardRead read_yard(const MapReader& keys) {
  Findings& findings = keys.findings();
  YardRead out;
  Scenario& scenario = out.scenario;
  if (const YamlEntry* yard = keys.find("yard")) {
    if (auto name = name_in(yard->value, "`yard`", findings)) scenario.stable.yard = *name;
  }
  read_money(keys, scenario, findings);
  read_season(keys, scenario, findings);
  scenario.change = read_change(keys);
  scenario.stores = read_stores(keys);
  scenario.budget = read_budget(keys);
  scenario.climate_c = read_climate(keys);
  check_climate(keys, scenario);
  out.complete = read_all_offers(keys, scenario, findings);
  check_stores(scenario.stores, scenario.stable.offers, findings);
  return out;
}

void read_horses(const MapReader& file, bool complete, Scenario& scenario) {
  read_horses(file, complete, scenario, file.findings());
}

Scenario scenario_in(const YamlNode& root, Findings& findings) {
  const MapReader keys(root, "the file", scenario_keys, findings);
  YardRead yard = read_yard(keys);
  read_horses(keys, yard.complete, yard.scenario, findings);
  return std::move(yard.scenario);
}

Scenario read_scenario(std::string_view text, const std::string& file) {
  Findings findings(without_byte_order_mark(text), file);
  const YamlNode root = read_yaml(findings);
  if (root.kind == YamlKind::nothing) {
    // After a break in the YAML the rest cannot be told from what is missing.
    findings.throw_if_any();
    findings.error({{file, 0, 0}, 1},
                   {"the file has no entries", "`haymow new` gives one to start from", ""});
    findings.throw_if_any();
  }
  Scenario scenario = scenario_in(root, findings);
  const bool sound = findings.error_count() == 0;
  scenario.asked = read_asked(root, scenario, sound, scenario_in, findings);
  findings.throw_if_any();
  scenario.remarks = findings.remarks();
  return scenario;
}

}  // namespace haymow
