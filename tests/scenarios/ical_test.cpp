#include "scenarios/ical.h"

#include <gtest/gtest.h>

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace haymow::ical_test {
namespace {

/// RFC 5545 read strictly: CRLF at every line, none longer than 75 octets, whole letters
/// of UTF-8 on each, unfolded by deleting CRLF and one blank (3.1).
std::vector<std::string> content_lines(const std::string& file) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < file.size();) {
    const std::size_t end = file.find("\r\n", at);
    if (end == std::string::npos) throw std::runtime_error("a line without CRLF");
    const std::string line = file.substr(at, end - at);
    if (line.find_first_of("\r\n") != std::string::npos) throw std::runtime_error("a bare break");
    if (line.size() > 75) throw std::runtime_error("longer than 75 octets: " + line);
    const auto first = static_cast<unsigned char>(line.substr(line.starts_with(' ') ? 1 : 0)[0]);
    if ((first & 0xC0) == 0x80) throw std::runtime_error("a letter in two: " + line);
    if (line.starts_with(' ')) {
      lines.back() += line.substr(1);
    } else {
      lines.push_back(line);
    }
    at = end + 2;
  }
  return lines;
}

using Properties = std::map<std::string, std::string>;

/// The events of a calendar, name to value; what RFC 5545 (3.6, 3.6.1) asks for is there.
std::vector<Properties> events_of(const std::string& file) {
  const auto lines = content_lines(file);
  EXPECT_EQ(lines.front(), "BEGIN:VCALENDAR");
  EXPECT_EQ(lines.back(), "END:VCALENDAR");
  std::vector<Properties> events;
  bool inside = false;
  for (const std::string& line : lines) {
    if (line == "BEGIN:VEVENT") {
      events.emplace_back();
      inside = true;
    } else if (line == "END:VEVENT") {
      for (const char* needed : {"UID", "DTSTAMP", "DTSTART;VALUE=DATE", "SUMMARY"}) {
        EXPECT_EQ(events.back().count(needed), 1u) << needed;
      }
      inside = false;
    } else if (inside) {
      const auto colon = line.find(':');
      EXPECT_TRUE(events.back().emplace(line.substr(0, colon), line.substr(colon + 1)).second)
          << line << " stands twice";
    }
  }
  return events;
}

TEST(ICalendar, HasAnEventADay) {
  const auto events = events_of(icalendar({{"order-2028-02-28@x", {2028, 2, 28}, "hay", "12 bales"},
                                           {"order-2028-02-29@x", {2028, 2, 29}, "oats", ""}},
                                          {2027, 11, 1}));
  ASSERT_EQ(events.size(), 2u);
  EXPECT_EQ(events[0].at("DTSTART;VALUE=DATE"), "20280228");
  EXPECT_EQ(events[0].at("DTEND;VALUE=DATE"), "20280229");  // the end is not in it (3.6.1)
  EXPECT_EQ(events[1].at("DTEND;VALUE=DATE"), "20280301");
  EXPECT_EQ(events[0].at("DTSTAMP"), "20271101T000000Z");
  EXPECT_EQ(events[1].count("DESCRIPTION"), 0u);
}

TEST(ICalendar, EscapesWhatMeansSomething) {
  EXPECT_EQ(ical_text("a,b;c\\d\ne\x07"), "a\\,b\\;c\\\\d\\ne");
}

TEST(ICalendar, FoldsWithoutCuttingLettersInTwo) {
  std::string text;
  for (int i = 0; i < 60; ++i) text += "\xd1\x91\xc3\x9f\xe2\x82\xac";  // two, two, three octets
  const auto lines = content_lines(folded("SUMMARY:" + text));
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_EQ(lines[0], "SUMMARY:" + text);
  EXPECT_EQ(folded(std::string(75, 'a')), std::string(75, 'a') + "\r\n");
  EXPECT_EQ(folded(std::string(76, 'a')), std::string(75, 'a') + "\r\n a\r\n");
}

TEST(ICalendar, HasProductAndVersion) {
  const auto lines = content_lines(icalendar({}, {2026, 11, 1}));
  EXPECT_EQ(lines[1], "VERSION:2.0");
  EXPECT_TRUE(lines[2].starts_with("PRODID:"));
}

}  // namespace
}  // namespace haymow::ical_test
