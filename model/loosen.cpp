#include "model/loosen.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/rules.h"
#include "solver/certify.h"
#include "solver/conflict.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// The loosest bound that a rule's strength allows, in its own unit; absent: any.
std::optional<double> loosest_number(const RowMeaning& row) {
  if (!row.limit || row.limit->strength == Strength::guide) return std::nullopt;
  const Rule* rule = find_rule(row.limit->id);
  return rule != nullptr && rule->absolute ? *rule->absolute : row.limit->number;
}

bool may_be_loosened(const RowMeaning& row) {
  switch (row.family) {
    case RowFamily::need:
      return row.side == Side::upper;  // the energy ceiling
    case RowFamily::maker:
    case RowFamily::margin:
      return false;
    case RowFamily::stock:
    case RowFamily::wish:
    case RowFamily::grazing:
      return true;
    default:
      break;
  }
  if (!row.limit) return false;
  const auto loosest = loosest_number(row);
  return !loosest || *loosest != row.limit->number;
}

Mend::Kind kind_of(const RowMeaning& row) {
  if (row.family == RowFamily::stock) return Mend::Kind::buy_more;
  if (row.limit && row.limit->strength != Strength::guide) return Mend::Kind::vet;
  return Mend::Kind::keeper;
}

bool has_number(const RowMeaning& row) { return row.limit && row.limit->number != 0.0; }

// The move of `row` to what `amounts` give, as it is proposed and written; nothing
// when a vet could not allow it.
std::optional<Mend> proposed(const RationQuestion& question, const RowMeaning& row,
                             const std::vector<double>& amounts) {
  const auto value = row.value(amounts);
  if (!value) return std::nullopt;
  Mend mend;
  mend.kind = kind_of(row);
  mend.row = row;
  // Where a rule has a number of its own, that is what is written and changed.
  mend.unit = has_number(row) ? row.limit->unit : row.unit;
  mend.to = rounded_outward(*value / per_number(row), row.side);
  if (mend.kind == Mend::Kind::vet) {
    // The room for whole steps ends where the rule does.
    if (const auto loosest = loosest_number(row)) {
      mend.to = row.side == Side::lower ? std::max(mend.to, *loosest) : std::min(mend.to, *loosest);
    }
    const Instruction instruction{row.limit->id, mend.to, "asked for", {}};
    if (objection_to(instruction, question.horse)) return std::nullopt;
  }
  return mend;
}

RationQuestion with_change(RationQuestion question, const Mend& change) {
  return with_bound(std::move(question), *change.row, change.to * per_number(*change.row));
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

// The program with `row` moved as far as its strength allows.
LinearProgram as_loose_as_may_be(const RationQuestion& question, LinearProgram program,
                                 const RowMeaning& row, std::size_t index) {
  program.set_row_bounds(static_cast<int>(index), -unlimited, unlimited);
  const auto loosest = loosest_number(row);
  if (!loosest) return program;
  const Formulation moved = formulate(with_bound(question, row, *loosest * per_number(row)));
  for (Row limit : moved.program.rows()) {
    if (limit.name != row.id) continue;
    limit.name += "\nat its loosest";  // no other row has a line break
    program.add_row(std::move(limit));
  }
  return program;
}

// Lets the row give way at the price of its share moved.
void let_give(const RationQuestion& question, LinearProgram& program, const Row& row,
              const RowMeaning& meaning) {
  Row giving = row;
  giving.name += "\ngiving";
  const int give = program.add_column(
      {.name = row.name + "\ngives", .cost = 1.0 / usual_size(question, meaning)});
  giving.terms.push_back({give, meaning.side == Side::lower ? 1.0 : -1.0});
  program.add_row(std::move(giving));
}

std::optional<Mend> pair_of(const RationQuestion& question, const Formulation& formulation,
                            std::size_t first, std::size_t second) {
  const RowMeaning& one = formulation.rows[first];
  const RowMeaning& other = formulation.rows[second];
  LinearProgram program = as_loose_as_may_be(question, formulation.program, one, first);
  program = as_loose_as_may_be(question, std::move(program), other, second);
  for (int j = 0; j < program.column_count(); ++j) program.set_cost(j, 0.0);
  let_give(question, program, formulation.program.rows()[first], one);
  let_give(question, program, formulation.program.rows()[second], other);
  const Solution least = solve(program);
  if (least.status != Status::optimal) return std::nullopt;
  Mend mend;
  mend.kind = Mend::Kind::together;
  RationQuestion changed = question;
  for (const RowMeaning* row : {&one, &other}) {
    auto part = proposed(question, *row, least.columns);
    if (!part) return std::nullopt;
    changed = with_change(std::move(changed), *part);
    mend.parts.push_back(std::move(*part));
  }
  const auto solution = certified(changed);
  if (!solution) return std::nullopt;
  mend.cost = Money{solution->cost};
  for (Mend& part : mend.parts) part.cost = mend.cost;
  return mend;
}

}  // namespace

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

double per_number(const RowMeaning& row) {
  return has_number(row) ? row.bound / row.limit->number : 1.0;
}

double rounded_outward(double edge, Side side) {
  // So that the change as printed is enough, also in whole steps.
  const double room = 0.01 * std::abs(edge);
  const double value = side == Side::lower ? edge - room : edge + room;
  const double step = std::abs(value) >= 100.0 ? 1.0 : (std::abs(value) >= 10.0 ? 0.1 : 0.01);
  return side == Side::lower ? std::floor(value / step) * step : std::ceil(value / step) * step;
}

double usual_size(const RationQuestion& question, const RowMeaning& row) {
  // Total dry matter of an ordinary day, for shares, whose rows are in its terms.
  const double usual_kg = std::max(question.needs.standard_intake.in_kg(), 1.0);
  const double size =
      row.whole.empty() ? std::abs(row.bound) : std::abs(row.bound) / row.scale * usual_kg;
  return std::max(size, 0.1);
}

std::optional<Mend> loosened(const RationQuestion& question, const Formulation& formulation,
                             std::size_t row_index) {
  const RowMeaning& row = formulation.rows[row_index];
  if (!may_be_loosened(row)) return std::nullopt;
  const auto least =
      least_loosening(formulation.program, {Bound::Of::row, static_cast<int>(row_index), row.side});
  if (!least) return std::nullopt;
  auto mend = proposed(question, row, least->solution.columns);
  if (!mend) return std::nullopt;
  const auto solution = certified(with_change(question, *mend));
  if (!solution) return std::nullopt;
  mend->cost = Money{solution->cost};
  return mend;
}

std::optional<Mend> loosened_together(const RationQuestion& question,
                                      const Formulation& formulation,
                                      std::span<const std::size_t> conflict) {
  std::optional<Mend> best;
  for (const std::size_t first : conflict) {
    const RowMeaning& row = formulation.rows[first];
    if (!may_be_loosened(row)) continue;
    const auto rest = find_conflict(as_loose_as_may_be(question, formulation.program, row, first));
    if (!rest) continue;  // it helps alone, were it not for the rounding
    for (const Bound& bound : rest->members) {
      const auto second = static_cast<std::size_t>(bound.index);
      // Rows beyond those of the formulation are the first one's absolute figure.
      if (bound.of != Bound::Of::row || second >= formulation.rows.size() || second == first ||
          !may_be_loosened(formulation.rows[second])) {
        continue;
      }
      auto pair = pair_of(question, formulation, first, second);
      if (pair && (!best || pair->cost < best->cost)) best = std::move(pair);
    }
  }
  return best;
}

}  // namespace haymow
