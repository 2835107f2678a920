#include "scenarios/report_change.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "scenarios/report_json_parts.h"
#include "scenarios/report_parts.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

// Steps side by side that a page of 80 columns holds.
constexpr std::size_t steps_in_a_table = 4;
// What Harris et al. advise where the forage's analysis changes much, at the most.
constexpr int days_for_other_forage = 21;

std::string day_text(const ChangeOver& change, int day) {
  if (!change.first_day) return fmt::format("day {}", day);
  return short_text(days_after(*change.first_day, day - 1));
}

// Feeds of the new ration as its table has them, then those that go.
std::vector<std::size_t> feeds_in_order(const HorseAnswer& answer, const ChangeOver& change) {
  std::vector<std::size_t> order;
  for (const Portion& p : ration_to_feed(answer).portions) order.push_back(p.offer);
  for (std::size_t j = 0; j < change.between.now.size(); ++j) {
    const bool known = std::find(order.begin(), order.end(), j) != order.end();
    if (!known && change.between.now[j] > least_portion.in_kg()) order.push_back(j);
  }
  return order;
}

// All steps where they are few or all are asked for, else the first, the last and
// those about a third and two thirds of the way.
std::vector<std::size_t> steps_shown(const ChangePlan& plan, bool all) {
  const std::size_t count = plan.steps.size();
  std::vector<std::size_t> shown;
  if (!all && count > steps_in_a_table) return {0, count / 3, 2 * count / 3, count - 1};
  for (std::size_t k = 0; k < count; ++k) shown.push_back(k);
  return shown;
}

Table steps_table(const ChangeOver& change, const std::vector<std::size_t>& feeds,
                  const std::vector<std::size_t>& steps, bool with_now, const Wording& words) {
  const auto cell = [&](std::size_t j, const std::vector<double>& amounts) {
    const double kg = put_out_kg(change.between, j, amounts[j]);
    return kg < least_portion.in_kg() ? std::string("-") : words.mass(kg);
  };
  Table table;
  table.headings = {"put out a day, from"};
  if (with_now) table.headings.emplace_back("now");
  for (const std::size_t k : steps) {
    table.headings.push_back(day_text(change, change.plan.steps[k].from_day));
  }
  for (const std::size_t j : feeds) {
    std::string name = change.between.question.offers[j].name;
    if (change.between.question.grazes(j)) name += " (grazed)";
    std::vector<std::string> row{std::move(name)};
    if (with_now) row.push_back(cell(j, change.between.now));
    for (const std::size_t k : steps) row.push_back(cell(j, change.plan.steps[k].amounts));
    table.rows.push_back(std::move(row));
  }
  return table;
}

void add_tables(Report::Part& part, const HorseAnswer& answer, const Wording& words, bool all) {
  const ChangeOver& change = *answer.change;
  const std::vector<std::size_t> feeds = feeds_in_order(answer, change);
  const std::vector<std::size_t> steps = steps_shown(change.plan, all);
  for (std::size_t first = 0; first < steps.size(); first += steps_in_a_table) {
    const std::size_t end = std::min(first + steps_in_a_table, steps.size());
    const std::vector<std::size_t> some(steps.begin() + static_cast<std::ptrdiff_t>(first),
                                        steps.begin() + static_cast<std::ptrdiff_t>(end));
    part.sections.push_back({first == 0 ? "Changing over" : "",
                             steps_table(change, feeds, some, first == 0, words),
                             {}});
  }
}

std::string pace(const ChangeOver& change, const HorseAnswer& answer, const Wording& words,
                 bool all) {
  const ChangePlan& plan = change.plan;
  const bool quarters = plan.steps.size() == static_cast<std::size_t>(fewest_steps);
  std::string out = quarters
                        ? fmt::format("A quarter at a time over {} days", plan.days)
                        : fmt::format("In {} steps over {} days", plan.steps.size(), plan.days);
  if (!quarters && plan.most_added_kg > 0.0) {
    out += fmt::format(", so that bucket feed never goes up by more than {} in a day",
                       words.mass(most_added_a_day_kg));
  }
  const auto& portions = ration_to_feed(answer).portions;
  const bool bucket = std::any_of(portions.begin(), portions.end(), [&](const Portion& p) {
    return answer.question.offers[p.offer].feed.is_bucket_feed();
  });
  if (bucket) {
    const int meals = answer.question.meals;
    out += fmt::format(
        "; {} from the first day",
        meals == 1 ? "one bucket meal a day" : fmt::format("{} bucket meals a day", meals));
  }
  out += ".";
  if (!all && plan.steps.size() > steps_in_a_table) {
    out += " Four of the steps are shown (-v shows all): go up a little at a time between them.";
  }
  if (plan.no_faster) {
    out += fmt::format(" Not faster, because of {}.", name_of(*plan.no_faster));
  }
  return out;
}

