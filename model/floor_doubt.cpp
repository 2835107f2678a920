#include "model/floor_doubt.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

#include "model/normal_law.h"
#include "model/variation.h"

namespace haymow {
namespace {

constexpr double nine_tenths = 0.9;

// What one offer puts into a floor.
struct Part {
  std::size_t offer = 0;
  double mean = 0.0;
  double deviation = 0.0;  // 0: known exactly
  bool skewed = false;
};

// The floor's row: supply - `asked` >= floor. What oil asks of vitamin E is in the
// coefficients of the row, so the parts are read from it.
struct Floor {
  Nutrient nutrient = Nutrient::energy;
  double bound = 0.0;
  std::vector<Part> parts;
  [[nodiscard]] bool varies() const {
    return std::any_of(parts.begin(), parts.end(), [](const Part& p) { return p.deviation > 0.0; });
  }
};

std::vector<Floor> floors_of(const RationQuestion& question, const std::vector<double>& amounts) {
  std::vector<Floor> floors;
  for (const Requirement& need : question.needs.rows) {
    if (!need.floor || !need.forced) continue;
    Floor floor{need.nutrient, *need.floor, {}};
    for (std::size_t j = 0; j < question.offers.size(); ++j) {
      if (amounts[j] <= 0.0) continue;
      const Offer& offer = question.offers[j];
      const double mean = counted_as_floor(question, offer, need.nutrient) * amounts[j];
      if (mean == 0.0) continue;
      const auto variation = variation_of(offer, need.nutrient);
      const double supplied = counted_low(offer.feed, need.nutrient) * amounts[j];
      floor.parts.push_back({j, mean, variation ? variation->coefficient * supplied : 0.0,
                             variation && variation->is_skewed()});
    }
    floors.push_back(std::move(floor));
  }
  return floors;
}

// A log-normal law by its mean and deviation.
struct LogNormal {
  LogNormal(double mean, double deviation)
      : sigma(std::sqrt(std::log1p(deviation * deviation / (mean * mean)))),
        mu(std::log(mean) - 0.5 * sigma * sigma) {}
  [[nodiscard]] double at(double z) const { return std::exp(mu + sigma * z); }
  double sigma;
  double mu;
};

// Portable over machines, unlike std::normal_distribution (Box & Muller 1958).
class NormalDraws {
 public:
  explicit NormalDraws(std::uint64_t seed) : engine_(seed) {}
  double next() {
    if (spare_used_) {
      const double radius = std::sqrt(-2.0 * std::log(uniform()));
      const double angle = 2.0 * std::numbers::pi * uniform();
      spare_ = radius * std::sin(angle);
      spare_used_ = false;
      return radius * std::cos(angle);
    }
    spare_used_ = true;
    return spare_;
  }

 private:
  // Above 0, at most 1: 53 bits.
  double uniform() { return (static_cast<double>(engine_() >> 11U) + 1.0) * 0x1.0p-53; }
  std::mt19937_64 engine_;
  double spare_ = 0.0;
  bool spare_used_ = true;
};

// The sum of a floor's parts: the normal ones as one normal law, the skewed ones as
// equally likely values: quantiles of the one there is, or draws of several, whose
// sum has no law with a name.
class Supplied {
 public:
  explicit Supplied(const Floor& floor) {
    double squares = 0.0;
    std::vector<Part> skewed;
    for (const Part& part : floor.parts) {
      expected_ += part.mean;
      if (part.skewed) {
        skewed.push_back(part);
      } else {
        mean_ += part.mean;
        squares += part.deviation * part.deviation;
      }
    }
    deviation_ = std::sqrt(squares);
    add_values(skewed);
  }

  [[nodiscard]] double expected() const { return expected_; }

  /// Probability that the supply reaches `least`.
  [[nodiscard]] double reaches(double least) const {
    double sum = 0.0;
    for (const double value : values_) sum += normal_reaches(least - value);
    return sum / static_cast<double>(values_.size());
  }

