#include <fmt/format.h>

#include <algorithm>

#include "scenarios/report.h"
#include "scenarios/report_amounts.h"
#include "scenarios/report_ask.h"
#include "scenarios/report_barn.h"
#include "scenarios/report_change.h"
#include "scenarios/report_doubt.h"
#include "scenarios/report_grazing.h"
#include "scenarios/report_need_rulers.h"
#include "scenarios/report_own_feeds.h"
#include "scenarios/report_parts.h"
#include "scenarios/report_soaking.h"
#include "scenarios/report_sources.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

constexpr std::size_t most_limits_told = 6;
constexpr std::size_t most_entries_told = 3;
// A nutrient with more of its supply from memory than this is named.
constexpr double much_from_memory = 0.25;

Section holding(const Explanation& explanation, const Wording& words, bool all) {
  Section section{"What holds it", {}, {}};
  std::size_t told = 0;
  std::vector<HeldLimit> limits = explanation.limits;
  // Grass is given, not a limit; its section says what it is worth.
  std::erase_if(limits, [](const HeldLimit& l) { return l.row.family == RowFamily::grazing; });
  for (const HeldLimit& limit : limits) {
    if (!all && told == most_limits_told) {
      const std::size_t more = limits.size() - told;
      section.sentences.push_back(
          more == 1 ? "1 more limit holds it a little (-v shows it)."
                    : fmt::format("{} more limits hold it a little (-v shows them).", more));
      break;
    }
    section.sentences.push_back(words.held(limit));
    ++told;
  }
  if (told == 0) section.sentences.emplace_back("Nothing but the prices: no limit costs anything.");
  return section;
}

Section paid_for(const HorseAnswer& answer, const Wording& words) {
  Section section{"What each feed is paid for", {}, {}};
  for (const FeedWorth& worth : answer.explanation->worth) {
    if (!fed(answer, worth.offer) || answer.question.grazes(worth.offer)) continue;
    section.sentences.push_back(words.worth(worth, answer.question, answer.formulation));
  }
  return section;
}

Section entering(const HorseAnswer& answer, const Wording& words, bool all) {
  Section section{"At what price others would enter", {}, {}};
  for (const EntryPrice& entry : answer.explanation->unused) {
    if (fed(answer, entry.offer)) continue;
    if (!all && (section.sentences.size() == most_entries_told || !entry.enters_at)) break;
    section.sentences.push_back(words.entry(entry, answer.question));
  }
  return section;
}

// Nutrients that hold the ration on figures nobody has looked up.
std::string decided_from_memory(const HorseAnswer& answer) {
  const auto holds = [&](Nutrient n) {
    const auto& limits = answer.explanation->limits;
    return std::any_of(limits.begin(), limits.end(),
                       [&](const HeldLimit& l) { return l.row.nutrient == n; });
  };
  std::vector<std::string> nutrients;
  for (const Supply& s : ration_to_feed(answer).supplies) {
    if (!s.forced || s.memory_share < much_from_memory || !holds(s.nutrient)) continue;
    nutrients.push_back(
        fmt::format("{} ({:.0f} %)", traits_of(s.nutrient).name, 100.0 * s.memory_share));
  }
  if (nutrients.empty()) return "";
  return fmt::format(
      "Figures from memory decide here: {} of what is supplied. An analysis would settle it.",
      listed(nutrients));
}

// Floors that are reported only, where what is known does not reach them.
std::string short_but_not_forced(const Ration& ration) {
  std::vector<std::string> nutrients;
  for (const Supply& s : ration.supplies) {
    if (s.forced || !s.floor || s.supplied >= *s.floor) continue;
    nutrients.push_back(
        fmt::format("{} ({:.0f} %)", traits_of(s.nutrient).name, 100.0 * s.supplied / *s.floor));
  }
  if (nutrients.empty()) return "";
  return fmt::format(
      "Reported, not forced, since few feeds have a figure; what is known covers of the need: {}.",
      listed(nutrients));
}

