#include "model/change_plan.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "model/practical.h"

namespace haymow {
namespace {

// Steps tried beyond the fewest before amounts further from the mixture are.
constexpr int more_steps_tried = 8;
constexpr int widest = 1;
constexpr double amounts_tolerance_kg = 1e-9;
// A forage changes much when its energy or protein moves by more than these shares:
// common practice, no source. The advice of two to three weeks is Harris et al.
constexpr std::array<std::pair<Nutrient, double>, 2> much{
    {{Nutrient::energy, 0.10}, {Nutrient::crude_protein, 0.25}}};
constexpr std::array<HealthState, 3> careful{
    HealthState::gastric_ulcers, HealthState::laminitis_prone, HealthState::cannot_chew};

// Less than the scale shows is no change.
bool same_amounts(const Changeover& change) {
  for (std::size_t j = 0; j < change.now.size(); ++j) {
    const double step = weighing_of(change.question.offers[j].feed.group).step.in_kg();
    const double moved = std::abs(put_out_kg(change, j, change.then[j] - change.now[j]));
    if (moved > step - amounts_tolerance_kg) return false;
  }
  return true;
}

bool forage_differs(const Changeover& change) {
  for (std::size_t j = 0; j < change.now.size(); ++j) {
    if (!counts_as_forage(change.question.offers[j].feed, change.question.horse)) continue;
    const bool before = change.now[j] > least_portion.in_kg();
    const bool after = change.then[j] > least_portion.in_kg();
    if (before != after) return true;
  }
  return false;
}

// Known figures of the forage, per kg of the dry matter they are known for.
std::optional<double> forage_mean(const Changeover& change, const std::vector<double>& amounts,
                                  Nutrient n) {
  double sum = 0.0;
  double dry = 0.0;
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    const Feed& feed = change.question.offers[j].feed;
    if (!feed.is_forage() || !feed.composition[n]) continue;
    const double kg = feed.dry(KgAsFed{amounts[j]}).in_kg();
    sum += feed.composition[n]->value * kg;
    dry += kg;
  }
  if (dry <= 0.0) return std::nullopt;
  return sum / dry;
}

std::vector<ForageShift> forage_shifts(const Changeover& change) {
  std::vector<ForageShift> shifts;
  for (const auto& [nutrient, share] : much) {
    const auto now = forage_mean(change, change.now, nutrient);
    const auto then = forage_mean(change, change.then, nutrient);
    if (now && then && std::abs(*then - *now) > share * *now) {
      shifts.push_back({nutrient, *now, *then});
    }
  }
  return shifts;
}

using Amounts = std::vector<std::vector<double>>;

// The amounts of `count` steps, the new ration last; nothing when one of them
// cannot be weighed out safely.
std::optional<Amounts> ladder(const Changeover& change, int count, int widen) {
  Amounts amounts;
  std::vector<double> previous = change.now;
  for (int k = 1; k < count; ++k) {
    auto step = amounts_at(change, static_cast<double>(k) / count, previous, widen);
    if (!step) return std::nullopt;
    previous = *step;
    amounts.push_back(std::move(*step));
  }
  const double last = concentrates_added_kg(change, previous, change.then);
  if (last > most_added_a_day_kg + amounts_tolerance_kg) return std::nullopt;
  amounts.push_back(change.then);
  return amounts;
}

std::optional<Amounts> shortest_ladder(const Changeover& change) {
  const double added = concentrates_added_kg(change, change.now, change.then);
  const int count =
      std::max(fewest_steps,
               static_cast<int>(std::ceil(added / most_added_a_day_kg - amounts_tolerance_kg)));
  for (int widen = 0; widen <= widest; ++widen) {
    for (int more = 0; more <= more_steps_tried; ++more) {
      if (auto found = ladder(change, count + more, widen)) return found;
    }
  }
  return std::nullopt;
}

std::vector<Broken> broken_watched(const Changeover& change, const std::vector<double>& amounts) {
  std::vector<RowMeaning> watched;
  for (const RowMeaning& row : change.formulation.rows) {
    if (row.is_welfare()) watched.push_back(row);
  }
  return broken_rows(watched, amounts);
}

std::vector<StepBreak> step_breaks(const Changeover& change, const std::vector<double>& amounts) {
  std::vector<StepBreak> out;
  for (std::size_t i = 0; i < change.formulation.rows.size(); ++i) {
    const RowMeaning& row = change.formulation.rows[i];
    if (row.kept(amounts)) continue;
    const bool today = breaks(change, i, change.now);
    const bool need = row.family == RowFamily::need && !today;
    if (!row.is_welfare() && !need) continue;
    out.push_back({{row, row.value(amounts).value_or(0.0)}, today});
  }
  return out;
}

// The days on the way are shared out among the steps before the last, the first
// ones getting what is over.
void set_days(ChangePlan& plan) {
  const int parts = static_cast<int>(plan.steps.size()) - 1;
  const auto first_day = [&](int k) { return 1 + (k * plan.days + parts - 1) / parts; };
  for (int k = 0; k <= parts; ++k) {
    ChangeStep& step = plan.steps[static_cast<std::size_t>(k)];
    step.from_day = first_day(k);
    if (k < parts) step.to_day = first_day(k + 1) - 1;
  }
}

int days_for(const Changeover& change, std::optional<int> over, ChangePlan& plan) {
  const int asked = std::max(over.value_or(usual_change_days), fewest_change_days);
  if (asked >= usual_change_days) return asked;
  for (const HealthState state : careful) {
    if (!change.question.horse.health.contains(state)) continue;
    plan.no_faster = state;
    return usual_change_days;
  }
  return asked;
}

// A falling concentrate that is below its share of the way by more than rounding.
void note_early_cuts(const Changeover& change, ChangePlan& plan) {
  for (std::size_t j = 0; j < change.now.size(); ++j) {
    if (!is_concentrate(change, j) || change.then[j] >= change.now[j]) continue;
    const double step = weighing_of(change.question.offers[j].feed.group).step.in_kg();
    const bool early = std::any_of(plan.steps.begin(), plan.steps.end(), [&](const ChangeStep& s) {
      const double mix = (1.0 - s.share) * change.now[j] + s.share * change.then[j];
      return put_out_kg(change, j, mix - s.amounts[j]) > step * (1.0 + widest);
    });
    if (early) plan.cut_early.push_back(j);
  }
}

void note_on_the_way(const Changeover& change, ChangePlan& plan) {
  plan.on_the_way.assign(change.now.size(), KgAsFed{});
  for (const ChangeStep& step : plan.steps) {
    if (!step.to_day) continue;
    const int days = *step.to_day - step.from_day + 1;
    for (std::size_t j = 0; j < change.now.size(); ++j) {
      plan.on_the_way[j] += KgAsFed{days * put_out_kg(change, j, step.amounts[j])};
    }
  }
}

// What plain quarter steps, rounded to the nearest, would break anew.
std::vector<Broken> broken_by_quarters(const Changeover& change) {
  std::vector<Broken> out;
  for (int k = 1; k < fewest_steps; ++k) {
    std::vector<double> amounts;
    for (std::size_t j = 0; j < change.now.size(); ++j) {
      const Offer& offer = change.question.offers[j];
      const double step = offer.eaten(weighing_of(offer.feed.group).step).in_kg();
      const double share = static_cast<double>(k) / fewest_steps;
      const double mix = (1.0 - share) * change.now[j] + share * change.then[j];
      amounts.push_back(step * std::round(mix / step));
    }
    for (const StepBreak& each : step_breaks(change, amounts)) {
      const bool told = std::any_of(
          out.begin(), out.end(), [&](const Broken& b) { return b.row.id == each.broken.row.id; });
      if (each.broken.row.is_welfare() && !each.broken_today && !told) out.push_back(each.broken);
    }
  }
  return out;
}

// The share of the energy need that is fed now, where that is too little to go on with.
std::optional<double> too_little_now(const Changeover& change) {
  for (const RowMeaning& row : change.formulation.rows) {
    if (row.id != "energy/min" || row.bound <= 0.0) continue;
    const double share = row.value(change.now).value_or(0.0) / row.bound;
    if (share < least_energy_share_now) return share;
  }
  return std::nullopt;
}

bool breaks_anew(const ChangeStep& step) {
  return std::any_of(step.broken.begin(), step.broken.end(), [](const StepBreak& b) {
    return b.broken.row.is_welfare() && !b.broken_today;
  });
}

}  // namespace

