#include "scenarios/report_winter.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "model/grazing.h"
#include "model/handling.h"
#include "scenarios/report_season.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

constexpr double nothing_kg = 0.5e-3;  // less than a gram
constexpr std::size_t feeds_side_by_side = 4;

std::string money(Pennies pennies) {
  return fmt::format("{}{}.{:02}", pennies < 0 ? "-" : "", std::abs(pennies) / 100,
                     std::abs(pennies) % 100);
}

// "Nov 2026" of "2026-11".
std::string month_in_words(const std::string& month) {
  return fmt::format("{} {}", month_name(std::stoi(month.substr(5))).substr(0, 3),
                     month.substr(0, 4));
}

int days_of(const SeasonQuestion& question) {
  const SeasonWeek& last = question.weeks.back();
  return last.first_day + last.days;
}

class WinterReport {
 public:
  WinterReport(const Scenario& scenario, const WinterAnswer& answer, const ReportOptions& options)
      : scenario_(scenario),
        answer_(answer),
        question_(answer.question),
        words_(options.units, scenario.stable.money),
        verbose_(options.verbose) {}

  Report report() {
    Report report;
    report.title = title();
    if (answer_.bills) {
      report.parts = {costs(), orders(), stores(), rations(), bills()};
    } else {
      report.parts = {failure()};
    }
    if (!answer_.refused.empty()) {
      report.parts.push_back(refused_part(scenario_, answer_.refused));
    }
    report.closing = season_closing(scenario_, answer_.assumptions);
    return report;
  }

 private:
  const SeasonBills& money_of() const { return *answer_.bills; }
  std::string with_code(Pennies pennies) const {
    return fmt::format("{} {}", money(pennies), scenario_.stable.money);
  }
  Date first_day(std::size_t week) const {
    return days_after(*scenario_.from, question_.weeks[week].first_day);
  }
  Date last_day(std::size_t week) const {
    const SeasonWeek& w = question_.weeks[week];
    return days_after(*scenario_.from, w.first_day + w.days - 1);
  }
  std::string first_day_told(std::size_t week) const {
    return day_of_season(scenario_, question_.weeks[week].first_day);
  }
  std::string last_day_told(std::size_t week) const {
    const SeasonWeek& w = question_.weeks[week];
    return day_of_season(scenario_, w.first_day + w.days - 1);
  }

  std::string title() const {
    const std::string yard = scenario_.stable.yard.empty() ? "The yard" : scenario_.stable.yard;
    const std::size_t horses = question_.horses.size();
    return fmt::format("{}, {} to {}: {} days, {} horse{}", yard, day_of_season(scenario_, 0),
                       day_of_season(scenario_, days_of(question_) - 1), days_of(question_), horses,
                       horses == 1 ? "" : "s");
  }

  // --- costs

  Report::Part costs() const {
    const SeasonBills& bills = money_of();
    const int days = days_of(question_);
    const auto horses = static_cast<Pennies>(question_.horses.size());
    Report::Part part;
    part.headline = fmt::format("Feed for this winter costs {}: {} a day, {} a horse and day",
                                with_code(bills.total), money(bills.total / days),
                                money(bills.total / days / std::max<Pennies>(1, horses)));
    part.sections.push_back(by_month());
    part.sections.push_back(by_feed());
    part.sections.push_back({"Where the money goes", {}, {goes()}});
    part.sections.push_back({"If it were otherwise", {}, otherwise()});
    part.sections.push_back({"How sure this is", {}, {proof()}});
    return part;
  }

  // What is ordered is paid on the day; what was on hand is paid already.
  std::vector<Pennies> ordered_by_month() const {
    std::vector<Pennies> paid(question_.months.size(), 0);
    for (std::size_t i = 0; i < answer_.plan.orders.size(); ++i) {
      paid[question_.weeks[answer_.plan.orders[i].week].month] +=
          money_of().paid.goods[i] + money_of().paid.delivery[i];
    }
    return paid;
  }

  Section by_month() const {
    const std::vector<Pennies> paid = ordered_by_month();
    Section section{"By month", Table{{"month", "days", "to pay", "to bill"}, {}, 1}, {}};
    std::vector<int> days(question_.months.size(), 0);
    for (std::size_t m = 0; m < days.size(); ++m) {
      days[m] = money_of().horses.front().months[m].days;
      section.table->rows.push_back({month_in_words(question_.months[m]),
                                     fmt::format("{}", days[m]), money(paid[m]),
                                     money(money_of().by_month[m])});
    }
    const Pennies all = std::accumulate(paid.begin(), paid.end(), Pennies{0});
    section.table->rows.push_back(
        {"in all", fmt::format("{}", days_of(question_)), money(all), money(money_of().total)});
    const Pennies stock = money_of().total - all;
    section.sentences.push_back(
        stock == 0
            ? "`to pay` is what arrives in the month, `to bill` what is fed in it."
            : fmt::format("`to pay` is what arrives in the month, `to bill` what is fed in it. "
                          "The {} between them is what was on hand and is fed, at the price in "
                          "the file.",
                          with_code(stock)));
    return section;
  }

