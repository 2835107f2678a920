// What changes in a horse while a season goes on: work from a date, foaling, weaning,
// the cold of the month. Days are counted from the first of the season.
#pragma once

#include <optional>
#include <vector>

#include "model/life_stage.h"

namespace haymow {

/// From this day on the horse does this.
struct StageFrom {
  int day = 0;
  LifeStage stage;
};

struct HorseCalendar {
  std::vector<StageFrom> stages;  // by day
  std::optional<int> foaling;     // the day; negative: before the season
  std::optional<int> weaning;
  bool cold_by_month = false;  // the temperature is the yard's of the month
};

}  // namespace haymow
