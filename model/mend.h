// One way out of a clash of demands, solved with the change made.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/formulate.h"

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
    together,  // two of the first three, neither enough without the other
  };
  Kind kind = Kind::keeper;
  std::optional<RowMeaning> row;  // which demand moves (not for add_feed, together)
  double to = 0.0;                // its new bound, in the rule's own unit where it has one
  std::string unit;
  /// add_feed: what to add and the least of it a day that mends it. Several only
  /// when no single change does: then together.
  std::vector<Addition> additions;
  /// together: the two changes; their own `cost` is that of both together.
  std::vector<Mend> parts;
  /// Cost of the ration a day after the change; for add_feed without what the
  /// added feeds cost, which nobody has told.
  Money cost;
};

}  // namespace haymow
