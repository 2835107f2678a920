// Why a winter has no plan: which week fails, for whom, and what would mend it.
#include <fmt/format.h>

#include "scenarios/report_season.h"
#include "scenarios/report_season_mends.h"
#include "scenarios/report_winter_parts.h"

namespace haymow {
namespace {

class WinterFailureWords {
 public:
  explicit WinterFailureWords(const WinterTold& told) : in_(told) {}

  Report::Part failure() const {
    Report::Part part;
    part.good = false;
    if (const auto headline = no_plan_headline(in_.question, in_.answer.plan)) {
      part.headline = *headline;
      if (in_.answer.plan.status != SeasonStatus::limit_reached) return part;
      part.sections.push_back(
          {"",
           {},
           {fmt::format("No plan can cost less than {}. Fewer horses at a time, or a shorter "
                        "season, are planned sooner.",
                        in_.words.money_with_code(in_.answer.plan.lower_bound.in_units()))}});
      return part;
    }
    part.headline = "There is no plan for this winter";
    if (in_.answer.failure) {
      part.sections.push_back({"", {}, first_failure(*in_.answer.failure)});
      for (Section& section :
           mend_sections(in_.scenario, in_.question, in_.answer.mends, in_.words)) {
        part.sections.push_back(std::move(section));
      }
      return part;
    }
    if (in_.answer.without_ration.empty()) {
      part.sections.push_back(
          {"",
           {},
           {"Every horse has a safe ration in every week, but not all of them together from what "
            "is on hand and can be had, within the stores, the budget and a gradual change.",
            "Look first at what can be had (`can be had`, `on hand` without it), then at the "
            "`budget`, then at the `stores`."}});
      return part;
    }
    const HorseWithoutRation& first = in_.answer.without_ration.front();
    for (const HorseWithoutRation& each : in_.answer.without_ration) {
      Section section{
          fmt::format("{} has no ration from {} on, whatever is bought",
                      in_.question.horses[each.horse].name, in_.first_day_told(each.week)),
          {},
          {}};
      if (each.ration == first.ration && &each != &first) {
        section.sentences.push_back("For the same reason.");
      } else {
        const RationQuestion& ration = in_.question.rations[each.ration];
        section.sentences = in_.words.clash(each.why, ration.horse, ration.offers);
        if (!each.why.mends.empty()) {
          section.sentences.push_back("The cheapest mend: " +
                                      in_.words.mend(each.why.mends.front()));
        }
      }
      part.sections.push_back(std::move(section));
    }
    return part;
  }

 private:
  // The first week that fails, who falls short of what in it, and where to look.
  std::vector<std::string> first_failure(const SeasonFailure& failure) const {
    std::vector<std::string> told;
    told.push_back(
        fmt::format("Every horse has a safe ration in every week, but no plan for all of them "
                    "lasts through the "
                    "week from {}.",
                    in_.first_day_told(failure.first_week)));
    for (const SeasonMiss& miss : failure.misses) {
      const std::string what =
          miss.row ? in_.words.demand(*miss.row) : "the pace of a change of feed";
      told.push_back(fmt::format("- In the week from {} what cannot be kept for {} is: {}.",
                                 in_.first_day_told(miss.week),
                                 horses_in_words(in_.question, miss.horses), what));
    }
    if (failure.only_the_pace) {
      told.emplace_back(
          "It is only the pace: what a horse needs changes faster than its feed may. Begin "
          "earlier, as with a `calendar` in smaller steps, and ask a vet or nutritionist how fast "
          "it may go.");
    }
    if (failure.cut_short) told.push_back(season_cut_short());
    return told;
  }

  const WinterTold& in_;
};

}  // namespace

Report::Part winter_failure_part(const WinterTold& told) {
  return WinterFailureWords(told).failure();
}

}  // namespace haymow
