// Bodyweight from a tape, when there is no weighbridge: formulas published for
// girth and length. They are about 10 % out either way (stated by the sources),
// so a weighed weight is always better.
#pragma once

#include "model/units.h"

namespace haymow {

/// Which divisor fits the horse.
enum class BodyShape { adult, pony, yearling, weanling };

/// Bodyweight from heart girth and length, point of shoulder to point of buttock.
/// Adult: kg = girth^2 x length / 11,880 (cm), Carroll and Huntington 1988, from
/// memory. The same form in inches and pounds, lb = girth^2 x length / 330, is
/// printed on extension pages and converts to 11,922: 0.4 % lighter.
/// Others, inches and pounds: pony 299, yearling 301, weanling 280, printed on
/// magazine pages (requirements.md names them).
/// Throws std::invalid_argument unless both are finite and above zero.
[[nodiscard]] Bodyweight bodyweight_from_tape(Centimetres girth, Centimetres length,
                                              BodyShape shape = BodyShape::adult);

/// Bodyweight of an adult from girth alone: kg = 80 x girth^3 (m), Marcenac and
/// Aublet 1964, printed. Throws std::invalid_argument unless finite and above zero.
[[nodiscard]] Bodyweight bodyweight_from_girth(Centimetres girth);

}  // namespace haymow
