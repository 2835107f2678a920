#include "model/requirements.h"

namespace haymow {

std::string_view name_of(Confidence confidence) {
  switch (confidence) {
    case Confidence::printed:
      return "confirmed by a printed page";
    case Confidence::memory:
      return "from memory";
    case Confidence::back_fitted:
      return "from memory, fitted to remembered values";
    case Confidence::low:
      return "from memory, verify before relying on it";
  }
  return "";
}

const Requirement* Requirements::find(Nutrient nutrient) const {
  for (const Requirement& row : rows) {
    if (row.nutrient == nutrient) return &row;
  }
  return nullptr;
}

}  // namespace haymow
