// What a season's feeds cost through the gate, how long they keep and where they fit:
// figures that the program and the orders share.
#pragma once

#include <cstddef>
#include <optional>

#include "model/season.h"

namespace haymow {

/// What a kilogram of an offer costs through the gate in a week, at the least: the
/// lowest price by quantity that can be reached, and a full load's delivery.
[[nodiscard]] Money least_cost_per_kg(const SeasonQuestion& question, std::size_t offer,
                                      std::size_t week);
/// The same without anything by quantity: the price of the week, and the delivery that
/// comes by the kilogram. Of the first week it is what stock on hand is reckoned at.
[[nodiscard]] Money plain_cost_per_kg(const SeasonQuestion& question, std::size_t offer,
                                      std::size_t week);

/// Of a feed on hand on the first day, kg after what the store will lose; 0 if none.
[[nodiscard]] double opening_kg(const Offer& offer);
/// What came in week `bought` is still good through the whole of week `in`; through the
/// last day of the season for a week behind the last.
[[nodiscard]] bool still_good(const SeasonQuestion& question, std::size_t offer, std::size_t bought,
                              std::size_t in);
/// The room of a store in kg, or m3, never less than what is in it on the first day.
[[nodiscard]] std::optional<double> room_of(const SeasonQuestion& question, std::size_t store,
                                            bool volume);

/// What is opened in a week in which no open pack is older than it keeps, kg after what
/// the store loses; 0 where packs keep.
[[nodiscard]] double opened_in_time_kg(const SeasonQuestion& question, std::size_t offer,
                                       std::size_t week);

/// New feed of a day may be as much of it as the share of the usual time of a change
/// (change_plan.h) that lies between the middles of two weeks, or between the day before
/// the season and the middle of its first. `week` is the later one.
[[nodiscard]] double days_to_change(const SeasonQuestion& question, std::size_t week);

}  // namespace haymow
