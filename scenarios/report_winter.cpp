#include "scenarios/report_winter.h"

#include <fmt/format.h>

#include <algorithm>

#include "scenarios/report_plots.h"
#include "scenarios/report_season.h"
#include "scenarios/report_stopped.h"
#include "scenarios/report_winter_parts.h"

namespace haymow {
namespace {

constexpr std::size_t feeds_side_by_side = 4;

class WinterReport {
 public:
  WinterReport(const Scenario& scenario, const WinterAnswer& answer, const ReportOptions& options)
      : in_{scenario, answer, answer.question, Wording(options.units, scenario.stable.money),
            options.verbose} {}

  Report report() {
    Report report;
    report.title = title();
    if (in_.answer.bills) {
      report.parts = {winter_costs_part(in_), orders(), stores(), rations(),
                      winter_bills_part(in_)};
      if (in_.answer.chances) {
        report.parts.insert(report.parts.begin() + 2, winter_chances_part(in_));
      }
    } else {
      report.parts = {winter_failure_part(in_)};
    }
    if (!in_.answer.refused.empty()) {
      report.parts.push_back(refused_part(in_.scenario, in_.answer.refused));
    }
    report.closing = season_closing(in_.scenario, in_.answer.assumptions);
    return report;
  }

 private:
  std::string title() const {
    const std::string yard =
        in_.scenario.stable.yard.empty() ? "The yard" : in_.scenario.stable.yard;
    const std::size_t horses = in_.question.horses.size();
    return fmt::format("{}, {} to {}: {} days, {} horse{}", yard, day_of_season(in_.scenario, 0),
                       day_of_season(in_.scenario, days_of(in_.question) - 1),
                       days_of(in_.question), horses, horses == 1 ? "" : "s");
  }

  // --- orders

  std::string unit_price(const OrderLine& order) const {
    if (order.packs && *order.packs > 0) {
      return fmt::format("{} a {}", Wording::money(order.goods.in_units() / *order.packs),
                         in_.question.supply[order.offer].pack_name);
    }
    return in_.words.price(order.goods.in_units() / order.amount.in_kg());
  }

  Report::Part orders() const {
    Report::Part part;
    std::size_t days = 0;
    Section section{
        "", Table{{"arrives", "what", "amount", "price", "goods", "delivery"}, {}, 4}, {}};
    for (std::size_t i = 0; i < in_.answer.plan.orders.size(); ++i) {
      const OrderLine& order = in_.answer.plan.orders[i];
      const bool same_day = i > 0 && in_.answer.plan.orders[i - 1].week == order.week;
      if (!same_day) ++days;
      const Pennies delivery = in_.bills().paid.delivery[i];
      section.table->rows.push_back(
          {same_day ? "" : in_.first_day_told(order.week), in_.question.offers[order.offer].name,
           amount_in_words(in_.question, order, in_.words), unit_price(order),
           money(in_.bills().paid.goods[i]), delivery == 0 ? "" : money(delivery)});
    }
    if (days == 0) {
      part.headline = "Nothing has to be ordered: what is on hand lasts";
      return part;
    }
    part.headline =
        fmt::format("What to order: {} line{} on {} day{}", in_.answer.plan.orders.size(),
                    in_.answer.plan.orders.size() == 1 ? "" : "s", days, days == 1 ? "" : "s");
    section.sentences.push_back(
        "It has to be there on the day named, the first of a week of the plan: order early enough "
        "for that.");
    part.sections.push_back(std::move(section));
    return part;
  }

  // --- stores

  Report::Part stores() const {
    Report::Part part;
    part.headline = "What is in the stores";
    Section section{
        "",
        Table{{"feed", "first day", "lowest", "in the week to", "runs out", "last day"}, {}, 1},
        {}};
    std::vector<std::size_t> kept;
    for (std::size_t f = 0; f < in_.question.offers.size(); ++f) {
      const auto told = stock_told(in_.answer.plan.stock[f]);
      if (!told) continue;
      kept.push_back(f);
      const auto& stock = in_.answer.plan.stock[f];
      section.table->rows.push_back(
          {in_.question.offers[f].name, amount_or_none(stock.front().opening),
           amount_or_none(told->lowest_kg), short_text(in_.last_day(told->lowest_week)),
           told->runs_out_in ? short_text(in_.last_day(*told->runs_out_in)) : "",
           amount_or_none(stock.back().closing)});
    }
    if (!in_.verbose) {
      section.sentences.push_back(
          "`-v` shows every week. A feed that is bought again can run out more than once: the "
          "first time is told.");
    }
    section.pictures.plots = stock_plots(in_.scenario, in_.question, in_.answer.plan);
    part.sections.push_back(std::move(section));
    if (!in_.verbose) return part;
    for (std::size_t at = 0; at < kept.size(); at += feeds_side_by_side) {
      const auto first = kept.begin() + static_cast<std::ptrdiff_t>(at);
      const auto last = kept.begin() +
                        static_cast<std::ptrdiff_t>(std::min(kept.size(), at + feeds_side_by_side));
      part.sections.push_back(week_by_week({first, last}));
    }
    return part;
  }

