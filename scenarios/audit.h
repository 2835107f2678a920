// What is fed today, judged: every need and rule it keeps or breaks, what it
// costs, and what the cheapest safe ration would cost beside it.
#pragma once

#include <string>
#include <vector>

#include "scenarios/run.h"

namespace haymow {

struct Audit {
  RationQuestion question;      // with the feeds fed now as its offers
  Formulation formulation;      // the rows that the amounts are judged by
  std::vector<double> amounts;  // kg as fed eaten, one an offer
  Ration ration;
  std::vector<Broken> broken;              // forced rows
  std::vector<Broken> doubtful;            // rows that are judged only
  std::vector<std::string> without_price;  // feeds whose cost is not counted
  HorseAnswer best;                        // the cheapest safe ration from the scenario's offers
  [[nodiscard]] bool adequate() const { return broken.empty(); }
};

/// One audit for each horse with `fed now`, in the scenario's order.
[[nodiscard]] std::vector<Audit> audit(const Scenario& scenario);

}  // namespace haymow
