// A report as one HTML page. What it looks like is in page/; here is what goes where.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "scenarios/page/embedded.h"
#include "scenarios/page/fill_template.h"
#include "scenarios/page/section_values.h"
#include "scenarios/report.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

bool has_plots(const std::vector<Section>& sections) {
  return std::any_of(sections.begin(), sections.end(),
                     [](const Section& s) { return !s.pictures.plots.empty(); });
}

bool has_plots(const Report& report) {
  return has_plots(report.closing) ||
         std::any_of(report.parts.begin(), report.parts.end(),
                     [](const Report::Part& part) { return has_plots(part.sections); });
}

// "Juniper" of "Juniper: 9.8 kg our hay": what a list of parts shows.
std::string short_name(const std::string& headline) {
  return headline.substr(0, headline.find(": "));
}

std::string anchor_of(std::size_t part) { return fmt::format("part-{}", part + 1); }

Json contents_of(const Report& report) {
  if (report.parts.size() < 2) return false;
  Json entries = Json::array();
  for (std::size_t p = 0; p < report.parts.size(); ++p) {
    if (report.parts[p].headline.empty()) continue;
    entries.push_back({{"anchor", anchor_of(p)}, {"words", short_name(report.parts[p].headline)}});
  }
  return {{"entries", entries}};
}

// What stands for itself needs no title: its headline is one.
bool is_titled(const Report& report) { return !report.title.empty() || report.parts.empty(); }

std::string title_of(const Report& report) {
  return is_titled(report) ? report.title : report.parts.front().headline;
}

Json values_of(const Report& report) {
  Json parts = Json::array();
  for (std::size_t p = 0; p < report.parts.size(); ++p) {
    const Report::Part& part = report.parts[p];
    const bool headed = is_titled(report) && !part.headline.empty();
    parts.push_back({{"anchor", anchor_of(p)},
                     {"bad", !part.good},
                     {"headline", headed ? Json(part.headline) : Json(false)},
                     {"sections", sections_values(part.sections, short_name(part.headline))}});
  }
  return {{"title", title_of(report)},
          {"contents", contents_of(report)},
          {"parts", parts},
          {"closing", sections_values(report.closing, report.title)}};
}

}  // namespace

std::string write_html(const Report& report) {
  const bool plots = has_plots(report);
  Json values = values_of(report);
  values["style"] = style_sheet();
  values["has_plots"] = plots;
  values["chart_script"] = plots ? chart_script() : "";
  values["plots_script"] = plots_script();
  return fill_template(report_template(), values,
                       {{"body", parts_template()}, {"section", section_template()}});
}

std::string write_html_part(const Report& report) {
  const std::string whole = "<h2>{{title}}</h2>\n" + std::string(parts_template());
  return fill_template(whole, values_of(report), {{"section", section_template()}});
}

}  // namespace haymow
