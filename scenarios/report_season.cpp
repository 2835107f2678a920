#include "scenarios/report_season.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "scenarios/report_parts.h"
#include "scenarios/scenario_dates.h"

namespace haymow {

std::string day_of_season(const Scenario& scenario, int after) {
  const Date day = days_after(*scenario.from, after);
  return fmt::format("{} {}", short_text(day), day.year);
}

std::string amount_in_words(const SeasonQuestion& question, const OrderLine& order,
                            const Wording& words) {
  std::string weight = words.mass(order.amount.in_kg());
  // Three bags of 20 kg are 60 kg: nobody weighed them to the tenth.
  if (const auto tenth = weight.find(".0 "); tenth != std::string::npos) weight.erase(tenth, 2);
  if (!order.packs) return weight;
  return fmt::format("{} {}{} ({})", *order.packs, question.supply[order.offer].pack_name,
                     *order.packs == 1 ? "" : "s", weight);
}

std::string order_in_words(const SeasonQuestion& question, const OrderLine& order,
                           const Wording& words) {
  return fmt::format("{}: {}", question.offers[order.offer].name,
                     amount_in_words(question, order, words));
}

std::string spell_in_words(const SeasonQuestion& question, std::size_t horse,
                           const FeedingSpell& spell, const Wording& words) {
  std::string text;
  for (const SpellFeed& feed : spell.feeds) {
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", words.weighed(feed.put_out_kg),
                        question.offers[feed.offer].name);
  }
  if (text.empty()) text = "nothing";
  const std::size_t ration = question.horses[horse].ration_of_week[spell.first_week];
  return question.rations[ration].grass ? text + ", beside the grass" : text;
}

std::string horses_in_words(const SeasonQuestion& question,
                            const std::vector<std::size_t>& horses) {
  std::vector<std::string> names;
  names.reserve(horses.size());
  for (const std::size_t h : horses) names.push_back(question.horses[h].name);
  return listed(names);
}

std::string certified_to(const Certificate& certificate) {
  constexpr double far_below = 1e-9;
  return fmt::format("certified to {:.1e}", std::max({certificate.relative_gap,
                                                      certificate.largest_violation, far_below}));
}

std::optional<std::string> no_plan_headline(const SeasonQuestion& question,
                                            const SeasonPlan& plan) {
  if (question.horses.empty()) return "There is no horse to plan for";
  if (plan.status == SeasonStatus::limit_reached) {
    return plan.stopped ? "No plan was proven by then"
                        : "The time ran out before a plan was proven";
  }
  if (plan.status == SeasonStatus::failed) {
    return "No plan that passes its check was found: a failure of this program";
  }
  return std::nullopt;
}

std::string season_cut_short() {
  return "The time ran out before the first week that fails was found: it is this one or one "
         "before it, and who falls short first was not worked out.";
}

Report::Part refused_part(const Scenario& scenario, const std::vector<std::size_t>& refused) {
  Report::Part part;
  part.good = false;
  std::vector<std::string> names;
  for (const std::size_t h : refused) {
    const Horse& horse = scenario.stable.horses[h];
    names.push_back(horse.name);
    part.sections.push_back({horse.name, {}, refusal(horse)});
  }
  part.headline = fmt::format("Not planned, and in none of the sums above: {}", listed(names));
  return part;
}

std::vector<Section> season_closing(const Scenario& scenario, std::vector<std::string> assumed) {
  assumed.emplace_back(
      "Weeks are counted from the first day of the season; each is planned by what its middle "
      "day asks for.");
  return {{"Taken for granted", {}, std::move(assumed)},
          assumptions(scenario),
          {"Before you feed this", {}, cautions()},
          {"When to stop and ask", {}, when_to_ask()}};
}

}  // namespace haymow
