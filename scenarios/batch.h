// `haymow batch`: one answer after the other for thousands of records.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/command_line.h"
#include "scenarios/exit_status.h"

namespace haymow {

/// How many records came out how.
struct BatchTally {
  std::size_t found = 0;
  std::size_t none = 0;    // a definite no for a horse of it
  std::size_t wrong = 0;   // the record has mistakes
  std::size_t failed = 0;  // our failure

  void count(std::string_view status);
  [[nodiscard]] std::size_t records() const { return found + none + wrong + failed; }
  [[nodiscard]] ExitStatus exit_status() const;
};

/// Which keys have been met and where: some 25 bytes for each, whatever its length.
class KeysMet {
 public:
  /// Of an earlier record with this key, its number; otherwise remembers `number`.
  [[nodiscard]] std::optional<std::size_t> met(std::string_view key, std::size_t number);

 private:
  void grow();
  [[nodiscard]] std::size_t slot_of(std::uint64_t key) const;

  std::vector<std::uint64_t> keys_;  // 0: free
  std::vector<std::uint32_t> numbers_;
  std::size_t used_ = 0;
};

/// Reads the records, answers and writes, until the end or until `stop` becomes true.
/// Throws InputError (of the shared scenario), UnreadableFile, UnwritableFile.
[[nodiscard]] ExitStatus batch(const Command& command, const std::atomic<bool>& stop);

/// The same, stopped by Ctrl-C and by being told to end: what is under way is finished.
[[nodiscard]] ExitStatus batch_command(const Command& command);

}  // namespace haymow
