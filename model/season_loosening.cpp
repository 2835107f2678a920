#include "model/season_loosening.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "model/loosen.h"
#include "model/season_parts.h"
#include "model/season_program.h"
#include "model/season_relaxation.h"

namespace haymow {
namespace {

// The least number is looked for to a hundredth of itself: rounded_outward adds as much.
constexpr double near_enough = 0.01;
constexpr int most_halvings = 12;

bool may_move(const RowMeaning& row) {
  if (row.family == RowFamily::wish) return true;
  return row.limit && row.limit->strength == Strength::guide;
}

// A guide's own number, in its unit; of a wish the amount.
double number_of(const RowMeaning& row) {
  return row.limit && row.limit->number != 0.0 ? row.limit->number : row.bound;
}

bool is_looser(const RowMeaning& row, double to) {
  return row.side == Side::lower ? to < number_of(row) : to > number_of(row);
}

RationQuestion without_limit(RationQuestion ration, const RowMeaning& row) {
  if (row.limit) {
    std::erase_if(ration.limits, [&](const Limit& limit) { return limit.id == row.limit->id; });
  } else {
    std::erase_if(ration.horse.wishes, [&](const Wish& wish) {
      return wish.what == row.wish && wish.kind == row.wish_kind;
    });
  }
  return ration;
}

/// The limits that may move, and which ration has them where.
class Limits {
 public:
  explicit Limits(const SeasonQuestion& question) : question_(question) {
    for (const RationQuestion& ration : question.rations) {
      rows_.push_back(formulate(ration).rows);
    }
    for (const SeasonHorse& horse : question.horses) {
      for (const std::size_t r : horse.ration_of_week) {
        for (const RowMeaning& row : rows_[r]) {
          if (may_move(row) && std::find(ids_.begin(), ids_.end(), row.id) == ids_.end()) {
            ids_.push_back(row.id);
          }
        }
      }
    }
  }

  [[nodiscard]] const std::vector<std::string>& ids() const { return ids_; }

  [[nodiscard]] const RowMeaning* row(std::size_t horse, std::size_t week,
                                      const std::string& id) const {
    return row_of(question_.horses[horse].ration_of_week[week], id);
  }
  [[nodiscard]] const RowMeaning* row_of(std::size_t ration, const std::string& id) const {
    for (const RowMeaning& row : rows_[ration]) {
      if (row.id == id && may_move(row)) return &row;
    }
    return nullptr;
  }

  /// Without the limits called so, for every horse.
  [[nodiscard]] SeasonQuestion without(const std::vector<std::string>& ids) const {
    SeasonQuestion out = question_;
    for (std::size_t r = 0; r < out.rations.size(); ++r) {
      for (const std::string& id : ids) {
        if (const RowMeaning* row = row_of(r, id)) {
          out.rations[r] = without_limit(std::move(out.rations[r]), *row);
        }
      }
    }
    return out;
  }

  [[nodiscard]] SeasonQuestion at(const std::string& id, double to, const Moves& moves) const {
    SeasonQuestion out = question_;
    std::map<std::size_t, std::size_t> moved;
    for (std::size_t h = 0; h < out.horses.size(); ++h) {
      for (std::size_t w = 0; w < out.weeks.size(); ++w) {
        const std::size_t r = question_.horses[h].ration_of_week[w];
        const RowMeaning* row = row_of(r, id);
        if (row == nullptr || !is_looser(*row, to) || !moves(h, w)) continue;
        if (!moved.contains(r)) {
          moved[r] = out.rations.size();
          out.rations.push_back(with_bound(question_.rations[r], *row, to * per_number(*row)));
        }
        out.horses[h].ration_of_week[w] = moved[r];
      }
    }
    return out;
  }

 private:
  const SeasonQuestion& question_;
  std::vector<std::vector<RowMeaning>> rows_;  // of each ration
  std::vector<std::string> ids_;               // in the order in which they come up
};

class PlanLoosening {
 public:
  PlanLoosening(const SeasonQuestion& question, const SeasonOptions& options)
      : question_(question), clock_(options), limits_(question) {}

  std::vector<LooserLimit> found() {
    std::vector<LooserLimit> out;
    // Where all of them together do not help, none does alone.
    if (limits_.ids().empty() || !planned(limits_.without(limits_.ids()))) return out;
    for (const std::string& id : limits_.ids()) {
      if (auto looser = loosened(id)) out.push_back(std::move(*looser));
    }
    std::stable_sort(out.begin(), out.end(),
                     [](const LooserLimit& a, const LooserLimit& b) { return a.cost < b.cost; });
    return out;
  }
  [[nodiscard]] bool cut_short() const { return cut_short_; }

