#include "scenarios/scenario_grazing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "feeds/plain_text.h"
#include "model/grazing.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_months.h"
#include "scenarios/scenario_values.h"
#include "scenarios/season_months.h"

namespace haymow {
namespace {

constexpr double hours_a_day = 24.0;
constexpr double minutes_of_an_hour = 60.0;
// An international acre, by definition.
constexpr double hectares_per_acre = 0.40468564224;
// Larger than any field that horses share (common practice, no source).
constexpr double largest_field_ha = 1000.0;
constexpr double most_sharing = 500.0;

constexpr std::array area_units{
    Unit{"ha", 1.0, true},
    Unit{"acres", hectares_per_acre, true},
    Unit{"acre", hectares_per_acre},
    Unit{"hectares", 1.0},
    Unit{"hectare", 1.0},
    Unit{"m2", 0.0001, true},
};
constexpr Dimension area{"an area", "1.5 ha", area_units};

class GrazingReader {
 public:
  GrazingReader(const YamlNode& node, const SeasonStart& season, Findings& findings)
      : map_(node, "grazing", grazing_keys, findings), season_(season), findings_(findings) {}

  std::optional<Grazing> read() {
    if (!map_.is_map()) return std::nullopt;
    Grazing grazing;
    grazing.position = map_.span().position;
    const bool months_known = read_months(grazing);
    const YamlEntry* turnout = map_.need("turnout", "write `turnout: 8 h`");
    const YamlEntry* grass = map_.need("grass", "write `grass: fair`; also none, poor or good");
    const YamlEntry* muzzle = map_.find("muzzle");
    ByMonth<double> hours;
    ByMonth<Sward> sward;
    ByMonth<bool> muzzled;
    if (turnout != nullptr)
      hours = by_month<double>(*turnout, [this](auto& n) { return hours_in(n); });
    if (grass != nullptr) sward = by_month<Sward>(*grass, [this](auto& n) { return sward_in(n); });
    if (muzzle != nullptr) muzzled = by_month<bool>(*muzzle, [this](auto& n) { return yes_in(n); });
    read_area(grazing);
    if (findings_.error_count() > errors_before_) return std::nullopt;
    for (std::size_t m = 0; m < hours.size(); ++m) {
      if (!hours[m] || !sward[m]) continue;
      // What the file says of some months' muzzle is not said of the others.
      grazing.months[m] = Turnout{*hours[m], *sward[m], muzzled[m].value_or(false)};
    }
    if (months_known) return grazing;
    return std::nullopt;
  }

 private:
  bool read_months(Grazing& grazing) {
    const YamlEntry* entry = map_.find("month");
    if (season_.given) {
      if (entry != nullptr) {
        findings_.error(entry->key.span, {"`month` and `season` do not go together",
                                          "delete `month`: the season has its months", ""});
      }
      for (const MonthOfSeason& m : months_of(season_.from, season_.until)) {
        wanted_.push_back(m.month);
      }
      return true;
    }
    if (entry == nullptr) {
      if (!map_.is_meant("month")) {
        findings_.error(map_.span(), {"without a season, `grazing` needs the month to plan for",
                                      "write `month: june`, or give the file a `season`", ""});
      }
      return false;
    }
    const auto text = text_of(entry->value, "`month`", findings_);
    if (!text) return false;
    grazing.month = month_in(*text, entry->value, findings_);
    if (!grazing.month) return false;
    wanted_.push_back(*grazing.month);
    return true;
  }

  template <class T>
  ByMonth<T> by_month(const YamlEntry& entry,
                      const std::function<std::optional<T>(const YamlNode&)>& read) {
    ByMonth<T> values;
    if (entry.value.kind != YamlKind::map) {
      values.fill(read(entry.value));
      return values;
    }
    const std::size_t errors = findings_.error_count();
    values = read_by_month<T>(
        entry, [&](const YamlEntry& part) { return read(part.value); }, findings_);
    if (findings_.error_count() == errors) check_wanted(entry, values);
    return values;
  }

