// How long one ration takes, against Clp on the same program in the same run.
// First checks that both find the same cost. Usage:
//   solver_bench [--seed=N] [--json=FILE] [Google Benchmark's own options]
// --json writes the program for highs_reference.py and ends.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "solver/certify.h"
#include "solver/sensitivity.h"
#include "solver/solve.h"
#include "tests/bench/ration_program.h"

#ifdef HAYMOW_HAS_CLP
#include <coin/Clp_C_Interface.h>
#endif

namespace haymow::bench {
namespace {

// Two optima this near, relative, are the same: the bar of the comparison.
constexpr double agreement = 1e-6;

#ifdef HAYMOW_HAS_CLP
constexpr const char* rival = "Clp, cold, dual simplex, C interface";

/// The program in the form Clp loads: by columns, counted from 0.
struct ClpForm {
  explicit ClpForm(const LinearProgram& program) {
    std::vector<std::vector<std::pair<int, double>>> by_column(program.columns().size());
    for (int i = 0; i < program.row_count(); ++i) {
      const Row& row = program.rows()[static_cast<std::size_t>(i)];
      for (const Term& term : row.terms) {
        by_column[static_cast<std::size_t>(term.column)].emplace_back(i, term.coefficient);
      }
      row_lower.push_back(row.lower);
      row_upper.push_back(row.upper);
    }
    starts.push_back(0);
    for (std::size_t j = 0; j < by_column.size(); ++j) {
      for (const auto& [row, value] : by_column[j]) {
        rows.push_back(row);
        values.push_back(value);
      }
      starts.push_back(static_cast<CoinBigIndex>(rows.size()));
      lower.push_back(program.columns()[j].lower);
      upper.push_back(program.columns()[j].upper);
      cost.push_back(program.columns()[j].cost);
    }
  }

