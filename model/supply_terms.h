// How a feed is sold and kept through a season, beside what it costs on the first
// day: prices by month and by quantity, packs, loads, what can be had, what it takes
// of a store. What one ration asks is in Offer; what a plan makes of this, in season.h.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "model/pasture.h"
#include "model/source_position.h"
#include "model/units.h"

namespace haymow {

/// A price that holds for the whole of an order of at least so much.
struct PriceFrom {
  KgAsFed from;
  Money price_per_kg;
};

/// What a load costs to bring, whatever is on it.
struct LoadCharge {
  Money charge;
  KgAsFed load;
};

struct SupplyTerms {
  /// January first; absent: the offer's own price holds in that month.
  std::array<std::optional<Money>, months_in_year> price_per_kg = {};
  std::optional<KgAsFed> pack;            // bought in whole ones; absent: by weight
  std::string pack_name;                  // "bag", "round bale"
  std::vector<PriceFrom> cheaper;         // by rising amount and falling price
  std::optional<LoadCharge> by_the_load;  // absent: the offer's delivery a kilogram
  std::optional<KgAsFed> least_order;
  /// On the first day of the season. Offer::on_hand has in it what can be had besides,
  /// since one ration for the whole season may use both.
  std::optional<KgAsFed> on_hand;
  /// What is on hand is all there is, unless the keeper says that more can be had.
  bool can_be_bought = true;
  std::optional<KgAsFed> can_be_had;  // the most; absent: as much as wanted
  std::optional<Days> keeps;          // unopened, from the day it comes
  std::optional<Days> keeps_opened;
  std::string kept_in;  // the name of a store; empty: not told
  SourcePosition kept_in_position;
  std::optional<double> cubic_metres_per_kg;  // as stacked; absent: not known
};

}  // namespace haymow