  template <class T>
  void check_wanted(const YamlEntry& entry, const ByMonth<T>& values) {
    for (const int month : wanted_) {
      if (values.at(static_cast<std::size_t>(month - 1))) continue;
      findings_.error(entry.key.span,
                      {fmt::format("`{}` says nothing of {}, which is planned for", entry.key.text,
                                   month_name(month)),
                       fmt::format("add `{}: ...`", lower_case(month_name(month))), ""});
      return;
    }
  }

  std::optional<double> hours_in(const YamlNode& node) {
    const auto text = text_of(node, "`turnout`", findings_);
    if (!text) return std::nullopt;
    const auto minutes =
        accepted(read_amount(*text, duration(), Sign::not_negative), node, findings_);
    if (!minutes) return std::nullopt;
    const double hours = *minutes / minutes_of_an_hour;
    if (hours <= hours_a_day) return hours;
    findings_.error(node.span, {fmt::format("a turnout of {} is longer than a day", *text),
                                "write the hours of one day and night: `turnout: 8 h`", ""});
    return std::nullopt;
  }

  std::optional<Sward> sward_in(const YamlNode& node) {
    const auto text = text_of(node, "`grass`", findings_);
    if (!text) return std::nullopt;
    std::vector<std::string> names;
    for (const Sward sward : {Sward::none, Sward::poor, Sward::fair, Sward::good}) {
      if (same_text(name_of(sward), *text)) return sward;
      names.emplace_back(name_of(sward));
    }
    findings_.error(node.span, {fmt::format("`{}` is not a kind of `grass`", *text),
                                "write one of: " + either_of(names), ""});
    return std::nullopt;
  }

  std::optional<bool> yes_in(const YamlNode& node) {
    const auto text = text_of(node, "`muzzle`", findings_);
    if (!text) return std::nullopt;
    if (same_text(*text, "yes")) return true;
    if (same_text(*text, "no")) return false;
    findings_.error(node.span, {fmt::format("`{}` is neither yes nor no", *text),
                                "write `muzzle: yes` or `muzzle: no`", ""});
    return std::nullopt;
  }

  void read_area(Grazing& grazing) {
    const YamlEntry* entry = map_.find("area");
    const auto hectares = map_.amount("area", area);
    const YamlEntry* sharing = map_.find("shared by");
    if (sharing != nullptr && map_.find_quietly("area") == nullptr) {
      findings_.error(sharing->key.span, {"`shared by` says nothing without `area`",
                                          "write `area: 1.5 ha`, or delete `shared by`", ""});
      return;
    }
    double horses = 1.0;
    if (sharing != nullptr) {
      const auto text = text_of(sharing->value, "`shared by`", findings_);
      if (!text) return;
      const auto number = accepted(read_bare_number(*text), sharing->value, findings_);
      if (!number) return;
      horses = *number;
      if (horses < 1.0 || horses > most_sharing) {
        findings_.error(sharing->value.span,
                        {fmt::format("a field shared by {} horses is not one to plan for", *text),
                         "write how many horses graze it, this one too: `shared by: 3`", ""});
        return;
      }
    }
    if (!hectares) return;
    if (*hectares > largest_field_ha) {
      findings_.error(entry->value.span,
                      {fmt::format("a field of {:.0f} ha is not one to plan for", *hectares),
                       "check the number and its unit", ""});
      return;
    }
    grazing.hectares_a_horse = *hectares / horses;
  }

  MapReader map_;
  const SeasonStart& season_;
  Findings& findings_;
  std::size_t errors_before_ = findings_.error_count();
  std::vector<int> wanted_;  // the months that are planned for
};

}  // namespace

void read_grazing(const MapReader& horse_keys_read, const SeasonStart& season, Horse& horse) {
  const YamlEntry* entry = horse_keys_read.find("grazing");
  if (entry == nullptr) return;
  horse.grazing = GrazingReader(entry->value, season, horse_keys_read.findings()).read();
}

}  // namespace haymow
