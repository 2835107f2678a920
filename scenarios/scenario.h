// The scenario file: reading it into a stable, with all mistakes at once.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/diagnostic.h"
#include "model/feed_ranges.h"
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

struct AskedQuestion;

struct Scenario {
  Stable stable;
  std::optional<Date> from;  // the season
  std::optional<Date> until;
  std::optional<Triangle> may_end;     // days later than `until`, fewer below zero
  std::vector<FeedDoubt> feed_doubts;  // of Stable::offers, in their order
  ChangeAsked change;
  std::vector<Store> stores;
  std::array<std::optional<Money>, months_in_year> budget = {};      // a month; January first
  std::array<std::optional<double>, months_in_year> climate_c = {};  // mean of day and night
  /// What was assumed where the file is silent; warnings only.
  std::vector<Diagnostic> remarks;
  std::string as_if;                 // the question this is the file of; empty: as it stands
  std::vector<AskedQuestion> asked;  // "what if ...", in the order of the file
};

/// What a question makes other than the file has it, as written.
struct AskedChange {
  std::string of;                     // a horse, a feed, or "the file"
  std::string key;                    // of the file; inner keys behind a comma
  std::optional<std::string> before;  // absent: not in the file
  std::optional<std::string> after;   // absent: taken away
};

/// "What if hay is 6 a bale": the file as it would be then.
struct AskedQuestion {
  std::string what_if;  // the keeper's words, or else made from the changes
  SourcePosition position;
  std::vector<AskedChange> changes;
  std::vector<std::size_t> horses;  // whose own entries change
  bool for_every_horse = false;     // feeds, prices, stocks or the season change
  Scenario scenario;                // with the changes in it; it asks nothing itself
};

/// Reads scenario `text`; `file` is used in messages only.
/// Throws InputError with every mistake found (twenty are rendered).
[[nodiscard]] Scenario read_scenario(std::string_view text, const std::string& file);

}  // namespace haymow
