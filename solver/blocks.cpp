#include "solver/blocks.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

#include "solver/block_bound.h"
#include "solver/block_master.h"
#include "solver/block_prices.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// How much of the prices of the best bound so far is in the next prices, the rest being
// the master's: without any, prices swing from end to end (Wentges 1997, from memory).
// On seeds 101 to 103 of the season benchmark, which reports on others, 0, 0.3 and 0.5
// hardly differ.
constexpr double smoothing = 0.3;

// While the blocks' points are few, the master knows no price for what none of them
// takes, any price at all is as good, and the blocks, offered it for nothing, all take
// it. So at first the blocks are reckoned to take so much of the range of every column
// besides: 5 rounds instead of 89 to 545 for five horses over 26 weeks (measured).
constexpr double lean = 1e-6;

// A row missed by so little, relative, is kept; the certificate asks for 1e-6.
constexpr double no_miss = 1e-9;

// A point must earn so much to enter, relative to the cost: less is the tolerance that
// the master is solved with, and the same point would enter again and again.
constexpr double least_gain = tight_tolerance;

// A row may be missed at so many times the largest cost or price. If that was too little
// the misses are driven out by themselves.
constexpr double miss_factor = 10.0;

// Past the limit, to make the master's mix one of points of the program.
constexpr double grace_seconds = 1.0;

double largest(std::span<const double> values) {
  double most = 0.0;
  for (const double value : values) most = std::max(most, std::abs(value));
  return most;
}

double miss_cost(const LinearProgram& program, std::span<const double> prices) {
  double most = largest(prices);
  for (const Column& column : program.columns()) most = std::max(most, std::abs(column.cost));
  return miss_factor * (most > 0.0 ? most : 1.0);
}

// Of a solve that ended before it began: prices of nothing give a bound that holds.
void set_prices(const LinearProgram& program, Solution& solution) {
  if (solution.row_duals.empty()) solution.row_duals.assign(program.rows().size(), 0.0);
}

class Decomposition {
 public:
  Decomposition(const LinearProgram& program, const BlockParts& parts, const BlockOptions& options)
      : program_(program),
        parts_(parts),
        options_(options),
        bound_(program, parts),
        prices_(program, parts, options.threads, options.patience),
        master_(program, parts, miss_cost(program, options.prices)) {}

