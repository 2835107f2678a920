// What a bad batch would do to a ration, and what a promise against it rests on.
#pragma once

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// The floors a bad batch would break first; with a promise, how it is kept and what
/// it costs. For an answer that was found; empty when nothing varies.
[[nodiscard]] Section doubt_section(const HorseAnswer& answer, const Wording& words);

/// For an answer with a promise that no ration keeps.
[[nodiscard]] Report::Part no_promise_part(const HorseAnswer& answer, const Wording& words);

}  // namespace haymow
