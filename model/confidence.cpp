#include "model/confidence.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <utility>

#include "model/normal_law.h"
#include "model/variation.h"
#include "solver/certify.h"

namespace haymow {
namespace {

// A whole-step answer that misses a guarded floor gets another tangent and another
// search; every one is at another point, and there are few.
constexpr int most_searches = 12;

// What nine batches in ten (for z = 1.28) have at least, over the mean.
double low_quantile(double coefficient, double z) {
  const double squared = std::log1p(coefficient * coefficient);
  return std::exp(-0.5 * squared - z * std::sqrt(squared));
}

bool is_floor(const RowMeaning& row) {
  return row.family == RowFamily::need && row.side == Side::lower && row.nutrient;
}

GuardedFloor guarded_floor(const RationQuestion& question, const Formulation& plain,
                           std::size_t index, double z) {
  const RowMeaning& row = plain.rows[index];
  GuardedFloor floor{index, *row.nutrient, row.part, {static_cast<int>(index), {}}};
  for (Term& term : floor.low) {
    const Offer& offer = question.offers[static_cast<std::size_t>(term.column)];
    const auto variation = variation_of(offer, floor.nutrient);
    if (!variation) continue;
    const double supplied = counted_low(offer.feed, floor.nutrient);
    if (variation->is_skewed()) {
      term.coefficient -= (1.0 - low_quantile(variation->coefficient, z)) * supplied;
    } else {
      floor.uncertain.deviations.push_back({term.column, variation->coefficient * supplied});
    }
  }
  return floor;
}

bool varies(const GuardedFloor& floor, const RowMeaning& plain) {
  if (!floor.uncertain.deviations.empty()) return true;
  return !std::equal(floor.low.begin(), floor.low.end(), plain.part.begin(), plain.part.end(),
                     [](const Term& a, const Term& b) { return a.coefficient == b.coefficient; });
}

// The plain program with the skewed figures of guarded floors set low.
LinearProgram with_low_figures(const Formulation& plain, const std::vector<GuardedFloor>& floors) {
  std::map<std::size_t, const GuardedFloor*> by_row;
  for (const GuardedFloor& floor : floors) by_row[floor.row] = &floor;
  LinearProgram program;
  for (const Column& column : plain.program.columns()) program.add_column(column);
  for (std::size_t i = 0; i < plain.rows.size(); ++i) {
    Row row = plain.program.rows()[i];
    if (const auto it = by_row.find(i); it != by_row.end()) row.terms = it->second->low;
    program.add_row(std::move(row));
  }
  return program;
}

// What a tangent row means: nothing by itself, it makes up the margin of a floor.
RowMeaning tangent_meaning(const Row& row, const RowMeaning& of_floor) {
  RowMeaning meaning;
  meaning.id = row.name;
  meaning.family = RowFamily::margin;
  meaning.side = Side::lower;
  meaning.unit = of_floor.unit;
  meaning.nutrient = of_floor.nutrient;
  meaning.part = row.terms;
  return meaning;
}

// Over the offers alone: what the floor counts, less a tangent of its margin.
void add_over_offers(Formulation& formulation, const GuardedFloor& floor,
                     const std::vector<Term>& slopes, std::size_t number) {
  RowMeaning meaning = formulation.rows[floor.row];
  meaning.id += " guarded " + std::to_string(number);
  meaning.part = floor.low;
  for (Term& term : meaning.part) {
    for (const Term& slope : slopes) {
      if (slope.column == term.column) term.coefficient -= slope.coefficient;
    }
  }
  formulation.program.add_row({meaning.id, meaning.bound, unlimited, meaning.part});
  formulation.rows.push_back(std::move(meaning));
}

class Guarding {
 public:
  Guarding(const RationQuestion& question, const Formulation& plain, double probability,
           bool with_energy)
      : plain_(plain), z_(normal_quantile(probability)) {
    promise_.probability = probability;
    promise_.energy_left_out = !with_energy;
    for (std::size_t i = 0; i < plain.rows.size(); ++i) {
      if (!is_floor(plain.rows[i])) continue;
      const Nutrient n = *plain.rows[i].nutrient;
      GuardedFloor floor = guarded_floor(question, plain, i, z_);
      if (n == Nutrient::energy && !with_energy) continue;
      if (!varies(floor, plain.rows[i])) {
        promise_.as_figured.push_back(n);
        continue;
      }
      promise_.guarded.push_back(n);
      floors_.push_back(std::move(floor));
    }
  }

