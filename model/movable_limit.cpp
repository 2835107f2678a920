#include "model/movable_limit.h"

#include <algorithm>
#include <utility>

#include "model/rules.h"

namespace haymow {
namespace {

const RowMeaning* row_called(const std::vector<RowMeaning>& rows, const std::string& id) {
  const auto row =
      std::find_if(rows.begin(), rows.end(), [&](const RowMeaning& r) { return r.id == id; });
  return row == rows.end() ? nullptr : &*row;
}

// A number to write the row with where the rule has none: the frontier moves it.
constexpr double any_number = 1.0;

// The question under the rule `id`, forced; nothing when there is no such rule.
std::optional<RationQuestion> under_rule(RationQuestion question, const std::string& id) {
  const Rule* rule = find_rule(id);
  if (rule == nullptr) return std::nullopt;
  std::erase_if(question.limits, [&](const Limit& l) { return l.id == id; });
  question.limits.push_back({id, rule->strength, rule->number.value_or(any_number),
                             std::string(rule->unit), std::string(rule->sentence),
                             std::string(rule->source), "", true});
  return question;
}

// A floor that is only judged: of a nutrient with few figures.
RationQuestion forced_need(RationQuestion question, Nutrient nutrient) {
  for (Requirement& need : question.needs.rows) {
    if (need.nutrient == nutrient) need.forced = true;
  }
  return question;
}

}  // namespace

std::optional<MovableLimit> movable_limit(const RationQuestion& question,
                                          const Formulation& formulation, const std::string& id,
                                          const std::vector<double>& amounts) {
  MovableLimit out;
  if (const RowMeaning* row = row_called(formulation.rows, id)) {
    out.formulation = formulation;
    out.row = *row;
  } else {
    const RowMeaning* judged = row_called(formulation.judged, id);
    std::optional<RationQuestion> with;
    if (judged != nullptr && judged->family == RowFamily::need && judged->nutrient) {
      with = forced_need(question, *judged->nutrient);
    } else {
      with = under_rule(question, id);
    }
    if (!with) return std::nullopt;
    out.formulation = formulate(*with);
    for (RowMeaning& added : out.formulation.rows) {
      if (added.id != id) continue;
      // What an instruction may loosen a rule to says nothing where it does not hold.
      added.limit.reset();
      out.row = added;
    }
    if (out.row.id.empty()) return std::nullopt;
    out.in_force = false;
  }
  if (!amounts.empty()) out.now = out.row.value(amounts);
  return out;
}

}  // namespace haymow
