// The season with amounts of any size: its least cost, proven, and a plan at that cost
// that feeds as steadily as was found.
//
// A week's optimum is one of many, and a solver's jumps from week to week. So herds are
// first fed alike for as long as their ration asks the same; such a plan keeps every row
// of the weekly program, by convexity. Its feed prices, week by week, then price every
// week's ration by itself: that gives multipliers of the weekly program, and by weak
// duality a cost that no plan goes below (certify.h). Where a week alone could do
// better than its spell, the spell is parted where the prices change, and all is solved
// again, until cost and bound meet; with a spell a week they do.
#pragma once

#include <chrono>
#include <cstddef>

#include "model/season_plan.h"
#include "model/season_program.h"
#include "solver/solution.h"
#include "solver/solve.h"

namespace haymow {

/// What is left of the time that a plan may take.
class SeasonClock {
 public:
  explicit SeasonClock(double seconds) : seconds_(seconds) {}
  explicit SeasonClock(const SeasonOptions& options)
      : seconds_(options.time_limit_seconds), watch_(options.watch), threads_(options.threads) {}
  /// Nothing once it is stopped.
  [[nodiscard]] double left_seconds() const;
  [[nodiscard]] const SeasonWatch& watch() const { return watch_; }
  [[nodiscard]] std::size_t threads() const { return threads_; }  // as of SeasonOptions
  /// To solve within what is left.
  [[nodiscard]] SolveOptions solving(bool primal_first) const;

 private:
  double seconds_;
  SeasonWatch watch_;
  std::size_t threads_ = 0;
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// A program over spells, without the rows that others imply, and its answer.
struct SpellAnswer {
  SeasonProgram program;
  Solution solution;
};
[[nodiscard]] SpellAnswer solve_spells(const SeasonQuestion& question, const SeasonParts& parts,
                                       const Spells& spells, const SeasonChoices& choices,
                                       const SeasonClock& clock);

struct SeasonRelaxation {
  /// found: certified optimal. limit_reached: `answer` may be of use, or empty; the
  /// bound of the certificate holds.
  SeasonStatus status = SeasonStatus::failed;
  SpellAnswer answer;
  Certificate certificate;  // of the answer in the weekly program
};
[[nodiscard]] SeasonRelaxation relax_season(const SeasonQuestion& question,
                                            const SeasonParts& parts, const SeasonClock& clock);

}  // namespace haymow
