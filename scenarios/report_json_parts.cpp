#include "scenarios/report_json_parts.h"

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

Json keys_of(const std::vector<Nutrient>& nutrients) {
  Json keys = Json::array();
  for (const Nutrient n : nutrients) keys.push_back(traits_of(n).key);
  return keys;
}

Json feeds_of(const Ration& ration, const std::vector<Offer>& offers) {
  Json feeds = Json::array();
  for (const Portion& p : ration.portions) {
    feeds.push_back({{"feed", offers[p.offer].name},
                     {"kg_as_fed", p.eaten.in_kg()},
                     {"kg_put_out", p.put_out.in_kg()},
                     {"kg_dry_matter", p.dry_matter.in_kg()},
                     {"cost_per_day", p.cost.in_units()}});
  }
  return feeds;
}

Json certificate_of(const Certificate& certificate) {
  return {{"relative_gap", number(certificate.relative_gap)},
          {"largest_violation", number(certificate.largest_violation)},
          {"largest_dual_violation", number(certificate.largest_dual_violation)},
          {"lower_bound", number(certificate.lower_bound)}};
}

}  // namespace haymow
