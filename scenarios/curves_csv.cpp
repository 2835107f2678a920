#include "scenarios/curves_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "scenarios/csv.h"

namespace haymow {
namespace {

struct Point {
  std::string horse;
  std::string curve;
  std::string of;
  double at = 0.0;
  std::string unit;
  Money cost;
  std::map<std::string, double> kg;  // put out
};

std::map<std::string, double> put_out(const std::vector<Offer>& offers,
                                      const std::vector<double>& amounts) {
  std::map<std::string, double> kg;
  for (std::size_t j = 0; j < offers.size(); ++j) {
    kg[offers[j].name] = offers[j].put_out(KgAsFed{std::max(0.0, amounts[j])}).in_kg();
  }
  return kg;
}

void add_prices(const OffersAnswer& answer, const std::string& money, std::vector<Point>& points) {
  for (const PricePath& path : answer.curves.prices) {
    const Pack& pack = path.asked.pack;
    const auto add = [&](Money at, Money cost, const PriceStep& step) {
      points.push_back({answer.answer.question.horse.name, "price", path.offers[path.offer].name,
                        pack.holds.in_kg() * at.in_units(), money + " per " + pack.words, cost,
                        put_out(path.offers, step.amounts)});
    };
    for (const PriceStep& step : path.steps) {
      add(step.from, step.cost_from, step);
      add(step.to, step.cost_to, step);
    }
  }
}

void add_limits(const OffersAnswer& answer, std::vector<Point>& points) {
  const std::vector<Offer>& offers = answer.answer.question.offers;
  const std::string& horse = answer.answer.question.horse.name;
  for (const LimitPath& path : answer.curves.limits) {
    for (const FrontierCorner& point : path.frontier.points) {
      points.push_back({horse, "limit", path.asked.name, point.bound, path.frontier.row.unit,
                        point.cost, put_out(offers, point.amounts)});
    }
    for (const BucketCount& count : path.counts) {
      if (!count.practical) continue;
      points.push_back({horse, "limit", path.asked.name, static_cast<double>(count.most), "feeds",
                        count.practical->ration.cost, put_out(offers, count.practical->amounts)});
    }
  }
}

// Nine figures: more than any scale shows, few enough that the last are no noise.
std::string csv_figure(double value) { return fmt::format("{:.9g}", value); }

}  // namespace

std::string curves_csv(const std::vector<OffersAnswer>& answers, const std::string& money) {
  std::vector<Point> points;
  for (const OffersAnswer& answer : answers) {
    if (!answer.curves.proven) continue;
    add_prices(answer, money, points);
    add_limits(answer, points);
  }
  std::map<std::string, double> feeds;  // in the order of the alphabet
  for (const Point& point : points) feeds.insert(point.kg.begin(), point.kg.end());
  std::string text = "horse,curve,of,at,unit,cost_per_day";
  for (const auto& [feed, unused] : feeds) text += "," + csv_field("kg " + feed);
  text += csv_line_end;
  for (const Point& p : points) {
    text += fmt::format("{},{},{},{},{},{}", csv_field(p.horse), p.curve, csv_field(p.of),
                        csv_figure(p.at), csv_field(p.unit), csv_figure(p.cost.in_units()));
    for (const auto& [feed, unused] : feeds) {
      const auto kg = p.kg.find(feed);
      text += "," + (kg == p.kg.end() ? std::string() : csv_figure(kg->second));
    }
    text += csv_line_end;
  }
  return text;
}

}  // namespace haymow
