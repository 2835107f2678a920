#include "model/nutrient.h"

#include <algorithm>
#include <string>

#include "model/letter_case.h"

namespace haymow {
namespace {

constexpr std::array<NutrientTraits, static_cast<std::size_t>(nutrient_count)> nutrient_table{{
    {"energy", "energy", "MJ", 1},
    {"crude_protein", "crude protein", "g", 0},
    {"lysine", "lysine", "g", 1},
    {"calcium", "calcium", "g", 1},
    {"phosphorus", "phosphorus", "g", 1},
    {"magnesium", "magnesium", "g", 1},
    {"potassium", "potassium", "g", 1},
    {"sodium", "sodium", "g", 1},
    {"chloride", "chloride", "g", 1},
    {"sulphur", "sulphur", "g", 1},
    {"iron", "iron", "mg", 0},
    {"manganese", "manganese", "mg", 0},
    {"copper", "copper", "mg", 0},
    {"zinc", "zinc", "mg", 0},
    {"iodine", "iodine", "mg", 1},
    {"selenium", "selenium", "mg", 2},
    {"cobalt", "cobalt", "mg", 2},
    {"vitamin_a", "vitamin A", "IU", 0},
    {"vitamin_d", "vitamin D", "IU", 0},
    {"vitamin_e", "vitamin E", "IU", 0},
    {"thiamin", "thiamin", "mg", 0},
    {"riboflavin", "riboflavin", "mg", 0},
    {"methionine", "methionine", "g", 1},
    {"threonine", "threonine", "g", 1},
    {"crude_fat", "crude fat", "g", 0},
    {"crude_fibre", "crude fibre", "g", 0},
    {"ndf", "neutral detergent fibre", "g", 0},
    {"adf", "acid detergent fibre", "g", 0},
    {"starch", "starch", "g", 0},
    {"sugar", "sugar", "g", 0},
    {"fructan", "fructan", "g", 0},
    {"ash", "ash", "g", 0},
}};

constexpr auto in_table_order = [] {
  std::array<Nutrient, static_cast<std::size_t>(nutrient_count)> all{};
  for (int i = 0; i < nutrient_count; ++i) all[static_cast<std::size_t>(i)] = Nutrient(i);
  return all;
}();

bool same_name(std::string_view a, std::string_view b) {
  const auto plain = [](char c) { return c == '_' ? ' ' : small_letter(c); };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return plain(x) == plain(y); });
}

}  // namespace

const NutrientTraits& traits_of(Nutrient nutrient) {
  return nutrient_table[static_cast<std::size_t>(nutrient)];
}

std::span<const Nutrient> all_nutrients() { return in_table_order; }

std::span<const Nutrient> required_nutrients() {
  return all_nutrients().first(static_cast<std::size_t>(required_nutrient_count));
}

std::optional<Nutrient> nutrient_named(std::string_view name) {
  for (const Nutrient n : all_nutrients()) {
    if (same_name(name, traits_of(n).key) || same_name(name, traits_of(n).name)) return n;
  }
  return std::nullopt;
}

}  // namespace haymow
