#include "scenarios/progress_line.h"

#include <fmt/format.h>

namespace haymow {

std::string progress_in_words(const SeasonProgress& progress) {
  switch (progress.step) {
    case SeasonStep::steady:
      return "feeding alike for as long as may be";
    case SeasonStep::weeks:
      return "week by week";
    case SeasonStep::whole_packs:
      return fmt::format("whole packs, {} of at most {}", progress.done, progress.of);
    case SeasonStep::draws:
      return fmt::format("{} of {} winters", progress.done, progress.of);
    case SeasonStep::order:
      return fmt::format("what order is enough, {} of {} winters", progress.done, progress.of);
  }
  return {};
}

void ProgressWords::stage(std::string_view what) { told_ = stage_ = what; }

void ProgressWords::step(const SeasonProgress& progress) {
  const std::string step = progress_in_words(progress);
  told_ = stage_.empty() ? step : stage_ + ": " + step;
}

void ProgressLine::stage(std::string_view what) {
  words_.stage(what);
  line_.write(words_.told());
}

void ProgressLine::step(const SeasonProgress& progress) {
  words_.step(progress);
  line_.write(words_.told());
}

}  // namespace haymow
