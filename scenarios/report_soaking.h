// What has to be soaked, in how much water, in which bucket and when to put it in:
// sections of their own in the report of a ration.
#pragma once

#include <string>
#include <vector>

#include "model/soaking_plan.h"
#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// The plan for the ration that is fed. For an answer that was found.
[[nodiscard]] SoakingPlan soaking_plan_of(const HorseAnswer& answer);

/// What to soak for one horse; empty when nothing is. For an answer that was found.
[[nodiscard]] Section soaking_section(const HorseAnswer& answer, const Wording& words);

/// A sentence for each feed that is soaked. For an answer that was found.
[[nodiscard]] std::vector<std::string> what_to_soak(const HorseAnswer& answer,
                                                    const Wording& words);

/// How long soaked feed keeps; empty where none is soaked.
[[nodiscard]] std::vector<std::string> soaking_care(const SoakingPlan& plan);

/// What to soak for all horses together; empty unless two of them have soaked feed.
[[nodiscard]] Section yard_soaking_section(const std::vector<HorseAnswer>& answers,
                                           const Wording& words);

/// "07:00", "19:00 the day before", "08:30 two days before", "03:00 the day after".
[[nodiscard]] std::string moment_told(const Moment& moment);

/// The plans of the horses that have a ration.
[[nodiscard]] std::vector<SoakingPlan> soaking_plans(const std::vector<HorseAnswer>& answers);

}  // namespace haymow
