#include "model/amount_ranges.h"

#include <algorithm>
#include <stdexcept>

#include "model/practical.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Nobody weighs less than a gram: a feed needed by less is not called
// indispensable, which also keeps the solver's tolerance out of the word.
// Common practice, no source.
constexpr KgAsFed least_needed{0.001};

/// Least amounts of whatever columns are asked for, each from the last.
class RangeFinder {
 public:
  RangeFinder(const LinearProgram& within, const Basis* start) : solver_(within, {.start = start}) {
    for (int j = 0; j < within.column_count(); ++j) solver_.set_cost(j, 0.0);
  }

  // The value of `column` where `direction` times it is least.
  double extreme(int column, double direction, RangesWithin& proof) {
    solver_.set_cost(column, direction);
    Solution solution = solver_.solve();
    Certificate certificate = certify(solver_.program(), solution);
    // A basis that many solves have been handed on may have lost some of its figures.
    if (!is_proof(certificate, solution)) {
      solution = solve(solver_.program());
      certificate = certify(solver_.program(), solution);
    }
    if (solution.status != Status::optimal) {
      throw std::runtime_error("the range of a feed could not be found");
    }
    proof.largest_violation = std::max(proof.largest_violation, certificate.largest_violation);
    proof.largest_gap_kg = std::max(proof.largest_gap_kg, gap_kg(certificate, solution));
    solver_.set_cost(column, 0.0);
    return std::max(solution.columns[static_cast<std::size_t>(column)], 0.0);
  }

 private:
  static double gap_kg(const Certificate& certificate, const Solution& solution) {
    return solution.cost - certificate.lower_bound;
  }
  static bool is_proof(const Certificate& certificate, const Solution& solution) {
    return solution.status == Status::optimal &&
           certificate.largest_violation <= certificate_tolerance &&
           gap_kg(certificate, solution) <= certificate_tolerance;
  }

  WarmSolver solver_;
};

}  // namespace

bool RangesWithin::holds() const {
  return largest_violation <= certificate_tolerance && largest_gap_kg <= certificate_tolerance;
}

LinearProgram within_cost(const LinearProgram& program, double least_cost, double margin) {
  LinearProgram within = program;
  Row row{"cost within", -unlimited, least_cost * (1.0 + margin), {}};
  for (int j = 0; j < program.column_count(); ++j) {
    const double cost = program.columns()[static_cast<std::size_t>(j)].cost;
    if (cost != 0.0) row.terms.push_back({j, cost});
  }
  within.add_row(std::move(row));
  return within;
}

std::vector<RangesWithin> amount_ranges(const RationQuestion& question,
                                        const Formulation& formulation, const Solution& solution,
                                        std::span<const double> margins) {
  if (solution.status != Status::optimal) {
    throw std::invalid_argument("ranges are asked of an answer that is not optimal");
  }
  std::vector<RangesWithin> all;
  for (const double margin : margins) {
    if (!(margin >= 0.0)) throw std::invalid_argument("a margin is negative");
    const LinearProgram within = within_cost(formulation.program, solution.cost, margin);
    // The optimum's basis with the new row slack is feasible: start there.
    std::optional<Basis> start = solution.basis;
    if (start) start->rows.push_back(BasisStatus::basic);
    RangeFinder finder(within, start ? &*start : nullptr);
    RangesWithin found{margin, {}, 0.0, 0.0};
    // All the least first: neighbouring programs then differ by one cost.
    for (std::size_t j = 0; j < question.offers.size(); ++j) {
      const int column = static_cast<int>(j);
      found.ranges.push_back({KgAsFed{finder.extreme(column, 1.0, found)}, KgAsFed{}});
    }
    for (std::size_t j = 0; j < question.offers.size(); ++j) {
      found.ranges[j].most = KgAsFed{finder.extreme(static_cast<int>(j), -1.0, found)};
    }
    all.push_back(std::move(found));
  }
  return all;
}

Standing standing_of(const AmountRange& range, const Offer& offer) {
  if (range.least >= least_needed) return Standing::indispensable;
  return offer.put_out(range.most) < weighing_of(offer.feed.group).least
             ? Standing::never
             : Standing::interchangeable;
}

}  // namespace haymow
