#include "model/stable.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "model/letter_case.h"

namespace haymow {
namespace {

std::string_view word_for(WorkLevel level) {
  switch (level) {
    case WorkLevel::light:
      return "light";
    case WorkLevel::moderate:
      return "moderate";
    case WorkLevel::heavy:
      return "heavy";
    case WorkLevel::very_heavy:
      return "very heavy";
  }
  return "";
}

std::string_view word_for(MaintenanceLevel level) {
  switch (level) {
    case MaintenanceLevel::minimum:
      return "minimum";
    case MaintenanceLevel::average:
      return "average";
    case MaintenanceLevel::elevated:
      return "elevated";
  }
  return "";
}

struct Describe {
  std::string operator()(const Idle& stage) const {
    return fmt::format("idle, {} maintenance", word_for(stage.level));
  }
  std::string operator()(const Stallion& stage) const {
    return stage.breeding ? "breeding stallion" : "stallion at rest";
  }
  std::string operator()(const Working& stage) const {
    return fmt::format("{} work", word_for(stage.level));
  }
  std::string operator()(const Pregnant& stage) const {
    return fmt::format("pregnant, month {}", stage.month);
  }
  std::string operator()(const Lactating& stage) const {
    return fmt::format("in milk, month {}", stage.month);
  }
  std::string operator()(const Growing& stage) const {
    const std::string age = fmt::format("growing, {:.4g} months old", stage.age_months);
    return stage.work ? fmt::format("{}, {} work", age, word_for(*stage.work)) : age;
  }
};

/// The first word of a state is the one printed; the others are read as well.
constexpr std::array<std::pair<HealthState, std::string_view>, 15> health_words{{
    {HealthState::laminitis_prone, "laminitis-prone"},
    {HealthState::laminitis_prone, "insulin-dysregulated"},
    {HealthState::gastric_ulcers, "gastric ulcers"},
    {HealthState::pssm, "PSSM"},
    {HealthState::pssm, "tying-up"},
    {HealthState::hypp, "HYPP"},
    {HealthState::ppid, "PPID"},
    {HealthState::overweight, "overweight"},
    {HealthState::underweight, "underweight"},
    {HealthState::cannot_chew, "cannot chew long forage"},
    {HealthState::airway, "airway"},
    {HealthState::starved, "starved"},
    {HealthState::acute_laminitis, "acute laminitis"},
    {HealthState::colic, "colic"},
    {HealthState::off_feed, "off feed"},
}};

}  // namespace

std::string describe(const LifeStage& stage) { return std::visit(Describe{}, stage); }

std::string_view name_of(HealthState state) {
  for (const auto& [known, word] : health_words) {
    if (known == state) return word;
  }
  return "";
}

std::optional<HealthState> health_state_named(std::string_view name) {
  for (const auto& [state, word] : health_words) {
    if (same_letters(name, word)) return state;
  }
  return std::nullopt;
}

std::vector<HealthState> all_health_states() {
  std::vector<HealthState> states;
  for (const auto& [state, word] : health_words) {
    if (states.empty() || states.back() != state) states.push_back(state);
  }
  return states;
}

bool refuses_planning(HealthState state) {
  return state == HealthState::starved || state == HealthState::acute_laminitis ||
         state == HealthState::colic || state == HealthState::off_feed;
}

Offer unpriced(const Feed& feed) {
  Offer offer;
  offer.name = feed.name;
  offer.feed = feed;
  return offer;
}

}  // namespace haymow
