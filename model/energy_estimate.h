// The energy of a feed for which nobody states it: which of the published
// equations may be used on it, and which one serves all feeds of a run. What the
// equations are is in energy_equations.h.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/feed.h"
#include "model/worked.h"

namespace haymow {

enum class EnergyEquation { pagan_1998, zeyner_kienzle_2002, fonnesbeck_1981, crude_fibre_table };

struct EnergyEquationTraits {
  std::string_view name;    // "Pagan 1998"
  std::string_view source;  // key of the bibliography
};
[[nodiscard]] const EnergyEquationTraits& traits_of(EnergyEquation equation);

/// All of them, in the order in which one is chosen:
/// Pagan first, because the energies the feed table had to calculate are his, so
/// that feeds compare alike, and he reckons with every part of the fibre. Zeyner
/// and Kienzle next: they need only what the law puts on every bag in Europe.
/// Fonnesbeck after them, from fibre alone and in two forms. Last the table from
/// crude fibre, for bags that declare no ash; it was made for mixes only.
[[nodiscard]] std::span<const EnergyEquation> energy_equations();
/// By its name, letter case ignored.
[[nodiscard]] std::optional<EnergyEquation> energy_equation_named(std::string_view name);

/// How far an estimated energy may be off [MJ per kg of dry matter]. Martinez Marin
/// et al. 2022 (Animals 12:1628, abstract): two such equations erred by 183 and
/// 217 kcal/kg on 32 mixed feeds, 0.77 and 0.91 MJ, and valued poor feeds too high.
inline constexpr double estimated_energy_error_mj = 1.0;

/// What one equation says of a feed.
struct EnergyEstimate {
  EnergyEquation equation = EnergyEquation::pagan_1998;
  std::optional<Worked> energy;   // MJ per kg of dry matter; absent: not to be used
  std::vector<Nutrient> lacking;  // the figures it needs and the feed has not
  std::string unfit;              // why it was not made for this feed; may be empty
};

/// Of a feed that is based on another, protein and fibre must be the feed's own:
/// with those of the other it would be the other's energy.
[[nodiscard]] EnergyEstimate estimate_energy(EnergyEquation equation, const Feed& feed);
/// By every equation, in their order.
[[nodiscard]] std::vector<EnergyEstimate> all_energy_estimates(const Feed& feed);

/// True when the figures of `own` speak against the energy of `base`, the feed it is
/// based on: by the first equation that can be used on both they lie more than half of
/// its error apart (ours, no source). Closer figures are the same feed, and the energy
/// that was published for it is better than an estimate. True as well when an equation
/// can be used on `own` and none on `base`; false when none can be used on `own`.
[[nodiscard]] bool differs_in_energy(const Feed& own, const Feed& base);

/// A feed without energy of its own. `must` when nothing else could give it one.
struct EnergyWanted {
  const Feed* feed = nullptr;
  bool must = true;
};
/// The one equation for all: the first that can be used on every feed that must
/// have one, and of those the one for most of the others. Absent when none can.
[[nodiscard]] std::optional<EnergyEquation> equation_for_all(std::span<const EnergyWanted> feeds);

}  // namespace haymow