// Unknown figures of what is fed that a ceiling had to guess or leave out.
// Starch, sugar and fibre are always named, the rest on request.
std::vector<std::string> assumed_figures(const HorseAnswer& answer,
                                         const std::vector<double>& amounts, bool all) {
  std::vector<std::string> taken;
  std::vector<std::string> left_out;
  std::size_t untold = 0;
  for (const AssumedFigure& a : answer.formulation.assumed) {
    if (amounts[a.offer] < least_portion.in_kg()) continue;
    const NutrientTraits& t = traits_of(a.nutrient);
    const bool by_the_gram = is_fed_by_the_gram(answer.question.offers[a.offer].feed.group);
    const bool weighty = a.nutrient == Nutrient::starch || a.nutrient == Nutrient::sugar ||
                         a.nutrient == Nutrient::ndf;
    const bool told = all || (weighty && !by_the_gram);
    if (!told) {
      ++untold;
      continue;
    }
    const std::string what = fmt::format("{} of {}", t.name, answer.question.offers[a.offer].name);
    if (a.value) {
      taken.push_back(fmt::format("{} ({:g} {})", what, *a.value, t.unit));
    } else {
      left_out.push_back(what);
    }
  }
  std::vector<std::string> sentences;
  if (!taken.empty()) {
    sentences.push_back(
        fmt::format("Unknown, so taken as the highest known of its kind, per kg of dry matter: {}.",
                    listed(taken)));
  }
  if (!left_out.empty()) {
    sentences.push_back(fmt::format(
        "Unknown in every feed of its kind, so left out under its ceiling: {}.", listed(left_out)));
  }
  if (untold > 0) {
    sentences.push_back(
        fmt::format("{} more unknown figure{} under ceilings {} guessed high or "
                    "left out (-v lists them).",
                    untold, untold == 1 ? "" : "s", untold == 1 ? "was" : "were"));
  }
  return sentences;
}

// What a reader should know before trusting the ration.
Section watch(const HorseAnswer& answer, const Scenario& scenario, const Wording& words,
              bool verbose) {
  Section section{"Watch", {}, {}};
  const auto say = [&](std::string sentence) {
    if (!sentence.empty()) section.sentences.push_back(std::move(sentence));
  };
  const Ration& ration = ration_to_feed(answer);
  const auto& amounts = answer.amounts_to_feed();
  say(decided_from_memory(answer));
  say(partly_known(ration));
  say(short_but_not_forced(ration));
  for (const Broken& broken : broken_rows(answer.formulation.judged, amounts)) {
    if (broken.row.family != RowFamily::need) say(words.miss(broken));
  }
  for (std::string& sentence : assumed_figures(answer, amounts, verbose)) say(std::move(sentence));
  const std::string& note = answer.question.horse.bodyweight_note;
  if (!note.empty()) say(capitalised(note) + ".");
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (offer.fed_from && starves(*offer.fed_from)) {
      say(fmt::format(
          "{} is fed from {}: horses fed so ate only {:.2g} % of their bodyweight a day "
          "({}). Put a feeder round the bale, or do not count on what is planned here.",
          offer.name, offer.fed_from->words, offer.fed_from->intake->most_percent,
          offer.fed_from->source));
    }
    const auto stock = offer.stock_to_put_out();
    if (stock && !scenario.stable.season) {
      say(fmt::format("For this horse alone {} would last {:.0f} days.", offer.name,
                      *stock / p.put_out));
    }
  }
  return section;
}

Section needs_beside_supply(const HorseAnswer& answer) {
  Section section{"Needs and supply", Table{}, {}};
  section.table->headings = {"a day", "supplied", "at least", "at most", "known"};
  for (const Supply& s : ration_to_feed(answer).supplies) {
    const NutrientTraits& t = traits_of(s.nutrient);
    const auto number = [&](double v) { return fmt::format("{:.{}f} {}", v, t.decimals, t.unit); };
    section.table->rows.push_back({std::string(t.name) + (s.forced ? "" : " (reported)"),
                                   number(s.supplied), s.floor ? number(*s.floor) : "",
                                   s.ceiling ? number(*s.ceiling) : "",
                                   fmt::format("{:.0f} %", 100.0 * s.known_share)});
  }
  return section;
}

// Below 1e-12 the digits are rounding noise that differs between machines.
std::string size_of(double relative) {
  return relative < 1e-12 ? "1e-12" : fmt::format("{:.0e}", relative);
}

