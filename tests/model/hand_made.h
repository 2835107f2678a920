// Feeds, needs and limits made by hand: small enough that a test can print the
// whole program as a comment and its answer can be worked out on paper.
#pragma once

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "model/formulate.h"
#include "model/ration.h"

namespace haymow::hand_made {

/// A feed whose figures are per kg of dry matter.
inline Feed feed_of(const std::string& name, FeedGroup group, double dry_matter_g,
                    std::initializer_list<std::pair<Nutrient, double>> composition) {
  Feed feed;
  feed.name = name;
  feed.group = group;
  feed.dry_matter = {dry_matter_g, FigureOrigin::printed, "test"};
  for (const auto& [nutrient, value] : composition) {
    feed.composition[nutrient] = Figure{value, FigureOrigin::printed, "test"};
  }
  return feed;
}

inline Offer offer_of(const Feed& feed, double price_per_kg, double waste = 0.0) {
  Offer offer;
  offer.name = feed.name;
  offer.feed = feed;
  offer.price_per_kg = Money{price_per_kg};
  offer.waste = waste;
  return offer;
}

inline Requirement need_of(Nutrient nutrient, std::optional<double> floor,
                           std::optional<double> ceiling = std::nullopt) {
  Requirement need;
  need.nutrient = nutrient;
  need.floor = floor;
  need.ceiling = ceiling;
  return need;
}

/// Two equations in one: no less and no more.
inline Requirement exactly_of(Nutrient nutrient, double amount) {
  return need_of(nutrient, amount, amount);
}

/// A rule of the table with a number of its own.
inline Limit limit_of(const std::string& id, double number) {
  const Rule* rule = find_rule(id);
  if (rule == nullptr) throw std::out_of_range(id);
  return {id, rule->strength, number, std::string(rule->unit), "", "", "", rule->forced};
}

inline RationQuestion question_of(double bodyweight_kg, std::vector<Offer> offers,
                                  std::vector<Requirement> needs, std::vector<Limit> limits = {}) {
  RationQuestion question;
  question.horse.name = "Juniper";
  question.horse.bodyweight = Bodyweight{bodyweight_kg};
  question.offers = std::move(offers);
  question.needs.rows = std::move(needs);
  question.limits = std::move(limits);
  return question;
}

inline const RowMeaning& row_of(const std::vector<RowMeaning>& rows, const std::string& id) {
  const auto it =
      std::find_if(rows.begin(), rows.end(), [&](const RowMeaning& r) { return r.id == id; });
  if (it == rows.end()) throw std::out_of_range(id);
  return *it;
}

inline std::vector<std::string> ids_of(const std::vector<RowMeaning>& rows) {
  std::vector<std::string> ids;
  ids.reserve(rows.size());
  for (const RowMeaning& row : rows) ids.push_back(row.id);
  return ids;
}

inline std::vector<std::string> ids_of(const std::vector<Broken>& broken) {
  std::vector<std::string> ids;
  ids.reserve(broken.size());
  for (const Broken& each : broken) ids.push_back(each.row.id);
  return ids;
}

inline const Supply& supply_in(const Ration& ration, Nutrient nutrient) {
  const auto it = std::find_if(ration.supplies.begin(), ration.supplies.end(),
                               [&](const Supply& s) { return s.nutrient == nutrient; });
  if (it == ration.supplies.end()) throw std::out_of_range("no such need");
  return *it;
}

}  // namespace haymow::hand_made
