#include "scenarios/page/section_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>

#include "scenarios/draw_ruler.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t longest_date = std::string_view("30 Nov 2026").size();

// A template takes an empty text for something, so where there are no words: nothing.
Json text_if_any(const std::string& words) { return words.empty() ? Json(false) : Json(words); }

// Every digit, so that what is drawn can be held against the JSON.
std::string in_full(double value) { return fmt::format("{}", value); }

// Words between backticks are what a person types.
Json pieces(const std::string& sentence) {
  Json all = Json::array();
  bool code = false;
  for (std::size_t at = 0; at <= sentence.size(); code = !code) {
    const std::size_t end = std::min(sentence.find('`', at), sentence.size());
    if (end > at) all.push_back({{"code", code}, {"words", sentence.substr(at, end - at)}});
    at = end + 1;
  }
  return all;
}

// Sentences that begin with a dash make a list.
Json prose(const std::vector<std::string>& sentences) {
  constexpr std::string_view dash = "- ";
  Json groups = Json::array();
  for (std::size_t at = 0; at < sentences.size();) {
    const bool listed = sentences[at].starts_with(dash);
    Json items = Json::array();
    for (; at < sentences.size() && sentences[at].starts_with(dash) == listed; ++at) {
      const std::string words = listed ? sentences[at].substr(dash.size()) : sentences[at];
      items.push_back({{"pieces", pieces(words)}});
    }
    groups.push_back({{"listed", listed}, {"items", items}});
  }
  return groups;
}

Json table_of(const Table& table, const std::string& label) {
  const auto is_number = [&](std::size_t c) {
    const bool words = table.last_is_prose && c + 1 == table.headings.size();
    return c >= table.left_columns && !words;
  };
  // A column of dates is not broken between day and month.
  std::vector<bool> is_short;
  for (std::size_t c = 0; c < table.headings.size(); ++c) {
    is_short.push_back(!is_number(c) &&
                       std::all_of(table.rows.begin(), table.rows.end(), [c](const auto& row) {
                         return c >= row.size() || row[c].size() <= longest_date;
                       }));
  }
  Json headings = Json::array();
  for (std::size_t c = 0; c < table.headings.size(); ++c) {
    headings.push_back({{"words", table.headings[c]}, {"number", is_number(c)}});
  }
  Json rows = Json::array();
  for (const auto& row : table.rows) {
    Json cells = Json::array();
    for (std::size_t c = 0; c < row.size(); ++c) {
      cells.push_back({{"words", row[c]},
                       {"heads", c == 0 && !row[c].empty()},
                       {"number", is_number(c)},
                       {"short", c < is_short.size() && is_short[c]}});
    }
    rows.push_back({{"cells", cells}});
  }
  return {{"label", label}, {"headings", headings}, {"rows", rows}};
}

Json rulers_of(const std::vector<Ruler>& rulers, const std::string& label) {
  Json each = Json::array();
  for (const Ruler& ruler : rulers) {
    const auto told = [&](const std::optional<double>& v) {
      return v ? fmt::format("{:.{}f} {}", *v, ruler.decimals, ruler.unit) : std::string();
    };
    each.push_back({{"name", ruler.name},
                    {"remark", text_if_any(ruler.remark)},
                    {"value", in_full(ruler.supplied)},
                    {"supplied", told(ruler.supplied)},
                    {"floor", told(ruler.floor)},
                    {"ceiling", told(ruler.ceiling)},
                    {"drawing", draw_ruler(ruler)}});
  }
  return {{"label", label}, {"each", each}};
}

Json bars_of(const std::vector<Bar>& bars) {
  double longest = 0.0;
  for (const Bar& bar : bars) longest = std::max(longest, bar.value);
  Json each = Json::array();
  for (const Bar& bar : bars) {
    const double share = longest > 0.0 ? std::max(0.0, bar.value) / longest : 0.0;
    each.push_back({{"name", bar.name},
                    {"amount", bar.amount},
                    {"width", fmt::format("{:.2f}", 100.0 * share)}});
  }
  return {{"each", each}};
}

// For plots.js. Inside a script element nothing may look like its end.
std::string json_of(const Plot& plot) {
  Json lines = Json::array();
  for (const Plot::Line& line : plot.lines) {
    Json points = Json::array();
    for (const Plot::Point& p : line.points) points.push_back(Json::array({p.x, p.y}));
    lines.push_back(
        {{"name", line.name}, {"steps", line.steps}, {"dots", line.dots}, {"points", points}});
  }
  Json marks = Json::array();
  for (const Plot::Mark& mark : plot.marks) marks.push_back({{"x", mark.x}, {"words", mark.words}});
  const Json out = {{"x", plot.x_words},   {"y", plot.y_words},           {"labels", plot.labels},
                    {"small", plot.small}, {"from_zero", plot.from_zero}, {"lines", lines},
                    {"marks", marks}};
  std::string dumped = out.dump(-1, ' ', false, Json::error_handler_t::replace);
  for (std::size_t at = dumped.find('<'); at != std::string::npos; at = dumped.find('<', at)) {
    dumped.replace(at, 1, "\\u003c");
  }
  return dumped;
}

// A row for every x that a line has a point at.
Json figures_of(const Plot& plot) {
  std::vector<double> places;
  for (const Plot::Line& line : plot.lines) {
    for (const Plot::Point& p : line.points) places.push_back(p.x);
  }
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  Json rows = Json::array();
  for (const double x : places) {
    Json cells = Json::array();
    for (const Plot::Line& line : plot.lines) {
      std::string words;
      for (const Plot::Point& p : line.points) {
        if (p.x == x) words = fmt::format("{:.4g}", p.y);
      }
      cells.push_back({{"words", words}});
    }
    const auto label = static_cast<std::size_t>(std::max(0.0, x));
    rows.push_back(
        {{"x", label < plot.labels.size() ? plot.labels[label] : fmt::format("{:.4g}", x)},
         {"cells", cells}});
  }
  return rows;
}

Json plots_of(const std::vector<Plot>& plots) {
  Json each = Json::array();
  for (const Plot& plot : plots) {
    Json names = Json::array();
    for (const Plot::Line& line : plot.lines) names.push_back({{"words", line.name}});
    each.push_back({{"title", plot.title},
                    {"x_words", plot.x_words},
                    {"y_words", plot.y_words},
                    {"note", text_if_any(plot.note)},
                    {"small", plot.small},
                    {"json", json_of(plot)},
                    {"names", names},
                    {"rows", figures_of(plot)}});
  }
  return {{"each", each}};
}

// `label` names what has no title, for those who hear the page.
Json section_of(const Section& section, const std::string& label) {
  const std::string& name = section.title.empty() ? label : section.title;
  const Pictures& pictures = section.pictures;
  const Json none = false;
  return {{"title", text_if_any(section.title)},
          {"table", section.table ? table_of(*section.table, name) : none},
          {"rulers", pictures.rulers.empty() ? none : rulers_of(pictures.rulers, name)},
          {"bars", pictures.bars.empty() ? none : bars_of(pictures.bars)},
          {"plots", pictures.plots.empty() ? none : plots_of(pictures.plots)},
          {"prose", prose(section.sentences)}};
}

}  // namespace

Json sections_values(const std::vector<Section>& sections, const std::string& label) {
  Json out = Json::array();
  for (const Section& section : sections) {
    if (!section.table && section.sentences.empty() && !section.pictures.any()) continue;
    out.push_back(section_of(section, label));
  }
  return out;
}

}  // namespace haymow
