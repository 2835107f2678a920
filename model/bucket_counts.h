// What it costs to mix fewer feeds: the ration in whole steps with at most one feed
// in the bucket, at most two, and so on.
#pragma once

#include <optional>
#include <vector>

#include "model/practical.h"

namespace haymow {

struct BucketCount {
  int most = 1;  // feeds in the bucket, minerals included
  /// Feasible and certified; absent: none was found in any steps of the scale.
  std::optional<PracticalRation> practical;
};

/// For 1 to `most` feeds. `certified_cost`: the certified lower bound of the continuous
/// program. More feeds never cost more: what was found with fewer stands in where the
/// search, which ends within practical_gap, would do worse.
[[nodiscard]] std::vector<BucketCount> bucket_counts(const RationQuestion& question,
                                                     const Formulation& formulation,
                                                     double certified_cost, int most);

}  // namespace haymow
