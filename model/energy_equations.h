// Published equations for the digestible energy of a feed from its analysis.
// They disagree by up to 13 % on one hay, so a figure always names its equation;
// on mixed feeds two of their kind err by 0.8 to 0.9 MJ (Martinez Marin et al.
// 2022, Animals 12:1628, abstract). Coefficients are from memory throughout,
// save those of the bagged mix. Which to take for a feed: energy_estimate.h.
#pragma once

#include <optional>

#include "model/feed.h"
#include "model/units.h"
#include "model/worked.h"

namespace haymow {

/// Grams per kg of dry matter; absent is unknown.
struct Constituents {
  std::optional<double> crude_protein_g;
  std::optional<double> crude_fat_g;
  std::optional<double> crude_fibre_g;
  std::optional<double> ndf_g;
  std::optional<double> adf_g;
  std::optional<double> ash_g;
};

[[nodiscard]] Constituents constituents_of(const Feed& feed);

// Each returns digestible energy [MJ per kg of dry matter] with its arithmetic, or
// nothing when a constituent it needs is unknown. Below, X% is X in per cent of
// dry matter.

/// kcal/kg = 2118 + 12.18 CP% - 9.37 ADF% - 3.83 (NDF% - ADF%) + 47.18 fat%
///           + 20.35 NSC% - 26.3 ash%, with NSC% = 100 - CP% - NDF% - fat% - ash%.
/// Pagan 1998. Too low for beet pulp, soya hulls and fat-rich feeds, too high
/// for oat hulls.
[[nodiscard]] std::optional<Worked> pagan_1998(const Constituents& feed);

/// Forage: Mcal/kg = 4.22 - 0.11 ADF% + 0.0332 CP% + 0.00112 ADF%^2.
/// Fonnesbeck 1981, as used by NRC 1989.
[[nodiscard]] std::optional<Worked> fonnesbeck_1981_forage(const Constituents& feed);

/// Energy and protein feeds: Mcal/kg = 4.07 - 0.055 ADF%. Fonnesbeck 1981, as
/// used by NRC 1989.
[[nodiscard]] std::optional<Worked> fonnesbeck_1981_concentrate(const Constituents& feed);

/// MJ/kg = -3.6 + 0.211 CP% + 0.421 fat% + 0.015 CF% + 0.189 NFE%, with
/// NFE% = 100 - CP% - fat% - CF% - ash%. Zeyner and Kienzle 2002; for fat below
/// 8 % and crude fibre below 35 %.
[[nodiscard]] std::optional<Worked> zeyner_kienzle_2002(const Constituents& feed);

/// A bagged mix: Mcal/lb as fed = 1.75 - 0.05 CF%, and 0.10 more at about 8 % fat,
/// with CF% and fat% as fed. A printed table of 4 to 12 % crude fibre, for fat below
/// 3 % and for about 8 % (traininghorses-naturally.com); the line is exact on it.
/// Between 3 and 8 % of fat the 0.10 is shared out evenly, which is ours.
[[nodiscard]] std::optional<Worked> crude_fibre_table(const Constituents& feed,
                                                      double dry_matter_share);

}  // namespace haymow
