#include "scenarios/page_what_if.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "scenarios/curves.h"
#include "scenarios/page/embedded.h"
#include "scenarios/page/fill_template.h"
#include "scenarios/page/section_values.h"
#include "scenarios/report_ask.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

// No coin is as small.
constexpr double least_money_told = 0.005;

std::string words_for(const Slider& slider) {
  return slider.of == Slider::Of::price ? "Price of " + slider.name
                                        : std::string("Forage, at least");
}

// Where the price of an offer stands in the file: forage and market are lists there.
Json path_of(const Scenario& file, std::size_t offer) {
  const auto& offers = file.stable.offers;
  const auto end = offers.begin() + static_cast<std::ptrdiff_t>(offer);
  const bool own = offers[offer].own;
  const auto place =
      std::count_if(offers.begin(), end, [own](const Offer& o) { return o.own == own; });
  return Json::array({own ? "forage" : "market", static_cast<std::size_t>(place), "price"});
}

Json slider_told(const Scenario& file, const Slider& slider) {
  const bool price = slider.of == Slider::Of::price;
  return {{"of", price ? "price" : "forage_share"},
          {"name", slider.name},
          {"words", words_for(slider)},
          {"unit", slider.unit},
          {"decimals", slider.decimals},
          {"least", slider.least},
          {"most", slider.most},
          {"step", slider.step},
          {"stands", slider.stands},
          {"value", slider.value},
          {"note", slider.note},
          {"path", price ? path_of(file, slider.offer) : Json(nullptr)},
          {"pack", price ? Json(pack_of(file.stable.offers[slider.offer]).words) : Json(nullptr)}};
}

std::string difference_told(const YardCost& cost, const Wording& words) {
  if (!cost.after) return "not every horse has a ration";
  const std::string now = words.money_with_code(cost.after->in_units()) + " a day";
  if (!cost.before) return now;
  const double more = (*cost.after - *cost.before).in_units();
  if (std::abs(more) < least_money_told) return now + ", as much as as the file stands";
  return fmt::format("{}, {} {} than as the file stands", now, Wording::money(std::abs(more)),
                     more > 0.0 ? "more" : "less");
}

std::string told(const WhatIf& answer, const Wording& words) {
  if (!answer.beside) return "";
  return fmt::format("If {}: {}. The file is not changed.", answer.scenario.as_if,
                     difference_told(yard_cost(*answer.beside), words));
}

Plot plot_of(const Slider& slider, const SliderCurve& curve, const Scenario& scenario) {
  const bool price = slider.of == Slider::Of::price;
  Plot plot;
  plot.title = price ? fmt::format("What a day costs as the price of {} moves", slider.name)
                     : std::string("What a day costs as more forage is asked for");
  plot.x_words = price ? slider.unit : "forage at least, " + slider.unit;
  plot.y_words = fmt::format("{} a day{}", scenario.stable.money,
                             scenario.stable.horses.size() > 1 ? ", all horses" : "");
  plot.from_zero = false;
  plot.small = true;
  Plot::Line line{"the cheapest rations", {}, false, false};
  for (const SliderCurve::Point& p : curve.points) line.points.push_back({p.at, p.cost.in_units()});
  plot.lines.push_back(std::move(line));
  plot.marks.push_back({slider.stands, price ? "in the file" : "the rules"});
  if (slider.moved()) plot.marks.push_back({slider.value, "the slider"});
  plot.note = fmt::format("to the gram; {} places worked out, each certified", curve.points.size());
  return plot;
}

Section plots_section(const WhatIf& answer) {
  Section section;
  for (std::size_t s = 0; s < answer.sliders.size(); ++s) {
    if (answer.curves[s].points.size() < 2) continue;
    section.pictures.plots.push_back(plot_of(answer.sliders[s], answer.curves[s], answer.scenario));
  }
  return section;
}

std::vector<Section> sections_of(const Scenario& file, const WhatIf& answer, const Wording& words) {
  std::vector<Section> sections{plots_section(answer)};
  if (!answer.beside) return sections;
  std::vector<Section> asked = asked_sections(file, {*answer.beside}, words);
  // The first is the table of many questions: of one, the line above says it all.
  sections.insert(sections.end(), std::make_move_iterator(asked.begin() + 1),
                  std::make_move_iterator(asked.end()));
  return sections;
}

}  // namespace

Json what_if_told(const Scenario& file, const WhatIf& answer) {
  const Wording words(Units::metric, file.stable.money);
  Json sliders = Json::array();
  for (const Slider& slider : answer.sliders) {
    sliders.push_back(slider_told(file, slider));
  }
  const Json values = {{"sections", sections_values(sections_of(file, answer, words), "What if")}};
  return {{"sliders", sliders},
          {"told", told(answer, words)},
          {"shown", fill_template("{{#sections}}{{>section}}{{/sections}}", values,
                                  {{"section", section_template()}})}};
}

}  // namespace haymow
