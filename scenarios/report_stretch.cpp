#include "scenarios/report_stretch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "model/change_plan.h"
#include "model/naming.h"
#include "scenarios/report_plots.h"
#include "scenarios/report_season.h"
#include "scenarios/report_stopped.h"
#include "scenarios/report_stretch_failure.h"
#include "scenarios/report_stretch_prices.h"
#include "scenarios/report_stretch_who_first.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

class StretchReport {
 public:
  StretchReport(const Scenario& scenario, const StretchAnswer& answer, const ReportOptions& options)
      : scenario_(scenario),
        answer_(answer),
        question_(answer.question),
        words_(options.units, scenario.stable.money) {}

  Report report() {
    Report report;
    report.title = title();
    if (!question_.horses.empty()) report.parts.push_back(today());
    if (answer_.found()) {
      report.parts.push_back(plan());
      if (answer_.knows(StretchPart::latest)) report.parts.push_back(latest());
    } else {
      report.parts.push_back(stretch_failure_part(scenario_, answer_, words_));
    }
    if (!question_.horses.empty() && answer_.knows(StretchPart::who_first)) {
      report.parts.push_back(stretch_who_first_part(answer_, words_));
    }
    if (answer_.found()) {
      if (answer_.knows(StretchPart::prices)) {
        report.parts.push_back(stretch_prices_part(answer_, words_));
      }
      if (answer_.knows(StretchPart::reserve)) report.parts.push_back(reserve());
    }
    if (!answer_.refused.empty()) {
      report.parts.push_back(refused_part(scenario_, answer_.refused));
    }
    report.closing = season_closing(scenario_, answer_.assumptions);
    return report;
  }

 private:
  Date day(int after) const { return days_after(*scenario_.from, after); }
  std::string day_told(int after) const { return day_of_season(scenario_, after); }
  std::string week_told(std::size_t week) const {
    return day_told(question_.weeks[week].first_day);
  }
  const std::string& name_of_offer(std::size_t f) const { return question_.offers[f].name; }
  int days() const { return question_.weeks.back().first_day + question_.weeks.back().days; }

  std::string title() const {
    const std::string yard = scenario_.stable.yard.empty() ? "The yard" : scenario_.stable.yard;
    return fmt::format("{}, {} to {}: how long the feed lasts", yard, day_told(0),
                       day_told(days() - 1));
  }

  // --- today

  Report::Part today() const {
    Report::Part part;
    std::vector<std::string> out;
    for (const RunsOut& feed : answer_.runs_out) {
      if (feed.day) {
        out.push_back(fmt::format("{} {} {}", name_of_offer(feed.offer),
                                  feed.too_old ? "is too old from" : "runs out on",
                                  day_told(*feed.day)));
      }
    }
    part.good = out.empty();
    if (answer_.runs_out.empty()) {
      part.headline = "Nothing is on hand, so nothing runs out";
    } else {
      part.headline = out.empty() ? "Fed as today, what is on hand lasts the season"
                                  : fmt::format("Fed as today, {}", listed(out));
      part.sections.push_back(stocks());
    }
    part.sections.push_back({"", {}, fed_today()});
    return part;
  }

  Section stocks() const {
    Section section{
        "", Table{{"feed", "there", "first day", "lasts", "short by", "left over"}, {}, 1}, {}};
    for (const RunsOut& feed : answer_.runs_out) {
      section.table->rows.push_back(
          {name_of_offer(feed.offer), words_.mass(feed.stock_kg),
           fmt::format("{} a day", words_.mass(put_out_first(feed.offer))),
           feed.day ? fmt::format("{} days", *feed.day) : "the season",
           feed.short_kg > least_forage_told_kg ? words_.mass(feed.short_kg) : "",
           feed.left_kg > least_forage_told_kg ? words_.mass(feed.left_kg) : ""});
    }
    section.sentences.push_back(
        "`there` is what is on hand less what the store loses; `first day` is put out, waste and "
        "all. A feed runs out on the first day for which what is left is not enough.");
    return section;
  }

  double put_out_first(std::size_t f) const {
    double kg = 0.0;
    for (const FedToday& horse : answer_.today) kg += horse.put_out_a_day[f].front();
    return kg;
  }

