#include "feeds/label_tolerance.h"

namespace haymow {
namespace {

constexpr double vitamin_short = 0.30;
constexpr double trace_element_off = 0.50;
constexpr double vitamin_d_off = 0.50;
constexpr double most_vitamin_d_iu = 4000.0;

}  // namespace

std::optional<BagContent> bag_content(Nutrient nutrient, double declared_per_kg) {
  const auto either_way = [&](double share) {
    return BagContent{declared_per_kg * (1.0 - share), declared_per_kg * (1.0 + share)};
  };
  switch (nutrient) {
    case Nutrient::iron:
    case Nutrient::manganese:
    case Nutrient::copper:
    case Nutrient::zinc:
    case Nutrient::iodine:
    case Nutrient::selenium:
    case Nutrient::cobalt:
      return either_way(trace_element_off);
    case Nutrient::vitamin_d:
      if (declared_per_kg > most_vitamin_d_iu) return std::nullopt;
      return either_way(vitamin_d_off);
    case Nutrient::vitamin_a:
    case Nutrient::vitamin_e:
    case Nutrient::thiamin:
    case Nutrient::riboflavin:
      return BagContent{declared_per_kg * (1.0 - vitamin_short), std::nullopt};
    default:
      return std::nullopt;
  }
}

}  // namespace haymow
