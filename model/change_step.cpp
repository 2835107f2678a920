#include "model/change_step.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/practical.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Costs of the small program, in scale steps away from the mixture: a limit broken
// today is mended before a need is kept, a need is kept before the mixture is met.
// A row counts relative to its own size.
constexpr double cost_of_broken_limit = 1e4;
constexpr double cost_of_missed_need = 1e2;
constexpr int iterations_for_step = 20'000;
// Slack of arithmetic, far below the tolerance that amounts are judged by.
constexpr double arithmetic = 1e-7;
constexpr double whole_tolerance = 1e-9;

double scale_step_kg(const Changeover& change, std::size_t j) {
  return weighing_of(change.question.offers[j].feed.group).step.in_kg();
}

double eaten_a_step_kg(const Changeover& change, std::size_t j) {
  return scale_step_kg(change, j) * change.question.offers[j].losses().eaten_of_put_out();
}

double activity(const Row& row, const std::vector<double>& amounts) {
  double sum = 0.0;
  for (const Term& t : row.terms)
    sum += t.coefficient * amounts[static_cast<std::size_t>(t.column)];
  return sum;
}

// What a row is measured by: its terms without their signs.
double size_of(const Row& row, const std::vector<double>& amounts) {
  double sum = 0.0;
  for (const Term& t : row.terms) {
    sum += std::abs(t.coefficient * amounts[static_cast<std::size_t>(t.column)]);
  }
  const double bound = std::isfinite(row.lower) ? row.lower : row.upper;
  return std::max({sum, std::abs(bound), whole_tolerance});
}

double energy_share(const Horse& horse) {
  const bool mare = std::holds_alternative<Pregnant>(horse.stage) ||
                    std::holds_alternative<Lactating>(horse.stage);
  return mare || horse.bodyweight < delicate_below ? least_energy_share_delicate
                                                   : least_energy_share;
}

class StepProgram {
 public:
  StepProgram(const Changeover& change, double share, const std::vector<double>& previous,
              int widen)
      : change_(change), previous_(previous), widen_(widen) {
    for (std::size_t j = 0; j < change.now.size(); ++j) {
      mixture_.push_back((1.0 - share) * change.now[j] + share * change.then[j]);
    }
  }

  std::optional<std::vector<double>> solved() {
    add_feeds();
    add_limits();
    add_energy();
    add_rise();
    SolveOptions options;
    options.iteration_limit = iterations_for_step;
    options.whole_gap = 1e-4;
    const Solution solution = solve(program_, options);
    if (!solution.usable()) return std::nullopt;
    std::vector<double> amounts(mixture_.size(), 0.0);
    for (std::size_t j = 0; j < amounts.size(); ++j) {
      if (column_[j] < 0) continue;
      const auto column = static_cast<std::size_t>(column_[j]);
      const double steps = solution.columns[column];
      amounts[j] = program_.columns()[column].whole
                       ? std::round(steps) * eaten_a_step_kg(change_, j)
                       : previous_[j];
    }
    // Judged without the solver's word.
    for (std::size_t i = 0; i < change_.formulation.rows.size(); ++i) {
      if (hard(i) && !change_.formulation.rows[i].kept(amounts)) return std::nullopt;
    }
    return amounts;
  }

 private:
  // Kept by both rations and watched: no step may break it.
  [[nodiscard]] bool hard(std::size_t i) const {
    return change_.formulation.rows[i].is_welfare() && !breaks(change_, i, change_.now) &&
           !breaks(change_, i, change_.then);
  }

  struct Steps {
    double least = 0.0;
    double most = 0.0;
    bool whole = true;  // false: no whole step lies between here and the end; it stays
  };

  // From one rounding of the mixture to the other, and never back.
  [[nodiscard]] Steps steps_of(std::size_t j) const {
    const double step = eaten_a_step_kg(change_, j);
    const double mix = mixture_[j] / step;
    const double before = previous_[j] / step;
    const double end = change_.then[j] / step;
    Steps steps{std::floor(mix + whole_tolerance) - widen_,
                std::ceil(mix - whole_tolerance) + widen_};
    if (change_.then[j] >= change_.now[j]) {
      steps.least = std::max(steps.least, std::ceil(before - whole_tolerance));
      // A new ration in finer steps than these is reached only at the end.
      steps.most = std::min(steps.most, std::floor(end + whole_tolerance));
      if (steps.most < std::ceil(before - whole_tolerance)) return {before, before, false};
    } else {
      steps.most = std::min(steps.most, std::floor(before + whole_tolerance));
      // Cutting a concentrate down is safe at any speed: common practice, no source.
      const double floor = std::ceil(end - whole_tolerance);
      if (std::floor(before + whole_tolerance) < floor) return {before, before, false};
      steps.least = is_concentrate(change_, j) ? floor : std::max(steps.least, floor);
    }
    steps.least = std::clamp(steps.least, 0.0, std::max(steps.most, 0.0));
    return steps;
  }

