// What one record of a batch asks: a scenario in JSON or YAML, with whatever it leaves
// out taken from a scenario that all records share.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/batch_records.h"
#include "scenarios/scenario.h"

namespace haymow {

/// A number of 64 bits that tells texts apart; equal texts have equal ones. Not for
/// use against somebody who wants two texts to look alike.
[[nodiscard]] std::uint64_t digest_of(std::string_view text, std::uint64_t before = 0);

/// The scenario that records share, read once.
class SharedScenario {
 public:
  /// Throws InputError with every mistake of `text`. The horses and questions of the
  /// file are its own and not shared.
  SharedScenario(std::string_view text, const std::string& file);
  ~SharedScenario();
  SharedScenario(const SharedScenario&) = delete;
  SharedScenario& operator=(const SharedScenario&) = delete;

  [[nodiscard]] const std::vector<Diagnostic>& remarks() const;
  [[nodiscard]] std::size_t own_horses() const;  // that are not answered
  /// A feed is on hand in a limited amount, and a season says for how long.
  [[nodiscard]] bool has_stock() const;

 private:
  friend class RecordReader;
  struct Parts;
  std::unique_ptr<const Parts> parts_;
};

/// What is told of a record before it is read as a scenario.
struct RecordKey {
  std::optional<std::string> key;  // absent: it has none, or is not to be read
  std::uint64_t digest = 0;        // of the record
};

/// Reads records one after the other. Keeps a copy of what they share, so that one
/// more horse costs no more than its own line: for use on one thread.
class RecordReader {
 public:
  /// `shared` may be null, and must outlive the reader.
  explicit RecordReader(const SharedScenario* shared);

  struct Read {
    RecordKey about;
    /// Null when there are mistakes. Good until the next record is read.
    const Scenario* scenario = nullptr;
    /// The mistakes, or else what was assumed in this record; those of the shared
    /// scenario are its own.
    std::vector<Diagnostic> diagnostics;
  };
  [[nodiscard]] Read read(const Record& record);

 private:
  const SharedScenario* shared_;
  Scenario with_horses_;  // the shared scenario with the horses of the last record
  Scenario whole_;        // the last record that has more than horses
};

/// The key and digest alone.
[[nodiscard]] RecordKey key_of(const Record& record);

}  // namespace haymow
