// How far a batch is, in a line that is rewritten in place.
#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>

#include "scenarios/rewritten_line.h"

namespace haymow {

/// "1,234 records, 2,950 a second, 41 %, 12 s left"; without a share, as of a pipe, no
/// per cent and no time. `share` and `share_before`: of the records, done now and when
/// this run began, 0 to 1; `records`: in all, of which `records_before` by earlier runs.
struct BatchPace {
  std::size_t records = 0;
  std::size_t records_before = 0;
  double share = 0.0;
  double share_before = 0.0;
  double seconds = 0.0;  // since this run began
};
[[nodiscard]] std::string batch_progress_in_words(const BatchPace& pace);

class BatchProgress {
 public:
  BatchProgress(bool shown, int width) : line_(shown, width), shown_(shown) {}

  void begin(std::size_t records, double share);
  /// Writes at most five times a second.
  void at(std::size_t records, double share);
  void erase() { line_.write({}); }

 private:
  using Clock = std::chrono::steady_clock;

  RewrittenLine line_;
  bool shown_;
  BatchPace pace_;
  Clock::time_point began_;
  Clock::time_point told_;
};

}  // namespace haymow
