#include "scenarios/fed_now.h"

#include <optional>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "feeds/feed_table.h"
#include "model/naming.h"

namespace haymow {
namespace {

// A keeper's word for what is fed: an offer by its own name first, then by what
// it is, then a feed of the table that is not on offer.
std::optional<std::size_t> offer_index(std::string_view word, const std::vector<Offer>& offers) {
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (offers[i].name == word) return i;
  }
  const Feed* feed = find_feed(word);
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (feed != nullptr && offers[i].feed.name == feed->name) return i;
  }
  for (std::size_t i = 0; i < offers.size(); ++i) {
    if (refers_to(word, offers[i])) return i;
  }
  return std::nullopt;
}

}  // namespace

FedNow fed_now_of(const Horse& horse, const std::vector<Offer>& offers) {
  FedNow now;
  now.offers = offers;
  std::vector<std::pair<std::size_t, double>> fed;
  for (const auto& [word, amount] : horse.fed_now) {
    auto index = offer_index(word, now.offers);
    if (!index) {
      const Feed* feed = find_feed(word);
      if (feed == nullptr) throw std::logic_error("a feed that the reader let through: " + word);
      index = now.offers.size();
      now.offers.push_back(unpriced(*feed));
      now.extra.push_back(feed->name);
    }
    // The keeper says what is put out; what is wasted feeds nobody.
    fed.emplace_back(*index, now.offers[*index].eaten(amount).in_kg());
  }
  now.amounts.assign(now.offers.size(), 0.0);
  for (const auto& [index, kg] : fed) now.amounts[index] += kg;
  return now;
}

bool add_grazed(FedNow& fed, const RationQuestion& question) {
  for (std::size_t i = 0; i < fed.offers.size(); ++i) {
    if (fed.offers[i].feed.group == FeedGroup::grass && fed.amounts[i] > 0.0) return false;
  }
  if (question.grass) {
    const GrassToday& grass = *question.grass;
    fed.amounts[grass.offer] = fed.offers[grass.offer].feed.as_fed(grass.most).in_kg();
  }
  return true;
}

}  // namespace haymow
