// What planning a season is at, in a line that is rewritten in place.
#pragma once

#include <string>
#include <string_view>

#include "model/season_watch.h"
#include "scenarios/rewritten_line.h"

namespace haymow {

/// "whole packs, 3 of at most 12".
[[nodiscard]] std::string progress_in_words(const SeasonProgress& progress);

/// What is at work, and how far it is: "planning the winter: week by week".
class ProgressWords {
 public:
  void stage(std::string_view what);
  void step(const SeasonProgress& progress);
  [[nodiscard]] const std::string& told() const { return told_; }

 private:
  std::string stage_;
  std::string told_;
};

class ProgressLine {
 public:
  ProgressLine(bool shown, int width) : line_(shown, width) {}

  void stage(std::string_view what);
  void step(const SeasonProgress& progress);
  void erase() { line_.write({}); }

 private:
  RewrittenLine line_;
  ProgressWords words_;
};

}  // namespace haymow