  /// The supply that is reached with probability `p`: halving, as it falls steadily.
  [[nodiscard]] double reached_with(double p) const {
    const auto [least, most] = std::minmax_element(values_.begin(), values_.end());
    double low = mean_ + *least - 10.0 * deviation_;
    double high = mean_ + *most + 10.0 * deviation_;
    for (int k = 0; k < 60; ++k) {
      const double middle = 0.5 * (low + high);
      (reaches(middle) >= p ? low : high) = middle;
    }
    return low;
  }

 private:
  void add_values(const std::vector<Part>& skewed) {
    if (skewed.empty()) {
      values_.push_back(0.0);
    } else if (skewed.size() == 1) {
      const LogNormal law(skewed[0].mean, skewed[0].deviation);
      for (const double z : middle_quantiles()) values_.push_back(law.at(z));
    } else {
      NormalDraws normal(draw_seed);
      for (int d = 0; d < draws_of_sums; ++d) {
        double sum = 0.0;
        for (const Part& part : skewed)
          sum += LogNormal(part.mean, part.deviation).at(normal.next());
        values_.push_back(sum);
      }
    }
  }

  // Of equally likely slices of the standard normal law.
  static const std::vector<double>& middle_quantiles() {
    static const std::vector<double> quantiles = [] {
      std::vector<double> out;
      for (int k = 0; k < slices; ++k) out.push_back(normal_quantile((k + 0.5) / slices));
      return out;
    }();
    return quantiles;
  }

  [[nodiscard]] double normal_reaches(double least) const {
    if (deviation_ > 0.0) return normal_probability((mean_ - least) / deviation_);
    return mean_ >= least ? 1.0 : 0.0;
  }

  static constexpr int slices = 400;
  static constexpr int draws_of_sums = 2000;
  static constexpr std::uint64_t draw_seed = 1;

  double expected_ = 0.0;
  double mean_ = 0.0;  // of all but the skewed parts
  double deviation_ = 0.0;
  std::vector<double> values_;  // of the skewed parts together
};

double share_kept(const Floor& floor, int draws, NormalDraws& normal) {
  int kept = 0;
  for (int d = 0; d < draws; ++d) {
    double supplied = 0.0;
    for (const Part& part : floor.parts) {
      if (part.deviation <= 0.0) {
        supplied += part.mean;
      } else if (part.skewed) {
        supplied += LogNormal(part.mean, part.deviation).at(normal.next());
      } else {
        supplied += part.mean + part.deviation * normal.next();
      }
    }
    if (supplied >= floor.bound) ++kept;
  }
  return static_cast<double>(kept) / draws;
}

}  // namespace

std::vector<FloorDoubt> floor_doubts(const RationQuestion& question,
                                     const std::vector<double>& amounts) {
  std::vector<FloorDoubt> doubts;
  for (const Floor& floor : floors_of(question, amounts)) {
    if (!floor.varies()) continue;
    const Supplied supplied(floor);
    const auto most =
        std::max_element(floor.parts.begin(), floor.parts.end(),
                         [](const Part& a, const Part& b) { return a.deviation < b.deviation; });
    doubts.push_back({floor.nutrient, floor.bound, supplied.expected(),
                      supplied.reaches(floor.bound), supplied.reached_with(nine_tenths),
                      most->offer});
  }
  std::stable_sort(doubts.begin(), doubts.end(),
                   [](const FloorDoubt& a, const FloorDoubt& b) { return a.kept < b.kept; });
  return doubts;
}

std::vector<SimulatedFloor> simulate(const RationQuestion& question,
                                     const std::vector<double>& amounts, int draws,
                                     std::uint64_t seed) {
  std::vector<SimulatedFloor> floors;
  NormalDraws normal(seed);
  for (const Floor& floor : floors_of(question, amounts)) {
    if (floor.varies()) floors.push_back({floor.nutrient, share_kept(floor, draws, normal)});
  }
  return floors;
}

}  // namespace haymow
