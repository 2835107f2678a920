// One yard's winter, drawn from a seed: the least cost of its program with its
// certificate, timed, in one line of JSON; or the program itself, for other solvers.
// season_rivals.py sets both side by side.
#include <fmt/core.h>
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <ctime>
#include <exception>
#include <fstream>
#include <string>

#include "model/season_plan.h"
#include "model/season_relaxation.h"
#include "solver/write_program.h"
#include "tests/bench/season_yard.h"

namespace haymow {
namespace {

struct Asked {
  bench::YardSize size;
  unsigned seed = 1;
  std::string write;  // a path; empty: solve
  bool plan = false;
  SeasonOptions options{.time_limit_seconds = 120.0, .threads = 1};
};

/// Seconds since it was made, by the clock and by the processor (of all threads).
class Stopwatch {
 public:
  [[nodiscard]] double clock() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - clock_).count();
  }
  [[nodiscard]] double cpu() const {
    return static_cast<double>(std::clock() - cpu_) / CLOCKS_PER_SEC;
  }

 private:
  std::chrono::steady_clock::time_point clock_ = std::chrono::steady_clock::now();
  std::clock_t cpu_ = std::clock();
};

const char* words_of(SeasonStatus status) {
  switch (status) {
    case SeasonStatus::found:
      return "certified";
    case SeasonStatus::none:
      return "none";
    case SeasonStatus::limit_reached:
      return "limit reached";
    case SeasonStatus::failed:
      break;
  }
  return "failed";
}

constexpr int exact = 17;
constexpr int rough = 3;

// JSON knows no infinity.
std::string in_json(double value, int digits) {
  return std::isfinite(value) ? fmt::format("{:.{}g}", value, digits) : "null";
}

// The time begins with the question in memory and ends with the certificate checked.
void time_relaxation(const SeasonQuestion& yard, const SeasonOptions& options) {
  const Stopwatch watch;
  const SeasonParts parts = season_parts(yard);
  const double parts_cpu = watch.cpu();
  const SeasonRelaxation relaxed = relax_season(yard, parts, SeasonClock(options));
  fmt::print(R"({{"status": "{}", "cost": {}, "lower_bound": {}, "relative_gap": {}, )"
             R"("largest_violation": {}, "herds": {}, "parts_cpu_seconds": {:.4f}, )"
             R"("cpu_seconds": {:.4f}, "clock_seconds": {:.4f}}})"
             "\n",
             words_of(relaxed.status), in_json(relaxed.answer.solution.cost, exact),
             in_json(relaxed.certificate.lower_bound, exact),
             in_json(relaxed.certificate.relative_gap, rough),
             in_json(relaxed.certificate.largest_violation, rough), parts.herds.size(), parts_cpu,
             watch.cpu(), watch.clock());
}

void time_plan(const SeasonQuestion& yard, const SeasonOptions& options) {
  const Stopwatch watch;
  const SeasonPlan plan = plan_season(yard, options);
  fmt::print(R"({{"status": "{}", "cost": {}, "lower_bound": {}, "order_lines": {}, )"
             R"("cpu_seconds": {:.4f}, "clock_seconds": {:.4f}}})"
             "\n",
             words_of(plan.status), in_json(plan.cost.in_units(), exact),
             in_json(plan.lower_bound.in_units(), exact), plan.orders.size(), watch.cpu(),
             watch.clock());
}

void write(const SeasonQuestion& yard, const std::string& path) {
  const SeasonParts parts = season_parts(yard);
  const LinearProgram program = season_program(yard, parts, weekly_spells(yard, parts)).program;
  std::size_t coefficients = 0;
  for (const Row& row : program.rows()) coefficients += row.terms.size();
  std::ofstream(path) << to_free_mps(program);
  fmt::print(R"({{"rows": {}, "columns": {}, "coefficients": {}}})"
             "\n",
             program.row_count(), program.column_count(), coefficients);
}

int run(int count, char** given) {
  Asked asked;
  CLI::App app("the winter of a yard with little hay, drawn from a seed");
  app.add_option("--horses", asked.size.horses);
  app.add_option("--weeks", asked.size.weeks);
  app.add_option("--feeds", asked.size.feeds);
  app.add_option("--classes", asked.size.classes, "of horses alike; 0: none is like another");
  app.add_option("--seed", asked.seed);
  app.add_option("--threads", asked.options.threads);
  app.add_option("--limit", asked.options.time_limit_seconds, "seconds by the clock");
  app.add_option("--write", asked.write, "the weekly program in free MPS, and do not solve");
  app.add_flag("--plan", asked.plan, "time the plan in whole packs");
  CLI11_PARSE(app, count, given);
  asked.size.hay_is_short = true;
  const SeasonQuestion yard = bench::season_yard(asked.seed, asked.size);
  if (!asked.write.empty()) {
    write(yard, asked.write);
  } else if (asked.plan) {
    time_plan(yard, asked.options);
  } else {
    time_relaxation(yard, asked.options);
  }
  return 0;
}

}  // namespace
}  // namespace haymow

int main(int count, char** given) {
  try {
    return haymow::run(count, given);
  } catch (const std::exception& error) {
    fmt::print(stderr, "season_bench: {}\n", error.what());
    return 2;
  }
}
