#include "scenarios/scenario_horse.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "model/bodyweight.h"
#include "scenarios/scenario_calendar.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/scenario_feeding_times.h"
#include "scenarios/scenario_grazing.h"
#include "scenarios/scenario_keys.h"
#include "scenarios/scenario_life_stage.h"
#include "scenarios/scenario_portions.h"
#include "scenarios/scenario_temperature.h"
#include "scenarios/scenario_values.h"
#include "scenarios/scenario_wishes.h"

namespace haymow {
namespace {

// A miniature foal weighs more than the one, the heaviest horse on record less
// than the other (from memory); outside them a number has slipped.
constexpr double least_bodyweight_kg = 50.0;
constexpr double most_bodyweight_kg = 1500.0;
/// How the tape is read (bodyweight.h); its error is the sources' own.
constexpr std::string_view tape_error = "within about 10 %";
constexpr double least_energy_factor = 0.5;
constexpr double most_energy_factor = 1.5;
constexpr double worst_condition = 1.0;  // Henneke scale, 1 to 9
constexpr double fattest_condition = 9.0;

class HorseReader {
 public:
  HorseReader(const YamlNode& node, const SeasonStart& season, const FeedNames& names,
              Findings& findings)
      : map_(node, "a horse", horse_keys, findings),
        season_(season),
        names_(names),
        findings_(findings) {
    horse_.position = node.span.position;
  }

  Horse read() {
    if (!map_.is_map()) return std::move(horse_);
    if (const YamlEntry* entry = map_.need("name", "write `name: ...`")) {
      if (auto name = name_in(entry->value, "`name`", findings_)) horse_.name = std::move(*name);
    }
    read_bodyweight();
    if (const auto stage = read_life_stage(map_)) horse_.stage = *stage;
    read_mature_weight();
    read_calendar(map_, season_, horse_);
    read_meals();
    read_horse_feeding_times(map_, horse_, findings_);
    read_health();
    read_condition();
    read_cold();
    read_grazing(map_, season_, horse_);
    if (const auto factor = number("energy factor", least_energy_factor, most_energy_factor)) {
      horse_.energy_factor = *factor;
    }
    read_wishes(map_, names_, horse_);
    return std::move(horse_);
  }

 private:
  /// A number without a unit, from `least` to `most`.
  std::optional<double> number(const MapReader& map, std::string_view key, double least,
                               double most) {
    const YamlEntry* entry = map.find(key);
    if (entry == nullptr) return std::nullopt;
    const auto text = text_of(entry->value, ticked(key), findings_);
    if (!text) return std::nullopt;
    const auto value = accepted(read_bare_number(*text), entry->value, findings_);
    if (!value) return std::nullopt;
    if (*value < least || *value > most) {
      findings_.error(
          entry->value.span,
          {fmt::format("`{}` of {} is outside {:.4g} to {:.4g}", key, *text, least, most),
           fmt::format("write a number from {:.4g} to {:.4g}", least, most), ""});
      return std::nullopt;
    }
    return value;
  }
  std::optional<double> number(std::string_view key, double least, double most) {
    return number(map_, key, least, most);
  }

  std::optional<Bodyweight> plausible(double kg, const YamlEntry& entry) {
    if (kg >= least_bodyweight_kg && kg <= most_bodyweight_kg) return Bodyweight{kg};
    findings_.error(entry.value.span,
                    {fmt::format("a horse of {:.4g} kg is not one to plan for; expected {:.0f} to "
                                 "{:.0f} kg",
                                 kg, least_bodyweight_kg, most_bodyweight_kg),
                     "check the number and its unit", ""});
    return std::nullopt;
  }

