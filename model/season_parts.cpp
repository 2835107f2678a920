#include "model/season_parts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>
#include <utility>

#include "solver/implied_rows.h"
#include "solver/proportion.h"

namespace haymow {
namespace {

constexpr double same_factor = 1e-12;

void require(bool holds, const char* what) {
  if (!holds) throw std::invalid_argument(what);
}

void check(const SeasonQuestion& question) {
  const std::size_t weeks = question.weeks.size();
  require(weeks > 0, "a season has no week");
  for (const SeasonWeek& week : question.weeks) {
    require(week.days >= 1, "a week of a season has no day");
    require(week.month < question.months.size(), "a week of a season is in no month");
  }
  require(question.supply.size() == question.offers.size(), "not one supply an offer");
  for (const FeedSupply& supply : question.supply) {
    require(supply.price_per_kg.size() == weeks, "not one price a week");
    require(!supply.store || *supply.store < question.stores.size(), "no such store");
    require(!supply.pack || supply.pack->in_kg() > 0.0, "a pack weighs nothing");
  }
  require(question.budget.empty() || question.budget.size() == question.months.size(),
          "not one budget a month");
  for (const RationQuestion& ration : question.rations) {
    const std::size_t grass = ration.grass ? 1 : 0;
    require(ration.offers.size() == question.offers.size() + grass,
            "a ration is not of the offers of the season");
    require(!ration.grass || ration.grass->offer == question.offers.size(),
            "grass is not behind the offers");
  }
  for (const SeasonHorse& horse : question.horses) {
    require(horse.ration_of_week.size() == weeks, "not one ration a week");
    for (const std::size_t ration : horse.ration_of_week) {
      require(ration < question.rations.size(), "no such ration");
    }
    require(horse.change_days.empty() || horse.change_days.size() == weeks,
            "not the days of a change for every week");
    for (const int days : horse.change_days) require(days >= 1, "a change of feed takes no day");
    require(!horse.fed_before || horse.fed_before->size() == question.offers.size(),
            "what was fed before is not of the offers");
  }
}

/// Finds out which horses go together.
class Herding {
 public:
  Herding(const SeasonQuestion& question, const std::vector<Formulation>& formulations)
      : question_(question), formulations_(formulations) {}

  /// By what the bounds of `base` become those of `other`, in every week.
  [[nodiscard]] std::optional<double> factor(std::size_t base, std::size_t other) {
    const SeasonHorse& a = question_.horses[base];
    const SeasonHorse& b = question_.horses[other];
    std::optional<double> common;
    std::optional<std::pair<std::size_t, std::size_t>> seen;
    for (std::size_t w = 0; w < a.ration_of_week.size(); ++w) {
      const std::pair pair{a.ration_of_week[w], b.ration_of_week[w]};
      if (seen == pair) continue;
      seen = pair;
      const auto here = between(pair.first, pair.second);
      if (!here || (common && std::abs(*here - *common) > same_factor * *common))
        return std::nullopt;
      common = here;
    }
    if (!common || !same_start(a, b, *common)) return std::nullopt;
    return common;
  }

 private:
  [[nodiscard]] std::optional<double> between(std::size_t a, std::size_t b) {
    if (a == b) return 1.0;
    const auto known = known_.find({a, b});
    if (known != known_.end()) return known->second;
    auto found = proportion(formulations_[a].program, formulations_[b].program);
    if (found) {
      // How fast a bucket feed may rise is told in kilograms, whatever the horse weighs.
      bool any = false;
      for (std::size_t f = 0; f < question_.offers.size(); ++f) {
        const bool concentrate = is_concentrate(question_.rations[a], f);
        any = any || concentrate;
        if (concentrate != is_concentrate(question_.rations[b], f)) found.reset();
      }
      if (any && found && std::abs(*found - 1.0) > same_factor) found.reset();
    }
    return known_[{a, b}] = found;
  }

  static bool same_start(const SeasonHorse& a, const SeasonHorse& b, double factor) {
    if (a.change_days != b.change_days) return false;
    if (a.fed_before.has_value() != b.fed_before.has_value()) return false;
    if (!a.fed_before) return true;
    return std::equal(a.fed_before->begin(), a.fed_before->end(), b.fed_before->begin(),
                      [&](double x, double y) {
                        return std::abs(factor * x - y) <= same_factor * std::max(1.0, y);
                      });
  }

  const SeasonQuestion& question_;
  const std::vector<Formulation>& formulations_;
  std::map<std::pair<std::size_t, std::size_t>, std::optional<double>> known_;
};

std::vector<Herd> herds_of(const SeasonQuestion& question,
                           const std::vector<Formulation>& formulations, Merging merging) {
  Herding herding(question, formulations);
  std::vector<Herd> herds;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    bool joined = false;
    for (Herd& herd : herds) {
      if (merging == Merging::none) break;
      const auto factor = herding.factor(herd.horses.front(), h);
      if (!factor) continue;
      herd.horses.push_back(h);
      herd.share.push_back(*factor);  // divided below
      herd.size += *factor;
      joined = true;
      break;
    }
    if (!joined) herds.push_back({{h}, {1.0}, 1.0});
  }
  for (Herd& herd : herds) {
    for (double& share : herd.share) share /= herd.size;
  }
  return herds;
}

// Which rows the others imply is found out once for all rations that are one another's
// multiple: the points of one are those of the other times the factor, and so are the
// bounds, so that a row that the others imply in one they imply in the other. What it may
// be gone beyond, 1e-10, grows with the factor; so a kind has rations of ten times and a
// tenth its size at most, and 1e-9, what the solver allows, holds for all of them.
class ImpliedByKind {
 public:
  explicit ImpliedByKind(const std::vector<Formulation>& formulations)
      : formulations_(formulations) {}

  std::vector<bool> of(std::size_t ration) {
    const LinearProgram& program = formulations_[ration].program;
    for (const Kind& kind : kinds_) {
      const auto factor = proportion(formulations_[kind.ration].program, program);
      if (factor && *factor >= 1.0 / most_factor && *factor <= most_factor) return kind.implied;
    }
    kinds_.push_back({ration, implied_rows(program)});
    return kinds_.back().implied;
  }

 private:
  static constexpr double most_factor = 10.0;

  struct Kind {
    std::size_t ration = 0;
    std::vector<bool> implied;
  };
  const std::vector<Formulation>& formulations_;
  std::vector<Kind> kinds_;
};

}  // namespace

bool is_concentrate(const RationQuestion& ration, std::size_t offer) {
  const Feed& feed = ration.offers[offer].feed;
  return feed.is_bucket_feed() && !counts_as_forage(feed, ration.horse);
}

SeasonParts season_parts(const SeasonQuestion& question, Merging merging) {
  check(question);
  SeasonParts parts;
  for (const RationQuestion& ration : question.rations) {
    parts.formulations.push_back(formulate(ration));
  }
  ImpliedByKind implied(parts.formulations);
  for (std::size_t r = 0; r < parts.formulations.size(); ++r) {
    parts.implied.push_back(implied.of(r));
  }
  parts.herds = herds_of(question, parts.formulations, merging);
  return parts;
}

}  // namespace haymow
