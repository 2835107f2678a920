// An answer read back: kilograms, money, and every need beside what is supplied.
#pragma once

#include <optional>
#include <vector>

#include "model/formulate.h"

namespace haymow {

struct Portion {
  std::size_t offer = 0;  // index into the question's offers
  KgAsFed eaten;
  KgAsFed put_out;  // weighed out dry: eaten, and what waste and soaking take
  KgDryMatter dry_matter;
  Money cost;  // a day
};

/// A need beside what the ration supplies, in the nutrient's unit a day.
struct Supply {
  Nutrient nutrient = Nutrient::energy;
  double supplied = 0.0;  // known figures only
  std::optional<double> floor;
  std::optional<double> ceiling;
  bool forced = true;
  double known_share = 0.0;   // of the ration's dry matter with a known figure, 0 to 1
  double memory_share = 0.0;  // of `supplied` that rests on figures from memory, 0 to 1
};

struct Ration {
  std::vector<Portion> portions;  // what is fed, forage first, minerals last
  Money cost;                     // a day
  int meals = 1;
  KgDryMatter dry_matter;
  KgDryMatter forage;
  double starch_per_meal_g = 0.0;  // bucket feeds, unknown taken as in the program
  std::vector<Supply> supplies;    // in the order of the needs

  [[nodiscard]] double forage_share() const {
    return dry_matter.in_kg() > 0.0 ? forage / dry_matter : 0.0;
  }
};

/// Amounts below this are the arithmetic's, not the horse's.
inline constexpr KgAsFed least_portion{1e-6};

/// Reads `amounts` (kg as fed eaten of each offer a day) back as a ration.
[[nodiscard]] Ration ration_from(const RationQuestion& question, const Formulation& formulation,
                                 const std::vector<double>& amounts);

/// The rows, forced and judged, that `amounts` do not keep.
struct Broken {
  RowMeaning row;
  double value = 0.0;  // what the amounts give, in the row's unit
};
[[nodiscard]] std::vector<Broken> broken_rows(const std::vector<RowMeaning>& rows,
                                              const std::vector<double>& amounts);

}  // namespace haymow
