// Pieces that several reports share.
#pragma once

#include <cstddef>
#include <string>

#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// The ration a person feeds: in steps of the scale where there is one, else
/// the cheapest to the gram. For an answer that was found.
[[nodiscard]] const Ration& ration_to_feed(const HorseAnswer& answer);

/// True when some of the offer is in the ration to feed.
[[nodiscard]] bool fed(const HorseAnswer& answer, std::size_t offer);

/// "5.9 kg our hay"; of grass "grass, spring (2.0 kg of dry matter)", since nobody
/// weighs what is grazed.
[[nodiscard]] std::string portion_in_brief(const RationQuestion& question, const Portion& portion,
                                           const Wording& words);

/// "Juniper: 10.6 kg our hay and 1.8 kg oats; 4.60 GBP a day"; the bare name
/// where there is no ration.
[[nodiscard]] std::string headline(const HorseAnswer& answer, const Wording& words);

/// All that `haymow ration` says of one horse, whatever the answer is.
[[nodiscard]] Report::Part ration_part(const HorseAnswer& answer, const Scenario& scenario,
                                       const Wording& words, bool verbose);

/// The forced nutrients whose figure is missing for much of what is fed, in a
/// sentence; empty when there is none.
[[nodiscard]] std::string partly_known(const Ration& ration);

/// What the reader of the file had to assume, so that nobody takes it for fact.
[[nodiscard]] Section assumptions(const Scenario& scenario);

}  // namespace haymow
