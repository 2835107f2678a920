// What a yard asks of a season: its horses week by week, what each feed costs when
// and how it comes, and where it is kept. Plain values; season_program.h makes one
// linear program of them, season_plan.h the plan.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/formulate.h"

namespace haymow {

inline constexpr int days_in_week = 7;

/// A stretch of the season planned as one: seven days, or what is left of them at
/// the end or at the turn of a spell.
struct SeasonWeek {
  int first_day = 0;      // days after the first of the season
  int days = 7;           // at least 1
  std::size_t month = 0;  // counted over the season: of SeasonQuestion::months
};

/// A place to keep feed in. Absent: as much as wanted. Counted as it came through the
/// gate: a bale that has lost a tenth takes the room it took. Where more is on hand
/// on the first day than the room told, there is room for so much.
struct Store {
  std::string name;
  std::optional<KgAsFed> room;              // whatever feed it is
  std::optional<double> room_cubic_metres;  // by the volume of the bales
};

/// From an order of so much on, the whole of it is cheaper than the price of the week.
struct QuantityPrice {
  KgAsFed from;
  Money less_per_kg;  // taken off; never so much that the price falls below nothing
};

/// What a delivery costs, whatever is on it up to the load.
struct DeliveryTerms {
  Money charge;
  KgAsFed load;
};

/// How one offer is bought and kept through the season.
struct FeedSupply {
  /// As bought, without delivery, one a week. What is on hand is reckoned at the first
  /// of them, with the offer's delivery a kilogram.
  std::vector<Money> price_per_kg;
  bool can_be_bought = true;              // false: only what is on hand
  std::optional<KgAsFed> can_be_had;      // the most the market has in the season
  std::optional<KgAsFed> pack;            // bought in whole ones; absent: loose
  std::string pack_name;                  // "bag", "round bale"
  std::vector<QuantityPrice> cheaper;     // by rising `from`
  std::optional<DeliveryTerms> delivery;  // absent: the offer's delivery a kilogram
  std::optional<KgAsFed> least_order;
  /// Unopened, from the day it comes; what is on hand from the first day of the season.
  /// Under two weeks: fed in the week it comes, if need be from more than one delivery.
  std::optional<Days> keeps;
  std::optional<Days> keeps_opened;  // a bag or bale once it is open
  std::optional<std::size_t> store;  // of SeasonQuestion::stores
  double cubic_metres_per_kg = 0.0;  // in the store; 0 where the store has no such limit
};

/// One horse through the season.
struct SeasonHorse {
  std::string name;
  std::vector<std::size_t> ration_of_week;  // of SeasonQuestion::rations, one a week
  /// Fed on the day before the season, kg as fed eaten a day, one an offer; absent:
  /// not known, and the first week is not a change.
  std::optional<std::vector<double>> fed_before;
  /// Days that a whole change of feed takes at the least, one a week; empty: the usual
  /// (change_plan.h). At least 1; only to find out what stands in a plan's way.
  std::vector<int> change_days = {};
};

struct SeasonQuestion {
  std::vector<SeasonWeek> weeks;
  std::vector<std::string> months;  // "2026-11", in order
  std::vector<Offer> offers;        // on_hand: on the first day
  std::vector<FeedSupply> supply;   // one an offer
  std::vector<Store> stores;
  std::vector<std::optional<Money>> budget;  // one a month; empty: none
  /// Each question once, with `offers`, and after them the grass of the day where it
  /// has some. No stock in it: that is the season's business.
  std::vector<RationQuestion> rations;
  std::vector<SeasonHorse> horses;
};

}  // namespace haymow
