#include "model/practical.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/solve.h"

namespace haymow {
namespace {

// Steps of the simplex method, not seconds: the same file gives the same ration
// on a slow machine. Some tenths of a second for one search, and no more than
// three such for all that is tried.
constexpr int iterations_for_search = 50'000;
constexpr int iterations_in_all = 150'000;

class StepSearch {
 public:
  StepSearch(const RationQuestion& question, const Formulation& formulation, double certified_cost)
      : question_(question), formulation_(formulation), certified_cost_(certified_cost) {}

  // The best in these steps, divided into meals; if the best cannot be divided, the
  // best in meals; if that takes too long, the best with room for rounding in each.
  std::optional<PracticalRation> with(StepChoices choices) {
    std::optional<double> bound;
    for (const MealRows meals : {MealRows::day, MealRows::exact, MealRows::margin}) {
      choices.meals = meals;
      const WholeStepProgram steps = whole_step_program(question_, formulation_, choices);
      const Solution solution = solved(steps.program);
      // What bounds the day as a whole bounds it in meals, too; the bound with a
      // margin is not one of the others.
      if (meals != MealRows::margin) bound = higher(bound, bound_of(solution));
      if (meals == MealRows::day && !solution.usable()) return std::nullopt;
      if (!solution.usable()) continue;
      if (auto found = read(steps, solution, choices, bound)) return found;
    }
    return std::nullopt;
  }

 private:
  // The solver's word: a search that came to its end has left no more than the gap.
  static std::optional<double> bound_of(const Solution& solution) {
    if (solution.status != Status::optimal) return solution.claimed_bound;
    return std::max(solution.claimed_bound.value_or(-unlimited),
                    solution.cost - practical_gap * std::abs(solution.cost));
  }

  static std::optional<double> higher(std::optional<double> a, std::optional<double> b) {
    return a && b ? std::max(a, b) : a ? a : b;
  }

  Solution solved(const LinearProgram& program) {
    SolveOptions options;
    options.iteration_limit = std::clamp(iterations_in_all - iterations_, 0, iterations_for_search);
    options.whole_gap = practical_gap;
    Solution solution = solve(program, options);
    iterations_ += solution.iterations;
    if (!solution.usable()) return solution;
    solution.cost = 0.0;
    for (std::size_t j = 0; j < solution.columns.size(); ++j) {
      solution.columns[j] = std::round(solution.columns[j]);
      solution.cost += program.columns()[j].cost * solution.columns[j];
    }
    return solution;
  }

  // Where steps may take more of a stock than the continuous program may, that one's
  // bound is none here: the continuous program is solved with the same stock.
  [[nodiscard]] double certified_bound(const WholeStepProgram& steps) const {
    LinearProgram looser = formulation_.program;
    bool is_looser = false;
    for (std::size_t i = 0; i < formulation_.rows.size(); ++i) {
      if (formulation_.rows[i].family != RowFamily::stock) continue;
      const Row& in_steps = steps.program.rows()[i];
      constexpr double hair_kg = 1e-6;  // see whole_step_program.cpp
      if (in_steps.upper <= looser.rows()[i].upper + hair_kg) continue;
      looser.set_row_bounds(static_cast<int>(i), in_steps.lower, in_steps.upper);
      is_looser = true;
    }
    if (!is_looser) return certified_cost_;
    return certify(looser, solve(looser)).lower_bound;
  }

  [[nodiscard]] std::optional<PracticalRation> read(const WholeStepProgram& steps,
                                                    const Solution& solution,
                                                    const StepChoices& choices,
                                                    std::optional<double> bound) const {
    PracticalRation practical;
    practical.choices = choices;
    practical.weighings = steps.weighings;
    practical.certificate = certify_feasible(steps.program, solution, certified_bound(steps));
    if (practical.certificate.largest_violation > certificate_tolerance) return std::nullopt;
    DayInSteps day;
    for (std::size_t j = 0; j < question_.offers.size(); ++j) {
      const int count = static_cast<int>(std::lround(solution.columns[j]));
      const KgAsFed step = steps.weighings[j].step;
      practical.steps.push_back(count);
      practical.amounts.push_back(count * question_.offers[j].eaten(step).in_kg());
      day.steps.push_back(count);
      day.step.push_back(step);
    }
    auto meals = divide_into_meals(question_, formulation_, day);
    if (!meals) return std::nullopt;
    practical.meals = std::move(*meals);
    practical.ration = ration_from(question_, formulation_, practical.amounts);
    practical.ration.starch_per_meal_g = 0.0;
    for (const Meal& meal : practical.meals) {
      practical.ration.starch_per_meal_g =
          std::max(practical.ration.starch_per_meal_g, meal.starch_g);
    }
    if (bound) {
      const double cost = practical.ration.cost.in_units();
      practical.search_gap = std::max(0.0, cost - *bound) / std::max(1e-9, std::abs(cost));
      practical.within_gap = *practical.search_gap <= practical_gap * (1.0 + 1e-6);
    }
    return practical;
  }

  const RationQuestion& question_;
  const Formulation& formulation_;
  double certified_cost_;
  int iterations_ = 0;
};

}  // namespace

int bucket_feeds_asked(const Horse& horse) {
  return horse.bucket_feeds.value_or(most_bucket_feeds);
}

namespace {

// What may give, in the order in which it is asked to.
std::vector<StepChoices> choices_for(const RationQuestion& question) {
  const auto& offers = question.offers;
  const bool portions = std::any_of(offers.begin(), offers.end(),
                                    [](const Offer& o) { return o.fed_in.has_value(); });
  const bool shared = !question.stock_a_day.empty();
  const int asked = bucket_feeds_asked(question.horse);
  const auto in_bucket = static_cast<int>(std::count_if(
      offers.begin(), offers.end(), [](const Offer& o) { return o.feed.is_bucket_feed(); }));
  std::vector<std::pair<Fineness, PortionUse>> steps;
  if (portions) {
    steps = {{Fineness::usual, PortionUse::whole}, {Fineness::usual, PortionUse::half}};
  }
  const PortionUse rest = portions ? PortionUse::by_weight : PortionUse::whole;
  for (const Fineness fineness : {Fineness::usual, Fineness::half, Fineness::fine}) {
    steps.emplace_back(fineness, rest);
  }
  std::vector<StepChoices> choices;
  for (int feeds = asked; feeds <= std::max(asked, in_bucket); ++feeds) {
    for (const auto& [fineness, use] : steps) {
      choices.push_back({fineness, use, feeds, false, MealRows::day});
      if (shared) choices.push_back({fineness, use, feeds, true, MealRows::day});
    }
  }
  return choices;
}

}  // namespace

std::optional<PracticalRation> practical_ration(const RationQuestion& question,
                                                const Formulation& formulation,
                                                double certified_cost) {
  StepSearch search(question, formulation, certified_cost);
  for (const StepChoices& choices : choices_for(question)) {
    if (auto found = search.with(choices)) return found;
  }
  return std::nullopt;
}

std::optional<PracticalRation> practical_ration_of_few(const RationQuestion& question,
                                                       const Formulation& formulation,
                                                       double certified_cost, int bucket_feeds) {
  RationQuestion asked = question;
  asked.horse.bucket_feeds = bucket_feeds;
  StepSearch search(asked, formulation, certified_cost);
  for (const StepChoices& choices : choices_for(asked)) {
    if (choices.bucket_feeds > bucket_feeds) continue;
    if (auto found = search.with(choices)) return found;
  }
  return std::nullopt;
}

}  // namespace haymow
