#include "scenarios/report_json_batch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scenarios/report_json_horse.h"
#include "solver/sensitivity.h"

namespace haymow {
namespace {

// Less than this a day per unit is the arithmetic's, not the feed bill's.
constexpr double least_price = 1e-7;

Json bare_row(const RowMeaning& row) {
  return {{"id", row.id},
          {"side", row.side == Side::lower ? "floor" : "ceiling"},
          {"bound", number(row.bound)},
          {"unit", row.unit}};
}

// The limits at which the ration stands, with what the certificate's duals say of each.
Json limits_of(const HorseAnswer& answer) {
  Json limits = Json::array();
  for (const Bound& bound : active_bounds(answer.formulation.program, answer.solution)) {
    if (bound.of != Bound::Of::row) continue;
    const auto i = static_cast<std::size_t>(bound.index);
    const RowMeaning& row = answer.formulation.rows[i];
    const double price =
        std::abs(answer.solution.row_duals[i]) * row.row_units(answer.solution.columns);
    if (price < least_price) continue;
    limits.push_back(bare_row(row));
    limits.back()["cost_per_unit"] = number(price);
  }
  return limits;
}

void add_spell(Json& out, const HorseAnswer& answer) {
  out["status"] = name_of(answer.status);
  if (answer.status == AnswerStatus::found || answer.status == AnswerStatus::none) {
    out["meals"] = answer.question.meals;
  }
  if (answer.status == AnswerStatus::found) {
    out["cost_per_day"] = answer.ration->cost.in_units();
    out["feeds"] = feeds_of(*answer.ration, answer.question.offers);
    out["limits"] = limits_of(answer);
    out["certificate"] = certificate_of(answer.certificate);
  }
  if (!answer.no_ration) return;
  Json conflict = Json::array();
  for (const RowMeaning& row : answer.no_ration->conflict) conflict.push_back(bare_row(row));
  out["conflict"] = std::move(conflict);
  out["conflict_is_minimal"] = answer.no_ration->conflict_is_minimal;
  out["proof_strength"] = number(answer.no_ration->proof_strength);
}

void add_months(Json& months, const HorseAnswer& answer) {
  for (const MonthOfSeason& month : answer.spell.months) {
    Json out{{"year", month.year}, {"month", month.month}, {"days", month.days.in_days()}};
    add_spell(out, answer);
    months.push_back(std::move(out));
  }
}

Json brief_of(const HorseAnswer& answer) {
  Json out{{"name", answer.question.horse.name}};
  add_spell(out, answer);
  if (answer.other_spells.empty()) return out;
  Json months = Json::array();
  add_months(months, answer);
  for (const HorseAnswer& other : answer.other_spells) add_months(months, other);
  std::stable_sort(months.begin(), months.end(), [](const Json& a, const Json& b) {
    return std::pair(a["year"].get<int>(), a["month"].get<int>()) <
           std::pair(b["year"].get<int>(), b["month"].get<int>());
  });
  out["months"] = std::move(months);
  return out;
}

// Behind the head, one more object without its opening brace.
std::string line_of(const RecordKey& about, const Json& rest) {
  std::string line = batch_line_head(about);
  std::string tail = rest.dump();
  tail.front() = ',';
  return line + tail + "\n";
}

}  // namespace

std::string batch_line_head(const RecordKey& about) {
  const Json key = about.key ? Json(*about.key) : Json(nullptr);
  return fmt::format(R"({{"schema_version":{},"command":"batch","key":{},"digest":"{:016x}")",
                     schema_version, key.dump(), about.digest);
}

std::string batch_line(const RecordKey& about, const Scenario& scenario,
                       const std::vector<HorseAnswer>& answers,
                       const std::vector<Diagnostic>& remarks, bool full) {
  AnswerStatus worst = AnswerStatus::found;
  for (const HorseAnswer& answer : answers) worst = worse(worst, answer.worst());
  // A horse that is a vet's business has no ration either.
  if (worst == AnswerStatus::refused) worst = AnswerStatus::none;
  Json out{{"status", name_of(worst)}, {"money", scenario.stable.money}};
  out["horses"] = Json::array();
  for (const HorseAnswer& answer : answers) {
    out["horses"].push_back(full ? answer_of(answer) : brief_of(answer));
  }
  if (!remarks.empty()) out["diagnostics"] = diagnostics_of(remarks);
  return line_of(about, out);
}

std::string batch_line(const RecordKey& about, std::string_view status,
                       const std::vector<Diagnostic>& diagnostics) {
  return line_of(about, {{"status", status}, {"diagnostics", diagnostics_of(diagnostics)}});
}

}  // namespace haymow
