#include "scenarios/scenario_feed_names.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/feed_table.h"
#include "feeds/map_reader.h"
#include "feeds/plain_text.h"
#include "model/naming.h"

namespace haymow {
namespace {

bool is_kind_word(const std::string& word) {
  const std::string low = lower_case(word);
  return feed_group_named(low).has_value() || feed_trait_named(low).has_value();
}

bool is_in_table(const std::string& word) {
  const auto& table = feed_table();
  return std::any_of(table.begin(), table.end(),
                     [&](const Feed& feed) { return refers_to(word, feed); });
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
  std::string near = suggestion(word, known);
  if (!near.empty()) return near;
  std::vector<std::string> table = near_feed_names(word);
  for (std::string& name : table) name = ticked(name);
  if (!table.empty()) return fmt::format("did you mean {}?", either_of(table));
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
    if (refers_to(word, offer)) found.push_back(offer.name);
  }
  return found;
}

/// The name of one feed that is part of another's name means both.
void remark_shared_name(const YamlNode& node, const std::string& word,
                        std::vector<std::string> meant, Findings& findings) {
  const bool is_a_name = std::any_of(
      meant.begin(), meant.end(), [&](const std::string& name) { return same_text(name, word); });
  if (!is_a_name || meant.size() == 1) return;
  for (std::string& name : meant) name = ticked(name);
  findings.remark(node.span, {fmt::format("`{}` means {} together", word, listed(meant)),
                              "give them names of which none is part of another, to tell them "
                              "apart",
                              ""});
}

}  // namespace

bool check_wished(const YamlNode& node, const std::string& word, bool must_be_on_offer,
                  const FeedNames& names, Findings& findings) {
  if (const auto meant = offers_referred_to(word, names); !meant.empty()) {
    remark_shared_name(node, word, meant, findings);
    return true;
  }
  if (!names.complete) return true;
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
  if (meant.empty()) meant = offers_referred_to(word, names);
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
  findings.error(node.span, {fmt::format("`{}` can mean {}", word, either_of(meant)),
                             "write which one is fed", ""});
  return std::nullopt;
}

}  // namespace haymow
