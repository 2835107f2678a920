// A line of what `haymow batch` writes: the answer to one record as one JSON object.
// docs/reference/report.schema.json says what the keys are.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/batch_reader.h"
#include "scenarios/run.h"

namespace haymow {

/// How the line begins, up to and with the digest, by which an answer is known to be
/// that of a record. `digest` is also of what the records share.
[[nodiscard]] std::string batch_line_head(const RecordKey& about);

/// The key under which the status stands, right behind the head.
inline constexpr std::string_view status_key = ",\"status\":\"";

/// The line of an answered record, with its end. `full`: all that `ration` says.
[[nodiscard]] std::string batch_line(const RecordKey& about, const Scenario& scenario,
                                     const std::vector<HorseAnswer>& answers,
                                     const std::vector<Diagnostic>& remarks, bool full);

/// The line of a record with mistakes in it (`status` is "input"), or one that met a
/// fault of ours ("failed").
[[nodiscard]] std::string batch_line(const RecordKey& about, std::string_view status,
                                     const std::vector<Diagnostic>& diagnostics);

}  // namespace haymow
