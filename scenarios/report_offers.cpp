#include "scenarios/report_offers.h"

#include <fmt/format.h>

#include <algorithm>

#include "model/grazing.h"
#include "scenarios/report_curves.h"

namespace haymow {
namespace {

constexpr std::size_t most_single_told = 3;
// Less than half a gram is none, as far as anyone weighs.
constexpr double nothing_below_kg = 0.0005;

std::string amount_or_none(double kg, const Wording& words) {
  return kg < nothing_below_kg ? "none" : words.mass(kg);
}

// "8.7 to 9.3 kg", "none to 40 g", "9.1 kg".
std::string range_told(double least_kg, double most_kg, const Wording& words) {
  std::string least = amount_or_none(least_kg, words);
  const std::string most = amount_or_none(most_kg, words);
  if (least == most) return most;
  const auto unit_of = [](const std::string& text) {
    const auto blank = text.find(' ');
    return blank == std::string::npos ? std::string() : text.substr(blank);
  };
  if (unit_of(least) == unit_of(most)) least = least.substr(0, least.find(' '));
  return fmt::format("{} to {}", least, most);
}

// Less than half a hundredth is no difference in the totals beside it.
constexpr double least_difference_told = 0.005;

std::string more_or_less(double money, const Wording& words) {
  if (std::abs(money) < least_difference_told) return "nothing more";
  return fmt::format("{} {}", words.money_with_code(std::abs(money)),
                     money > 0.0 ? "more" : "less");
}

// Put out; of grass, which nobody puts out, its dry matter.
std::string cell_of(const Ration& ration, std::size_t offer, const RationQuestion& question,
                    const Wording& words) {
  for (const Portion& p : ration.portions) {
    if (p.offer != offer) continue;
    return question.grazes(offer) ? words.mass(p.dry_matter.in_kg()) + " dry"
                                  : words.mass(p.put_out.in_kg());
  }
  return "";
}

// One column of the table, and its place in sentences.
struct Mix {
  std::string name;
  const Ration* ration;
  std::optional<NearestLimit> nearest;
};

std::vector<Mix> mixes_of(const OffersAnswer& answer) {
  std::vector<Mix> mixes;
  const HorseAnswer& cheapest = answer.answer;
  mixes.push_back({"mix 1", &ration_to_feed(cheapest),
                   nearest_limit(cheapest.formulation, cheapest.amounts_to_feed())});
  for (const Alternative& a : answer.mixes) {
    mixes.push_back({fmt::format("mix {}", mixes.size() + 1), &a.practical.ration, a.nearest});
  }
  return mixes;
}

// The feeds of all mixes, in the order in which they are fed.
std::vector<std::size_t> feeds_of_all(const std::vector<Mix>& mixes) {
  std::vector<std::size_t> feeds;
  for (const Mix& mix : mixes) {
    for (const Portion& p : mix.ration->portions) {
      if (std::find(feeds.begin(), feeds.end(), p.offer) == feeds.end()) feeds.push_back(p.offer);
    }
  }
  return feeds;
}

Table mixes_table(const std::vector<Mix>& mixes, const RationQuestion& question,
                  const Wording& words) {
  Table table;
  table.headings.emplace_back("a day");
  for (const Mix& mix : mixes) table.headings.push_back(mix.name);
  const auto row = [&](std::string name, auto cell) {
    table.rows.push_back({std::move(name)});
    for (const Mix& mix : mixes) table.rows.back().push_back(cell(*mix.ration));
  };
  row("cost", [](const Ration& r) { return Wording::money(r.cost.in_units()); });
  for (const std::size_t offer : feeds_of_all(mixes)) {
    const Offer& on_offer = question.offers[offer];
    row(on_offer.name + (on_offer.feed.soaking ? " (soak)" : ""),
        [&](const Ration& r) { return cell_of(r, offer, question, words); });
  }
  row("meals", [](const Ration& r) { return fmt::format("{}", r.meals); });
  row("starch a meal",
      [](const Ration& r) { return fmt::format("{:.0f} g", r.starch_per_meal_g); });
  row("forage, dry",
      [](const Ration& r) { return fmt::format("{:.0f} %", 100.0 * r.forage_share()); });
  return table;
}

std::string nearest_told(const std::vector<Mix>& mixes) {
  std::vector<std::string> told;
  for (const Mix& mix : mixes) {
    if (!mix.nearest) continue;
    told.push_back(fmt::format("{}: {}, {}", mix.name, Wording::subject(mix.nearest->row),
                               mix.nearest->distance < 0.0005
                                   ? "at it"
                                   : fmt::format("{:.2g} % away", 100.0 * mix.nearest->distance)));
  }
  if (told.empty()) return "";
  std::string text = "The nearest welfare limit of each. ";
  for (std::size_t i = 0; i < told.size(); ++i) {
    text += (i == 0 ? capitalised(told[i]) : "; " + told[i]);
  }
  return text + ".";
}

std::string feed_names(const std::vector<std::size_t>& feeds, const RationQuestion& question) {
  std::vector<std::string> names;
  for (const std::size_t f : feeds) names.push_back(question.offers[f].name);
  return listed(names);
}

// "1.1 kg more barley and 20 g less salt"; what was taken out is not repeated.
std::string changes_told(const Swap& swap, std::size_t taken, const RationQuestion& question,
                         const Wording& words) {
  std::vector<std::string> told;
  for (const AmountChange& change : swap.changes) {
    if (change.offer == taken) continue;
    const Offer& offer = question.offers[change.offer];
    const double kg = offer.put_out(change.by).in_kg();
    told.push_back(
        fmt::format("{} {} {}", words.mass(std::abs(kg)), kg > 0.0 ? "more" : "less", offer.name));
  }
  return told.empty() ? "nothing in its place" : listed(told);
}

std::string singles_told(const SwapsOf& swaps, const RationQuestion& question, const Wording& words,
                         bool all) {
  if (swaps.single.empty()) return " No single feed fills the gap.";
  std::vector<std::string> told;
  for (const SingleSwap& single : swaps.single) {
    if (!all && told.size() == most_single_told) break;
    const Offer& by = question.offers[single.by];
    double kg = 0.0;
    for (const AmountChange& change : single.swap.changes) {
      if (change.offer == single.by) kg = by.put_out(change.by).in_kg();
    }
    told.push_back(fmt::format("{} {} ({})", words.mass(kg), by.name,
                               more_or_less(single.swap.dearer.in_units(), words)));
  }
  const std::size_t untold = swaps.single.size() - told.size();
  return fmt::format(" By one feed: {}{}.", fmt::join(told, "; "),
                     untold > 0 ? fmt::format("; {} more with -v", untold) : "");
}

std::string choice_told(const OffersOptions& options, const Wording& words) {
  std::vector<std::string> parts;
  if (options.only) parts.emplace_back("with the yard's own forage and the price list alone");
  if (!options.without.empty()) parts.push_back("without " + listed(options.without));
  std::vector<std::string> with;
  for (const auto& [feed, least] : options.with) {
    with.push_back(fmt::format("at least {} {}", words.mass(least.in_kg()), feed));
  }
  if (!with.empty()) parts.push_back("with " + listed(with));
  return listed(parts);
}

}  // namespace

Section choice_section(const OffersAnswer& answer, const OffersOptions& options,
                       const Wording& words) {
  Section section{"What the choice costs", {}, {}};
  if (!options.chooses()) return {};
  const std::string chosen = capitalised(choice_told(options, words));
  const bool found = answer.answer.status == AnswerStatus::found;
  if (found && answer.cost_of_free_choice) {
    const Money cost = ration_to_feed(answer.answer).cost;
    const Money more = cost - *answer.cost_of_free_choice;
    section.sentences.push_back(
        fmt::format("{}: {} a day, {} than with all that the file offers ({}).", chosen,
                    words.money_with_code(cost.in_units()), more_or_less(more.in_units(), words),
                    Wording::money(answer.cost_of_free_choice->in_units())));
  } else if (found) {
    section.sentences.push_back(chosen +
                                ": there is a ration; with what the file offers there is none.");
  } else if (answer.cost_of_free_choice) {
    section.sentences.push_back(
        fmt::format("{}: no ration. With all that the file offers it costs {} a day.", chosen,
                    words.money_with_code(answer.cost_of_free_choice->in_units())));
  } else {
    section.sentences.push_back(chosen + ": no ration, nor with all that the file offers.");
  }
  return section;
}

Section mixes_section(const OffersAnswer& answer, const OffersOptions& options,
                      const Wording& words) {
  const std::vector<Mix> mixes = mixes_of(answer);
  const std::string margin = Wording::percent(options.alternatives.margin);
  Section section{fmt::format("Other mixes, within {} of its cost", margin), {}, {}};
  if (!answer.answer.practical) {
    section.sentences.emplace_back(
        "None is shown: no ration in whole steps of the scale keeps every limit.");
    return section;
  }
  if (options.alternatives.count == 0) return {};
  section.table = mixes_table(mixes, answer.answer.question, words);
  section.sentences.push_back(nearest_told(mixes));
  if (answer.mixes.empty()) {
    section.sentences.push_back(
        fmt::format("No mix that really differs was found within {}.", margin));
    return section;
  }
  section.sentences.push_back(fmt::format(
      "Mix 1 is what `haymow ration` shows. Any two differ in a feed that is at least {} of the "
      "dry matter of one; each keeps every limit and is certified.",
      Wording::percent(least_difference)));
  const bool cheaper = std::any_of(answer.mixes.begin(), answer.mixes.end(),
                                   [](const Alternative& a) { return a.dearer < 0.0; });
  if (cheaper) {
    section.sentences.push_back(
        fmt::format("The search for whole steps ends within {} of the best, so that another mix "
                    "may come out a little cheaper than the first.",
                    Wording::percent(practical_gap)));
  }
  return section;
}

Section ranges_section(const OffersAnswer& answer, const Wording& words) {
  const auto& offers = answer.answer.question.offers;
  Section section{
      "How much of each feed a ration can hold that costs at most so much more", Table{}, {}};
  section.table->headings.emplace_back("a day");
  for (const RangesWithin& within : answer.ranges) {
    section.table->headings.push_back(Wording::percent(within.margin));
  }
  std::vector<std::size_t> needed;
  std::vector<std::size_t> never;
  const RangesWithin& widest = answer.ranges.back();
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (answer.answer.question.grazes(f)) continue;  // given, not chosen
    const Standing standing = standing_of(widest.ranges[f], offers[f]);
    if (standing == Standing::indispensable) needed.push_back(f);
    if (standing == Standing::never) {
      never.push_back(f);
      continue;
    }
    section.table->rows.push_back({offers[f].name});
    for (const RangesWithin& within : answer.ranges) {
      section.table->rows.back().push_back(
          range_told(offers[f].put_out(within.ranges[f].least).in_kg(),
                     offers[f].put_out(within.ranges[f].most).in_kg(), words));
    }
  }
  section.sentences.push_back(
      fmt::format("Dearer than the cheapest to the gram, {} a day; whole steps may lie a little "
                  "outside.",
                  words.money_with_code(answer.answer.ration->cost.in_units())));
  const std::string margin = Wording::percent(widest.margin);
  section.sentences.push_back(
      needed.empty() ? fmt::format("Within {} every single feed can be done without.", margin)
                     : fmt::format("Not to be done without, within {}: {}.", margin,
                                   feed_names(needed, answer.answer.question)));
  if (!never.empty()) {
    section.sentences.push_back(fmt::format("Not worth weighing out in any ration within {}: {}.",
                                            margin, feed_names(never, answer.answer.question)));
  }
  return section;
}

