// What a keeper's word for a feed means in this scenario: `our hay`, `oats`,
// `alfalfa`. Unknown words are reported while their place is at hand.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "feeds/findings.h"
#include "feeds/located_yaml.h"
#include "model/stable.h"

namespace haymow {

struct FeedNames {
  const std::vector<Offer>& offers;
  /// False when an entry on offer could not be read: then a word that is not
  /// known may well be its name, and is not reported.
  bool complete = true;
};

/// Reports a word for a wish that names nothing on offer nor in the feed table;
/// when `must_be_on_offer`, the table does not do. True when the word will do.
bool check_wished(const YamlNode& node, const std::string& word, bool must_be_on_offer,
                  const FeedNames& names, Findings& findings);

/// The offer or table feed that is fed: the offer's name or the table's. A word
/// that only comes near is taken with a remark; what it could mean twice, or not
/// at all, is reported.
[[nodiscard]] std::optional<std::string> fed_feed(const YamlNode& node, const std::string& word,
                                                  const FeedNames& names, Findings& findings);

}  // namespace haymow
