#include "model/season_totals.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/season_supply.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// So large a yard, and so long a search, that it ends in a second or two. Common practice,
// no source.
constexpr int rows_of_small_yard = 1000;
constexpr int most_pivots = 20'000;
// A twentieth of a per cent of a winter is less than a pack. Common practice, no source.
constexpr double near_enough = 5e-4;

struct PackCount {
  std::size_t offer = 0;
  int column = 0;
};

std::vector<PackCount> count_packs(const SeasonQuestion& question, SeasonProgram& season) {
  std::vector<PackCount> counts;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    if (!question.supply[f].pack || !question.supply[f].can_be_bought) continue;
    const double pack = question.supply[f].pack->in_kg();
    Row row{"packs/" + question.offers[f].name, 0.0, 0.0, {}};
    double most = 0.0;
    Money least = least_cost_per_kg(question, f, 0);
    for (const int column : season.buy[f]) {
      if (column < 0) continue;
      most += season.program.columns()[static_cast<std::size_t>(column)].upper;
      row.terms.push_back({column, 1.0});
    }
    if (row.terms.empty()) continue;
    for (std::size_t w = 1; w < question.weeks.size(); ++w) {
      least = std::min(least, least_cost_per_kg(question, f, w));
    }
    // What is left of the last pack is paid for and, as in the program, in nobody's way.
    row.terms.push_back({season.program.add_column(
                             {"left/" + question.offers[f].name, 0.0, pack, least.in_units()}),
                         1.0});
    Column whole{"packs/" + question.offers[f].name, 0.0, std::ceil(most / pack), 0.0};
    whole.whole = true;
    counts.push_back({f, season.program.add_column(std::move(whole))});
    row.terms.push_back({counts.back().column, -pack});
    season.program.add_row(std::move(row));
  }
  return counts;
}

}  // namespace

std::optional<SeasonTotals> cheapest_totals(const SeasonQuestion& question,
                                            const SeasonParts& parts, const Spells& spells,
                                            const SeasonChoices& choices,
                                            const SeasonClock& clock) {
  SeasonProgram season = season_program(question, parts, spells, choices, ImpliedRows::leave_out);
  if (season.program.row_count() > rows_of_small_yard) return std::nullopt;
  const std::vector<PackCount> counts = count_packs(question, season);
  if (counts.empty()) return std::nullopt;
  SolveOptions options = clock.solving(false);
  options.iteration_limit = most_pivots;
  options.whole_gap = near_enough;
  const Solution solution = solve(season.program, options);
  if (solution.columns.empty()) return std::nullopt;
  SeasonTotals totals(question.offers.size());
  for (const PackCount& count : counts) {
    const double packs = std::round(solution.columns[static_cast<std::size_t>(count.column)]);
    totals[count.offer] = KgAsFed{packs * question.supply[count.offer].pack->in_kg()};
  }
  return totals;
}

}  // namespace haymow
