#include "scenarios/report_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "feeds/plain_text.h"
#include "model/grazing.h"
#include "scenarios/report_amounts.h"
#include "scenarios/report_grazing.h"
#include "scenarios/scenario_ask.h"

namespace haymow {
namespace {

constexpr std::size_t most_amounts_told = 3;  // of those that are fed more or less
constexpr std::size_t most_horses_told = 8;
constexpr std::size_t most_unchanged_named = 3;
constexpr std::size_t most_of_a_name = 40;  // characters, in the table
// Less than half a hundredth is no difference in the sums beside it.
constexpr double least_told = 0.005;
// A difference in whole steps is explained when this much of it, or more than a
// hundredth, is not in the difference to the gram. Common practice, no source.
constexpr double much_of_it = 0.25;

// What one ration, or all of them, cost before and after.
struct AskedCosts {
  std::optional<Money> before;
  std::optional<Money> after;
  std::optional<Money> exact_before;
  std::optional<Money> exact_after;

  [[nodiscard]] bool comparable() const { return before && after; }
  [[nodiscard]] double in_steps() const { return (*after - *before).in_units(); }
  [[nodiscard]] double exactly() const { return (*exact_after - *exact_before).in_units(); }
};

AskedCosts costs_of(const HorseDifference& horse) {
  return {horse.cost_before, horse.cost_after, horse.exact_before, horse.exact_after};
}

AskedCosts costs_of(const YardCost& yard) {
  return {yard.before, yard.after, yard.exact_before, yard.exact_after};
}

// No coin is as small.
bool told_as_same(const AskedCosts& costs) { return std::abs(costs.exactly()) < least_told; }

// Rounding to whole steps is more than what it hides: then only the difference to the
// gram says anything.
bool is_lost_in_rounding(const AskedCosts& costs) {
  return std::abs(costs.in_steps() - costs.exactly()) > std::abs(costs.exactly());
}

double told_difference(const AskedCosts& costs) {
  return is_lost_in_rounding(costs) ? costs.exactly() : costs.in_steps();
}

std::string difference_cell(const AskedCosts& costs, double times) {
  if (!costs.comparable()) return "";
  if (told_as_same(costs)) return "the same";
  const double money = times * told_difference(costs);
  return fmt::format("{}{}{}", is_lost_in_rounding(costs) ? "about " : "", money < 0.0 ? "-" : "+",
                     Wording::money(std::abs(money)));
}

// A long question must not push the figures off the page; its section has all of it.
std::string shortened(const std::string& text) {
  std::string out;
  std::size_t characters = 0;
  for (std::size_t at = 0; at < text.size(); ++characters) {
    if (characters == most_of_a_name) return out + "...";
    const std::size_t bytes = character_at(text, at).bytes;
    out += text.substr(at, bytes);
    at += bytes;
  }
  return out;
}

Table table_of(const std::vector<AskedAnswer>& questions) {
  Table table;
  table.headings = {"what if", "a day", "more", "a month", "more"};
  const auto cell = [](const std::optional<Money>& cost, double times) {
    return cost ? Wording::money(times * cost->in_units()) : std::string("no ration");
  };
  const AskedCosts base = costs_of(yard_cost(questions.front()));
  // Horses that only a question can feed are not in the file's own sum.
  table.rows.push_back(
      {"(as the file stands)", cell(base.before, 1.0), "", cell(base.before, days_in_month), ""});
  for (const AskedAnswer& question : questions) {
    const AskedCosts costs = costs_of(yard_cost(question));
    table.rows.push_back({shortened(question.what_if), cell(costs.after, 1.0),
                          difference_cell(costs, 1.0),
                          costs.after ? cell(costs.after, days_in_month) : "",
                          difference_cell(costs, days_in_month)});
  }
  return table;
}

// "our hay: price 6 per bale instead of 4.50 per bale".
std::string change_told(const AskedChange& change) {
  if (change.key == "on offer") return fmt::format("{} on offer as well", change.of);
  if (change.key == "fed to any horse") return fmt::format("no {}", change.of);
  const std::string what = subject_of(change);
  if (!change.after) return fmt::format("{} no longer given (it was {})", what, *change.before);
  if (!change.before) return fmt::format("{} {}", what, *change.after);
  return fmt::format("{} {} instead of {}", what, *change.after, *change.before);
}

std::string changes_told(const AskedAnswer& question) {
  std::string out;
  for (const AskedChange& change : question.changes) {
    out += (out.empty() ? "" : "; ") + change_told(change);
  }
  return "Asked: " + out + ".";
}

// "leaves out oat straw (3.5 kg); brings in beet pulp (1.8 kg); our hay 1.7 kg more".
std::string feeds_told(const HorseDifference& horse, bool by_month, const Wording& words) {
  // Means over the season are no amounts that anyone weighs.
  const auto mass = [&](double kg) { return by_month ? words.mass(kg) : words.weighed(kg); };
  std::vector<std::string> in;
  std::vector<std::string> out;
  std::vector<std::string> amounts;
  for (const FeedDifference& d : horse.feeds) {
    const double by = (d.after - d.before).in_kg();
    if (d.before == KgAsFed{}) {
      in.push_back(fmt::format("{} ({})", d.feed, mass(d.after.in_kg())));
    } else if (d.after == KgAsFed{}) {
      out.push_back(fmt::format("{} ({})", d.feed, mass(d.before.in_kg())));
    } else if (amounts.size() < most_amounts_told) {
      amounts.push_back(
          fmt::format("{} {} {}", d.feed, mass(std::abs(by)), by > 0.0 ? "more" : "less"));
    }
  }
  std::vector<std::string> parts;
  if (!out.empty()) parts.push_back("leaves out " + listed(out));
  if (!in.empty()) parts.push_back("brings in " + listed(in));
  if (!amounts.empty()) parts.push_back(listed(amounts));
  return fmt::format("{}", fmt::join(parts, "; "));
}

// What of a difference is only rounding to whole steps; empty where little is.
std::string rounding_told(const AskedCosts& costs, const Wording& words) {
  const double rounding = std::abs(costs.in_steps() - costs.exactly());
  if (is_lost_in_rounding(costs)) {
    return " Rounding to whole steps hides it: it is the difference to the gram.";
  }
  if (rounding <= std::max(0.01, much_of_it * std::abs(costs.exactly()))) return "";
  return fmt::format(" To the gram it is {} {}: the rest is rounding to whole steps.",
                     words.money_with_code(std::abs(costs.exactly())),
                     costs.exactly() > 0.0 ? "more" : "less");
}

// What it would cost to leave the feeding as it is.
std::string unchanged_would_do(const HorseDifference& horse, const Wording& words) {
  if (!horse.cost_if_fed_as_before || horse.feeds.empty()) return "";
  return fmt::format(" Fed as before it would cost {} a day.",
                     words.money_with_code(horse.cost_if_fed_as_before->in_units()));
}

std::string found_told(const HorseDifference& horse, bool by_month, const Wording& words) {
  const std::string feeds = feeds_told(horse, by_month, words);
  const std::string cost = words.money_with_code(horse.cost_after->in_units());
  if (!horse.cost_before) return fmt::format("has a ration then, for {} a day.", cost);
  const AskedCosts costs = costs_of(horse);
  const double by = told_difference(costs);
  const std::string more =
      told_as_same(costs) ? "the same money"
                          : fmt::format("{}{} {}", is_lost_in_rounding(costs) ? "about " : "",
                                        Wording::money(std::abs(by)), by > 0.0 ? "more" : "less");
  const std::string how = feeds.empty() ? ", for the same amounts of the same feeds" : ": " + feeds;
  const std::string rounding = told_as_same(costs) ? "" : rounding_told(costs, words);
  return fmt::format("{} a day, {}{}.{}{}", cost, more, how, rounding,
                     unchanged_would_do(horse, words));
}

// Why a horse has no ration, in one line: of the first spell that has none.
std::string none_told(const HorseAnswer& answer, const Wording& words) {
  const HorseAnswer* none = &answer;
  for (const HorseAnswer& other : answer.other_spells) {
    if (none->status == AnswerStatus::found) none = &other;
  }
  const auto& months = none->spell.months;
  const std::string when = answer.other_spells.empty() || months.empty()
                               ? ""
                               : fmt::format(" in {}", month_name(months.front().month));
  if (none->status == AnswerStatus::refused) return "no plan; this needs a vet.";
  if (none->status == AnswerStatus::failed) return "no answer could be certified.";
  const auto& conflict = none->no_ration ? none->no_ration->conflict : none->promise->conflict;
  std::vector<std::string> demands;
  for (const RowMeaning& row : conflict) demands.push_back(words.demand(row));
  return fmt::format("no ration{}. {}: {}.", when,
                     demands.size() > 1 ? "These cannot all hold" : "This cannot hold",
                     fmt::join(demands, "; "));
}

// "Pocket is fed as before."
std::string unchanged_told(const std::vector<std::string>& names, std::size_t horses) {
  if (names.size() == horses) return "Nothing changes: feed as before.";
  if (names.size() > most_unchanged_named) return "The others are fed as before.";
  return fmt::format("{} {} fed as before.", listed(names), names.size() == 1 ? "is" : "are");
}

Section section_of(const AskedAnswer& question, const Wording& words) {
  Section section{"What if " + question.what_if, {}, {changes_told(question)}};
  std::size_t told = 0;
  std::size_t untold = 0;
  std::vector<std::string> unchanged;
  for (std::size_t h = 0; h < question.horses.size(); ++h) {
    const HorseDifference& horse = question.horses[h];
    const bool none_either = !horse.cost_before && !horse.cost_after;
    // It costs the same, and what is fed already still keeps every limit.
    const bool unmoved = horse.cost_before && horse.cost_after && told_as_same(costs_of(horse)) &&
                         (horse.feeds.empty() || horse.cost_if_fed_as_before);
    if (horse.as_before || unmoved) {
      unchanged.push_back(question.answers[h].question.horse.name);
      continue;
    }
    if (told == most_horses_told) {
      ++untold;
      continue;
    }
    ++told;
    const HorseAnswer& answer = question.answers[h];
    const bool by_month = !answer.other_spells.empty();
    std::string sentence =
        horse.cost_after ? found_told(horse, by_month, words) : none_told(answer, words);
    if (none_either) sentence += " It had none before either.";
    section.sentences.push_back(
        fmt::format("- {}: {}", answer.question.horse.name, std::move(sentence)));
  }
  if (untold > 0) {
    section.sentences.push_back(fmt::format("- and {} more (--format json has them all)", untold));
  }
  if (!unchanged.empty()) {
    section.sentences.push_back(unchanged_told(unchanged, question.horses.size()));
  }
  for (const Diagnostic& remark : question.remarks) {
    section.sentences.push_back(
        fmt::format("Assumed (line {}): {}.", remark.position.line, remark.message));
  }
  return section;
}

}  // namespace

std::vector<Section> asked_sections(const Scenario& scenario,
                                    const std::vector<AskedAnswer>& questions,
                                    const Wording& words) {
  std::vector<Section> sections;
  if (questions.empty()) return sections;
  Section table{"What if", table_of(questions), {}};
  const auto by_month = [](const AskedAnswer& q) { return fed_by_month(q.answers); };
  if (std::any_of(questions.begin(), questions.end(), by_month)) {
    table.sentences.emplace_back("A day costs the mean over the season, for the grass changes.");
  }
  table.sentences.push_back(fmt::format(
      "In {}{}, of rations in whole steps. `--as-if 1` gives the whole answer to the first "
      "question: meals, limits, or what would mend it.",
      scenario.stable.money, scenario.stable.horses.size() > 1 ? ", all horses together" : ""));
  sections.push_back(std::move(table));
  for (const AskedAnswer& question : questions) sections.push_back(section_of(question, words));
  return sections;
}

void mark_as_if(Report& report, const std::string& what_if) {
  if (what_if.empty()) return;
  const std::string as_if = fmt::format("As if {}: ", what_if);
  report.title = as_if + report.title;
  for (Report::Part& part : report.parts) part.headline = as_if + part.headline;
}

}  // namespace haymow
