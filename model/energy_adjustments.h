// What changes a horse's energy need apart from the standard: its own thrift,
// cold, and a change of condition that is wanted. Works on any standard's figure.
#pragma once

#include "model/stable.h"
#include "model/worked.h"

namespace haymow {

/// Energy need of the class by a standard, and the maintenance part of it, which
/// cold and the floor under weight loss are reckoned on. Both in MJ a day.
struct EnergyByStandard {
  Worked need_mj;
  Worked maintenance_mj;
};

/// True when the need is taken from a trial on obese horses instead of from the
/// standard: an overweight idle horse without a dated condition aim.
[[nodiscard]] bool takes_slimming_energy(const Horse& horse);

/// Energy need of this horse, MJ a day, in this order, each at most once:
/// 1. an overweight idle horse without a dated aim: 0.115 MJ per kg of bodyweight
///    (Argo et al. 2015), on which its energy factor is not applied again;
/// 2. energy factor times the whole need;
/// 3. cold: a share of maintenance for each degree below the critical temperature;
/// 4. a dated condition aim: the energy of the weight gained or lost, not
///    multiplied by the factor. Loss stops at 80 % of maintenance.
/// Throws std::invalid_argument for a factor, rate or number of days that is not
/// above zero.
[[nodiscard]] Worked adjusted_energy(const EnergyByStandard& standard, const Horse& horse);

}  // namespace haymow