  std::vector<CoinBigIndex> starts;
  std::vector<int> rows;
  std::vector<double> values;
  std::vector<double> lower;
  std::vector<double> upper;
  std::vector<double> cost;
  std::vector<double> row_lower;
  std::vector<double> row_upper;
};

/// Builds and solves from nothing. The form is made outside of the time taken,
/// which favours Clp.
double clp_cost(const ClpForm& form) {
  Clp_Simplex* model = Clp_newModel();
  Clp_setLogLevel(model, 0);
  Clp_loadProblem(model, static_cast<int>(form.cost.size()),
                  static_cast<int>(form.row_lower.size()), form.starts.data(), form.rows.data(),
                  form.values.data(), form.lower.data(), form.upper.data(), form.cost.data(),
                  form.row_lower.data(), form.row_upper.data());
  Clp_dual(model, 0);
  const double cost = Clp_status(model) == 0 ? Clp_objectiveValue(model) : std::nan("");
  Clp_deleteModel(model);
  return cost;
}
#endif

template <typename Call>
double microseconds_of(Call call, int repeats) {
  const auto start = std::chrono::steady_clock::now();
  for (int repeat = 0; repeat < repeats; ++repeat) {
    benchmark::DoNotOptimize(call());
  }
  const std::chrono::duration<double, std::micro> spent = std::chrono::steady_clock::now() - start;
  return spent.count() / repeats;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

void write_json(const LinearProgram& program, std::uint32_t seed, const std::string& path) {
  // JSON has no infinity: null stands for a bound that is not there.
  const auto bound = [](double value) {
    return std::isfinite(value) ? nlohmann::json(value) : nlohmann::json(nullptr);
  };
  nlohmann::json json;
  json["seed"] = seed;
  json["cost"] = solve(program).cost;
  for (const Column& column : program.columns()) {
    json["columns"].push_back(
        {{"cost", column.cost}, {"lower", bound(column.lower)}, {"upper", bound(column.upper)}});
  }
  for (const Row& row : program.rows()) {
    nlohmann::json terms = nlohmann::json::array();
    for (const Term& term : row.terms) {
      terms.push_back({term.column, term.coefficient});
    }
    json["rows"].push_back(
        {{"lower", bound(row.lower)}, {"upper", bound(row.upper)}, {"terms", terms}});
  }
  json["haymow_microseconds"] = microseconds_of([&] { return solve(program).cost; }, 2000);
  std::ofstream(path) << json.dump() << '\n';
}

/// Checks that every answer certifies and that the rival agrees; false if not.
bool agree(std::uint32_t seed) {
  bool all = true;
  for (std::uint32_t offset = 0; offset < 20; ++offset) {
    const LinearProgram program = ration_program(seed + offset);
    const Solution solution = solve(program);
    const bool holds = certify(program, solution).holds();
    bool same = true;
#ifdef HAYMOW_HAS_CLP
    same = std::abs(clp_cost(ClpForm(program)) - solution.cost) <=
           agreement * std::max(1.0, std::abs(solution.cost));
#endif
    if (!holds || !same) {
      std::printf("seed %u: certificate %s, agreement %s\n", seed + offset,
                  holds ? "holds" : "DOES NOT HOLD", same ? "yes" : "NO");
      all = false;
    }
  }
  return all;
}

void add_benchmarks(const LinearProgram& program) {
  benchmark::RegisterBenchmark("haymow, cold: build and solve", [&](benchmark::State& state) {
    for (auto _ : state) {
      benchmark::DoNotOptimize(solve(program).cost);
    }
  });
#ifdef HAYMOW_HAS_CLP
  benchmark::RegisterBenchmark(rival, [&](benchmark::State& state) {
    const ClpForm form(program);
    for (auto _ : state) {
      benchmark::DoNotOptimize(clp_cost(form));
    }
  });
#endif
  benchmark::RegisterBenchmark("haymow, warm: first row moved 2 %", [&](benchmark::State& state) {
    WarmSolver solver(program);
    const Row& row = program.rows()[0];
    bool is_moved = false;
    for (auto _ : state) {
      is_moved = !is_moved;
      solver.set_row_bounds(0, row.lower * (is_moved ? 1.02 : 1.0), row.upper);
      benchmark::DoNotOptimize(solver.solve().cost);
    }
  });
  benchmark::RegisterBenchmark("haymow, certificate", [&](benchmark::State& state) {
    const Solution solution = solve(program);
    for (auto _ : state) {
      benchmark::DoNotOptimize(certify(program, solution).relative_gap);
    }
  });
  benchmark::RegisterBenchmark("haymow, prices of all active bounds", [&](benchmark::State& state) {
    const Solution solution = solve(program);
    const std::vector<Bound> active = active_bounds(program, solution);
    for (auto _ : state) {
      benchmark::DoNotOptimize(bound_prices(program, solution, active).size());
    }
    state.counters["bounds"] = static_cast<double>(active.size());
  });
}

/// The one number of the comparison: batches of both in turn, so that a busy
/// machine slows both.
void print_ratio(std::uint32_t seed) {
#ifdef HAYMOW_HAS_CLP
  constexpr int batches = 15;
  constexpr int repeats = 200;
  std::vector<double> ours;
  std::vector<double> theirs;
  std::vector<double> ratios;
  std::vector<double> ratios_with_form;
  for (int batch = 0; batch < batches; ++batch) {
    const LinearProgram program = ration_program(seed + static_cast<std::uint32_t>(batch));
    const ClpForm form(program);
    ours.push_back(microseconds_of([&] { return solve(program).cost; }, repeats));
    theirs.push_back(microseconds_of([&] { return clp_cost(form); }, repeats));
    ratios.push_back(ours.back() / theirs.back());
    const double with_form = microseconds_of([&] { return clp_cost(ClpForm(program)); }, repeats);
    ratios_with_form.push_back(ours.back() / with_form);
  }
  std::printf(
      "cold, median of %d programs: haymow %.1f us, Clp %.1f us, ratio %.2f\n"
      "(%.2f when Clp too starts from the program as a value, not from its own arrays)\n",
      batches, median(ours), median(theirs), median(ratios), median(ratios_with_form));
#else
  std::printf("seed %u: Clp was not found at build time, nothing to compare with\n", seed);
#endif
}

std::optional<std::string> option(int argc, char** argv, const std::string& name) {
  for (int k = 1; k < argc; ++k) {
    const std::string argument = argv[k];
    if (argument.rfind(name + "=", 0) == 0) {
      return argument.substr(name.size() + 1);
    }
  }
  return std::nullopt;
}

int run(int argc, char** argv) {
  const auto seed =
      static_cast<std::uint32_t>(std::stoul(option(argc, argv, "--seed").value_or("1")));
  const LinearProgram program = ration_program(seed);
  std::size_t coefficients = 0;
  for (const Row& row : program.rows()) {
    coefficients += row.terms.size();
  }
  std::printf("seed %u: %d feeds, %d rows, %zu coefficients, cost %.9f\n", seed,
              program.column_count(), program.row_count(), coefficients, solve(program).cost);
  if (const auto path = option(argc, argv, "--json")) {
    write_json(program, seed, *path);
    return 0;
  }
  if (!agree(seed)) {
    return 1;
  }
  std::printf("20 programs agree within %g and certify\n", agreement);
  benchmark::Initialize(&argc, argv);
  add_benchmarks(program);
  benchmark::RunSpecifiedBenchmarks();
  print_ratio(seed);
  return 0;
}

}  // namespace
}  // namespace haymow::bench

int main(int argc, char** argv) {
  try {
    return haymow::bench::run(argc, argv);
  } catch (const std::exception& error) {
    std::cerr << "solver_bench: " << error.what() << '\n';
    return 2;
  }
}
