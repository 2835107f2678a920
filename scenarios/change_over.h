// The change from what a horse is fed now to its new ration, with the calendar of
// the scenario. The steps themselves are the model's (model/change_plan.h).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/change_plan.h"
#include "scenarios/scenario.h"

namespace haymow {

struct HorseAnswer;

struct ChangeOver {
  Changeover between;
  ChangePlan plan;
  std::vector<std::string> not_on_offer;  // fed now, and to be kept back for the change
  std::optional<Date> first_day;          // absent: days are counted from 1
};

/// Nothing when no ration was found or the file does not say what is fed now. The
/// new number of meals is taken to hold from the first day.
[[nodiscard]] std::optional<ChangeOver> change_over(const Scenario& scenario,
                                                    const HorseAnswer& answer);

}  // namespace haymow