ChangePlan plan_change(const Changeover& change, std::optional<int> over) {
  ChangePlan plan;
  if (same_amounts(change)) {
    plan.safe = true;
    return plan;
  }
  plan.changes = true;
  plan.broken_today = broken_watched(change, change.now);
  plan.forage_differs = forage_differs(change);
  plan.shifts = forage_shifts(change);
  plan.too_little = too_little_now(change);
  if (plan.too_little) return plan;
  const auto amounts = shortest_ladder(change);
  if (amounts) {
    const int count = static_cast<int>(amounts->size());
    plan.days = std::max(days_for(change, over, plan), count - 1);
    const std::vector<double>* before = &change.now;
    for (int k = 1; k <= count; ++k) {
      const auto& step = (*amounts)[static_cast<std::size_t>(k - 1)];
      plan.most_added_kg =
          std::max(plan.most_added_kg, concentrates_added_kg(change, *before, step));
      before = &step;
      plan.steps.push_back(
          {1, std::nullopt, static_cast<double>(k) / count, step, step_breaks(change, step)});
    }
    set_days(plan);
    plan.safe = std::none_of(plan.steps.begin(), plan.steps.end(), breaks_anew);
  }
  if (!plan.safe) {
    plan.steps.clear();
    plan.unavoidable = broken_by_quarters(change);
    return plan;
  }
  note_early_cuts(change, plan);
  note_on_the_way(change, plan);
  return plan;
}

}  // namespace haymow
