// A yard through a winter, drawn from a seed: horses whose work changes by month, feeds
// of the table at prices that change by month, a barn and a feed room that fill up,
// some hay on hand and, if asked, little more to be had; haylage that does not keep.
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
  std::size_t classes = 0;  // horses of one are alike, each with its own rations; 0: none is
  bool hay_is_short = false;
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

/// Hay of all kinds together is so much short of what the horses would eat of it; and
/// haylage, straw and dearer feeds take its place.
constexpr double usual_hay_a_day_kg = 8.0;
inline void make_hay_short(SeasonQuestion& yard, double share_had) {
  const auto is_hay = [](const Offer& offer) { return offer.feed.group == FeedGroup::hay; };
  const auto kinds = std::count_if(yard.offers.begin(), yard.offers.end(), is_hay);
  const double all = share_had * usual_hay_a_day_kg * static_cast<double>(yard.horses.size()) *
                     static_cast<double>(days_in_week) * static_cast<double>(yard.weeks.size());
  for (std::size_t f = 0; f < yard.offers.size(); ++f) {
    if (!is_hay(yard.offers[f])) continue;
    const double on_hand = yard.offers[f].on_hand ? yard.offers[f].on_hand->in_kg() : 0.0;
    yard.supply[f].can_be_had = KgAsFed{std::max(0.0, all / static_cast<double>(kinds) - on_hand)};
  }
}

inline void add_feeds(SeasonQuestion& yard, const YardSize& size, std::mt19937& draw) {
  std::uniform_real_distribution<double> share(0.0, 1.0);
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
      offer.on_hand = KgAsFed{static_cast<double>(size.horses) * 400.0 * share(draw)};
    }
    supply.store = feed.is_long_forage() ? 0 : 1;
    yard.offers.push_back(std::move(offer));
    yard.supply.push_back(std::move(supply));
  }
}

/// Its work is another in one month of three.
inline SeasonHorse drawn_horse(SeasonQuestion& yard, const HighestKnown& highest,
                               std::mt19937& draw) {
  constexpr std::array work{WorkLevel::light, WorkLevel::moderate};
  std::uniform_real_distribution<double> share(0.0, 1.0);
  SeasonHorse horse;
  RationQuestion question;
  question.horse.bodyweight = Bodyweight{400.0 + 250.0 * share(draw)};
  question.offers = yard.offers;
  question.meals = 3;
  question.highest = highest;
  for (const SeasonWeek& week : yard.weeks) {
    const bool new_month = horse.ration_of_week.empty() ||
                           week.month != yard.weeks[horse.ration_of_week.size() - 1].month;
    if (horse.ration_of_week.empty() || (new_month && share(draw) < 1.0 / 3.0)) {
      question.horse.stage =
          share(draw) < 0.3 ? LifeStage{Idle{}} : LifeStage{Working{work.at(draw() % work.size())}};
      question.needs = nrc_2007(question.horse);
      question.limits = limits_for(question.horse);
      yard.rations.push_back(question);
    }
    horse.ration_of_week.push_back(yard.rations.size() - 1);
  }
  return horse;
}

/// With rations of its own that ask for the same.
inline SeasonHorse copied_horse(SeasonQuestion& yard, std::size_t from) {
  SeasonHorse horse = yard.horses[from];
  const std::size_t first = horse.ration_of_week.front();
  const std::size_t copies = yard.rations.size();
  for (std::size_t r = first; r <= horse.ration_of_week.back(); ++r) {
    yard.rations.push_back(RationQuestion(yard.rations[r]));
  }
  for (std::size_t& ration : horse.ration_of_week) ration = copies + ration - first;
  return horse;
}

/// The same seed gives the same yard.
inline SeasonQuestion season_yard(std::uint32_t seed, const YardSize& size) {
  constexpr std::size_t weeks_in_month = 4;
  std::mt19937 draw(seed);
  SeasonQuestion yard;
  for (std::size_t w = 0; w < size.weeks; ++w) {
    const std::size_t month = w / weeks_in_month;
    if (month >= yard.months.size()) yard.months.push_back("month " + std::to_string(month + 1));
    yard.weeks.push_back({static_cast<int>(7 * w), 7, month});
  }
  const auto horses = static_cast<double>(size.horses);
  yard.stores = {{"barn", KgAsFed{horses * 500.0}, std::nullopt},
                 {"feed room", KgAsFed{horses * 100.0}, std::nullopt}};
  add_feeds(yard, size, draw);
  const HighestKnown highest = highest_known(feed_table());
  for (std::size_t h = 0; h < size.horses; ++h) {
    const bool is_alike = size.classes > 0 && h >= size.classes;
    SeasonHorse horse =
        is_alike ? copied_horse(yard, h % size.classes) : drawn_horse(yard, highest, draw);
    horse.name = "horse " + std::to_string(h + 1);
    yard.horses.push_back(std::move(horse));
  }
  if (size.hay_is_short) {
    make_hay_short(yard, 0.4 + 0.3 * std::uniform_real_distribution<double>(0.0, 1.0)(draw));
  }
  return yard;
}

}  // namespace haymow::bench
