#include "scenarios/what_if.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "model/rules.h"
#include "scenarios/curves.h"
#include "scenarios/wording.h"

namespace haymow {
namespace {

constexpr std::string_view forage_rule = "forage_share/min";
// Who asks for more forage than the rule: said wherever that limit is told.
constexpr std::string_view by_slider = "you, on this page";
constexpr double farthest = 3.0;     // times the price: as far as a slider goes
constexpr double fewest_steps = 20;  // up to the price, so that it can be moved a little
constexpr int points_of_curve = 9;

// The coarsest step that a price is a whole number of, so that the slider can stand there.
double step_for(double price) {
  for (double tens = 1000.0; tens > 0.0005; tens /= 10.0) {
    for (const double step : {5.0 * tens, 2.0 * tens, tens}) {
      const double steps = price / step;
      if (steps >= fewest_steps && std::abs(steps - std::round(steps)) < 1e-6) return step;
    }
  }
  return 0.001;
}

double within(double value, const Slider& slider) {
  if (!std::isfinite(value) || std::abs(value - slider.stands) < 0.5 * slider.step) {
    return slider.stands;
  }
  const double on_step =
      slider.least + slider.step * std::round((value - slider.least) / slider.step);
  const double to_read = std::round(1000.0 * on_step) / 1000.0;  // 4.6, not 4.6000000000000005
  return std::clamp(to_read, slider.least, slider.most);
}

std::string worded(double value, const Slider& slider) {
  return fmt::format("{:.{}f} {}", value, slider.decimals, slider.unit);
}

bool has_price_slider(const Offer& offer) {
  const bool hay = offer.feed.group == FeedGroup::hay || offer.feed.group == FeedGroup::haylage;
  return hay && offer.price_basis && offer.price_per_kg > Money{};
}

Slider price_slider(const Scenario& scenario, std::size_t at) {
  const Offer& offer = scenario.stable.offers[at];
  const Pack pack = pack_of(offer);
  Slider slider;
  slider.offer = at;
  slider.name = offer.name;
  slider.unit = fmt::format("{} per {}", scenario.stable.money, pack.words);
  slider.stands = offer.price_basis->money.in_units();
  if (pack.holds != offer.price_basis->amount) {
    slider.stands = (pack.holds.in_kg() * offer.price_per_kg).in_units();
  }
  slider.step = step_for(slider.stands);
  slider.decimals = slider.step < 0.01 ? 3 : 2;
  slider.most = slider.step * std::ceil(farthest * slider.stands / slider.step);
  slider.note = fmt::format("The file has {}.", worded(slider.stands, slider));
  return slider;
}

// What the rules ask of each horse that a plan is made for; of one without such a rule nothing.
std::vector<std::pair<std::string, double>> least_forage(const Scenario& scenario) {
  std::vector<std::pair<std::string, double>> least;
  for (const Horse& horse : scenario.stable.horses) {
    if (is_refused(horse)) continue;
    const auto limits = limits_for(horse);
    if (const Limit* limit = find_limit(limits, forage_rule)) {
      least.emplace_back(horse.name, limit->number);
    }
  }
  return least;
}

std::string forage_note(const std::vector<std::pair<std::string, double>>& least) {
  std::map<double, std::vector<std::string>> by_number;
  for (const auto& [name, number] : least) by_number[number].push_back(name);
  std::vector<std::string> told;
  for (const auto& [number, names] : by_number) {
    constexpr std::size_t most_named = 3;
    const std::string who =
        names.size() <= most_named ? listed(names) : fmt::format("{} horses", names.size());
    told.push_back(fmt::format("{:g} % for {}", number, who));
  }
  return fmt::format("The rules ask for at least {}: here nobody gets less.", listed(told));
}

std::optional<Slider> forage_slider(const Scenario& scenario) {
  const auto least = least_forage(scenario);
  if (least.empty()) return std::nullopt;
  Slider slider;
  slider.of = Slider::Of::forage_share;
  slider.name = "forage";
  slider.unit = std::string(find_rule(forage_rule)->unit);
  slider.stands = least.front().second;
  for (const auto& [name, number] : least) slider.stands = std::min(slider.stands, number);
  slider.least = slider.stands;
  slider.most = 100.0;
  slider.note = forage_note(least);
  return slider;
}

void set_price(Offer& offer, const Slider& slider) {
  const Pack pack = pack_of(offer);
  offer.price_basis->money = Money{slider.value};
  offer.price_basis->amount = pack.holds;
  offer.price_basis->written =
      fmt::format("{:.{}f} per {}", slider.value, slider.decimals, pack.words);
  offer.price_note = offer.price_basis->written;
  offer.price_per_kg = offer.price_basis->per_kg();
}

// Stricter than the rule or not at all, so no instruction is loosened by it.
void ask_for_forage(Horse& horse, double percent) {
  const auto limits = limits_for(horse);
  const Limit* limit = find_limit(limits, forage_rule);
  if (limit == nullptr || limit->number >= percent) return;
  horse.instructions.push_back({std::string(forage_rule), percent, std::string(by_slider), {}});
}

std::string told(const Slider& slider) {
  if (slider.of == Slider::Of::forage_share) {
    return "forage is at least " + worded(slider.value, slider);
  }
  return fmt::format("{} costs {}", slider.name, worded(slider.value, slider));
}

AskedChange change_of(const Slider& slider, const Scenario& scenario) {
  if (slider.of == Slider::Of::forage_share) {
    return {"every horse", "forage", "as the rules ask",
            "at least " + worded(slider.value, slider)};
  }
  const Pack pack = pack_of(scenario.stable.offers[slider.offer]);
  return {slider.name, "price", scenario.stable.offers[slider.offer].price_note,
          fmt::format("{:.{}f} per {}", slider.value, slider.decimals, pack.words)};
}

// Absent where a horse that a plan is made for has no ration.
std::optional<Money> cost_of(const std::vector<HorseAnswer>& answers) {
  Money sum;
  bool any = false;
  for (const HorseAnswer& answer : answers) {
    if (answer.status == AnswerStatus::refused) continue;
    const auto cost = exact_cost(answer);
    if (!cost) return std::nullopt;
    sum += *cost;
    any = true;
  }
  return any ? std::optional(sum) : std::nullopt;
}

SliderCurve curve_of(const Scenario& scenario, std::vector<Slider> sliders, std::size_t moving,
                     const std::vector<HorseAnswer>& near) {
  const Slider slider = sliders[moving];
  std::set<double> places{slider.stands, slider.value};
  for (int i = 0; i < points_of_curve; ++i) {
    const double share = static_cast<double>(i) / (points_of_curve - 1);
    places.insert(slider.least + share * (slider.most - slider.least));
  }
  RunOptions cheapest_alone;
  cheapest_alone.before = &near;
  cheapest_alone.brief = true;
  SliderCurve curve;
  for (const double at : places) {
    sliders[moving].value = at;
    const auto answers = run(with_sliders(scenario, sliders), cheapest_alone);
    const auto cost = cost_of(answers);
    if (!cost) break;  // more forage still, or another price, makes no ration either
    curve.points.push_back({at, *cost});
  }
  return curve;
}

}  // namespace

std::vector<Slider> sliders_for(const Scenario& scenario, const SlidersAsked& asked) {
  std::vector<Slider> sliders;
  const auto& offers = scenario.stable.offers;
  for (std::size_t f = 0; f < offers.size(); ++f) {
    if (!has_price_slider(offers[f])) continue;
    Slider slider = price_slider(scenario, f);
    const auto set = asked.prices.find(slider.name);
    slider.value = set == asked.prices.end() ? slider.stands : within(set->second, slider);
    sliders.push_back(std::move(slider));
  }
  if (auto slider = forage_slider(scenario)) {
    slider->value = within(asked.forage_share.value_or(slider->stands), *slider);
    sliders.push_back(std::move(*slider));
  }
  return sliders;
}

Scenario with_sliders(const Scenario& scenario, const std::vector<Slider>& sliders) {
  Scenario out = scenario;
  out.asked.clear();
  for (const Slider& slider : sliders) {
    if (!slider.moved()) continue;
    out.as_if += (out.as_if.empty() ? "" : " and ") + told(slider);
    if (slider.of == Slider::Of::price) {
      set_price(out.stable.offers[slider.offer], slider);
    } else {
      for (Horse& horse : out.stable.horses) ask_for_forage(horse, slider.value);
    }
  }
  return out;
}

WhatIf what_if(const Scenario& scenario, const SlidersAsked& asked) {
  WhatIf out;
  out.sliders = sliders_for(scenario, asked);
  out.scenario = with_sliders(scenario, out.sliders);
  out.answers = run(scenario);
  if (!out.scenario.as_if.empty()) {
    AskedQuestion question;
    question.what_if = out.scenario.as_if;
    question.for_every_horse = true;
    question.scenario = out.scenario;
    for (const Slider& slider : out.sliders) {
      if (slider.moved()) question.changes.push_back(change_of(slider, scenario));
    }
    Scenario asking = scenario;
    asking.asked = {std::move(question)};
    out.beside = std::move(ask(asking, out.answers).front());
    out.answers = out.beside->answers;
  }
  for (std::size_t s = 0; s < out.sliders.size(); ++s) {
    out.curves.push_back(curve_of(scenario, out.sliders, s, out.answers));
  }
  return out;
}

}  // namespace haymow
