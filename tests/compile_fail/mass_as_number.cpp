// A mass gives its number only to those who name the unit.
#include "model/units.h"

double weight(haymow::KgDryMatter hay) {
#ifdef MISTAKE
  return hay;  // error: cannot convert|no viable conversion
#else
  return hay.in_kg();
#endif
}
