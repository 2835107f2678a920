#include "solver/cost_curve.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

#include "solver/bound_moves.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Two costs this near, relative, lie on one line: ten times the solver's tolerance.
constexpr double same_cost = 1e-8;
// Ends nearer than this part of the whole span are one.
constexpr double same_point = 1e-9;
// A piece each time; there are as many as bases, but no ration has more.
constexpr int most_solves = 20'000;

void check_range(const LinearProgram& program, double from, double to) {
  if (program.has_whole_columns()) {
    throw std::invalid_argument("curves exist for continuous programs only");
  }
  if (!std::isfinite(from) || !std::isfinite(to) || from > to) {
    throw std::invalid_argument("a curve needs two finite ends in order");
  }
}

[[noreturn]] void fail(const Solution& solution) {
  throw std::runtime_error("a point of the curve could not be computed: solver " +
                           std::string(name_of(solution.status)));
}

/// A point of the curve with one tangent there.
struct Point {
  double at = 0.0;
  double cost = 0.0;
  double slope = 0.0;
  Solution solution;
  [[nodiscard]] double tangent(double where) const { return cost + slope * (where - at); }
};

/// Finds the points whose tangents make up the curve between two ends. `Ask` gives
/// the point at a value.
template <class Ask>
class Tangents {
 public:
  Tangents(Ask ask, double span) : ask_(std::move(ask)), span_(span) {}

  /// The points from `first` to `last`, ends included, in order; neighbouring
  /// tangents meet on the curve.
  std::vector<Point> between(Point first, Point last) {
    std::vector<Point> points;
    points.push_back(std::move(first));
    add_between(points, last);
    points.push_back(std::move(last));
    return points;
  }

 private:
  // Adds the points strictly between points.back() and `last`.
  void add_between(std::vector<Point>& points, const Point& last) {
    const Point first = points.back();
    const double width = last.at - first.at;
    if (width <= same_point * span_ || ++solves_ > most_solves) return;
    const double size = std::max({1.0, std::abs(first.cost), std::abs(last.cost)});
    // The same line already joins the two.
    if (std::abs(first.tangent(last.at) - last.cost) <= same_cost * size ||
        std::abs(last.tangent(first.at) - first.cost) <= same_cost * size) {
      return;
    }
    const double meet =
        first.at + (last.tangent(first.at) - first.cost) / (first.slope - last.slope);
    if (!(meet > first.at && meet < last.at)) return;
    Point middle = ask_(meet);
    if (std::abs(middle.cost - first.tangent(meet)) <= same_cost * size) return;
    add_between(points, middle);
    points.push_back(middle);
    add_between(points, last);
  }

  Ask ask_;
  double span_;
  int solves_ = 0;
};

/// Where the tangents of two neighbours meet.
double meeting(const Point& a, const Point& b) {
  if (a.slope == b.slope) return b.at;
  const double meet = a.at + (b.tangent(a.at) - a.cost) / (a.slope - b.slope);
  return std::clamp(meet, a.at, b.at);
}

}  // namespace

std::vector<CostPiece> answers_over_cost(const LinearProgram& program, int column, double from,
                                         double to, const SolveOptions& options) {
  return CostCurves(program, options).over(column, from, to);
}

CostCurves::CostCurves(const LinearProgram& program, const Basis* start)
    : solver_(program, {.start = start}) {}

CostCurves::CostCurves(const LinearProgram& program, const SolveOptions& options)
    : solver_(program, options) {}

namespace {

std::vector<CostPiece> pieces_over(WarmSolver& solver, int column, double from, double to) {
  const auto ask = [&](double cost) {
    solver.set_cost(column, cost);
    Point point{cost, 0.0, 0.0, solver.solve()};
    if (point.solution.status == Status::infeasible) return point;
    if (point.solution.status != Status::optimal) fail(point.solution);
    point.cost = point.solution.cost;
    point.slope = point.solution.columns[static_cast<std::size_t>(column)];
    return point;
  };
  Point first = ask(from);
  if (first.solution.status == Status::infeasible) return {};
  if (from == to) return {{from, to, std::move(first.solution)}};
  auto points = Tangents(ask, to - from).between(std::move(first), ask(to));
  std::vector<CostPiece> pieces;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const double begin = p == 0 ? from : meeting(points[p - 1], points[p]);
    const double end = p + 1 == points.size() ? to : meeting(points[p], points[p + 1]);
    if (end - begin <= same_point * (to - from)) continue;
    pieces.push_back({begin, end, std::move(points[p].solution)});
  }
  // What was left out between two pieces belongs to the second.
  for (std::size_t p = 0; p + 1 < pieces.size(); ++p) pieces[p + 1].from = pieces[p].to;
  if (!pieces.empty()) {
    pieces.front().from = from;
    pieces.back().to = to;
  }
  return pieces;
}

}  // namespace