std::string forage_sentence(const ChangePlan& plan) {
  if (!plan.shifts.empty() && plan.days < days_for_other_forage) {
    std::vector<std::string> figures;
    for (const ForageShift& shift : plan.shifts) {
      const NutrientTraits& t = traits_of(shift.nutrient);
      figures.push_back(fmt::format("{} from {} to {} {}", t.name, rounded(shift.now),
                                    rounded(shift.then), t.unit));
    }
    return fmt::format(
        "The forage changes much, per kg of dry matter: {}. Two to three weeks are advised; "
        "`change: {{over: 21 days}}` takes three.",
        listed(figures));
  }
  return "";
}

// The first step from which on `id` is kept to the end.
std::size_t kept_from(const ChangePlan& plan, const std::string& id) {
  std::size_t first = plan.steps.size();
  while (first > 0) {
    const auto& broken = plan.steps[first - 1].broken;
    const bool breaks = std::any_of(broken.begin(), broken.end(),
                                    [&](const StepBreak& b) { return b.broken.row.id == id; });
    if (breaks) break;
    --first;
  }
  return first;
}

std::vector<std::string> broken_sentences(const ChangeOver& change) {
  const ChangePlan& plan = change.plan;
  std::vector<std::string> limits;
  bool slow = false;
  for (const Broken& broken : plan.broken_today) {
    const std::size_t first = kept_from(plan, broken.row.id);
    slow = slow || first > 0;
    const int day = plan.steps[std::min(first, plan.steps.size() - 1)].from_day;
    limits.push_back(
        fmt::format("{} (kept from {})", Wording::subject(broken.row), day_text(change, day)));
  }
  std::vector<std::string> out;
  if (!limits.empty()) {
    out.push_back(
        fmt::format("Not kept by what is fed now: {}.{}", listed(limits),
                    slow ? " Ask your vet whether to go faster: forage is not hurried here." : ""));
  }
  std::vector<std::string> cut;
  for (const std::size_t j : plan.cut_early) cut.push_back(change.between.question.offers[j].name);
  if (!cut.empty()) {
    out.push_back(fmt::format(
        "Cut ahead of the rest for that: {}. Less of a bucket feed is safe at once.", listed(cut)));
  }
  return out;
}

// Needs that both rations meet and a step does not, with the worst of it.
std::string short_on_the_way(const ChangePlan& plan) {
  std::vector<std::pair<std::string, double>> worst;
  for (const ChangeStep& step : plan.steps) {
    for (const StepBreak& b : step.broken) {
      const RowMeaning& row = b.broken.row;
      if (row.family != RowFamily::need || row.side == Side::upper || row.bound <= 0.0) continue;
      const std::string name(traits_of(*row.nutrient).name);
      const double share = b.broken.value / row.bound;
      const auto known = std::find_if(worst.begin(), worst.end(),
                                      [&](const auto& each) { return each.first == name; });
      if (known == worst.end()) {
        worst.emplace_back(name, share);
      } else {
        known->second = std::min(known->second, share);
      }
    }
  }
  std::vector<std::string> names;
  names.reserve(worst.size());
  for (const auto& [name, share] : worst) {
    names.push_back(fmt::format("{} ({:.0f} %)", name, std::floor(100.0 * share)));
  }
  if (names.empty()) return "";
  return fmt::format("On the way short of the need, at worst: {}.", listed(names));
}

std::string keep_back(const ChangeOver& change, const Wording& words) {
  std::vector<std::string> feeds;
  for (std::size_t j = 0; j < change.between.now.size(); ++j) {
    const bool goes = change.between.then[j] < least_portion.in_kg();
    const KgAsFed needed = change.plan.on_the_way[j];
    if (!goes || needed < least_portion) continue;
    feeds.push_back(fmt::format("{} of {}", words.mass(needed.in_kg()),
                                change.between.question.offers[j].name));
  }
  if (feeds.empty()) return "";
  return fmt::format("Keep back {} to finish the change.", listed(feeds));
}

Section refusal_section(const ChangeOver& change, const std::string& horse) {
  Section section{"Changing over", {}, {}};
  if (change.plan.too_little) {
    section.sentences.push_back(fmt::format(
        "What is fed now gives {:.0f} % of the energy needed. If it leaves something out, such as "
        "grass, write that under `fed now` too. If not, {} is underfed: ask your vet before you "
        "change anything.",
        std::floor(100.0 * *change.plan.too_little), horse));
    return section;
  }
  std::vector<std::string> limits;
  for (const Broken& b : change.plan.unavoidable) limits.push_back(Wording::subject(b.row));
  section.sentences.push_back(fmt::format(
      "No steps that a scale can show lead from what is fed now to this ration without breaking "
      "on the way a limit that is kept now{}{}. Ask your vet how to change over.",
      limits.empty() ? "" : ": ", listed(limits)));
  return section;
}