 private:
  std::optional<SeasonPlan> planned(const SeasonQuestion& question) {
    SeasonOptions options;
    options.time_limit_seconds = clock_.left_seconds();
    options.packs = Packs::any;
    SeasonPlan plan = plan_season(question, options);
    cut_short_ = cut_short_ || plan.status == SeasonStatus::limit_reached;
    if (plan.status != SeasonStatus::found) return std::nullopt;
    return plan;
  }

  // How far the plan is from the limit, at its furthest, in the limit's own number.
  [[nodiscard]] std::optional<double> furthest(const SeasonPlan& plan, const std::string& id,
                                               Side side) const {
    std::optional<double> worst;
    for (std::size_t h = 0; h < question_.horses.size(); ++h) {
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        const RowMeaning* row = limits_.row(h, w, id);
        if (row == nullptr) continue;
        const auto value = row->value(plan.eaten[h][w]);
        if (!value) continue;
        const double number = *value / per_number(*row);
        const bool further = !worst || (side == Side::lower ? number < *worst : number > *worst);
        if (further) worst = number;
      }
    }
    return worst;
  }

  std::optional<LooserLimit> loosened(const std::string& id) {
    const auto free = planned(limits_.without({id}));
    if (!free) return std::nullopt;
    const Side side = first_row(id)->side;
    const auto enough = furthest(*free, id, side);
    if (!enough) return std::nullopt;
    const Moves everywhere = [](std::size_t, std::size_t) { return true; };
    // At `held` there is no plan, at `reached` there is one.
    double held = number_of(*first_row(id));
    double reached = *enough;
    for (int i = 0; i < most_halvings; ++i) {
      if (std::abs(reached - held) <= near_enough * std::abs(reached)) break;
      const double middle = (held + reached) / 2.0;
      const auto plan = planned(limits_.at(id, middle, everywhere));
      if (cut_short_) return std::nullopt;
      (plan ? reached : held) = middle;
    }
    return written(id, rounded_outward(reached, side));
  }

  // The limit moved only for whom, and when, the plan needs it.
  std::optional<LooserLimit> written(const std::string& id, double to) {
    const Moves everywhere = [](std::size_t, std::size_t) { return true; };
    const auto wide = planned(limits_.at(id, to, everywhere));
    if (!wide) return std::nullopt;
    const Moves needed = [&](std::size_t h, std::size_t w) {
      const RowMeaning* row = limits_.row(h, w, id);
      return row != nullptr && !row->kept(wide->eaten[h][w]);
    };
    LooserLimit out;
    for (std::size_t h = 0; h < question_.horses.size(); ++h) {
      std::optional<LooserFor> where;
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        if (!needed(h, w)) continue;
        if (!where) where = LooserFor{h, w, w};
        where->last_week = w;
      }
      if (where) out.where.push_back(*where);
    }
    if (out.where.empty()) return std::nullopt;
    const auto plan = planned(limits_.at(id, to, needed));
    if (!plan) return std::nullopt;
    out.row = *limits_.row(out.where.front().horse, out.where.front().first_week, id);
    out.from = number_of(out.row);
    out.to = to;
    out.unit = out.row.limit ? out.row.limit->unit : out.row.unit;
    out.cost = plan->lower_bound;
    return out;
  }

  [[nodiscard]] const RowMeaning* first_row(const std::string& id) const {
    for (std::size_t h = 0; h < question_.horses.size(); ++h) {
      for (std::size_t w = 0; w < question_.weeks.size(); ++w) {
        if (const RowMeaning* row = limits_.row(h, w, id)) return row;
      }
    }
    return nullptr;
  }

  const SeasonQuestion& question_;
  SeasonClock clock_;
  Limits limits_;
  bool cut_short_ = false;
};

}  // namespace

std::vector<LooserLimit> loosened_limits(const SeasonQuestion& question,
                                         const SeasonOptions& options, bool& cut_short) {
  PlanLoosening loosening(question, options);
  auto out = loosening.found();
  cut_short = loosening.cut_short();
  return out;
}

SeasonQuestion with_looser_limit(const SeasonQuestion& question, const std::string& id, double to,
                                 const Moves& moves) {
  return Limits(question).at(id, to, moves);
}

}  // namespace haymow
