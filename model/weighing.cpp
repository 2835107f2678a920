#include "model/weighing.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "model/naming.h"

namespace haymow {
namespace {

enum class Kind { long_forage, by_the_kilogram, balancer, by_the_gram };

Kind kind_of(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::hay:
    case FeedGroup::haylage:
    case FeedGroup::straw:
      return Kind::long_forage;
    case FeedGroup::oil:
    case FeedGroup::supplement:
    case FeedGroup::mineral:
      return Kind::by_the_gram;
    case FeedGroup::balancer:
      return Kind::balancer;
    default:
      return Kind::by_the_kilogram;
  }
}

// The amount that the keeper wants of this offer and no other, put out.
std::optional<KgAsFed> wanted_exactly(const RationQuestion& question, std::size_t offer) {
  for (const Wish& wish : question.horse.wishes) {
    if (wish.kind != WishKind::exactly || wish.amount <= KgAsFed{}) continue;
    const auto meant = std::count_if(question.offers.begin(), question.offers.end(),
                                     [&](const Offer& o) { return refers_to(wish.what, o); });
    const Offer& one = question.offers[offer];
    if (meant == 1 && refers_to(wish.what, one)) return one.put_out(wish.amount);
  }
  return std::nullopt;
}

bool is_whole(double steps) { return std::abs(steps - std::round(steps)) <= 1e-6; }

// The coarsest step a scale shows in which `amount` is whole; an amount that no
// scale shows to the gram is dealt out as one step.
Weighing fit_for(KgAsFed amount, const Weighing& usual) {
  constexpr std::array shown{0.1, 0.05, 0.01, 0.005, 0.001};  // kg
  const KgAsFed least = std::min(usual.least, amount);
  if (is_whole(amount / usual.step)) return {usual.step, least};
  for (const double kg : shown) {
    if (KgAsFed{kg} < usual.step && is_whole(amount / KgAsFed{kg})) return {KgAsFed{kg}, least};
  }
  return {amount, amount};
}

}  // namespace

std::string_view name_of(Fineness fineness) {
  switch (fineness) {
    case Fineness::usual:
      return "usual";
    case Fineness::half:
      return "half";
    case Fineness::fine:
      return "fine";
  }
  return "";
}

std::string_view name_of(PortionUse use) {
  switch (use) {
    case PortionUse::whole:
      return "whole";
    case PortionUse::half:
      return "half";
    case PortionUse::by_weight:
      return "by weight";
  }
  return "";
}

Weighing weighing_of(FeedGroup group, Fineness fineness) {
  const auto pick = [&](const Weighing& usual, const Weighing& half, const Weighing& fine) {
    return fineness == Fineness::usual ? usual : fineness == Fineness::half ? half : fine;
  };
  const auto kg = [](double step, double least) { return Weighing{KgAsFed{step}, KgAsFed{least}}; };
  switch (kind_of(group)) {
    case Kind::long_forage:
      return pick(kg(0.1, 0.5), kg(0.05, 0.25), kg(0.01, 0.1));
    case Kind::by_the_gram:
      return pick(kg(0.005, 0.01), kg(0.001, 0.005), kg(0.001, 0.005));
    case Kind::balancer:
      return pick(kg(0.05, 0.1), kg(0.025, 0.05), kg(0.01, 0.02));
    case Kind::by_the_kilogram:
      break;
  }
  return pick(kg(0.1, 0.1), kg(0.05, 0.05), kg(0.01, 0.02));
}

Weighing weighing_of(const RationQuestion& question, std::size_t offer, Fineness fineness,
                     PortionUse portions) {
  const Offer& one = question.offers[offer];
  if (question.grazes(offer)) {  // not weighed: its one step is the day's grass
    const KgAsFed grass = one.feed.as_fed(question.grass->most);
    return {grass, grass};
  }
  Weighing weighing = weighing_of(one.feed.group, fineness);
  if (one.fed_in && portions != PortionUse::by_weight) {
    const KgAsFed whole = one.fed_in->weight;
    const KgAsFed step = portions == PortionUse::whole ? whole : whole / 2.0;
    weighing = {step, step};
  }
  if (const auto amount = wanted_exactly(question, offer)) return fit_for(*amount, weighing);
  return weighing;
}

}  // namespace haymow