std::string certificate_line(const HorseAnswer& answer) {
  return fmt::format(
      "Certified without the solver's word: no limit missed by more than {} of it, cost within {} "
      "of the least possible.",
      size_of(answer.certificate.largest_violation), size_of(answer.certificate.relative_gap));
}

Report::Part found_part(const HorseAnswer& answer, const Scenario& scenario, const Wording& words,
                        bool verbose) {
  Report::Part part{headline(answer, words), true, {}};
  part.sections.push_back(amounts_section(answer, words));
  part.sections.push_back(meals_section(answer, words));
  part.sections.push_back(soaking_section(answer, words));
  part.sections.push_back(grazing_section(answer, words));
  part.sections.push_back(months_section(answer, words));
  add_change_sections(part, answer, words, verbose);
  part.sections.push_back(need_rulers(answer));
  part.sections.push_back(money_by_feed(answer, words));
  part.sections.push_back(holding(*answer.explanation, words, verbose));
  part.sections.push_back(paid_for(answer, words));
  part.sections.push_back(entering(answer, words, verbose));
  if (verbose) part.sections.push_back(needs_beside_supply(answer));
  part.sections.push_back(doubt_section(answer, words));
  part.sections.push_back(watch(answer, scenario, words, verbose));
  if (auto advice = advice_for(answer.question.horse); !advice.empty()) {
    for (std::string& sentence : advice) sentence = capitalised(std::move(sentence)) + ".";
    part.sections.push_back(
        {fmt::format("Because of {}'s health", answer.question.horse.name), {}, std::move(advice)});
  }
  part.sections.push_back({"", {}, {certificate_line(answer)}});
  if (answer.exact) {
    const auto others = std::count_if(
        answer.other_spells.begin(), answer.other_spells.end(),
        [](const HorseAnswer& spell) { return spell.exact && spell.exact->confirms_cost(); });
    part.sections.back().sentences.push_back(
        words.exact(*answer.exact, static_cast<std::size_t>(others)));
  }
  return part;
}

Report::Part no_ration_part(const HorseAnswer& answer, const Wording& words) {
  const NoRation& no = *answer.no_ration;
  Report::Part part{
      fmt::format("{}: no ration keeps every limit", answer.question.horse.name), false, {}};
  Section why{"These cannot all hold", {}, {}};
  why.sentences = words.clash(no, answer.question.horse, answer.question.offers);
  part.sections.push_back(std::move(why));

  Section mends{"What would mend it, cheapest first", {}, {}};
  for (const Mend& mend : no.mends) mends.sentences.push_back("- " + words.mend(mend));
  if (no.mends.empty()) {
    mends.sentences.emplace_back(
        "No change of one or two limits mends it, and no feed of the table: more would have to "
        "give.");
  }
  if (std::string hours = turnout_that_mends(answer, words); !hours.empty()) {
    mends.sentences.push_back(std::move(hours));
  }
  part.sections.push_back(std::move(mends));
  part.sections.push_back(grazing_section(answer, words));
  part.sections.push_back(months_section(answer, words));

  if (!no.nearest.portions.empty()) {
    Section nearest{"The nearest ration, which is not safe as it stands", {}, {}};
    std::vector<std::string> feeds;
    for (const Portion& p : no.nearest.portions) {
      feeds.push_back(portion_in_brief(answer.question, p, words));
    }
    nearest.sentences.push_back(fmt::format("{}; {} a day. It misses:", listed(feeds),
                                            words.money_with_code(no.nearest.cost.in_units())));
    for (const Broken& broken : no.misses) nearest.sentences.push_back("- " + words.miss(broken));
    part.sections.push_back(std::move(nearest));
  }
  part.sections.push_back(
      {"",
       {},
       {fmt::format("Proven without the solver's word: the limits contradict each other by {} % "
                    "of their size.",
                    rounded(100.0 * no.proof_strength))}});
  if (answer.exact) part.sections.back().sentences.push_back(words.exact_clash(*answer.exact));
  return part;
}

