#include "scenarios/report_winter_parts.h"

#include <fmt/format.h>

#include <cstdlib>

#include "model/grazing.h"
#include "scenarios/report_season.h"

namespace haymow {

std::string WinterTold::with_code(Pennies pennies) const {
  return fmt::format("{} {}", money(pennies), scenario.stable.money);
}

Date WinterTold::first_day(std::size_t week) const {
  return days_after(*scenario.from, question.weeks[week].first_day);
}

Date WinterTold::last_day(std::size_t week) const {
  const SeasonWeek& w = question.weeks[week];
  return days_after(*scenario.from, w.first_day + w.days - 1);
}

std::string WinterTold::first_day_told(std::size_t week) const {
  return day_of_season(scenario, question.weeks[week].first_day);
}

std::string WinterTold::last_day_told(std::size_t week) const {
  const SeasonWeek& w = question.weeks[week];
  return day_of_season(scenario, w.first_day + w.days - 1);
}

std::string money(Pennies pennies) {
  return fmt::format("{}{}.{:02}", pennies < 0 ? "-" : "", std::abs(pennies) / 100,
                     std::abs(pennies) % 100);
}

std::string month_in_words(const std::string& month) {
  return fmt::format("{} {}", month_name(std::stoi(month.substr(5))).substr(0, 3),
                     month.substr(0, 4));
}

int days_of(const SeasonQuestion& question) {
  const SeasonWeek& last = question.weeks.back();
  return last.first_day + last.days;
}

}  // namespace haymow
