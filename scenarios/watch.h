// What a command that takes long is watched by: whether to stop, and what it is doing.
#pragma once

#include <functional>
#include <string_view>

#include "model/season_plan.h"

namespace haymow {

struct Watch {
  SeasonWatch season;
  std::function<void(std::string_view)> stage = nullptr;  // "what a week more costs"

  [[nodiscard]] bool stopped() const { return season.stopped(); }
  void now(std::string_view what) const {
    if (stage) stage(what);
  }
  /// With the usual limit of time, absent another.
  [[nodiscard]] SeasonOptions options(Packs packs = Packs::whole) const {
    SeasonOptions out;
    out.packs = packs;
    out.watch = season;
    return out;
  }
};

}  // namespace haymow
