#include "scenarios/page_answer.h"

#include <algorithm>

#include "feeds/diagnostic.h"
#include "scenarios/page_edit.h"
#include "scenarios/page_what_if.h"
#include "scenarios/report.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

Json told(const std::vector<Diagnostic>& diagnostics) {
  Json out = Json::array();
  for (const Diagnostic& d : diagnostics) {
    out.push_back({{"line", d.position.line},
                   {"column", d.position.column},
                   {"width", d.width},
                   {"message", d.message},
                   {"note", d.note},
                   {"help", d.help}});
  }
  return out;
}

Json offered(const std::vector<PageView>& views) {
  Json out = Json::array();
  for (const PageView view : views) {
    out.push_back(
        {{"name", name_of(view)}, {"words", words_for(view)}, {"waits", takes_its_time(view)}});
  }
  return out;
}

void put(const ViewMade& made, Json& out) {
  out["good"] = made.good;
  out["told"] = made.told;
  out["stopped"] = made.stopped;
  out["answer"] = write_html_part(made.report);
}

void put_answer(const Scenario& scenario, PageView view, const Watch& watch, Json& out) {
  put(make_view(view, scenario, watch), out);
}

void put_what_if(const Scenario& scenario, const SlidersAsked& sliders, Json& out) {
  const WhatIf answer = what_if(scenario, sliders);
  put(ration_view(answer.scenario, answer.answers), out);
  out["what_if"] = what_if_told(scenario, answer);
}

PageView possible(PageView view, const std::vector<PageView>& views) {
  return std::find(views.begin(), views.end(), view) == views.end() ? PageView::ration : view;
}

}  // namespace

Json look_at(const std::string& text, const std::string& file, PageView view,
             const std::optional<SlidersAsked>& sliders) {
  Json out = {{"entries", entries_of_file(text)},
              {"errors", Json::array()},
              {"assumed", Json::array()},
              {"views", nullptr},
              {"view", name_of(view)},
              {"waits", false},
              {"good", false},
              {"told", ""},
              {"answer", nullptr}};
  try {
    const Scenario scenario = read_scenario(text, file);
    const std::vector<PageView> views = views_of(scenario);
    view = possible(view, views);
    out["assumed"] = told(scenario.remarks);
    out["views"] = offered(views);
    out["view"] = name_of(view);
    out["waits"] = takes_its_time(view);
    if (sliders && view == PageView::ration) {
      put_what_if(scenario, *sliders, out);
    } else if (!takes_its_time(view)) {
      put_answer(scenario, view, {}, out);
    }
  } catch (const InputError& error) {
    out["errors"] = told(error.diagnostics());
  }
  return out;
}

Json worked_out(const TaskAsked& asked, const Watch& watch) {
  Json out = {{"errors", Json::array()}, {"good", false}, {"told", ""}, {"answer", nullptr}};
  try {
    const Scenario scenario = read_scenario(asked.text, asked.file);
    const auto view = page_view_named(asked.view).value_or(PageView::ration);
    put_answer(scenario, possible(view, views_of(scenario)), watch, out);
  } catch (const InputError& error) {
    out["errors"] = told(error.diagnostics());
  }
  return out;
}

}  // namespace haymow
