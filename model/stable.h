// Who is fed and with what: horses, and the feeds that can be had at a price.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "model/feed.h"
#include "model/handling.h"
#include "model/horse_calendar.h"
#include "model/life_stage.h"
#include "model/pasture.h"
#include "model/price_basis.h"
#include "model/source_position.h"
#include "model/supply_terms.h"
#include "model/time_of_day.h"
#include "model/units.h"
#include "model/whole_portion.h"

namespace haymow {

enum class HealthState {
  laminitis_prone,  // or insulin-dysregulated
  gastric_ulcers,
  pssm,  // or recurrent tying-up
  hypp,
  ppid,
  overweight,
  underweight,
  cannot_chew,  // cannot chew long forage
  airway,       // equine asthma
  // The tool refuses to plan for these and sends the keeper to a vet:
  starved,
  acute_laminitis,
  colic,
  off_feed,
};
[[nodiscard]] std::string_view name_of(HealthState state);
[[nodiscard]] std::optional<HealthState> health_state_named(std::string_view name);
[[nodiscard]] std::vector<HealthState> all_health_states();
/// True for the states in which a ration is a vet's business, not a sum's.
[[nodiscard]] bool refuses_planning(HealthState state);

/// Change of condition: from, to (1 to 9 scale) and the days it may take.
struct ConditionAim {
  double now = 5.0;
  double aim = 5.0;
  std::optional<Days> within;  // absent: the aim is shown, the need is not changed
};

/// Weather colder than the horse is used to: mean temperature and the lower
/// critical temperature, degrees Celsius, of this coat and climate.
struct Cold {
  double temperature_c = 0.0;
  double critical_c = -15.0;
  /// Extra energy, per cent of maintenance for each degree below; absent: 2.5 for
  /// adults, 1.3 for growing horses (Cymbaluk 1994). US extension prints 1.8.
  std::optional<double> percent_per_degree;
};

enum class WishKind { none, at_least, at_most, exactly };
[[nodiscard]] constexpr std::string_view name_of(WishKind kind) {
  switch (kind) {
    case WishKind::none:
      return "none";
    case WishKind::at_least:
      return "at least";
    case WishKind::at_most:
      return "at most";
    case WishKind::exactly:
      return "exactly";
  }
  return "";
}
/// What the keeper decides about a feed for one horse. `what` names an offer, a
/// feed, a group or a trait word such as alfalfa; `amount` is kg as fed a day.
struct Wish {
  WishKind kind = WishKind::none;
  std::string what;
  KgAsFed amount;
  SourcePosition position;
};

/// A loosening that a vet or nutritionist has put on record for this horse.
struct Instruction {
  std::string rule;     // id of a rule of strength `vet`, or of a `law` down to its absolute
  double number = 0.0;  // the limit in the rule's own unit
  std::string by;       // who gave it
  SourcePosition position;
};

/// Bucket meals a day: nobody walks more often (common practice, no source), and a
/// veteran horse on mash has at least four (Your Horse).
inline constexpr int most_meals = 6;
inline constexpr int least_meals_of_mash = 4;

struct Horse {
  std::string name;
  Bodyweight bodyweight;                    // now; for a mare in foal, before she was
  std::optional<Bodyweight> mature_weight;  // growing horses
  LifeStage stage;
  std::optional<int> meals;  // bucket meals a day; absent: the fewest that work
  std::set<HealthState> health;
  std::vector<TimeOfDay> feeding_times;  // of the bucket meals, where they are known
  std::optional<ConditionAim> condition;
  std::optional<Cold> cold;
  std::optional<Grazing> grazing;
  double energy_factor = 1.0;  // this individual against the standard: good doer below 1
  std::vector<Wish> wishes;
  std::vector<Instruction> instructions;
  std::vector<std::pair<std::string, KgAsFed>> fed_now;
  std::string bodyweight_note;  // how the weight came about when not weighed
  SourcePosition position;
  std::vector<MealShare> meal_shares = {};         // one a meal; empty: meals alike
  std::optional<int> bucket_feeds = std::nullopt;  // the most in the bucket; absent: the usual
  HorseCalendar calendar = {};
};

/// A feed that can be had, at what it costs.
struct Offer {
  std::string name;  // as the keeper calls it
  Feed feed;
  Money price_per_kg;              // as fed, before waste
  double waste = 0.0;              // share of what is put out that is not eaten, 0 to below 1
  std::optional<KgAsFed> on_hand;  // absent: as much as wanted can be bought
  bool own = false;                // from the keeper's own barn
  std::string price_note;          // as written, such as "12.40 per 20 kg bag"
  /// Of the keeper's own analysis, on the first day of the season; absent: not told.
  std::optional<Days> analysis_age;
  SourcePosition position;
  Money delivery_per_kg;      // to the yard, beside the price
  double storage_loss = 0.0;  // share of what is bought or on hand that is lost in the store
  std::optional<double> soaked_minutes;  // hay soaked before feeding
  double soaking_loss = 0.0;             // share of the dry matter that soaking washes out
  std::optional<HandlingWay> fed_from;   // where `waste` comes from the table
  std::optional<HandlingWay> stored;     // where `storage_loss` does
  std::optional<PriceBasis> price_basis;
  std::optional<PriceBasis> delivery_basis;
  std::optional<AssumedWeight> assumed_weight;        // of a pack nobody has weighed
  std::optional<WholePortion> fed_in = std::nullopt;  // dealt out whole; absent: by the scale
  SupplyTerms terms = {};

  [[nodiscard]] Losses losses() const { return {storage_loss, soaking_loss, waste}; }
  /// What has to be weighed out, dry, for so much to be eaten; and the other way.
  [[nodiscard]] KgAsFed put_out(KgAsFed eaten) const { return eaten / losses().eaten_of_put_out(); }
  [[nodiscard]] KgAsFed eaten(KgAsFed put_out) const {
    return put_out * losses().eaten_of_put_out();
  }
  /// What of the stock is there to be put out; absent where the stock is endless.
  [[nodiscard]] std::optional<KgAsFed> stock_to_put_out() const {
    return on_hand ? std::optional(*on_hand * (1.0 - storage_loss)) : std::nullopt;
  }
  /// What a kilogram costs in the yard: price and delivery, before anything is lost.
  [[nodiscard]] Money cost_per_kg_delivered() const { return price_per_kg + delivery_per_kg; }
  /// What a kilogram eaten costs: delivered, after what the store, soaking and
  /// the feeder lose.
  [[nodiscard]] Money cost_per_kg_eaten() const {
    return cost_per_kg_delivered() / losses().eaten_of_bought();
  }
  /// The price a kilogram as bought at which a kilogram eaten costs `eaten`.
  [[nodiscard]] Money price_for(Money eaten) const {
    return eaten * losses().eaten_of_bought() - delivery_per_kg;
  }
};

/// `feed` under its own name, at no price: what is fed or proposed and not on offer.
[[nodiscard]] Offer unpriced(const Feed& feed);

struct Stable {
  std::string yard;
  std::string money;           // ISO 4217 code
  std::optional<Days> season;  // from and until, both included
  std::vector<Horse> horses;
  std::vector<Offer> offers;
};

}  // namespace haymow
