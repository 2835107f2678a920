#include "model/season_enough.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace haymow {
namespace {

constexpr double rounding = 1e-9;    // 0.9 * 10 is not 9
constexpr double nothing_kg = 5e-4;  // less than a gram is the arithmetic's
constexpr double same_packs = 1e-6;  // 3.0000000001 bags are three

class Enough {
 public:
  Enough(const SeasonQuestion& as_told, const SeasonOfDraw& season,
         const std::vector<SeasonDraw>& draws, const SeasonClock& clock)
      : as_told_(as_told), season_(season), draws_(draws), clock_(clock) {}

  std::optional<EnoughOrder> order() {
    const auto found = static_cast<std::size_t>(
        std::count_if(draws_.begin(), draws_.end(),
                      [](const SeasonDraw& d) { return d.status == SeasonStatus::found; }));
    const auto wanted = static_cast<std::size_t>(
        std::ceil(most_winters * static_cast<double>(draws_.size()) - rounding));
    if (draws_.empty() || found < wanted) return std::nullopt;
    fed_.assign(draws_.size(), false);
    // With as much as every draw bought, each is fed.
    for (std::size_t count = wanted; count <= found; ++count) {
      EnoughOrder out;
      out.winters_each = static_cast<int>(count);
      for (std::size_t f = 0; f < as_told_.offers.size(); ++f) {
        out.as_told.push_back(enough_for(count, f));
      }
      const std::size_t fed = count_fed(out, wanted);
      if (fed < wanted) continue;
      out.winters_all = static_cast<int>(fed);
      return out;
    }
    return std::nullopt;
  }

 private:
  // In whole packs, and no less than is sold.
  [[nodiscard]] EnoughAmount enough_for(std::size_t count, std::size_t f) const {
    std::vector<double> bought;
    for (const SeasonDraw& draw : draws_) {
      if (draw.status == SeasonStatus::found) bought.push_back(draw.bought_as_told_kg[f]);
    }
    std::sort(bought.begin(), bought.end());
    double kg = bought[count - 1];
    if (kg < nothing_kg) return {};
    const FeedSupply& supply = as_told_.supply[f];
    if (supply.least_order) kg = std::max(kg, supply.least_order->in_kg());
    if (!supply.pack) return {kg, std::nullopt};
    const double packs = std::ceil(kg / supply.pack->in_kg() - same_packs);
    return {packs * supply.pack->in_kg(), static_cast<int>(packs)};
  }

  /// Draws that `order` is known to feed; `wanted` of them are as good as all.
  std::size_t count_fed(const EnoughOrder& order, std::size_t wanted) {
    for (std::size_t i = 0; i < draws_.size(); ++i) {
      fed_[i] = fed_[i] || buys_no_more(draws_[i], order);
    }
    const auto known = [&] {
      return static_cast<std::size_t>(std::count(fed_.begin(), fed_.end(), true));
    };
    for (std::size_t i = 0; i < draws_.size() && known() < wanted; ++i) {
      if (fed_[i] || draws_[i].status != SeasonStatus::found) continue;
      const double seconds = clock_.left_seconds();
      if (seconds <= 0.0) break;
      clock_.watch().at(SeasonStep::order, static_cast<int>(known()), static_cast<int>(wanted));
      fed_[i] = has_plan_with(draws_[i], order, seconds);
    }
    return known();
  }

  [[nodiscard]] static bool buys_no_more(const SeasonDraw& draw, const EnoughOrder& order) {
    if (draw.status != SeasonStatus::found) return false;
    for (std::size_t f = 0; f < order.as_told.size(); ++f) {
      const double most = order.as_told[f].kg;
      if (draw.bought_as_told_kg[f] > most * (1.0 + rounding) + nothing_kg) return false;
    }
    return true;
  }

  [[nodiscard]] bool has_plan_with(const SeasonDraw& draw, const EnoughOrder& order,
                                   double seconds) const {
    SeasonQuestion question = question_of_draw(season_, draw.drawn);
    for (std::size_t f = 0; f < order.as_told.size(); ++f) {
      double kg = order.as_told[f].kg;
      for (const DrawnFeed& feed : draw.drawn.feeds) {
        if (feed.offer == f) kg *= feed.bale;
      }
      auto& most = question.supply[f].can_be_had;
      most = most ? std::min(*most, KgAsFed{kg}) : KgAsFed{kg};
    }
    SeasonOptions options;
    options.time_limit_seconds = seconds;
    options.packs = Packs::any;
    options.watch.stop = clock_.watch().stop;
    return plan_season(question, options).status == SeasonStatus::found;
  }

  const SeasonQuestion& as_told_;
  const SeasonOfDraw& season_;
  const std::vector<SeasonDraw>& draws_;
  const SeasonClock& clock_;
  std::vector<bool> fed_;  // by the order looked at last, and so by every larger one
};

}  // namespace

std::optional<EnoughOrder> order_enough(const SeasonQuestion& as_told, const SeasonOfDraw& season,
                                        const std::vector<SeasonDraw>& draws,
                                        const SeasonClock& clock) {
  return Enough(as_told, season, draws, clock).order();
}

}  // namespace haymow
