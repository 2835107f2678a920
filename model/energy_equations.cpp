#include "model/energy_equations.h"

#include <algorithm>

namespace haymow {
namespace {

std::optional<double> grams(const Feed& feed, Nutrient nutrient) {
  const std::optional<Figure>& figure = feed.composition[nutrient];
  if (!figure) return std::nullopt;
  return figure->value;
}

/// Per cent of dry matter, from grams per kg.
Worked in_percent(double g) { return amount(g / 10.0, ""); }

Worked from_mcal(const Worked& mcal) { return step("Mcal a kg", mcal, "") * figure(mj_per_mcal); }

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

std::optional<Worked> pagan_1998(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.crude_fat_g || !feed.ndf_g || !feed.adf_g || !feed.ash_g) {
    return std::nullopt;
  }
  const Worked protein = in_percent(*feed.crude_protein_g);
  const Worked fat = in_percent(*feed.crude_fat_g);
  const Worked ndf = in_percent(*feed.ndf_g);
  const Worked adf = in_percent(*feed.adf_g);
  const Worked ash = in_percent(*feed.ash_g);
  const Worked nsc = step("NSC", figure(100.0) - protein - ndf - fat - ash, "%");
  const Worked kcal = figure(2118.0) + figure(12.18) * protein - figure(9.37) * adf -
                      figure(3.83) * (ndf - adf) + figure(47.18) * fat +
                      figure(20.35) * amount(nsc.value, "") - figure(26.3) * ash;
  return following(nsc, step("kcal a kg", kcal, "") / figure(1000.0) * figure(mj_per_mcal));
}

std::optional<Worked> fonnesbeck_1981_forage(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.adf_g) return std::nullopt;
  const Worked adf = in_percent(*feed.adf_g);
  return from_mcal(figure(4.22) - figure(0.11) * adf +
                   figure(0.0332) * in_percent(*feed.crude_protein_g) +
                   figure(0.00112) * power(adf, 2.0));
}

std::optional<Worked> fonnesbeck_1981_concentrate(const Constituents& feed) {
  if (!feed.adf_g) return std::nullopt;
  return from_mcal(figure(4.07) - figure(0.055) * in_percent(*feed.adf_g));
}

std::optional<Worked> zeyner_kienzle_2002(const Constituents& feed) {
  if (!feed.crude_protein_g || !feed.crude_fat_g || !feed.crude_fibre_g || !feed.ash_g) {
    return std::nullopt;
  }
  const Worked protein = in_percent(*feed.crude_protein_g);
  const Worked fat = in_percent(*feed.crude_fat_g);
  const Worked fibre = in_percent(*feed.crude_fibre_g);
  const Worked nfe =
      step("NFE", figure(100.0) - protein - fat - fibre - in_percent(*feed.ash_g), "%");
  return following(nfe, figure(-3.6) + figure(0.211) * protein + figure(0.421) * fat +
                            figure(0.015) * fibre + figure(0.189) * amount(nfe.value, ""));
}

std::optional<Worked> crude_fibre_table(const Constituents& feed, double dry_matter_share) {
  if (!feed.crude_fibre_g || !feed.crude_fat_g) return std::nullopt;
  constexpr double low_fat_percent = 3.0;
  constexpr double high_fat_percent = 8.0;
  constexpr double more_at_high_fat_mcal = 0.10;
  const double fat = *feed.crude_fat_g * dry_matter_share / 10.0;
  const double part =
      std::clamp((fat - low_fat_percent) / (high_fat_percent - low_fat_percent), 0.0, 1.0);
  Worked mcal =
      figure(1.75) - figure(0.05) * amount(*feed.crude_fibre_g * dry_matter_share / 10.0, "");
  if (part > 0.0) mcal = mcal + amount(more_at_high_fat_mcal * part, "");
  return step("Mcal a lb as fed", mcal, "") * figure(mj_per_mcal) / figure(kg_per_lb) /
         amount(dry_matter_share, "");
}

}  // namespace haymow
