// How long a yard's winter takes, over three seeds: the parts, the relaxation with its
// certificate, and the plan in whole packs. Writes each program, so that
// season_reference.py can give it to other solvers.
//   season_bench [HORSES WEEKS FEEDS [FOLDER]]
#include <fmt/core.h>

#include <chrono>
#include <fstream>
#include <string>
#include <vector>

#include "model/season_plan.h"
#include "model/season_relaxation.h"
#include "solver/write_program.h"
#include "tests/bench/season_yard.h"

namespace haymow {
namespace {

constexpr double limit_seconds = 120.0;

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void time_yard(unsigned seed, const bench::YardSize& size, const std::string& folder) {
  const SeasonQuestion yard = bench::season_yard(seed, size);
  auto start = std::chrono::steady_clock::now();
  const SeasonParts parts = season_parts(yard);
  const double parts_seconds = seconds_since(start);
  const SeasonRelaxation relaxed = relax_season(yard, parts, SeasonClock(limit_seconds));
  const double relaxed_seconds = seconds_since(start);
  start = std::chrono::steady_clock::now();
  const SeasonPlan plan = plan_season(yard, {.time_limit_seconds = limit_seconds});
  const double plan_seconds = seconds_since(start);
  const SeasonProgram weekly = season_program(yard, parts, weekly_spells(yard, parts));
  fmt::print(
      "seed {}: {} x {}, cost {:.9g}, {}, gap {:.1e}; parts {:.3f} s, certified {:.3f} s, plan "
      "{:.3f} s\n",
      seed, weekly.program.row_count(), weekly.program.column_count(), relaxed.answer.solution.cost,
      relaxed.status == SeasonStatus::found ? "certified" : "not solved",
      relaxed.certificate.relative_gap, parts_seconds, relaxed_seconds, plan_seconds);
  fmt::print("  plan {:.2f}, bound {:.2f}, {} order lines\n", plan.cost.in_units(),
             plan.lower_bound.in_units(), plan.orders.size());
  if (folder.empty()) return;
  std::ofstream(folder + "/season-" + std::to_string(seed) + ".mps") << to_free_mps(weekly.program);
}

}  // namespace
}  // namespace haymow

int main(int count, char** given) {
  const std::vector<std::string> words(given + 1, given + count);
  haymow::bench::YardSize size;
  if (words.size() >= 3) size = {std::stoul(words[0]), std::stoul(words[1]), std::stoul(words[2])};
  for (const unsigned seed : {1U, 2U, 3U}) {
    haymow::time_yard(seed, size, words.size() > 3 ? words[3] : "");
  }
}
