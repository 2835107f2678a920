#include "model/season_price.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "model/season_parts.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"
#include "solver/cost_curve.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Bought amounts that differ by less than a twentieth, or by a kilogram in the season,
// are told as one step of the price. Common practice, no source.
constexpr double same_share = 0.05;
constexpr double same_kg = 1.0;
// How far to either side of a break point it is looked at, relative to the price.
constexpr double beside = 1e-4;

// The weekly program with a column for all that is bought of the feed.
struct Priced {
  LinearProgram program;
  int in_all = 0;
};

Priced priced(const SeasonQuestion& question, std::size_t offer) {
  const SeasonParts parts = season_parts(question);
  SeasonProgram season =
      season_program(question, parts, weekly_spells(question, parts), {}, ImpliedRows::leave_out);
  Priced out{std::move(season.program), 0};
  Row row{"bought in all", 0.0, 0.0, {}};
  double most = 0.0;
  for (const int column : season.buy[offer]) {
    most += out.program.columns()[static_cast<std::size_t>(column)].upper;
    row.terms.push_back({column, 1.0});
  }
  out.in_all = out.program.add_column({"bought in all", 0.0, most, 0.0});
  row.terms.push_back({out.in_all, -1.0});
  out.program.add_row(std::move(row));
  return out;
}

double bought(const Priced& season, const Solution& solution) {
  return solution.columns[static_cast<std::size_t>(season.in_all)];
}

bool same(double kg, double other, double of) {
  return std::abs(kg - other) < std::max(same_kg, same_share * of);
}

std::vector<BoughtStep> steps_of(const Priced& season, double most_dearer,
                                 const SolveOptions& options) {
  std::vector<BoughtStep> steps;
  for (const CostPiece& piece :
       answers_over_cost(season.program, season.in_all, 0.0, most_dearer, options)) {
    const double kg = bought(season, piece.solution);
    if (!steps.empty() && same(kg, steps.back().bought_kg, steps.front().bought_kg)) {
      steps.back().dearer_to = piece.to;
    } else {
      steps.push_back({piece.from, piece.to, kg});
    }
  }
  return steps;
}

double bought_at(Priced& season, double dearer, const SolveOptions& options,
                 Certificate& certificate) {
  season.program.set_cost(season.in_all, dearer);
  const Solution solution = solve(season.program, options);
  if (solution.status != Status::optimal) return 0.0;
  certificate = certify(season.program, solution);
  return bought(season, solution);
}

}  // namespace

std::optional<BreakEven> break_even(const SeasonQuestion& question, std::size_t offer,
                                    const SeasonOptions& options) {
  const FeedSupply& supply = question.supply[offer];
  if (!supply.can_be_bought || supply.price_per_kg.front().in_units() <= 0.0) return std::nullopt;
  const double price = supply.price_per_kg.front().in_units();
  Priced season = priced(question, offer);
  BreakEven out;
  out.offer = offer;
  SolveOptions stopping;
  stopping.stop = options.watch.stop;
  try {
    out.steps = steps_of(season, price, stopping);
  } catch (const std::runtime_error&) {  // the arithmetic failed: nothing is said
    return std::nullopt;
  }
  if (out.steps.empty()) return std::nullopt;
  out.bought_kg = out.steps.front().bought_kg;
  if (out.bought_kg < same_kg) return std::nullopt;
  SolveOptions solving = stopping;
  solving.time_limit_seconds = options.time_limit_seconds;
  solving.primal_first = true;
  const bool moves = out.steps.size() > 1;
  const double at = out.steps.front().dearer_to;
  if (moves) out.dearer = at;
  out.below_kg = bought_at(season, std::max(0.0, at - beside * price), solving, out.below);
  out.above_kg = moves ? bought_at(season, at + beside * price, solving, out.above) : out.below_kg;
  if (!moves) out.above = out.below;
  const bool shown = same(out.below_kg, out.bought_kg, out.bought_kg) &&
                     (!moves || !same(out.above_kg, out.bought_kg, out.bought_kg));
  if (!out.below.holds() || !out.above.holds() || !shown) return std::nullopt;
  return out;
}

}  // namespace haymow
