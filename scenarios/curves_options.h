// From the words of `--price` and `--limit` to what is asked, with the feeds on offer
// at hand.
#pragma once

#include <string>
#include <vector>

#include "scenarios/curves.h"

namespace haymow {

/// "oats", "oats: per 25 kg bag", "oats: 8 to 20 per 20 kg bag"; a feed that is not on
/// offer is one of the feed table. Throws UsageError for a word that means no feed or
/// several, grass, and prices that cannot be read.
[[nodiscard]] PriceAsked price_asked(const std::string& words, const std::vector<Offer>& offers);

/// "forage share", "starch a day: 300 to 900 g". Throws UsageError for a word that
/// means no limit, and for ends that cannot be read. The unit is compared with the
/// limit's own by check_units.
[[nodiscard]] LimitAsked limit_asked(const std::string& words);

/// Throws UsageError where the ends of a limit are in another unit than the limit of
/// the horses: what is asked about must not be guessed.
void check_units(const LimitAsked& asked, const Scenario& scenario);

}  // namespace haymow
