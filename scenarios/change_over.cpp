#include "scenarios/change_over.h"

#include <utility>

#include "scenarios/fed_now.h"
#include "scenarios/run.h"

namespace haymow {

std::optional<ChangeOver> change_over(const Scenario& scenario, const HorseAnswer& answer) {
  const Horse& horse = answer.question.horse;
  if (answer.status != AnswerStatus::found || horse.fed_now.empty()) return std::nullopt;
  ChangeOver out;
  FedNow fed = fed_now_of(horse, answer.question.offers);
  add_grazed(fed, answer.question);
  out.not_on_offer = std::move(fed.extra);
  Changeover& between = out.between;
  between.now = std::move(fed.amounts);
  between.then = answer.amounts_to_feed();
  // A promise has columns of its own behind the feeds; they are no amounts.
  between.then.resize(answer.question.offers.size());
  between.then.resize(between.now.size(), 0.0);
  between.question = answer.question;
  between.question.offers = std::move(fed.offers);
  // What the keeper wishes and what the barn holds make no step unsafe.
  between.question.horse.wishes.clear();
  between.question.stock_a_day.clear();
  between.formulation = formulate(between.question);
  std::optional<int> over;
  if (scenario.change.over) over = static_cast<int>(scenario.change.over->in_days());
  out.plan = plan_change(between, over);
  out.first_day = scenario.change.from ? scenario.change.from : scenario.from;
  return out;
}

}  // namespace haymow