  void read_bodyweight() {
    const YamlEntry* weighed = map_.find_quietly("bodyweight");
    const YamlEntry* girth = map_.find_quietly("girth");
    if (weighed == nullptr && girth == nullptr) {
      if (map_.is_meant("girth")) return;
      map_.need("bodyweight",
                "write `bodyweight: 540 kg`, or `girth: 188 cm` and `length: 165 cm`");
      return;
    }
    if (weighed != nullptr) {
      for (const std::string_view key : {"girth", "length", "shape"}) {
        const YamlEntry* tape = map_.find_quietly(key);
        if (tape == nullptr) continue;
        findings_.error(
            tape->key.span,
            {fmt::format("`{}` and `bodyweight` do not go together", key),
             "keep `bodyweight` if the horse was weighed, else the tape's figures",
             fmt::format("`bodyweight` is in line {}", weighed->key.span.position.line)});
        break;
      }
      const auto kg = map_.amount("bodyweight", weight());
      if (!kg) return;
      if (const auto sound = plausible(*kg, *weighed)) horse_.bodyweight = *sound;
      return;
    }
    read_tape(*girth);
  }

  void read_tape(const YamlEntry& girth_entry) {
    const auto girth = map_.amount("girth", body_length());
    const YamlEntry* length_entry = map_.find_quietly("length");
    const auto length = map_.amount("length", body_length());
    const auto shape = read_shape(length_entry != nullptr);
    if (!girth || !shape || (length_entry != nullptr && !length)) return;
    const Centimetres around{*girth};
    const Bodyweight taped = length ? bodyweight_from_tape(around, Centimetres{*length}, *shape)
                                    : bodyweight_from_girth(around);
    const auto sound = plausible(taped.in_kg(), girth_entry);
    if (!sound) return;
    horse_.bodyweight = *sound;
    horse_.bodyweight_note =
        length ? fmt::format("by tape, girth {:.4g} cm and length {:.4g} cm; {}", *girth, *length,
                             tape_error)
               : fmt::format("by tape, girth {:.4g} cm alone; {} or more", *girth, tape_error);
  }

  std::optional<BodyShape> read_shape(bool has_length) {
    const YamlEntry* entry = map_.find("shape");
    if (entry == nullptr) return BodyShape::adult;
    static constexpr std::array<std::pair<std::string_view, BodyShape>, 4> shapes{
        {{"adult", BodyShape::adult},
         {"pony", BodyShape::pony},
         {"yearling", BodyShape::yearling},
         {"weanling", BodyShape::weanling}}};
    const auto text = text_of(entry->value, "`shape`", findings_);
    if (!text) return std::nullopt;
    std::vector<std::string> names;
    for (const auto& [word, shape] : shapes) {
      names.emplace_back(word);
      if (!same_text(word, *text)) continue;
      if (has_length || shape == BodyShape::adult) return shape;
      findings_.error(entry->key.span, {"`shape` needs `length` as well as `girth`",
                                        "measure from the point of the shoulder to the point of "
                                        "the buttock and write `length: 126 cm`",
                                        ""});
      return std::nullopt;
    }
    findings_.error(entry->value.span, {fmt::format("`{}` is not a shape for the tape", *text),
                                        "write one of: " + either_of(names), ""});
    return std::nullopt;
  }

  void read_mature_weight() {
    const YamlEntry* entry = map_.find("mature weight");
    if (entry == nullptr) return;
    if (map_.find_quietly("age") == nullptr) {
      findings_.error(entry->key.span, {"`mature weight` is for a growing horse only",
                                        "write `age: 14 months`, or delete `mature weight`", ""});
      return;
    }
    const auto kg = map_.amount("mature weight", weight());
    if (!kg) return;
    const auto sound = plausible(*kg, *entry);
    if (!sound) return;
    if (horse_.bodyweight > *sound) {
      findings_.error(entry->value.span,
                      {fmt::format("the horse weighs {:.4g} kg now, more than its mature weight of "
                                   "{:.4g} kg",
                                   horse_.bodyweight.in_kg(), *kg),
                       "check both weights", ""});
      return;
    }
    horse_.mature_weight = sound;
  }

  void read_meals() {
    read_portions_of_day(map_, horse_, findings_);
    const YamlEntry* entry = map_.find_quietly("meals");
    const bool shares = entry != nullptr &&
                        (entry->value.kind == YamlKind::list || entry->value.kind == YamlKind::map);
    if (shares) return;
    const auto meals = number("meals", 1.0, most_meals);
    if (!meals) return;
    const int whole = static_cast<int>(*meals);
    if (*meals != static_cast<double>(whole)) {
      findings_.error(map_.find("meals")->value.span,
                      {fmt::format("`meals` of {:.4g} is not a whole number", *meals),
                       "write a whole number from 1 to 6", ""});
      return;
    }
    horse_.meals = whole;
  }

