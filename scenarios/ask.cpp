#include "scenarios/ask.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "scenarios/report_parts.h"

namespace haymow {
namespace {

// Amounts nearer than this are the same on any scale: half a gram.
constexpr double same_amount_kg = 0.0005;

std::optional<Money> difference(const std::optional<Money>& before,
                                const std::optional<Money>& after) {
  if (!before || !after) return std::nullopt;
  return *after - *before;
}

template <class CostOf>
std::optional<Money> mean_cost(const HorseAnswer& answer, CostOf cost_of) {
  if (answer.status != AnswerStatus::found) return std::nullopt;
  if (answer.other_spells.empty()) return cost_of(answer);
  double days = answer.spell.days.in_days();
  Money sum = days * cost_of(answer);
  for (const HorseAnswer& other : answer.other_spells) {
    if (other.status != AnswerStatus::found) return std::nullopt;
    sum += other.spell.days.in_days() * cost_of(other);
    days += other.spell.days.in_days();
  }
  return (1.0 / days) * sum;
}

// Kilograms put out a day of each feed, by name: a question may bring feeds of its own.
std::map<std::string, double> put_out_by_name(const HorseAnswer& answer) {
  std::map<std::string, double> kg;
  double days = 0.0;
  const auto add = [&](const HorseAnswer& spell, double weight) {
    if (spell.status != AnswerStatus::found) return;
    for (const Portion& p : ration_to_feed(spell).portions) {
      if (spell.question.grazes(p.offer)) continue;  // nobody puts grass out
      kg[spell.question.offers[p.offer].name] += weight * p.put_out.in_kg();
    }
    days += weight;
  };
  const bool by_spell = !answer.other_spells.empty();
  add(answer, by_spell ? answer.spell.days.in_days() : 1.0);
  for (const HorseAnswer& other : answer.other_spells) add(other, other.spell.days.in_days());
  for (auto& [feed, amount] : kg) amount /= days;
  return kg;
}

std::vector<FeedDifference> feed_differences(const HorseAnswer& before, const HorseAnswer& after) {
  std::vector<FeedDifference> out;
  if (!cost_to_feed(before) || !cost_to_feed(after)) return out;
  const auto was = put_out_by_name(before);
  auto is = put_out_by_name(after);
  for (const auto& [feed, kg] : was) is.try_emplace(feed, 0.0);
  for (const auto& [feed, kg] : is) {
    const auto there = was.find(feed);
    const double then = there == was.end() ? 0.0 : there->second;
    if (std::abs(kg - then) >= same_amount_kg) out.push_back({feed, KgAsFed{then}, KgAsFed{kg}});
  }
  const auto size = [](const FeedDifference& d) { return std::abs((d.after - d.before).in_kg()); };
  std::stable_sort(out.begin(), out.end(),
                   [&](const auto& a, const auto& b) { return size(a) > size(b); });
  return out;
}

bool same_offers(const HorseAnswer& a, const HorseAnswer& b) {
  const auto& one = a.question.offers;
  const auto& other = b.question.offers;
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](const Offer& x, const Offer& y) { return x.name == y.name; });
}

std::optional<Money> cost_if_fed_as_before(const HorseAnswer& before, const HorseAnswer& after) {
  const bool plain = before.status == AnswerStatus::found && !after.formulation.rows.empty() &&
                     !before.promise && !after.promise && before.other_spells.empty() &&
                     after.other_spells.empty() && same_offers(before, after);
  if (!plain) return std::nullopt;
  const std::vector<double>& amounts = before.amounts_to_feed();
  if (!broken_rows(after.formulation.rows, amounts).empty()) return std::nullopt;
  return ration_from(after.question, after.formulation, amounts).cost;
}

HorseDifference compared(const HorseAnswer& before, const HorseAnswer& after, bool as_before) {
  return {as_before,
          cost_to_feed(before),
          cost_to_feed(after),
          exact_cost(before),
          exact_cost(after),
          feed_differences(before, after),
          cost_if_fed_as_before(before, after)};
}