  // A column for the whole steps of each feed, one for how far they are from the mixture.
  void add_feeds() {
    column_.assign(mixture_.size(), -1);
    for (std::size_t j = 0; j < mixture_.size(); ++j) {
      if (change_.now[j] <= 0.0 && change_.then[j] <= 0.0) continue;
      const Steps steps = steps_of(j);
      const double mix = mixture_[j] / eaten_a_step_kg(change_, j);
      column_[j] = program_.add_column({fmt::format("steps {}", j), steps.least,
                                        std::max(steps.most, steps.least), 0.0, steps.whole});
      const int away = program_.add_column({fmt::format("away {}", j), 0.0, unlimited, 1.0, false});
      program_.add_row(
          {fmt::format("above {}", j), -mix, unlimited, {{away, 1.0}, {column_[j], -1.0}}});
      program_.add_row(
          {fmt::format("below {}", j), mix, unlimited, {{away, 1.0}, {column_[j], 1.0}}});
    }
  }

  [[nodiscard]] std::vector<Term> in_steps(const Row& row) const {
    std::vector<Term> terms;
    for (const Term& t : row.terms) {
      const auto j = static_cast<std::size_t>(t.column);
      if (column_[j] < 0) continue;
      terms.push_back({column_[j], t.coefficient * eaten_a_step_kg(change_, j)});
    }
    return terms;
  }

  // Hard where both rations keep a watched limit. Today's broken limits, and needs
  // that both meet, may give way at a cost.
  void add_limits() {
    for (std::size_t i = 0; i < change_.formulation.rows.size(); ++i) {
      const RowMeaning& meaning = change_.formulation.rows[i];
      const bool broken_now = breaks(change_, i, change_.now);
      const bool watched = meaning.is_welfare();
      if (breaks(change_, i, change_.then) || (broken_now && !watched)) continue;
      const Row& row = change_.formulation.program.rows()[i];
      const double size = size_of(row, mixture_);
      Row stepped{fmt::format("limit {}", i), row.lower - arithmetic * size,
                  row.upper + arithmetic * size, in_steps(row)};
      if (!watched || broken_now) {
        const double cost = (watched ? cost_of_broken_limit : cost_of_missed_need) / size;
        const int gives =
            program_.add_column({fmt::format("gives {}", i), 0.0, unlimited, cost, false});
        stepped.terms.push_back({gives, meaning.side == Side::lower ? 1.0 : -1.0});
      }
      program_.add_row(std::move(stepped));
    }
  }

  void add_energy() {
    for (std::size_t i = 0; i < change_.formulation.rows.size(); ++i) {
      if (change_.formulation.rows[i].id != "energy/min") continue;
      const Row& row = change_.formulation.program.rows()[i];
      const double least =
          energy_share(change_.question.horse) * std::min(row.lower, activity(row, mixture_));
      program_.add_row({"least energy", least, unlimited, in_steps(row)});
    }
  }

  void add_rise() {
    Row rise{"added", -unlimited, most_added_a_day_kg + whole_tolerance, {}};
    for (std::size_t j = 0; j < mixture_.size(); ++j) {
      // Nothing, less by rounding, has no column and is no rise.
      if (column_[j] < 0) continue;
      if (!is_concentrate(change_, j) || change_.then[j] <= change_.now[j]) continue;
      rise.terms.push_back({column_[j], scale_step_kg(change_, j)});
      rise.upper += put_out_kg(change_, j, previous_[j]);
    }
    if (!rise.terms.empty()) program_.add_row(std::move(rise));
  }

  const Changeover& change_;
  const std::vector<double>& previous_;
  int widen_;
  std::vector<double> mixture_;
  LinearProgram program_;
  std::vector<int> column_;  // of each offer's steps; -1: in neither ration
};

}  // namespace

bool is_concentrate(const Changeover& change, std::size_t offer) {
  const Feed& feed = change.question.offers[offer].feed;
  return feed.is_bucket_feed() && !counts_as_forage(feed, change.question.horse);
}

double put_out_kg(const Changeover& change, std::size_t offer, double eaten) {
  return eaten / change.question.offers[offer].losses().eaten_of_put_out();
}

double concentrates_added_kg(const Changeover& change, const std::vector<double>& from,
                             const std::vector<double>& to) {
  double added = 0.0;
  for (std::size_t j = 0; j < from.size(); ++j) {
    if (!is_concentrate(change, j)) continue;
    added += std::max(0.0, put_out_kg(change, j, to[j] - from[j]));
  }
  return added;
}

bool breaks(const Changeover& change, std::size_t i, const std::vector<double>& amounts) {
  const RowMeaning& meaning = change.formulation.rows[i];
  if (meaning.value(amounts)) return !meaning.kept(amounts);
  const Row& row = change.formulation.program.rows()[i];
  const double got = activity(row, amounts);
  return got < row.lower - whole_tolerance || got > row.upper + whole_tolerance;
}

std::optional<std::vector<double>> amounts_at(const Changeover& change, double share,
                                              const std::vector<double>& previous, int widen) {
  return StepProgram(change, share, previous, widen).solved();
}

}  // namespace haymow
