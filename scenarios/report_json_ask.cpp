#include "scenarios/report_json_ask.h"

#include "scenarios/report_amounts.h"

namespace haymow {
namespace {

Json money_json(const std::optional<Money>& amount, double times = 1.0) {
  return amount ? Json(times * amount->in_units()) : Json(nullptr);
}

Json text(const std::optional<std::string>& value) { return value ? Json(*value) : Json(nullptr); }

// What it costs and by how much that is more; null where there is no ration.
template <class Costs>
void add_costs(Json& out, const Costs& costs, const std::optional<Money>& before,
               const std::optional<Money>& after) {
  const auto more = [](const std::optional<Money>& b, const std::optional<Money>& a) {
    return a && b ? std::optional<Money>(*a - *b) : std::nullopt;
  };
  out["cost_per_day"] = money_json(costs.exact_after);
  out["dearer_per_day"] = money_json(more(costs.exact_before, costs.exact_after));
  out["practical_cost_per_day"] = money_json(after);
  out["practical_dearer_per_day"] = money_json(more(before, after));
  out["practical_cost_per_month"] = money_json(after, days_in_month);
  out["practical_dearer_per_month"] = money_json(more(before, after), days_in_month);
}

Json horse_of(const HorseDifference& horse, const HorseAnswer& answer,
              Json (*in_full)(const HorseAnswer&)) {
  Json out{{"name", answer.question.horse.name},
           {"status", name_of(answer.worst())},
           {"as_before", horse.as_before}};
  add_costs(out, horse, horse.cost_before, horse.cost_after);
  out["cost_per_day_if_fed_as_before"] = money_json(horse.cost_if_fed_as_before);
  out["feeds"] = Json::array();
  for (const FeedDifference& d : horse.feeds) {
    out["feeds"].push_back({{"feed", d.feed},
                            {"kg_put_out_before", d.before.in_kg()},
                            {"kg_put_out", d.after.in_kg()},
                            {"kg_put_out_more", (d.after - d.before).in_kg()}});
  }
  if (!horse.as_before) out["answer"] = in_full(answer);
  return out;
}

Json question_of(const AskedAnswer& question, Json (*in_full)(const HorseAnswer&)) {
  Json out{{"what_if", question.what_if}, {"status", name_of(question.worst())}};
  out["changes"] = Json::array();
  for (const AskedChange& c : question.changes) {
    out["changes"].push_back(
        {{"of", c.of}, {"key", c.key}, {"before", text(c.before)}, {"after", text(c.after)}});
  }
  const YardCost yard = yard_cost(question);
  add_costs(out, yard, yard.before, yard.after);
  out["horses"] = Json::array();
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    out["horses"].push_back(horse_of(question.horses[h], question.answers[h], in_full));
  }
  return out;
}

}  // namespace

Json questions_json(const std::vector<AskedAnswer>& questions,
                    Json (*in_full)(const HorseAnswer&)) {
  Json out = Json::array();
  for (const AskedAnswer& question : questions) out.push_back(question_of(question, in_full));
  return out;
}

}  // namespace haymow
