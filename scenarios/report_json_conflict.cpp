#include "scenarios/report_json_conflict.h"

namespace haymow {
namespace {

Json json_names(const std::vector<std::size_t>& chosen, const std::vector<Offer>& offers) {
  Json names = Json::array();
  for (const std::size_t offer : chosen) names.push_back(offers[offer].name);
  return names;
}

std::string_view kind_of(Mend::Kind kind) {
  switch (kind) {
    case Mend::Kind::keeper:
      return "change";
    case Mend::Kind::vet:
      return "ask the vet";
    case Mend::Kind::buy_more:
      return "have more";
    case Mend::Kind::add_feed:
      return "add a feed";
    case Mend::Kind::together:
      return "two changes";
  }
  return "";
}

Json implied_of(const Implied& implied, const std::vector<Offer>& offers) {
  return {{"value", number(implied.value)}, {"carried_by", json_names(implied.carried_by, offers)}};
}

}  // namespace

Json derivation_of(const NoRation& no, const std::vector<Offer>& offers) {
  if (!no.derivation) return nullptr;
  Json steps = Json::array();
  for (const DerivationStep& step : no.derivation->steps) {
    Json out{{"fact", row_of(step.fact)}, {"only", json_names(step.only, offers)}};
    out["least_of_them_kg_as_fed"] =
        step.least_of_them ? number(step.least_of_them->in_kg()) : Json(nullptr);
    out["implied"] = step.implied ? implied_of(*step.implied, offers) : Json(nullptr);
    steps.push_back(std::move(out));
  }
  return {{"steps", std::move(steps)},
          {"clash", row_of(no.derivation->clash)},
          {"only", json_names(no.derivation->only, offers)},
          {"best", implied_of(no.derivation->best, offers)},
          {"tells_all", no.derivation->tells_all}};
}

Json mend_of(const Mend& mend) {
  Json out{{"kind", kind_of(mend.kind)}};
  switch (mend.kind) {
    case Mend::Kind::add_feed:
      out["additions"] = Json::array();
      for (const Addition& addition : mend.additions) {
        out["additions"].push_back(
            {{"feed", addition.feed.name}, {"kg_as_fed", addition.amount.in_kg()}});
      }
      out["cost_per_day_without_additions"] = mend.cost.in_units();
      return out;
    case Mend::Kind::together:
      out["changes"] = Json::array();
      for (const Mend& part : mend.parts) {
        out["changes"].push_back({{"kind", kind_of(part.kind)},
                                  {"id", part.row->id},
                                  {"to", part.to},
                                  {"unit", part.unit}});
      }
      break;
    default:
      out["id"] = mend.row->id;
      out["to"] = mend.to;
      out["unit"] = mend.unit;
  }
  out["cost_per_day"] = mend.cost.in_units();
  return out;
}

}  // namespace haymow
