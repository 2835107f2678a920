#include "scenarios/curve_changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace haymow {
namespace {

// A change that nobody would weigh out is not told: a gram.
constexpr double least_told_kg = 0.001;
constexpr std::size_t most_told = 3;
// A limit holds where it is used to within this, relative.
constexpr double at_bound = 1e-6;

using Names = std::set<std::string>;

Names feeds_used(const LimitPath& path, const FrontierCorner& corner) {
  Names names;
  const auto columns = path.limit->formulation.program.columns();
  for (std::size_t j = 0; j < columns.size(); ++j) {
    if (corner.amounts[j] >= least_told_kg) names.insert(columns[j].name);
  }
  return names;
}

Names limits_held(const LimitPath& path, const FrontierCorner& corner) {
  Names names;
  for (const RowMeaning& row : path.limit->formulation.rows) {
    if (row.id == path.asked.id || row.family == RowFamily::grazing) continue;
    const auto value = row.value(corner.amounts);
    if (!value) continue;
    if (std::abs(*value - row.bound) <= at_bound * std::max(1.0, std::abs(row.bound))) {
      names.insert(Wording::subject(row));
    }
  }
  return names;
}

// Used at either end of the piece; limits: held at both.
Names used_between(const LimitPath& path, std::size_t k) {
  Names names = feeds_used(path, path.frontier.corners[k]);
  names.merge(feeds_used(path, path.frontier.corners[k + 1]));
  return names;
}
Names held_between(const LimitPath& path, std::size_t k) {
  const Names first = limits_held(path, path.frontier.corners[k]);
  const Names second = limits_held(path, path.frontier.corners[k + 1]);
  Names both;
  std::set_intersection(first.begin(), first.end(), second.begin(), second.end(),
                        std::inserter(both, both.end()));
  return both;
}

std::string without(const Names& of, const Names& others) {
  std::vector<std::string> names;
  for (const std::string& name : of) {
    if (!others.contains(name) && names.size() < most_told) names.push_back(name);
  }
  return listed(names);
}

}  // namespace

AmountsMoved amounts_moved(const std::vector<Offer>& offers, const std::vector<double>& before,
                           const std::vector<double>& after, std::size_t besides,
                           const Wording& words) {
  std::vector<std::pair<double, std::size_t>> changes;
  for (std::size_t j = 0; j < offers.size(); ++j) {
    const double kg = offers[j].put_out(KgAsFed{after[j] - before[j]}).in_kg();
    if (j != besides && std::abs(kg) >= least_told_kg) changes.emplace_back(kg, j);
  }
  std::stable_sort(changes.begin(), changes.end(), [](const auto& a, const auto& b) {
    return std::abs(a.first) > std::abs(b.first);
  });
  AmountsMoved moved;
  for (const auto& [kg, j] : changes) {
    auto& told = kg > 0.0 ? moved.more : moved.less;
    if (told.size() < most_told) {
      told.push_back(fmt::format("{} {}", words.mass(std::abs(kg)), offers[j].name));
    }
  }
  return moved;
}

std::string corner_change(const LimitPath& path, std::size_t k) {
  if (k == 0 || k + 1 >= path.frontier.corners.size()) return "";
  const Names used_before = used_between(path, k - 1);
  const Names used_after = used_between(path, k);
  const Names held_before = held_between(path, k - 1);
  const Names held_after = held_between(path, k);
  std::vector<std::string> told;
  const auto tell = [&](const Names& of, const Names& others, std::string_view what) {
    const std::string names = without(of, others);
    if (!names.empty()) told.push_back(names + std::string(what));
  };
  tell(used_after, used_before, " in");
  tell(used_before, used_after, " out");
  tell(held_after, held_before, " at its limit");
  tell(held_before, held_after, " no longer at its limit");
  return fmt::format("{}", fmt::join(told, "; "));
}

}  // namespace haymow
