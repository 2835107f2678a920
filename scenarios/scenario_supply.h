// How a feed on offer is sold and kept: prices by month and by quantity, packs,
// loads, what can be had, how long it keeps and where.
#pragma once

#include <functional>
#include <optional>

#include "feeds/map_reader.h"
#include "feeds/trade_terms.h"
#include "model/stable.h"

namespace haymow {

/// Kilograms of a measure that stands in an entry; absent, and reported, where nobody
/// can know what a pack weighs.
using KilogramsOf = std::function<std::optional<KgAsFed>(const YamlEntry&, const Measure&)>;

/// What the price and the delivery of the offer were for; absent where they could not
/// be read, or are not there.
struct PricedBy {
  std::optional<Measure> price;
  std::optional<Measure> stock;
  std::optional<Measure> delivery;
};

/// Reads the terms of an offer whose price, delivery and stock have been read.
void read_supply(const MapReader& map, const PricedBy& by, const KilogramsOf& in_kg, Offer& offer);

}  // namespace haymow
