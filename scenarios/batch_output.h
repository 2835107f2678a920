// Where the answers of a batch go: whole lines, one behind the other, to standard
// output or to a file that a later run of the same batch goes on with.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "scenarios/batch_records.h"

namespace haymow {

class BatchOutput {
 public:
  /// Standard output where `path` is absent or `-`. A file is opened or made, and
  /// kept from any other run that would write to it; `overwrite` empties it first.
  /// Throws UnwritableFile.
  BatchOutput(const std::optional<std::string>& path, bool overwrite);
  ~BatchOutput();
  BatchOutput(const BatchOutput&) = delete;
  BatchOutput& operator=(const BatchOutput&) = delete;

  /// The next line that an earlier run has left. Asked for until there is none, then
  /// cut_to.
  [[nodiscard]] std::optional<Lines::Line> next_kept();
  /// Forgets what is behind the first `bytes` of the file, and goes on there.
  void cut_to(std::uint64_t bytes);

  /// Writes whole lines. False when whoever reads standard output has gone away.
  /// Throws UnwritableFile.
  [[nodiscard]] bool write(std::string_view lines) const;
  /// Sees to it that what was written is on the disk. Throws UnwritableFile.
  void finish() const;

 private:
  [[noreturn]] void fail(std::string_view what) const;

  std::string path_;  // empty: standard output
  int descriptor_;
  std::optional<Lines> kept_;
};

}  // namespace haymow
