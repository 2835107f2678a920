// A program like that of one horse's ration, from a seed: 60 feeds, 45 rows,
// about 79 of 100 coefficients there. The figures are invented; their sizes
// are those of energy (MJ), protein (g), minerals (mg) and vitamins (IU) in a
// kilogram of dry matter, so that rows differ by a factor of 100 000.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "solver/linear_program.h"

namespace haymow::bench {

inline constexpr int feed_count = 60;
inline constexpr int nutrient_count = 20;  // a floor and a ceiling each: 40 rows of the 45

class RationMaker {
 public:
  explicit RationMaker(std::uint32_t seed) : random_(seed) {}

  LinearProgram make() {
    LinearProgram program;
    for (int feed = 0; feed < feed_count; ++feed) {
      program.add_column({.name = "feed" + std::to_string(feed), .cost = between(0.15, 1.2)});
      mixture_.push_back(feed < feed_count / 3 ? between(0.0, 1.0) : between(0.0, 0.2));
    }
    double total = 0.0;
    for (const double part : mixture_) {
      total += part;
    }
    for (double& part : mixture_) {
      part *= dry_matter / total;
    }
    for (int nutrient = 0; nutrient < nutrient_count; ++nutrient) {
      add_nutrient(program, nutrient);
    }
    add_row(program, "dry_matter", {}, 0.9, 1.15);
    add_row(program, "forage", forage_flags(), 0.8, unlimited);
    add_ratio(program, "calcium_to_phosphorus");
    add_ratio(program, "zinc_to_copper");
    add_ratio(program, "lysine_to_protein");
    return program;
  }

 private:
  static constexpr double dry_matter = 10.0;  // kg a day of the mixture rows are drawn around

  double between(double low, double high) {
    // Straight from the generator: std distributions differ between libraries.
    const double unit = static_cast<double>(random_()) / 4294967296.0;
    return low + (high - low) * unit;
  }

  std::vector<double> forage_flags() {
    std::vector<double> flags(static_cast<std::size_t>(feed_count), 0.0);
    std::fill_n(flags.begin(), feed_count / 3, 1.0);
    return flags;
  }

  /// A floor and a ceiling around what the mixture supplies, as two rows.
  void add_nutrient(LinearProgram& program, int nutrient) {
    const double size = std::pow(10.0, between(-0.5, 4.5));
    std::vector<double> contents;
    for (int feed = 0; feed < feed_count; ++feed) {
      const double spread = between(0.2, 1.8);
      contents.push_back(between(0.0, 1.0) < 0.82 ? size * spread : 0.0);
    }
    const std::string name = "nutrient" + std::to_string(nutrient);
    add_row(program, name + "_min", contents, between(0.85, 1.0), unlimited);
    add_row(program, name + "_max", contents, -unlimited, between(1.1, 2.5));
  }

  /// `low` and `high` as parts of what the mixture has of the row.
  void add_row(LinearProgram& program, std::string name, std::vector<double> contents, double low,
               double high) {
    if (contents.empty()) {
      contents.assign(static_cast<std::size_t>(feed_count), 1.0);
    }
    Row row{.name = std::move(name)};
    double supplied = 0.0;
    for (int feed = 0; feed < feed_count; ++feed) {
      const auto index = static_cast<std::size_t>(feed);
      if (contents[index] != 0.0) {
        row.terms.push_back({feed, contents[index]});
        supplied += contents[index] * mixture_[index];
      }
    }
    row.lower = std::isinf(low) ? low : low * supplied;
    row.upper = std::isinf(high) ? high : high * supplied;
    program.add_row(std::move(row));
  }

  /// One nutrient at least so many times another, with room at the mixture.
  void add_ratio(LinearProgram& program, std::string name) {
    std::vector<double> first;
    std::vector<double> second;
    double supplied_first = 0.0;
    double supplied_second = 0.0;
    for (const double part : mixture_) {
      first.push_back(between(1.0, 15.0));
      second.push_back(between(1.0, 8.0));
      supplied_first += first.back() * part;
      supplied_second += second.back() * part;
    }
    const double ratio = 0.9 * supplied_first / supplied_second;
    Row row{.name = std::move(name), .lower = 0.0};
    for (int feed = 0; feed < feed_count; ++feed) {
      const auto index = static_cast<std::size_t>(feed);
      row.terms.push_back({feed, first[index] - ratio * second[index]});
    }
    program.add_row(std::move(row));
  }

  std::mt19937 random_;
  std::vector<double> mixture_;  // kg of each feed: satisfies every row
};

inline LinearProgram ration_program(std::uint32_t seed) { return RationMaker(seed).make(); }

}  // namespace haymow::bench
