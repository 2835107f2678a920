#include "model/meal_shares.h"

#include <algorithm>
#include <string>

namespace haymow {

std::vector<MealShare> meal_shares(const RationQuestion& question) {
  const auto& given = question.horse.meal_shares;
  if (static_cast<int>(given.size()) == question.meals) return given;
  std::vector<MealShare> alike;
  for (int meal = 1; meal <= question.meals; ++meal) {
    alike.push_back({"meal " + std::to_string(meal), 1.0 / question.meals});
  }
  return alike;
}

double largest_meal_share(const RationQuestion& question) {
  const auto& given = question.horse.meal_shares;
  if (static_cast<int>(given.size()) != question.meals) return 1.0 / question.meals;
  double largest = 0.0;
  for (const MealShare& meal : given) largest = std::max(largest, meal.share);
  return largest;
}

double kg_over_largest_share(const RationQuestion& question) {
  return question.horse.bodyweight.in_kg() / largest_meal_share(question);
}

double per_cent_over_largest_share(const RationQuestion& question) {
  return question.horse.bodyweight.in_kg() / 100.0 / largest_meal_share(question);
}

void change_meals(RationQuestion& question, Formulation& formulation, int meals) {
  question.meals = meals;
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    RowMeaning& row = formulation.rows[i];
    if (!row.limit) continue;
    if (row.id == "starch_meal/max") {
      row.bound = row.limit->number * kg_over_largest_share(question);
    } else if (row.id == "meal_size/max") {
      row.bound = row.limit->number * per_cent_over_largest_share(question);
    } else {
      continue;
    }
    formulation.program.set_row_bounds(static_cast<int>(i), -unlimited, row.bound);
  }
}

}  // namespace haymow
