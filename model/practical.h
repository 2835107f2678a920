// The ration a person can weigh out: whole steps of the scale in what is put
// out, a least amount of
// any feed that is used at all, and not more feeds in the bucket than anyone
// mixes. A whole-number program over the same rows; the best continuous ration
// stays beside it and says what practicality costs.
#pragma once

#include <optional>

#include "model/ration.h"
#include "solver/certify.h"

namespace haymow {

/// Common practice, no source: what a kitchen or spring scale shows, and what is
/// worth opening a bag for.
struct Weighing {
  KgAsFed step;
  KgAsFed least;
};
[[nodiscard]] Weighing weighing_of(FeedGroup group);

/// Feeds in the bucket, minerals included. Common practice, no source.
inline constexpr int most_bucket_feeds = 6;

struct PracticalRation {
  Ration ration;
  std::vector<double> amounts;  // kg as fed eaten, one an offer
  Certificate certificate;      // feasibility of the whole-number answer; gap to the continuous one
  bool within_gap = false;      // proven within practical_gap of the best whole-step ration
};
/// The search stops when no whole-step ration can be cheaper by more than this, relative.
inline constexpr double practical_gap = 5e-3;

/// Nothing when no ration in whole steps keeps every limit; the continuous one
/// is then all there is. `certified_cost`: the certified lower bound of the
/// continuous program.
[[nodiscard]] std::optional<PracticalRation> practical_ration(const RationQuestion& question,
                                                              const Formulation& formulation,
                                                              double certified_cost);

}  // namespace haymow
