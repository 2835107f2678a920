// The ration as one price or one limit moves, as far as it was asked for: exact, and
// every step of it solved again from nothing and certified. Pure, as run.h is.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/bucket_counts.h"
#include "model/feed_value.h"
#include "model/frontier.h"
#include "model/movable_limit.h"
#include "model/price_curve.h"
#include "scenarios/run.h"

namespace haymow {

/// What a price is told by: "20 kg bag", "tonne".
struct Pack {
  std::string words;
  KgAsFed holds;
};

/// The pack the keeper buys the offer in; a kilogram where no price is known.
[[nodiscard]] Pack pack_of(const Offer& offer);
/// The pack a feed is usually sold in. Common practice, no source.
[[nodiscard]] Pack usual_pack(FeedGroup group);

struct PriceAsked {
  std::string feed;              // the offer's own name, or that of a feed of the table
  std::optional<Feed> supposed;  // the feed is not on offer: somebody thinks of buying it
  Pack pack;
  std::optional<Money> from;  // a kilogram; absent: from nothing
  std::optional<Money> to;    // absent: see price_range
};

struct LimitAsked {
  std::string name;  // in a person's words
  std::string id;    // of the row; empty: the number of bucket feeds
  std::optional<double> from;
  std::optional<double> to;
  std::string unit;  // of the ends, as written
};

struct CurvesAsked {
  std::vector<PriceAsked> prices;
  std::vector<LimitAsked> limits;
  [[nodiscard]] bool any() const { return !prices.empty() || !limits.empty(); }
};

struct PricePath {
  PriceAsked asked;
  std::size_t offer = 0;
  std::vector<Offer> offers;       // the question's, a supposed feed last
  Formulation formulation;         // of those
  std::optional<FeedValue> value;  // absent: no ration, with it or without
  std::vector<PriceStep> steps;
  std::vector<Certificate> certificates;  // one a step, half-way
  std::vector<double> amounts_now;        // of the ration as it is; empty: none
};

struct LimitPath {
  LimitAsked asked;
  std::optional<MovableLimit> limit;  // absent: no such limit can be put on this horse
  Frontier frontier;
  std::vector<Certificate> certificates;  // one a corner
  std::optional<double> need;             // of the nutrient whose ceiling moves
  std::vector<BucketCount> counts;        // the number of bucket feeds
};

struct HorseCurves {
  std::vector<PricePath> prices;
  std::vector<LimitPath> limits;
  std::vector<PricePath> unused;  // feeds on offer that the ration leaves out; no steps
  bool proven = true;             // false: something did not certify, and nothing of it may be told
};

/// For one answer, what was asked and what every feed left out is worth. Without a ration: feeds
/// that are only thought of, and limits.
[[nodiscard]] HorseCurves curves_for(const HorseAnswer& answer, const CurvesAsked& asked);

}  // namespace haymow
