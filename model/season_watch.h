// Being stopped while a season is planned, and telling how far one is. Plain values that
// are handed along: whoever plans decides what ends the work and where the telling goes.
#pragma once

#include <functional>

namespace haymow {

enum class SeasonStep {
  steady,       // the season fed alike for as long as may be
  weeks,        // week by week, for the least cost and its proof
  whole_packs,  // solved again to save a pack: `done` times, of at most `of`
  draws,        // planned for as many draws of what is only known as a range
  order,        // so many draws fed by the order that is to be enough for `of`
};

struct SeasonProgress {
  SeasonStep step = SeasonStep::steady;
  int done = 0;
  int of = 0;  // 0: nothing is counted
};

struct SeasonWatch {
  std::function<bool()> stop = nullptr;  // true: end soon, with what there is; absent: never
  std::function<void(const SeasonProgress&)> tell = nullptr;

  [[nodiscard]] bool stopped() const { return stop && stop(); }
  void at(SeasonStep step, int done = 0, int of = 0) const {
    if (tell) tell({step, done, of});
  }
};

}  // namespace haymow
