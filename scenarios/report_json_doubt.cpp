#include "scenarios/report_json_doubt.h"

#include "model/floor_doubt.h"
#include "scenarios/promise_check.h"

namespace haymow {
namespace {}  // namespace

Json doubts_of(const HorseAnswer& answer) {
  Json doubts = Json::array();
  for (const FloorDoubt& d : floor_doubts(answer.question, answer.amounts_to_feed())) {
    doubts.push_back({{"nutrient", traits_of(d.nutrient).key},
                      {"floor", number(d.floor)},
                      {"expected", number(d.expected)},
                      {"unit", traits_of(d.nutrient).unit},
                      {"kept_share", number(d.kept)},
                      {"supplied_by_nine_in_ten", number(d.nine_in_ten)},
                      {"varies_most_in", answer.question.offers[d.mostly].name}});
  }
  return doubts;
}

Json promise_of(const HorseAnswer& answer) {
  const PromiseMade& made = *answer.promise;
  Json out{{"probability", made.promise.probability},
           {"promised", keys_of(made.promise.guarded)},
           {"kept_as_figured", keys_of(made.promise.as_figured)},
           {"energy_left_out", made.promise.energy_left_out},
           {"cost_per_day_without", made.cost_without.in_units()}};
  if (answer.status == AnswerStatus::found) {
    const PromiseCheck check = check_promise(answer);
    out["largest_miss"] = number(made.largest_miss);
    out["drawn_batches"] = check.draws;
    out["drawn"] = Json::array();
    for (const SimulatedFloor& f : check.floors) {
      out["drawn"].push_back({{"nutrient", traits_of(f.nutrient).key}, {"kept_share", f.kept}});
    }
  } else {
    out["most_that_can_be_kept"] = number(made.most);
    out["conflict"] = Json::array();
    for (const RowMeaning& row : made.conflict) out["conflict"].push_back(row_of(row));
  }
  return out;
}

}  // namespace haymow
