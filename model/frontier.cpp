#include "model/frontier.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>

#include "model/ration.h"
#include "model/rules.h"
#include "solver/cost_curve.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Corners of a share are found to this part of the range.
constexpr double corner_width = 1e-6;
// A share is looked at in so many places first; between two of them at most one
// change of ration is looked for on either side of each.
constexpr int first_looks = 24;

std::size_t index_of(const Formulation& formulation, const std::string& id) {
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    if (formulation.rows[i].id == id) return i;
  }
  throw std::invalid_argument("no limit of this ration is called " + id);
}

// A law stays within its absolute figure, whoever asks.
void keep_law(const RowMeaning& row, double& from, double& to) {
  if (!row.limit) return;
  const Rule* rule = find_rule(row.limit->id);
  if (rule == nullptr || !rule->absolute) return;
  // Of a limit of none the scale is not known; none is none in any.
  if (row.limit->number == 0.0 && *rule->absolute != 0.0) return;
  const double absolute =
      row.limit->number == 0.0 ? 0.0 : *rule->absolute * row.bound / row.limit->number;
  if (row.side == Side::lower) from = std::max(from, absolute);
  if (row.side == Side::upper) to = std::min(to, absolute);
}

FrontierCorner corner_at(double bound, const Solution& solution) {
  return {bound, Money{solution.cost}, solution.columns};
}

// The program with the row's bound moved; of a share: part - bound / scale * whole.
LinearProgram moved(const Formulation& formulation, std::size_t index, double bound) {
  const RowMeaning& meaning = formulation.rows[index];
  LinearProgram program = formulation.program;
  if (meaning.whole.empty()) {
    const Row& row = program.rows()[index];
    const bool floor = meaning.side == Side::lower;
    program.set_row_bounds(static_cast<int>(index), floor ? bound : row.lower,
                           floor ? row.upper : bound);
    return program;
  }
  std::map<int, double> sum;
  for (const Term& t : meaning.part) sum[t.column] += t.coefficient;
  for (const Term& t : meaning.whole) sum[t.column] -= bound / meaning.scale * t.coefficient;
  LinearProgram rebuilt;
  for (const Column& column : program.columns()) rebuilt.add_column(column);
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    Row row = program.rows()[i];
    if (i == index) {
      row.terms.clear();
      for (const auto& [column, coefficient] : sum) row.terms.push_back({column, coefficient});
    }
    rebuilt.add_row(std::move(row));
  }
  return rebuilt;
}

class MovedShare {
 public:
  MovedShare(const Formulation& formulation, std::size_t index)
      : formulation_(formulation), index_(index) {}

  [[nodiscard]] Solution solve_at(double bound) const {
    return solve(moved(formulation_, index_, bound));
  }

 private:
  const Formulation& formulation_;
  std::size_t index_;
};

// What tells two rations apart on a frontier: the basis they stand on.
std::vector<BasisStatus> signature(const Solution& solution) {
  std::vector<BasisStatus> out = solution.basis->columns;
  out.insert(out.end(), solution.basis->rows.begin(), solution.basis->rows.end());
  return out;
}

struct Look {
  double at = 0.0;
  Solution solution;
  [[nodiscard]] bool found() const { return solution.status == Status::optimal; }
};

bool alike(const Look& a, const Look& b) {
  if (a.found() != b.found()) return false;
  return !a.found() || signature(a.solution) == signature(b.solution);
}

// Adds the change between two looks, found by halving.
void add_change(const MovedShare& share, Look low, Look high, double width,
                std::vector<FrontierCorner>& corners) {
  if (alike(low, high)) return;
  if (high.at - low.at <= width) {
    // A corner is the last look that has a ration.
    const Look& at = low.found() ? low : high;
    if (at.found()) corners.push_back(corner_at(at.at, at.solution));
    return;
  }
  const double middle = 0.5 * (low.at + high.at);
  Look between{middle, share.solve_at(middle)};
  add_change(share, low, between, width, corners);
  add_change(share, std::move(between), high, width, corners);
}

void follow_share(const Formulation& formulation, std::size_t index, double from, double to,
                  Frontier& out) {
  const MovedShare share(formulation, index);
  std::vector<FrontierCorner>& corners = out.corners;
  std::optional<Look> last;
  for (int k = 0; k <= first_looks; ++k) {
    const double at = from + (to - from) * k / first_looks;
    Look look{at, share.solve_at(at)};
    const std::size_t before = corners.size();
    if (last) add_change(share, *last, look, corner_width * (to - from), corners);
    const bool is_end = k == 0 || k == first_looks;
    out.points.insert(out.points.end(), corners.begin() + static_cast<std::ptrdiff_t>(before),
                      corners.end());
    if (look.found()) out.points.push_back(corner_at(at, look.solution));
    if (is_end && look.found()) corners.push_back(corner_at(at, look.solution));
    last = std::move(look);
  }
}

}  // namespace

namespace {

// A stricter limit has no ration beyond the last corner.
void note_end(Frontier& out, double from, double to) {
  if (out.corners.empty()) return;
  const double end =
      out.row.side == Side::lower ? out.corners.back().bound : out.corners.front().bound;
  const double asked = out.row.side == Side::lower ? to : from;
  if (std::abs(end - asked) > 2.0 * corner_width * (to - from)) out.ends_at = end;
}

}  // namespace

Frontier frontier(const Formulation& formulation, const std::string& id, double from, double to) {
  const std::size_t index = index_of(formulation, id);
  if (!(from <= to)) throw std::invalid_argument("a frontier needs two ends in order");
  Frontier out{formulation.rows[index], {}, {}, formulation.rows[index].whole.empty()};
  keep_law(out.row, from, to);
  if (from > to) return out;
  if (!out.straight) {
    follow_share(formulation, index, from, to, out);
    note_end(out, from, to);
    return out;
  }
  const Bound bound{Bound::Of::row, static_cast<int>(index), out.row.side};
  for (const BoundCorner& corner : corners_over_bound(formulation.program, bound, from, to)) {
    out.corners.push_back(corner_at(corner.value, corner.solution));
  }
  out.points = out.corners;
  note_end(out, from, to);
  return out;
}

LinearProgram with_bound(const Formulation& formulation, const std::string& id, double bound) {
  return moved(formulation, index_of(formulation, id), bound);
}

}  // namespace haymow
