// How much grass a horse eats at pasture, as a range: nobody weighs grass. The
// figures are published intakes by the hour, by the day and by the month; each is
// beside its source in grazing.cpp, and docs/explanation/grazing.md has the sum.
#pragma once

#include <optional>
#include <string_view>

#include "model/stable.h"
#include "model/units.h"

namespace haymow {

/// What ends the eating, at the expected figure.
enum class GrassLimit {
  hours,     // the time out, the sward and the muzzle
  appetite,  // it is full
  growth,    // more does not grow on its share of the field
};
[[nodiscard]] std::string_view name_of(GrassLimit limit);

/// Dry matter of grass eaten a day: low <= expected <= high.
struct GrassIntake {
  KgDryMatter low;
  KgDryMatter expected;
  KgDryMatter high;
  GrassLimit limit = GrassLimit::hours;
};

/// Less grass than this a day is nothing anyone plans with. Common practice, no source.
inline constexpr KgDryMatter mouthful{0.01};

/// What the horse eats in `month` (1 to 12); nothing is eaten where `grazing` is
/// silent. Intake goes by bodyweight, and never falls with more hours, a better
/// sward or a larger field, nor rises with a muzzle.
[[nodiscard]] GrassIntake grass_eaten(const Horse& horse, int month);

/// The same for another turnout, in place of the file's own.
[[nodiscard]] GrassIntake grass_eaten(const Horse& horse, int month, const Turnout& turnout);

/// The longest turnout, hours a day and at most the file's, in which the horse is
/// expected to eat no more than `most`.
[[nodiscard]] double hours_for(const Horse& horse, int month, const Turnout& turnout,
                               KgDryMatter most);

/// The feed of the table that stands for the grass of a month: "grass, spring".
[[nodiscard]] std::string_view grass_feed_of(int month);

/// "January".
[[nodiscard]] std::string_view month_name(int month);

}  // namespace haymow
