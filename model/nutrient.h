// The list of what is counted in a feed: the nutrients a horse needs and the
// constituents that rules speak of. One table gives each its key (as in JSON),
// its name in print, its unit a day and how many decimals are shown.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

namespace haymow {

enum class Nutrient {
  energy,  // digestible energy
  crude_protein,
  lysine,
  calcium,
  phosphorus,
  magnesium,
  potassium,
  sodium,
  chloride,
  sulphur,
  iron,
  manganese,
  copper,
  zinc,
  iodine,
  selenium,
  cobalt,
  vitamin_a,
  vitamin_d,
  vitamin_e,
  thiamin,
  riboflavin,
  // Constituents: no horse needs them as such; rules and equations use them.
  methionine,
  threonine,
  crude_fat,
  crude_fibre,
  ndf,
  adf,
  starch,
  sugar,  // water-soluble carbohydrate in forage, total sugars in other feeds
  fructan,
  ash,
};
inline constexpr int nutrient_count = static_cast<int>(Nutrient::ash) + 1;
/// Nutrients with a requirement come first: energy up to riboflavin.
inline constexpr int required_nutrient_count = static_cast<int>(Nutrient::riboflavin) + 1;

struct NutrientTraits {
  std::string_view key;   // in JSON and, with spaces for `_`, in files
  std::string_view name;  // in a sentence
  std::string_view unit;  // of a daily amount, and per kg of dry matter
  int decimals = 1;       // shown for a daily amount
};

[[nodiscard]] const NutrientTraits& traits_of(Nutrient nutrient);
[[nodiscard]] std::span<const Nutrient> all_nutrients();
[[nodiscard]] std::span<const Nutrient> required_nutrients();
/// By key or by name in print, spaces or underscores; nothing when unknown.
[[nodiscard]] std::optional<Nutrient> nutrient_named(std::string_view name);

/// One value of type T for each nutrient.
template <class T>
class PerNutrient {
 public:
  T& operator[](Nutrient n) { return values_[static_cast<std::size_t>(n)]; }
  const T& operator[](Nutrient n) const { return values_[static_cast<std::size_t>(n)]; }

 private:
  std::array<T, static_cast<std::size_t>(nutrient_count)> values_{};
};

}  // namespace haymow
