// The season cut at the turns of the months, and a horse's days put together where
// its grass is the same.
#pragma once

#include <optional>
#include <vector>

#include "model/formulate.h"
#include "scenarios/scenario.h"

namespace haymow {

/// A month of the season, with the days of it that are in the season.
struct MonthOfSeason {
  int year = 0;
  int month = 1;  // 1 to 12
  Days days;
};

/// In order; empty without a season.
[[nodiscard]] std::vector<MonthOfSeason> months_of(const std::optional<Date>& from,
                                                   const std::optional<Date>& until);

/// Days of the season on which a horse's grass is the same.
struct GrassSpell {
  std::optional<int> month;           // one that stands for all of them; absent: no grazing
  std::vector<MonthOfSeason> months;  // empty without a season
  Days days;                          // none without a season
};

/// The spells of a horse, in the order in which they begin. One without a season or
/// without grazing.
[[nodiscard]] std::vector<GrassSpell> spells_of(const Horse& horse,
                                                const std::vector<MonthOfSeason>& season);

/// The question with the grass of a month as its last offer; as it was where the
/// horse eats none.
[[nodiscard]] RationQuestion with_grass(RationQuestion question, int month);

}  // namespace haymow
