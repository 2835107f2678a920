#include "model/runs_out.h"

#include <algorithm>
#include <stdexcept>

#include "model/season_supply.h"

namespace haymow {
namespace {

// A day that is short of less than this share of a day's feed is fed: the arithmetic's.
constexpr double enough = 1.0 - 1e-9;

void check(const SeasonQuestion& question, const std::vector<std::vector<double>>& put_out) {
  bool fits = put_out.size() == question.offers.size();
  for (const std::vector<double>& weeks : put_out) {
    fits = fits && weeks.size() == question.weeks.size() &&
           std::all_of(weeks.begin(), weeks.end(), [](double kg) { return kg >= 0.0; });
  }
  if (!fits) throw std::invalid_argument("what is put out is not one amount an offer and week");
}

std::optional<int> first_short_day(const SeasonQuestion& question, const std::vector<double>& a_day,
                                   double& left) {
  for (std::size_t w = 0; w < question.weeks.size(); ++w) {
    const SeasonWeek& week = question.weeks[w];
    for (int day = week.first_day; day < week.first_day + week.days; ++day) {
      if (left < a_day[w] * enough) return day;
      left = std::max(0.0, left - a_day[w]);
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<RunsOut> runs_out(const SeasonQuestion& question,
                              const std::vector<std::vector<double>>& put_out_a_day) {
  check(question, put_out_a_day);
  std::vector<RunsOut> out;
  for (std::size_t f = 0; f < question.offers.size(); ++f) {
    RunsOut feed;
    feed.offer = f;
    feed.stock_kg = opening_kg(question.offers[f]);
    if (feed.stock_kg <= 0.0) continue;
    for (std::size_t w = 0; w < question.weeks.size(); ++w) {
      feed.needed_kg += put_out_a_day[f][w] * question.weeks[w].days;
    }
    double left = feed.stock_kg;
    feed.day = first_short_day(question, put_out_a_day[f], left);
    const SeasonWeek& last = question.weeks.back();
    const auto& keeps = question.supply[f].keeps;
    const int good_days = keeps ? static_cast<int>(keeps->in_days()) : last.first_day + last.days;
    if (good_days < feed.day.value_or(last.first_day + last.days)) {
      feed.day = good_days;
      feed.too_old = true;
    }
    if (!feed.day) feed.left_kg = left;
    if (feed.day && !feed.too_old) feed.short_kg = feed.needed_kg - feed.stock_kg;
    out.push_back(feed);
  }
  return out;
}

}  // namespace haymow
