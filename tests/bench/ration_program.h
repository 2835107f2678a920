// The program of a real ration: sixty feeds of the built-in table at drawn
// prices, for a horse of drawn weight and work, formulated as `haymow ration`
// formulates it. Prices are drawn around what a bag of the group might cost;
// they decide which feeds win, not how hard the program is.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <random>
#include <stdexcept>
#include <vector>

#include "feeds/feed_table.h"
#include "model/formulate.h"
#include "solver/solve.h"

namespace haymow::bench {

inline constexpr std::size_t feeds_on_offer = 60;

/// Money a kilogram as fed around which prices of a group are drawn.
inline double usual_price(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::straw:
      return 0.1;
    case FeedGroup::hay:
    case FeedGroup::haylage:
      return 0.25;
    case FeedGroup::dried_forage:
      return 0.9;
    case FeedGroup::oil:
      return 2.5;
    case FeedGroup::balancer:
      return 1.4;
    case FeedGroup::supplement:
      return 7.0;
    default:
      return 0.65;
  }
}

/// Draws until a ration exists. The same seed gives the same question.
inline RationQuestion ration_question(std::uint32_t seed) {
  constexpr std::array work{WorkLevel::light, WorkLevel::moderate, WorkLevel::heavy};
  std::mt19937 draw(seed);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  const HighestKnown highest = highest_known(feed_table());
  for (int attempt = 0; attempt < 100; ++attempt) {
    std::vector<Feed> feeds;
    for (const Feed& feed : feed_table()) {
      if (!feed.has(FeedTrait::concentrated)) feeds.push_back(feed);
    }
    std::shuffle(feeds.begin(), feeds.end(), draw);
    RationQuestion question;
    question.horse.name = "horse";
    question.horse.bodyweight = Bodyweight{400.0 + 250.0 * share(draw)};
    question.horse.stage = Working{work[draw() % work.size()]};
    question.needs = nrc_2007(question.horse);
    question.limits = limits_for(question.horse);
    question.meals = 2;
    question.highest = highest;
    for (std::size_t i = 0; i < feeds_on_offer; ++i) {
      const double price = usual_price(feeds[i].group) * (0.6 + 0.8 * share(draw));
      question.offers.push_back(unpriced(feeds[i]));
      question.offers.back().price_per_kg = Money{price};
    }
    if (solve(formulate(question).program).status == Status::optimal) return question;
  }
  throw std::runtime_error("no ration in a hundred draws");
}

inline LinearProgram ration_program(std::uint32_t seed) {
  return formulate(ration_question(seed)).program;
}

}  // namespace haymow::bench
