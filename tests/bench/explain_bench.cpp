// How long it takes to say what would change a ration: all price curves, the least and
// most of every feed against the same solved cold, all prices at the margin, a conflict with its
// mends, a promise; and one price changed and solved again against Clp's warm start in the same
// run. Usage:
//   explain_bench [--seed=N]
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <exception>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include "feeds/feed_table.h"
#include "model/amount_ranges.h"
#include "model/confidence.h"
#include "model/explanation.h"
#include "model/no_ration.h"
#include "model/price_curve.h"
#include "solver/solve.h"
#include "tests/bench/ration_program.h"

#ifdef HAYMOW_HAS_CLP
#include <coin/Clp_C_Interface.h>
#endif

namespace haymow::bench {
namespace {

constexpr int programs = 15;

double milliseconds_of(const std::function<void()>& call) {
  const auto start = std::chrono::steady_clock::now();
  call();
  const std::chrono::duration<double, std::milli> spent = std::chrono::steady_clock::now() - start;
  return spent.count();
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

void print(const char* what, const std::vector<double>& milliseconds) {
  std::printf("%-48s %8.2f ms (longest %.2f)\n", what, median(milliseconds),
              *std::max_element(milliseconds.begin(), milliseconds.end()));
}

double all_price_curves(const RationQuestion& question, const Formulation& formulation) {
  return milliseconds_of([&] {
    std::vector<PriceSpan> spans;
    for (std::size_t j = 0; j < question.offers.size(); ++j) {
      spans.push_back({j, Money{0.0}, 3.0 * question.offers[j].price_per_kg});
    }
    for (const auto& curve : price_curves(question, formulation, spans)) {
      if (curve.empty()) throw std::runtime_error("no ration on a price curve");
    }
  });
}

constexpr double margin = 0.05;

// The least and the most of every feed within a margin, as `haymow offers` finds them.
double all_amounts_warm(const RationQuestion& question, const Formulation& formulation,
                        const Solution& solution, std::vector<AmountRange>& found) {
  return milliseconds_of([&] {
    const double margins[] = {margin};
    found = amount_ranges(question, formulation, solution, margins).front().ranges;
  });
}

// Each end a program of its own, solved from nothing. The ends must be the same.
double all_amounts_cold(const Formulation& formulation, const Solution& solution,
                        const std::vector<AmountRange>& found) {
  LinearProgram within = within_cost(formulation.program, solution.cost, margin);
  for (int j = 0; j < within.column_count(); ++j) within.set_cost(j, 0.0);
  std::vector<AmountRange> cold(found.size());
  const double spent = milliseconds_of([&] {
    for (std::size_t j = 0; j < cold.size(); ++j) {
      const int column = static_cast<int>(j);
      within.set_cost(column, 1.0);
      cold[j].least = KgAsFed{solve(within).columns[j]};
      within.set_cost(column, -1.0);
      cold[j].most = KgAsFed{solve(within).columns[j]};
      within.set_cost(column, 0.0);
    }
  });
  for (std::size_t j = 0; j < cold.size(); ++j) {
    if (std::abs((cold[j].least - found[j].least).in_kg()) > 1e-5 ||
        std::abs((cold[j].most - found[j].most).in_kg()) > 1e-5) {
      throw std::runtime_error("a range solved cold is another");
    }
  }
  return spent;
}

// The same horse with an energy ceiling it cannot keep: half of its need.
RationQuestion without_ration(RationQuestion question) {
  for (Requirement& need : question.needs.rows) {
    if (need.nutrient == Nutrient::energy) need.floor = need.ceiling = 0.5 * *need.floor;
  }
  return question;
}

#ifdef HAYMOW_HAS_CLP
// A model that is kept, as WarmSolver keeps its own.
class WarmClp {
 public:
  explicit WarmClp(const LinearProgram& program) : model_(Clp_newModel()) {
    Clp_setLogLevel(model_, 0);
    Clp_resize(model_, 0, program.column_count());
    for (int j = 0; j < program.column_count(); ++j) {
      const Column& column = program.columns()[static_cast<std::size_t>(j)];
      Clp_columnLower(model_)[j] = column.lower;
      Clp_columnUpper(model_)[j] = column.upper;
      Clp_objective(model_)[j] = column.cost;
    }
    std::vector<double> lower;
    std::vector<double> upper;
    std::vector<CoinBigIndex> starts{0};
    std::vector<int> columns;
    std::vector<double> values;
    for (const Row& row : program.rows()) {
      lower.push_back(row.lower);
      upper.push_back(row.upper);
      for (const Term& t : row.terms) {
        columns.push_back(t.column);
        values.push_back(t.coefficient);
      }
      starts.push_back(static_cast<CoinBigIndex>(columns.size()));
    }
    Clp_addRows(model_, program.row_count(), lower.data(), upper.data(), starts.data(),
                columns.data(), values.data());
    Clp_dual(model_, 0);
  }
  ~WarmClp() { Clp_deleteModel(model_); }
  WarmClp(const WarmClp&) = delete;
  WarmClp& operator=(const WarmClp&) = delete;

  double cost_with(int column, double cost) {
    Clp_objective(model_)[column] = cost;
    Clp_primal(model_, 1);
    return Clp_objectiveValue(model_);
  }

 private:
  Clp_Simplex* model_;
};

// Every price moved to `share` of itself and back, one after another, by both. By a
// tenth most leave the ration as it was; to a third many change it.
void compare_one_price(std::uint32_t seed, double share) {
  std::vector<double> ours;
  std::vector<double> theirs;
  std::vector<double> ratios;
  double largest = 0.0;
  for (int k = 0; k < programs; ++k) {
    const LinearProgram program = ration_program(seed + static_cast<std::uint32_t>(k));
    WarmSolver solver(program);
    (void)solver.solve();
    WarmClp clp(program);
    std::vector<double> costs;
    const int count = program.column_count();
    const auto moved = [&](int j, int turn) {
      return program.columns()[static_cast<std::size_t>(j)].cost * (turn == 0 ? share : 1.0);
    };
    ours.push_back(1000.0 / (2 * count) * milliseconds_of([&] {
                     for (int j = 0; j < count; ++j) {
                       for (int turn = 0; turn < 2; ++turn) {
                         solver.set_cost(j, moved(j, turn));
                         costs.push_back(solver.solve().cost);
                       }
                     }
                   }));
    std::size_t at = 0;
    theirs.push_back(1000.0 / (2 * count) * milliseconds_of([&] {
                       for (int j = 0; j < count; ++j) {
                         for (int turn = 0; turn < 2; ++turn) {
                           const double cost = clp.cost_with(j, moved(j, turn));
                           largest = std::max(largest, std::abs(cost - costs[at++]));
                         }
                       }
                     }));
    ratios.push_back(ours.back() / theirs.back());
  }
  std::printf(
      "one price to %.2g of itself, solved again: haymow %.1f us, Clp %.1f us, ratio %.2f; costs "
      "differ by "
      "%.0e at most\n",
      share, median(ours), median(theirs), median(ratios), largest);
}
#endif

void run(std::uint32_t seed) {
  std::vector<double> curves;
  std::vector<double> explained;
  std::vector<double> conflicts;
  std::vector<double> promises;
  std::vector<double> warm;
  std::vector<double> cold;
  std::vector<double> ratios;
  for (int k = 0; k < programs; ++k) {
    const RationQuestion question = ration_question(seed + static_cast<std::uint32_t>(k));
    const Formulation formulation = formulate(question);
    const Solution solution = solve(formulation.program);
    curves.push_back(all_price_curves(question, formulation));
    std::vector<AmountRange> found;
    warm.push_back(all_amounts_warm(question, formulation, solution, found));
    cold.push_back(all_amounts_cold(formulation, solution, found));
    ratios.push_back(warm.back() / cold.back());
    explained.push_back(milliseconds_of([&] { (void)explain(question, formulation, solution); }));
    promises.push_back(milliseconds_of([&] { (void)guarded_ration(question, formulation, 0.9); }));
    const RationQuestion none = without_ration(question);
    const Formulation clash = formulate(none);
    conflicts.push_back(
        milliseconds_of([&] { (void)explain_no_ration(none, clash, feed_table()); }));
  }
  std::printf("median of %d rations of %zu feeds, seed %u\n", programs, feeds_on_offer, seed);
  print("price curves of all feeds, 0 to 3 times the price", curves);
  print("least and most of all feeds, certified", warm);
  print("the same, each solved cold, not certified", cold);
  std::printf("ratio %.2f\n", median(ratios));
  print("what holds it, what feeds are worth, entry prices", explained);
  print("a promise of 90 %", promises);
  print("a conflict with its mends", conflicts);
#ifdef HAYMOW_HAS_CLP
  compare_one_price(seed, 1.1);
  compare_one_price(seed, 1.0 / 3.0);
#endif
}

}  // namespace
}  // namespace haymow::bench

int main(int argc, char** argv) {
  try {
    const std::string option = argc > 1 ? argv[1] : "--seed=1";
    if (option.rfind("--seed=", 0) != 0) {
      std::cerr << "usage: explain_bench [--seed=N]\n";
      return 2;
    }
    haymow::bench::run(static_cast<std::uint32_t>(std::stoul(option.substr(7))));
  } catch (const std::exception& error) {
    std::cerr << "explain_bench: " << error.what() << '\n';
    return 1;
  }
}