Json feeds_of_step(const ChangeOver& change, const std::vector<double>& amounts) {
  Json feeds = Json::array();
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    if (amounts[j] < least_portion.in_kg()) continue;
    feeds.push_back({{"feed", change.between.question.offers[j].name},
                     {"kg_as_fed", amounts[j]},
                     {"kg_put_out", put_out_kg(change.between, j, amounts[j])}});
  }
  return feeds;
}

Json date_of(const ChangeOver& change, std::optional<int> day) {
  if (!change.first_day || !day) return nullptr;
  return iso_text(days_after(*change.first_day, *day - 1));
}

Json step_of(const ChangeOver& change, const ChangeStep& step) {
  Json broken = Json::array();
  for (const StepBreak& b : step.broken) {
    Json row = broken_of({b.broken}).at(0);
    row["broken_today"] = b.broken_today;
    broken.push_back(std::move(row));
  }
  return {{"from_day", step.from_day},
          {"to_day", step.to_day ? Json(*step.to_day) : Json(nullptr)},
          {"from_date", date_of(change, step.from_day)},
          {"to_date", date_of(change, step.to_day)},
          {"share", step.share},
          {"feeds", feeds_of_step(change, step.amounts)},
          {"broken", std::move(broken)}};
}

}  // namespace

void add_change_sections(Report::Part& part, const HorseAnswer& answer, const Wording& words,
                         bool all) {
  if (!answer.change) return;
  const ChangeOver& change = *answer.change;
  const ChangePlan& plan = change.plan;
  if (!plan.changes) {
    part.sections.push_back({"Changing over",
                             {},
                             {fmt::format("Nothing changes: this is what {} is fed now.",
                                          answer.question.horse.name)}});
    return;
  }
  if (!plan.safe) {
    part.sections.push_back(refusal_section(change, answer.question.horse.name));
    return;
  }
  add_tables(part, answer, words, all);
  auto& sentences = part.sections.back().sentences;
  sentences.push_back(pace(change, answer, words, all));
  for (std::string& sentence : broken_sentences(change)) sentences.push_back(std::move(sentence));
  for (std::string sentence :
       {short_on_the_way(plan), forage_sentence(plan), keep_back(change, words)}) {
    if (!sentence.empty()) sentences.push_back(std::move(sentence));
  }
}

Json change_json(const ChangeOver& change) {
  const ChangePlan& plan = change.plan;
  const auto& offers = change.between.question.offers;
  Json out{{"changes", plan.changes},
           {"safe", plan.safe},
           {"days", plan.days},
           {"first_day", date_of(change, 1)},
           {"forage_differs", plan.forage_differs},
           {"most_bucket_feed_added_a_day_kg", plan.most_added_kg},
           {"no_faster_because", plan.no_faster ? Json(name_of(*plan.no_faster)) : Json(nullptr)},
           {"steps", Json::array()},
           {"broken_today", broken_of(plan.broken_today)},
           {"unavoidable", broken_of(plan.unavoidable)},
           {"too_little_now_share_of_energy", number(plan.too_little)},
           {"cut_early", Json::array()},
           {"forage_shifts", Json::array()},
           {"on_the_way", Json::array()}};
  for (const ChangeStep& step : plan.steps) out["steps"].push_back(step_of(change, step));
  for (const std::size_t j : plan.cut_early) out["cut_early"].push_back(offers[j].name);
  for (const ForageShift& shift : plan.shifts) {
    const NutrientTraits& t = traits_of(shift.nutrient);
    out["forage_shifts"].push_back({{"nutrient", t.key},
                                    {"now_per_kg_dry_matter", shift.now},
                                    {"then_per_kg_dry_matter", shift.then},
                                    {"unit", t.unit}});
  }
  for (std::size_t j = 0; j < plan.on_the_way.size(); ++j) {
    if (plan.on_the_way[j] < least_portion) continue;
    const auto& extra = change.not_on_offer;
    const bool on_offer = std::find(extra.begin(), extra.end(), offers[j].name) == extra.end();
    out["on_the_way"].push_back({{"feed", offers[j].name},
                                 {"kg_put_out", plan.on_the_way[j].in_kg()},
                                 {"on_offer", on_offer}});
  }
  return out;
}

}  // namespace haymow
