// What a winter costs: by month, by feed, where the money goes, and how sure it is.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "scenarios/report_season.h"
#include "scenarios/report_winter_parts.h"

namespace haymow {
namespace {

class WinterCostWords {
 public:
  explicit WinterCostWords(const WinterTold& told) : in_(told) {}

  Report::Part costs() const {
    const SeasonBills& bills = in_.bills();
    const int days = days_of(in_.question);
    const auto horses = static_cast<Pennies>(in_.question.horses.size());
    Report::Part part;
    part.headline = fmt::format("Feed for this winter costs {}: {} a day, {} a horse and day",
                                in_.with_code(bills.total), money(bills.total / days),
                                money(bills.total / days / std::max<Pennies>(1, horses)));
    part.sections.push_back(by_month());
    part.sections.push_back(by_feed());
    part.sections.push_back({"Where the money goes", {}, {goes()}});
    part.sections.push_back({"If it were otherwise", {}, otherwise()});
    part.sections.push_back({"How sure this is", {}, {proof()}});
    return part;
  }

 private:
  // What is ordered is paid on the day; what was on hand is paid already.
  std::vector<Pennies> ordered_by_month() const {
    std::vector<Pennies> paid(in_.question.months.size(), 0);
    for (std::size_t i = 0; i < in_.answer.plan.orders.size(); ++i) {
      paid[in_.question.weeks[in_.answer.plan.orders[i].week].month] +=
          in_.bills().paid.goods[i] + in_.bills().paid.delivery[i];
    }
    return paid;
  }

  Section by_month() const {
    const std::vector<Pennies> paid = ordered_by_month();
    Section section{"By month", Table{{"month", "days", "to pay", "to bill"}, {}, 1}, {}};
    std::vector<int> days(in_.question.months.size(), 0);
    for (std::size_t m = 0; m < days.size(); ++m) {
      days[m] = in_.bills().horses.front().months[m].days;
      section.table->rows.push_back({month_in_words(in_.question.months[m]),
                                     fmt::format("{}", days[m]), money(paid[m]),
                                     money(in_.bills().by_month[m])});
    }
    const Pennies all = std::accumulate(paid.begin(), paid.end(), Pennies{0});
    section.table->rows.push_back(
        {"in all", fmt::format("{}", days_of(in_.question)), money(all), money(in_.bills().total)});
    const Pennies stock = in_.bills().total - all;
    section.sentences.push_back(
        stock == 0
            ? "`to pay` is what arrives in the month, `to bill` what is fed in it."
            : fmt::format("`to pay` is what arrives in the month, `to bill` what is fed in it. "
                          "The {} between them is what was on hand and is fed, at the price in "
                          "the file.",
                          in_.with_code(stock)));
    return section;
  }

  Section by_feed() const {
    Section section{"By feed",
                    Table{{"feed", "on hand", "to buy", "fed", "cost",
                           fmt::format("{} fed", in_.words.a_mass().substr(1))},
                          {},
                          1},
                    {}};
    std::vector<std::size_t> order(in_.question.offers.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return in_.bills().by_feed[a] > in_.bills().by_feed[b];
    });
    for (const std::size_t f : order) {
      const FeedMoney& feed = in_.bills().feeds[f];
      if (feed.bought_kg + feed.gone_kg + feed.put_out_kg < nothing_kg) continue;
      const double cost = feed.cost().in_units();
      section.table->rows.push_back(
          {in_.question.offers[f].name, kg(feed.gone_kg), kg(feed.bought_kg), kg(feed.put_out_kg),
           money(in_.bills().by_feed[f]),
           feed.put_out_kg > nothing_kg
               ? Wording::money(in_.words.per_mass(Money{cost / feed.put_out_kg}))
               : ""});
    }
    section.table->rows.push_back({"in all", "", "", "", money(in_.bills().total), ""});
    section.sentences.push_back(
        "`fed` is what is put out; the difference is lost in the store, thrown away or still "
        "there when the season ends.");
    return section;
  }

  std::string kg(double amount) const { return amount < nothing_kg ? "" : in_.words.mass(amount); }

  std::string goes() const {
    const MoneyGoes& all = in_.bills().goes;
    const std::vector<std::pair<std::string, Money>> ways{
        {"is eaten", all.eaten},
        {"is put out and wasted", all.wasted},
        {"is lost in the store", all.lost},
        {"is thrown away because it no longer keeps", all.spoiled},
        {"is still there at the end in opened or unopened packs", all.left},
        {"is delivery", all.delivery}};
    std::vector<double> parts;
    for (const auto& [what, sum] : ways) parts.push_back(std::max(0.0, sum.in_units()));
    const std::vector<Pennies> shares = divide(in_.bills().total, parts);
    std::vector<std::string> told;
    for (std::size_t i = 0; i < ways.size(); ++i) {
      if (shares[i] > 0) told.push_back(fmt::format("{} {}", money(shares[i]), ways[i].first));
    }
    return fmt::format("Of {}: {}.", in_.with_code(in_.bills().total), listed(told));
  }

  std::vector<std::string> otherwise() const {
    std::vector<std::string> told;
    if (!in_.answer.other) return told;
    const OtherwiseCosts& other = *in_.answer.other;
    const auto say = [&](const OtherCost& cost, const std::string& what, std::string_view no_plan) {
      if (cost.status == SeasonStatus::none) {
        told.emplace_back(no_plan);
      } else if (cost.status != SeasonStatus::found) {
        told.push_back(what + ": what it costs was not proven in time.");
      } else {
        const double more = cost.more.in_units();
        told.push_back(fmt::format("{} {} {}.", what, more < 0.0 ? "saves" : "costs",
                                   in_.words.money_with_code(std::abs(more))));
      }
    };
    say(other.week_more, "A week more of winter",
        "For a winter a week longer there is no plan: what can be had does not reach.");
    if (other.week_less) {
      say(*other.week_less, "A week less", "For a winter a week shorter there is no plan.");
    }
    say(other.dearer_hay, fmt::format("Hay {:.0f} % dearer", 100.0 * hay_dearer_by),
        fmt::format("With hay {:.0f} % dearer there is no plan within the budget.",
                    100.0 * hay_dearer_by));
    told.push_back("Each was planned anew, amounts of any size.");
    return told;
  }

  std::string proof() const {
    const SeasonPlan& plan = in_.answer.plan;
    const double gap = gap_of(plan);
    const bool late = plan.status == SeasonStatus::limit_reached;
    return fmt::format(
        "{}No plan can cost less than {}; this one{} is {} above that. It is {} with amounts of "
        "any "
        "size; every stock balances from week to week.",
        late ? plan.stopped ? "This one keeps every limit. "
                            : "The time ran out before the cheapest plan was proven; this one "
                              "keeps every limit. "
             : "",
        in_.words.money_with_code(plan.lower_bound.in_units()),
        plan.in_whole_packs ? ", in whole packs," : "",
        gap < 5e-7 ? "nothing" : fmt::format("{:.2g} %", 100.0 * gap),
        certified_to(plan.certificate));
  }

  const WinterTold& in_;
};

}  // namespace

Report::Part winter_costs_part(const WinterTold& told) { return WinterCostWords(told).costs(); }

}  // namespace haymow
