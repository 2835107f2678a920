#include "model/divide_meals.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "model/meal_shares.h"
#include "model/weighing.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// A powder of which no more than this is fed a day goes into one meal. Common
// practice, no source.
constexpr KgAsFed one_pinch{0.05};
// Steps of the simplex method for the exact division; at most six feeds in six
// meals, so a few hundred are usual. What takes longer is given up: the day is
// then asked again with exact meals.
constexpr int iterations_for_division = 2'000;
constexpr double meal_tolerance = 1e-9;

using Division = std::vector<std::vector<int>>;  // [bucket feed][meal], steps

struct BucketFeed {
  std::size_t offer = 0;
  int steps = 0;
  double dry_kg = 0.0;    // a step
  double starch_g = 0.0;  // a step
  bool pinch = false;
};

const RowMeaning* row_of(const Formulation& formulation, std::string_view id) {
  const auto it = std::find_if(formulation.rows.begin(), formulation.rows.end(),
                               [&](const RowMeaning& row) { return row.id == id; });
  return it == formulation.rows.end() ? nullptr : &*it;
}

// What a kilogram eaten of each offer counts under the limits of starch.
std::vector<double> starch_per_kg(const RationQuestion& question, const Formulation& formulation) {
  std::vector<double> starch(question.offers.size(), 0.0);
  const RowMeaning* row = row_of(formulation, "starch_meal/max");
  if (row == nullptr) row = row_of(formulation, "starch_day/max");
  if (row == nullptr) return starch;
  for (const Term& t : row->part) starch[static_cast<std::size_t>(t.column)] = t.coefficient;
  return starch;
}

// The bucket feeds of a day, the heaviest step first: the small ones fill up.
std::vector<BucketFeed> bucket_of(const RationQuestion& question, const Formulation& formulation,
                                  const DayInSteps& day) {
  const std::vector<double> starch = starch_per_kg(question, formulation);
  std::vector<BucketFeed> bucket;
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    const Offer& offer = question.offers[j];
    if (day.steps[j] == 0 || !offer.feed.is_bucket_feed()) continue;
    const KgAsFed eaten = offer.eaten(day.step[j]);
    const bool pinch = is_fed_by_the_gram(offer.feed.group) &&
                       day.steps[j] * day.step[j] <= one_pinch * (1.0 + 1e-9);
    bucket.push_back(
        {j, day.steps[j], offer.feed.dry(eaten).in_kg(), eaten.in_kg() * starch[j], pinch});
  }
  std::stable_sort(bucket.begin(), bucket.end(), [](const BucketFeed& a, const BucketFeed& b) {
    return a.pinch != b.pinch ? b.pinch : a.dry_kg > b.dry_kg;
  });
  return bucket;
}

double dry_kg_in(const std::vector<BucketFeed>& bucket, const Division& division,
                 std::size_t meal) {
  double dry = 0.0;
  for (std::size_t f = 0; f < bucket.size(); ++f) dry += division[f][meal] * bucket[f].dry_kg;
  return dry;
}

// Each feed's whole share of every meal, and the steps that are left one by one
// to the meals that lack most of their share; ties to the later meal, since the
// night is the longest. No meal gets more than a step above its share, so that
// a program with a margin for that (whole_step_program.h) can always be divided.
Division by_share(const std::vector<BucketFeed>& bucket, const std::vector<MealShare>& meals,
                  bool pinches) {
  double total = 0.0;
  for (const BucketFeed& feed : bucket) total += feed.steps * feed.dry_kg;
  Division division(bucket.size(), std::vector<int>(meals.size(), 0));
  for (std::size_t f = 0; f < bucket.size(); ++f) {
    const auto lack = [&](std::size_t m) {
      return meals[m].share * total - dry_kg_in(bucket, division, m);
    };
    std::vector<std::size_t> open;
    int left = bucket[f].steps;
    for (std::size_t m = 0; m < meals.size(); ++m) {
      open.push_back(m);
      if (bucket[f].pinch && pinches) continue;
      division[f][m] = static_cast<int>(std::floor(bucket[f].steps * meals[m].share + 1e-9));
      left -= division[f][m];
    }
    while (left > 0) {
      auto most = open.begin();
      for (auto m = open.begin(); m != open.end(); ++m) {
        if (lack(*m) >= lack(*most) - 1e-12) most = m;
      }
      const int given = bucket[f].pinch && pinches ? left : 1;
      division[f][*most] += given;
      left -= given;
      open.erase(most);
    }
  }
  return division;
}

