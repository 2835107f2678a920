#include "model/season_supply.h"

#include <algorithm>

#include "solver/linear_program.h"

namespace haymow {
namespace {

// The most of one order that anything allows.
double largest_order_kg(const SeasonQuestion& question, std::size_t offer) {
  const FeedSupply& supply = question.supply[offer];
  double most = supply.can_be_had ? supply.can_be_had->in_kg() : unlimited;
  if (supply.store) {
    if (const auto room = room_of(question, *supply.store, false)) most = std::min(most, *room);
    const auto volume = room_of(question, *supply.store, true);
    if (volume && supply.cubic_metres_per_kg > 0.0) {
      most = std::min(most, *volume / supply.cubic_metres_per_kg);
    }
  }
  return most;
}

}  // namespace

Money plain_cost_per_kg(const SeasonQuestion& question, std::size_t offer, std::size_t week) {
  const Money price = question.supply[offer].price_per_kg[week];
  return question.supply[offer].delivery ? price : price + question.offers[offer].delivery_per_kg;
}

Money least_cost_per_kg(const SeasonQuestion& question, std::size_t offer, std::size_t week) {
  const FeedSupply& supply = question.supply[offer];
  Money less;
  const double most = largest_order_kg(question, offer);
  for (const QuantityPrice& cheaper : supply.cheaper) {
    if (cheaper.from.in_kg() <= most) less = std::max(less, cheaper.less_per_kg);
  }
  const Money price = std::max(Money{0.0}, plain_cost_per_kg(question, offer, week) - less);
  return supply.delivery ? price + supply.delivery->charge / supply.delivery->load.in_kg() : price;
}

double opening_kg(const Offer& offer) {
  const auto stock = offer.stock_to_put_out();
  return stock ? stock->in_kg() : 0.0;
}

bool still_good(const SeasonQuestion& question, std::size_t offer, std::size_t bought,
                std::size_t in) {
  const auto& keeps = question.supply[offer].keeps;
  if (!keeps) return true;
  const SeasonWeek& until = question.weeks[std::min(in, question.weeks.size() - 1)];
  return question.weeks[bought].first_day + keeps->in_days() >= until.first_day + until.days;
}

std::optional<double> room_of(const SeasonQuestion& question, std::size_t store, bool volume) {
  const Store& place = question.stores[store];
  std::optional<double> room = place.room_cubic_metres;
  if (!volume) room = place.room ? std::optional(place.room->in_kg()) : std::nullopt;
  if (!room) return std::nullopt;
  double there = 0.0;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    if (question.supply[f].store != store || !question.offers[f].on_hand) continue;
    const double unit = volume ? question.supply[f].cubic_metres_per_kg : 1.0;
    there += unit * question.offers[f].on_hand->in_kg();
  }
  return std::max(*room, there);
}

double opened_in_time_kg(const SeasonQuestion& question, std::size_t offer, std::size_t week) {
  const FeedSupply& supply = question.supply[offer];
  if (!supply.pack || !supply.keeps_opened) return 0.0;
  return supply.pack->in_kg() * (1.0 - question.offers[offer].storage_loss) *
         question.weeks[week].days / supply.keeps_opened->in_days();
}

double days_to_change(const SeasonQuestion& question, std::size_t week) {
  const double before = week == 0 ? 0.0 : question.weeks[week - 1].days;
  return (before + question.weeks[week].days) / 2.0;
}

}  // namespace haymow
