#include "scenarios/report_json_rows.h"

#include <cmath>

namespace haymow {
namespace {

std::string side_name(Side side) { return side == Side::lower ? "floor" : "ceiling"; }

}  // namespace

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json row_of(const RowMeaning& row) {
  Json out{{"id", row.id},
           {"side", side_name(row.side)},
           {"bound", number(row.bound)},
           {"unit", row.unit}};
  if (row.limit) {
    out["strength"] = name_of(row.limit->strength);
    out["sentence"] = row.limit->sentence;
    out["source"] = row.limit->source;
    if (!row.limit->because.empty()) out["because"] = row.limit->because;
  }
  return out;
}

Json broken_of(const std::vector<Broken>& broken) {
  Json out = Json::array();
  for (const Broken& b : broken) {
    Json row = row_of(b.row);
    row["value"] = number(b.value);
    out.push_back(std::move(row));
  }
  return out;
}

}  // namespace haymow
