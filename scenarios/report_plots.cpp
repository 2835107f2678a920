#include "scenarios/report_plots.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "scenarios/report_season.h"
#include "scenarios/report_winter.h"
#include "scenarios/scenario_dates.h"

namespace haymow {
namespace {

constexpr double invisible_kg = 0.005;

// Kg put out a day of one offer.
double put_out_kg(const Offer& offer, double eaten_kg) {
  return offer.put_out(KgAsFed{std::max(0.0, eaten_kg)}).in_kg();
}

// The offers whose amount moves most over the steps, at most so many, in their order.
std::vector<std::size_t> feeds_that_move(const PricePath& path) {
  std::vector<double> swing(path.offers.size(), 0.0);
  for (std::size_t j = 0; j < path.offers.size(); ++j) {
    double least = path.steps.front().amounts[j];
    double most = least;
    for (const PriceStep& step : path.steps) {
      least = std::min(least, step.amounts[j]);
      most = std::max(most, step.amounts[j]);
    }
    swing[j] = put_out_kg(path.offers[j], most - least);
  }
  std::vector<std::size_t> order(path.offers.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return swing[a] > swing[b]; });
  order.resize(std::min(order.size(), most_lines_told_apart));
  std::erase_if(order, [&](std::size_t j) { return swing[j] < invisible_kg; });
  std::sort(order.begin(), order.end());
  return order;
}

}  // namespace

std::vector<Plot> price_plots(const PricePath& path, const Wording& words) {
  if (path.steps.empty()) return {};
  const std::vector<std::size_t> feeds = feeds_that_move(path);
  if (feeds.empty()) return {};
  const Offer& offer = path.offers[path.offer];
  const double pack_kg = path.asked.pack.holds.in_kg();
  const auto at = [&](Money per_kg) { return pack_kg * per_kg.in_units(); };

  Plot amounts;
  amounts.title = "What is fed as the price of " + offer.name + " moves";
  amounts.x_words = fmt::format("{} per {}", words.code(), path.asked.pack.words);
  amounts.y_words = "kg put out a day";
  Plot cost;
  cost.title = "What the ration costs as the price of " + offer.name + " moves";
  cost.x_words = amounts.x_words;
  cost.y_words = fmt::format("{} a day", words.code());
  cost.from_zero = false;
  for (const std::size_t j : feeds) {
    Plot::Line line{path.offers[j].name, {}, true, false};
    for (const PriceStep& step : path.steps) {
      line.points.push_back({at(step.from), put_out_kg(path.offers[j], step.amounts[j])});
      line.points.push_back({at(step.to), put_out_kg(path.offers[j], step.amounts[j])});
    }
    amounts.lines.push_back(std::move(line));
  }
  Plot::Line line{"the whole ration", {}, false, false};
  for (const PriceStep& step : path.steps) {
    line.points.push_back({at(step.from), step.cost_from.in_units()});
    line.points.push_back({at(step.to), step.cost_to.in_units()});
  }
  cost.lines.push_back(std::move(line));
  if (!path.asked.supposed) {
    const Plot::Mark now{at(offer.price_per_kg), "its price now"};
    amounts.marks.push_back(now);
    cost.marks.push_back(now);
  }
  return {std::move(amounts), std::move(cost)};
}

std::vector<Plot> limit_plots(const LimitPath& path, const Wording& words) {
  if (path.frontier.points.size() < 2) return {};
  Plot plot;
  plot.title = fmt::format("What the ration costs as the limit on {} moves", path.asked.name);
  plot.x_words = fmt::format("{}, {}", path.asked.name, path.frontier.row.unit);
  plot.y_words = fmt::format("{} a day", words.code());
  plot.from_zero = false;
  Plot::Line line{"the cheapest ration", {}, false, false};
  for (const FrontierCorner& point : path.frontier.points) {
    line.points.push_back({point.bound, point.cost.in_units()});
  }
  plot.lines.push_back(std::move(line));
  if (path.limit && path.limit->in_force) {
    plot.marks.push_back({path.limit->row.bound, "the limit now"});
  }
  if (path.limit && path.limit->now) plot.marks.push_back({*path.limit->now, "the ration"});
  if (path.need) plot.marks.push_back({*path.need, "the need"});
  return {std::move(plot)};
}

std::vector<Plot> stock_plots(const Scenario& scenario, const SeasonQuestion& question,
                              const SeasonPlan& plan) {
  std::vector<Plot> plots;
  for (std::size_t f = 0; f < plan.stock.size(); ++f) {
    const auto& stock = plan.stock[f];
    const auto told = stock_told(stock);
    if (!told) continue;
    Plot plot;
    plot.title = question.offers[f].name;
    plot.x_words = "week from";
    plot.y_words = "kg in store";
    plot.small = true;
    Plot::Line left{"left at the end of the week", {}, false, false};
    Plot::Line comes{"comes in the week", {}, false, true};
    for (std::size_t w = 0; w < stock.size(); ++w) {
      plot.labels.push_back(short_text(days_after(*scenario.from, question.weeks[w].first_day)));
      left.points.push_back({static_cast<double>(w), stock[w].closing});
      if (stock[w].bought > invisible_kg) {
        comes.points.push_back({static_cast<double>(w), stock[w].bought});
      }
    }
    plot.lines.push_back(std::move(left));
    if (!comes.points.empty()) {
      plot.note = "triangles: what comes in a week";
      plot.lines.push_back(std::move(comes));
    }
    if (told->runs_out_in) {
      plot.marks.push_back({static_cast<double>(*told->runs_out_in), "runs out"});
    }
    plots.push_back(std::move(plot));
  }
  return plots;
}

}  // namespace haymow
