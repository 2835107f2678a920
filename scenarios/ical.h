// An iCalendar file of all-day events (RFC 5545): enough of the format for a calendar
// program to show what to do on which day, and no more.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scenarios/scenario.h"

namespace haymow {

/// Something to do on one day.
struct DayEvent {
  std::string uid;  // the same for the same event whenever the file is written
  Date day;
  std::string summary;
  std::string description;
};

/// The file, with line ends CRLF and lines folded at 75 octets, no letter of UTF-8 in
/// two. `stamp` is the day of DTSTAMP, since a clock would make every file another.
[[nodiscard]] std::string icalendar(const std::vector<DayEvent>& events, const Date& stamp);

/// A text value: backslash, semicolon, comma and line breaks escaped (3.3.11), other
/// control characters left out.
[[nodiscard]] std::string ical_text(std::string_view text);

/// A line of any length in content lines of at most 75 octets, each with its CRLF (3.1).
[[nodiscard]] std::string folded(std::string_view line);

}  // namespace haymow
