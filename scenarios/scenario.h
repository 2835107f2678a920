// The scenario file: reading it into a stable, with all mistakes at once.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/diagnostic.h"
#include "model/season.h"
#include "model/stable.h"

namespace haymow {

/// A day of the civil calendar.
struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
};

/// How the keeper wants to change over from what is fed now.
struct ChangeAsked {
  std::optional<Date> from;  // absent: the first day of the season
  std::optional<Days> over;  // absent: the usual time
};

struct Scenario {
  Stable stable;
  std::optional<Date> from;  // the season
  std::optional<Date> until;
  ChangeAsked change;
  std::vector<Store> stores;
  std::array<std::optional<Money>, months_in_year> budget = {};      // a month; January first
  std::array<std::optional<double>, months_in_year> climate_c = {};  // mean of day and night
  /// What was assumed where the file is silent; warnings only.
  std::vector<Diagnostic> remarks;
};

/// Reads scenario `text`; `file` is used in messages only.
/// Throws InputError with every mistake found (twenty are rendered).
[[nodiscard]] Scenario read_scenario(std::string_view text, const std::string& file);

}  // namespace haymow
