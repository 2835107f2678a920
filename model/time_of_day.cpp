#include "model/time_of_day.h"

#include <fmt/format.h>

#include <cmath>

namespace haymow {
namespace {

constexpr int minutes_an_hour = 60;
constexpr int minutes_in_day = 24 * minutes_an_hour;

}  // namespace

Moment shifted(TimeOfDay from, double minutes) {
  const int total = from.minutes + static_cast<int>(std::floor(minutes));
  int day = total / minutes_in_day;
  int within = total % minutes_in_day;
  if (within < 0) {
    within += minutes_in_day;
    --day;
  }
  return {{within}, day};
}

std::string clock_time(TimeOfDay time) {
  return fmt::format("{:02}:{:02}", time.minutes / minutes_an_hour, time.minutes % minutes_an_hour);
}

}  // namespace haymow
