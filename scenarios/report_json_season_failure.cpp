#include "scenarios/report_json_season_failure.h"

#include <utility>
#include <vector>

#include "scenarios/report_json_season.h"

namespace haymow {
namespace {

class FailureJson {
 public:
  FailureJson(const Scenario& scenario, const SeasonQuestion& question, const SeasonMends& mends)
      : scenario_(scenario), question_(question), mends_(mends) {}

  [[nodiscard]] Json of(const SeasonFailure& why) const {
    Json misses = Json::array();
    for (const SeasonMiss& miss : why.misses) {
      misses.push_back({{"week_from", first_day(miss.week)},
                        {"horses", names_of(miss.horses)},
                        {"row", miss.row ? row_of(*miss.row) : Json(nullptr)},
                        {"too_fast_to", miss.offer ? Json(feed(*miss.offer)) : Json(nullptr)}});
    }
    return {{"first_week_from", first_day(why.first_week)},
            {"only_the_pace", why.only_the_pace},
            {"misses", std::move(misses)},
            {"more_feed", more_feed()},
            {"fewer_horses", fewer_horses()},
            {"looser_limits", looser_limits()},
            {"faster_change", mends_.faster ? faster(*mends_.faster) : Json(nullptr)},
            {"cut_short", why.cut_short || mends_.cut_short}};
  }

 private:
  [[nodiscard]] std::string first_day(std::size_t week) const {
    return first_day_of(scenario_, question_.weeks[week]);
  }
  [[nodiscard]] const std::string& feed(std::size_t f) const { return question_.offers[f].name; }
  [[nodiscard]] Json names_of(const std::vector<std::size_t>& horses) const {
    Json out = Json::array();
    for (const std::size_t h : horses) out.push_back(question_.horses[h].name);
    return out;
  }

  [[nodiscard]] Json more_feed() const {
    Json out = Json::array();
    for (const MoreFeed& m : mends_.more_feed) {
      out.push_back({{"feed", feed(m.offer)},
                     {"kg", m.amount.in_kg()},
                     {"packs", m.packs ? Json(*m.packs) : Json(nullptr)},
                     {"by", first_day(m.by_week)},
                     {"least_cost", m.cost.in_units()}});
    }
    return out;
  }

  [[nodiscard]] Json fewer_horses() const {
    Json out = Json::array();
    for (const FewerHorses& f : mends_.fewer) {
      out.push_back({{"without", names_of(f.horses)}, {"least_cost", f.cost.in_units()}});
    }
    return out;
  }

  [[nodiscard]] Json looser_limits() const {
    Json out = Json::array();
    for (const LooserLimit& looser : mends_.looser) {
      Json where = Json::array();
      for (const LooserFor& f : looser.where) {
        where.push_back({{"horse", question_.horses[f.horse].name},
                         {"from", first_day(f.first_week)},
                         {"until", last_day_of(scenario_, question_.weeks[f.last_week])}});
      }
      out.push_back({{"row", row_of(looser.row)},
                     {"number", looser.from},
                     {"loosened_to", looser.to},
                     {"number_unit", looser.unit},
                     {"where", std::move(where)},
                     {"least_cost", looser.cost.in_units()}});
    }
    return out;
  }

  [[nodiscard]] Json faster(const FasterChange& change) const {
    Json where = Json::array();
    for (const FasterIn& in : change.where) {
      where.push_back(
          {{"horse", question_.horses[in.horse].name}, {"week_from", first_day(in.week)}});
    }
    return {{"days", change.days},
            {"where", std::move(where)},
            {"least_cost", change.cost.in_units()},
            {"only_if_a_vet_allows_it", true}};
  }

  const Scenario& scenario_;
  const SeasonQuestion& question_;
  const SeasonMends& mends_;
};

}  // namespace

Json season_failure_json(const Scenario& scenario, const SeasonQuestion& question,
                         const std::optional<SeasonFailure>& failure,
                         const std::optional<SeasonMends>& mends) {
  if (!failure) return nullptr;
  return FailureJson(scenario, question, mends.value_or(SeasonMends{})).of(*failure);
}

}  // namespace haymow
