// A feed: what is in a kilogram of its dry matter, how sure each figure is, and
// what kind of feed it is, for the rules that speak of kinds.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "model/nutrient.h"
#include "model/source_position.h"
#include "model/units.h"

namespace haymow {

enum class FeedGroup {
  grass,         // grazed
  hay,           // long, dry
  haylage,       // long, wilted and wrapped, silage included
  straw,         // long, dry, of a cereal
  dried_forage,  // chopped, cubed or pelleted forage
  fibre,         // digestible by-products: hulls, bran, beet pulp
  cereal,
  protein,  // oilseeds, pulses and their meals
  oil,
  sweet,     // roots, fruit, molasses
  compound,  // mixes, cubes and pellets made to be fed by the kilogram
  balancer,  // pellets made to be fed by the hundred grams
  supplement,
  mineral,  // a single salt or rock
};

enum class FeedTrait {
  legume,  // alfalfa, clover, sainfoin
  beet,    // beet pulp
  bran,    // high phosphorus mill by-product
  linseed,
  molassed,      // molasses or added sugar
  grain,         // cereals, and compounds that contain them
  soak,          // must be soaked before feeding
  hard,          // cubes or pellets: soak for a horse that chokes or bolts
  complete,      // made to replace long forage altogether
  concentrated,  // toxic at small amounts: only when the keeper names it
  salt,          // sodium chloride
};

/// Supplements and minerals: weighed in grams, and not fed for their energy.
[[nodiscard]] constexpr bool is_fed_by_the_gram(FeedGroup group) {
  return group == FeedGroup::supplement || group == FeedGroup::mineral;
}

[[nodiscard]] std::string_view name_of(FeedGroup group);
[[nodiscard]] std::string_view name_of(FeedTrait trait);
[[nodiscard]] std::optional<FeedGroup> feed_group_named(std::string_view name);
[[nodiscard]] std::optional<FeedTrait> feed_trait_named(std::string_view name);
[[nodiscard]] std::vector<FeedGroup> all_feed_groups();
[[nodiscard]] std::vector<FeedTrait> all_feed_traits();

/// Where a figure comes from, best first.
enum class FigureOrigin {
  laboratory,  // the keeper's own analysis
  label,       // declared on the bag
  printed,     // read from a published source
  calculated,  // from other figures by chemistry or an equation
  estimated,   // by a published ratio or the mean of its group
  memory,      // remembered from a source, not looked up: verify
};
[[nodiscard]] std::string_view name_of(FigureOrigin origin);

/// One known figure. `source` is a key of the bibliography, or empty for the
/// keeper's own analysis or label. `how` is the sum or ratio by which a figure of a
/// keeper's own feed was worked out, in words; empty for figures that were read.
struct Figure {
  double value = 0.0;  // in the nutrient's unit per kg of dry matter
  FigureOrigin origin = FigureOrigin::memory;
  std::string source = {};
  std::string how = {};
};

/// How a feed is soaked. Water is parts by weight to one part dry feed.
struct Soaking {
  double water_parts = 3.0;
  double cold_minutes = 45.0;
  std::optional<double> warm_minutes;  // absent: not in warm water
  std::string source;
};

/// The most of a feed its maker allows a day, for a horse of a stated weight.
struct DailyMost {
  KgAsFed amount;
  std::optional<Bodyweight> per;  // absent: per horse, whatever it weighs
};

struct Feed {
  std::string name;
  std::vector<std::string> also;  // other names the trade uses
  FeedGroup group = FeedGroup::hay;
  std::set<FeedTrait> traits;
  /// Grams of dry matter in a kilogram as fed, 1 to 1000. Always known.
  Figure dry_matter;
  /// Per kg of dry matter; absent is unknown, never zero.
  PerNutrient<std::optional<Figure>> composition;
  std::optional<Soaking> soaking;
  std::optional<DailyMost> daily_most;
  std::optional<double> kg_per_litre;
  std::string note;
  /// The feed of the table that gives what the keeper's own analysis or label leaves
  /// out; empty for a feed of the table itself and for one with figures of its own only.
  std::string based_on;
  SourcePosition position;

  /// True when `figure`, of this feed, is not its own but of the feed it is based on.
  [[nodiscard]] bool is_taken_over(const Figure& figure) const;
  [[nodiscard]] bool has(FeedTrait trait) const { return traits.contains(trait); }
  [[nodiscard]] double dry_matter_share() const { return dry_matter.value / 1000.0; }
  /// The only way from one kind of kilogram to the other.
  [[nodiscard]] KgDryMatter dry(KgAsFed amount) const {
    return KgDryMatter{amount.in_kg() * dry_matter_share()};
  }
  [[nodiscard]] KgAsFed as_fed(KgDryMatter amount) const {
    return KgAsFed{amount.in_kg() / dry_matter_share()};
  }
  /// Amount of `n` in a kg as fed, in the nutrient's unit; absent if unknown.
  [[nodiscard]] std::optional<double> per_kg_as_fed(Nutrient n) const;

  /// Grass, hay, haylage, straw and dried forage.
  [[nodiscard]] bool is_forage() const;
  /// Forage in pieces that must be chewed: grass, hay, haylage, straw.
  [[nodiscard]] bool is_long_forage() const;
  /// Fed in a bucket, so part of a meal: everything but long forage.
  [[nodiscard]] bool is_bucket_feed() const { return !is_long_forage(); }
};

}  // namespace haymow
