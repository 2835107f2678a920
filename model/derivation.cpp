#include "model/derivation.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "model/ration.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// More names than this do not help a reader.
constexpr std::size_t few = 3;
// A bound that moves less than this, relative, tells nothing new.
constexpr double hardly_moved = 1e-6;

// Columns without cost for the amounts; `scaled` adds the scale as the last.
LinearProgram amounts_of(const Formulation& formulation, bool scaled) {
  LinearProgram program;
  for (const Column& column : formulation.program.columns()) {
    program.add_column({column.name, column.lower, column.upper, 0.0});
  }
  // No offer's name has a line break.
  if (scaled) program.add_column({"scale\n"});
  return program;
}

const Row& algebra_of(const Formulation& formulation, const std::string& id) {
  const auto rows = formulation.program.rows();
  return *std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.name == id; });
}

// The row with its bound taken times the scale: a x - b scale against 0.
Row scaled(const Row& row, int scale) {
  Row out{row.name, -unlimited, unlimited, row.terms};
  const double bound = std::isfinite(row.lower) ? row.lower : row.upper;
  if (bound != 0.0) out.terms.push_back({scale, -bound});
  (std::isfinite(row.lower) ? out.lower : out.upper) = 0.0;
  return out;
}

std::optional<Solution> certified(const LinearProgram& program) {
  Solution solution = solve(program);
  if (solution.status != Status::optimal || !certify(program, solution).holds()) {
    return std::nullopt;
  }
  return solution;
}

// Every feed of the extreme, not only those that count: salt can be what thins sugar.
std::vector<std::size_t> carriers(const std::vector<double>& amounts, std::size_t offers) {
  std::vector<std::size_t> out;
  for (std::size_t offer = 0; offer < offers; ++offer) {
    if (amounts[offer] > least_portion.in_kg()) out.push_back(offer);
  }
  std::stable_sort(out.begin(), out.end(),
                   [&](std::size_t a, std::size_t b) { return amounts[a] > amounts[b]; });
  return out;
}

std::optional<Implied> implied(const Formulation& formulation, const RowMeaning& clash,
                               std::span<const RowMeaning> facts) {
  const auto solution = certified(implied_program(formulation, clash, facts));
  if (!solution) return std::nullopt;
  const auto offers = formulation.program.columns().size();
  const double value = clash.side == Side::upper ? solution->cost : -solution->cost;
  return Implied{value, carriers(solution->columns, offers)};
}

bool is_about_one_feed(const RowMeaning& row) {
  switch (row.family) {
    case RowFamily::feed:
    case RowFamily::maker:
    case RowFamily::stock:
    case RowFamily::grazing:
    case RowFamily::wish:
      return true;
    default:
      return false;
  }
}

// The offers that alone count towards a floor on an amount that is not of a named feed.
std::vector<std::size_t> only_sources(const Formulation& formulation, const RowMeaning& fact) {
  std::vector<std::size_t> out;
  if (fact.side != Side::lower || !fact.whole.empty() || is_about_one_feed(fact)) return out;
  for (const Term& t : fact.part) {
    if (t.coefficient > 0.0) out.push_back(static_cast<std::size_t>(t.column));
  }
  if (out.size() > few || out.size() == formulation.program.columns().size()) out.clear();
  return out;
}

std::optional<KgAsFed> least_of(const Formulation& formulation,
                                const std::vector<std::size_t>& offers,
                                std::span<const RowMeaning> facts) {
  LinearProgram program = amounts_of(formulation, false);
  for (const std::size_t offer : offers) program.set_cost(static_cast<int>(offer), 1.0);
  for (const RowMeaning& fact : facts) program.add_row(algebra_of(formulation, fact.id));
  const auto solution = certified(program);
  if (!solution) return std::nullopt;
  return KgAsFed{solution->cost};
}

// What is told last, for what a keeper knows best: energy, then sugar and starch,
// then another need, then a rule; an amount before a share.
int rank(const RowMeaning& row) {
  if (row.nutrient == Nutrient::energy && row.whole.empty()) return 0;
  if (row.family == RowFamily::starch) return 1;
  if (!row.whole.empty()) return 4;
  return row.family == RowFamily::need ? 2 : 3;
}

bool forbids(const RowMeaning& row) { return row.side == Side::upper && row.bound == 0.0; }

