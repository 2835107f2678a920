#include "scenarios/batch_progress.h"

#include <fmt/format.h>

namespace haymow {
namespace {

constexpr std::chrono::milliseconds between_lines{200};
constexpr double seconds_a_minute = 60.0;
constexpr double minutes_an_hour = 60.0;

// "12 s", "3 min", "2 h 5 min".
std::string time_in_words(double seconds) {
  if (seconds < 2.0 * seconds_a_minute) return fmt::format("{:.0f} s", seconds);
  const double minutes = seconds / seconds_a_minute;
  if (minutes < 2.0 * minutes_an_hour) return fmt::format("{:.0f} min", minutes);
  const auto whole = static_cast<int>(minutes);
  const auto hour = static_cast<int>(minutes_an_hour);
  return fmt::format("{} h {} min", whole / hour, whole % hour);
}

std::string with_commas(std::size_t number) {
  std::string text = fmt::format("{}", number);
  for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, ",");
  return text;
}

}  // namespace

std::string batch_progress_in_words(const BatchPace& pace) {
  std::string text = with_commas(pace.records) + " records";
  if (pace.seconds <= 0.0) return text;
  const auto of_this_run = static_cast<double>(pace.records - pace.records_before);
  text += fmt::format(", {} a second",
                      with_commas(static_cast<std::size_t>(of_this_run / pace.seconds)));
  const double gained = pace.share - pace.share_before;
  if (gained <= 0.0) return text;
  return text + fmt::format(", {:.0f} %, {} left", 100.0 * pace.share,
                            time_in_words(pace.seconds * (1.0 - pace.share) / gained));
}

void BatchProgress::begin(std::size_t records, double share) {
  if (!shown_) return;
  pace_ = {records, records, share, share, 0.0};
  began_ = told_ = Clock::now();
}

void BatchProgress::at(std::size_t records, double share) {
  if (!shown_) return;
  const auto now = Clock::now();
  if (now - told_ < between_lines) return;
  told_ = now;
  pace_.records = records;
  pace_.share = share;
  pace_.seconds = std::chrono::duration<double>(now - began_).count();
  line_.write(batch_progress_in_words(pace_));
}

}  // namespace haymow
