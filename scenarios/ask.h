// The questions of a scenario answered one after another, each from where the file's
// own answer stands, and what is other than there.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenarios/run.h"

namespace haymow {

/// A feed of which another amount is fed, put out a day.
struct FeedDifference {
  std::string feed;
  KgAsFed before;
  KgAsFed after;
};

/// One horse's answer to a question beside its answer as the file stands. Money is a
/// day's; where the grass changes over the season, the mean over its days.
struct HorseDifference {
  bool as_before = false;            // nothing that decides it was changed: the same answer
  std::optional<Money> cost_before;  // of the ration to feed; absent: no ration
  std::optional<Money> cost_after;
  std::optional<Money> exact_before;  // of the cheapest to the gram
  std::optional<Money> exact_after;
  std::vector<FeedDifference> feeds;  // of the rations to feed, the largest change first
  /// What the file's own ration costs then; absent where it breaks a limit then, was made
  /// for a promise, or changes over the season.
  std::optional<Money> cost_if_fed_as_before;

  [[nodiscard]] std::optional<Money> dearer_by() const;
  [[nodiscard]] std::optional<Money> exactly_dearer_by() const;
};

struct AskedAnswer {
  std::string what_if;
  std::vector<AskedChange> changes;
  std::vector<Diagnostic> remarks;      // what the reader had to assume for it
  std::vector<HorseAnswer> answers;     // in the order of the file
  std::vector<HorseDifference> horses;  // one a horse

  [[nodiscard]] AnswerStatus worst() const;
};

/// Money a day of all horses that have a ration in one of the two; absent where one of
/// these has none.
struct YardCost {
  std::optional<Money> before;
  std::optional<Money> after;
  std::optional<Money> exact_before;
  std::optional<Money> exact_after;
};
[[nodiscard]] YardCost yard_cost(const AskedAnswer& answer);

/// What `answer` costs a day: its ration to feed, or the cheapest to the gram. Over
/// spells of other grass the mean, by their days. Absent when any has no ration.
[[nodiscard]] std::optional<Money> cost_to_feed(const HorseAnswer& answer);
[[nodiscard]] std::optional<Money> exact_cost(const HorseAnswer& answer);

/// What the reader had to assume for the question, and not for the file.
[[nodiscard]] std::vector<Diagnostic> new_remarks(const AskedQuestion& question,
                                                  const Scenario& scenario);

/// Answers every question of `scenario`; `answers` are those of the file as it stands.
/// A horse on which nothing bears is not asked again.
[[nodiscard]] std::vector<AskedAnswer> ask(const Scenario& scenario,
                                           const std::vector<HorseAnswer>& answers,
                                           const RunOptions& options = {});

}  // namespace haymow
