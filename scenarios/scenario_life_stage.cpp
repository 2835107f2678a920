#include "scenarios/scenario_life_stage.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "feeds/plain_text.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

constexpr int last_month_in_foal = 11;
constexpr int last_month_in_milk = 6;
/// The standard has figures for these ages.
constexpr double youngest_months = 4.0;
constexpr double oldest_months = 24.0;

template <class Value, std::size_t Count>
using Choices = std::array<std::pair<std::string_view, Value>, Count>;

/// The value of a key among a few words; another word is reported.
template <class Value, std::size_t Count>
std::optional<Value> chosen(const YamlEntry& entry, const Choices<Value, Count>& choices,
                            Findings& findings) {
  const auto text = text_of(entry.value, ticked(entry.key.text), findings);
  if (!text) return std::nullopt;
  std::vector<std::string> names;
  for (const auto& [word, value] : choices) {
    if (same_text(word, *text)) return value;
    names.emplace_back(word);
  }
  findings.error(entry.value.span,
                 {fmt::format("`{}` is not a kind of `{}`", *text, entry.key.text),
                  "write one of: " + either_of(names), ""});
  return std::nullopt;
}

constexpr Choices<LifeStage, 5> kinds_of_work{{{"none", Idle{MaintenanceLevel::average}},
                                               {"light", Working{WorkLevel::light}},
                                               {"moderate", Working{WorkLevel::moderate}},
                                               {"heavy", Working{WorkLevel::heavy}},
                                               {"very heavy", Working{WorkLevel::very_heavy}}}};
constexpr Choices<LifeStage, 3> kinds_of_maintenance{
    {{"minimum", Idle{MaintenanceLevel::minimum}},
     {"average", Idle{MaintenanceLevel::average}},
     {"elevated", Idle{MaintenanceLevel::elevated}}}};
constexpr Choices<LifeStage, 2> kinds_of_stallion{
    {{"resting", Stallion{false}}, {"breeding", Stallion{true}}}};

/// "month 9", from 1 to `last`.
std::optional<int> month_of(const YamlEntry& entry, int last, Findings& findings) {
  const auto text = text_of(entry.value, ticked(entry.key.text), findings);
  if (!text) return std::nullopt;
  const std::string help = fmt::format("write `{}: month 2`, from 1 to {}", entry.key.text, last);
  constexpr std::string_view word = "month ";
  if (!same_text(text->substr(0, word.size()), word)) {
    findings.error(entry.value.span, {fmt::format("`{}` is not a month", *text), help, ""});
    return std::nullopt;
  }
  Reading<double> number = read_bare_number(text->substr(word.size()));
  if (number.complaint) {
    if (number.complaint->help.empty()) number.complaint->help = help;
    findings.error(entry.value.span, std::move(*number.complaint));
    return std::nullopt;
  }
  if (*number.value < 1.0 || *number.value > last ||
      *number.value != static_cast<double>(static_cast<int>(*number.value))) {
    findings.error(
        entry.value.span,
        {fmt::format("`{}` has no month {}", entry.key.text, text->substr(word.size())), help, ""});
    return std::nullopt;
  }
  return static_cast<int>(*number.value);
}

std::optional<LifeStage> growing(const MapReader& horse) {
  const YamlEntry* age_entry = horse.find("age");
  const auto months = horse.amount("age", age());
  Growing stage;
  if (const YamlEntry* work = horse.find("work")) {
    const auto level = chosen(*work, kinds_of_work, horse.findings());
    if (!level) return std::nullopt;
    if (const auto* working = std::get_if<Working>(&*level)) stage.work = working->level;
  }
  horse.need("mature weight",
             "write `mature weight: 520 kg`, what it is expected to weigh full grown");
  if (!months) return std::nullopt;
  if (*months < youngest_months || *months > oldest_months) {
    horse.findings().error(
        age_entry->value.span,
        {fmt::format("an age of {:.4g} months is outside what the standard covers, 4 to 24",
                     *months),
         *months > oldest_months
             ? "write `work: none` or the work it does; from two years it is fed "
               "as a grown horse"
             : "a foal under four months lives on its mother: ask a vet",
         ""});
    return std::nullopt;
  }
  stage.age_months = *months;
  return stage;
}

/// The key that says the life stage, or null; more than one is reported.
const YamlEntry* stage_entry(const MapReader& horse) {
  static constexpr std::array keys{"age",      "pregnant",    "lactating", "foaling",
                                   "stallion", "maintenance", "work"};
  const YamlEntry* first = nullptr;
  for (const std::string_view key : keys) {
    const YamlEntry* entry = horse.find_quietly(key);
    if (entry == nullptr) continue;
    if (first == nullptr) {
      first = entry;
      continue;
    }
    // A young horse may be in training.
    if (first->key.text == "age" && key == "work") continue;
    horse.findings().error(
        entry->key.span,
        {fmt::format("`{}` and `{}` cannot both say what this horse does", first->key.text, key),
         "keep the one that asks more of it",
         fmt::format("`{}` is in line {}", first->key.text, first->key.span.position.line)});
    return nullptr;
  }
  const bool misspelt =
      std::any_of(keys.begin(), keys.end(), [&](auto key) { return horse.is_meant(key); });
  if (first == nullptr && !misspelt) {
    horse.findings().error(
        horse.span(),
        {"nothing says what this horse does",
         "write one of `work: none` (or light, moderate, heavy, very heavy), `pregnant: month 9`, "
         "`lactating: month 2`, `foaling: 2027-03-14`, `age: 14 months`, `stallion: breeding`, "
         "`maintenance: average`",
         ""});
  }
  return first;
}

}  // namespace

std::optional<LifeStage> read_life_stage(const MapReader& horse) {
  const YamlEntry* first = stage_entry(horse);
  if (first == nullptr) return std::nullopt;
  const YamlEntry* entry = horse.find(first->key.text);
  if (entry == nullptr) return std::nullopt;
  const std::string& key = entry->key.text;
  // Which month that is, scenario_calendar.cpp reckons from the date.
  if (key == "foaling") return Pregnant{};
  if (key == "age") return growing(horse);
  if (key == "work") return chosen(*entry, kinds_of_work, horse.findings());
  if (key == "maintenance") return chosen(*entry, kinds_of_maintenance, horse.findings());
  if (key == "stallion") return chosen(*entry, kinds_of_stallion, horse.findings());
  if (key == "pregnant") {
    const auto month = month_of(*entry, last_month_in_foal, horse.findings());
    return month ? std::optional<LifeStage>{Pregnant{*month}} : std::nullopt;
  }
  const auto month = month_of(*entry, last_month_in_milk, horse.findings());
  return month ? std::optional<LifeStage>{Lactating{*month}} : std::nullopt;
}

}  // namespace haymow