  Section by_feed() const {
    Section section{"By feed",
                    Table{{"feed", "on hand", "to buy", "fed", "cost",
                           fmt::format("{} fed", words_.a_mass().substr(1))},
                          {},
                          1},
                    {}};
    std::vector<std::size_t> order(question_.offers.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return money_of().by_feed[a] > money_of().by_feed[b];
    });
    for (const std::size_t f : order) {
      const FeedMoney& feed = money_of().feeds[f];
      if (feed.bought_kg + feed.gone_kg + feed.put_out_kg < nothing_kg) continue;
      const double cost = feed.cost().in_units();
      section.table->rows.push_back(
          {question_.offers[f].name, kg(feed.gone_kg), kg(feed.bought_kg), kg(feed.put_out_kg),
           money(money_of().by_feed[f]),
           feed.put_out_kg > nothing_kg
               ? Wording::money(words_.per_mass(Money{cost / feed.put_out_kg}))
               : ""});
    }
    section.table->rows.push_back({"in all", "", "", "", money(money_of().total), ""});
    section.sentences.push_back(
        "`fed` is what is put out; the difference is lost in the store, thrown away or still "
        "there when the season ends.");
    return section;
  }

  std::string kg(double amount) const { return amount < nothing_kg ? "" : words_.mass(amount); }

  std::string goes() const {
    const MoneyGoes& all = money_of().goes;
    const std::vector<std::pair<std::string, Money>> ways{
        {"is eaten", all.eaten},
        {"is put out and wasted", all.wasted},
        {"is lost in the store", all.lost},
        {"is thrown away because it no longer keeps", all.spoiled},
        {"is still there at the end in opened or unopened packs", all.left},
        {"is delivery", all.delivery}};
    std::vector<double> parts;
    for (const auto& [what, sum] : ways) parts.push_back(std::max(0.0, sum.in_units()));
    const std::vector<Pennies> shares = divide(money_of().total, parts);
    std::vector<std::string> told;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (shares[i] > 0) told.push_back(fmt::format("{} {}", money(shares[i]), ways[i].first));
    }
    return fmt::format("Of {}: {}.", with_code(money_of().total), listed(told));
  }

  std::vector<std::string> otherwise() const {
    std::vector<std::string> told;
    if (!answer_.other) return told;
    const OtherwiseCosts& other = *answer_.other;
    const auto say = [&](const std::optional<Money>& by, const std::string& what,
                         std::string_view no_plan) {
      told.push_back(by ? fmt::format("{} {} {}.", what, by->in_units() < 0.0 ? "saves" : "costs",
                                      words_.money_with_code(std::abs(by->in_units())))
                        : std::string(no_plan));
    };
    say(other.week_more, "A week more of winter",
        "For a winter a week longer there is no plan: what can be had does not reach.");
    if (other.week_less) say(other.week_less, "A week less", "");
    say(other.dearer_hay, fmt::format("Hay {:.0f} % dearer", 100.0 * hay_dearer_by),
        fmt::format("With hay {:.0f} % dearer there is no plan within the budget.",
                    100.0 * hay_dearer_by));
    told.push_back("Each was planned anew, amounts of any size.");
    return told;
  }

  std::string proof() const {
    const SeasonPlan& plan = answer_.plan;
    const double gap = gap_of(plan);
    const bool late = plan.status == SeasonStatus::limit_reached;
    return fmt::format(
        "{}No plan can cost less than {}; this one{} is {} above that. It is {} with amounts of "
        "any "
        "size; every stock balances from week to week.",
        late ? "The time ran out before the cheapest plan was proven; this one keeps every limit. "
             : "",
        words_.money_with_code(plan.lower_bound.in_units()),
        plan.in_whole_packs ? ", in whole packs," : "",
        gap < 5e-7 ? "nothing" : fmt::format("{:.2g} %", 100.0 * gap),
        certified_to(plan.certificate));
  }

  // --- orders

  std::string unit_price(const OrderLine& order) const {
    if (order.packs && *order.packs > 0) {
      return fmt::format("{} a {}", Wording::money(order.goods.in_units() / *order.packs),
                         question_.supply[order.offer].pack_name);
    }
    return words_.price(order.goods.in_units() / order.amount.in_kg());
  }

  Report::Part orders() const {
    Report::Part part;
    std::size_t days = 0;
    Section section{
        "", Table{{"arrives", "what", "amount", "price", "goods", "delivery"}, {}, 4}, {}};
    for (std::size_t i = 0; i < answer_.plan.orders.size(); ++i) {
      const OrderLine& order = answer_.plan.orders[i];
      const bool same_day = i > 0 && answer_.plan.orders[i - 1].week == order.week;
      if (!same_day) ++days;
      const Pennies delivery = money_of().paid.delivery[i];
      section.table->rows.push_back(
          {same_day ? "" : first_day_told(order.week), question_.offers[order.offer].name,
           amount_in_words(question_, order, words_), unit_price(order),
           money(money_of().paid.goods[i]), delivery == 0 ? "" : money(delivery)});
    }
    if (days == 0) {
      part.headline = "Nothing has to be ordered: what is on hand lasts";
      return part;
    }
    part.headline =
        fmt::format("What to order: {} line{} on {} day{}", answer_.plan.orders.size(),
                    answer_.plan.orders.size() == 1 ? "" : "s", days, days == 1 ? "" : "s");
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
    for (std::size_t f = 0; f < question_.offers.size(); ++f) {
      const auto told = stock_told(answer_.plan.stock[f]);
      if (!told) continue;
      kept.push_back(f);
      const auto& stock = answer_.plan.stock[f];
      section.table->rows.push_back(
          {question_.offers[f].name, amount_or_none(stock.front().opening),
           amount_or_none(told->lowest_kg), short_text(last_day(told->lowest_week)),
           told->runs_out_in ? short_text(last_day(*told->runs_out_in)) : "",
           amount_or_none(stock.back().closing)});
    }
    if (!verbose_) {
      section.sentences.push_back(
          "`-v` shows every week. A feed that is bought again can run out more than once: the "
          "first time is told.");
    }
    part.sections.push_back(std::move(section));
    if (!verbose_) return part;
    for (std::size_t at = 0; at < kept.size(); at += feeds_side_by_side) {
      const auto first = kept.begin() + static_cast<std::ptrdiff_t>(at);
      const auto last = kept.begin() +
                        static_cast<std::ptrdiff_t>(std::min(kept.size(), at + feeds_side_by_side));
      part.sections.push_back(week_by_week({first, last}));
    }
    return part;
  }

  std::string amount_or_none(double amount) const {
    return amount < nothing_kg ? "none" : words_.mass(amount);
  }

  Section week_by_week(const std::vector<std::size_t>& feeds) const {
    Section section{"At the end of each week", Table{{"week to"}, {}, 1}, {}};
    for (const std::size_t f : feeds) section.table->headings.push_back(question_.offers[f].name);
    for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
      std::vector<std::string> row{last_day_told(w)};
      for (const std::size_t f : feeds) {
        row.push_back(amount_or_none(answer_.plan.stock[f][w].closing));
      }
      section.table->rows.push_back(std::move(row));
    }
    return section;
  }

  // --- rations

  Report::Part rations() const {
    Report::Part part;
    part.headline = "What every horse is put out a day";
    for (const FedAlike& group : fed_alike(question_, answer_.plan)) {
      part.sections.push_back(spells_of(group, horses_in_words(question_, group.horses)));
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
    const std::size_t ration = question_.horses[horse].ration_of_week[spell.first_week];
    return describe(question_.rations[ration].horse.stage);
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
    return {short_text(first_day(spell.first_week)), short_text(last_day(spell.last_week)),
            words_.mass(total), spell_in_words(question_, horse, spell, words_)};
  }

  // --- bills

  Report::Part bills() const {
    Report::Part part;
    part.headline =
        fmt::format("What to bill for each horse: {} in all", with_code(money_of().total));
    part.sections.push_back(bills_by_month());
    if (verbose_) {
      for (std::size_t h = 0; h < question_.horses.size(); ++h) part.sections.push_back(bill_of(h));
    }
    part.sections.push_back(
        {"How it is shared",
         {},
         {"A kilogram put out costs the same all season and for every horse: what the feed costs "
          "in all, delivery, waste, losses and what is left of a pack included, divided by what is "
          "put out of it. The bills add up to the total to the penny: what rounding leaves over "
          "goes to those who were rounded down most.",
          verbose_ ? "`--bills FILE.csv` writes them for a spreadsheet."
                   : "`-v` shows the kilograms and the money of each horse month by month, and "
                     "`--bills FILE.csv` writes them for a spreadsheet."}});
    return part;
  }

  Section bills_by_month() const {
    Section section{"", Table{{"horse"}, {}, 1}, {}};
    Table& table = *section.table;
    for (const std::string& m : question_.months) {
      table.headings.push_back(month_in_words(m).substr(0, 3));
    }
    table.headings.insert(table.headings.end(), {"in all", "a day"});
    const int days = days_of(question_);
    for (std::size_t h = 0; h < question_.horses.size(); ++h) {
      const HorseBill& bill = money_of().horses[h];
      std::vector<std::string> row{question_.horses[h].name};
      for (const MonthOfBill& month : bill.months) row.push_back(money(month.total));
      row.push_back(money(bill.total));
      row.push_back(money(bill.total / days));
      table.rows.push_back(std::move(row));
    }
    std::vector<std::string> last{"in all"};
    for (const Pennies month : money_of().by_month) last.push_back(money(month));
    last.push_back(money(money_of().total));
    last.push_back(money(money_of().total / days));
    table.rows.push_back(std::move(last));
    return section;
  }

  Section bill_of(std::size_t horse) const {
    const HorseBill& bill = money_of().horses[horse];
    Section section{fmt::format("{}, {}", question_.horses[horse].name, with_code(bill.total)),
                    Table{{"month", "feed", "put out", "money"}, {}, 2},
                    {}};
    for (std::size_t m = 0; m < bill.months.size(); ++m) {
      bool first = true;
      for (std::size_t f = 0; f < question_.offers.size(); ++f) {
        const MonthOfBill& month = bill.months[m];
        if (month.put_out_kg[f] < nothing_kg && month.money[f] == 0) continue;
        section.table->rows.push_back({first ? month_in_words(question_.months[m]) : "",
                                       question_.offers[f].name, words_.mass(month.put_out_kg[f]),
                                       money(month.money[f])});
        first = false;
      }
    }
    return section;
  }

  // --- no plan

  // The first week that fails, who falls short of what in it, and where to look.
  std::vector<std::string> first_failure(const SeasonFailure& failure) const {
    std::vector<std::string> told;
    told.push_back(fmt::format(
        "Every horse has a safe ration in every week, but there is no plan for all of them beyond "
        "the week from {}.",
        first_day_told(failure.first_week)));
    for (const SeasonMiss& miss : failure.misses) {
      const std::string what = miss.row ? words_.demand(*miss.row) : "the pace of a change of feed";
      told.push_back(fmt::format("- In the week from {} what cannot be kept for {} is: {}.",
                                 first_day_told(miss.week), horses_in_words(question_, miss.horses),
                                 what));
    }
    told.emplace_back(
        failure.only_the_pace
            ? "It is only the pace: what a horse needs changes faster than its feed may. Begin "
              "earlier, as with a `calendar` in smaller steps, and ask a vet or nutritionist how "
              "fast it may go."
            : "Look first at what can be had (`can be had`, `on hand` without it), then at the "
              "`budget`, then at the `stores`.");
    return told;
  }

  Report::Part failure() const {
    Report::Part part;
    part.good = false;
    if (const auto headline = no_plan_headline(question_, answer_.plan)) {
      part.headline = *headline;
      if (answer_.plan.status != SeasonStatus::limit_reached) return part;
      part.sections.push_back(
          {"",
           {},
           {fmt::format("No plan can cost less than {}. Fewer horses at a time, or a shorter "
                        "season, are planned sooner.",
                        words_.money_with_code(answer_.plan.lower_bound.in_units()))}});
      return part;
    }
    part.headline = "There is no plan for this winter";
    if (answer_.failure) {
      part.sections.push_back({"", {}, first_failure(*answer_.failure)});
      return part;
    }
    if (answer_.without_ration.empty()) {
      part.sections.push_back(
          {"",
           {},
           {"Every horse has a safe ration in every week, but not all of them together from what "
            "is on hand and can be had, within the stores, the budget and a gradual change.",
            "Look first at what can be had (`can be had`, `on hand` without it), then at the "
            "`budget`, then at the `stores`."}});
      return part;
    }
    const HorseWithoutRation& first = answer_.without_ration.front();
    for (const HorseWithoutRation& each : answer_.without_ration) {
      Section section{fmt::format("{} has no ration from {} on, whatever is bought",
                                  question_.horses[each.horse].name, first_day_told(each.week)),
                      {},
                      {}};
      if (each.ration == first.ration && &each != &first) {
        section.sentences.push_back("For the same reason.");
      } else {
        const RationQuestion& ration = question_.rations[each.ration];
        section.sentences = words_.clash(each.why, ration.horse, ration.offers);
        if (!each.why.mends.empty()) {
          section.sentences.push_back("The cheapest mend: " + words_.mend(each.why.mends.front()));
        }
      }
      part.sections.push_back(std::move(section));
    }
    return part;
  }

  const Scenario& scenario_;
  const WinterAnswer& answer_;
  const SeasonQuestion& question_;
  Wording words_;
  bool verbose_;
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
  return WinterReport(scenario, answer, options).report();
}

}  // namespace haymow
