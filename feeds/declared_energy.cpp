#include "feeds/declared_energy.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "feeds/plain_text.h"
#include "model/units.h"

namespace haymow {
namespace {

constexpr double mcal_per_percent_of_nutrients = 0.044;

struct RefusedEnergy {
  std::string_view word;
  std::string_view why;
};

constexpr std::string_view net =
    "net energy leaves out the heat of digestion, another share of each feed";
constexpr std::string_view french = "it is French net energy for horses, in kilograms of barley";
constexpr std::string_view gross = "gross energy is what burns, eaten or not";
constexpr std::array refused{
    RefusedEnergy{"net energy", net}, RefusedEnergy{"NE", net},
    RefusedEnergy{"NEL", net},        RefusedEnergy{"UFC", french},
    RefusedEnergy{"HFU", french},     RefusedEnergy{"gross energy", gross},
    RefusedEnergy{"GE", gross},
};

}  // namespace

const std::vector<EnergyWord>& energy_words() {
  static const std::vector<EnergyWord> words{
      {"metabolisable energy", EnergySystem::metabolisable},
      {"metabolizable energy", EnergySystem::metabolisable},
      {"ME", EnergySystem::metabolisable},
      {"total digestible nutrients", EnergySystem::total_nutrients},
      {"TDN", EnergySystem::total_nutrients},
  };
  return words;
}

EnergySystem energy_system_of(std::string_view word) {
  for (const EnergyWord& known : energy_words()) {
    if (same_text(known.word, word)) return known.system;
  }
  return EnergySystem::digestible;
}

std::optional<Complaint> refused_energy(std::string_view word, std::string_view example) {
  const auto* const found =
      std::find_if(refused.begin(), refused.end(),
                   [&](const RefusedEnergy& energy) { return same_text(energy.word, word); });
  if (found == refused.end()) return std::nullopt;
  return Complaint{
      fmt::format("{} cannot be turned into the energy that haymow counts in", ticked(word)),
      fmt::format("ask the laboratory for digestible energy for horses and write "
                  "`energy: {}`, or leave it out: protein, fat, fibre and ash are "
                  "enough to estimate it",
                  example),
      std::string(found->why)};
}

Content as_digestible(const Content& stated, EnergySystem system) {
  Content energy = stated;
  energy.kind = ContentKind::energy;
  if (system == EnergySystem::metabolisable) energy.value = stated.value / metabolisable_share;
  if (system == EnergySystem::total_nutrients) {
    energy.value = stated.value / 10.0 * mcal_per_percent_of_nutrients * mj_per_mcal;
  }
  return energy;
}

double digestible_by_losses(double metabolisable_mj, double crude_protein_g, double crude_fibre_g) {
  constexpr double mj_per_g_protein = 0.008;
  constexpr double mj_per_g_fibre = 0.002;
  return metabolisable_mj + mj_per_g_protein * crude_protein_g + mj_per_g_fibre * crude_fibre_g;
}

}  // namespace haymow
