// A season of which the end, the prices, the bales or what is in the forage are only known
// as ranges: planned anew for one draw after another, each as by one who knows it from the
// first day.
//
// So a cost told here is that of perfect foresight: no one does better. Doubts of different
// kinds are drawn apart; each has one draw for the whole season, since one field was
// baled, and sampled, on one day.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "model/chance.h"
#include "model/season_failure.h"
#include "model/season_plan.h"

namespace haymow {

/// So many winters in ten are what is planned for (common practice, no source).
inline constexpr double most_winters = 0.9;

struct SeasonDoubt {
  std::optional<Triangle> days_more;  // the season ends so many later; rounded to whole ones
  std::vector<FeedDoubt> feeds;       // each offer once at most
  std::uint64_t seed = 1;
  int draws = 0;
};

/// What one draw turns out to be: shares of what is told.
struct DrawnFeed {
  std::size_t offer = 0;
  double price = 1.0;
  double bale = 1.0;
  double energy = 1.0;
  double crude_protein = 1.0;
};
struct DrawnSeason {
  int days_more = 0;
  std::vector<DrawnFeed> feeds;  // one for each of SeasonDoubt::feeds
};

/// The season of the length drawn, with what the feeds drawn are made of; at the prices
/// and with the bales as told.
using SeasonOfDraw = std::function<SeasonQuestion(const DrawnSeason&)>;

struct SeasonDraw {
  SeasonStatus status = SeasonStatus::failed;  // found: certified
  DrawnSeason drawn;
  Money cost;                     // the least, amounts of any size
  std::vector<double> bought_kg;  // through the gate, one an offer, of bales as heavy as drawn
  std::vector<double> bought_as_told_kg;  // the same count of bales, at the weight told
  std::optional<SeasonFailure> failure;   // none: of the first few such draws
};

struct EnoughAmount {
  double kg = 0.0;
  std::optional<int> packs;  // whole ones, where the feed comes in packs
};
/// The order that is enough in nine draws of ten: how it is found says season_enough.h.
struct EnoughOrder {
  std::vector<EnoughAmount> as_told;  // one an offer, of bales as heavy as told
  int winters_each = 0;  // draws in which a feed's amount is all that is bought of that feed
  int winters_all = 0;   // draws known to be fed by all of it at once
};

/// Draws are finished one after another; a stop or the end of the time leaves those that
/// are. A draw without a plan is one of them.
struct SeasonChances {
  std::vector<SeasonDraw> draws;
  int asked = 0;  // how many there were to be
  std::uint64_t seed = 1;
  std::optional<EnoughOrder> enough;  // absent: too few draws have a plan

  [[nodiscard]] bool all_done() const { return static_cast<int>(draws.size()) == asked; }
  /// `none`: without a plan; `failed`: of which our arithmetic knows nothing.
  [[nodiscard]] int count_of(SeasonStatus status) const;
  /// Of all draws; one without a plan, or not known, costs more than any.
  [[nodiscard]] QuantileTold cost(double p) const;
};

/// The time limit of `options` is that of all draws together; packs are not whole.
/// Throws std::invalid_argument for ranges out of order or shares that are not above 0.
[[nodiscard]] SeasonChances season_chances(const SeasonOfDraw& season, const SeasonDoubt& doubt,
                                           const SeasonOptions& options = {});

/// The question of one draw, at its prices and with bales as heavy as drawn.
[[nodiscard]] SeasonQuestion question_of_draw(const SeasonOfDraw& season, const DrawnSeason& drawn);

/// The question with bales of such a share of their weight, or a feed at such a share of
/// its price. What is counted in bales stays as many.
[[nodiscard]] SeasonQuestion with_weight(SeasonQuestion question, std::size_t offer, double share);
[[nodiscard]] SeasonQuestion with_price(SeasonQuestion question, std::size_t offer, double share);

/// The feed with such shares of its energy and of its crude protein; its lysine is the
/// same part of the protein.
[[nodiscard]] Feed with_quality(Feed feed, double energy, double crude_protein);

}  // namespace haymow
