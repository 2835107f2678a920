// A time of the day, and one so long before or after it, midnight crossed.
#pragma once

#include <string>

namespace haymow {

/// Minutes after midnight, 0 to 1439.
struct TimeOfDay {
  int minutes = 0;
  friend constexpr bool operator==(TimeOfDay a, TimeOfDay b) { return a.minutes == b.minutes; }
  friend constexpr bool operator<(TimeOfDay a, TimeOfDay b) { return a.minutes < b.minutes; }
};

/// A time on a day counted from another: -1 is the day before, 1 the day after.
struct Moment {
  TimeOfDay at;
  int day = 0;
  friend constexpr bool operator==(Moment a, Moment b) { return a.at == b.at && a.day == b.day; }
};

/// `minutes` later than `from`, earlier when negative; part minutes count as earlier.
[[nodiscard]] Moment shifted(TimeOfDay from, double minutes);

/// "07:00", by the 24-hour clock.
[[nodiscard]] std::string clock_time(TimeOfDay time);

}  // namespace haymow
