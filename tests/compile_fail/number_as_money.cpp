// A bare number cannot be put where money is.
#include "model/units.h"

haymow::Money price() {
  haymow::Money price;
#ifdef MISTAKE
  price = 4.5;  // error: no match for|no viable overloaded
#else
  price = haymow::Money{4.5};
#endif
  return price;
}
