// A kilogram as fed is not a kilogram of dry matter.
#include "model/units.h"

haymow::KgAsFed total(haymow::KgAsFed hay) {
#ifdef MISTAKE
  return hay + haymow::KgDryMatter{1.0};  // error: no match for|invalid operands
#else
  return hay + haymow::KgAsFed{1.0};
#endif
}
