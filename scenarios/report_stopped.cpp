#include "scenarios/report_stopped.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>

namespace haymow {
namespace {

void put_first(bool time_is_up, std::string what_is_known, Report& report) {
  Report::Part part;
  part.good = false;
  part.headline = fmt::format("{} before it was done: here is what was known by then",
                              time_is_up ? "The time was over" : "Stopped");
  part.sections.push_back({"", {}, {std::move(what_is_known)}});
  report.parts.insert(report.parts.begin(), std::move(part));
}

std::string plan_known(const SeasonPlan& plan) {
  if (plan.status == SeasonStatus::found) {
    return plan.in_whole_packs
               ? "The plan is certified. A plan with fewer packs left over was perhaps still to "
                 "be found."
               : "The plan is certified, with amounts of any size: orders in whole packs were "
                 "not worked out.";
  }
  if (plan.status == SeasonStatus::none) return "There is no plan; why was not worked out.";
  return plan.eaten.empty() ? "No plan was found by then."
                            : "The plan keeps every limit; that it is the cheapest was not proven.";
}

}  // namespace

void tell_stopped(const WinterAnswer& answer, Report& report) {
  if (!answer.stopped) return;
  const std::string_view no_file = answer.time_is_up ? "" : " No other file was written.";
  if (answer.chances) {
    put_first(answer.time_is_up,
              "How the winter may turn out was not worked out to its end; everything else is." +
                  std::string(no_file),
              report);
    return;
  }
  put_first(answer.time_is_up,
            plan_known(answer.plan) +
                " What a longer winter or dearer hay would cost was not worked out." +
                std::string(no_file),
            report);
}

void tell_stopped(const StretchAnswer& answer, Report& report) {
  if (!answer.stopped_in) return;
  const std::string missing = " What is not told below was not worked out.";
  const std::string known = answer.found() || answer.plan.status == SeasonStatus::none
                                ? plan_known(answer.plan)
                                : "No plan was proven by then.";
  put_first(answer.time_is_up, known + missing, report);
}

}  // namespace haymow
