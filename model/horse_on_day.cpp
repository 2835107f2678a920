#include "model/horse_on_day.h"

#include <algorithm>
#include <cmath>

#include "model/nrc_2007_drivers.h"

namespace haymow {
namespace {

using nrc::days_per_month;

constexpr int last_month_in_foal = 11;
constexpr int last_month_in_milk = 6;
constexpr double grown_months = 24.0;

int begun_months(int days) { return static_cast<int>(std::ceil(days / days_per_month)); }
int completed_months(int days) { return static_cast<int>(std::floor(days / days_per_month)); }

// The stage of a mare who foals on day `foaling`; nothing when that day says nothing
// of this one: not in foal yet, or weaned.
std::optional<LifeStage> stage_of_mare(int foaling, std::optional<int> weaning, int day) {
  if (day < foaling) {
    const int days = days_in_foal - (foaling - day);
    if (days < 0) return std::nullopt;
    return Pregnant{std::clamp(begun_months(days), 1, last_month_in_foal)};
  }
  const int month = completed_months(day - foaling) + 1;
  if (month > last_month_in_milk || (weaning && day >= *weaning)) return std::nullopt;
  return Lactating{month};
}

void grow(Horse& horse, const Growing& now, int day) {
  const double age = now.age_months + day / days_per_month;
  const double share_now = nrc::share_of_mature_weight(now.age_months);
  const Bodyweight mature = horse.mature_weight.value_or(horse.bodyweight / share_now);
  const double reached = nrc::share_of_mature_weight(std::min(age, grown_months));
  horse.bodyweight += (reached - share_now) * mature;
  if (age <= grown_months) {
    horse.stage = Growing{age, now.work};
    return;
  }
  horse.mature_weight.reset();
  horse.stage = now.work ? LifeStage{Working{*now.work}} : LifeStage{Idle{}};
}

void set_stage(Horse& horse, int day) {
  const LifeStage first = horse.stage;
  if (const auto* growing = std::get_if<Growing>(&first)) grow(horse, *growing, day);
  if (const auto foaling = expected_foaling(horse)) {
    const auto stage = stage_of_mare(*foaling, horse.calendar.weaning, day);
    horse.stage = stage.value_or(LifeStage{Idle{}});
    if (stage) return;  // a mare in foal or in milk is fed as one, whatever else she does
  }
  for (const StageFrom& later : horse.calendar.stages) {
    if (later.day > day) break;
    if (auto* growing = std::get_if<Growing>(&horse.stage)) {
      const auto* working = std::get_if<Working>(&later.stage);
      growing->work = working != nullptr ? std::optional(working->level) : std::nullopt;
    } else {
      horse.stage = later.stage;
    }
  }
}

}  // namespace

std::optional<int> expected_foaling(const Horse& horse) {
  if (horse.calendar.foaling) return horse.calendar.foaling;
  if (const auto* in_foal = std::get_if<Pregnant>(&horse.stage)) {
    return days_in_foal - static_cast<int>(std::ceil((in_foal->month - 1) * days_per_month));
  }
  if (const auto* in_milk = std::get_if<Lactating>(&horse.stage)) {
    return -static_cast<int>(std::ceil((in_milk->month - 1) * days_per_month));
  }
  return std::nullopt;
}

Horse horse_on(const Horse& horse, int day) {
  Horse later = horse;
  set_stage(later, day);
  if (later.condition && later.condition->within &&
      static_cast<double>(day) >= later.condition->within->in_days()) {
    later.condition->now = later.condition->aim;
    later.condition->within.reset();
  }
  return later;
}

}  // namespace haymow
