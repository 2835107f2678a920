#include "scenarios/report_stretch_failure.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "scenarios/report_season.h"
#include "scenarios/report_season_mends.h"

namespace haymow {
namespace {

constexpr std::size_t most_weeks_told = 6;

class StretchFailureWords {
 public:
  StretchFailureWords(const Scenario& scenario, const StretchAnswer& answer, const Wording& words)
      : scenario_(scenario), answer_(answer), question_(answer.question), words_(words) {}

  Report::Part part() const {
    Report::Part part;
    part.good = false;
    if (const auto headline = no_plan_headline(question_, answer_.plan)) {
      part.headline = *headline;
      return part;
    }
    if (!answer_.failure) {
      part.headline = "There is no safe plan to the end; why was not found in time";
      return part;
    }
    part.headline = fmt::format("No safe plan lasts through the week from {}",
                                day_told(question_.weeks[answer_.failure->first_week].first_day));
    part.sections.push_back({"Why", {}, why()});
    for (Section& section : mend_sections(scenario_, question_, answer_.mends, words_)) {
      part.sections.push_back(std::move(section));
    }
    return part;
  }

 private:
  std::string day_told(int after) const { return day_of_season(scenario_, after); }

  std::vector<std::string> why() const {
    const SeasonFailure& failure = *answer_.failure;
    const int first_day = question_.weeks[failure.first_week].first_day;
    std::vector<std::string> told{fmt::format(
        "Up to {} every horse can be fed safely with what is on hand and can be had; with the week "
        "after it no longer goes.",
        day_told(first_day - 1))};
    if (failure.first_week == 0) told.front() = "Not even for the first week is there a safe plan.";
    std::size_t count = 0;
    std::vector<std::string> said;
    for (const SeasonMiss& miss : failure.misses) {
      std::string text = miss_told(miss);
      if (std::find(said.begin(), said.end(), text) != said.end()) continue;
      said.push_back(text);
      if (++count > most_weeks_told) break;
      told.push_back(fmt::format("In the week from {}: {}.",
                                 day_told(question_.weeks[miss.week].first_day), text));
    }
    told.emplace_back(
        failure.only_the_pace
            ? "Only the pace of change stands in the way of that week."
            : "Told of the plan that misses least; another would let another horse or week fall "
              "short.");
    if (failure.cut_short) told.back() = season_cut_short();
    return told;
  }

  std::string miss_told(const SeasonMiss& miss) const {
    const std::string names = horses_in_words(question_, miss.horses);
    if (miss.row) {
      return fmt::format("{} would fall short: {}", names, words_.demand(*miss.row));
    }
    if (miss.offer) {
      return fmt::format("{} would have to go over to {} too fast", names,
                         question_.offers[*miss.offer].name);
    }
    return fmt::format("{} would have to change feed too fast", names);
  }

  const Scenario& scenario_;
  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
  const Wording& words_;
};

}  // namespace

Report::Part stretch_failure_part(const Scenario& scenario, const StretchAnswer& answer,
                                  const Wording& words) {
  return StretchFailureWords(scenario, answer, words).part();
}

}  // namespace haymow
