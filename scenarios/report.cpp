#include "scenarios/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "feeds/feed_table.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

constexpr std::size_t most_limits_told = 6;
constexpr std::size_t most_entries_told = 3;
// A nutrient known for less of the dry matter than this is named in the report.
constexpr double well_known = 0.75;
// More than this many times the need is named by the audit as waste.
constexpr double much_more = 1.5;
constexpr double days_in_month = 365.25 / 12.0;

const Ration& ration_to_feed(const HorseAnswer& answer) {
  return answer.practical ? answer.practical->ration : *answer.ration;
}

bool fed(const HorseAnswer& answer, std::size_t offer) {
  const auto& portions = ration_to_feed(answer).portions;
  return std::any_of(portions.begin(), portions.end(),
                     [&](const Portion& p) { return p.offer == offer; });
}

std::string headline(const HorseAnswer& answer, const Wording& words) {
  const std::string& name = answer.question.horse.name;
  if (answer.status != AnswerStatus::found) return name;
  const Ration& ration = ration_to_feed(answer);
  std::vector<std::string> feeds;
  for (const Portion& p : ration.portions) {
    feeds.push_back(
        fmt::format("{} {}", words.mass(p.put_out.in_kg()), answer.question.offers[p.offer].name));
  }
  return fmt::format("{}: {}; {} a day", name, listed(feeds),
                     words.money_with_code(ration.cost.in_units()));
}

Section amounts(const HorseAnswer& answer, const Wording& words) {
  const Ration& ration = ration_to_feed(answer);
  Section section{"What to feed", Table{}, {}};
  Table& table = *section.table;
  const std::string each =
      ration.meals == 1 ? "in one meal" : fmt::format("in each of {}", ration.meals);
  table.headings = {"feed", "a day", each, "dry matter", "cost"};
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    const bool bucket = offer.feed.is_bucket_feed();
    table.rows.push_back({offer.name, words.mass(p.put_out.in_kg()),
                          bucket ? words.mass(p.put_out.in_kg() / ration.meals) : "as forage",
                          words.mass(p.dry_matter.in_kg()), words.money(p.cost.in_units())});
  }
  table.rows.push_back({"in all", "", "", words.mass(ration.dry_matter.in_kg()),
                        words.money(ration.cost.in_units())});

  const double bodyweight = answer.question.horse.bodyweight.in_kg();
  section.sentences.push_back(fmt::format(
      "Forage is {:.0f} % of the dry matter and {:.2f} % of bodyweight; starch {:.0f} g a meal; "
      "{} a month.",
      100.0 * ration.forage_share(), 100.0 * ration.forage.in_kg() / bodyweight,
      ration.starch_per_meal_g, words.money_with_code(ration.cost.in_units() * days_in_month)));
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (!offer.feed.soaking) continue;
    const Soaking& soak = *offer.feed.soaking;
    const double dry = p.put_out.in_kg() / ration.meals;
    const auto time = [](double minutes) {
      return minutes >= 120.0 ? fmt::format("{:g} hours", minutes / 60.0)
                              : fmt::format("{:g} minutes", minutes);
    };
    std::string times = time(soak.cold_minutes) + " in cold water";
    if (soak.warm_minutes) times += fmt::format(" or {} in warm", time(*soak.warm_minutes));
    section.sentences.push_back(fmt::format("Soak {}: {} in {:.1f} litres of water a meal, {}.",
                                            offer.name, words.mass(dry), dry * soak.water_parts,
                                            times));
  }
  if (answer.practical) {
    const double extra = (ration.cost - answer.ration->cost).in_units();
    std::string sentence = fmt::format(
        "Amounts are in steps a person can weigh; without steps the least cost is {}, {} less",
        words.money(answer.ration->cost.in_units()), words.money(std::max(extra, 0.0)));
    std::vector<std::string> besides;
    for (const Portion& p : answer.ration->portions) {
      if (fed(answer, p.offer)) continue;
      besides.push_back(fmt::format("{} {}", words.mass(p.put_out.in_kg()),
                                    answer.question.offers[p.offer].name));
    }
    if (!besides.empty()) sentence += fmt::format(", with {}", listed(besides));
    section.sentences.push_back(sentence + ".");
    if (!answer.practical->within_gap) {
      section.sentences.emplace_back(
          "The search for cheaper steps was cut short: these keep every limit but may not be the "
          "cheapest.");
    }
  } else {
    section.sentences.emplace_back(
        "No ration in whole steps of the scale keeps every limit: weigh these amounts exactly.");
  }
  return section;
}

