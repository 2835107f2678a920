// What `haymow winter` prints: the cost, the orders, the stores, the rations and the
// bills, as text and as JSON.
#pragma once

#include <string>

#include "scenarios/report.h"
#include "scenarios/season_spells.h"
#include "scenarios/winter.h"
#include "scenarios/wording.h"

namespace haymow {

[[nodiscard]] Report winter_report(const Scenario& scenario, const WinterAnswer& answer,
                                   const ReportOptions& options);
[[nodiscard]] std::string winter_json(const Scenario& scenario, const WinterAnswer& answer);

/// A feed's stock as the keeper asks after it.
struct StockTold {
  double lowest_kg = 0.0;
  std::size_t lowest_week = 0;             // at whose end it is
  std::optional<std::size_t> runs_out_in;  // the first week but the last to end with none
};
/// Absent for a feed that is never there.
[[nodiscard]] std::optional<StockTold> stock_told(const std::vector<StockWeek>& stock);

}  // namespace haymow
