#include "scenarios/report_explain.h"

#include <fmt/format.h>

#include <algorithm>

#include "feeds/feed_table.h"
#include "scenarios/report_json_parts.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

// Three figures, and never an exponent: nothing in a feed is known better.
std::string shown(double value) {
  return value >= 1000.0 ? fmt::format("{:.0f}", value) : fmt::format("{:.3g}", value);
}

std::string with_unit(double value, Nutrient n) {
  return fmt::format("{} {}", shown(value), traits_of(n).unit);
}

std::string how_known(const Figure& figure, const std::string& taken_over_from) {
  std::string text(name_of(figure.origin));
  if (figure.origin == FigureOrigin::memory) text = "from memory";
  if (!figure.source.empty()) text += ", " + figure.source;
  return taken_over_from.empty() ? text : "taken over: " + text;
}

Section figures_of(const ExplainedFeed& explained) {
  const Feed& feed = explained.feed;
  Section section{"Every figure", Table{}, {}};
  section.table->headings = {"", "in a kg dry", "in a kg as fed", "how known"};
  section.table->last_is_prose = true;
  const bool dry_matter_is_own = !feed.is_taken_over(feed.dry_matter);
  section.table->rows.push_back(
      {"dry matter", "", shown(feed.dry_matter.value) + " g",
       how_known(feed.dry_matter, dry_matter_is_own ? "" : feed.based_on)});
  for (const ExplainedFigure& f : explained.figures) {
    section.table->rows.push_back(
        {std::string(traits_of(f.nutrient).name), with_unit(f.per_kg_dry_matter, f.nutrient),
         with_unit(f.per_kg_as_fed, f.nutrient), how_known(f.figure, f.taken_over_from)});
  }
  const auto taken =
      std::count_if(explained.figures.begin(), explained.figures.end(),
                    [](const ExplainedFigure& f) { return !f.taken_over_from.empty(); });
  if (taken > 0) {
    section.sentences.push_back(fmt::format(
        "{} of these {} not of this feed but taken over from {}. If much depends on one, have "
        "it analysed.",
        taken, taken == 1 ? "is" : "are", feed.based_on));
  }
  std::vector<std::string> unknown;
  for (const Nutrient n : explained.unknown) unknown.emplace_back(traits_of(n).name);
  if (!unknown.empty()) {
    section.sentences.push_back(fmt::format("Unknown, which is not zero: {}.", listed(unknown)));
  }
  if (!feed.note.empty()) {
    section.sentences.push_back(
        feed.based_on.empty() ? feed.note : fmt::format("Of {}: {}", feed.based_on, feed.note));
  }
  return section;
}

Section energies_worked_out(const ExplainedFeed& explained) {
  Section section{"How figures were worked out", {}, {}};
  if (!explained.feed.dry_matter.how.empty()) {
    section.sentences.push_back("- dry matter: " + explained.feed.dry_matter.how);
  }
  for (const ExplainedFigure& f : explained.figures) {
    if (f.how.empty()) continue;
    section.sentences.push_back(fmt::format("- {}: {}", traits_of(f.nutrient).name, f.how));
  }
  return section;
}

Section energies_of(const ExplainedFeed& explained) {
  Section section{"Energy in a kg of dry matter, by every equation", {}, {}};
  for (const EnergyEstimate& e : explained.energies) {
    std::vector<std::string> lacking;
    for (const Nutrient n : e.lacking) lacking.emplace_back(traits_of(n).name);
    const std::string why =
        !e.unfit.empty() ? e.unfit : fmt::format("needs the feed's own {}", listed(lacking));
    section.sentences.push_back(
        e.energy ? fmt::format("- {}: {:.1f} MJ", traits_of(e.equation).name, e.energy->value)
                 : fmt::format("- {}: not used, it {}", traits_of(e.equation).name, why));
  }
  if (const auto spread = explained.spread()) {
    section.sentences.push_back(
        fmt::format("They differ by {:.1f} MJ. Two such equations erred by 0.77 and 0.91 MJ on 32 "
                    "mixed feeds (Martinez Marin and others 2022): reckon with {:.0f} MJ either "
                    "way.",
                    *spread, estimated_energy_error_mj));
  }
  return section;
}