  [[nodiscard]] GuardedRation solved() const {
    std::vector<UncertainRow> uncertain;
    uncertain.reserve(floors_.size());
    for (const GuardedFloor& floor : floors_) uncertain.push_back(floor.uncertain);
    GuardedSolution found = solve_guarded(with_low_figures(plain_, floors_), uncertain, z_);
    GuardedRation out;
    out.promise = promise_;
    out.z = z_;
    out.floors = floors_;
    out.solution = std::move(found.solution);
    out.largest_miss = found.largest_miss;
    out.rounds = found.rounds;
    out.formulation = over_margins(found);
    out.over_offers = over_offers(found);
    return out;
  }

 private:
  [[nodiscard]] Formulation over_margins(const GuardedSolution& found) const {
    Formulation out{found.program, plain_.rows, plain_.judged, plain_.assumed};
    for (std::size_t f = 0; f < floors_.size(); ++f) {
      out.rows[floors_[f].row].part = floors_[f].low;
      out.rows[floors_[f].row].part.push_back({found.margins[f], -1.0});
    }
    for (std::size_t t = 0; t < found.tangents.size(); ++t) {
      const Row& row = found.program.rows()[plain_.rows.size() + t];
      const GuardedFloor& floor = floors_[found.tangents[t].uncertain];
      out.rows.push_back(tangent_meaning(row, plain_.rows[floor.row]));
    }
    return out;
  }

  [[nodiscard]] Formulation over_offers(const GuardedSolution& found) const {
    Formulation out{with_low_figures(plain_, floors_), plain_.rows, plain_.judged, plain_.assumed};
    for (const GuardedFloor& floor : floors_) out.rows[floor.row].part = floor.low;
    std::size_t number = 0;
    for (const Tangent& tangent : found.tangents) {
      add_over_offers(out, floors_[tangent.uncertain], tangent.slopes, ++number);
    }
    return out;
  }

  const Formulation& plain_;
  double z_;
  Promise promise_;
  std::vector<GuardedFloor> floors_;
};

bool keeps(const GuardedFloor& floor, double bound, double z, const std::vector<double>& amounts) {
  double counted = -margin_of(floor.uncertain, z, amounts);
  for (const Term& term : floor.low) {
    counted += term.coefficient * amounts[static_cast<std::size_t>(term.column)];
  }
  return counted >= bound - guard_tolerance * std::max(1.0, std::abs(bound));
}

void check(double probability) {
  if (!(probability > 0.5 && probability < 1.0)) {
    throw std::invalid_argument("a promise is made with a probability between 1/2 and 1");
  }
}

}  // namespace

GuardedRation guarded_ration(const RationQuestion& question, const Formulation& plain,
                             double probability) {
  check(probability);
  GuardedRation all = Guarding(question, plain, probability, true).solved();
  if (all.solution.status != Status::infeasible) return all;
  GuardedRation without_energy = Guarding(question, plain, probability, false).solved();
  return without_energy.solution.status == Status::optimal ? without_energy : all;
}

std::optional<double> most_confident(const RationQuestion& question, const Formulation& plain,
                                     double asked, double step) {
  check(asked);
  const auto keeps = [&](double p) {
    return p <= 0.5 || guarded_ration(question, plain, p).solution.status == Status::optimal;
  };
  int low = 0;  // steps above one half
  int high = static_cast<int>(std::floor((asked - 0.5) / step));
  if (solve(plain.program).status != Status::optimal) return std::nullopt;
  while (low < high) {
    const int middle = (low + high + 1) / 2;
    if (keeps(0.5 + step * middle)) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return 0.5 + step * low;
}

std::optional<PracticalRation> practical_guarded(const RationQuestion& question,
                                                 const GuardedRation& guarded,
                                                 double certified_cost) {
  Formulation formulation = guarded.over_offers;
  std::size_t number = formulation.rows.size();  // unlike any name there is
  for (int search = 0; search < most_searches; ++search) {
    auto practical = practical_ration(question, formulation, certified_cost);
    if (!practical) return std::nullopt;
    bool kept = true;
    for (const GuardedFloor& floor : guarded.floors) {
      if (keeps(floor, formulation.rows[floor.row].bound, guarded.z, practical->amounts)) continue;
      add_over_offers(formulation, floor,
                      tangent_at(floor.uncertain, guarded.z, practical->amounts), ++number);
      kept = false;
    }
    if (kept) return practical;
  }
  return std::nullopt;
}

}  // namespace haymow