// Whole k[f][m] with sum over m of k[f][m] = steps of f, every meal within its
// limits, and the meals as near to their shares as that allows:
// minimise the sum of e[m] >= dry matter of meal m - its share.
std::optional<Division> by_program(const std::vector<BucketFeed>& bucket,
                                   const std::vector<MealShare>& meals, const MealLimits& limits) {
  LinearProgram program;
  std::vector<Row> sums(bucket.size());
  double total = 0.0;
  for (std::size_t f = 0; f < bucket.size(); ++f) {
    const double steps = bucket[f].steps;
    sums[f] = {"day " + std::to_string(f), steps, steps, {}};
    total += steps * bucket[f].dry_kg;
  }
  for (std::size_t m = 0; m < meals.size(); ++m) {
    const std::string meal = "meal " + std::to_string(m);
    const int over = program.add_column({"over " + meal, 0.0, unlimited, 1.0});
    Row near{"near " + meal, -unlimited, meals[m].share * total, {{over, -1.0}}};
    Row starch{"starch " + meal, -unlimited, limits.starch_g.value_or(unlimited), {}};
    Row size{
        "size " + meal, -unlimited, limits.dry_matter ? limits.dry_matter->in_kg() : unlimited, {}};
    for (std::size_t f = 0; f < bucket.size(); ++f) {
      const int k = program.add_column({"feed " + std::to_string(f) + " " + meal, 0.0,
                                        static_cast<double>(bucket[f].steps), 0.0, true});
      sums[f].terms.push_back({k, 1.0});
      near.terms.push_back({k, bucket[f].dry_kg});
      size.terms.push_back({k, bucket[f].dry_kg});
      starch.terms.push_back({k, bucket[f].starch_g});
    }
    if (m > 0 && meals[m].share == meals[m - 1].share) {
      // Meals alike in order of size, or every division would come M! times.
      Row order{"order " + meal, 0.0, unlimited, size.terms};
      const int one_meal = static_cast<int>(bucket.size()) + 1;
      for (const Term& t : size.terms) order.terms.push_back({t.column - one_meal, -t.coefficient});
      program.add_row(std::move(order));
    }
    for (Row* row : {&near, &starch, &size}) program.add_row(std::move(*row));
  }
  for (Row& row : sums) program.add_row(std::move(row));

  SolveOptions options;
  options.iteration_limit = iterations_for_division;
  options.whole_gap = 1.0;  // the first division will do; the costs only lead to a near one
  const Solution solution = solve(program, options);
  if (!solution.usable()) return std::nullopt;
  Division division(bucket.size(), std::vector<int>(meals.size(), 0));
  for (std::size_t m = 0; m < meals.size(); ++m) {
    for (std::size_t f = 0; f < bucket.size(); ++f) {
      const std::size_t column = m * (bucket.size() + 1) + 1 + f;
      division[f][m] = static_cast<int>(std::lround(solution.columns[column]));
    }
  }
  return division;
}

std::vector<Meal> meals_of(const Division& division, const std::vector<BucketFeed>& bucket,
                           const std::vector<MealShare>& shares, const DayInSteps& day) {
  std::vector<Meal> meals;
  for (std::size_t m = 0; m < shares.size(); ++m) {
    Meal meal{shares[m].name, shares[m].share, {}, KgDryMatter{}, 0.0};
    for (std::size_t f = 0; f < bucket.size(); ++f) {
      const int steps = division[f][m];
      if (steps == 0) continue;
      const std::size_t j = bucket[f].offer;
      meal.portions.push_back({j, steps, day.step[j] * steps});
      meal.dry_matter += KgDryMatter{steps * bucket[f].dry_kg};
      meal.starch_g += steps * bucket[f].starch_g;
    }
    std::sort(meal.portions.begin(), meal.portions.end(),
              [](const MealPortion& a, const MealPortion& b) { return a.offer < b.offer; });
    meals.push_back(std::move(meal));
  }
  return meals;
}

bool adds_up(const Division& division, const std::vector<BucketFeed>& bucket) {
  for (std::size_t f = 0; f < bucket.size(); ++f) {
    int sum = 0;
    for (const int steps : division[f]) {
      if (steps < 0) return false;
      sum += steps;
    }
    if (sum != bucket[f].steps) return false;
  }
  return true;
}

}  // namespace

MealLimits meal_limits(const RationQuestion& question, const Formulation& formulation) {
  const double share = largest_meal_share(question);
  MealLimits limits;
  if (const RowMeaning* starch = row_of(formulation, "starch_meal/max")) {
    limits.starch_g = starch->bound * share;
  }
  if (const RowMeaning* size = row_of(formulation, "meal_size/max")) {
    limits.dry_matter = KgDryMatter{size->bound * share};
  }
  return limits;
}

bool keeps(const Meal& meal, const MealLimits& limits) {
  constexpr double room = 1.0 + meal_tolerance;
  if (limits.starch_g && meal.starch_g > *limits.starch_g * room) return false;
  return !limits.dry_matter || meal.dry_matter.in_kg() <= limits.dry_matter->in_kg() * room;
}

std::optional<std::vector<Meal>> divide_into_meals(const RationQuestion& question,
                                                   const Formulation& formulation,
                                                   const DayInSteps& day) {
  const std::vector<BucketFeed> bucket = bucket_of(question, formulation, day);
  const std::vector<MealShare> shares = meal_shares(question);
  const MealLimits limits = meal_limits(question, formulation);
  const auto checked = [&](const Division& division) -> std::optional<std::vector<Meal>> {
    if (!adds_up(division, bucket)) return std::nullopt;
    std::vector<Meal> meals = meals_of(division, bucket, shares, day);
    const bool sound =
        std::all_of(meals.begin(), meals.end(), [&](const Meal& m) { return keeps(m, limits); });
    return sound ? std::optional(std::move(meals)) : std::nullopt;
  };
  for (const bool pinches : {true, false}) {
    if (auto meals = checked(by_share(bucket, shares, pinches))) return meals;
  }
  const auto exact = by_program(bucket, shares, limits);
  return exact ? checked(*exact) : std::nullopt;
}

}  // namespace haymow
