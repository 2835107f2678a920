#include "scenarios/scenario_feeding_times.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "feeds/plain_text.h"
#include "scenarios/scenario_values.h"

namespace haymow {
namespace {

constexpr std::string_view key = "feeding times";
constexpr std::string_view example = "[07:00, 12:30, 18:00]";
constexpr std::string_view help =
    "write hours and minutes by the 24-hour clock, such as `07:00` or `18:30`";
constexpr int hours_in_day = 24;
constexpr int minutes_in_hour = 60;

/// The number that is all of `digits`, of one or two of them.
std::optional<int> two_digits(std::string_view digits, std::size_t fewest) {
  if (digits.size() < fewest || digits.size() > 2) return std::nullopt;
  int number = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

}  // namespace

Reading<TimeOfDay> read_time_of_day(std::string_view text) {
  const std::string spaced = single_spaced(text);
  const std::string_view all = spaced;
  const std::size_t colon = all.find(':');
  const auto refused = [&](std::string message) {
    return Reading<TimeOfDay>::refused({std::move(message), std::string(help), ""});
  };
  if (colon == std::string_view::npos) {
    return refused(fmt::format("`{}` is not a time of the day", spaced));
  }
  const auto hours = two_digits(all.substr(0, colon), 1);
  const auto minutes = two_digits(all.substr(colon + 1), 2);
  if (!hours || !minutes) return refused(fmt::format("`{}` is not a time of the day", spaced));
  if (*hours >= hours_in_day || *minutes >= minutes_in_hour) {
    return refused(fmt::format("`{}` is not on the clock", spaced));
  }
  return Reading<TimeOfDay>::of({*hours * minutes_in_hour + *minutes});
}

std::vector<TimeOfDay> read_feeding_times(const MapReader& map, Findings& findings) {
  std::vector<TimeOfDay> times;
  const YamlEntry* entry = map.find(key);
  if (entry == nullptr) return times;
  const auto words = words_in(entry->value, key, example, findings);
  if (entry->value.kind == YamlKind::list &&
      (entry->value.items.empty() || entry->value.items.size() > std::size_t{most_meals})) {
    findings.error(entry->value.span, {fmt::format("`{}` has {} times; expected 1 to {}", key,
                                                   entry->value.items.size(), most_meals),
                                       fmt::format("write `{}: {}`", key, example), ""});
    return times;
  }
  for (const auto& [node, word] : words) {
    const auto time = accepted(read_time_of_day(word), *node, findings);
    if (!time) return {};
    if (std::find(times.begin(), times.end(), *time) != times.end()) {
      findings.error(node->span, {fmt::format("`{}` stands twice in `{}`", word, key),
                                  "write each time once", ""});
      return {};
    }
    times.push_back(*time);
  }
  std::sort(times.begin(), times.end());
  return times;
}

void read_horse_feeding_times(const MapReader& map, Horse& horse, Findings& findings) {
  std::vector<TimeOfDay> times = read_feeding_times(map, findings);
  if (times.empty()) return;
  const int count = static_cast<int>(times.size());
  if (horse.meals && *horse.meals != count) {
    findings.error(map.find(key)->key.span,
                   {fmt::format("{} feeding times and {} meals do not agree", count, *horse.meals),
                    "delete `meals`: each time is a meal", ""});
    return;
  }
  horse.meals = count;
  horse.feeding_times = std::move(times);
}

void take_yard_feeding_times(const std::vector<TimeOfDay>& yard, const YamlNode& node, Horse& horse,
                             Findings& findings) {
  if (yard.empty() || !horse.feeding_times.empty()) return;
  const int count = static_cast<int>(yard.size());
  // The clock of the yard is no reason for fewer meals of mash.
  const bool too_few =
      horse.health.contains(HealthState::cannot_chew) && count < least_meals_of_mash;
  if (!horse.meals && !too_few) horse.meals = count;
  if (horse.meals == count) {
    horse.feeding_times = yard;
    return;
  }
  findings.remark(
      node.span,
      {fmt::format("the {} feeding times of the yard do not say when the {} meals of `{}` are fed: "
                   "its soaking is told without the clock",
                   count, horse.meals ? std::to_string(*horse.meals) : "four or more", horse.name),
       fmt::format("give it `{}` of its own", key), ""});
}

}  // namespace haymow
