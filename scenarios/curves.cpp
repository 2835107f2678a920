#include "scenarios/curves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/solve.h"

namespace haymow {
namespace {

constexpr double dearest = 3.0;       // times the price now, and a ceiling with no ration
constexpr double beyond_entry = 1.5;  // times the price at which it leaves
constexpr Money dearest_of_free{1.0};
constexpr double loosest = 0.5;  // times the limit as it is, and the other way
constexpr double strictest = 1.5;
// Of the cost, relative: a step's cost by the curve and by solving again.
constexpr double same_cost = 1e-6;

bool same(double a, double b) {
  return std::abs(a - b) <= same_cost * std::max({1.0, std::abs(a), std::abs(b)});
}

// Solves the program from nothing; the proof holds where it certifies and costs what
// the curve says.
Certificate proof(const LinearProgram& program, double cost, bool& proven) {
  const Solution cold = solve(program);
  const Certificate certificate = certify(program, cold);
  proven = proven && certificate.holds() && same(cold.cost, cost);
  return certificate;
}

std::pair<Money, Money> price_range(const PricePath& path) {
  const Money from = path.asked.from.value_or(Money{0.0});
  if (path.asked.to) return {std::min(from, *path.asked.to), *path.asked.to};
  Money to = dearest * path.offers[path.offer].price_per_kg;
  if (path.value && path.value->use == FeedUse::up_to_a_price) {
    const Money past = beyond_entry * path.value->fed_below;
    // Where there is a price, three times it is enough to look at.
    if (path.asked.supposed || to == Money{}) to = past;
  }
  if (to == Money{}) to = dearest_of_free;
  return {from, std::max(from, to)};
}

PricePath price_path(const HorseAnswer& answer, const PriceAsked& asked, bool& proven) {
  PricePath path;
  path.asked = asked;
  RationQuestion question = answer.question;
  path.formulation = answer.formulation;
  if (answer.status == AnswerStatus::found) path.amounts_now = answer.solution.columns;
  if (asked.supposed) {
    question = with_supposed(std::move(question), *asked.supposed);
    path.formulation = formulate(question);
    path.offer = question.offers.size() - 1;
    if (!path.amounts_now.empty()) path.amounts_now.push_back(0.0);
  } else {
    const auto& offers = question.offers;
    const auto named = std::find_if(offers.begin(), offers.end(),
                                    [&](const Offer& o) { return o.name == asked.feed; });
    path.offer = static_cast<std::size_t>(named - offers.begin());
  }
  path.offers = question.offers;
  path.value = feed_value(question, path.formulation, path.offer);
  if (!path.value) return path;
  const auto [from, to] = price_range(path);
  path.steps = price_curve(question, path.formulation, path.offer, from, to);
  for (const PriceStep& step : path.steps) {
    LinearProgram program = path.formulation.program;
    Offer priced = path.offers[path.offer];
    priced.price_per_kg = 0.5 * (step.from + step.to);
    program.set_cost(static_cast<int>(path.offer), priced.cost_per_kg_eaten().in_units());
    const double cost = 0.5 * (step.cost_from + step.cost_to).in_units();
    path.certificates.push_back(proof(program, cost, proven));
  }
  return path;
}

// From half to one and a half times the limit; of a limit that is none now, from what
// the ration has to as strict as it can be.
std::pair<double, double> limit_range(const LimitPath& path) {
  const MovableLimit& limit = *path.limit;
  const bool percent = limit.row.unit.starts_with('%');
  double from = loosest * limit.row.bound;
  double to = strictest * limit.row.bound;
  if (!limit.in_force) {
    const double now = limit.now.value_or(limit.row.bound);
    const bool floor = limit.row.side == Side::lower;
    from = floor ? now : 0.0;
    to = floor ? 2.0 * now : now;
  } else if (limit.now) {
    // As far as where it begins to hold, where it does not hold now.
    from = std::min(from, loosest * *limit.now);
    to = std::max(to, strictest * *limit.now);
  } else if (limit.row.side == Side::lower) {
    from = 0.0;  // there is no ration: farther the looser way, to where there is one
  } else {
    to = dearest * limit.row.bound;
  }
  if (percent) to = std::min(to, 100.0);
  if (to == 0.0) to = 1.0;  // nothing of it is allowed now: up to one of its unit
  from = path.asked.from.value_or(std::min(from, path.asked.to.value_or(from)));
  to = path.asked.to.value_or(std::max(from, to));
  return {from, to};
}

std::optional<double> need_of(const HorseAnswer& answer, const RowMeaning& row) {
  if (row.family != RowFamily::need || row.side != Side::upper) return std::nullopt;
  for (const Requirement& need : answer.question.needs.rows) {
    if (need.nutrient == row.nutrient) return need.floor;
  }
  return std::nullopt;
}

LimitPath limit_path(const HorseAnswer& answer, const LimitAsked& asked, bool& proven) {
  LimitPath path;
  path.asked = asked;
  const bool found = answer.status == AnswerStatus::found;
  if (asked.id.empty()) {
    if (!found) return path;
    const int most = std::max(1, bucket_feeds_asked(answer.question.horse));
    path.counts =
        bucket_counts(answer.question, answer.formulation, answer.certificate.lower_bound, most);
    return path;
  }
  path.limit = movable_limit(answer.question, answer.formulation, asked.id,
                             found ? answer.solution.columns : std::vector<double>{});
  if (!path.limit) return path;
  const auto [from, to] = limit_range(path);
  path.frontier = frontier(path.limit->formulation, asked.id, from, to);
  path.need = need_of(answer, path.frontier.row);
  for (const FrontierCorner& corner : path.frontier.corners) {
    path.certificates.push_back(proof(with_bound(path.limit->formulation, asked.id, corner.bound),
                                      corner.cost.in_units(), proven));
  }
  return path;
}

// The offers that are not worth weighing out in the cheapest ration.
std::vector<PricePath> left_out(const HorseAnswer& answer) {
  std::vector<PricePath> unused;
  for (const EntryPrice& entry : answer.explanation->unused) {
    const Offer& offer = answer.question.offers[entry.offer];
    if (answer.question.grazes(entry.offer)) continue;
    PricePath path;
    path.asked.feed = offer.name;
    path.asked.pack = pack_of(offer);
    path.offer = entry.offer;
    path.offers = answer.question.offers;
    path.formulation = answer.formulation;
    path.amounts_now = answer.solution.columns;
    path.value = feed_value(answer.question, answer.formulation, entry.offer);
    unused.push_back(std::move(path));
  }
  return unused;
}

std::string after_per(const std::string& written) {
  const auto per = written.rfind("per ");
  return per == std::string::npos ? "" : written.substr(per + 4);
}

}  // namespace

Pack pack_of(const Offer& offer) {
  if (!offer.price_basis) return {"kg", KgAsFed{1.0}};
  std::string words = after_per(offer.price_basis->written);
  if (words.empty()) return {"kg", KgAsFed{1.0}};
  return {std::move(words), offer.price_basis->amount};
}

Pack usual_pack(FeedGroup group) {
  switch (group) {
    case FeedGroup::grass:
    case FeedGroup::hay:
    case FeedGroup::haylage:
    case FeedGroup::straw:
      return {"tonne", KgAsFed{1000.0}};
    case FeedGroup::mineral:
    case FeedGroup::supplement:
    case FeedGroup::oil:
      return {"kg", KgAsFed{1.0}};
    default:
      return {"20 kg bag", KgAsFed{20.0}};
  }
}

HorseCurves curves_for(const HorseAnswer& answer, const CurvesAsked& asked) {
  HorseCurves curves;
  const bool found = answer.status == AnswerStatus::found;
  if (!found && answer.status != AnswerStatus::none) return curves;
  for (const PriceAsked& price : asked.prices) {
    if (!found && !price.supposed) continue;
    curves.prices.push_back(price_path(answer, price, curves.proven));
  }
  for (const LimitAsked& limit : asked.limits) {
    curves.limits.push_back(limit_path(answer, limit, curves.proven));
  }
  if (found) curves.unused = left_out(answer);
  return curves;
}

}  // namespace haymow
