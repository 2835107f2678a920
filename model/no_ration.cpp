#include "model/no_ration.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "model/naming.h"
#include "solver/certify.h"
#include "solver/conflict.h"
#include "solver/solve.h"

namespace haymow {
namespace {

constexpr std::size_t most_added_feeds = 3;

bool may_be_loosened(const RowMeaning& row) {
  switch (row.family) {
    case RowFamily::need:
      return row.side == Side::upper;  // the energy ceiling
    case RowFamily::maker:
      return false;
    case RowFamily::stock:
    case RowFamily::wish:
      return true;
    default:
      break;
  }
  if (!row.limit) return false;
  if (row.limit->strength == Strength::guide) return true;
  const Rule* rule = find_rule(row.limit->id);
  return rule != nullptr && rule->absolute && *rule->absolute != row.limit->number;
}

Mend::Kind kind_of(const RowMeaning& row) {
  if (row.family == RowFamily::stock) return Mend::Kind::buy_more;
  if (row.limit && row.limit->strength != Strength::guide) return Mend::Kind::vet;
  return Mend::Kind::keeper;
}

// The number a person would write: outward to two or three figures, so that the
// change as printed is enough.
double rounded_outward(double value, Side side) {
  const double step = std::abs(value) >= 100.0 ? 1.0 : (std::abs(value) >= 10.0 ? 0.1 : 0.01);
  return side == Side::lower ? std::floor(value / step) * step : std::ceil(value / step) * step;
}

// The question with one bound moved to `bound` (in the row's unit).
RationQuestion with_bound(RationQuestion question, const RowMeaning& row, double bound) {
  if (row.limit) {
    for (Limit& limit : question.limits) {
      if (limit.id != row.limit->id) continue;
      // An amount row scales its rule's number by the horse; a rule of 0 is 0 throughout.
      limit.number = row.bound == 0.0 ? bound : limit.number * bound / row.bound;
    }
  } else if (row.family == RowFamily::need) {
    for (Requirement& need : question.needs.rows) {
      if (need.nutrient == row.nutrient) need.ceiling = bound;
    }
  } else if (row.family == RowFamily::stock) {
    question.stock_a_day[*row.offer] = KgAsFed{bound};
  } else if (row.family == RowFamily::wish) {
    std::vector<Wish> moved;
    for (Wish wish : question.horse.wishes) {
      if (wish.what == row.wish && wish.kind == row.wish_kind) {
        if (wish.kind == WishKind::none) wish.kind = WishKind::at_most;
        if (wish.kind == WishKind::exactly) {
          // One side moves; the other stays where it was.
          Wish other = wish;
          other.kind = row.side == Side::lower ? WishKind::at_most : WishKind::at_least;
          moved.push_back(other);
          wish.kind = row.side == Side::lower ? WishKind::at_least : WishKind::at_most;
        }
        wish.amount = KgAsFed{bound};
      }
      moved.push_back(wish);
    }
    question.horse.wishes = std::move(moved);
  }
  return question;
}

// Solves and certifies; nothing unless the answer stands.
std::optional<Solution> certified(const RationQuestion& question) {
  const Formulation formulation = formulate(question);
  Solution solution = solve(formulation.program);
  if (solution.status != Status::optimal || !certify(formulation.program, solution).holds()) {
    return std::nullopt;
  }
  return solution;
}

std::optional<Mend> loosened(const RationQuestion& question, const Formulation& formulation,
                             std::size_t row_index) {
  const RowMeaning& row = formulation.rows[row_index];
  if (!may_be_loosened(row)) return std::nullopt;
  const auto least =
      least_loosening(formulation.program, {Bound::Of::row, static_cast<int>(row_index), row.side});
  if (!least) return std::nullopt;
  const auto value = row.value(least->solution.columns);
  if (!value) return std::nullopt;

  Mend mend;
  mend.kind = kind_of(row);
  mend.row = row;
  // Where a rule has a number of its own, that is what is written and changed.
  const double per_number =
      row.limit && row.limit->number != 0.0 ? row.bound / row.limit->number : 1.0;
  mend.unit = row.limit && row.limit->number != 0.0 ? row.limit->unit : row.unit;
  mend.to = rounded_outward(*value / per_number, row.side);
  if (mend.kind == Mend::Kind::vet) {
    const Instruction instruction{row.limit->id, mend.to, "asked for", {}};
    if (objection_to(instruction, question.horse)) return std::nullopt;
  }
  const auto solution = certified(with_bound(question, row, mend.to * per_number));
  if (!solution) return std::nullopt;
  mend.cost = Money{solution->cost};
  return mend;
}

// The least of `feed` that makes a ration possible, and what the rest then costs.
std::optional<Mend> added(const RationQuestion& question, const Feed& feed) {
  RationQuestion with = question;
  with.offers.push_back({feed.name, feed, Money{}, 0.0, {}, false, "", {}});
  if (!with.stock_a_day.empty()) with.stock_a_day.emplace_back();
  const Formulation formulation = formulate(with);
  if (!solve(formulation.program).usable()) return std::nullopt;

  LinearProgram least = formulation.program;
  const int added_column = least.column_count() - 1;
  for (int j = 0; j < least.column_count(); ++j) least.set_cost(j, j == added_column ? 1.0 : 0.0);
  const Solution fewest = solve(least);
  if (fewest.status != Status::optimal || !certify(least, fewest).holds()) return std::nullopt;

  const double step = feed.group == FeedGroup::mineral || feed.group == FeedGroup::supplement ||
                              feed.group == FeedGroup::oil
                          ? 0.005
                          : 0.1;
  Mend mend;
  mend.kind = Mend::Kind::add_feed;
  mend.feed = feed;
  mend.amount = KgAsFed{std::ceil(fewest.cost / step - 1e-9) * step};
  LinearProgram rest = formulation.program;
  rest.set_column_bounds(added_column, 0.0, mend.amount.in_kg());
  const Solution cheapest = solve(rest);
  if (cheapest.status != Status::optimal || !certify(rest, cheapest).holds()) return std::nullopt;
  mend.cost = Money{cheapest.cost};
  return mend;
}

std::vector<Mend> feeds_that_mend(const RationQuestion& question,
                                  std::span<const Feed> known_feeds) {
  // One of each group, the one that needs least: a list, not a catalogue.
  std::map<FeedGroup, Mend> best;
  for (const Feed& feed : known_feeds) {
    // Grass is grown, not bought; small amounts of concentrated feeds are toxic.
    if (feed.has(FeedTrait::concentrated) || feed.group == FeedGroup::grass) continue;
    const bool offered = std::any_of(question.offers.begin(), question.offers.end(),
                                     [&](const Offer& o) { return o.name == feed.name; });
    if (offered) continue;
    const auto mend = added(question, feed);
    if (!mend) continue;
    const auto it = best.find(feed.group);
    if (it == best.end() || mend->amount < it->second.amount)
      best.insert_or_assign(feed.group, *mend);
  }
  std::vector<Mend> mends;
  for (auto& [group, mend] : best) mends.push_back(std::move(mend));
  std::stable_sort(mends.begin(), mends.end(),
                   [](const Mend& a, const Mend& b) { return a.amount < b.amount; });
  if (mends.size() > most_added_feeds) mends.resize(most_added_feeds);
  return mends;
}

// A miss is weighed by its share of the limit. Laws and dosing limits are not
// missed unless nothing else is possible.
std::vector<double> miss_weights(const RationQuestion& question, const Formulation& formulation,
                                 bool laws_hold) {
  // Total dry matter of an ordinary day, for shares, whose rows are in its terms.
  const double usual_kg = std::max(question.needs.standard_intake.in_kg(), 1.0);
  std::vector<double> weights;
  weights.reserve(formulation.rows.size());
  for (const RowMeaning& row : formulation.rows) {
    const bool law = (row.limit && row.limit->strength == Strength::law) ||
                     row.family == RowFamily::maker || row.family == RowFamily::stock;
    const double size =
        row.whole.empty() ? std::abs(row.bound) : std::abs(row.bound) / row.scale * usual_kg;
    weights.push_back(law && laws_hold ? unlimited : 1.0 / std::max(size, 0.1));
  }
  return weights;
}

// The row to tell the contradiction with: a need first, energy before all.
std::optional<std::size_t> row_to_tell(const std::vector<RowMeaning>& conflict) {
  std::optional<std::size_t> best;
  const auto rank = [](const RowMeaning& row) {
    if (row.nutrient == Nutrient::energy) return 0;
    return row.family == RowFamily::need ? 1 : 2;
  };
  for (std::size_t i = 0; i < conflict.size(); ++i) {
    if (!conflict[i].whole.empty()) continue;
    if (!best || rank(conflict[i]) < rank(conflict[*best])) best = i;
  }
  return best;
}

// The best that one row of the conflict can reach while the others hold.
std::optional<Contradiction> contradiction_in(const Formulation& formulation,
                                              const std::vector<RowMeaning>& conflict) {
  const auto told = row_to_tell(conflict);
  if (!told) return std::nullopt;
  const bool upper = conflict[*told].side == Side::upper;
  LinearProgram program;
  for (const Column& column : formulation.program.columns()) {
    program.add_column({column.name, column.lower, column.upper, 0.0});
  }
  for (const Term& t : conflict[*told].part) {
    program.set_cost(t.column, upper ? t.coefficient : -t.coefficient);
  }
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    const RowMeaning& row = formulation.rows[i];
    const bool kept = std::any_of(conflict.begin(), conflict.end(), [&](const RowMeaning& c) {
      return c.id == row.id && c.id != conflict[*told].id;
    });
    if (kept) program.add_row(formulation.program.rows()[i]);
  }
  const Solution solution = solve(program);
  if (solution.status != Status::optimal || !certify(program, solution).holds()) {
    return std::nullopt;
  }
  return Contradiction{*told, upper ? solution.cost : -solution.cost};
}

}  // namespace

