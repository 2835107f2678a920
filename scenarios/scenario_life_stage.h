// What a horse is asked to do, from the one key that says so.
#pragma once

#include <optional>

#include "feeds/findings.h"
#include "feeds/map_reader.h"
#include "model/stable.h"

namespace haymow {

/// The life stage of a horse: exactly one of `work`, `maintenance`, `stallion`,
/// `pregnant`, `lactating`, `foaling` and `age`; with `age`, `work` may stand beside it.
[[nodiscard]] std::optional<LifeStage> read_life_stage(const MapReader& horse);

}  // namespace haymow