Report::Part part_for(const HorseAnswer& answer, const Scenario& scenario, const Wording& words,
                      bool verbose) {
  const std::string& name = answer.question.horse.name;
  switch (answer.status) {
    case AnswerStatus::found:
      return found_part(answer, scenario, words, verbose);
    case AnswerStatus::none:
      if (!answer.no_ration) return no_promise_part(answer, words);
      return no_ration_part(answer, words);
    case AnswerStatus::refused:
      return {fmt::format("{}: no plan; this needs a vet", name),
              false,
              {{"", {}, refusal(answer.question.horse)}}};
    case AnswerStatus::failed:
      if (answer.exact) {
        return {
            fmt::format("{}: no answer could be confirmed", name),
            false,
            {{"",
              {},
              {answer.no_ration ? words.exact_clash(*answer.exact) : words.exact(*answer.exact)}}}};
      }
      break;
  }
  return {fmt::format("{}: no answer could be certified", name),
          false,
          {{"", {}, {"This is our failure, not your file's. Please report it with the file."}}}};
}

Section stock_section(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                      const Wording& words) {
  Section section{"What is in the barn", {}, {}};
  if (fed_by_month(answers)) return season_stock_section(scenario, answers, words);
  const auto& offers = scenario.stable.offers;
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!offers[f].on_hand) continue;
    double a_day = 0.0;
    for (const HorseAnswer& a : answers) {
      if (a.status != AnswerStatus::found) continue;
      for (const Portion& p : ration_to_feed(a).portions) {
        if (p.offer == f) a_day += p.put_out.in_kg();
      }
    }
    if (a_day <= 0.0) continue;
    std::string sentence = fmt::format("{}: {} a day from {}", offers[f].name, words.mass(a_day),
                                       words.mass(offers[f].on_hand->in_kg()));
    if (offers[f].storage_loss > 0.0) {
      sentence +=
          fmt::format(", of which the store takes {:.3g} %,", 100.0 * offers[f].storage_loss);
    }
    sentence += fmt::format(" lasts {:.0f} days", offers[f].stock_to_put_out()->in_kg() / a_day);
    if (scenario.stable.season) {
      const Losses losses = offers[f].losses();
      const KgAsFed takes =
          to_buy(offers[f].eaten(KgAsFed{a_day}), *scenario.stable.season, losses);
      sentence += fmt::format("; the season has {:.0f} and takes {}",
                              scenario.stable.season->in_days(), words.mass(takes.in_kg()));
    }
    section.sentences.push_back(sentence + ".");
    if (auto short_of = barn_sentence(scenario, answers, f, words); !short_of.empty()) {
      section.sentences.push_back(std::move(short_of));
    }
  }
  return section;
}

}  // namespace

Report::Part ration_part(const HorseAnswer& answer, const Scenario& scenario, const Wording& words,
                         bool verbose) {
  return part_for(answer, scenario, words, verbose);
}

Report ration_report(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                     const ReportOptions& options, const std::vector<AskedAnswer>& questions) {
  const Wording words(options.units, scenario.stable.money);
  Report report;
  Money total;
  std::size_t found = 0;
  for (const HorseAnswer& answer : answers) {
    if (answer.status == AnswerStatus::found) {
      total += ration_to_feed(answer).cost;
      ++found;
    }
    report.parts.push_back(part_for(answer, scenario, words, options.verbose));
  }
  report.title = fmt::format("{}{}{} of {} horses fed for {} a day{}", scenario.stable.yard,
                             scenario.stable.yard.empty() ? "" : ": ", found, answers.size(),
                             words.money_with_code(total.in_units()),
                             fed_by_month(answers) ? in_first_month(scenario) : "");
  report.closing.push_back(yard_soaking_section(answers, words));
  report.closing.push_back(stock_section(scenario, answers, words));
  for (Section& section : asked_sections(scenario, questions, words)) {
    report.closing.push_back(std::move(section));
  }
  report.closing.push_back(assumptions(scenario));
  report.closing.push_back(own_feeds(scenario));
  report.closing.push_back({"Before you feed this", {}, cautions()});
  report.closing.push_back({"When to stop and ask", {}, when_to_ask()});
  if (options.on_page) report.closing.push_back(sources_of_rations(answers));
  mark_as_if(report, scenario.as_if);
  return report;
}

}  // namespace haymow