// With a barn that has to last, what one horse takes another cannot have.
bool horses_share(const Scenario& scenario) {
  const auto& offers = scenario.stable.offers;
  return scenario.stable.season && std::any_of(offers.begin(), offers.end(), [](const Offer& o) {
           return o.on_hand.has_value();
         });
}

std::vector<std::size_t> horses_asked(const AskedQuestion& question, const Scenario& scenario) {
  if (!question.for_every_horse && !horses_share(scenario)) return question.horses;
  std::vector<std::size_t> all;
  for (std::size_t h = 0; h < scenario.stable.horses.size(); ++h) all.push_back(h);
  return all;
}

Scenario of_some(const Scenario& scenario, const std::vector<std::size_t>& horses) {
  Scenario some = scenario;
  some.stable.horses.clear();
  for (const std::size_t h : horses) some.stable.horses.push_back(scenario.stable.horses[h]);
  return some;
}

AskedAnswer answer_one(const AskedQuestion& question, const Scenario& scenario,
                       const std::vector<HorseAnswer>& before, const RunOptions& options) {
  AskedAnswer out{question.what_if, question.changes, new_remarks(question, scenario), before, {}};
  std::vector<bool> asked(before.size(), false);
  std::vector<std::size_t> horses = horses_asked(question, scenario);
  std::sort(horses.begin(), horses.end());
  horses.erase(std::unique(horses.begin(), horses.end()), horses.end());
  std::vector<HorseAnswer> answers = run(of_some(question.scenario, horses), options);
  for (std::size_t i = 0; i < horses.size(); ++i) {
    asked[horses[i]] = true;
    out.answers[horses[i]] = std::move(answers[i]);
  }
  for (std::size_t h = 0; h < before.size(); ++h) {
    out.horses.push_back(compared(before[h], out.answers[h], !asked[h]));
  }
  return out;
}

}  // namespace

std::optional<Money> HorseDifference::dearer_by() const {
  return difference(cost_before, cost_after);
}

std::optional<Money> HorseDifference::exactly_dearer_by() const {
  return difference(exact_before, exact_after);
}

AnswerStatus AskedAnswer::worst() const {
  AnswerStatus worst = AnswerStatus::found;
  for (const HorseAnswer& answer : answers) worst = worse(worst, answer.worst());
  return worst;
}

YardCost yard_cost(const AskedAnswer& answer) {
  YardCost sum{Money{}, Money{}, Money{}, Money{}};
  const auto add = [](std::optional<Money>& to, const std::optional<Money>& cost) {
    to = to && cost ? std::optional<Money>(*to + *cost) : std::nullopt;
  };
  for (const HorseDifference& horse : answer.horses) {
    if (!horse.cost_before && !horse.cost_after) continue;
    add(sum.before, horse.cost_before);
    add(sum.after, horse.cost_after);
    add(sum.exact_before, horse.exact_before);
    add(sum.exact_after, horse.exact_after);
  }
  return sum;
}

std::optional<Money> cost_to_feed(const HorseAnswer& answer) {
  return mean_cost(answer, [](const HorseAnswer& a) { return ration_to_feed(a).cost; });
}

std::optional<Money> exact_cost(const HorseAnswer& answer) {
  return mean_cost(answer, [](const HorseAnswer& a) { return a.ration->cost; });
}

std::vector<Diagnostic> new_remarks(const AskedQuestion& question, const Scenario& scenario) {
  std::vector<Diagnostic> remarks = question.scenario.remarks;
  std::erase_if(remarks, [&](const Diagnostic& d) {
    return std::any_of(scenario.remarks.begin(), scenario.remarks.end(), [&](const Diagnostic& o) {
      return o.message == d.message && o.position.line == d.position.line;
    });
  });
  return remarks;
}

std::vector<AskedAnswer> ask(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                             const RunOptions& options) {
  RunOptions from_there = options;
  from_there.before = &answers;
  std::vector<AskedAnswer> all;
  all.reserve(scenario.asked.size());
  for (const AskedQuestion& question : scenario.asked) {
    all.push_back(answer_one(question, scenario, answers, from_there));
  }
  return all;
}

}  // namespace haymow
