// Private to the report of a winter: what its parts are told from, and the parts.
#pragma once

#include <cstddef>
#include <string>

#include "model/pennies.h"
#include "scenarios/report.h"
#include "scenarios/scenario_dates.h"
#include "scenarios/winter.h"
#include "scenarios/wording.h"

namespace haymow {

inline constexpr double nothing_kg = 0.5e-3;  // less than a gram

struct WinterTold {
  const Scenario& scenario;
  const WinterAnswer& answer;
  const SeasonQuestion& question;
  Wording words;
  bool verbose = false;

  /// There must be a plan.
  [[nodiscard]] const SeasonBills& bills() const { return *answer.bills; }
  [[nodiscard]] std::string with_code(Pennies pennies) const;
  [[nodiscard]] Date first_day(std::size_t week) const;
  [[nodiscard]] Date last_day(std::size_t week) const;
  [[nodiscard]] std::string first_day_told(std::size_t week) const;
  [[nodiscard]] std::string last_day_told(std::size_t week) const;
};

/// "1234.50"
[[nodiscard]] std::string money(Pennies pennies);
/// "Nov 2026" of "2026-11".
[[nodiscard]] std::string month_in_words(const std::string& month);
/// Of the whole season.
[[nodiscard]] int days_of(const SeasonQuestion& question);

[[nodiscard]] Report::Part winter_costs_part(const WinterTold& told);
/// Of what is only known as ranges; there must be draws asked for.
[[nodiscard]] Report::Part winter_chances_part(const WinterTold& told);
[[nodiscard]] Report::Part winter_bills_part(const WinterTold& told);
[[nodiscard]] Report::Part winter_failure_part(const WinterTold& told);

}  // namespace haymow
