// Pieces that the reports of a season share: `haymow winter` and `haymow stretch`.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "model/season_plan.h"
#include "scenarios/report.h"
#include "scenarios/scenario.h"
#include "scenarios/season_spells.h"
#include "scenarios/wording.h"

namespace haymow {

/// "1 Nov 2026", so many days after the first of the season.
[[nodiscard]] std::string day_of_season(const Scenario& scenario, int after);

/// "6 bags (120 kg)", or "1400 kg" of what comes loose.
[[nodiscard]] std::string amount_in_words(const SeasonQuestion& question, const OrderLine& order,
                                          const Wording& words);
/// "oats: 6 bags (120 kg)".
[[nodiscard]] std::string order_in_words(const SeasonQuestion& question, const OrderLine& order,
                                         const Wording& words);

/// "9.3 kg our hay, 1.2 kg oats, 50 g balancer", the grass beside it named.
[[nodiscard]] std::string spell_in_words(const SeasonQuestion& question, std::size_t horse,
                                         const FeedingSpell& spell, const Wording& words);

/// Names of horses of the question: "Fern and Cob".
[[nodiscard]] std::string horses_in_words(const SeasonQuestion& question,
                                          const std::vector<std::size_t>& horses);

/// "certified to 1.0e-09": never finer than that, since the last digits are the
/// arithmetic's own; they are in the JSON.
[[nodiscard]] std::string certified_to(const Certificate& certificate);

/// Why there is no plan to show, where no limit is to blame; absent where one is.
[[nodiscard]] std::optional<std::string> no_plan_headline(const SeasonQuestion& question,
                                                          const SeasonPlan& plan);

/// That the time ran out while looking for the first week that fails.
[[nodiscard]] std::string season_cut_short();

/// The horses that are a vet's business, each with why. `refused`: of Stable::horses.
[[nodiscard]] Report::Part refused_part(const Scenario& scenario,
                                        const std::vector<std::size_t>& refused);

/// What every season's report ends with, cautions included.
[[nodiscard]] std::vector<Section> season_closing(const Scenario& scenario,
                                                  std::vector<std::string> assumed);

}  // namespace haymow