  std::vector<std::string> fed_today() const {
    std::vector<std::string> told;
    std::vector<std::string> reckoned;
    for (const FedToday& horse : answer_.today) {
      const std::string& name = question_.horses[horse.horse].name;
      if (!horse.told) reckoned.push_back(name);
      if (!horse.extra.empty()) {
        told.push_back(fmt::format(
            "{} is fed {}, of which the file has no stock and no price: left out of the sums, and "
            "its change is not reckoned from today's feeding.",
            name, listed(horse.extra)));
      }
    }
    if (!reckoned.empty()) {
      told.push_back(fmt::format(
          "The file does not say what {} {} fed today (`fed now`): counted with the cheapest "
          "ration, bought or not, as if there were enough of everything.",
          listed(reckoned), reckoned.size() == 1 ? "is" : "are"));
    }
    if (!answer_.unknown.empty()) {
      told.push_back(fmt::format(
          "Not counted: {}. The file does not say what is fed, and there is no safe ration to "
          "count instead.",
          listed(answer_.unknown)));
    }
    told.push_back("Whether today's feeding is enough, `haymow audit` says.");
    return told;
  }

  // --- the plan

  Report::Part plan() const {
    const SeasonPlan& plan = answer_.plan;
    Report::Part part;
    part.headline = fmt::format("The cheapest plan to {} costs {}", day_told(days() - 1),
                                words_.money_with_code(plan.cost.in_units()));
    part.sections.push_back(orders(plan));
    for (const FedAlike& group : fed_alike(question_, plan)) part.sections.push_back(fed(group));
    part.sections.push_back({"How sure this is", {}, {proof(plan)}});
    return part;
  }

  Section orders(const SeasonPlan& plan) const {
    Section section{"What to buy", Table{{"there on", "what", "goods", "delivery"}, {}, 2}, {}};
    std::size_t before = question_.weeks.size();
    for (const OrderLine& order : plan.orders) {
      section.table->rows.push_back(
          {order.week == before ? "" : week_told(order.week),
           order_in_words(question_, order, words_), Wording::money(order.goods.in_units()),
           order.delivery.in_units() > 0.0 ? Wording::money(order.delivery.in_units()) : ""});
      before = order.week;
    }
    if (plan.orders.empty()) {
      section.table.reset();
      section.sentences.push_back("Nothing: what is on hand lasts.");
    }
    section.sentences.push_back(
        "The cost is of all that is bought, and of what is on hand and used, at the price in the "
        "file.");
    section.sentences.push_back("How the stores empty, `haymow winter -v` tells week by week.");
    section.pictures.plots = stock_plots(scenario_, question_, plan);
    return section;
  }

  Section fed(const FedAlike& group) const {
    Section section{fmt::format("{}, put out a day", horses_in_words(question_, group.horses)),
                    Table{{"from", "to", "feed"}, {}, 2},
                    {}};
    section.table->last_is_prose = true;
    for (const FeedingSpell& spell : group.spells) {
      const SeasonWeek& last = question_.weeks[spell.last_week];
      section.table->rows.push_back(
          {short_text(day(question_.weeks[spell.first_week].first_day)),
           short_text(day(last.first_day + last.days - 1)),
           spell_in_words(question_, group.horses.front(), spell, words_)});
    }
    return section;
  }

  std::string proof(const SeasonPlan& plan) const {
    return fmt::format(
        "No plan can cost less than {}; this one is {}, {} with amounts of any size. Every stock "
        "balances from week to week.",
        words_.money_with_code(plan.lower_bound.in_units()),
        plan.in_whole_packs ? "in whole packs" : "of amounts of any size",
        certified_to(plan.certificate));
  }

  // --- the latest day

  Report::Part latest() const {
    Report::Part part;
    if (!answer_.latest) {
      part.headline = "From which day the change has to begin is not known";
      part.sections.push_back(
          {"",
           {},
           {knows_today()
                ? "The plans to try it with were not proven in time; fewer horses at once are "
                  "planned sooner."
                : "It is reckoned from what is fed today: write `fed now` for every horse, of "
                  "feeds that are on offer."}});
      return part;
    }
    const LatestChange& latest = *answer_.latest;
    if (!latest.misses) {
      part.headline = "Nothing forces a change this season";
      part.sections.push_back({"", {}, {goes_on(latest.fits)}});
      return part;
    }
    part.headline = latest.fits.weeks == 0
                        ? "Begin to change at once"
                        : fmt::format("Begin to change by {}",
                                      day_told(first_day_of_change(question_, latest.fits)));
    part.sections.push_back({"", {}, change_told(latest)});
    return part;
  }

  bool knows_today() const {
    return std::any_of(question_.horses.begin(), question_.horses.end(),
                       [](const SeasonHorse& horse) { return horse.fed_before.has_value(); });
  }

