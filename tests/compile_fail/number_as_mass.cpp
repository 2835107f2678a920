// A bare number does not become a mass by itself.
#include "model/units.h"

haymow::KgAsFed total() {
#ifdef MISTAKE
  return 9.0;  // error: could not convert|no viable conversion
#else
  return haymow::KgAsFed{9.0};
#endif
}
