// What something weighs cannot be compared with what it costs.
#include "model/units.h"

bool dearer(haymow::Money price, haymow::KgAsFed hay) {
#ifdef MISTAKE
  return price > hay;  // error: no match for|invalid operands
#else
  return price > hay.in_kg() * haymow::Money{0.25};
#endif
}
