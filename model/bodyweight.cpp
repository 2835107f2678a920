#include "model/bodyweight.h"

#include <cmath>
#include <stdexcept>
#include <string>

namespace haymow {
namespace {

/// A divisor for inches and pounds, as one for centimetres and kilograms.
constexpr double metric(double inches_per_pound) {
  return inches_per_pound * cm_per_inch * cm_per_inch * cm_per_inch / kg_per_lb;
}

double divisor_for(BodyShape shape) {
  switch (shape) {
    case BodyShape::adult:
      return 11880.0;  // Carroll and Huntington 1988, from memory
    case BodyShape::pony:
      return metric(299.0);  // cowgirlmagazine.com
    case BodyShape::yearling:
      return metric(301.0);  // cowgirlmagazine.com, blog.breyer.co
    case BodyShape::weanling:
      return metric(280.0);  // cowgirlmagazine.com, blog.breyer.co
  }
  throw std::invalid_argument("this body shape has no tape formula");
}

double checked_cm(Centimetres measure, const char* what) {
  const double cm = measure.in_cm();
  if (!std::isfinite(cm) || cm <= 0.0) {
    throw std::invalid_argument(std::string("the ") + what + " must be above 0 cm");
  }
  return cm;
}

}  // namespace

Bodyweight bodyweight_from_tape(Centimetres girth, Centimetres length, BodyShape shape) {
  const double girth_cm = checked_cm(girth, "girth");
  const double length_cm = checked_cm(length, "length");
  return Bodyweight{girth_cm * girth_cm * length_cm / divisor_for(shape)};
}

Bodyweight bodyweight_from_girth(Centimetres girth) {
  constexpr double cm_per_m = 100.0;
  constexpr double kg_per_cubic_metre = 80.0;  // Marcenac and Aublet 1964
  const double girth_m = checked_cm(girth, "girth") / cm_per_m;
  return Bodyweight{kg_per_cubic_metre * girth_m * girth_m * girth_m};
}

}  // namespace haymow
