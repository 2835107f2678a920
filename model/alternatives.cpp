#include "model/alternatives.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "model/amount_ranges.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Looks for other feeds before it gives up, for each ration asked for: a step takes
// some tenths of a millisecond, a search for whole steps some tenths of a second.
constexpr std::size_t steps_for_each = 3;

using FeedSet = std::vector<std::size_t>;

FeedSet feeds_in(const std::vector<double>& amounts) {
  FeedSet feeds;
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    if (amounts[j] >= least_portion.in_kg()) feeds.push_back(j);
  }
  return feeds;
}

class Search {
 public:
  Search(const RationQuestion& question, const Formulation& formulation, const Solution& solution,
         const PracticalRation& fed, const AlternativesAsked& asked)
      : question_(question),
        formulation_(formulation),
        asked_(asked),
        compared_cost_(fed.ration.cost.in_units()),
        dearest_cost_(std::max(compared_cost_, solution.cost) * (1.0 + asked.margin)),
        solver_(within_cost(formulation.program, dearest_cost_, 0.0)),
        weights_(question.offers.size(), 0.0),
        used_(question.offers.size(), false) {
    const double margin = std::max(dearest_cost_ / std::max(solution.cost, 1e-9) - 1.0, 0.0);
    const auto ranges = amount_ranges(question, formulation, solution, std::span(&margin, 1));
    for (const AmountRange& range : ranges.front().ranges) most_.push_back(range.most.in_kg());
    seen_.push_back(fed.ration);
    note(feeds_in(fed.amounts), fed.amounts);
    // What the cheapest to the gram is made of is used, too.
    note(feeds_in(solution.columns), solution.columns);
  }

  std::vector<Alternative> run() {
    for (std::size_t step = 0; step < steps_for_each * asked_.count && found_.size() < asked_.count;
         ++step) {
      const auto far = farthest();
      if (!far) break;
      const FeedSet feeds = feeds_in(*far);
      note(feeds, *far);
      if (!tried_.insert(feeds).second) continue;
      // First of these feeds alone; if they cannot be weighed out, with all that
      // the ones before did not use.
      if (!try_feeds(only(feeds))) (void)try_feeds(without_others(feeds));
    }
    std::stable_sort(found_.begin(), found_.end(), [](const Alternative& a, const Alternative& b) {
      return a.dearer < b.dearer;
    });
    return std::move(found_);
  }

 private:
  // A kilogram counts by what could be had of the feed, so that ten grams of salt
  // and ten kilograms of hay weigh alike.
  void note(const FeedSet& feeds, const std::vector<double>& amounts) {
    for (const std::size_t j : feeds) {
      const double most = std::max(most_[j], least_portion.in_kg());
      weights_[j] += std::min(amounts[j] / most, 1.0) / most;
      used_[j] = true;
    }
  }

  std::optional<std::vector<double>> farthest() {
    for (std::size_t j = 0; j < weights_.size(); ++j) {
      solver_.set_cost(static_cast<int>(j), weights_[j]);
    }
    Solution solution = solver_.solve();
    if (solution.status != Status::optimal) return std::nullopt;
    return std::move(solution.columns);
  }

  [[nodiscard]] std::vector<bool> only(const FeedSet& feeds) const {
    std::vector<bool> keep(used_.size(), false);
    for (const std::size_t j : feeds) keep[j] = true;
    return keep;
  }
  [[nodiscard]] std::vector<bool> without_others(const FeedSet& feeds) const {
    std::vector<bool> keep = only(feeds);
    for (std::size_t j = 0; j < keep.size(); ++j) keep[j] = keep[j] || !used_[j];
    return keep;
  }

  // True when the feeds gave a ration that is new.
  bool try_feeds(const std::vector<bool>& keep) {
    // Offers keep their numbers: what is left out may be fed none of.
    Formulation formulation = formulation_;
    for (std::size_t j = 0; j < keep.size(); ++j) {
      if (keep[j] || question_.grazes(j)) continue;
      formulation.program.set_column_bounds(static_cast<int>(j), 0.0, 0.0);
    }
    const Solution solution = solve(formulation.program);
    const Certificate certificate = certify(formulation.program, solution);
    if (solution.status != Status::optimal || !certificate.holds()) return false;
    if (solution.cost > dearest_cost_) return false;
    auto practical = practical_ration(question_, formulation, certificate.lower_bound);
    return practical && take(std::move(*practical), certificate);
  }

  bool take(PracticalRation practical, const Certificate& certificate) {
    Alternative next;
    next.practical = std::move(practical);
    const double cost = next.practical.ration.cost.in_units();
    if (cost > dearest_cost_) return false;
    next.feeds = feeds_in(next.practical.amounts);
    const bool is_new = std::all_of(seen_.begin(), seen_.end(), [&](const Ration& other) {
      return really_differ(next.practical.ration, other);
    });
    if (!is_new) return false;
    next.dearer = compared_cost_ > 0.0 ? cost / compared_cost_ - 1.0 : 0.0;
    next.certificate = certificate;
    next.nearest = nearest_limit(formulation_, next.practical.amounts);
    seen_.push_back(next.practical.ration);
    note(next.feeds, next.practical.amounts);
    found_.push_back(std::move(next));
    return true;
  }

  const RationQuestion& question_;
  const Formulation& formulation_;
  AlternativesAsked asked_;
  double compared_cost_;
  double dearest_cost_;
  WarmSolver solver_;
  std::vector<double> weights_;
  std::vector<bool> used_;
  std::vector<double> most_;
  std::vector<Ration> seen_;
  std::set<FeedSet> tried_;
  std::vector<Alternative> found_;
};

// True when `one` has a weighty feed that `other` has none of.
bool has_another(const Ration& one, const Ration& other) {
  return std::any_of(one.portions.begin(), one.portions.end(), [&](const Portion& p) {
    const bool shared = std::any_of(other.portions.begin(), other.portions.end(),
                                    [&](const Portion& q) { return q.offer == p.offer; });
    return !shared && p.dry_matter >= one.dry_matter * least_difference;
  });
}

}  // namespace

bool really_differ(const Ration& one, const Ration& other) {
  return has_another(one, other) || has_another(other, one);
}

std::optional<NearestLimit> nearest_limit(const Formulation& formulation,
                                          const std::vector<double>& amounts) {
  std::optional<NearestLimit> nearest;
  for (const RowMeaning& row : formulation.rows) {
    if (!row.is_welfare() || row.bound == 0.0) continue;
    const auto value = row.value(amounts);
    if (!value) continue;
    const double away = row.side == Side::lower ? *value - row.bound : row.bound - *value;
    const double distance = std::max(away / std::abs(row.bound), 0.0);
    if (!nearest || distance < nearest->distance) nearest = NearestLimit{row, *value, distance};
  }
  return nearest;
}

std::vector<Alternative> alternatives(const RationQuestion& question,
                                      const Formulation& formulation, const Solution& solution,
                                      const PracticalRation& fed, const AlternativesAsked& asked) {
  return Search(question, formulation, solution, fed, asked).run();
}

}  // namespace haymow
