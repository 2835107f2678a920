#include <fmt/format.h>

#include <cmath>

#include "scenarios/report.h"
#include "scenarios/report_parts.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

// More than this many times the need is named by the audit as waste.
constexpr double much_more = 1.5;

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
}  // namespace

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
      if (audit.best.change && audit.best.change->plan.changes) {
        beside.sentences.emplace_back("How to change over to it in safe steps: `haymow ration`.");
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

}  // namespace haymow
