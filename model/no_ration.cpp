#include "model/no_ration.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "model/practical.h"
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
    case RowFamily::grazing:
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

// The number a person would write: outward by a hundredth and to two or three
// figures, so that the change as printed is enough, also in whole steps.
double rounded_outward(double edge, Side side) {
  const double room = 0.01 * std::abs(edge);
  const double value = side == Side::lower ? edge - room : edge + room;
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
  } else if (row.family == RowFamily::grazing) {
    (row.side == Side::lower ? question.grass->least : question.grass->most) = KgDryMatter{bound};
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

// Grass is grown, not bought; nobody fills a horse with fruit; small amounts of
// concentrated feeds are toxic. A name that is taken, be it by a bag of the
// keeper's own, would be told as if it were on offer already.
bool may_be_proposed(const Feed& feed, const std::vector<Offer>& offers) {
  return !feed.has(FeedTrait::concentrated) && feed.group != FeedGroup::grass &&
         feed.group != FeedGroup::sweet &&
         std::none_of(offers.begin(), offers.end(), [&](const Offer& o) {
           return o.feed.name == feed.name || o.name == feed.name;
         });
}

// The question with `feeds` on offer too, as the last offers.
RationQuestion with_feeds(RationQuestion question, std::span<const Feed> feeds) {
  for (const Feed& feed : feeds) {
    question.offers.push_back(unpriced(feed));
    if (!question.stock_a_day.empty()) question.stock_a_day.emplace_back();
  }
  return question;
}

// How much a kilogram of a group weighs in a proposal: what is fed by the
// hundred grams is bought before a bag of something unusual. Common practice,
// no source.
double reluctance(FeedGroup group) {
  switch (group) {
    case FeedGroup::balancer:
    case FeedGroup::supplement:
    case FeedGroup::mineral:
      return 0.2;
    case FeedGroup::hay:
    case FeedGroup::haylage:
    case FeedGroup::straw:
    case FeedGroup::dried_forage:
    case FeedGroup::fibre:
    case FeedGroup::compound:
      return 0.5;
    default:
      return 2.0;
  }
}

// The least of `feeds`, by weight so reckoned, that makes a ration possible; nothing
// when none does. Amounts are rounded up to steps, and what the rest then costs
// is solved again with them.
std::optional<Mend> least_added(const RationQuestion& question, std::span<const Feed> feeds) {
  const Formulation formulation = formulate(with_feeds(question, feeds));
  LinearProgram least = formulation.program;
  const int first = static_cast<int>(question.offers.size());
  for (int j = 0; j < first; ++j) least.set_cost(j, 0.0);
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    least.set_cost(first + static_cast<int>(k), reluctance(feeds[k].group));
  }
  const Solution fewest = solve(least);
  if (fewest.status != Status::optimal || !certify(least, fewest).holds()) return std::nullopt;

  Mend mend;
  mend.kind = Mend::Kind::add_feed;
  LinearProgram rest = formulation.program;
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    const int column = first + static_cast<int>(k);
    const KgAsFed step = weighing_of(feeds[k].group).step;
    const double steps =
        std::ceil(KgAsFed{fewest.columns[static_cast<std::size_t>(column)]} / step - 1e-6);
    const KgAsFed amount = step * std::max(steps, 0.0);
    rest.set_column_bounds(column, 0.0, amount.in_kg());
    if (amount > KgAsFed{}) mend.additions.push_back({feeds[k], amount});
  }
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
    if (!may_be_proposed(feed, question.offers)) continue;
    const auto mend = least_added(question, std::span(&feed, 1));
    if (!mend || mend->additions.empty()) continue;
    const auto it = best.find(feed.group);
    if (it == best.end() || mend->additions[0].amount < it->second.additions[0].amount) {
      best.insert_or_assign(feed.group, *mend);
    }
  }
  std::vector<Mend> mends;
  mends.reserve(best.size());
  for (auto& [group, mend] : best) mends.push_back(std::move(mend));
  std::stable_sort(mends.begin(), mends.end(), [](const Mend& a, const Mend& b) {
    return a.additions[0].amount < b.additions[0].amount;
  });
  if (mends.size() > most_added_feeds) mends.resize(most_added_feeds);
  return mends;
}

// Several feeds of the table together, when none does it alone: the lightest
// mix of all, then each left out that can be.
std::optional<Mend> feeds_that_mend_together(const RationQuestion& question,
                                             std::span<const Feed> known_feeds) {
  std::vector<Feed> feeds;
  for (const Feed& feed : known_feeds) {
    if (may_be_proposed(feed, question.offers)) feeds.push_back(feed);
  }
  std::optional<Mend> best = least_added(question, feeds);
  if (!best) return std::nullopt;
  feeds.clear();
  for (const Addition& addition : best->additions) feeds.push_back(addition.feed);
  for (std::size_t k = 0; k < feeds.size();) {
    std::vector<Feed> fewer = feeds;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(k));
    if (auto mend = least_added(question, fewer)) {
      feeds = std::move(fewer);
      best = std::move(mend);
    } else {
      ++k;
    }
  }
  return best;
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
                     row.family == RowFamily::maker || row.family == RowFamily::stock ||
                     row.family == RowFamily::grazing;
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
  if (answer.mends.empty()) {
    if (auto mend = feeds_that_mend_together(question, known_feeds)) {
      answer.mends.push_back(std::move(*mend));
    }
  }

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
