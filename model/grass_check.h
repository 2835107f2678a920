// A ration reckoned with the grass a horse is expected to eat, judged again for
// one that eats as little, and as much, as the range of its grass has.
#pragma once

#include <optional>
#include <vector>

#include "model/ration.h"

namespace haymow {

/// A change of one forage, as put out; less than none: so much less.
struct HayChange {
  std::size_t offer = 0;
  KgAsFed put_out;
};

/// One end of the range, with the same bucket. Little grass: all the hay is eaten.
/// Much grass: as much hay is left as grass is eaten instead, by dry matter.
struct GrassEnd {
  KgDryMatter grass;
  KgDryMatter hay_left;
  std::vector<double> amounts;  // kg as fed eaten, one an offer
  /// What is then not kept, furthest from its limit first. Appetite and the fill of
  /// coarse fibre are not judged: the grass is down already.
  std::vector<Broken> misses;
  /// Hay put out so much more or less keeps everything; solved and certified.
  std::vector<HayChange> hay;
  /// Where hay alone does not: the cheapest ration for that grass; absent: none.
  std::optional<Ration> instead;
};

struct GrassCheck {
  GrassEnd low;
  GrassEnd high;
};

/// `amounts`: the ration as fed, for a question with grass.
[[nodiscard]] GrassCheck check_grass(const RationQuestion& question, const Formulation& formulation,
                                     const std::vector<double>& amounts);

/// How far a row is missed, as a share of its bound.
[[nodiscard]] double missed_share(const Broken& broken);

}  // namespace haymow
