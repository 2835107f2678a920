#include "solver/carry_basis.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <unordered_map>

namespace haymow {
namespace {

// A status whose bound is no longer there, or is now two bounds in one.
BasisStatus that_fits(BasisStatus status, double lower, double upper) {
  if (status == BasisStatus::basic) return status;
  if (lower == upper) return BasisStatus::fixed;
  const bool has_lower = !std::isinf(lower);
  const bool has_upper = !std::isinf(upper);
  if (!has_lower && !has_upper) return BasisStatus::free;
  if (status == BasisStatus::at_upper) {
    return has_upper ? BasisStatus::at_upper : BasisStatus::at_lower;
  }
  return has_lower ? BasisStatus::at_lower : BasisStatus::at_upper;
}

template <class Members>
std::vector<BasisStatus> by_name(const Members& from, const std::vector<BasisStatus>& statuses,
                                 const Members& to, BasisStatus of_new) {
  std::unordered_map<std::string_view, BasisStatus> known;
  for (std::size_t i = 0; i < statuses.size(); ++i) known.emplace(from[i].name, statuses[i]);
  std::vector<BasisStatus> out;
  out.reserve(to.size());
  for (const auto& member : to) {
    const auto found = known.find(member.name);
    out.push_back(
        that_fits(found == known.end() ? of_new : found->second, member.lower, member.upper));
  }
  return out;
}

}  // namespace

std::optional<Basis> carry_basis(const LinearProgram& from, const Basis& basis,
                                 const LinearProgram& to) {
  if (basis.columns.size() != from.columns().size() || basis.rows.size() != from.rows().size()) {
    return std::nullopt;
  }
  Basis out{by_name(from.columns(), basis.columns, to.columns(), BasisStatus::at_lower),
            by_name(from.rows(), basis.rows, to.rows(), BasisStatus::basic)};
  const auto basics = std::count(out.columns.begin(), out.columns.end(), BasisStatus::basic) +
                      std::count(out.rows.begin(), out.rows.end(), BasisStatus::basic);
  if (basics != to.row_count()) return std::nullopt;
  return out;
}

}  // namespace haymow