  BlockAnswer run() {
    start();
    while (!over_) {
      if (is_out_of_time()) {
        stop();
        break;
      }
      MasterAnswer at = master_.solve(solver_options(), options_.patience,
                                      is_near() ? LastAnswer::would_do : LastAnswer::too_far_off);
      if (at.status == Status::limit_reached) continue;
      if (at.status == Status::gave_up && is_near()) {
        settle();
        break;
      }
      at_ = std::move(at);
      is_current_ = true;
      if (at_.status != Status::optimal) {
        as_one();
        break;
      }
      is_answered_ = true;
      if (costs_ == BlockCosts::given) {
        round();
      } else {
        drive_out_misses();
      }
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] double left_seconds() const {
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start_;
    return std::max(0.0, options_.time_limit_seconds - spent.count());
  }
  [[nodiscard]] bool is_out_of_time() const {
    return left_seconds() <= 0.0 || (options_.stop && options_.stop());
  }
  [[nodiscard]] SolveOptions solver_options() const {
    SolveOptions options;
    options.time_limit_seconds = left_seconds();
    options.stop = options_.stop;
    options.iteration_limit = std::numeric_limits<int>::max();  // the time alone ends it
    return options;
  }

  // Every block gets a first point, so that its share has something to be of.
  void start() {
    master_.lean(lean);
    std::vector<double> duals(parts_.master_rows.size(), 0.0);
    for (std::size_t i = 0; i < duals.size() && !options_.prices.empty(); ++i) {
      duals[i] = options_.prices[static_cast<std::size_t>(parts_.master_rows[i])];
    }
    if (!price(std::move(duals))) {
      if (!over_) stop();
      return;
    }
    for (std::size_t b = 0; b < prices_.size(); ++b) {
      for (const std::vector<double>& start : options_.starts) {
        master_.add(b, prices_.of(b).point_of(start));
      }
      master_.add(b, prices_.of(b).point());
    }
    if (starts_at_the_best()) lean_no_more();
  }

  // Then the prices are known, and nothing is to be learnt from leaning.
  [[nodiscard]] bool starts_at_the_best() const {
    for (const std::vector<double>& start : options_.starts) {
      double cost = 0.0;
      for (std::size_t j = 0; j < start.size(); ++j) cost += program_.columns()[j].cost * start[j];
      const double near = std::max(options_.gap, certificate_tolerance);
      if (cost - out_.lower_bound <= near * std::max(1.0, std::abs(cost))) return true;
    }
    return false;
  }

  /// False when not all blocks have a best point: for want of time, or all is over.
  bool price(std::vector<double> duals) {
    ++out_.rounds;
    prices_.price(duals, costs_, solver_options());
    const Status status = prices_.status();
    if (status == Status::limit_reached) return false;
    if (status == Status::infeasible) {
      out_.solution = {};
      out_.solution.status = Status::infeasible;
      over_ = true;
      return false;
    }
    if (status != Status::optimal) {
      as_one();
      return false;
    }
    const double bound = bound_.at(duals, costs_) + prices_.bound();
    if (costs_ == BlockCosts::given && (bound > out_.lower_bound || best_duals_.empty())) {
      out_.lower_bound = bound;
      out_.solution.row_duals = prices_.all_duals(duals);
      best_duals_ = duals;
    }
    last_duals_ = std::move(duals);
    return true;
  }

  [[nodiscard]] double gap() const {
    return (at_.cost - out_.lower_bound) / std::max(1.0, std::abs(at_.cost));
  }

  // What the certificate passes, though more was wanted. A master that goes round in circles
  // for the rest of it has taken 20 s a round (300 horses, measured).
  [[nodiscard]] bool is_near() const {
    return is_current_ && !is_leaning_ && costs_ == BlockCosts::given && at_.missed <= no_miss &&
           gap() <= certificate_tolerance;
  }

  void round() {
    if (!is_leaning_ && at_.missed <= no_miss && !is_box_of_cost_) {
      // Some shared column may be bounded by nothing but the cost.
      bound_.narrow(at_.cost + std::abs(at_.cost) + 1.0);
      is_box_of_cost_ = true;
    }
    if (gap() <= options_.gap) {
      settle();
      return;
    }
    if (is_idle()) {
      as_one();
      return;
    }
    const bool is_exact = is_exact_;
    std::vector<double> duals = at_.row_duals;
    for (std::size_t i = 0; i < duals.size() && !is_exact; ++i) {
      duals[i] = smoothing * best_duals_[i] + (1.0 - smoothing) * duals[i];
    }
    if (!price(std::move(duals))) return;
    if (gap() <= options_.gap) {
      settle();
      return;
    }
    const bool found = add_points();
    // Smoothed prices that find nothing have raised the bound; the master's own find
    // something unless all is done but for rounding.
    if (!found && (is_exact || is_leaning_)) {
      settle();
      return;
    }
    is_exact_ = !found;
  }

  bool is_idle() {
    const bool better = at_.cost < last_cost_ || out_.lower_bound > last_bound_;
    idle_rounds_ = better ? 0 : idle_rounds_ + 1;
    last_cost_ = at_.cost;
    last_bound_ = out_.lower_bound;
    return idle_rounds_ > options_.idle_rounds;
  }

  bool add_points() {
    bool found = false;
    const double least = least_gain * std::max(1.0, std::abs(at_.cost));
    for (std::size_t b = 0; b < prices_.size(); ++b) {
      const BlockPoint& point = prices_.of(b).point();
      if (BlockMaster::reduced_cost(b, point, at_, costs_) >= -least) continue;
      master_.add(b, point);
      found = true;
    }
    return found;
  }

  void lean_no_more() {
    master_.lean(0.0);
    is_leaning_ = false;
    is_current_ = false;
    is_exact_ = false;
  }

  // No prices find a better point.
  void settle() {
    if (is_leaning_) {
      lean_no_more();
      return;
    }
    if (at_.missed > no_miss) {
      if (are_misses_forbidden_) {
        as_one();
        return;
      }
      costs_ = BlockCosts::none;
      master_.cost_misses_alone();
      return;
    }
    if (gap() > std::max(options_.gap, certificate_tolerance)) {
      as_one();
      return;
    }
    if (!take_point()) {
      as_one();
      return;
    }
    out_.solution.status = Status::optimal;
    over_ = true;
  }

  // The first phase: at no cost but that of misses.
  void drive_out_misses() {
    if (!is_leaning_ && at_.missed <= no_miss) {
      costs_ = BlockCosts::given;
      master_.forbid_misses();
      are_misses_forbidden_ = true;
      is_exact_ = true;
      return;
    }
    if (is_idle()) {
      as_one();
      return;
    }
    if (!price(at_.row_duals) || add_points()) return;
    const std::vector<double> duals = prices_.all_duals(last_duals_);
    if (infeasibility_proof(program_, duals) <= certificate_tolerance) {
      as_one();
      return;
    }
    out_.solution = {};
    out_.solution.status = Status::infeasible;
    over_ = true;
  }

  /// False, and nothing taken, where the master's mix is no point of the program: its
  /// arithmetic has failed.
  bool take_point() {
    const std::vector<double> columns = master_.columns();
    if (largest_violation(program_, columns) > certificate_tolerance) return false;
    Solution& solution = out_.solution;
    solution.columns = columns;
    solution.cost = 0.0;
    for (std::size_t j = 0; j < solution.columns.size(); ++j) {
      solution.cost += program_.columns()[j].cost * solution.columns[j];
    }
    for (const Row& row : program_.rows()) {
      double activity = 0.0;
      for (const Term& term : row.terms) {
        activity += term.coefficient * solution.columns[static_cast<std::size_t>(term.column)];
      }
      solution.rows.push_back(activity);
    }
    for (const Column& column : program_.columns()) solution.reduced_costs.push_back(column.cost);
    for (std::size_t i = 0; i < program_.rows().size(); ++i) {
      for (const Term& term : program_.rows()[i].terms) {
        solution.reduced_costs[static_cast<std::size_t>(term.column)] -=
            solution.row_duals[i] * term.coefficient;
      }
    }
    return true;
  }

  // Out of time: the best bound, and the master's point if it is one of the program.
  void stop() {
    if (is_answered_ && (is_leaning_ || !is_current_)) {
      if (is_leaning_) lean_no_more();
      SolveOptions options = solver_options();
      options.time_limit_seconds = grace_seconds;
      at_ = master_.solve(options, options_.patience);
    }
    const bool has_point = is_answered_ && at_.status == Status::optimal;
    if (has_point && costs_ == BlockCosts::given && at_.missed <= no_miss) (void)take_point();
    if (out_.solution.row_duals.empty()) {
      out_.solution.row_duals.assign(program_.rows().size(), 0.0);
      out_.lower_bound = bound_.of_costs();
    }
    out_.solution.status = Status::limit_reached;
    over_ = true;
  }

  // What the decomposition is not for, the simplex method may do.
  void as_one() {
    SolveOptions options = solver_options();
    options.primal_first = true;
    const double bound = out_.lower_bound;
    out_ = {};
    out_.solution = solve(program_, options);
    set_prices(program_, out_.solution);
    out_.lower_bound = std::max(bound, certify(program_, out_.solution).lower_bound);
    over_ = true;
  }

  const LinearProgram& program_;
  const BlockParts& parts_;
  const BlockOptions& options_;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
  BlockBound bound_;
  BlockPrices prices_;
  BlockMaster master_;
  BlockCosts costs_ = BlockCosts::given;
  MasterAnswer at_;
  std::vector<double> best_duals_;  // of the master's rows, at the best bound
  std::vector<double> last_duals_;
  bool is_leaning_ = true;
  bool is_exact_ = false;  // the next prices are the master's own
  bool is_answered_ = false;
  bool is_current_ = false;  // at_ is of the master's program as it stands
  bool is_box_of_cost_ = false;
  bool are_misses_forbidden_ = false;
  double last_cost_ = unlimited;
  double last_bound_ = -unlimited;
  int idle_rounds_ = 0;
  bool over_ = false;
  BlockAnswer out_;
};

BlockAnswer solved_as_one(const LinearProgram& program, const BlockOptions& options) {
  BlockAnswer out;
  SolveOptions whole;
  whole.time_limit_seconds = options.time_limit_seconds;
  whole.stop = options.stop;
  out.solution = solve(program, whole);
  if (out.solution.status == Status::infeasible) return out;
  set_prices(program, out.solution);
  out.lower_bound = certify(program, out.solution).lower_bound;
  return out;
}

}  // namespace

BlockAnswer solve_blocks(const LinearProgram& program, std::span<const int> block_of_column,
                         const BlockOptions& options) {
  if (program.has_whole_columns()) {
    throw std::invalid_argument("whole columns cannot be decomposed");
  }
  const BlockParts parts = divide_blocks(program, block_of_column);
  if (parts.blocks.empty() || !are_bounded(parts)) return solved_as_one(program, options);
  return Decomposition(program, parts, options).run();
}

}  // namespace haymow