// Facts in the order of telling: what is forbidden, what is scarce, what is asked of
// the whole day (first what pushes against the clash: floors under a ceiling),
// shares after the amounts they are shares of. So a fact is told before the
// figure it is needed for, and no figure is told that only a feed not allowed gives.
void order_facts(std::vector<RowMeaning>& facts, const RowMeaning& clash) {
  const auto place = [&](const RowMeaning& row) {
    if (forbids(row)) return 0;
    if (row.side == Side::upper && is_about_one_feed(row)) return 1;
    return (row.whole.empty() ? 2 : 4) + (row.side == clash.side ? 1 : 0);
  };
  std::stable_sort(facts.begin(), facts.end(),
                   [&](const RowMeaning& a, const RowMeaning& b) { return place(a) < place(b); });
}

// Amounts are never below 0, so that a quantity of least 0 is no news; of most 0 it is.
bool moved(const RowMeaning& clash, const std::optional<Implied>& before, const Implied& now) {
  if (!before) return clash.side == Side::lower || std::abs(now.value) > hardly_moved;
  return std::abs(now.value - before->value) >
         hardly_moved * std::max(1.0, std::abs(before->value));
}

bool breaks(const RowMeaning& clash, double best) {
  const double slack = certificate_tolerance * std::max(1.0, std::abs(clash.bound));
  return clash.side == Side::upper ? best > clash.bound + slack : best < clash.bound - slack;
}

std::optional<Derivation> told_with(const Formulation& formulation, std::vector<RowMeaning> facts,
                                    RowMeaning clash) {
  const auto best = implied(formulation, clash, facts);
  if (!best || !breaks(clash, best->value)) return std::nullopt;
  order_facts(facts, clash);
  Derivation out;
  out.best = *best;
  out.clash = std::move(clash);
  out.only = only_sources(formulation, out.clash);
  std::optional<Implied> before;
  for (std::size_t k = 0; k < facts.size(); ++k) {
    const std::span<const RowMeaning> so_far(facts.data(), k + 1);
    DerivationStep step;
    step.fact = facts[k];
    step.only = only_sources(formulation, facts[k]);
    if (!step.only.empty()) step.least_of_them = least_of(formulation, step.only, so_far);
    if (auto now = implied(formulation, out.clash, so_far); now && moved(out.clash, before, *now)) {
      before = now;
      step.implied = std::move(now);
    }
    out.steps.push_back(std::move(step));
    // Of a conflict that is not minimal the rest need not be told.
    if (out.steps.back().implied && breaks(out.clash, out.steps.back().implied->value)) {
      out.best = *out.steps.back().implied;
      break;
    }
  }
  return out;
}

}  // namespace

LinearProgram implied_program(const Formulation& formulation, const RowMeaning& clash,
                              std::span<const RowMeaning> facts) {
  const bool is_share = !clash.whole.empty();
  LinearProgram program = amounts_of(formulation, is_share);
  const int scale = program.column_count() - 1;
  const double sign = clash.side == Side::upper ? 1.0 : -1.0;
  for (const Term& t : clash.part) {
    program.set_cost(t.column, sign * t.coefficient * (is_share ? clash.scale : 1.0));
  }
  if (is_share) program.add_row({"the whole is 1", 1.0, 1.0, clash.whole});
  for (const RowMeaning& fact : facts) {
    const Row& row = algebra_of(formulation, fact.id);
    program.add_row(is_share ? scaled(row, scale) : row);
  }
  return program;
}

std::optional<Derivation> derive(const Formulation& formulation,
                                 std::span<const std::size_t> conflict,
                                 std::span<const double> multipliers) {
  std::vector<RowMeaning> rows;
  for (const std::size_t index : conflict) {
    if (multipliers[index] != 0.0) rows.push_back(formulation.rows[index]);
  }
  std::vector<std::size_t> order(rows.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rank(rows[a]) < rank(rows[b]); });
  for (const std::size_t last : order) {
    std::vector<RowMeaning> facts = rows;
    facts.erase(facts.begin() + static_cast<std::ptrdiff_t>(last));
    if (auto told = told_with(formulation, std::move(facts), rows[last])) {
      told->tells_all = told->steps.size() + 1 == conflict.size();
      return told;
    }
  }
  return std::nullopt;
}

}  // namespace haymow
