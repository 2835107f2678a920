#include "scenarios/report_season_mends.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <string>
#include <utility>

#include "model/change_plan.h"
#include "scenarios/report_season.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

class Mends {
 public:
  Mends(const Scenario& scenario, const SeasonQuestion& question, const SeasonMends& mends,
        const Wording& words)
      : scenario_(scenario), question_(question), mends_(mends), words_(words) {}

  [[nodiscard]] std::vector<Section> sections() const {
    std::vector<Section> out{{"What would mend it", {}, told()}};
    if (mends_.faster) out.push_back({"If your vet allows a faster change", {}, faster_told()});
    return out;
  }

 private:
  [[nodiscard]] std::string first_day(std::size_t week) const {
    return day_of_season(scenario_, question_.weeks[week].first_day);
  }
  [[nodiscard]] std::string last_day(std::size_t week) const {
    const SeasonWeek& w = question_.weeks[week];
    return day_of_season(scenario_, w.first_day + w.days - 1);
  }

  [[nodiscard]] std::vector<std::string> told() const {
    // What another horse eats elsewhere is in no sum here: such a cost is no rival.
    std::vector<std::pair<double, std::string>> priced;
    for (const MoreFeed& more : mends_.more_feed) {
      priced.emplace_back(more.cost.in_units(), more_told(more));
    }
    for (const LooserLimit& looser : mends_.looser) {
      priced.emplace_back(looser.cost.in_units(), looser_told(looser));
    }
    std::stable_sort(priced.begin(), priced.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> out;
    for (auto& [cost, text] : priced) out.push_back(std::move(text));
    if (!mends_.fewer.empty()) out.push_back(fewer_told());
    out.push_back(out.empty() ? "Neither more of one forage, nor one limit of good practice "
                                "loosened, nor one or two horses elsewhere is enough by itself. "
                                "See `haymow ration` for each horse, then the `budget`, the "
                                "`stores` and what `can be had`."
                              : "Costs are the least of the whole season so mended, amounts of "
                                "any size, certified; the feed at its price in the file, other "
                                "grazing or livery not counted.");
    if (mends_.cut_short) {
      out.emplace_back("The time ran out before every mend was tried: there may be others.");
    }
    return out;
  }

  [[nodiscard]] std::string more_told(const MoreFeed& more) const {
    const std::string& name = question_.offers[more.offer].name;
    const FeedSupply& supply = question_.supply[more.offer];
    const std::string amount =
        more.packs ? fmt::format("{} {}{} ({})", *more.packs, supply.pack_name,
                                 *more.packs == 1 ? "" : "s", words_.mass(more.amount.in_kg()))
                   : words_.mass(more.amount.in_kg());
    return fmt::format("{} more of {}, there by {}: the season then costs {}.", amount, name,
                       first_day(more.by_week), words_.money_with_code(more.cost.in_units()));
  }

  [[nodiscard]] std::string fewer_told() const {
    const FewerHorses& fewer = mends_.fewer.front();
    return fmt::format(
        "Or {} fed elsewhere from the first day, at grass livery say: the others' season then "
        "costs {}.",
        horses_in_words(question_, fewer.horses), words_.money_with_code(fewer.cost.in_units()));
  }

  // "Fern and Cob, 1 Feb 2027 to 7 Mar 2027; Wisp, ..."
  [[nodiscard]] std::string for_whom(const LooserLimit& looser) const {
    std::map<std::pair<std::size_t, std::size_t>, std::vector<std::size_t>> by_weeks;
    for (const LooserFor& where : looser.where) {
      by_weeks[{where.first_week, where.last_week}].push_back(where.horse);
    }
    std::vector<std::string> out;
    for (const auto& [weeks, horses] : by_weeks) {
      out.push_back(fmt::format("{} from {} to {}", horses_in_words(question_, horses),
                                first_day(weeks.first), last_day(weeks.second)));
    }
    return fmt::format("{}", fmt::join(out, "; "));
  }

  [[nodiscard]] std::string looser_told(const LooserLimit& looser) const {
    std::string what = looser.row.limit ? Wording::subject(looser.row)
                                        : fmt::format("your wish for {}", looser.row.wish);
    what.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(what.front())));
    return fmt::format("{}: {} {} instead of {}, for {}{}: the season then costs {}.", what,
                       looser.row.side == Side::lower ? "at least" : "at most",
                       words_.quantity(looser.to, looser.unit),
                       words_.quantity(looser.from, looser.unit), for_whom(looser),
                       looser.row.limit ? " (good practice, no welfare limit)" : "",
                       words_.money_with_code(looser.cost.in_units()));
  }

  [[nodiscard]] std::vector<std::string> faster_told() const {
    const FasterChange& faster = *mends_.faster;
    std::vector<std::string> out{fmt::format(
        "With feed changed within {} day{}, where {} are the rule, there would be a plan, at {} "
        "at the least. It is none of the plans of this report.",
        faster.days, faster.days == 1 ? "" : "s", usual_change_days,
        words_.money_with_code(faster.cost.in_units()))};
    std::map<std::size_t, std::vector<std::size_t>> by_week;
    for (const FasterIn& in : faster.where) by_week[in.week].push_back(in.horse);
    for (const auto& [week, horses] : by_week) {
      out.push_back(fmt::format("- {} in the days before and after {}.",
                                horses_in_words(question_, horses), first_day(week)));
    }
    out.emplace_back(
        "A quick change of feed risks colic and laminitis: agree it with your vet first, horse by "
        "horse. Better, begin the change earlier or buy what lets it be slow.");
    return out;
  }

  const Scenario& scenario_;
  const SeasonQuestion& question_;
  const SeasonMends& mends_;
  const Wording& words_;
};

}  // namespace

std::vector<Section> mend_sections(const Scenario& scenario, const SeasonQuestion& question,
                                   const std::optional<SeasonMends>& mends, const Wording& words) {
  return Mends(scenario, question, mends.value_or(SeasonMends{}), words).sections();
}

}  // namespace haymow
