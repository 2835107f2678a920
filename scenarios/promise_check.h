// A promise checked by drawing batches, with a fixed seed.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "model/floor_doubt.h"
#include "scenarios/run.h"

namespace haymow {

inline constexpr int promise_draws = 10'000;
inline constexpr std::uint64_t promise_seed = 20261101;

struct PromiseCheck {
  int draws = promise_draws;
  std::vector<SimulatedFloor> floors;        // those promised, in the order of the needs
  std::optional<SimulatedFloor> least_kept;  // of them
  std::optional<double> energy_kept;         // where energy was left out of the promise
};

/// Draws batches for the ration to feed. For an answer with a promise.
[[nodiscard]] PromiseCheck check_promise(const HorseAnswer& answer);

}  // namespace haymow
