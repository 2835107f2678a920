// From the words of the command line to what is asked for, with the scenario at
// hand: a word must mean a feed on offer.
#pragma once

#include "scenarios/command_line.h"
#include "scenarios/offers.h"

namespace haymow {

/// Reads the price list, if one is named, and adds what it had to assume to the
/// scenario's remarks. Throws UsageError for a word that means no feed on offer,
/// and for an amount that is none; InputError and UnreadableFile for the list.
[[nodiscard]] OffersOptions offers_options(const OffersWords& words, Scenario& scenario);

}  // namespace haymow
