// Random horses and stables drawn from the feed table, for laws that hold for
// every one of them.
#pragma once

#include <rapidcheck.h>

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "feeds/feed_table.h"
#include "model/formulate.h"
#include "solver/write_program.h"

namespace haymow {

// Found by RapidCheck through the argument's namespace: prints a failing case.
inline void showValue(const RationQuestion& question, std::ostream& out) {
  out << describe(question.horse.stage) << ", " << question.horse.bodyweight.in_kg() << " kg, "
      << question.meals << " meals";
  for (const HealthState state : question.horse.health) out << ", " << name_of(state);
  out << '\n' << to_cplex_lp(formulate(question).program);
}

namespace any_stable {

/// A whole number of hundredths between two bounds.
inline double between(double low, double high) {
  return *rc::gen::inRange(static_cast<int>(low * 100.0), static_cast<int>(high * 100.0) + 1) /
         100.0;
}

inline LifeStage stage() {
  switch (*rc::gen::inRange(0, 6)) {
    case 0:
      return Idle{*rc::gen::element(MaintenanceLevel::minimum, MaintenanceLevel::average,
                                    MaintenanceLevel::elevated)};
    case 1:
      return Stallion{*rc::gen::arbitrary<bool>()};
    case 2:
      return Working{*rc::gen::element(WorkLevel::light, WorkLevel::moderate, WorkLevel::heavy,
                                       WorkLevel::very_heavy)};
    case 3:
      return Pregnant{*rc::gen::inRange(1, 12)};
    case 4:
      return Lactating{*rc::gen::inRange(1, 7)};
    default:
      return Growing{static_cast<double>(*rc::gen::inRange(8, 25)), std::nullopt};
  }
}

inline Horse horse() {
  Horse out;
  out.name = "Juniper";
  out.stage = stage();
  out.bodyweight = Bodyweight{between(200.0, 700.0)};
  if (const auto* growing = std::get_if<Growing>(&out.stage)) {
    // About its place on the growth curve: light enough to be growing still.
    out.mature_weight = out.bodyweight / (growing->age_months < 14.0 ? 0.65 : 0.85);
  }
  out.energy_factor = between(0.9, 1.1);
  if (*rc::gen::inRange(0, 4) == 0) {
    out.health.insert(*rc::gen::element(HealthState::laminitis_prone, HealthState::gastric_ulcers,
                                        HealthState::pssm, HealthState::hypp, HealthState::ppid,
                                        HealthState::underweight, HealthState::airway));
  }
  return out;
}

/// About what a kilogram costs, by kind; then anything from half to twice it.
inline Offer offer(const Feed& feed) {
  double usual = 0.5;
  if (feed.is_long_forage()) usual = 0.2;
  if (feed.group == FeedGroup::straw) usual = 0.1;
  if (feed.group == FeedGroup::oil || feed.group == FeedGroup::balancer) usual = 1.5;
  if (feed.group == FeedGroup::supplement || feed.group == FeedGroup::mineral) usual = 2.0;
  Offer out;
  out.name = feed.name;
  out.feed = feed;
  out.price_per_kg = Money{usual * between(0.5, 2.0)};
  if (feed.is_long_forage()) out.waste = between(0.0, 0.2);
  return out;
}

/// What a yard has: hay or haylage, straw, something to balance, and some of
/// whatever else the merchant sells.
inline std::vector<Offer> offers() {
  std::set<std::string> names{"balancer pellet", "vitamin and mineral powder", "limestone flour",
                              "salt"};
  static const std::vector<std::string> bases{
      "meadow hay, average",    "meadow hay, late cut", "meadow hay, early cut", "timothy hay",
      "ryegrass hay, late cut", "haylage, meadow",      "haylage, high fibre"};
  const int base_count = *rc::gen::inRange(1, 4);
  for (int i = 0; i < base_count; ++i) names.insert(*rc::gen::elementOf(bases));
  if (*rc::gen::arbitrary<bool>()) names.insert("oat straw");
  const int more = *rc::gen::inRange(4, 12);
  for (int i = 0; i < more; ++i) {
    const Feed& feed = *rc::gen::elementOf(feed_table());
    if (!feed.has(FeedTrait::concentrated) && feed.group != FeedGroup::grass) {
      names.insert(feed.name);
    }
  }
  std::vector<Offer> out;
  for (const std::string& name : names) {
    const Feed* feed = find_feed(name);
    RC_ASSERT(feed != nullptr);
    out.push_back(offer(*feed));
  }
  return out;
}

inline const HighestKnown& highest() {
  static const HighestKnown known = highest_known(feed_table());
  return known;
}

inline RationQuestion question_for(const Horse& horse, std::vector<Offer> offers) {
  RationQuestion out;
  out.horse = horse;
  out.offers = std::move(offers);
  out.needs = nrc_2007(horse);
  out.limits = limits_for(horse);
  out.meals = *rc::gen::inRange(1, 5);
  out.highest = highest();
  return out;
}

/// One horse in a stable; now and then with a wish of its keeper.
inline RationQuestion question() {
  Horse asked = horse();
  std::vector<Offer> offered = offers();
  if (*rc::gen::inRange(0, 3) == 0) {
    const Offer& one = *rc::gen::elementOf(offered);
    const WishKind kind =
        *rc::gen::element(WishKind::none, WishKind::at_least, WishKind::at_most, WishKind::exactly);
    asked.wishes.push_back({kind, one.name, KgAsFed{between(0.01, 1.0)}, {}});
  }
  return question_for(asked, std::move(offered));
}

}  // namespace any_stable
}  // namespace haymow