Section holding(const Explanation& explanation, const Wording& words, bool all) {
  Section section{"What holds it", {}, {}};
  std::size_t told = 0;
  for (const HeldLimit& limit : explanation.limits) {
    if (!all && told == most_limits_told) {
      section.sentences.push_back(fmt::format("{} more limits hold it a little (-v shows them).",
                                              explanation.limits.size() - told));
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
    if (!fed(answer, worth.offer)) continue;
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

// The forced nutrients whose figure is missing for much of what is fed.
std::string partly_known(const Ration& ration) {
  std::vector<std::string> nutrients;
  for (const Supply& s : ration.supplies) {
    if (!s.forced || s.known_share >= well_known) continue;
    nutrients.push_back(
        fmt::format("{} ({:.0f} %)", traits_of(s.nutrient).name, 100.0 * s.known_share));
  }
  if (nutrients.empty()) return "";
  return fmt::format("Known for only part of the dry matter, the rest counted as none: {}.",
                     listed(nutrients));
}

// Forced nutrients of which much more is fed than is needed, mostly from the
// bucket: paid for, and left in the bed. What forage brings along costs nothing.
std::string well_over(const Audit& audit) {
  std::vector<std::string> nutrients;
  for (const Supply& s : audit.ration.supplies) {
    if (!s.forced || !s.floor || s.supplied < much_more * *s.floor) continue;
    double from_bucket = 0.0;
    for (const Portion& p : audit.ration.portions) {
      const Feed& feed = audit.question.offers[p.offer].feed;
      if (!feed.is_bucket_feed()) continue;
      from_bucket += feed.per_kg_as_fed(s.nutrient).value_or(0.0) * p.eaten.in_kg();
    }
    if (from_bucket < 0.5 * s.supplied) continue;
    nutrients.push_back(
        fmt::format("{} ({:.1f} times)", traits_of(s.nutrient).name, s.supplied / *s.floor));
  }
  if (nutrients.empty()) return "";
  return fmt::format("Well over the need, mostly from the bucket: {}.", listed(nutrients));
}

// What a reader should know before trusting the ration.
Section watch(const HorseAnswer& answer, const Scenario& scenario, const Wording& words) {
  Section section{"Watch", {}, {}};
  const Ration& ration = ration_to_feed(answer);
  const auto held = [&](Nutrient n) {
    const auto& limits = answer.explanation->limits;
    return std::any_of(limits.begin(), limits.end(),
                       [&](const HeldLimit& l) { return l.row.nutrient == n; });
  };
  std::vector<std::string> from_memory;
  std::vector<std::string> short_of;
  for (const Supply& s : ration.supplies) {
    const std::string name(traits_of(s.nutrient).name);
    if (s.forced && held(s.nutrient) && s.memory_share > 0.25) {
      from_memory.push_back(fmt::format("{} ({:.0f} %)", name, 100.0 * s.memory_share));
    }
    if (!s.forced && s.floor && s.supplied < *s.floor) {
      short_of.push_back(fmt::format("{} ({:.0f} %)", name, 100.0 * s.supplied / *s.floor));
    }
  }
  if (!from_memory.empty()) {
    section.sentences.push_back(fmt::format(
        "Figures from memory decide here: {} of what is supplied. An analysis would settle it.",
        listed(from_memory)));
  }
  if (auto known = partly_known(ration); !known.empty()) {
    section.sentences.push_back(std::move(known));
  }
  if (!short_of.empty()) {
    section.sentences.push_back(
        fmt::format("Reported, not forced, since few feeds have a figure; what is known covers of "
                    "the need: {}.",
                    listed(short_of)));
  }
  const auto& amounts = answer.practical ? answer.practical->amounts : answer.solution.columns;
  for (const Broken& broken : broken_rows(answer.formulation.judged, amounts)) {
    if (broken.row.family == RowFamily::need) continue;
    section.sentences.push_back(words.miss(broken));
  }
  std::vector<std::string> assumed;
  for (const AssumedFigure& a : answer.formulation.assumed) {
    if (amounts[a.offer] < least_portion.in_kg()) continue;
    const NutrientTraits& traits = traits_of(a.nutrient);
    if (a.nutrient != Nutrient::starch && a.nutrient != Nutrient::sugar &&
        a.nutrient != Nutrient::ndf) {
      continue;
    }
    if (!a.value) continue;
    assumed.push_back(fmt::format("{} of {} ({:g} {})", traits.name,
                                  answer.question.offers[a.offer].name, *a.value, traits.unit));
  }
  if (!assumed.empty()) {
    section.sentences.push_back(
        fmt::format("Unknown, so taken as the highest known of its kind, per kg of dry matter: {}.",
                    listed(assumed)));
  }
  if (!answer.question.horse.bodyweight_note.empty()) {
    section.sentences.push_back(capitalised(answer.question.horse.bodyweight_note) + ".");
  }
  for (const Portion& p : ration.portions) {
    const Offer& offer = answer.question.offers[p.offer];
    if (offer.on_hand && !scenario.stable.season) {
      section.sentences.push_back(fmt::format("For this horse alone {} would last {:.0f} days.",
                                              offer.name, *offer.on_hand / p.put_out));
    }
  }
  return section;
}

Section needs_beside_supply(const HorseAnswer& answer, const Wording& words) {
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
  static_cast<void>(words);
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
  part.sections.push_back(amounts(answer, words));
  part.sections.push_back(holding(*answer.explanation, words, verbose));
  part.sections.push_back(paid_for(answer, words));
  part.sections.push_back(entering(answer, words, verbose));
  if (verbose) part.sections.push_back(needs_beside_supply(answer, words));
  part.sections.push_back(watch(answer, scenario, words));
  if (auto advice = advice_for(answer.question.horse); !advice.empty()) {
    for (std::string& sentence : advice) sentence = capitalised(std::move(sentence)) + ".";
    part.sections.push_back(
        {fmt::format("Because of {}'s health", answer.question.horse.name), {}, std::move(advice)});
  }
  part.sections.push_back({"", {}, {certificate_line(answer)}});
  return part;
}

Report::Part no_ration_part(const HorseAnswer& answer, const Wording& words) {
  const NoRation& no = *answer.no_ration;
  Report::Part part{
      fmt::format("{}: no ration keeps every limit", answer.question.horse.name), false, {}};
  Section why{"These cannot all hold", {}, {}};
  for (const RowMeaning& row : no.conflict) {
    std::string sentence = "- " + words.demand(row);
    if (row.limit && !row.limit->because.empty()) {
      sentence +=
          fmt::format(" (because {} is {})", answer.question.horse.name, row.limit->because);
    }
    why.sentences.push_back(sentence);
  }
  if (const std::string told = words.contradiction(no); !told.empty()) {
    why.sentences.push_back(told);
  }
  if (!no.conflict_is_minimal) {
    why.sentences.emplace_back("A smaller set may exist: the search was not finished.");
  }
  part.sections.push_back(std::move(why));

  Section mends{"What would mend it, cheapest first", {}, {}};
  for (const Mend& mend : no.mends) mends.sentences.push_back("- " + words.mend(mend));
  if (no.mends.empty()) {
    mends.sentences.emplace_back("No single change mends it: two limits would have to give.");
  }
  part.sections.push_back(std::move(mends));

  if (!no.nearest.portions.empty()) {
    Section nearest{"The nearest ration, which is not safe as it stands", {}, {}};
    std::vector<std::string> feeds;
    for (const Portion& p : no.nearest.portions) {
      feeds.push_back(fmt::format("{} {}", words.mass(p.put_out.in_kg()),
                                  answer.question.offers[p.offer].name));
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
  return part;
}

Report::Part part_for(const HorseAnswer& answer, const Scenario& scenario, const Wording& words,
                      bool verbose) {
  const std::string& name = answer.question.horse.name;
  switch (answer.status) {
    case AnswerStatus::found:
      return found_part(answer, scenario, words, verbose);
    case AnswerStatus::none:
      return no_ration_part(answer, words);
    case AnswerStatus::refused:
      return {fmt::format("{}: no plan; this needs a vet", name),
              false,
              {{"", {}, refusal(answer.question.horse)}}};
    case AnswerStatus::failed:
      break;
  }
  return {fmt::format("{}: no answer could be certified", name),
          false,
          {{"", {}, {"This is our failure, not your file's. Please report it with the file."}}}};
}

// What the reader of the file had to assume, so that nobody takes it for fact.
Section assumptions(const Scenario& scenario) {
  Section section{"Assumed, since the file does not say", {}, {}};
  for (const Diagnostic& remark : scenario.remarks) {
    section.sentences.push_back(fmt::format("- line {}: {}", remark.position.line, remark.message));
  }
  return section;
}

Section stock_section(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                      const Wording& words) {
  Section section{"What is in the barn", {}, {}};
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
    std::string sentence =
        fmt::format("{}: {} a day from {} lasts {:.0f} days", offers[f].name, words.mass(a_day),
                    words.mass(offers[f].on_hand->in_kg()), offers[f].on_hand->in_kg() / a_day);
    if (scenario.stable.season) {
      sentence += fmt::format("; the season has {:.0f}", scenario.stable.season->in_days());
    }
    section.sentences.push_back(sentence + ".");
  }
  return section;
}

}  // namespace

Report ration_report(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                     const ReportOptions& options) {
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
  report.title = fmt::format("{}{}{} of {} horses fed for {} a day", scenario.stable.yard,
                             scenario.stable.yard.empty() ? "" : ": ", found, answers.size(),
                             words.money_with_code(total.in_units()));
  report.closing.push_back(stock_section(scenario, answers, words));
  report.closing.push_back(assumptions(scenario));
  report.closing.push_back({"Before you feed this", {}, cautions()});
  report.closing.push_back({"When to stop and ask", {}, when_to_ask()});
  return report;
}

Report needs_report(const Scenario& scenario, const ReportOptions& options) {
  static_cast<void>(options);
  Report report;
  report.title = "What each horse needs a day, with the equation and how sure it is";
  for (const Horse& horse : scenario.stable.horses) {
    const Requirements needs = nrc_2007(horse);
    Report::Part part{
        fmt::format("{}: {:g} kg, {}", horse.name, horse.bodyweight.in_kg(), describe(horse.stage)),
        true,
        {}};
    Section section{"", Table{}, {}};
    section.table->headings = {"a day", "at least", "at most", "how sure"};
    Section equations{"By which equation", {}, {}};
    for (const Requirement& need : needs.rows) {
      const NutrientTraits& t = traits_of(need.nutrient);
      const auto number = [&](const std::optional<double>& v) {
        return v ? fmt::format("{:.{}f} {}", *v, t.decimals, t.unit) : std::string();
      };
      section.table->rows.push_back({std::string(t.name), number(need.floor), number(need.ceiling),
                                     std::string(name_of(need.confidence))});
      equations.sentences.push_back(fmt::format("- {}: {}", t.name, need.equation));
      if (!need.ceiling_equation.empty()) {
        equations.sentences.push_back(
            fmt::format("- {}, at most: {}", t.name, need.ceiling_equation));
      }
    }
    part.sections.push_back(std::move(section));
    part.sections.push_back(std::move(equations));
    Section rules{"Rules that apply", {}, {}};
    for (const Limit& limit : limits_for(horse)) {
      rules.sentences.push_back(
          fmt::format("- {}: {} [{}; {}{}]", limit.id, limit.sentence, name_of(limit.strength),
                      limit.source, limit.because.empty() ? "" : "; because: " + limit.because));
    }
    part.sections.push_back(std::move(rules));
    report.parts.push_back(std::move(part));
  }
  Section sources{"Sources", {}, {}};
  if (const Source* nrc = find_source("nrc-2007")) {
    sources.sentences.push_back(fmt::format("{} ({}). {}", nrc->title, nrc->year, nrc->note));
  }
  report.closing.push_back(std::move(sources));
  return report;
}

Report audit_report(const Scenario& scenario, const std::vector<Audit>& audits,
                    const ReportOptions& options) {
  const Wording words(options.units, scenario.stable.money);
  Report report;
  report.title = "What is fed now, judged";
  for (const Audit& audit : audits) {
    const std::string& name = audit.question.horse.name;
    Report::Part part{
        fmt::format("{}: {}", name,
                    audit.adequate()
                        ? "what is fed now keeps every limit"
                        : fmt::format("what is fed now misses {} of {} limits", audit.broken.size(),
                                      audit.formulation.rows.size())),
        audit.adequate(),
        {}};
    Section fed{"Fed now", Table{}, {}};
    fed.table->headings = {"feed", "a day", "dry matter", "cost"};
    for (const Portion& p : audit.ration.portions) {
      fed.table->rows.push_back({audit.question.offers[p.offer].name, words.mass(p.put_out.in_kg()),
                                 words.mass(p.dry_matter.in_kg()), words.money(p.cost.in_units())});
    }
    if (!audit.without_price.empty()) {
      fed.sentences.push_back(fmt::format("Not on offer, so without a price in this cost: {}.",
                                          listed(audit.without_price)));
    }
    part.sections.push_back(std::move(fed));
    Section misses{"What it misses", {}, {}};
    for (const Broken& broken : audit.broken) misses.sentences.push_back(words.miss(broken));
    for (const Broken& broken : audit.doubtful) {
      misses.sentences.push_back("Not forced: " + words.miss(broken));
    }
    if (auto known = partly_known(audit.ration); !known.empty()) {
      misses.sentences.push_back(std::move(known));
    }
    part.sections.push_back(std::move(misses));
    if (auto over = well_over(audit); !over.empty()) {
      part.sections.push_back({"What it wastes", {}, {std::move(over)}});
    }
    Section beside{"Beside the cheapest safe ration", {}, {}};
    if (audit.best.status == AnswerStatus::found) {
      const double best = ration_to_feed(audit.best).cost.in_units();
      const double now = audit.ration.cost.in_units();
      beside.sentences.push_back(headline(audit.best, words) + ".");
      if (audit.without_price.empty()) {
        beside.sentences.push_back(
            fmt::format("That is {} a day {} than now ({}).", words.money(std::abs(now - best)),
                        best <= now ? "less" : "more", words.money_with_code(now)));
      }
    } else {
      beside.sentences.emplace_back("There is no ration that keeps every limit: see `ration`.");
    }
    part.sections.push_back(std::move(beside));
    report.parts.push_back(std::move(part));
  }
  report.closing.push_back(assumptions(scenario));
  report.closing.push_back({"When to stop and ask", {}, when_to_ask()});
  return report;
}

Report feeds_report(const std::vector<const Feed*>& feeds, bool full) {
  Report report;
  if (!full) {
    report.title =
        fmt::format("{} feeds; `haymow feeds NAME` shows one with its sources", feeds.size());
    Section section{"", Table{}, {}};
    section.table->headings = {"feed", "group", "dry matter", "energy/kg DM", "protein/kg DM"};
    section.table->left_columns = 2;
    for (const Feed* feed : feeds) {
      const auto figure = [&](Nutrient n) {
        const auto& f = feed->composition[n];
        return f ? fmt::format("{:g} {}", f->value, traits_of(n).unit) : std::string("unknown");
      };
      section.table->rows.push_back({feed->name, std::string(name_of(feed->group)),
                                     fmt::format("{:g} %", feed->dry_matter.value / 10.0),
                                     figure(Nutrient::energy), figure(Nutrient::crude_protein)});
    }
    report.parts.push_back({"", true, {std::move(section)}});
    return report;
  }
  for (const Feed* feed : feeds) {
    Report::Part part{fmt::format("{} ({})", feed->name, name_of(feed->group)), true, {}};
    Section section{"In a kg of dry matter", Table{}, {}};
    section.table->headings = {"", "figure", "how known", "source"};
    std::vector<std::string> keys;
    const auto row = [&](std::string name, const Figure& figure, std::string_view unit) {
      section.table->rows.push_back({std::move(name), fmt::format("{:g} {}", figure.value, unit),
                                     std::string(name_of(figure.origin)), figure.source});
      if (std::find(keys.begin(), keys.end(), figure.source) == keys.end()) {
        keys.push_back(figure.source);
      }
    };
    row("dry matter, per kg as fed", feed->dry_matter, "g");
    std::vector<std::string> unknown;
    for (const Nutrient n : all_nutrients()) {
      if (feed->composition[n]) {
        row(std::string(traits_of(n).name), *feed->composition[n], traits_of(n).unit);
      } else {
        unknown.emplace_back(traits_of(n).name);
      }
    }
    if (!unknown.empty()) {
      section.sentences.push_back(fmt::format("Unknown, which is not zero: {}.", listed(unknown)));
    }
    if (!feed->also.empty())
      section.sentences.push_back("Also called: " + listed(feed->also) + ".");
    if (!feed->note.empty()) section.sentences.push_back(feed->note);
    part.sections.push_back(std::move(section));
    Section sources{"Sources", {}, {}};
    for (const std::string& key : keys) {
      if (const Source* s = find_source(key)) {
        sources.sentences.push_back(fmt::format("{}: {}{}{}", key, s->title,
                                                s->year.empty() ? "" : ", " + s->year,
                                                s->address.empty() ? "" : ", " + s->address));
      }
    }
    part.sections.push_back(std::move(sources));
    report.parts.push_back(std::move(part));
  }
  return report;
}

}  // namespace haymow
