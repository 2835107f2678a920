#include "model/grass_check.h"

#include <algorithm>
#include <cmath>

#include "solver/certify.h"
#include "solver/solve.h"

namespace haymow {
namespace {

// Hay is put out by the armful, and told to 100 g.
constexpr KgAsFed least_hay_change{0.05};

bool is_hay(const RationQuestion& question, std::size_t offer) {
  return !question.grazes(offer) && question.offers[offer].feed.is_long_forage();
}

// What the day's grass itself decides, and is therefore no miss: its amount, and
// that more does not go in.
bool is_judged(const RowMeaning& row) {
  return row.family != RowFamily::grazing && row.family != RowFamily::stock &&
         row.id != "intake/max" && row.id != "ndf/max";
}

double as_fed(const RationQuestion& question, KgDryMatter grass) {
  return question.offers[question.grass->offer].feed.as_fed(grass).in_kg();
}

std::vector<Broken> misses_of(const Formulation& formulation, const std::vector<double>& amounts) {
  std::vector<Broken> misses = broken_rows(formulation.rows, amounts);
  std::erase_if(misses, [](const Broken& b) { return !is_judged(b.row); });
  std::stable_sort(misses.begin(), misses.end(), [](const Broken& a, const Broken& b) {
    return missed_share(a) > missed_share(b);
  });
  return misses;
}

// The rows with the bucket and the grass as they are; hay free between `least` and
// `most` of what is put out, as little changed as does.
std::optional<std::vector<double>> hay_that_mends(const RationQuestion& question,
                                                  const Formulation& formulation,
                                                  const std::vector<double>& amounts,
                                                  const GrassEnd& end, bool more) {
  LinearProgram program;
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    Column column{formulation.program.columns()[j].name, end.amounts[j], end.amounts[j], 0.0};
    if (is_hay(question, j) && more) {
      column = {column.name, amounts[j], unlimited, 1.0};
    } else if (is_hay(question, j)) {
      column = {column.name, 0.0, amounts[j], -1.0};
    }
    program.add_column(std::move(column));
  }
  for (std::size_t i = 0; i < formulation.rows.size(); ++i) {
    const RowMeaning& row = formulation.rows[i];
    Row kept = formulation.program.rows()[i];
    // A share of the barn may be used already, by a step of the scale more.
    if (row.family == RowFamily::stock) {
      kept.upper = std::max(kept.upper, row.value(amounts).value_or(0.0));
    } else if (!is_judged(row) && !(more && row.family == RowFamily::intake)) {
      continue;
    }
    program.add_row(std::move(kept));
  }
  const Solution solution = solve(program);
  if (solution.status != Status::optimal || !certify(program, solution).holds()) {
    return std::nullopt;
  }
  return solution.columns;
}

std::optional<Ration> ration_for(RationQuestion question, KgDryMatter grass) {
  question.grass->least = grass;
  question.grass->most = grass;
  const Formulation formulation = formulate(question);
  const Solution solution = solve(formulation.program);
  if (solution.status != Status::optimal || !certify(formulation.program, solution).holds()) {
    return std::nullopt;
  }
  return ration_from(question, formulation, solution.columns);
}

void judge(GrassEnd& end, const RationQuestion& question, const Formulation& formulation,
           const std::vector<double>& amounts, bool more_hay) {
  end.misses = misses_of(formulation, end.amounts);
  if (end.misses.empty()) return;
  if (const auto mended = hay_that_mends(question, formulation, amounts, end, more_hay)) {
    for (std::size_t j = 0; j < amounts.size(); ++j) {
      const KgAsFed change{(*mended)[j] - amounts[j]};
      if (!is_hay(question, j) || std::abs(change.in_kg()) < least_hay_change.in_kg()) continue;
      end.hay.push_back({j, question.offers[j].put_out(change)});
    }
    if (!end.hay.empty()) return;
  }
  end.instead = ration_for(question, end.grass);
}

}  // namespace

double missed_share(const Broken& broken) {
  const double bound = std::abs(broken.row.bound);
  if (bound == 0.0) return unlimited;  // something of what there may be none of
  return std::abs(broken.value - broken.row.bound) / bound;
}

GrassCheck check_grass(const RationQuestion& question, const Formulation& formulation,
                       const std::vector<double>& amounts) {
  const GrassToday& grass = *question.grass;
  const double grass_kg = amounts[grass.offer];
  GrassCheck check;

  check.low.grass = grass.low;
  check.low.amounts = amounts;
  check.low.amounts[grass.offer] = as_fed(question, grass.low);
  judge(check.low, question, formulation, amounts, true);

  check.high.grass = grass.high;
  check.high.amounts = amounts;
  check.high.amounts[grass.offer] = as_fed(question, grass.high);
  KgDryMatter hay;
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    if (is_hay(question, j)) hay += question.offers[j].feed.dry(KgAsFed{amounts[j]});
  }
  const KgDryMatter more = grass.high - question.offers[grass.offer].feed.dry(KgAsFed{grass_kg});
  check.high.hay_left = std::clamp(more, KgDryMatter{}, hay);
  if (hay > KgDryMatter{}) {
    const double eaten = 1.0 - check.high.hay_left / hay;
    for (std::size_t j = 0; j < amounts.size(); ++j) {
      if (is_hay(question, j)) check.high.amounts[j] *= eaten;
    }
  }
  judge(check.high, question, formulation, amounts, false);
  return check;
}

}  // namespace haymow
