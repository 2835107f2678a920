// A horse as it will be on a later day of the season: a mare goes on in foal and in
// milk, a youngster grows, work begins, the time for a change of condition ends.
#pragma once

#include "model/stable.h"

namespace haymow {

/// Days from covering to foaling. The mean that NRC 2007 reckons with: 340; single
/// mares differ by three weeks either way (from memory).
inline constexpr int days_in_foal = 340;

/// The day of the season on which the mare is expected to foal (before the season:
/// did), where the file has no date but the month she is in on the first day, which
/// is taken to begin on it. Absent for a horse neither in foal nor in milk.
[[nodiscard]] std::optional<int> expected_foaling(const Horse& horse);

/// The horse on `day` of the season (0 is the first). A growing horse follows the
/// standard's growth curve from its weight on the first day; grown, it does the work
/// it did. A mare is in milk until she is weaned, six months at most, and idle after,
/// unless `calendar` has other work from a later day.
[[nodiscard]] Horse horse_on(const Horse& horse, int day);

}  // namespace haymow
