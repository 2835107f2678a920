#include "scenarios/page_views.h"

#include <algorithm>
#include <array>

#include "scenarios/offers.h"
#include "scenarios/report_offers.h"
#include "scenarios/report_stretch.h"
#include "scenarios/report_winter.h"
#include "scenarios/winter_files.h"

namespace haymow {
namespace {

struct ViewNamed {
  PageView view;
  std::string_view name;
  std::string_view words;
  bool takes_its_time;
};
constexpr std::array views{
    ViewNamed{PageView::ration, "ration", "What to feed", false},
    ViewNamed{PageView::needs, "needs", "What each horse needs", false},
    ViewNamed{PageView::audit, "audit", "What is fed now", false},
    ViewNamed{PageView::offers, "offers", "Other mixes", true},
    ViewNamed{PageView::winter, "winter", "The season: cost, orders, bills", true},
    ViewNamed{PageView::stretch, "stretch", "How long the hay lasts", true},
};

const ViewNamed& named(PageView view) {
  return *std::find_if(views.begin(), views.end(),
                       [&](const ViewNamed& v) { return v.view == view; });
}

ReportOptions for_page() {
  ReportOptions options;
  options.on_page = true;
  return options;
}

ViewMade made(Report report, bool good, std::string_view otherwise) {
  return {std::move(report), good, good ? std::string() : std::string(otherwise), false};
}

ViewMade audit_view(const Scenario& scenario) {
  const std::vector<Audit> audits = audit(scenario);
  const bool good =
      std::all_of(audits.begin(), audits.end(), [](const Audit& a) { return a.adequate(); });
  return made(audit_report(scenario, audits, for_page()), good,
              "what is fed now is not enough, or too much, of something");
}

ViewMade offers_view(const Scenario& scenario, const Watch& watch) {
  watch.now("looking for other mixes");
  const OffersOptions usual;
  const std::vector<OffersAnswer> answers = offers(scenario, usual);
  const bool good = std::all_of(answers.begin(), answers.end(), [](const OffersAnswer& each) {
    return each.answer.status == AnswerStatus::found;
  });
  return made(offers_report(scenario, answers, usual, for_page()), good,
              "not every horse has a ration: the answer says why");
}

std::string_view season_told(bool stopped, SeasonStatus status) {
  if (stopped) return "stopped: the answer is what was known by then";
  if (status == SeasonStatus::none) return "there is no plan: the answer says why";
  if (status == SeasonStatus::limit_reached)
    return "the time ran out: the answer says how far it is";
  return "the plan is not for every horse: the answer says why";
}

ViewMade season_view(Report report, bool complete, bool stopped, SeasonStatus status) {
  ViewMade out = made(std::move(report), complete && !stopped, season_told(stopped, status));
  out.stopped = stopped;
  return out;
}

ViewMade winter_view(const Scenario& scenario, const Watch& watch) {
  const WinterAnswer answer = winter(scenario, season_planners(watch));
  return season_view(winter_report(scenario, answer, for_page()), complete(answer), answer.stopped,
                     answer.plan.status);
}

ViewMade stretch_view(const Scenario& scenario, const Watch& watch) {
  const StretchAnswer answer = stretch(scenario, watch);
  return season_view(stretch_report(scenario, answer, for_page()), complete(answer),
                     answer.stopped_in.has_value(), answer.plan.status);
}

}  // namespace

ViewMade ration_view(const Scenario& scenario, const std::vector<HorseAnswer>& answers) {
  const bool good = std::all_of(answers.begin(), answers.end(), [](const HorseAnswer& answer) {
    return answer.worst() == AnswerStatus::found;
  });
  return made(ration_report(scenario, answers, for_page(), ask(scenario, answers)), good,
              "not every horse has a ration: the answer says why");
}

std::string_view name_of(PageView view) { return named(view).name; }
std::string_view words_for(PageView view) { return named(view).words; }
bool takes_its_time(PageView view) { return named(view).takes_its_time; }

std::optional<PageView> page_view_named(std::string_view name) {
  for (const ViewNamed& v : views) {
    if (v.name == name) return v.view;
  }
  return std::nullopt;
}

std::vector<PageView> views_of(const Scenario& scenario) {
  const auto& horses = scenario.stable.horses;
  const bool fed_now =
      std::any_of(horses.begin(), horses.end(), [](const Horse& h) { return !h.fed_now.empty(); });
  const bool season = scenario.stable.season.has_value();
  std::vector<PageView> all;
  for (const ViewNamed& v : views) {
    if (v.view == PageView::audit && !fed_now) continue;
    if ((v.view == PageView::winter || v.view == PageView::stretch) && !season) continue;
    all.push_back(v.view);
  }
  return all;
}

ViewMade make_view(PageView view, const Scenario& scenario, const Watch& watch) {
  switch (view) {
    case PageView::ration:
      break;
    case PageView::needs:
      return made(needs_report(scenario), true, "");
    case PageView::audit:
      return audit_view(scenario);
    case PageView::offers:
      return offers_view(scenario, watch);
    case PageView::winter:
      return winter_view(scenario, watch);
    case PageView::stretch:
      return stretch_view(scenario, watch);
  }
  return ration_view(scenario, run(scenario));
}

}  // namespace haymow
