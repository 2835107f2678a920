#include "scenarios/curves_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "feeds/diagnostic.h"
#include "feeds/feed_table.h"
#include "feeds/plain_text.h"
#include "feeds/quantity.h"
#include "feeds/trade_terms.h"
#include "model/naming.h"
#include "scenarios/command_line.h"
#include "scenarios/limit_names.h"

namespace haymow {
namespace {

/// What the word means, on offer or in the table; its name and, in the table, the feed.
struct Meant {
  std::string name;
  const Offer* offer = nullptr;
  const Feed* feed = nullptr;
};

std::vector<Meant> meanings(const std::string& word, const std::vector<Offer>& offers) {
  std::vector<Meant> found;
  for (const Offer& offer : offers) {
    if (same_text(word, offer.name)) return {{offer.name, &offer, nullptr}};
    if (refers_to(word, offer)) found.push_back({offer.name, &offer, nullptr});
  }
  if (!found.empty()) return found;
  if (const Feed* feed = find_feed(word)) return {{feed->name, nullptr, feed}};
  for (const Feed& feed : feed_table()) {
    if (refers_to(word, feed)) found.push_back({feed.name, nullptr, &feed});
  }
  return found;
}

[[noreturn]] void no_such_feed(const std::string& word, const std::vector<Offer>& offers) {
  std::vector<std::string> names;
  for (const Offer& offer : offers) names.push_back(offer.name);
  for (const Feed& feed : feed_table()) names.push_back(feed.name);
  std::string text =
      fmt::format("--price: no feed on offer and none of the feed table is called `{}`", word);
  const auto near = near_names(word, names);
  if (!near.empty()) text += fmt::format("; did you mean `{}`?", near.front());
  throw UsageError(text);
}

constexpr std::size_t most_meanings_told = 6;

[[noreturn]] void several_feeds(const std::string& word, const std::vector<Meant>& meant) {
  std::vector<std::string> names;
  for (const Meant& m : meant) {
    if (names.size() < most_meanings_told) names.push_back(ticked(m.name));
  }
  throw UsageError(fmt::format("--price: `{}` can be {}{}; name one", word, either_of(names),
                               meant.size() > names.size() ? " and more" : ""));
}

/// A word and, behind its last colon, the ends; a name may have a colon of its own.
std::pair<std::string, std::string> word_and_ends(const std::string& words) {
  const auto colon = words.rfind(':');
  if (colon == std::string::npos || colon == 0) return {std::string(trimmed(words)), ""};
  return {std::string(trimmed(words.substr(0, colon))),
          std::string(trimmed(words.substr(colon + 1)))};
}

struct Ends {
  std::optional<double> from;
  std::string to_with_unit;
};

/// "8 to 20 per bag" is 8 and "20 per bag".
Ends ends_of(const std::string& text, std::string_view option, std::string_view example) {
  const auto joint = text.find(" to ");
  if (joint == std::string::npos) {
    throw UsageError(fmt::format("{}: `{}` is no range; write `{}`", option, text, example));
  }
  const auto from = read_bare_number(trimmed(std::string_view(text).substr(0, joint)));
  if (!from.value) {
    throw UsageError(
        fmt::format("{}: `{}`: {}; write the unit once, behind the second number: "
                    "`{}`",
                    option, text, from.complaint->message, example));
  }
  return {from.value, std::string(trimmed(text.substr(joint + 4)))};
}

/// The pack of a price as written, where its weight is told or the offer's own.
Pack pack_in(const Price& price, const std::string& written, const Pack& own,
             const std::string& option) {
  const auto per = written.rfind("per ");
  const std::string words = per == std::string::npos ? "" : written.substr(per + 4);
  if (price.measure.kg && *price.measure.kg > 0.0) return {words, KgAsFed{*price.measure.kg}};
  const bool is_own = !price.measure.pack.empty() && own.words.ends_with(price.measure.pack);
  if (is_own && price.measure.packs.value_or(0.0) > 0.0) {
    return {own.words, own.holds * *price.measure.packs};
  }
  throw UsageError(
      fmt::format("{}: what is in `{}` is not known; write its weight, such as `per "
                  "20 kg bag`",
                  option, written));
}

void read_price_ends(const std::string& text, PriceAsked& asked) {
  constexpr std::string_view example = "oats: 8 to 20 per 20 kg bag";
  const std::string option = "--price " + asked.feed;
  const bool unit_alone = text.starts_with("per ");
  const Ends ends = unit_alone ? Ends{} : ends_of(text, option, example);
  const std::string written = unit_alone ? "0 " + text : ends.to_with_unit;
  const auto price = read_price(written);
  if (!price.value) {
    throw UsageError(
        fmt::format("{}: {}; {}", option, price.complaint->message, price.complaint->help));
  }
  asked.pack = pack_in(*price.value, written, asked.pack, option);
  if (unit_alone) return;
  asked.from = Money{*ends.from} / asked.pack.holds.in_kg();
  asked.to = Money{price.value->money} / asked.pack.holds.in_kg();
  if (*asked.from < Money{} || *asked.to <= *asked.from) {
    throw UsageError(
        fmt::format("{}: `{}` does not go up from a price to a higher one", option, text));
  }
}

}  // namespace

PriceAsked price_asked(const std::string& words, const std::vector<Offer>& offers) {
  std::string word(trimmed(words));
  std::string ends;
  if (meanings(word, offers).empty()) std::tie(word, ends) = word_and_ends(words);
  const std::vector<Meant> meant = meanings(word, offers);
  if (meant.empty()) no_such_feed(word, offers);
  if (meant.size() > 1) several_feeds(word, meant);
  const Meant& one = meant.front();
  const Feed& feed = one.offer != nullptr ? one.offer->feed : *one.feed;
  if (feed.group == FeedGroup::grass) {
    throw UsageError(fmt::format("--price: `{}` is grazed, not bought", one.name));
  }
  PriceAsked asked;
  asked.feed = one.name;
  if (one.feed != nullptr) asked.supposed = *one.feed;
  asked.pack = one.offer != nullptr ? pack_of(*one.offer) : usual_pack(feed.group);
  if (!ends.empty()) read_price_ends(ends, asked);
  return asked;
}

LimitAsked limit_asked(const std::string& words) {
  std::string word(trimmed(words));
  std::string ends;
  if (!limit_named(word)) std::tie(word, ends) = word_and_ends(words);
  const auto named = limit_named(word);
  if (!named) {
    std::vector<std::string> names;
    for (const LimitName& known : limit_names()) names.push_back(known.name);
    std::string text = fmt::format("--limit: no limit is called `{}`", word);
    const auto near = near_names(word, names);
    if (!near.empty()) text += fmt::format("; did you mean `{}`?", near.front());
    throw UsageError(fmt::format("{}\nknown: {}", text, fmt::join(names, ", ")));
  }
  LimitAsked asked{named->name, named->id, {}, {}, ""};
  if (ends.empty()) return asked;
  const std::string option = "--limit " + asked.name;
  if (asked.id.empty()) {
    throw UsageError(fmt::format("{} takes no range: it counts from one", option));
  }
  const Ends read = ends_of(ends, option, "starch a day: 300 to 900 g");
  const auto to = read_leading_number(read.to_with_unit);
  if (!to.value) throw UsageError(fmt::format("{}: {}", option, to.complaint->message));
  asked.from = read.from;
  asked.to = to.value->number;
  asked.unit = to.value->rest;
  if (*asked.from < 0.0 || *asked.to <= *asked.from) {
    throw UsageError(
        fmt::format("{}: `{}` does not go up from a number to a higher one", option, ends));
  }
  return asked;
}

void check_units(const LimitAsked& asked, const Scenario& scenario) {
  if (!asked.to) return;
  for (const Horse& horse : scenario.stable.horses) {
    const RationQuestion question =
        question_for(horse, scenario.stable.offers, horse.meals.value_or(1));
    const auto limit = movable_limit(question, formulate(question), asked.id, {});
    if (!limit) continue;
    const std::string& unit = limit->row.unit;
    // "%" for "% of the dry matter", "kg" for "kg dry matter".
    if (unit == asked.unit || (!asked.unit.empty() && unit.starts_with(asked.unit + " "))) return;
    throw UsageError(
        fmt::format("--limit {}: its unit is `{}`, not `{}`", asked.name, unit, asked.unit));
  }
}

}  // namespace haymow
