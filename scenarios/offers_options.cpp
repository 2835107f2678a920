#include "scenarios/offers_options.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/diagnostic.h"
#include "feeds/quantity.h"
#include "model/naming.h"
#include "scenarios/curves_options.h"
#include "scenarios/files.h"
#include "scenarios/price_list.h"

namespace haymow {
namespace {

// A misspelt feed must not pass for one that is left out.
void check_on_offer(const std::string& feed, std::string_view option,
                    const std::vector<Offer>& offers) {
  const bool known = std::any_of(offers.begin(), offers.end(),
                                 [&](const Offer& offer) { return refers_to(feed, offer); });
  if (known) return;
  std::vector<std::string> names;
  for (const Offer& offer : offers) names.push_back(offer.name);
  std::string text = fmt::format("{}: nothing on offer is called `{}`", option, feed);
  const auto near = near_names(feed, names);
  if (!near.empty()) text += fmt::format("; did you mean `{}`?", near.front());
  throw UsageError(text);
}

// "oats: 1 kg"; the amount stands behind the last colon.
std::pair<std::string, KgAsFed> feed_and_amount(const std::string& word) {
  const auto colon = word.rfind(':');
  if (colon == std::string::npos || colon == 0) {
    throw UsageError(fmt::format(
        "--with takes a feed and the least of it a day, such as \"oats: 1 kg\", not `{}`", word));
  }
  const auto amount = read_amount(word.substr(colon + 1), feed_amount(), Sign::positive);
  if (!amount.value) {
    throw UsageError(fmt::format("--with {}: {}; {}", word.substr(0, colon),
                                 amount.complaint->message, amount.complaint->help));
  }
  return {word.substr(0, colon), KgAsFed{*amount.value}};
}

}  // namespace

OffersOptions offers_options(const OffersWords& words, Scenario& scenario) {
  OffersOptions options;
  options.alternatives.count = static_cast<std::size_t>(words.count);
  options.alternatives.margin = words.margin_percent / 100.0;
  options.without = words.without;
  for (const std::string& word : words.with) options.with.push_back(feed_and_amount(word));
  if (words.only) {
    PriceList list = read_price_list(read_whole(*words.only), *words.only, scenario);
    options.only = std::move(list.offers);
    scenario.remarks.insert(scenario.remarks.end(), list.remarks.begin(), list.remarks.end());
  }
  const std::vector<Offer> on_offer = with_choice(scenario, options).stable.offers;
  for (const std::string& feed : options.without) check_on_offer(feed, "--without", on_offer);
  for (const auto& [feed, amount] : options.with) check_on_offer(feed, "--with", on_offer);
  for (const std::string& word : words.prices) {
    options.curves.prices.push_back(price_asked(word, on_offer));
  }
  for (const std::string& word : words.limits) {
    options.curves.limits.push_back(limit_asked(word));
    check_units(options.curves.limits.back(), scenario);
  }
  if (words.curves && !options.curves.any()) {
    throw UsageError("--curves writes the points of --price and --limit; ask for one of them");
  }
  return options;
}

}  // namespace haymow
