#include "model/practical.h"

#include <cmath>

#include "solver/solve.h"

namespace haymow {
namespace {

// Steps of the simplex method, not seconds: the same file gives the same ration
// on a slow machine. Some tenths of a second.
constexpr int iterations_for_search = 50'000;

// Grass at pasture is not weighed: its one step is the day's grass.
Weighing weighing_in(const RationQuestion& question, std::size_t offer) {
  const Feed& feed = question.offers[offer].feed;
  if (!question.grazes(offer)) return weighing_of(feed.group);
  const KgAsFed grass = feed.as_fed(question.grass->most);
  return {grass, grass};
}

// What one step of the scale puts into the horse: the scale weighs what is put
// out, the program counts what is eaten.
KgAsFed eaten_a_step(const RationQuestion& question, std::size_t offer) {
  return question.offers[offer].eaten(weighing_in(question, offer).step);
}

// The most steps of an offer that any ration could hold: nothing is eaten beyond
// the intake ceiling.
double most_steps(const RationQuestion& question, std::size_t offer) {
  const Limit* intake = find_limit(question.limits, "intake/max");
  const double per_cent = intake != nullptr ? intake->number : 5.0;
  const KgDryMatter most{question.horse.bodyweight.in_kg() * per_cent / 100.0};
  return std::ceil(question.offers[offer].feed.as_fed(most) / eaten_a_step(question, offer));
}

// The same rows over steps n (x = step * n) with a switch u for every offer:
// least u <= step n <= most u, and few switches on in the bucket.
LinearProgram in_steps(const RationQuestion& question, const Formulation& formulation) {
  LinearProgram program;
  const auto& offers = question.offers;
  for (std::size_t j = 0; j < offers.size(); ++j) {
    const Column& column = formulation.program.columns()[j];
    program.add_column({column.name, 0.0, most_steps(question, j),
                        column.cost * eaten_a_step(question, j).in_kg(), true});
  }
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    Row stepped = formulation.program.rows()[i];
    // A share of the barn is a plan, not a safety limit: it gives by one step of
    // the scale, or a yard that uses all its hay could weigh out nothing.
    const RowMeaning& meaning = formulation.rows[i];
    if (meaning.family == RowFamily::stock) {
      stepped.upper += weighing_of(offers[*meaning.offer].feed.group).step.in_kg();
    }
    for (Term& t : stepped.terms) {
      t.coefficient *= eaten_a_step(question, static_cast<std::size_t>(t.column)).in_kg();
    }
    program.add_row(std::move(stepped));
  }
  Row bucket{"bucket feeds", -unlimited, static_cast<double>(most_bucket_feeds), {}};
  for (std::size_t j = 0; j < offers.size(); ++j) {
    const int n = static_cast<int>(j);
    const int used = program.add_column({"use " + offers[j].name, 0.0, 1.0, 0.0, true});
    const Weighing weighing = weighing_in(question, j);
    const double least = std::round(weighing.least / weighing.step);
    const double most = most_steps(question, j);
    program.add_row({"least " + offers[j].name, 0.0, unlimited, {{n, 1.0}, {used, -least}}});
    program.add_row({"most " + offers[j].name, -unlimited, 0.0, {{n, 1.0}, {used, -most}}});
    if (offers[j].feed.is_bucket_feed()) bucket.terms.push_back({used, 1.0});
  }
  program.add_row(std::move(bucket));
  return program;
}

}  // namespace

Weighing weighing_of(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::hay:
    case FeedGroup::haylage:
    case FeedGroup::straw:
      return {KgAsFed{0.1}, KgAsFed{0.5}};
    case FeedGroup::oil:
    case FeedGroup::supplement:
    case FeedGroup::mineral:
      return {KgAsFed{0.005}, KgAsFed{0.01}};
    case FeedGroup::balancer:
      return {KgAsFed{0.05}, KgAsFed{0.1}};
    default:
      return {KgAsFed{0.1}, KgAsFed{0.1}};
  }
}

std::optional<PracticalRation> practical_ration(const RationQuestion& question,
                                                const Formulation& formulation,
                                                double certified_cost) {
  const LinearProgram program = in_steps(question, formulation);
  SolveOptions options;
  options.iteration_limit = iterations_for_search;
  options.whole_gap = practical_gap;
  const Solution solution = solve(program, options);
  if (!solution.usable()) return std::nullopt;

  PracticalRation practical;
  practical.certificate = certify_feasible(program, solution, certified_cost);
  if (practical.certificate.largest_violation > certificate_tolerance) return std::nullopt;
  practical.within_gap = solution.status == Status::optimal;
  for (std::size_t j = 0; j < question.offers.size(); ++j) {
    const double steps = std::round(solution.columns[j]);
    practical.amounts.push_back(steps * eaten_a_step(question, j).in_kg());
  }
  practical.ration = ration_from(question, formulation, practical.amounts);
  return practical;
}

}  // namespace haymow
