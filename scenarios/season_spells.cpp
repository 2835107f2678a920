#include "scenarios/season_spells.h"

#include <algorithm>
#include <cmath>

#include "model/weighing.h"

namespace haymow {
namespace {

bool same(const std::vector<SpellFeed>& a, const std::vector<SpellFeed>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
    return x.offer == y.offer && x.put_out_kg == y.put_out_kg;
  });
}

bool same(const std::vector<FeedingSpell>& a, const std::vector<FeedingSpell>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
    return x.first_week == y.first_week && same(x.feeds, y.feeds);
  });
}

std::vector<SpellFeed> feeds_in(const SeasonQuestion& question, const std::vector<double>& eaten) {
  std::vector<SpellFeed> feeds;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    const Offer& offer = question.offers[f];
    const double kg = in_steps(offer.put_out(KgAsFed{eaten[f]}), offer.feed.group);
    if (kg > 0.0) feeds.push_back({f, kg});
  }
  std::stable_sort(feeds.begin(), feeds.end(), [&](const SpellFeed& a, const SpellFeed& b) {
    const bool a_first = !question.offers[a.offer].feed.is_bucket_feed();
    const bool b_first = !question.offers[b.offer].feed.is_bucket_feed();
    return a_first != b_first ? a_first : a.put_out_kg > b.put_out_kg;
  });
  return feeds;
}

}  // namespace

double in_steps(KgAsFed put_out, FeedGroup group) {
  for (const Fineness fineness : {Fineness::usual, Fineness::fine}) {
    const double step = weighing_of(group, fineness).step.in_kg();
    const double steps = std::round(put_out.in_kg() / step);
    if (steps >= 1.0) return steps * step;
  }
  return 0.0;
}

std::vector<FeedingSpell> spells_of_horse(const SeasonQuestion& question, const SeasonPlan& plan,
                                          std::size_t horse) {
  std::vector<FeedingSpell> spells;
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    std::vector<SpellFeed> feeds = feeds_in(question, plan.eaten[horse][w]);
    if (!spells.empty() && same(spells.back().feeds, feeds)) {
      spells.back().last_week = w;
    } else {
      spells.push_back({w, w, std::move(feeds)});
    }
  }
  return spells;
}

std::vector<FedAlike> fed_alike(const SeasonQuestion& question, const SeasonPlan& plan) {
  std::vector<FedAlike> groups;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    std::vector<FeedingSpell> spells = spells_of_horse(question, plan, h);
    const auto known = std::find_if(groups.begin(), groups.end(), [&](const FedAlike& group) {
      return same(group.spells, spells);
    });
    if (known != groups.end()) {
      known->horses.push_back(h);
    } else {
      groups.push_back({{h}, std::move(spells)});
    }
  }
  return groups;
}

std::vector<ChangeDay> change_days(const SeasonQuestion& question, const SeasonPlan& plan) {
  std::vector<ChangeDay> days;
  for (std::size_t w = 1; w < question.weeks.size(); ++w) days.push_back({w, {}});
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    for (const FeedingSpell& spell : spells_of_horse(question, plan, h)) {
      if (spell.first_week > 0) days[spell.first_week - 1].horses.push_back(h);
    }
  }
  std::erase_if(days, [](const ChangeDay& day) { return day.horses.empty(); });
  return days;
}

}  // namespace haymow
