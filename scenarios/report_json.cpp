// The answers as JSON, at full precision, for other programs. Keys only ever get
// added; docs/reference/report.schema.json says what they are.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "feeds/feed_table.h"
#include "scenarios/feed_costs.h"
#include "scenarios/report.h"
#include "scenarios/report_change.h"
#include "scenarios/report_json_ask.h"
#include "scenarios/report_json_conflict.h"
#include "scenarios/report_json_doubt.h"
#include "scenarios/report_json_exact.h"
#include "scenarios/report_json_grazing.h"
#include "scenarios/report_json_horse.h"
#include "scenarios/report_json_offers.h"
#include "scenarios/report_json_parts.h"
#include "scenarios/report_json_practical.h"
#include "scenarios/report_json_prices.h"
#include "scenarios/report_json_soaking.h"
#include "scenarios/report_json_stretch.h"
#include "scenarios/report_json_winter.h"
#include "scenarios/report_offers.h"
#include "scenarios/report_own_feeds.h"
#include "scenarios/report_stretch.h"
#include "scenarios/report_winter.h"

namespace haymow {
namespace {

Json nutrients_of(const Ration& ration) {
  Json nutrients = Json::array();
  for (const Supply& s : ration.supplies) {
    const NutrientTraits& t = traits_of(s.nutrient);
    nutrients.push_back({{"nutrient", t.key},
                         {"supplied", number(s.supplied)},
                         {"floor", number(s.floor)},
                         {"ceiling", number(s.ceiling)},
                         {"unit", t.unit},
                         {"known_share", s.known_share},
                         {"memory_share", s.memory_share},
                         {"forced", s.forced}});
  }
  return nutrients;
}

Json limits_of(const Explanation& explanation) {
  Json limits = Json::array();
  for (const HeldLimit& l : explanation.limits) {
    Json row = row_of(l.row);
    row["tightening_costs"] = number(l.tightening_costs);
    row["loosening_saves"] = number(l.loosening_saves);
    row["until"] = number(l.loosening_until);
    row["tightening_until"] = number(l.tightening_until);
    row["tightening_leaves_no_ration"] = !std::isfinite(l.tightening_costs);
    limits.push_back(std::move(row));
  }
  return limits;
}

Json worth_of(const HorseAnswer& answer) {
  Json worth = Json::array();
  for (const FeedWorth& w : answer.explanation->worth) {
    Json payments = Json::array();
    for (const Payment& p : w.payments) {
      payments.push_back(
          {{"id", answer.formulation.rows[p.row].id}, {"per_kg_eaten", number(p.per_kg)}});
    }
    const Offer& offer = answer.question.offers[w.offer];
    worth.push_back({{"feed", offer.name},
                     {"cost_per_kg_eaten", offer.cost_per_kg_eaten().in_units()},
                     {"payments", std::move(payments)}});
  }
  return worth;
}

Json unused_of(const HorseAnswer& answer) {
  Json unused = Json::array();
  for (const EntryPrice& e : answer.explanation->unused) {
    unused.push_back(
        {{"feed", answer.question.offers[e.offer].name},
         {"price_per_kg", e.now.in_units()},
         {"enters_at_per_kg", e.enters_at ? Json(e.enters_at->in_units()) : Json(nullptr)}});
  }
  return unused;
}

void add_found(Json& out, const HorseAnswer& answer) {
  const std::vector<Offer>& offers = answer.question.offers;
  out["meals"] = answer.question.meals;
  out["cost_per_day"] = answer.ration->cost.in_units();
  out["feeds"] = feeds_of(*answer.ration, offers);
  out["nutrients"] = nutrients_of(*answer.ration);
  out["limits"] = limits_of(*answer.explanation);
  out["certificate"] = certificate_of(answer.certificate);
  out["practical"] = nullptr;
  if (answer.practical) {
    const PracticalRation& p = *answer.practical;
    out["practical"] = {{"cost_per_day", p.ration.cost.in_units()},
                        {"feeds", feeds_of(p.ration, offers)},
                        {"nutrients", nutrients_of(p.ration)},
                        {"starch_per_meal_g", p.ration.starch_per_meal_g},
                        {"forage_share", p.ration.forage_share()},
                        {"within_gap", p.within_gap},
                        {"certificate",
                         {{"relative_gap", number(p.certificate.relative_gap)},
                          {"largest_violation", number(p.certificate.largest_violation)}}}};
    add_steps_and_meals(out["practical"], answer);
  }
  out["worth"] = worth_of(answer);
  out["unused"] = unused_of(answer);
  out["not_kept_but_not_forced"] =
      broken_of(broken_rows(answer.formulation.judged, answer.solution.columns));
  out["assumed"] = Json::array();
  for (const AssumedFigure& a : answer.formulation.assumed) {
    out["assumed"].push_back({{"feed", offers[a.offer].name},
                              {"nutrient", traits_of(a.nutrient).key},
                              {"per_kg_dry_matter", number(a.value)},
                              {"unit", traits_of(a.nutrient).unit}});
  }
  out["advice"] = advice_for(answer.question.horse);
  out["soaking"] = soaking_of(answer);
  if (answer.change) out["change_plan"] = change_json(*answer.change);
  out["doubts"] = doubts_of(answer);
}

void add_no_ration(Json& out, const HorseAnswer& answer) {
  const NoRation& no = *answer.no_ration;
  Json conflict = Json::array();
  for (const RowMeaning& row : no.conflict) conflict.push_back(row_of(row));
  Json mends = Json::array();
  for (const Mend& mend : no.mends) mends.push_back(mend_of(mend));
  out["conflict"] = std::move(conflict);
  out["derivation"] = derivation_of(no, answer.question.offers);
  out["conflict_is_minimal"] = no.conflict_is_minimal;
  out["proof_strength"] = number(no.proof_strength);
  out["nearest"] = {{"cost_per_day", no.nearest.cost.in_units()},
                    {"feeds", feeds_of(no.nearest, answer.question.offers)},
                    {"misses", broken_of(no.misses)}};
  out["mends"] = std::move(mends);
}

}  // namespace

Json answer_of(const HorseAnswer& answer) {
  Json out{{"name", answer.question.horse.name}, {"status", name_of(answer.status)}};
  if (answer.status == AnswerStatus::found) add_found(out, answer);
  if (answer.no_ration) add_no_ration(out, answer);
  if (answer.status == AnswerStatus::none) out["meals"] = answer.question.meals;
  if (answer.exact) out["exact"] = exact_of(answer);
  if (answer.promise) out["promise"] = promise_of(answer);
  add_grazing(out, answer);
  return out;
}

Json diagnostics_of(const std::vector<Diagnostic>& diagnostics) {
  Json out = Json::array();
  for (const Diagnostic& d : diagnostics) {
    out.push_back({{"file", d.position.file},
                   {"line", d.position.line},
                   {"column", d.position.column},
                   {"level", d.severity == Severity::error ? "error" : "warning"},
                   {"message", d.message},
                   {"note", d.note},
                   {"help", d.help}});
  }
  return out;
}

namespace {

Json head(std::string_view command, std::string_view status, const Scenario& scenario) {
  return {{"schema_version", schema_version},
          {"command", command},
          {"status", status},
          {"yard", scenario.stable.yard},
          {"money", scenario.stable.money},
          {"diagnostics", diagnostics_of(scenario.remarks)}};
}

// A horse that is a vet's business has no ration either.
std::string_view document_status(AnswerStatus worst) {
  return name_of(worst == AnswerStatus::refused ? AnswerStatus::none : worst);
}

// A name that is not UTF-8 is refused when the file is read, so this does not throw.
std::string text_of(const Json& json) { return json.dump(2) + "\n"; }

}  // namespace

std::string ration_json(const Scenario& scenario, const std::vector<HorseAnswer>& answers,
                        const std::vector<AskedAnswer>& questions) {
  AnswerStatus worst = AnswerStatus::found;
  for (const HorseAnswer& answer : answers) worst = worse(worst, answer.worst());
  Json out = head("ration", document_status(worst), scenario);
  out["own_feeds"] = own_feeds_json(scenario);
  out["horses"] = Json::array();
  for (const HorseAnswer& answer : answers) out["horses"].push_back(answer_of(answer));
  out["soaking_of_yard"] = yard_soaking_of(answers);
  if (!scenario.as_if.empty()) out["as_if"] = scenario.as_if;
  if (!questions.empty()) out["questions"] = questions_json(questions, answer_of);
  return text_of(out);
}

std::string offers_json(const Scenario& scenario, const std::vector<OffersAnswer>& answers,
                        const OffersOptions& choice) {
  AnswerStatus worst = AnswerStatus::found;
  for (const OffersAnswer& a : answers) worst = worse(worst, a.answer.status);
  Json out = head("offers", document_status(worst), scenario);
  out["choice"] = choice_json(choice);
  out["horses"] = Json::array();
  for (const OffersAnswer& a : answers) {
    Json horse{{"name", a.answer.question.horse.name},
               {"status", name_of(a.answer.status)},
               {"cheapest", answer_of(a.answer)}};
    add_offers(horse, a);
    out["horses"].push_back(std::move(horse));
  }
  return text_of(out);
}

std::string needs_json(const Scenario& scenario) {
  Json out = head("needs", "found", scenario);
  out["horses"] = Json::array();
  for (const Horse& horse : scenario.stable.horses) {
    const Requirements needs = nrc_2007(horse);
    Json rows = Json::array();
    for (const Requirement& need : needs.rows) {
      const NutrientTraits& t = traits_of(need.nutrient);
      rows.push_back({{"nutrient", t.key},
                      {"floor", number(need.floor)},
                      {"ceiling", number(need.ceiling)},
                      {"unit", t.unit},
                      {"equation", need.equation},
                      {"ceiling_equation", need.ceiling_equation},
                      {"source", need.source},
                      {"confidence", name_of(need.confidence)},
                      {"forced", need.forced}});
    }
    Json rules = Json::array();
    for (const Limit& limit : limits_for(horse)) {
      rules.push_back({{"id", limit.id},
                       {"number", limit.number},
                       {"unit", limit.unit},
                       {"sentence", limit.sentence},
                       {"strength", name_of(limit.strength)},
                       {"source", limit.source},
                       {"because", limit.because},
                       {"forced", limit.forced}});
    }
    out["horses"].push_back({{"name", horse.name},
                             {"bodyweight_kg", horse.bodyweight.in_kg()},
                             {"stage", describe(horse.stage)},
                             {"standard_intake_kg_dry_matter", needs.standard_intake.in_kg()},
                             {"needs", std::move(rows)},
                             {"rules", std::move(rules)}});
  }
  return text_of(out);
}

std::string audit_json(const Scenario& scenario, const std::vector<Audit>& audits) {
  const bool all =
      std::all_of(audits.begin(), audits.end(), [](const Audit& a) { return a.adequate(); });
  Json out = head("audit", all ? "found" : "none", scenario);
  out["horses"] = Json::array();
  for (const Audit& audit : audits) {
    out["horses"].push_back({{"name", audit.question.horse.name},
                             {"adequate", audit.adequate()},
                             {"cost_per_day", audit.ration.cost.in_units()},
                             {"feeds_without_price", audit.without_price},
                             {"feeds", feeds_of(audit.ration, audit.question.offers)},
                             {"nutrients", nutrients_of(audit.ration)},
                             {"misses", broken_of(audit.broken)},
                             {"not_kept_but_not_forced", broken_of(audit.doubtful)},
                             {"cheapest", answer_of(audit.best)}});
  }
  return text_of(out);
}

std::string winter_json(const Scenario& scenario, const WinterAnswer& answer) {
  Json out = head("winter", winter_status(answer), scenario);
  add_winter(out, scenario, answer);
  return text_of(out);
}

std::string stretch_json(const Scenario& scenario, const StretchAnswer& answer) {
  Json out = head("stretch", stretch_status(answer), scenario);
  add_stretch(out, scenario, answer);
  return text_of(out);
}

std::string feeds_json(const std::vector<const Feed*>& feeds) {
  Json out{{"schema_version", schema_version}, {"command", "feeds"}, {"status", "found"}};
  out["feeds"] = Json::array();
  for (const Feed* feed : feeds) {
    Json figures = Json::array();
    const auto add = [&](std::string_view key, std::string_view unit, const Figure& f) {
      figures.push_back({{"nutrient", key},
                         {"value", f.value},
                         {"unit", unit},
                         {"origin", name_of(f.origin)},
                         {"source", f.source}});
    };
    for (const Nutrient n : all_nutrients()) {
      if (feed->composition[n]) add(traits_of(n).key, traits_of(n).unit, *feed->composition[n]);
    }
    out["feeds"].push_back({{"name", feed->name},
                            {"also", feed->also},
                            {"group", name_of(feed->group)},
                            {"dry_matter_g_per_kg_as_fed", feed->dry_matter.value},
                            {"per_kg_dry_matter", std::move(figures)},
                            {"note", feed->note}});
  }
  return text_of(out);
}

std::string origins_json() {
  Json out{{"schema_version", schema_version}, {"command", "feeds"}, {"status", "found"}};
  out["origins"] = Json::array();
  for (const FigureOrigins& o : figure_origins()) {
    out["origins"].push_back({{"nutrient", traits_of(o.nutrient).key},
                              {"printed", o.printed},
                              {"calculated", o.calculated},
                              {"estimated", o.estimated},
                              {"from_memory", o.from_memory},
                              {"unknown", o.unknown}});
  }
  return text_of(out);
}

std::string prices_json(const Scenario& scenario) {
  Json out = head("feeds", "found", scenario);
  out["prices"] = prices_of(scenario);
  return text_of(out);
}

std::string diagnostics_json(std::string_view status, const std::vector<Diagnostic>& diagnostics) {
  return text_of({{"schema_version", schema_version},
                  {"status", status},
                  {"diagnostics", diagnostics_of(diagnostics)}});
}

}  // namespace haymow
