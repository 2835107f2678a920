// The feed-room sheet as one HTML file. What it looks like is in page/sheet.*.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "scenarios/page/embedded.h"
#include "scenarios/page/fill_template.h"
#include "scenarios/page/section_values.h"
#include "scenarios/sheet.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

// What fits a page on its side at a size of sheet.css. Measured with DejaVu Sans, one of
// the widest faces.
struct PrintSize {
  const char* name;
  std::size_t letters;  // a line across the page holds so many
  std::size_t lines;    // a page holds so many
};
constexpr PrintSize sizes[] = {{"large", 95, 22}, {"middling", 125, 29}};
constexpr const char* smallest_size = "compact";

Json each_of(const std::vector<std::string>& lines) {
  Json out = Json::array();
  for (const std::string& line : lines) out.push_back({{"words", line}});
  return out;
}

std::size_t lines_of(const std::vector<std::string>& cell, std::size_t letters) {
  std::size_t lines = 0;
  for (const std::string& words : cell) lines += (words.size() + letters - 1) / letters;
  return lines;
}

// Lines that a row takes when every column is as wide as the others.
std::size_t lines_of(const SheetRow& row, std::size_t letters) {
  std::size_t lines =
      std::max({row.horses.size(), lines_of(row.forage, letters), lines_of(row.mind, letters)});
  for (const auto& bucket : row.buckets) lines = std::max(lines, lines_of(bucket, letters));
  return lines;
}

bool fits(const Sheet& sheet, const PrintSize& size) {
  const std::size_t columns = sheet.meals.size() + 3;  // horse, forage, what to mind
  std::size_t lines = lines_of(sheet.soaking.sentences, size.letters);
  for (const SheetRow& row : sheet.rows) lines += lines_of(row, size.letters / columns);
  return lines <= size.lines;
}

// The largest size at which the first page is one page, as far as can be told.
std::string size_of(const Sheet& sheet) {
  for (const PrintSize& size : sizes) {
    if (fits(sheet, size)) return size.name;
  }
  return smallest_size;
}

Json row_values(const SheetRow& row, std::size_t meals) {
  Json buckets = Json::array();
  for (std::size_t m = 0; m < meals; ++m) {
    buckets.push_back({{"portions", each_of(m < row.buckets.size() ? row.buckets[m]
                                                                   : std::vector<std::string>{})}});
  }
  return {{"horses", each_of(row.horses)},
          {"forage", each_of(row.forage)},
          {"buckets", buckets},
          {"mind", each_of(row.mind)}};
}

}  // namespace

std::string write_sheet(const Sheet& sheet) {
  Json rows = Json::array();
  for (const SheetRow& row : sheet.rows) rows.push_back(row_values(row, sheet.meals.size()));
  Json list = Json::array();
  for (const ToBuy& item : sheet.to_buy) {
    list.push_back(
        {{"feed", item.feed}, {"amount", item.amount}, {"why", item.why}, {"price", item.money}});
  }
  const Json values = {{"title", sheet.title},
                       {"from", sheet.from.empty() ? Json(false) : Json(sheet.from)},
                       {"style", style_sheet()},
                       {"sheet_style", sheet_style()},
                       {"size", size_of(sheet)},
                       {"meals", each_of(sheet.meals)},
                       {"rows", rows},
                       {"not_fed", each_of(sheet.not_fed)},
                       {"soaking", sections_values({sheet.soaking}, sheet.title)},
                       {"stop", sheet.stop},
                       {"days", std::to_string(sheet.shopping_days)},
                       {"money", sheet.money},
                       {"has_list", !list.empty()},
                       {"to_buy", list},
                       {"changes", sections_values(sheet.changes, sheet.title)},
                       {"cautions", each_of(sheet.cautions)},
                       {"certificate", sheet.certificate}};
  return fill_template(sheet_template(), values, {{"section", section_template()}});
}

}  // namespace haymow
