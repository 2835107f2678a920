#include "model/season_chance.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "model/season_enough.h"
#include "model/season_relaxation.h"

namespace haymow {
namespace {

// Why a season fails takes several solves to find out, and the reasons are few.
constexpr int most_explained = 5;

void check(const std::optional<Triangle>& share) {
  if (share && !(share->least > 0.0)) throw std::invalid_argument("a share is not above nothing");
}

// Every doubt takes its number from the generator whether or not another is there before
// it, so that a draw is the same however many there are.
DrawnSeason drawn(const SeasonDoubt& doubt, std::mt19937_64& generator) {
  const auto next = [&](const std::optional<Triangle>& range, double certain) {
    const double p = next_share(generator);
    return range ? triangular_quantile(*range, p) : certain;
  };
  DrawnSeason out;
  out.days_more = static_cast<int>(std::lround(next(doubt.days_more, 0.0)));
  for (const FeedDoubt& feed : doubt.feeds) {
    DrawnFeed& turned = out.feeds.emplace_back();
    turned.offer = feed.offer;
    turned.price = next(feed.ranges.price, 1.0);
    turned.bale = next(feed.ranges.bale, 1.0);
    turned.energy = next(feed.ranges.energy, 1.0);
    turned.crude_protein = next(feed.ranges.crude_protein, 1.0);
  }
  return out;
}

DrawnSeason as_told(const SeasonDoubt& doubt) {
  DrawnSeason told;
  for (const FeedDoubt& feed : doubt.feeds) told.feeds.emplace_back().offer = feed.offer;
  return told;
}

void take(const SeasonPlan& plan, SeasonDraw& draw) {
  draw.cost = plan.lower_bound;
  draw.bought_kg.assign(plan.stock.size(), 0.0);
  for (const OrderLine& order : plan.orders) {
    draw.bought_kg[order.offer] += order.amount.in_kg();
  }
  draw.bought_as_told_kg = draw.bought_kg;
  for (const DrawnFeed& feed : draw.drawn.feeds) {
    draw.bought_as_told_kg[feed.offer] /= feed.bale;
  }
}

}  // namespace

SeasonQuestion question_of_draw(const SeasonOfDraw& season, const DrawnSeason& drawn) {
  SeasonQuestion question = season(drawn);
  for (const DrawnFeed& feed : drawn.feeds) {
    question = with_price(std::move(question), feed.offer, feed.price);
    question = with_weight(std::move(question), feed.offer, feed.bale);
  }
  return question;
}

SeasonQuestion with_weight(SeasonQuestion question, std::size_t offer, double share) {
  FeedSupply& supply = question.supply.at(offer);
  Offer& of_feed = question.offers.at(offer);
  if (of_feed.on_hand) of_feed.on_hand = share * *of_feed.on_hand;
  if (supply.can_be_had) supply.can_be_had = share * *supply.can_be_had;
  if (supply.pack) supply.pack = share * *supply.pack;
  if (supply.least_order) supply.least_order = share * *supply.least_order;
  supply.cubic_metres_per_kg /= share;
  for (QuantityPrice& cheaper : supply.cheaper) {
    cheaper.from = share * cheaper.from;
    cheaper.less_per_kg = (1.0 / share) * cheaper.less_per_kg;
  }
  // A heavier bale at the price of a bale: cheaper by the kilogram. Lorries are loaded by
  // the kilogram, so delivery stays.
  for (Money& price : supply.price_per_kg) price = (1.0 / share) * price;
  of_feed.price_per_kg = (1.0 / share) * of_feed.price_per_kg;
  return question;
}

SeasonQuestion with_price(SeasonQuestion question, std::size_t offer, double share) {
  FeedSupply& supply = question.supply.at(offer);
  for (Money& price : supply.price_per_kg) price = share * price;
  for (QuantityPrice& cheaper : supply.cheaper) cheaper.less_per_kg = share * cheaper.less_per_kg;
  question.offers[offer].price_per_kg = share * question.offers[offer].price_per_kg;
  return question;
}

Feed with_quality(Feed feed, double energy, double crude_protein) {
  const auto scale = [&](Nutrient nutrient, double share) {
    if (auto& figure = feed.composition[nutrient]) figure->value *= share;
  };
  scale(Nutrient::energy, energy);
  scale(Nutrient::crude_protein, crude_protein);
  scale(Nutrient::lysine, crude_protein);
  return feed;
}

SeasonChances season_chances(const SeasonOfDraw& season, const SeasonDoubt& doubt,
                             const SeasonOptions& options) {
  for (const FeedDoubt& feed : doubt.feeds) {
    for (const auto* range :
         {&feed.ranges.price, &feed.ranges.bale, &feed.ranges.energy, &feed.ranges.crude_protein}) {
      check(*range);
    }
  }
  const SeasonClock clock(options);
  const auto in_time = [&] {
    SeasonOptions of_draw;
    of_draw.time_limit_seconds = clock.left_seconds();
    of_draw.packs = Packs::any;
    of_draw.watch.stop = options.watch.stop;
    return of_draw;
  };
  std::mt19937_64 generator(doubt.seed);
  SeasonChances out;
  out.asked = doubt.draws;
  out.seed = doubt.seed;
  int explained = 0;
  for (int i = 0; i < doubt.draws; ++i) {
    options.watch.at(SeasonStep::draws, i, doubt.draws);
    SeasonDraw draw;
    draw.drawn = drawn(doubt, generator);
    const SeasonQuestion question = question_of_draw(season, draw.drawn);
    const SeasonPlan plan = plan_season(question, in_time());
    draw.status = plan.status;
    if (plan.status == SeasonStatus::found) take(plan, draw);
    if (plan.status == SeasonStatus::none && explained < most_explained) {
      draw.failure = explain_season_failure(question, in_time());
      ++explained;
    }
    // Not finished is not the same as without a plan.
    if (draw.status == SeasonStatus::limit_reached || clock.left_seconds() <= 0.0) break;
    out.draws.push_back(std::move(draw));
  }
  out.enough = order_enough(season(as_told(doubt)), season, out.draws, clock);
  return out;
}

int SeasonChances::count_of(SeasonStatus status) const {
  return static_cast<int>(
      std::count_if(draws.begin(), draws.end(),
                    [status](const SeasonDraw& draw) { return draw.status == status; }));
}

QuantileTold SeasonChances::cost(double p) const {
  std::vector<double> costs;
  for (const SeasonDraw& draw : draws) {
    costs.push_back(draw.status == SeasonStatus::found ? draw.cost.in_units() : beyond_all);
  }
  return quantile_told(std::move(costs), p);
}

}  // namespace haymow
