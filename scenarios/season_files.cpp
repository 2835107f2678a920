#include "scenarios/season_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "feeds/plain_text.h"
#include "scenarios/csv.h"
#include "scenarios/ical.h"
#include "scenarios/report_season.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

constexpr int days_between_checks = 14;
// Lines of whom and what a day's text may have before it refers to the report.
constexpr std::size_t most_lines = 12;

std::string money_text(Pennies pennies) {
  return fmt::format("{}.{:02}", pennies / 100, pennies % 100);
}

// Grams are as fine as anyone weighs; no trailing zeros.
std::string kg_text(double kg) {
  std::string text = fmt::format("{:.3f}", kg);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

// What makes a UID of this yard's other than that of another's: its name in plain letters.
std::string yard_word(const std::string& yard) {
  std::string word;
  for (const char c : lower_case(yard)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) {
      word += c;
    } else if (!word.empty() && word.back() != '-') {
      word += '-';
    }
  }
  while (word.ends_with('-')) word.pop_back();
  return word.empty() ? "yard" : word;
}

// A season's file written again replaces the events of the one before: one event of a
// kind a day. `.invalid` is reserved, so that it is nobody's address (RFC 2606).
std::string uid_of(std::string_view kind, const Date& day, const std::string& yard) {
  return fmt::format("{}-{}-{}@haymow.invalid", kind, iso_text(day), yard_word(yard));
}

Date day_of_week(const Scenario& scenario, const WinterAnswer& answer, std::size_t week) {
  return days_after(*scenario.from, answer.question.weeks[week].first_day);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i == most_lines)
      return text + fmt::format("\nand {} more: see the report", lines.size() - i);
    text += (i == 0 ? "" : "\n") + lines[i];
  }
  return text;
}

std::vector<DayEvent> order_events(const Scenario& scenario, const WinterAnswer& answer) {
  std::vector<DayEvent> events;
  const Wording words(Units::metric, scenario.stable.money);
  std::set<std::size_t> weeks;
  for (const OrderLine& order : answer.plan.orders) weeks.insert(order.week);
  for (const std::size_t week : weeks) {
    std::vector<std::string> lines;
    std::vector<std::string> feeds;
    for (const OrderLine& order : answer.plan.orders) {
      if (order.week != week) continue;
      lines.push_back(order_in_words(answer.question, order, words));
      feeds.push_back(answer.question.offers[order.offer].name);
    }
    const Date day = day_of_week(scenario, answer, week);
    events.push_back({uid_of("order", day, scenario.stable.yard), day,
                      "Feed to arrive: " + listed(feeds), joined(lines)});
  }
  return events;
}

std::vector<DayEvent> change_events(const Scenario& scenario, const WinterAnswer& answer) {
  std::vector<DayEvent> events;
  const Wording words(Units::metric, scenario.stable.money);
  for (const ChangeDay& change : change_days(answer.question, answer.plan)) {
    std::vector<std::string> lines;
    std::vector<std::string> names;
    for (const std::size_t h : change.horses) {
      names.push_back(answer.question.horses[h].name);
      for (const FeedingSpell& spell : spells_of_horse(answer.question, answer.plan, h)) {
        if (spell.first_week != change.week) continue;
        lines.push_back(
            fmt::format("{}: {}", names.back(), spell_in_words(answer.question, h, spell, words)));
      }
    }
    const Date day = day_of_week(scenario, answer, change.week);
    events.push_back({uid_of("change", day, scenario.stable.yard), day,
                      "Ration changes: " + listed(names), joined(lines)});
  }
  return events;
}

std::vector<DayEvent> check_events(const Scenario& scenario, const WinterAnswer& answer) {
  std::vector<DayEvent> events;
  const SeasonWeek& last = answer.question.weeks.back();
  for (int day = 0; day < last.first_day + last.days; day += days_between_checks) {
    const Date date = days_after(*scenario.from, day);
    events.push_back({uid_of("condition", date, scenario.stable.yard), date,
                      "Score condition and weigh or tape every horse",
                      "A horse that gains or loses needs another plan: put its weight and "
                      "condition into the file and plan again."});
  }
  return events;
}

}  // namespace

std::string orders_csv(const Scenario& scenario, const WinterAnswer& answer) {
  const SeasonQuestion& question = answer.question;
  std::string out = fmt::format("date,feed,packs,pack,kg,goods,delivery,currency{}", csv_line_end);
  for (std::size_t i = 0; i < answer.plan.orders.size(); ++i) {
    const OrderLine& order = answer.plan.orders[i];
    const Paid& paid = answer.bills->paid;
    out += fmt::format("{},{},{},{},{},{},{},{}{}",
                       iso_text(day_of_week(scenario, answer, order.week)),
                       csv_field(question.offers[order.offer].name),
                       order.packs ? fmt::format("{}", *order.packs) : "",
                       order.packs ? csv_field(question.supply[order.offer].pack_name) : "",
                       kg_text(order.amount.in_kg()), money_text(paid.goods[i]),
                       money_text(paid.delivery[i]), scenario.stable.money, csv_line_end);
  }
  return out;
}

std::string bills_csv(const Scenario& scenario, const WinterAnswer& answer) {
  const SeasonQuestion& question = answer.question;
  std::string out = fmt::format("horse,month,days,feed,kg_put_out,money,currency{}", csv_line_end);
  for (std::size_t h = 0; h < answer.bills->horses.size(); ++h) {
    const HorseBill& bill = answer.bills->horses[h];
    for (std::size_t m = 0; m < bill.months.size(); ++m) {
      const MonthOfBill& month = bill.months[m];
      for (std::size_t f = 0; f < question.offers.size(); ++f) {
        if (month.put_out_kg[f] <= 0.0 && month.money[f] == 0) continue;
        out += fmt::format("{},{},{},{},{},{},{}{}", csv_field(question.horses[h].name),
                           question.months[m], month.days, csv_field(question.offers[f].name),
                           kg_text(month.put_out_kg[f]), money_text(month.money[f]),
                           scenario.stable.money, csv_line_end);
      }
    }
  }
  return out;
}

std::string season_calendar(const Scenario& scenario, const WinterAnswer& answer) {
  std::vector<DayEvent> events = order_events(scenario, answer);
  for (auto more : {change_events(scenario, answer), check_events(scenario, answer)}) {
    events.insert(events.end(), more.begin(), more.end());
  }
  std::stable_sort(events.begin(), events.end(), [](const DayEvent& a, const DayEvent& b) {
    return iso_text(a.day) < iso_text(b.day);
  });
  return icalendar(events, *scenario.from);
}

}  // namespace haymow
