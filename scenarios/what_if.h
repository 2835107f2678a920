// The sliders of the page: what hay costs and how much of the ration is forage, moved to
// see what would follow. A slider changes no file and loosens no rule: where a rule asks
// for so much forage, the slider begins there.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "scenarios/ask.h"

namespace haymow {

/// Where somebody has put the sliders. What is not here stands as in the file.
struct SlidersAsked {
  std::map<std::string, double> prices;  // of a hay or haylage, by name; money a pack
  std::optional<double> forage_share;    // at least, % of the dry matter
};

struct Slider {
  enum class Of { price, forage_share };
  Of of = Of::price;
  std::size_t offer = 0;  // price: of which feed
  std::string name;       // of the feed; "forage"
  std::string unit;       // of all numbers here: "GBP per bale", "% of the dry matter"
  int decimals = 0;
  double least = 0.0;
  double most = 0.0;
  double step = 1.0;
  double stands = 0.0;  // as the file has it; forage: the least that a rule asks of any horse
  double value = 0.0;   // from `least` to `most`
  std::string note;     // what it stands at, and where it ends

  [[nodiscard]] bool moved() const { return value != stands; }
};

/// One a hay or haylage with a price, then the share of forage. What is asked is brought
/// between the ends; a feed that is not on offer is passed over.
[[nodiscard]] std::vector<Slider> sliders_for(const Scenario& scenario, const SlidersAsked& asked);

/// The file as it would be with them; it asks no questions. Every horse keeps its own rule
/// where that is stricter. A slider that was not moved changes nothing.
[[nodiscard]] Scenario with_sliders(const Scenario& scenario, const std::vector<Slider>& sliders);

/// What all horses cost a day, to the gram, as one slider moves and the others stay.
struct SliderCurve {
  struct Point {
    double at = 0.0;  // in the slider's unit
    Money cost;       // of certified rations
  };
  std::vector<Point> points;  // none where a horse has no ration
};

struct WhatIf {
  std::vector<Slider> sliders;
  Scenario scenario;                  // with_sliders
  std::vector<HorseAnswer> answers;   // its own
  std::optional<AskedAnswer> beside;  // beside the file as it stands; absent: nothing is moved
  std::vector<SliderCurve> curves;    // one a slider
};
[[nodiscard]] WhatIf what_if(const Scenario& scenario, const SlidersAsked& asked);

}  // namespace haymow
