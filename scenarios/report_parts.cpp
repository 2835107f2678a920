#include "scenarios/report_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "scenarios/report_grazing.h"

namespace haymow {
namespace {

// A nutrient known for less of the dry matter than this is named in the report.
constexpr double well_known = 0.75;
// Of the steps of a kilogram scale (model/weighing.cpp).
constexpr double finest_step_kg = 0.01;

}  // namespace

const Ration& ration_to_feed(const HorseAnswer& answer) {
  return answer.practical ? answer.practical->ration : *answer.ration;
}

bool fed(const HorseAnswer& answer, std::size_t offer) {
  const auto& portions = ration_to_feed(answer).portions;
  return std::any_of(portions.begin(), portions.end(),
                     [&](const Portion& p) { return p.offer == offer; });
}

std::string portion_in_brief(const RationQuestion& question, const Portion& portion,
                             const Wording& words) {
  const std::string& name = question.offers[portion.offer].name;
  if (question.grazes(portion.offer)) {
    return fmt::format("{} ({} of dry matter)", name, words.mass(portion.dry_matter.in_kg()));
  }
  // An amount in steps of the scale is told as weighed; one to the gram is rounded.
  const double kg = portion.put_out.in_kg();
  const double steps = kg / finest_step_kg;
  const bool in_steps = std::abs(steps - std::round(steps)) < 1e-6;
  return fmt::format("{} {}", in_steps ? words.weighed(kg) : words.mass(kg), name);
}

std::string headline(const HorseAnswer& answer, const Wording& words) {
  const std::string& name = answer.question.horse.name;
  if (answer.status != AnswerStatus::found) return name;
  const Ration& ration = ration_to_feed(answer);
  std::vector<std::string> feeds;
  for (const Portion& p : ration.portions) {
    feeds.push_back(portion_in_brief(answer.question, p, words));
  }
  return fmt::format("{}{}: {}; {} a day", name, in_its_month(answer), listed(feeds),
                     words.money_with_code(ration.cost.in_units()));
}

std::string partly_known(const Ration& ration) {
  std::vector<std::string> nutrients;
  for (const Supply& s : ration.supplies) {
    if (!s.forced || s.known_share >= well_known) continue;
    nutrients.push_back(
        fmt::format("{} ({:.0f} %)", traits_of(s.nutrient).name, 100.0 * s.known_share));
  }
  if (nutrients.empty()) return "";
  return fmt::format("Known for only part of the dry matter, the rest counted as none: {}.",
                     listed(nutrients));
}

Section assumptions(const Scenario& scenario) {
  Section section{"Assumed, since the file does not say", {}, {}};
  for (const Diagnostic& remark : scenario.remarks) {
    section.sentences.push_back(fmt::format("- line {}: {}", remark.position.line, remark.message));
  }
  return section;
}

}  // namespace haymow
