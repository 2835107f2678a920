#include "model/energy_equations.h"

namespace haymow {
namespace {

Megajoules from_mcal(double mcal) { return Megajoules{mcal * mj_per_mcal}; }

std::optional<double> grams(const Feed& feed, Nutrient nutrient) {
  const std::optional<Figure>& figure = feed.composition[nutrient];
  if (!figure) return std::nullopt;
  return figure->value;
}

}  // namespace

Constituents constituents_of(const Feed& feed) {
  Constituents result;
  result.crude_protein_g = grams(feed, Nutrient::crude_protein);
  result.crude_fat_g = grams(feed, Nutrient::crude_fat);
  result.crude_fibre_g = grams(feed, Nutrient::crude_fibre);
  result.ndf_g = grams(feed, Nutrient::ndf);
  result.adf_g = grams(feed, Nutrient::adf);
  result.ash_g = grams(feed, Nutrient::ash);
  return result;
}

std::optional<Megajoules> pagan_1998(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.crude_fat_g || !feed.ndf_g || !feed.adf_g || !feed.ash_g) {
    return std::nullopt;
  }
  const double protein = *feed.crude_protein_g / 10.0;
  const double fat = *feed.crude_fat_g / 10.0;
  const double ndf = *feed.ndf_g / 10.0;
  const double adf = *feed.adf_g / 10.0;
  const double ash = *feed.ash_g / 10.0;
  const double nsc = 100.0 - protein - ndf - fat - ash;
  const double kcal = 2118.0 + 12.18 * protein - 9.37 * adf - 3.83 * (ndf - adf) + 47.18 * fat +
                      20.35 * nsc - 26.3 * ash;
  return from_mcal(kcal / 1000.0);
}

std::optional<Megajoules> fonnesbeck_1981_forage(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.adf_g) return std::nullopt;
  const double protein = *feed.crude_protein_g / 10.0;
  const double adf = *feed.adf_g / 10.0;
  return from_mcal(4.22 - 0.11 * adf + 0.0332 * protein + 0.00112 * adf * adf);
}

std::optional<Megajoules> fonnesbeck_1981_concentrate(const Constituents& feed) {
  if (!feed.adf_g) return std::nullopt;
  return from_mcal(4.07 - 0.055 * *feed.adf_g / 10.0);
}

std::optional<Megajoules> zeyner_kienzle_2002(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.crude_fat_g || !feed.crude_fibre_g || !feed.ash_g) {
    return std::nullopt;
  }
  const double protein = *feed.crude_protein_g / 10.0;
  const double fat = *feed.crude_fat_g / 10.0;
  const double fibre = *feed.crude_fibre_g / 10.0;
  const double nfe = 100.0 - protein - fat - fibre - *feed.ash_g / 10.0;
  return Megajoules{-3.6 + 0.211 * protein + 0.421 * fat + 0.015 * fibre + 0.189 * nfe};
}

}  // namespace haymow
