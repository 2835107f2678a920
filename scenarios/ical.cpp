#include "scenarios/ical.h"

#include <fmt/format.h>

#include <algorithm>

#include "scenarios/scenario_dates.h"
#include "scenarios/version.h"

namespace haymow {
namespace {

constexpr std::size_t most_octets = 75;  // RFC 5545, 3.1, without the line end
constexpr std::string_view line_end = "\r\n";

std::string basic_date(const Date& date) {
  return fmt::format("{:04}{:02}{:02}", date.year, date.month, date.day);
}

// The octets of the letter of UTF-8 that begins at `at`.
std::size_t letter_length(std::string_view text, std::size_t at) {
  std::size_t length = 1;
  while (at + length < text.size() &&
         (static_cast<unsigned char>(text[at + length]) & 0xC0) == 0x80) {
    ++length;
  }
  return length;
}

}  // namespace

std::string ical_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte >= 0x20 && byte != 0x7f) {
      out += c;
    }
  }
  return out;
}

std::string folded(std::string_view line) {
  std::string out;
  std::size_t octets = 0;
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t length = letter_length(line, at);
    if (octets + length > most_octets) {
      out += line_end;
      out += ' ';
      octets = 1;  // the blank counts
    }
    out += line.substr(at, length);
    octets += length;
    at += length;
  }
  out += line_end;
  return out;
}

std::string icalendar(const std::vector<DayEvent>& events, const Date& stamp) {
  std::string out = folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") +
                    folded(fmt::format("PRODID:-//haymow//haymow {}//EN", version)) +
                    folded("CALSCALE:GREGORIAN");
  for (const DayEvent& event : events) {
    out += folded("BEGIN:VEVENT");
    out += folded("UID:" + ical_text(event.uid));
    out += folded(fmt::format("DTSTAMP:{}T000000Z", basic_date(stamp)));
    out += folded("DTSTART;VALUE=DATE:" + basic_date(event.day));
    out += folded("DTEND;VALUE=DATE:" + basic_date(days_after(event.day, 1)));
    out += folded("SUMMARY:" + ical_text(event.summary));
    if (!event.description.empty()) out += folded("DESCRIPTION:" + ical_text(event.description));
    out += folded("TRANSP:TRANSPARENT");
    out += folded("END:VEVENT");
  }
  return out + folded("END:VCALENDAR");
}

}  // namespace haymow