  std::string amount_or_none(double amount) const {
    return amount < nothing_kg ? "none" : in_.words.mass(amount);
  }

  Section week_by_week(const std::vector<std::size_t>& feeds) const {
    Section section{"At the end of each week", Table{{"week to"}, {}, 1}, {}};
    for (const std::size_t f : feeds)
      section.table->headings.push_back(in_.question.offers[f].name);
    for (std::size_t w = 0; w < in_.question.weeks.size(); ++w) {
      std::vector<std::string> row{in_.last_day_told(w)};
      for (const std::size_t f : feeds) {
        row.push_back(amount_or_none(in_.answer.plan.stock[f][w].closing));
      }
      section.table->rows.push_back(std::move(row));
    }
    return section;
  }

  // --- rations

  Report::Part rations() const {
    Report::Part part;
    part.headline = "What every horse is put out a day";
    for (const FedAlike& group : fed_alike(in_.question, in_.answer.plan)) {
      part.sections.push_back(spells_of(group, horses_in_words(in_.question, group.horses)));
    }
    part.sections.push_back(
        {"",
         {},
         {"The plan is in kilograms a day, rounded here to what a scale shows; how a day is "
          "divided into meals, and soaked, `haymow ration` says. Where an amount changes, change "
          "it over the days before and after, in quarter steps."}});
    return part;
  }

  std::string stage_in(const FeedingSpell& spell, std::size_t horse) const {
    const std::size_t ration = in_.question.horses[horse].ration_of_week[spell.first_week];
    return describe(in_.question.rations[ration].horse.stage);
  }

  // What a horse does is told once, or beside each spell where it changes.
  Section spells_of(const FedAlike& group, const std::string& names) const {
    const std::size_t horse = group.horses.front();
    const std::string stage = stage_in(group.spells.front(), horse);
    const bool changes =
        std::any_of(group.spells.begin(), group.spells.end(),
                    [&](const FeedingSpell& spell) { return stage_in(spell, horse) != stage; });
    Section section{changes ? names : fmt::format("{} ({})", names, stage),
                    Table{{"from", "to", "a day", "feed"}, {}, 2},
                    {}};
    section.table->last_is_prose = true;
    for (const FeedingSpell& spell : group.spells) {
      section.table->rows.push_back(row_of_spell(spell, horse));
      if (changes) section.table->rows.back().back() += " (" + stage_in(spell, horse) + ")";
    }
    return section;
  }

  std::vector<std::string> row_of_spell(const FeedingSpell& spell, std::size_t horse) const {
    double total = 0.0;
    for (const SpellFeed& feed : spell.feeds) total += feed.put_out_kg;
    return {short_text(in_.first_day(spell.first_week)), short_text(in_.last_day(spell.last_week)),
            in_.words.mass(total), spell_in_words(in_.question, horse, spell, in_.words)};
  }

  WinterTold in_;
};

}  // namespace

std::optional<StockTold> stock_told(const std::vector<StockWeek>& stock) {
  std::optional<StockTold> told;
  for (std::size_t w = 0; w < stock.size(); ++w) {
    const bool had = stock[w].opening + stock[w].bought > nothing_kg;
    // Before it is first there, and after it is gone for good, there is nothing to tell.
    if (!told && !had) continue;
    if (!told) told = StockTold{stock[w].closing, w, std::nullopt};
    if (had && stock[w].closing < told->lowest_kg) {
      told->lowest_kg = stock[w].closing;
      told->lowest_week = w;
    }
    // To have none left when the season ends is not to run out.
    const bool ends = w + 1 == stock.size();
    if (!told->runs_out_in && !ends && had && stock[w].closing < nothing_kg) told->runs_out_in = w;
  }
  return told;
}

Report winter_report(const Scenario& scenario, const WinterAnswer& answer,
                     const ReportOptions& options) {
  Report report = WinterReport(scenario, answer, options).report();
  tell_stopped(answer, report);
  return report;
}

}  // namespace haymow
