// Why this ration: the limits that hold it, what each costs, what every feed in
// it is paid for and at what price the others would enter. Data only; the words
// are in scenarios/wording.cpp.
#pragma once

#include <optional>
#include <vector>

#include "model/ration.h"
#include "solver/solution.h"

namespace haymow {

/// A limit the ration stands at. Money a day for one `row.unit`.
struct HeldLimit {
  RowMeaning row;
  double tightening_costs = 0.0;  // `unlimited`: any tightening leaves no ration
  double loosening_saves = 0.0;
  /// Values of the limit up to which each figure stays true; absent for shares
  /// and where nothing changes as far as was looked.
  std::optional<double> tightening_until;
  std::optional<double> loosening_until;
};

/// What one row pays for a feed, money a kilogram eaten; negative where the
/// feed uses up a ceiling.
struct Payment {
  std::size_t row = 0;  // index into the formulation's rows
  double per_kg = 0.0;
};

struct FeedWorth {
  std::size_t offer = 0;
  std::vector<Payment> payments;  // largest first; they add up to the cost of a kg eaten
};

/// The price, as bought, at or below which an unused feed enters.
struct EntryPrice {
  std::size_t offer = 0;
  Money now;
  std::optional<Money> enters_at;  // absent: at no price
};

struct Explanation {
  std::vector<HeldLimit> limits;   // what holds the ration and costs something, dearest first
  std::vector<FeedWorth> worth;    // one a feed fed
  std::vector<EntryPrice> unused;  // nearest to entering first
};

/// `solution` must be optimal for the formulation's program.
[[nodiscard]] Explanation explain(const RationQuestion& question, const Formulation& formulation,
                                  const Solution& solution);

}  // namespace haymow
