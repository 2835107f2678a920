// An answer solved again in rational arithmetic, for who asks for it.
#pragma once

#include "scenarios/run.h"

namespace haymow {

/// Fills `answer.exact`: the optimum of its program, or where it has `no_ration`, the
/// demands that clash. True when it is confirmed.
[[nodiscard]] bool confirmed_exactly(HorseAnswer& answer);

/// True when `check` confirms what `answer` says.
[[nodiscard]] bool is_confirmed(const HorseAnswer& answer, const ExactCheck& check);

}  // namespace haymow
