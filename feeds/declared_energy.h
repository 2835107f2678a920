// Energy as certificates and labels state it, in systems that differ by a sixth
// or more from one another. What can be turned into digestible energy for horses
// is; what cannot is refused with the reason.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/composition_units.h"
#include "feeds/findings.h"

namespace haymow {

enum class EnergySystem {
  digestible,
  metabolisable,    // of horses
  total_nutrients,  // TDN, total digestible nutrients
};

/// The words of systems other than digestible energy that are read.
struct EnergyWord {
  std::string_view word;
  EnergySystem system;
};
[[nodiscard]] const std::vector<EnergyWord>& energy_words();
/// The system of a word of a certificate; digestible for any other word.
[[nodiscard]] EnergySystem energy_system_of(std::string_view word);

/// What is wrong with energy in a system that cannot be converted, such as net
/// energy; nothing for any other word. `example` is a figure as it may be written.
[[nodiscard]] std::optional<Complaint> refused_energy(std::string_view word,
                                                      std::string_view example);

/// Metabolisable energy of horses as a share of the digestible. The German
/// maintenance need is 63 MJ of one and 73 of the other (0.863), one grain feed has
/// 11 and 12.5 (0.88).
inline constexpr double metabolisable_share = 0.87;

/// Digestible energy per kg from `stated` in `system`, on the basis of `stated`.
/// A per cent of total digestible nutrients is 0.044 Mcal per kg
/// (equinews.com, Understanding analysis of horse forages).
[[nodiscard]] Content as_digestible(const Content& stated, EnergySystem system);

/// Digestible energy by losses in urine of 8 kJ a g of protein and 2 kJ a g of crude
/// fibre [MJ/kg DM] (Kienzle and Zeyner 2010, lkvsachsen.de): how far the factor 0.87
/// may be off for this feed. Contents in g per kg of dry matter.
[[nodiscard]] double digestible_by_losses(double metabolisable_mj, double crude_protein_g,
                                          double crude_fibre_g);

}  // namespace haymow
