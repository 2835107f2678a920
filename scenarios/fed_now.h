// What `fed now` comes to: the words of the file become feeds and amounts, among
// them feeds of the table that are not on offer.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "model/stable.h"

namespace haymow {

struct FedNow {
  std::vector<Offer> offers;       // those of the scenario, then feeds that are not on offer
  std::vector<double> amounts;     // kg as fed eaten a day, one an offer: waste feeds nobody
  std::vector<std::string> extra;  // names of the feeds that are not on offer, without a price
};

[[nodiscard]] FedNow fed_now_of(const Horse& horse, const std::vector<Offer>& offers);

}  // namespace haymow
