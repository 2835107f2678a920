// Reading input whole and writing output whole or not at all.
#pragma once

#include <stdexcept>
#include <string>

namespace haymow {

/// A file that cannot be read.
class UnreadableFile : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// A file that cannot be written; nothing of it is left behind.
class UnwritableFile : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The bytes of `path`, or of standard input for `-`. Throws UnreadableFile.
[[nodiscard]] std::string read_whole(const std::string& path);

/// Writes `text` beside `path` and renames it into place. Refuses to replace a
/// file unless `overwrite`. Throws UnwritableFile.
void write_whole(const std::string& path, const std::string& text, bool overwrite);

/// Throws UnwritableFile, as write_whole would, when there is a file of that name.
void refuse_existing(const std::string& path);

/// Writes to standard output; a reader that has gone away is no error.
void print(const std::string& text);

}  // namespace haymow