  void read_health() {
    const YamlEntry* entry = map_.find("health");
    if (entry == nullptr) return;
    std::vector<std::string> names;
    for (const HealthState state : all_health_states()) names.emplace_back(name_of(state));
    for (const auto& [node, word] :
         words_in(entry->value, "health", "[gastric ulcers]", findings_)) {
      if (const auto state = health_state_named(lower_case(word))) {
        horse_.health.insert(*state);
      } else {
        findings_.error(node->span,
                        {fmt::format("`{}` is not a health state with rules here", word),
                         near_or_all(word, names), ""});
      }
    }
  }

  void read_condition() {
    const YamlEntry* entry = map_.find("condition");
    if (entry == nullptr) return;
    const MapReader condition(entry->value, "condition", condition_keys, findings_);
    if (!condition.is_map()) return;
    condition.need("now", "write `now: 4`, on the scale from 1 to 9");
    const auto now = number(condition, "now", worst_condition, fattest_condition);
    const auto aim = number(condition, "aim", worst_condition, fattest_condition);
    if (now) horse_.condition = ConditionAim{*now, aim.value_or(*now), std::nullopt};
    const YamlEntry* by = condition.find("by");
    if (by == nullptr) return;
    const auto text = text_of(by->value, "`by`", findings_);
    if (!text) return;
    const auto date = accepted(read_date(*text), by->value, findings_);
    if (!date) return;
    if (!season_.from) {
      if (season_.given) return;  // reported there
      findings_.error(by->value.span,
                      {"the days until this date cannot be counted without a first day",
                       "write `season: {from: 2026-11-01, until: 2027-04-20}`", ""});
      return;
    }
    const Days days = days_between(*season_.from, *date);
    if (days.in_days() <= 0.0) {
      findings_.error(by->value.span,
                      {fmt::format("`{}` is not after the first day of the season", *text),
                       "write a later date", ""});
      return;
    }
    if (horse_.condition) horse_.condition->within = days;
  }

  static std::optional<double> temperature(const MapReader& cold, std::string_view key) {
    const YamlEntry* entry = cold.find(key);
    if (entry == nullptr) return std::nullopt;
    return temperature_in(entry->value, ticked(key), cold.findings());
  }

  void read_cold() {
    const YamlEntry* entry = map_.find("cold");
    // The yard's own figures hold for every horse that has none of its own.
    if (entry == nullptr) {
      if (season_.first_temperature_c) {
        horse_.cold = Cold{};
        horse_.cold->temperature_c = *season_.first_temperature_c;
      }
      horse_.calendar.cold_by_month = horse_.cold.has_value();
      return;
    }
    const MapReader cold(entry->value, "cold", cold_keys, findings_);
    if (!cold.is_map()) return;
    const bool by_month =
        season_.first_temperature_c && cold.find_quietly("temperature") == nullptr;
    if (!by_month) cold.need("temperature", "write `temperature: -5 C`");
    const auto now = by_month ? season_.first_temperature_c : temperature(cold, "temperature");
    if (!now) return;
    horse_.calendar.cold_by_month = by_month;
    horse_.cold = Cold{};
    horse_.cold->temperature_c = *now;
    if (const auto critical = temperature(cold, "critical")) {
      horse_.cold->critical_c = *critical;
    } else if (cold.find_quietly("critical") == nullptr) {
      findings_.remark(entry->key.span,
                       {fmt::format("no critical temperature is given; {:.0f} C is assumed, of a "
                                    "grown horse used to cold",
                                    horse_.cold->critical_c),
                        "write `critical: 5 C` for a thin coat or an old horse", ""});
    }
  }

  MapReader map_;
  SeasonStart season_;
  const FeedNames& names_;
  Findings& findings_;
  Horse horse_;
};

}  // namespace

Horse read_horse(const YamlNode& node, const SeasonStart& season, const FeedNames& names,
                 Findings& findings) {
  return HorseReader(node, season, names, findings).read();
}

}  // namespace haymow