Section swaps_section(const OffersAnswer& answer, const Wording& words, bool all) {
  Section section{"In the place of a kilogram, for this horse", {}, {}};
  const RationQuestion& question = answer.answer.question;
  for (const SwapsOf& swaps : answer.swaps) {
    const Offer& offer = question.offers[swaps.offer];
    std::string told = fmt::format(
        "- {} less {}: ", words.mass(offer.put_out(swaps.taken_out).in_kg()), offer.name);
    if (!swaps.cheapest) {
      section.sentences.push_back(told + "it cannot be spared; no ration keeps every limit.");
      continue;
    }
    told +=
        fmt::format("{}; {} a day.", changes_told(*swaps.cheapest, swaps.offer, question, words),
                    more_or_less(swaps.cheapest->dearer.in_units(), words));
    section.sentences.push_back(told + singles_told(swaps, question, words, all));
  }
  if (!section.sentences.empty()) {
    section.sentences.emplace_back(
        "From the cheapest ration to the gram, every limit kept. By one feed: nothing else is fed "
        "more but minerals and supplements.");
  }
  return section;
}

namespace {

// What was asked about first, before what is always told.
void add_curve_sections(const OffersAnswer& answer, const OffersOptions& choice,
                        const Wording& words, std::vector<Section>& sections) {
  for (Section& section : curve_sections(answer.answer, answer.curves, choice.curves, words)) {
    sections.push_back(std::move(section));
  }
}

}  // namespace

