#include "scenarios/report_grazing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "model/grazing.h"
#include "scenarios/report_parts.h"

namespace haymow {
namespace {

constexpr std::size_t most_misses_told = 4;
// A miss of less than this share of its limit is told as such, not to a decimal.
constexpr double hardly = 0.005;

// To half an hour, not beyond.
double half_hours(double hours) { return std::floor(hours * 2.0) / 2.0; }

const Turnout* turnout_of(const HorseAnswer& answer) {
  const Horse& horse = answer.question.horse;
  if (!horse.grazing || !answer.spell.month) return nullptr;
  const auto& turnout = horse.grazing->in(*answer.spell.month);
  return turnout ? &*turnout : nullptr;
}

std::string dry(KgDryMatter amount, const Wording& words) {
  return amount < mouthful ? "nothing" : words.mass(amount.in_kg());
}

// Hay is put out by the armful: to 100 g.
std::string of_hay(KgAsFed amount, const Wording& words) {
  return words.mass(std::round(std::abs(amount.in_kg()) * 10.0) / 10.0);
}

std::string ended_by(GrassLimit limit, const Grazing& grazing) {
  switch (limit) {
    case GrassLimit::hours:
      return "the time out ends it";
    case GrassLimit::appetite:
      return "it is full before the time is up";
    case GrassLimit::growth:
      break;
  }
  return grazing.hectares_a_horse
             ? fmt::format("no more grows on its {} ha of the field",
                           rounded(*grazing.hectares_a_horse))
             : "no more grows where two horses share a hectare (write `area` for your field)";
}

std::string as_reckoned(const HorseAnswer& answer, const Turnout& turnout, const Wording& words) {
  const Horse& horse = answer.question.horse;
  const std::string out =
      fmt::format("{} is out for {:g} hours a day in {} on {} grass{}", horse.name, turnout.hours,
                  month_name(*answer.spell.month), name_of(turnout.sward),
                  turnout.muzzle ? " with a muzzle" : "");
  const GrassIntake intake = grass_eaten(horse, *answer.spell.month);
  if (!answer.question.grass) return out + ": next to nothing is eaten there.";
  return fmt::format("{}: reckoned at {} of dry matter, between {} and {}; {}.", out,
                     dry(intake.expected, words), dry(intake.low, words), dry(intake.high, words),
                     ended_by(intake.limit, *horse.grazing));
}

std::string told_miss(const Broken& broken, const Wording& words) {
  const RowMeaning& row = broken.row;
  const bool floor = row.side == Side::lower;
  std::string name = Wording::subject(row);
  if (row.family == RowFamily::need) name = traits_of(*row.nutrient).name;
  const double share = missed_share(broken);
  if (!std::isfinite(share)) {
    return fmt::format("{} {}, where none is allowed", words.quantity(broken.value, row.unit),
                       name);
  }
  const std::string far = share < hardly ? "less than 1 %" : fmt::format("{:.0f} %", 100.0 * share);
  return fmt::format("{} {} {}", name, far, floor ? "short" : "over");
}

std::string told_misses(const std::vector<Broken>& misses, const Wording& words) {
  std::vector<std::string> told;
  for (const Broken& broken : misses) {
    if (told.size() + 1 == most_misses_told && misses.size() > most_misses_told) {
      told.push_back(fmt::format("{} more", misses.size() - told.size()));
      break;
    }
    told.push_back(told_miss(broken, words));
  }
  return listed(told);
}

std::string told_ration(const Ration& ration, const RationQuestion& question,
                        const Wording& words) {
  std::vector<std::string> feeds;
  for (const Portion& p : ration.portions) {
    if (question.grazes(p.offer)) continue;
    feeds.push_back(portion_in_brief(question, p, words));
  }
  return feeds.empty() ? "nothing beside the grass" : listed(feeds);
}

// What to do at one end of the range.
std::string told_mend(const GrassEnd& end, const RationQuestion& question, const Wording& words) {
  if (!end.hay.empty()) {
    std::vector<std::string> changes;
    for (const HayChange& change : end.hay) {
      changes.push_back(fmt::format("{} {} {}", of_hay(change.put_out, words),
                                    change.put_out > KgAsFed{} ? "more" : "less",
                                    question.offers[change.offer].name));
    }
    return fmt::format("Then put out about {}.", listed(changes));
  }
  if (end.instead) {
    return fmt::format("Hay alone does not mend that; the cheapest ration then is {}, for {}.",
                       told_ration(*end.instead, question, words),
                       words.money_with_code(end.instead->cost.in_units()));
  }
  const bool little = end.grass < question.grass->most;
  return fmt::format("No ration from these feeds keeps every limit then: {}.",
                     little ? "another forage, or more turnout, has to mend it"
                            : "fewer hours, or a muzzle, have to mend it");
}

std::string at_low(const HorseAnswer& answer, const Wording& words) {
  const GrassEnd& end = answer.grass->low;
  const std::string start =
      end.grass < mouthful
          ? "If it finds no grass and eats all its hay"
          : fmt::format("If it eats only {} of grass and all its hay", dry(end.grass, words));
  if (end.misses.empty()) return start + ", every limit is still kept.";
  return fmt::format("{}: {}. {}", start, told_misses(end.misses, words),
                     told_mend(end, answer.question, words));
}

std::string at_high(const HorseAnswer& answer, const Wording& words) {
  const GrassEnd& end = answer.grass->high;
  std::string start = fmt::format("If it eats as much as {} of grass", dry(end.grass, words));
  if (end.hay_left > KgDryMatter{}) {
    start += fmt::format(" and leaves hay instead ({} of dry matter)", dry(end.hay_left, words));
  }
  if (end.misses.empty()) return start + ", every limit is still kept.";
  return fmt::format("{}: {}. {}", start, told_misses(end.misses, words),
                     told_mend(end, answer.question, words));
}

// What grass is worth to the keeper, where it saves anything.
std::string worth_of_grass(const HorseAnswer& answer) {
  double saves = 0.0;
  for (const HeldLimit& limit : answer.explanation->limits) {
    if (limit.row.id == "grazing/max") saves = limit.loosening_saves;
  }
  if (saves <= 0.0) return "";
  return fmt::format("Another 100 g of dry matter of grass would save {} a day.",
                     Wording::money(0.1 * saves));
}

const HorseAnswer& answer_for(const HorseAnswer& first, const MonthOfSeason& month) {
  for (const HorseAnswer& other : first.other_spells) {
    for (const MonthOfSeason& m : other.spell.months) {
      if (m.year == month.year && m.month == month.month) return other;
    }
  }
  return first;
}

std::vector<MonthOfSeason> all_months(const HorseAnswer& first) {
  std::vector<MonthOfSeason> months = first.spell.months;
  for (const HorseAnswer& other : first.other_spells) {
    months.insert(months.end(), other.spell.months.begin(), other.spell.months.end());
  }
  std::sort(months.begin(), months.end(), [](const MonthOfSeason& a, const MonthOfSeason& b) {
    return std::pair(a.year, a.month) < std::pair(b.year, b.month);
  });
  return months;
}

std::string_view short_name(int month) { return month_name(month).substr(0, 3); }

// Months on end that are fed alike.
struct MonthsAlike {
  std::string name;  // "Mar 2027", "Apr to Jun 2027"
  Days days;
  const HorseAnswer* answer = nullptr;
};

std::vector<MonthsAlike> months_alike(const HorseAnswer& first) {
  std::vector<MonthsAlike> alike;
  std::string from;
  for (const MonthOfSeason& month : all_months(first)) {
    const HorseAnswer* its = &answer_for(first, month);
    if (alike.empty() || alike.back().answer != its) {
      from = short_name(month.month);
      alike.push_back({fmt::format("{} {}", from, month.year), month.days, its});
      continue;
    }
    alike.back().name = fmt::format("{} to {} {}", from, short_name(month.month), month.year);
    alike.back().days += month.days;
  }
  return alike;
}

std::string range_of_grass(const HorseAnswer& answer, const Wording& words) {
  const auto& grass = answer.question.grass;
  if (!grass) return "none";
  return fmt::format("{} ({} to {})", dry(grass->most, words),
                     grass->low < mouthful ? "none" : dry(grass->low, words),
                     dry(grass->high, words));
}

std::string fed_in(const HorseAnswer& answer, const Wording& words) {
  switch (answer.status) {
    case AnswerStatus::found:
      return told_ration(ration_to_feed(answer), answer.question, words);
    case AnswerStatus::none:
      return "no ration keeps every limit";
    case AnswerStatus::refused:
      return "no plan; this needs a vet";
    case AnswerStatus::failed:
      break;
  }
  return "no answer could be certified";
}

std::vector<std::string> months_without_ration(const HorseAnswer& first, const Wording& words) {
  std::vector<std::string> sentences;
  for (const HorseAnswer& other : first.other_spells) {
    if (other.status != AnswerStatus::none) continue;
    if (!other.no_ration) {
      sentences.push_back(fmt::format("In {} what was promised against bad batches cannot be kept.",
                                      month_name(*other.spell.month)));
      continue;
    }
    std::vector<std::string> demands;
    for (const RowMeaning& row : other.no_ration->conflict) demands.push_back(words.demand(row));
    std::string sentence = fmt::format("In {} these cannot all hold: {}.",
                                       month_name(*other.spell.month), listed(demands));
    if (!other.no_ration->mends.empty()) {
      sentence += " Cheapest way out: " + words.mend(other.no_ration->mends.front());
    }
    sentences.push_back(std::move(sentence));
    if (std::string hours = turnout_that_mends(other, words); !hours.empty()) {
      sentences.push_back(std::move(hours));
    }
  }
  return sentences;
}

// Months for which some horse has no ration take nothing of the barn in the sum.
bool all_fed(const std::vector<HorseAnswer>& answers) {
  return std::all_of(answers.begin(), answers.end(),
                     [](const HorseAnswer& a) { return a.worst() == AnswerStatus::found; });
}

// Kilograms of one offer put out a day by all horses in a month.
double put_out_in(const std::vector<HorseAnswer>& answers, const MonthOfSeason& month,
                  std::size_t offer) {
  double a_day = 0.0;
  for (const HorseAnswer& first : answers) {
    const HorseAnswer& answer = answer_for(first, month);
    if (answer.status != AnswerStatus::found) continue;
    for (const Portion& p : ration_to_feed(answer).portions) {
      if (p.offer == offer) a_day += p.put_out.in_kg();
    }
  }
  return a_day;
}

}  // namespace

std::string in_its_month(const HorseAnswer& answer) {
  if (answer.other_spells.empty() || answer.spell.months.empty()) return "";
  return fmt::format(" in {}", month_name(answer.spell.months.front().month));
}

std::string in_first_month(const Scenario& scenario) {
  return scenario.from ? fmt::format(" in {}", month_name(scenario.from->month)) : "";
}

Section grazing_section(const HorseAnswer& answer, const Wording& words) {
  Section section{"At grass", {}, {}};
  const Turnout* turnout = turnout_of(answer);
  if (turnout == nullptr) return section;
  const auto say = [&](std::string sentence) {
    if (!sentence.empty()) section.sentences.push_back(std::move(sentence));
  };
  if (answer.question.horse.health.contains(HealthState::laminitis_prone)) {
    say("CAUTION: grass can bring laminitis back within days. Its sugar goes up and down with the "
        "hour, the weather and frost, and the figures here are averages: graze only as the vet "
        "agrees, and stop at the first tender step.");
  }
  say(as_reckoned(answer, *turnout, words));
  if (!answer.question.grass) return section;
  if (answer.grass) {
    say(at_low(answer, words));
    say(at_high(answer, words));
    say(worth_of_grass(answer));
  }
  say("Nobody weighs grass: go by condition and girth. Bring a horse to it by 15 minutes more a "
      "day up to 4 or 5 hours, hay first.");
  return section;
}

Section months_section(const HorseAnswer& answer, const Wording& words) {
  Section section{"Month by month", Table{}, {}};
  if (answer.other_spells.empty()) return {section.title, {}, {}};
  Table& table = *section.table;
  table.headings = {"month", "grass, dry matter", "cost", "what to feed a day"};
  Money whole;
  for (const MonthsAlike& alike : months_alike(answer)) {
    const bool found = alike.answer->status == AnswerStatus::found;
    const Money a_day = found ? ration_to_feed(*alike.answer).cost : Money{};
    whole += a_day * alike.days.in_days();
    table.rows.push_back({alike.name, range_of_grass(*alike.answer, words),
                          found ? Wording::money(a_day.in_units()) : "",
                          fed_in(*alike.answer, words)});
  }
  section.sentences.push_back(
      fmt::format("The days with a ration cost {} in all. Each month's is certified like the "
                  "first; change from one to the next over 10 to 14 days.",
                  words.money_with_code(whole.in_units())));
  for (std::string& s : months_without_ration(answer, words)) {
    section.sentences.push_back(std::move(s));
  }
  return section;
}

std::string turnout_that_mends(const HorseAnswer& answer, const Wording& words) {
  const Turnout* turnout = turnout_of(answer);
  if (turnout == nullptr || !answer.no_ration) return "";
  for (const Mend& mend : answer.no_ration->mends) {
    if (!mend.row || mend.row->id != "grazing/min") continue;
    const KgDryMatter most{mend.to};
    const Horse& horse = answer.question.horse;
    const int month = *answer.spell.month;
    std::string sentence =
        fmt::format("{} of dry matter of grass is what it eats in about {:g} hours",
                    dry(most, words), half_hours(hours_for(horse, month, *turnout, most)));
    if (!turnout->muzzle) {
      Turnout muzzled = *turnout;
      muzzled.muzzle = true;
      const double hours = hours_for(horse, month, muzzled, most);
      sentence += hours < turnout->hours
                      ? fmt::format(", or in {:g} hours with a muzzle", half_hours(hours))
                      : "; with a muzzle it eats no more in all its hours";
    }
    return sentence + ".";
  }
  return "";
}

bool fed_by_month(const std::vector<HorseAnswer>& answers) {
  return std::any_of(answers.begin(), answers.end(),
                     [](const HorseAnswer& a) { return !a.other_spells.empty(); });
}

Section season_stock_section(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                             const Wording& words) {
  Section section{"What is in the barn", {}, {}};
  const auto& offers = scenario.stable.offers;
  const std::string left_out =
      all_fed(answers) ? ""
                       : " Horses and months without a ration are not in this sum: they would "
                         "take more.";
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!offers[f].on_hand) continue;
    const double stock = offers[f].stock_to_put_out()->in_kg();
    double used = 0.0;
    double days = 0.0;
    std::string runs_out;
    for (const MonthOfSeason& month : months_of(scenario.from, scenario.until)) {
      const double a_day = put_out_in(answers, month, f);
      const double in_month = a_day * month.days.in_days();
      if (runs_out.empty() && used + in_month > stock * (1.0 + 1e-9)) {
        runs_out = fmt::format(" It runs out in {} {}, after {:.0f} days.", month_name(month.month),
                               month.year, days + (stock - used) / a_day);
      }
      used += in_month;
      days += month.days.in_days();
    }
    if (used <= 0.0) continue;
    section.sentences.push_back(fmt::format("{}: the season's {:.0f} days take {} of {}.{}{}",
                                            offers[f].name, days, words.mass(used),
                                            words.mass(stock), runs_out, left_out));
  }
  return section;
}

}  // namespace haymow
