#include "model/bucket_counts.h"

#include <utility>

namespace haymow {

std::vector<BucketCount> bucket_counts(const RationQuestion& question,
                                       const Formulation& formulation, double certified_cost,
                                       int most) {
  std::vector<BucketCount> counts;
  for (int n = 1; n <= most; ++n) {
    auto practical = practical_ration_of_few(question, formulation, certified_cost, n);
    if (!counts.empty() && counts.back().practical) {
      const auto& fewer = counts.back().practical;
      if (!practical || practical->ration.cost > fewer->ration.cost) practical = fewer;
    }
    counts.push_back({n, std::move(practical)});
  }
  return counts;
}

}  // namespace haymow
