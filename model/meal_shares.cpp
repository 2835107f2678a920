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
  double largest = 0.0;
  for (const MealShare& meal : meal_shares(question)) largest = std::max(largest, meal.share);
  return largest;
}

}  // namespace haymow
