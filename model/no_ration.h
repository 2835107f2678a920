// When there is no ration: which demands cannot be met together, how near one
// can come, and which single change would mend it. Every mend was solved with
// the change made; none loosens a law beyond what a vet may allow.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "model/ration.h"

namespace haymow {

struct Addition {
  Feed feed;
  KgAsFed amount;  // a day, in steps a person can weigh
};

struct Mend {
  enum class Kind {
    keeper,    // the keeper's own wish, a guide, or the energy ceiling: may be changed freely
    vet,       // only on an instruction recorded in the file
    buy_more,  // a stock is too small
    add_feed,  // feeds of the table that are not on offer
  };
  Kind kind = Kind::keeper;
  std::optional<RowMeaning> row;  // which demand moves (not for add_feed)
  double to = 0.0;                // its new bound, in the rule's own unit where it has one
  std::string unit;
  /// add_feed: what to add and the least of it a day that mends it. Several only
  /// when no single change does: then together.
  std::vector<Addition> additions;
  /// Cost of the ration a day after the change; for add_feed without what the
  /// added feeds cost, which nobody has told.
  Money cost;
};

/// The contradiction in one step: with the rest of the conflict kept, `row` can
/// reach `best` at most (or least), which is not enough.
struct Contradiction {
  std::size_t row = 0;  // index into NoRation::conflict
  double best = 0.0;    // in the row's unit
};

struct NoRation {
  std::vector<RowMeaning> conflict;  // cannot all hold
  /// Absent when no row of the conflict bounds a plain amount.
  std::optional<Contradiction> contradiction;
  bool conflict_is_minimal = false;
  double proof_strength = 0.0;  // of the Farkas proof, relative; see certify.h
  Ration nearest;
  std::vector<Broken> misses;  // what the nearest ration misses
  std::vector<Mend> mends;     // cheapest first; additions last
};

/// `formulation` must have no answer. `known_feeds`: the table from which a
/// feed may be proposed.
[[nodiscard]] NoRation explain_no_ration(const RationQuestion& question,
                                         const Formulation& formulation,
                                         std::span<const Feed> known_feeds);

}  // namespace haymow
