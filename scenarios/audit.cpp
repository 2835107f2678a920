#include "scenarios/audit.h"

#include <utility>

#include "scenarios/fed_now.h"

namespace haymow {

std::vector<Audit> audit(const Scenario& scenario) {
  const std::vector<HorseAnswer> answers = run(scenario);
  std::vector<Audit> audits;
  for (const HorseAnswer& best : answers) {
    const Horse& horse = best.question.horse;
    if (horse.fed_now.empty()) continue;
    Audit audit;
    FedNow fed = fed_now_of(horse, best.question.offers);
    const bool as_reckoned = add_grazed(fed, best.question);
    audit.without_price = std::move(fed.extra);
    audit.question = question_for(horse, fed.offers, horse.meals.value_or(best.question.meals));
    if (as_reckoned) audit.question.grass = best.question.grass;
    // What the keeper wishes does not make what is fed adequate or not.
    audit.question.horse.wishes.clear();
    audit.formulation = formulate(audit.question);
    audit.amounts = std::move(fed.amounts);
    audit.ration = ration_from(audit.question, audit.formulation, audit.amounts);
    audit.broken = broken_rows(audit.formulation.rows, audit.amounts);
    audit.doubtful = broken_rows(audit.formulation.judged, audit.amounts);
    audit.best = best;
    audits.push_back(std::move(audit));
  }
  return audits;
}

}  // namespace haymow