Report offers_report(const Scenario& scenario, const std::vector<OffersAnswer>& answers,
                     const OffersOptions& choice, const ReportOptions& options) {
  const Wording words(options.units, scenario.stable.money);
  Report report;
  report.title = "Which other mixes would do";
  for (const OffersAnswer& answer : answers) {
    if (answer.answer.status != AnswerStatus::found) {
      report.parts.push_back(ration_part(answer.answer, scenario, words, options.verbose));
      auto& sections = report.parts.back().sections;
      sections.insert(sections.begin(), choice_section(answer, choice, words));
      add_curve_sections(answer, choice, words, sections);
      continue;
    }
    Report::Part part{headline(answer.answer, words), true, {}};
    part.sections.push_back(choice_section(answer, choice, words));
    add_curve_sections(answer, choice, words, part.sections);
    part.sections.push_back(mixes_section(answer, choice, words));
    part.sections.push_back(ranges_section(answer, words));
    part.sections.push_back(swaps_section(answer, words, options.verbose));
    part.sections.push_back(left_out_section(answer.curves, words, options.verbose));
    if (!answer.answer.other_spells.empty()) {
      part.sections.push_back(
          {"",
           {},
           {fmt::format("All of this is for the grass of {}; in other months it is another.",
                        month_name(*answer.answer.spell.month))}});
    }
    report.parts.push_back(std::move(part));
  }
  report.closing.push_back(assumptions(scenario));
  report.closing.push_back(
      {"Before you feed one of these",
       {},
       {"Change over in steps, as `haymow ration` shows, and read its cautions. Least cost is not "
        "best diet: ask a nutritionist which mix suits the horse, and a vet if it is ill."}});
  return report;
}

}  // namespace haymow
