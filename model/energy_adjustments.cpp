#include "model/energy_adjustments.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include <fmt/format.h>

#include "model/nutrient.h"

namespace haymow {
namespace {

// Argo et al. 2015: obese horses and ponies on about this much lost 0.16 to
// 0.55 % of bodyweight a week.
constexpr double slimming_mj_per_kg = 0.115;
// 20 Mcal above maintenance for each kg gained, and 16 to 20 kg for one condition
// score: The Horse, February 2019, page 40, quoting NRC. 18 is the middle, taken
// for a 500 kg horse. Others print 17.6 to 19.8 Mcal and 20 to 23 kg. For loss the
// same figure is used negative: common practice, no source.
constexpr double mcal_per_kg_of_weight = 20.0;
constexpr double kg_per_score = 18.0;
constexpr double score_reference_kg = 500.0;
// Energy at 80 % of maintenance slimmed obese ponies safely over 16 weeks
// (Ghent trial, reported in EQUUS 2015); less is a vet's business.
constexpr double least_share_of_maintenance = 0.8;
// Cymbaluk 1994, review abstract, and NRC 2007 chapter 1 from memory.
constexpr double adult_cold_percent = 2.5;
constexpr double growing_cold_percent = 1.3;

constexpr double percent = 100.0;

void must_be_above_zero(double value, const char* what) {
  if (!std::isfinite(value) || value <= 0.0) {
    throw std::invalid_argument(std::string(what) + " must be above 0");
  }
}

/// One decimal more than the need itself, so that the next line works out as shown.
Worked settled(const Worked& sum) {
  const NutrientTraits& energy = traits_of(Nutrient::energy);
  return result(sum, energy.unit, energy.decimals + 1);
}

bool has_dated_aim(const Horse& horse) {
  return horse.condition && horse.condition->within && horse.condition->aim != horse.condition->now;
}

Worked slimming_need(const Horse& horse) {
  const Worked need = figure(slimming_mj_per_kg, "MJ/kg") * amount(horse.bodyweight.in_kg(), "kg");
  if (horse.energy_factor == 1.0) {
    return with_remark(need, "for an overweight horse, Argo et al. 2015, in place of NRC 2007");
  }
  return with_remark(need,
                     "for an overweight horse, Argo et al. 2015, in place of NRC 2007 and of "
                     "this horse's own energy factor");
}

Worked after_factor(const Worked& need, double factor) {
  if (factor == 1.0) return need;
  return with_remark(settled(need) * figure(factor),
                     "this horse against the standard, on the whole need");
}

Worked after_cold(const Worked& need, const Worked& maintenance_mj, const Horse& horse) {
  if (!horse.cold) return need;
  const bool is_growing = std::holds_alternative<Growing>(horse.stage);
  const double rate = horse.cold->percent_per_degree.value_or(is_growing ? growing_cold_percent
                                                                         : adult_cold_percent);
  must_be_above_zero(rate, "the energy for each degree of cold");
  const double degrees = horse.cold->critical_c - horse.cold->temperature_c;
  if (!std::isfinite(degrees)) throw std::invalid_argument("the temperature must be a number");
  if (degrees <= 0.0) return need;
  const std::string_view source =
      horse.cold->percent_per_degree ? "rate as given" : "rate by Cymbaluk 1994";
  const Worked maintenance = step("maintenance", maintenance_mj, "MJ");
  const Worked extra = with_remark(
      figure(rate / percent) * amount(degrees, "degrees") * maintenance,
      fmt::format("cold: {} °C is below {} °C, {}", five_figures(horse.cold->temperature_c),
                  five_figures(horse.cold->critical_c), source));
  return settled(need) + extra;
}

Worked after_aim(const Worked& need, const Worked& maintenance_mj, const Horse& horse) {
  if (!has_dated_aim(horse)) return need;
  const double days = horse.condition->within->in_days();
  must_be_above_zero(days, "the days for a change of condition");
  const double scores = horse.condition->aim - horse.condition->now;
  if (!std::isfinite(scores)) throw std::invalid_argument("the condition must be a number");
  const bool gains = scores > 0.0;
  const Worked weight =
      step(gains ? "weight to gain" : "weight to lose",
           figure(std::abs(scores), "condition score") * figure(kg_per_score, "kg/score") *
               amount(horse.bodyweight.in_kg(), "kg") / figure(score_reference_kg, "kg"),
           "kg");
  const Worked change =
      with_remark(figure(mcal_per_kg_of_weight, "Mcal/kg") * weight / amount(days, "days") *
                      figure(mj_per_mcal, "MJ/Mcal"),
                  gains ? "NRC as quoted in The Horse, February 2019"
                        : "the figure for gain, taken negative: common practice, no source");
  const Worked before = settled(need);
  if (gains) return before + change;
  Worked slimmed = before - change;
  const Worked least =
      figure(least_share_of_maintenance) * step("maintenance", maintenance_mj, "MJ");
  if (slimmed.value >= least.value) return slimmed;
  // A need that was already lower, by the horse's own factor, is not raised.
  if (before.value <= least.value) {
    return with_remark(before, "no further cut: already at or below 80 % of maintenance");
  }
  const std::string why =
      fmt::format("the least planned, for the aim would leave {} MJ: allow more days",
                  five_figures(slimmed.value));
  return following(slimmed, with_remark(least, why));
}

}  // namespace

bool takes_slimming_energy(const Horse& horse) {
  return horse.health.contains(HealthState::overweight) && !has_dated_aim(horse) &&
         std::holds_alternative<Idle>(horse.stage);
}

Worked adjusted_energy(const EnergyByStandard& standard, const Horse& horse) {
  must_be_above_zero(horse.energy_factor, "the energy factor");
  const Worked own = takes_slimming_energy(horse)
                         ? slimming_need(horse)
                         : after_factor(standard.need_mj, horse.energy_factor);
  const Worked warmed = after_cold(own, standard.maintenance_mj, horse);
  return after_aim(warmed, standard.maintenance_mj, horse);
}

}  // namespace haymow
