// The sections of `haymow offers`, one function a part.
#pragma once

#include "scenarios/offers.h"
#include "scenarios/report_parts.h"

namespace haymow {

/// What the choice of feeds on the command line costs; empty where none was made.
[[nodiscard]] Section choice_section(const OffersAnswer& answer, const OffersOptions& options,
                                     const Wording& words);
/// The ration and other mixes side by side. For an answer that was found.
[[nodiscard]] Section mixes_section(const OffersAnswer& answer, const OffersOptions& options,
                                    const Wording& words);
[[nodiscard]] Section ranges_section(const OffersAnswer& answer, const Wording& words);
[[nodiscard]] Section swaps_section(const OffersAnswer& answer, const Wording& words, bool all);

[[nodiscard]] Report offers_report(const Scenario& scenario,
                                   const std::vector<OffersAnswer>& answers,
                                   const OffersOptions& choice, const ReportOptions& options);

[[nodiscard]] std::string offers_json(const Scenario& scenario,
                                      const std::vector<OffersAnswer>& answers,
                                      const OffersOptions& choice);

}  // namespace haymow
