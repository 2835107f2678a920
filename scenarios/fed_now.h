// What `fed now` comes to: the words of the file become feeds and amounts, among
// them feeds of the table that are not on offer.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "model/formulate.h"
#include "model/stable.h"

namespace haymow {

struct FedNow {
  std::vector<Offer> offers;       // those of the scenario, then feeds that are not on offer
  std::vector<double> amounts;     // kg as fed eaten a day, one an offer: waste feeds nobody
  std::vector<std::string> extra;  // names of the feeds that are not on offer, without a price
};

/// What the words of `horse.fed_now` come to on `offers`, which the reader has checked.
[[nodiscard]] FedNow fed_now_of(const Horse& horse, const std::vector<Offer>& offers);

/// The grass of `question` is eaten beside what is fed, as much as is reckoned, unless
/// the keeper names grass and so puts a figure to it: false then. Offers of `fed` are
/// those of the question, then others.
bool add_grazed(FedNow& fed, const RationQuestion& question);

}  // namespace haymow
