#include "scenarios/scenario_feed_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/feed_table.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "model/naming.h"

namespace haymow {
namespace {

/// Words of at least this many letters are looked for inside names; "a" or "no"
/// would be found anywhere.
constexpr std::size_t least_word = 3;

bool is_kind_word(const std::string& word) {
  const std::string low = lower_case(word);
  return feed_group_named(low).has_value() || feed_trait_named(low).has_value();
}

bool is_in_table(const std::string& word) {
  if (find_feed(word) != nullptr) return true;
  const auto& table = feed_table();
  return word.size() >= least_word &&
         std::any_of(table.begin(), table.end(),
                     [&](const Feed& feed) { return contains_words(feed.name, word); });
}

/// Near names among what is on offer, the groups, the traits, and the table.
std::string help_for(const std::string& word, const FeedNames& names) {
  std::vector<std::string> known;
  for (const Offer& offer : names.offers) {
    known.push_back(offer.name);
    known.push_back(offer.feed.name);
    known.insert(known.end(), offer.feed.also.begin(), offer.feed.also.end());
  }
  for (const FeedGroup g : all_feed_groups()) known.emplace_back(name_of(g));
  for (const FeedTrait t : all_feed_traits()) known.emplace_back(name_of(t));
  const std::string near = suggestion(word, known);
  if (!near.empty()) return near;
  std::vector<std::string> table = near_feed_names(word);
  for (std::string& name : table) name = ticked(name);
  if (!table.empty()) return fmt::format("did you mean {}?", listed(table));
  return "write the `name` of a feed on offer, or a name of `haymow feeds`";
}

void refuse_unknown(const YamlNode& node, const std::string& word, const FeedNames& names,
                    Findings& findings) {
  findings.error(node.span,
                 {fmt::format("`{}` is not a feed on offer, nor one of the feed table", word),
                  help_for(word, names), ""});
}

std::vector<std::string> offers_referred_to(const std::string& word, const FeedNames& names) {
  std::vector<std::string> found;
  for (const Offer& offer : names.offers) {
    if (refers_to(word, offer) || contains_words(offer.name, word)) found.push_back(offer.name);
  }
  return found;
}

}  // namespace

bool is_on_offer(const std::string& word, const FeedNames& names) {
  return std::any_of(names.offers.begin(), names.offers.end(),
                     [&](const Offer& offer) { return refers_to(word, offer); });
}

bool check_wished(const YamlNode& node, const std::string& word, bool must_be_on_offer,
                  const FeedNames& names, Findings& findings) {
  if (is_on_offer(word, names) || !names.complete) return true;
  const bool known = is_kind_word(word) || is_in_table(word);
  if (!known) {
    refuse_unknown(node, word, names, findings);
    return false;
  }
  if (!must_be_on_offer) return true;
  findings.error(node.span,
                 {fmt::format("`{}` is to be fed, and nothing of that name is on offer", word),
                  "add it under `forage` or `market` with its price", ""});
  return false;
}

std::optional<std::string> fed_feed(const YamlNode& node, const std::string& word,
                                    const FeedNames& names, Findings& findings) {
  for (const Offer& offer : names.offers) {
    if (same_text(offer.name, word)) return offer.name;
  }
  const Feed* of_table = find_feed(word);
  std::vector<std::string> meant;
  for (const Offer& offer : names.offers) {
    if (of_table != nullptr && offer.feed.name == of_table->name) meant.push_back(offer.name);
  }
  if (meant.empty() && word.size() >= least_word) meant = offers_referred_to(word, names);
  if (meant.size() == 1) {
    findings.remark(node.span,
                    {fmt::format("`{}` is taken to be `{}`", word, meant.front()),
                     fmt::format("write `{}` to say so, or a name of `haymow feeds` if it is "
                                 "another feed",
                                 meant.front()),
                     ""});
    return meant.front();
  }
  if (meant.empty() && of_table != nullptr) return of_table->name;
  if (meant.empty()) {
    if (names.complete) refuse_unknown(node, word, names, findings);
    return std::nullopt;
  }
  for (std::string& name : meant) name = ticked(name);
  findings.error(node.span, {fmt::format("`{}` can mean {}", word, listed(meant)),
                             "write which one is fed", ""});
  return std::nullopt;
}

}  // namespace haymow