Section bag_holds(const ExplainedFeed& explained) {
  Section section{"What the bag may hold of what it declares", {}, {}};
  for (const ExplainedFigure& f : explained.figures) {
    if (!f.bag_holds) continue;
    const NutrientTraits& t = traits_of(f.nutrient);
    section.sentences.push_back(fmt::format(
        "- {}: declared {} {}/kg, so {}{} {}/kg{}", t.name, shown(f.per_kg_as_fed), t.unit,
        shown(f.bag_holds->least), f.bag_holds->most ? " to " + shown(*f.bag_holds->most) : "",
        t.unit, f.bag_holds->most ? "" : " or more"));
  }
  if (!section.sentences.empty()) {
    section.sentences.emplace_back(
        "As the law of Wales had it in 2006; ask what yours says. Rations reckon with what is "
        "declared.");
  }
  return section;
}

Section sources_of(const ExplainedFeed& explained) {
  std::vector<std::string> keys{explained.feed.dry_matter.source};
  for (const ExplainedFigure& f : explained.figures) keys.push_back(f.figure.source);
  Section section{"Sources", {}, {}};
  for (auto key = keys.begin(); key != keys.end(); ++key) {
    const Source* source = find_source(*key);
    if (source == nullptr || std::find(keys.begin(), key, *key) != key) continue;
    section.sentences.push_back(fmt::format("- {}: {}{}{}", source->key, source->title,
                                            source->year.empty() ? "" : ", " + source->year,
                                            source->address.empty() ? "" : ", " + source->address));
  }
  return section;
}

Json text_or_null(std::string_view text) { return text.empty() ? Json(nullptr) : Json(text); }

Json json_of(const ExplainedFigure& f) {
  const Source* source = find_source(f.figure.source);
  Json out{{"nutrient", traits_of(f.nutrient).key},
           {"unit", traits_of(f.nutrient).unit},
           {"per_kg_dry_matter", f.per_kg_dry_matter},
           {"per_kg_as_fed", f.per_kg_as_fed},
           {"origin", name_of(f.figure.origin)},
           {"source", text_or_null(f.figure.source)},
           {"source_title", source != nullptr ? Json(source->title) : Json(nullptr)},
           {"how", text_or_null(f.how)},
           {"taken_over_from", text_or_null(f.taken_over_from)},
           {"bag_holds_per_kg_as_fed", nullptr}};
  if (f.bag_holds) {
    out["bag_holds_per_kg_as_fed"] = {
        {"at_least", f.bag_holds->least},
        {"at_most", f.bag_holds->most ? Json(*f.bag_holds->most) : Json(nullptr)}};
  }
  return out;
}

Json json_of(const EnergyEstimate& e) {
  return {{"equation", traits_of(e.equation).name},
          {"source", traits_of(e.equation).source},
          {"mj_per_kg_dry_matter", e.energy ? Json(e.energy->value) : Json(nullptr)},
          {"arithmetic", e.energy ? Json(written(*e.energy, "MJ", 1)) : Json(nullptr)},
          {"lacking", keys_of(e.lacking)},
          {"unfit", text_or_null(e.unfit)}};
}

}  // namespace

Report explain_report(const ExplainedFeed& explained) {
  Report report;
  const Feed& feed = explained.feed;
  Report::Part part{
      fmt::format("{} ({}){}", explained.name, name_of(feed.group),
                  !feed.based_on.empty()        ? ", based on " + feed.based_on
                  : explained.name != feed.name ? ", which is " + feed.name + " of the table"
                                                : ""),
      true,
      {figures_of(explained), energies_worked_out(explained), energies_of(explained),
       bag_holds(explained), sources_of(explained)}};
  report.parts.push_back(std::move(part));
  return report;
}

std::string explain_json(const ExplainedFeed& explained) {
  const Feed& feed = explained.feed;
  Json figures = Json::array();
  for (const ExplainedFigure& f : explained.figures) figures.push_back(json_of(f));
  Json energies = Json::array();
  for (const EnergyEstimate& e : explained.energies) energies.push_back(json_of(e));
  const auto spread = explained.spread();
  const Json out{{"schema_version", schema_version},
                 {"command", "feeds"},
                 {"status", "found"},
                 {"explained",
                  {{"name", explained.name},
                   {"group", name_of(feed.group)},
                   {"based_on", text_or_null(feed.based_on)},
                   {"dry_matter_g_per_kg_as_fed", feed.dry_matter.value},
                   {"dry_matter_origin", name_of(feed.dry_matter.origin)},
                   {"dry_matter_source", text_or_null(feed.dry_matter.source)},
                   {"figures", std::move(figures)},
                   {"unknown", keys_of(explained.unknown)},
                   {"energy_equations", std::move(energies)},
                   {"energy_spread_mj_per_kg_dry_matter", spread ? Json(*spread) : Json(nullptr)},
                   {"energy_error_mj_per_kg_dry_matter", estimated_energy_error_mj},
                   {"note", feed.note}}}};
  return out.dump(2) + "\n";
}

}  // namespace haymow
