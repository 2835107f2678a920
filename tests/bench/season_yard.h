// A yard through a winter, drawn from a seed: horses whose work changes by month, feeds
// of the table at prices that change by month, a barn and a feed room that fill up,
// some hay on hand, haylage that does not keep.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "feeds/feed_table.h"
#include "model/season.h"
#include "tests/bench/ration_program.h"

namespace haymow::bench {

struct YardSize {
  std::size_t horses = 5;
  std::size_t weeks = 26;
  std::size_t feeds = 20;
};

inline std::vector<Feed> yard_feeds(std::size_t count, std::mt19937& draw) {
  std::vector<Feed> others;
  std::vector<Feed> feeds;
  for (const char* name :
       {"meadow hay, average", "meadow hay, late cut", "haylage, meadow", "oat straw",
        "balancer pellet", "vitamin and mineral powder", "limestone flour", "salt"}) {
    feeds.push_back(*find_feed(name));
  }
  for (const Feed& feed : feed_table()) {
    const bool in =
        std::any_of(feeds.begin(), feeds.end(), [&](const Feed& f) { return f.name == feed.name; });
    if (!in && !feed.has(FeedTrait::concentrated) && feed.group != FeedGroup::grass) {
      others.push_back(feed);
    }
  }
  std::shuffle(others.begin(), others.end(), draw);
  feeds.insert(feeds.end(), others.begin(),
               others.begin() + static_cast<std::ptrdiff_t>(count - feeds.size()));
  return feeds;
}

/// The same seed gives the same yard.
inline SeasonQuestion season_yard(std::uint32_t seed, const YardSize& size) {
  constexpr std::size_t weeks_in_month = 4;
  std::mt19937 draw(seed);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  SeasonQuestion yard;
  for (std::size_t w = 0; w < size.weeks; ++w) {
    const std::size_t month = w / weeks_in_month;
    if (month >= yard.months.size()) yard.months.push_back("month " + std::to_string(month + 1));
    yard.weeks.push_back({static_cast<int>(7 * w), 7, month});
  }
  const auto horses = static_cast<double>(size.horses);
  yard.stores = {{"barn", KgAsFed{horses * 500.0}, std::nullopt},
                 {"feed room", KgAsFed{horses * 100.0}, std::nullopt}};
  for (const Feed& feed : yard_feeds(size.feeds, draw)) {
    Offer offer = unpriced(feed);
    FeedSupply supply;
    const double price = usual_price(feed.group) * (0.6 + 0.8 * share(draw));
    const double rise = 0.03 * share(draw);
    for (const SeasonWeek& week : yard.weeks) {
      supply.price_per_kg.push_back(Money{price * (1.0 + rise * static_cast<double>(week.month))});
    }
    offer.price_per_kg = supply.price_per_kg.front();
    if (feed.is_long_forage()) {
      offer.waste = 0.1;
      offer.storage_loss = 0.05;
    }
    if (feed.group == FeedGroup::haylage) supply.keeps = Days{60.0};
    if (feed.group == FeedGroup::hay && share(draw) < 0.5) {
      offer.on_hand = KgAsFed{horses * 400.0 * share(draw)};
    }
    supply.store = feed.is_long_forage() ? 0 : 1;
    yard.offers.push_back(std::move(offer));
    yard.supply.push_back(std::move(supply));
  }
  const HighestKnown highest = highest_known(feed_table());
  constexpr std::array work{WorkLevel::light, WorkLevel::moderate, WorkLevel::heavy};
  for (std::size_t h = 0; h < size.horses; ++h) {
    SeasonHorse horse;
    horse.name = "horse " + std::to_string(h + 1);
    RationQuestion question;
    question.horse.name = horse.name;
    question.horse.bodyweight = Bodyweight{400.0 + 250.0 * share(draw)};
    question.offers = yard.offers;
    question.meals = 3;
    question.highest = highest;
    // Its work is another in one month of three.
    for (const SeasonWeek& week : yard.weeks) {
      const bool new_month = horse.ration_of_week.empty() ||
                             week.month != yard.weeks[horse.ration_of_week.size() - 1].month;
      if (horse.ration_of_week.empty() || (new_month && share(draw) < 1.0 / 3.0)) {
        question.horse.stage =
            share(draw) < 0.3 ? LifeStage{Idle{}} : LifeStage{Working{work.at(draw() % 2)}};
        question.needs = nrc_2007(question.horse);
        question.limits = limits_for(question.horse);
        yard.rations.push_back(question);
      }
      horse.ration_of_week.push_back(yard.rations.size() - 1);
    }
    yard.horses.push_back(std::move(horse));
  }
  return yard;
}

}  // namespace haymow::bench