NoRation explain_no_ration(const RationQuestion& question, const Formulation& formulation,
                           std::span<const Feed> known_feeds) {
  NoRation answer;
  if (const auto conflict = find_conflict(formulation.program)) {
    answer.conflict_is_minimal = conflict->is_minimal;
    answer.proof_strength = conflict->proof_strength;
    for (const Bound& bound : conflict->members) {
      if (bound.of != Bound::Of::row) continue;
      const auto index = static_cast<std::size_t>(bound.index);
      answer.conflict.push_back(formulation.rows[index]);
      if (auto mend = loosened(question, formulation, index)) {
        answer.mends.push_back(std::move(*mend));
      }
    }
  }
  answer.contradiction = contradiction_in(formulation, answer.conflict);
  std::stable_sort(answer.mends.begin(), answer.mends.end(),
                   [](const Mend& a, const Mend& b) { return a.cost < b.cost; });
  for (Mend& mend : feeds_that_mend(question, known_feeds)) answer.mends.push_back(std::move(mend));

  Nearest nearest = nearest_to(formulation.program, miss_weights(question, formulation, true));
  if (!nearest.solution.usable()) {
    nearest = nearest_to(formulation.program, miss_weights(question, formulation, false));
  }
  if (nearest.solution.usable()) {
    answer.nearest = ration_from(question, formulation, nearest.solution.columns);
    answer.misses = broken_rows(formulation.rows, nearest.solution.columns);
  }
  return answer;
}

}  // namespace haymow