  // Today's feeding may be cheaper than any safe one.
  std::string beside_the_plan(Money cost, std::string_view plan) const {
    const double more = cost.in_units() - answer_.plan.lower_bound.in_units();
    if (more >= 0.0) {
      return fmt::format("{} more than {}", words_.money_with_code(more), plan);
    }
    return fmt::format(
        "{} less than {}, for today's feeding is cheaper than a safe ration: see `haymow audit`",
        words_.money_with_code(-more), plan);
  }

  std::string goes_on(const FedAsToday& all) const {
    return fmt::format(
        "With what can be bought, today's feeding can go on to the end. It would cost {} (amounts "
        "of any size; {}), {}.{}",
        words_.money_with_code(all.cost.in_units()), certified_to(all.certificate),
        beside_the_plan(all.cost, "the plan"), still_planned());
  }

  std::string still_planned() const {
    std::vector<std::string> names;
    for (const SeasonHorse& horse : question_.horses) {
      if (!horse.fed_before) names.push_back(horse.name);
    }
    if (names.empty()) return "";
    return fmt::format(
        " {} {} planned from the first day all the same: what {} fed today is not "
        "known in full.",
        listed(names), names.size() == 1 ? "is" : "are", names.size() == 1 ? "it is" : "they are");
  }

  std::vector<std::string> change_told(const LatestChange& latest) const {
    std::vector<std::string> told;
    const auto& weeks = question_.weeks;
    if (latest.fits.weeks > 0) {
      told.push_back(fmt::format(
          "Fed as today until then and by a plan afterwards, the season costs {} at the least, {}.",
          words_.money_with_code(latest.fits.cost.in_units()),
          beside_the_plan(latest.fits.cost, "changing now")));
    }
    told.push_back(gradual(latest.fits));
    const std::string later = latest.misses->weeks < weeks.size()
                                  ? fmt::format("a change from {}", week_told(latest.misses->weeks))
                                  : std::string("today's feeding to the end");
    told.push_back(fmt::format(
        "Tried on both sides: this plan is {}; for {} there is none, and that is proven.{}",
        certified_to(latest.fits.certificate), later, still_planned()));
    return told;
  }

  std::string gradual(const FedAsToday& trial) const {
    if (trial.weeks == 0) {
      return fmt::format(
          "The change is gradual, over {} days: from the first day no more of a day's feed is new "
          "than the days passed allow.",
          usual_change_days);
    }
    return fmt::format(
        "The change is gradual, over {} days: begun on that day it is half done in the middle of "
        "the week from {}, the first that the plan feeds otherwise.",
        usual_change_days, week_told(trial.weeks));
  }

  // --- four weeks more

  Report::Part reserve() const {
    const SeasonPlan& longer = answer_.reserve->plan;
    Report::Part part;
    const std::string until = day_told(days() + days_in_week * weeks_in_reserve - 1);
    if (longer.status == SeasonStatus::none) {
      part.good = false;
      part.headline = fmt::format("If the winter lasts to {} there is no plan", until);
      part.sections.push_back(
          {"",
           {},
           {"What is on hand and can be had does not reach so far. Find out now where more forage "
            "could come from, and put the end of the season in the file four weeks later to see "
            "what is short."}});
      return part;
    }
    if (longer.status != SeasonStatus::found) {
      part.headline = "For a winter four weeks longer no plan was proven";
      return part;
    }
    part.headline =
        fmt::format("If the winter lasts to {}: {} more", until,
                    words_.money_with_code(longer.cost.in_units() - answer_.plan.cost.in_units()));
    Section section{
        "To buy in the season", Table{{"feed", "the plan", "four weeks longer"}, {}, 1}, {}};
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      const double now = bought_kg(answer_.plan, f);
      const double then = bought_kg(longer, f);
      if (std::max(now, then) <= 0.0) continue;
      section.table->rows.push_back({name_of_offer(f), now > 0.0 ? words_.mass(now) : "none",
                                     then > 0.0 ? words_.mass(then) : "none"});
    }
    section.sentences.push_back(
        fmt::format("Planned anew for one who knows it from the first day; {}. Whether to buy "
                    "for it beforehand is yours to weigh.",
                    certified_to(longer.certificate)));
    part.sections.push_back(std::move(section));
    return part;
  }

  const Scenario& scenario_;
  const StretchAnswer& answer_;
  const SeasonQuestion& question_;
  Wording words_;
};

}  // namespace

Report stretch_report(const Scenario& scenario, const StretchAnswer& answer,
                      const ReportOptions& options) {
  Report report = StretchReport(scenario, answer, options).report();
  tell_stopped(answer, report);
  return report;
}

}  // namespace haymow
