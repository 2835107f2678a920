// A limit whose trade-off is asked for: where it does not hold for the horse, the
// program as it would be with it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/formulate.h"

namespace haymow {

struct MovableLimit {
  Formulation formulation;    // has the row
  RowMeaning row;             // its bound means something only when in force
  bool in_force = true;       // false: no limit of this horse, or judged and not forced
  std::optional<double> now;  // what `amounts` give, in the row's unit; absent: a share of nothing
};

/// The row `id` of the question's program, or of the rule of that name put in its
/// program. `amounts` (kg as fed eaten, one an offer): the ration as it is, empty when
/// there is none. Nothing when there is neither such a row nor such a rule.
[[nodiscard]] std::optional<MovableLimit> movable_limit(const RationQuestion& question,
                                                        const Formulation& formulation,
                                                        const std::string& id,
                                                        const std::vector<double>& amounts);

}  // namespace haymow
