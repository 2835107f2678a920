#include "model/season_blocks.h"

#include <algorithm>
#include <cstddef>
#include <thread>
#include <utility>

#include "model/season_pricing.h"
#include "solver/blocks.h"

namespace haymow {
namespace {

// Five herds take a third to a tenth of the time apart (measured on the season benchmark,
// 26 weeks of 20 feeds); so few as these have not been measured and stay one program.
constexpr std::size_t few_herds = 3;

// Beside the master's own work, which is one thread's (common practice, no source).
constexpr std::size_t most_threads = 2;

// A tenth of what the certificate passes. To come from 1e-7 to 1e-9 has taken a yard of 300
// horses twice as long as all before (measured).
constexpr double gap = 1e-7;

std::vector<int> herd_of_column(const SeasonProgram& season) {
  constexpr int shared = -1;
  std::vector<int> herds(season.program.columns().size(), shared);
  for (std::size_t h = 0; h < season.eat.size(); ++h) {
    const bool is_last = h + 1 == season.eat.size();
    const auto from = herds.begin() + season.eat[h].front();
    const auto to = is_last ? herds.end() : herds.begin() + season.eat[h + 1].front();
    std::fill(from, to, static_cast<int>(h));
  }
  return herds;
}

}  // namespace

bool pays_by_herds(const SeasonParts& parts) { return parts.herds.size() > few_herds; }

Solution solve_by_herds(const SeasonProgram& season, const SeasonClock& clock, SeasonGuess guess) {
  BlockOptions options;
  options.gap = gap;
  options.time_limit_seconds = clock.left_seconds();
  options.stop = clock.watch().stop;
  options.threads = clock.threads() > 0 ? clock.threads()
                                        : std::clamp<std::size_t>(
                                              std::thread::hardware_concurrency(), 1, most_threads);
  options.prices = std::move(guess.row_duals);
  if (!guess.columns.empty()) options.starts.push_back(std::move(guess.columns));
  return solve_blocks(season.program, herd_of_column(season), options).solution;
}

SeasonGuess guess_weeks(const SeasonQuestion& question, const SeasonParts& parts,
                        const SeasonProgram& weekly, const SpellAnswer& steady) {
  if (steady.solution.status != Status::optimal) return {};
  return {price_weeks(question, parts, weekly, steady),
          as_weekly(question, parts, weekly, steady).columns};
}

}  // namespace haymow
