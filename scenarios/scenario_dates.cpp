#include "scenarios/scenario_dates.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

// A year outside these is a slip of the pen.
constexpr int first_year = 2000;
constexpr int last_year = 2199;

std::chrono::year_month_day civil(const Date& date) {
  return {std::chrono::year{date.year}, std::chrono::month{static_cast<unsigned>(date.month)},
          std::chrono::day{static_cast<unsigned>(date.day)}};
}

/// Digits only, so that no number is too large for int: at most four.
int number_in(std::string_view digits) {
  int number = 0;
  for (const char c : digits) number = number * 10 + (c - '0');
  return number;
}

}  // namespace

Reading<Date> read_date(std::string_view text) {
  const std::string spaced = single_spaced(text);
  constexpr std::string_view shape = "dddd-dd-dd";
  const bool fits =
      std::equal(spaced.begin(), spaced.end(), shape.begin(), shape.end(),
                 [](char c, char s) { return s == 'd' ? (c >= '0' && c <= '9') : c == s; });
  if (!fits) {
    return Reading<Date>::refused({fmt::format("`{}` is not a date", spaced),
                                   "write year, month and day, such as `2026-11-01`", ""});
  }
  const std::string_view digits = spaced;
  const Date date{number_in(digits.substr(0, 4)), number_in(digits.substr(5, 2)),
                  number_in(digits.substr(8, 2))};
  if (!civil(date).ok()) {
    return Reading<Date>::refused({fmt::format("`{}` is not a day of the calendar", spaced),
                                   "write year, month and day, such as `2026-11-01`", ""});
  }
  if (date.year < first_year || date.year > last_year) {
    return Reading<Date>::refused({fmt::format("the year {} is not one to plan for", date.year),
                                   "write year, month and day, such as `2026-11-01`", ""});
  }
  return Reading<Date>::of(date);
}

Days days_between(const Date& first, const Date& last) {
  const auto days = std::chrono::sys_days{civil(last)} - std::chrono::sys_days{civil(first)};
  return Days{static_cast<double>(days.count())};
}

Date days_after(const Date& first, int days) {
  const std::chrono::year_month_day day{std::chrono::sys_days{civil(first)} +
                                        std::chrono::days{days}};
  return {static_cast<int>(day.year()), static_cast<int>(static_cast<unsigned>(day.month())),
          static_cast<int>(static_cast<unsigned>(day.day()))};
}

Date latest_end(const Scenario& scenario) {
  const double more = scenario.may_end ? scenario.may_end->most : 0.0;
  return days_after(*scenario.until, static_cast<int>(more));
}

std::string iso_text(const Date& date) {
  return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string short_text(const Date& date) {
  static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return fmt::format("{} {}", date.day, months.at(static_cast<std::size_t>(date.month - 1)));
}

}  // namespace haymow
