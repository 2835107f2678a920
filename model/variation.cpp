#include "model/variation.h"

#include <array>

namespace haymow {
namespace {

// From here on mean - 1.28 deviations, nine batches in ten, nears nothing.
constexpr double least_skewed = 0.5;

constexpr std::string_view alfalfa = "Feedipedia, alfalfa datasheet 2016: deviation over mean";
constexpr std::string_view lysine_of_alfalfa =
    "Feedipedia, alfalfa datasheet 2016: lysine in protein 16 %, with that of the protein";
constexpr std::string_view grass_hay_minerals =
    "US forage laboratory library, 2023: range read as one deviation either way";
constexpr std::string_view uk_hay = "UK laboratory, usual range read as two deviations either way";
constexpr std::string_view uk_haylage = "four UK analyses of haylage, 2016-2022";
constexpr std::string_view pasture = "US forage laboratory library, 2023, pasture";
constexpr std::string_view judgement = "common practice, no source";
constexpr std::string_view as_hay = "taken as of grass hay: common practice, no source";
constexpr std::string_view extension =
    "Colorado State Extension 1.615: table figures may be off by as much; read as two deviations";
constexpr std::string_view label_law =
    "legal tolerance of a label (Wales 2006, schedule 4 D), read as two deviations";

using enum FeedGroup;
using enum Nutrient;

// Iron is left out: the 150 % the libraries print is soil on the forage, which only
// adds to it, and tells nothing of how low it falls.
constexpr std::array variation_rows{
    VariationRow{hay, false, energy, 8, uk_hay},
    VariationRow{hay, false, crude_protein, 13, uk_hay},
    VariationRow{hay, false, lysine, 20, judgement},
    VariationRow{hay, false, calcium, 44, grass_hay_minerals},
    VariationRow{hay, false, phosphorus, 38, grass_hay_minerals},
    VariationRow{hay, false, magnesium, 40, grass_hay_minerals},
    VariationRow{hay, false, potassium, 35, grass_hay_minerals},
    VariationRow{hay, false, sodium, 190, grass_hay_minerals},
    VariationRow{hay, false, copper, 49, grass_hay_minerals},
    VariationRow{hay, false, manganese, 77, grass_hay_minerals},
    VariationRow{hay, false, zinc, 35, judgement},
    VariationRow{hay, false, selenium, 60, judgement},

    VariationRow{hay, true, energy, 8, as_hay},
    VariationRow{hay, true, crude_protein, 14, alfalfa},
    VariationRow{hay, true, lysine, 21, lysine_of_alfalfa},
    VariationRow{hay, true, calcium, 20, alfalfa},
    VariationRow{hay, true, phosphorus, 19, alfalfa},
    VariationRow{hay, true, magnesium, 22, alfalfa},
    VariationRow{hay, true, potassium, 24, alfalfa},
    VariationRow{hay, true, sodium, 100, alfalfa},
    VariationRow{hay, true, copper, 22, alfalfa},
    VariationRow{hay, true, manganese, 77, as_hay},
    VariationRow{hay, true, zinc, 15, alfalfa},
    VariationRow{hay, true, selenium, 60, judgement},

    VariationRow{dried_forage, true, energy, 8, as_hay},
    VariationRow{dried_forage, true, crude_protein, 11, alfalfa},
    VariationRow{dried_forage, true, lysine, 19, lysine_of_alfalfa},
    VariationRow{dried_forage, true, calcium, 19, alfalfa},
    VariationRow{dried_forage, true, phosphorus, 15, alfalfa},
    VariationRow{dried_forage, true, magnesium, 24, alfalfa},
    VariationRow{dried_forage, true, potassium, 13, alfalfa},
    VariationRow{dried_forage, true, sodium, 50, alfalfa},
    VariationRow{dried_forage, true, copper, 33, alfalfa},
    VariationRow{dried_forage, true, manganese, 38, alfalfa},
    VariationRow{dried_forage, true, zinc, 40, alfalfa},
    VariationRow{dried_forage, true, selenium, 60, judgement},

    VariationRow{dried_forage, false, energy, 8, as_hay},
    VariationRow{dried_forage, false, crude_protein, 13, as_hay},
    VariationRow{dried_forage, false, lysine, 20, as_hay},
    VariationRow{dried_forage, false, calcium, 44, as_hay},
    VariationRow{dried_forage, false, phosphorus, 38, as_hay},
    VariationRow{dried_forage, false, magnesium, 40, as_hay},
    VariationRow{dried_forage, false, potassium, 35, as_hay},
    VariationRow{dried_forage, false, sodium, 190, as_hay},
    VariationRow{dried_forage, false, copper, 49, as_hay},
    VariationRow{dried_forage, false, manganese, 77, as_hay},
    VariationRow{dried_forage, false, zinc, 35, as_hay},
    VariationRow{dried_forage, false, selenium, 60, as_hay},

    VariationRow{haylage, false, energy, 6, uk_haylage},
    VariationRow{haylage, false, crude_protein, 18, uk_haylage},
    VariationRow{haylage, false, lysine, 20, as_hay},
    VariationRow{haylage, false, calcium, 44, as_hay},
    VariationRow{haylage, false, phosphorus, 38, as_hay},
    VariationRow{haylage, false, magnesium, 40, as_hay},
    VariationRow{haylage, false, potassium, 35, as_hay},
    VariationRow{haylage, false, sodium, 190, as_hay},
    VariationRow{haylage, false, copper, 49, as_hay},
    VariationRow{haylage, false, manganese, 77, as_hay},
    VariationRow{haylage, false, zinc, 35, as_hay},
    VariationRow{haylage, false, selenium, 60, as_hay},

    VariationRow{grass, false, energy, 10, judgement},
    VariationRow{grass, false, crude_protein, 23, judgement},
    VariationRow{grass, false, lysine, 26, judgement},
    VariationRow{grass, false, calcium, 45, pasture},
    VariationRow{grass, false, phosphorus, 129, pasture},
    VariationRow{grass, false, magnesium, 44, pasture},
    VariationRow{grass, false, potassium, 55, pasture},
    VariationRow{grass, false, sodium, 270, pasture},
    VariationRow{grass, false, copper, 49, pasture},
    VariationRow{grass, false, zinc, 148, pasture},
    VariationRow{grass, false, manganese, 91, pasture},
    VariationRow{grass, false, selenium, 60, judgement},

    VariationRow{straw, false, energy, 8, judgement},
    VariationRow{straw, false, crude_protein, 20, judgement},
    VariationRow{straw, false, lysine, 20, judgement},
    VariationRow{straw, false, calcium, 15, extension},
    VariationRow{straw, false, phosphorus, 15, extension},
    VariationRow{straw, false, magnesium, 15, extension},
    VariationRow{straw, false, potassium, 15, extension},
    VariationRow{straw, false, copper, 15, extension},
    VariationRow{straw, false, zinc, 15, extension},
    VariationRow{straw, false, manganese, 15, extension},
};

// What is not forage varies little: by what extension warns of in any table
// figure, and by what the law lets a label be wrong.
std::optional<Variation> of_bucket_feed(FeedGroup group, Nutrient n) {
  if (group == mineral || group == oil) return std::nullopt;
  switch (n) {
    case energy:
      return Variation{0.05, extension};
    case crude_protein:
    case lysine:
      return Variation{0.075, extension};
    case calcium:
    case phosphorus:
    case magnesium:
    case potassium:
    case sodium:
      return Variation{0.15, extension};
    case manganese:
    case copper:
    case zinc:
    case iodine:
    case selenium:
      return Variation{0.25, label_law};
    case vitamin_a:
    case vitamin_e:
      return Variation{0.15, label_law};
    default:
      return std::nullopt;
  }
}

std::optional<Variation> between_batches(const Feed& feed, Nutrient n) {
  if (!feed.is_forage()) return of_bucket_feed(feed.group, n);
  const bool legume_matters = feed.group == hay || feed.group == dried_forage;
  for (const VariationRow& row : variation_rows) {
    if (row.group != feed.group || row.nutrient != n) continue;
    if (legume_matters && row.legume != feed.has(FeedTrait::legume)) continue;
    return Variation{row.percent / 100.0, row.source};
  }
  return std::nullopt;
}

}  // namespace

std::span<const VariationRow> variation_table() { return variation_rows; }

bool Variation::is_skewed() const { return coefficient >= least_skewed; }

std::optional<Variation> variation_of(const Offer& offer, Nutrient n) {
  const auto& figure = offer.feed.composition[n];
  if (!figure || figure->value <= 0.0) return std::nullopt;
  auto variation = between_batches(offer.feed, n);
  if (variation && figure->origin == FigureOrigin::laboratory) {
    const bool fresh = offer.analysis_age && *offer.analysis_age <= fresh_for;
    variation->coefficient *= fresh ? left_by_fresh_analysis : left_by_old_analysis;
  }
  return variation;
}

}  // namespace haymow