std::vector<CostPiece> CostCurves::over(int column, double from, double to) {
  check_range(solver_.program(), from, to);
  if (column < 0 || column >= solver_.program().column_count()) {
    throw std::invalid_argument("there is no such column");
  }
  const double cost = solver_.program().columns()[static_cast<std::size_t>(column)].cost;
  std::vector<CostPiece> pieces = pieces_over(solver_, column, from, to);
  solver_.set_cost(column, cost);
  return pieces;
}

namespace {

/// The part of [from, to] in which there is an answer, by asking for the least and the
/// most the bound's row can be; nothing when there is none.
std::optional<std::pair<double, double>> answerable(const LinearProgram& program, Bound bound,
                                                    double from, double to) {
  const std::vector<Term> terms = terms_of(program, bound);
  LinearProgram reach = program;
  move_bound(reach, bound, bound.side == Side::lower ? -unlimited : unlimited);
  for (int j = 0; j < reach.column_count(); ++j) reach.set_cost(j, 0.0);
  // A lower bound has answers up to the most its row can be, an upper one down to
  // the least.
  const double sign = bound.side == Side::lower ? -1.0 : 1.0;
  for (const Term& term : terms) reach.set_cost(term.column, sign * term.coefficient);
  const Solution solution = solve(reach);
  if (solution.status == Status::infeasible) return std::nullopt;
  if (solution.status == Status::unbounded) return std::pair{from, to};
  if (solution.status != Status::optimal) fail(solution);
  const double edge = sign * solution.cost;
  const double inside =
      edge - (bound.side == Side::lower ? 1.0 : -1.0) * 1e-9 * std::max(1.0, std::abs(edge));
  // A hair inside the edge, but no farther than was asked: of a bound at the edge itself
  // there is an answer, too.
  if (bound.side == Side::lower && to > edge) {
    if (from > edge) return std::nullopt;
    to = std::max(from, inside);
  }
  if (bound.side == Side::upper && from < edge) {
    if (to < edge) return std::nullopt;
    from = std::min(to, inside);
  }
  return std::pair{from, to};
}

}  // namespace

std::vector<BoundCorner> corners_over_bound(const LinearProgram& program, Bound bound, double from,
                                            double to) {
  check_range(program, from, to);
  (void)value_of(program, bound);  // refuses a bound that does not exist
  const auto range = answerable(program, bound, from, to);
  if (!range) return {};
  WarmSolver solver(program);
  const auto ask = [&](double value) {
    move_bound(solver, bound, value);
    Point point{value, 0.0, 0.0, solver.solve()};
    if (point.solution.status != Status::optimal) fail(point.solution);
    point.cost = point.solution.cost;
    const auto index = static_cast<std::size_t>(bound.index);
    point.slope = bound.of == Bound::Of::row ? point.solution.row_duals[index]
                                             : point.solution.reduced_costs[index];
    return point;
  };
  Point first = ask(range->first);
  if (range->first == range->second) return {{range->first, std::move(first.solution)}};
  auto points = Tangents(ask, range->second - range->first).between(first, ask(range->second));
  std::vector<BoundCorner> corners;
  corners.push_back({range->first, std::move(first.solution)});
  for (std::size_t p = 0; p + 1 < points.size(); ++p) {
    const double meet = meeting(points[p], points[p + 1]);
    const double width = same_point * (range->second - range->first);
    if (meet <= corners.back().value + width || meet >= range->second - width) continue;
    corners.push_back({meet, ask(meet).solution});
  }
  corners.push_back({range->second, std::move(points.back().solution)});
  return corners;
}

}  // namespace haymow
