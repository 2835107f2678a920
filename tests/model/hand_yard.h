// A yard whose season can be reckoned on paper: feeds of ten megajoules a kilogram and
// no water, horses that eat a told number of kilograms a day.
#pragma once

#include <string>
#include <vector>

#include "model/season.h"
#include "tests/model/hand_made.h"

namespace haymow::hand_made {

inline constexpr double mj_per_kg_fed = 10.0;

inline Offer fed(const std::string& name, double price_per_kg = 1.0) {
  return offer_of(feed_of(name, FeedGroup::hay, 1000.0, {{Nutrient::energy, mj_per_kg_fed}}),
                  price_per_kg);
}

/// Weeks of seven days and one of what is left; four weeks to a month.
inline SeasonQuestion empty_yard(int days, std::vector<Offer> offers) {
  SeasonQuestion yard;
  for (int first = 0; first < days; first += 7) {
    const std::size_t month = yard.weeks.size() / 4;
    if (month == yard.months.size()) yard.months.push_back("month " + std::to_string(month + 1));
    yard.weeks.push_back({first, std::min(7, days - first), month});
  }
  for (const Offer& offer : offers) {
    FeedSupply supply;
    supply.price_per_kg.assign(yard.weeks.size(), offer.price_per_kg);
    supply.can_be_bought = !offer.on_hand;
    yard.supply.push_back(supply);
  }
  yard.offers = std::move(offers);
  return yard;
}

/// Eats so many kilograms a day of the feeds together, neither more nor less.
inline std::size_t add_ration(SeasonQuestion& yard, double kg_a_day) {
  RationQuestion ration =
      question_of(500.0, yard.offers, {exactly_of(Nutrient::energy, mj_per_kg_fed * kg_a_day)});
  yard.rations.push_back(std::move(ration));
  return yard.rations.size() - 1;
}

inline void add_horse(SeasonQuestion& yard, const std::string& name, std::size_t ration) {
  yard.horses.push_back({name, std::vector<std::size_t>(yard.weeks.size(), ration), std::nullopt});
}

inline SeasonQuestion yard_of(int horses, double kg_a_day, int days, std::vector<Offer> offers) {
  SeasonQuestion yard = empty_yard(days, std::move(offers));
  const std::size_t ration = add_ration(yard, kg_a_day);
  for (int h = 0; h < horses; ++h) add_horse(yard, "horse " + std::to_string(h + 1), ration);
  return yard;
}

inline void set_price(SeasonQuestion& yard, std::size_t offer, std::size_t week, double price) {
  yard.supply[offer].price_per_kg[week] = Money{price};
}

}  // namespace haymow::hand_made
