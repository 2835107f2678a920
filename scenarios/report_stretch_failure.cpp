#include "scenarios/report_stretch_failure.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "scenarios/report_season.h"

namespace haymow {
namespace {

constexpr std::size_t most_told = 6;

class Failure {
 public:
  Failure(const Scenario& scenario, const StretchAnswer& answer, const Wording& words)
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
    part.sections.push_back({"What would mend it", {}, mends()});
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
      if (++count > most_told) break;
      told.push_back(fmt::format("In the week from {}: {}.",
                                 day_told(question_.weeks[miss.week].first_day), text));
    }
    told.push_back(failure.only_the_pace
                       ? "Only the pace stands in the way: with feeds changed faster there would "
                         "be a plan. Changing faster is a risk of colic; ask your vet."
                       : "Told of the plan that misses least; another would let another horse or "
                         "week fall short.");
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

  std::vector<std::string> mends() const {
    std::vector<std::string> told;
    if (answer_.mends) {
      for (const MoreFeed& more : answer_.mends->more_feed) told.push_back(more_told(more));
      if (!answer_.mends->fewer.empty()) told.push_back(fewer_told());
    }
    if (told.empty()) {
      told.push_back(
          "Neither more of one forage nor one or two horses elsewhere is enough by itself. See "
          "`haymow ration` for each horse, then the `budget`, the `stores` and what `can be had`.");
    } else {
      told.push_back(
          "Costs are the least of the whole season so mended, amounts of any size, certified; the "
          "feed at its price in the file, other grazing or livery not counted.");
    }
    return told;
  }

  std::string more_told(const MoreFeed& more) const {
    const std::string& name = question_.offers[more.offer].name;
    const FeedSupply& supply = question_.supply[more.offer];
    const std::string amount =
        more.packs ? fmt::format("{} {}{} ({})", *more.packs, supply.pack_name,
                                 *more.packs == 1 ? "" : "s", words_.mass(more.amount.in_kg()))
                   : words_.mass(more.amount.in_kg());
    return fmt::format("{} more of {}, there by {}: the season then costs {}.", amount, name,
                       day_told(question_.weeks[more.by_week].first_day),
                       words_.money_with_code(more.cost.in_units()));
  }

  std::string fewer_told() const {
    const FewerHorses& fewer = answer_.mends->fewer.front();
    return fmt::format(
        "Or {} fed elsewhere from the first day, at grass livery say: the others' season then "
        "costs {}.",
        horses_in_words(question_, fewer.horses), words_.money_with_code(fewer.cost.in_units()));
  }

  const Scenario& scenario_;
  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
  const Wording& words_;
};

}  // namespace

Report::Part stretch_failure_part(const Scenario& scenario, const StretchAnswer& answer,
                                  const Wording& words) {
  return Failure(scenario, answer, words).part();
}

}  // namespace haymow
