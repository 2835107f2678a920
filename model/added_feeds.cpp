#include "model/added_feeds.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "model/practical.h"
#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

constexpr std::size_t most_added_feeds = 3;

// Grass is grown, not bought; nobody fills a horse with fruit; small amounts of
// concentrated feeds are toxic. A name that is taken, be it by a bag of the
// keeper's own, would be told as if it were on offer already.
bool may_be_proposed(const Feed& feed, const std::vector<Offer>& offers) {
  return !feed.has(FeedTrait::concentrated) && feed.group != FeedGroup::grass &&
         feed.group != FeedGroup::sweet &&
         std::none_of(offers.begin(), offers.end(), [&](const Offer& o) {
           return o.feed.name == feed.name || o.name == feed.name;
         });
}

// The question with `feeds` on offer too, as the last offers.
RationQuestion with_feeds(RationQuestion question, std::span<const Feed> feeds) {
  for (const Feed& feed : feeds) {
    question.offers.push_back(unpriced(feed));
    if (!question.stock_a_day.empty()) question.stock_a_day.emplace_back();
  }
  return question;
}

// How much a kilogram of a group weighs in a proposal: what is fed by the
// hundred grams is bought before a bag of something unusual. Common practice,
// no source.
double reluctance(FeedGroup group) {
  switch (group) {
    case FeedGroup::balancer:
    case FeedGroup::supplement:
    case FeedGroup::mineral:
      return 0.2;
    case FeedGroup::hay:
    case FeedGroup::haylage:
    case FeedGroup::straw:
    case FeedGroup::dried_forage:
    case FeedGroup::fibre:
    case FeedGroup::compound:
      return 0.5;
    default:
      return 2.0;
  }
}

// Rounded up to what the scale shows of such a feed.
KgAsFed whole_steps(KgAsFed amount, const Feed& feed) {
  const KgAsFed step = weighing_of(feed.group).step;
  return step * std::max(std::ceil(amount / step - 1e-6), 0.0);
}

// The least of `feeds`, by weight so reckoned, that makes a ration possible; nothing
// when none does. Amounts are rounded up to steps, and what the rest then costs
// is solved again with them.
std::optional<Mend> least_added(const RationQuestion& question, std::span<const Feed> feeds) {
  const Formulation formulation = formulate(with_feeds(question, feeds));
  LinearProgram least = formulation.program;
  const int first = static_cast<int>(question.offers.size());
  for (int j = 0; j < first; ++j) least.set_cost(j, 0.0);
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    least.set_cost(first + static_cast<int>(k), reluctance(feeds[k].group));
  }
  const Solution fewest = solve(least);
  if (fewest.status != Status::optimal || !certify(least, fewest).holds()) return std::nullopt;

  Mend mend;
  mend.kind = Mend::Kind::add_feed;
  LinearProgram rest = formulation.program;
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    const int column = first + static_cast<int>(k);
    const KgAsFed amount =
        whole_steps(KgAsFed{fewest.columns[static_cast<std::size_t>(column)]}, feeds[k]);
    rest.set_column_bounds(column, 0.0, amount.in_kg());
    if (amount > KgAsFed{}) mend.additions.push_back({feeds[k], amount});
  }
  const Solution cheapest = solve(rest);
  if (cheapest.status != Status::optimal || !certify(rest, cheapest).holds()) return std::nullopt;
  mend.cost = Money{cheapest.cost};
  return mend;
}

std::vector<Feed> proposable(const RationQuestion& question, std::span<const Feed> known_feeds) {
  std::vector<Feed> feeds;
  std::copy_if(known_feeds.begin(), known_feeds.end(), std::back_inserter(feeds),
               [&](const Feed& feed) { return may_be_proposed(feed, question.offers); });
  return feeds;
}

struct Candidate {
  std::size_t feed = 0;
  KgAsFed amount;  // the least that mends it, in whole steps
};

// Which of `feeds` mend it alone, and with how little: one program with all of them,
// where one at a time is let in, each solved from where the last one stopped.
std::vector<Candidate> candidates_of(const RationQuestion& question, std::span<const Feed> feeds) {
  LinearProgram program = formulate(with_feeds(question, feeds)).program;
  const int first = static_cast<int>(question.offers.size());
  for (int j = 0; j < first; ++j) program.set_cost(j, 0.0);
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    const int column = first + static_cast<int>(k);
    program.set_cost(column, 1.0);
    program.set_column_bounds(column, 0.0, 0.0);
  }
  WarmSolver solver(program);
  std::vector<Candidate> candidates;
  for (std::size_t k = 0; k < feeds.size(); ++k) {
    const int column = first + static_cast<int>(k);
    solver.set_column_bounds(column, 0.0, unlimited);
    const Solution least = solver.solve();
    solver.set_column_bounds(column, 0.0, 0.0);
    if (least.status != Status::optimal) continue;
    const KgAsFed amount =
        whole_steps(KgAsFed{least.columns[static_cast<std::size_t>(column)]}, feeds[k]);
    if (amount > KgAsFed{}) candidates.push_back({k, amount});
  }
  return candidates;
}

}  // namespace

std::vector<Mend> feeds_that_mend(const RationQuestion& question,
                                  std::span<const Feed> known_feeds) {
  const std::vector<Feed> feeds = proposable(question, known_feeds);
  std::vector<Candidate> candidates = candidates_of(question, feeds);
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.amount < b.amount; });
  // One of each group, the one that needs least: a list, not a catalogue.
  std::vector<Mend> mends;
  std::set<FeedGroup> told;
  for (const Candidate& candidate : candidates) {
    const Feed& feed = feeds[candidate.feed];
    if (mends.size() == most_added_feeds) break;
    if (told.contains(feed.group)) continue;
    auto mend = least_added(question, std::span(&feed, 1));
    if (!mend || mend->additions.empty()) continue;
    told.insert(feed.group);
    mends.push_back(std::move(*mend));
  }
  return mends;
}

std::optional<Mend> feeds_that_mend_together(const RationQuestion& question,
                                             std::span<const Feed> known_feeds) {
  std::vector<Feed> feeds = proposable(question, known_feeds);
  std::optional<Mend> best = least_added(question, feeds);
  if (!best) return std::nullopt;
  feeds.clear();
  for (const Addition& addition : best->additions) feeds.push_back(addition.feed);
  for (std::size_t k = 0; k < feeds.size();) {
    std::vector<Feed> fewer = feeds;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(k));
    if (auto mend = least_added(question, fewer)) {
      feeds = std::move(fewer);
      best = std::move(mend);
    } else {
      ++k;
    }
  }
  return best;
}

}  // namespace haymow
