#include "scenarios/audit.h"

#include <algorithm>
#include <stdexcept>
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

std::vector<Audit> audit(const Scenario& scenario) {
  const std::vector<HorseAnswer> answers = run(scenario);
  std::vector<Audit> audits;
  for (const HorseAnswer& best : answers) {
    const Horse& horse = best.question.horse;
    if (horse.fed_now.empty()) continue;
    Audit audit;
    std::vector<Offer> offers = scenario.stable.offers;
    std::vector<std::pair<std::size_t, double>> fed;
    for (const auto& [word, amount] : horse.fed_now) {
      auto index = offer_index(word, offers);
      if (!index) {
        const Feed* feed = find_feed(word);
        if (feed == nullptr) throw std::logic_error("a feed that the reader let through: " + word);
        index = offers.size();
        offers.push_back({feed->name, *feed, Money{}, 0.0, {}, false, "", {}});
        audit.without_price.push_back(feed->name);
      }
      // The keeper says what is put out; what is wasted feeds nobody.
      fed.emplace_back(*index, amount.in_kg() * (1.0 - offers[*index].waste));
    }
    audit.question = question_for(horse, offers, horse.meals.value_or(best.question.meals));
    // What the keeper wishes does not make what is fed adequate or not.
    audit.question.horse.wishes.clear();
    audit.formulation = formulate(audit.question);
    audit.amounts.assign(offers.size(), 0.0);
    for (const auto& [index, kg] : fed) audit.amounts[index] += kg;
    audit.ration = ration_from(audit.question, audit.formulation, audit.amounts);
    audit.broken = broken_rows(audit.formulation.rows, audit.amounts);
    audit.doubtful = broken_rows(audit.formulation.judged, audit.amounts);
    audit.best = best;
    audits.push_back(std::move(audit));
  }
  return audits;
}

}  // namespace haymow
