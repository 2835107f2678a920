// What is known, rather than what was found: needs and feeds.
#include <fmt/format.h>

#include <algorithm>

#include "feeds/feed_table.h"
#include "scenarios/feed_costs.h"
#include "scenarios/report.h"
#include "scenarios/report_sources.h"
#include "scenarios/wording.h"

namespace haymow {

Report needs_report(const Scenario& scenario) {
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
        sources.sentences.push_back(fmt::format("{}: {}", key, source_in_words(*s)));
      }
    }
    part.sections.push_back(std::move(sources));
    report.parts.push_back(std::move(part));
  }
  return report;
}

Report origins_report() {
  Report report;
  report.title = fmt::format("How the figures of the {} feeds are known", feed_table().size());
  Section section{"", Table{}, {}};
  section.table->headings = {"nutrient",  "printed",     "calculated",
                             "estimated", "from memory", "unknown"};
  FigureOrigins sum;
  for (const FigureOrigins& o : figure_origins()) {
    section.table->rows.push_back({std::string(traits_of(o.nutrient).name),
                                   std::to_string(o.printed), std::to_string(o.calculated),
                                   std::to_string(o.estimated), std::to_string(o.from_memory),
                                   std::to_string(o.unknown)});
    sum.printed += o.printed;
    sum.calculated += o.calculated;
    sum.estimated += o.estimated;
    sum.from_memory += o.from_memory;
    sum.unknown += o.unknown;
  }
  section.table->rows.push_back({"in all", std::to_string(sum.printed),
                                 std::to_string(sum.calculated), std::to_string(sum.estimated),
                                 std::to_string(sum.from_memory), std::to_string(sum.unknown)});
  section.sentences.push_back(fmt::format(
      "Of {} known figures {:.0f} % are from memory: remembered from a source, not looked up. "
      "Unknown is not zero.",
      sum.known(), 100.0 * sum.from_memory / std::max(sum.known(), 1)));
  report.parts.push_back({"", true, {std::move(section)}});
  return report;
}

}  // namespace haymow
