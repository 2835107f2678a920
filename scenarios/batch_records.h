// Where the records of a batch come from, one after the other: the lines of a file or
// of standard input, or the scenario files of a folder in the order of their names.
// Only the record at hand is in memory.
#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace haymow {

/// One record as it stands, unread.
struct Record {
  std::size_t number = 0;  // from 1
  std::string file;        // for messages
  int line = 1;            // where it starts in that file
  std::string text;
  /// Of a folder: the file's path in it, which is the record's key; the text is YAML.
  std::optional<std::string> path;
  /// Why there is no text: the file cannot be read, or the line is too long.
  std::optional<std::string> trouble;
};

/// The lines of an open file, without their ends. Owns nothing of the file.
class Lines {
 public:
  /// `stop`: when it becomes true, a wait for more input ends as the file would;
  /// may be null. Lines longer than `longest` bytes are cut there.
  Lines(int descriptor, std::size_t longest, const std::atomic<bool>* stop);

  struct Line {
    std::string text;
    bool is_cut = false;    // longer than the longest
    bool has_end = true;    // false: the file ends without a line end
    std::uint64_t end = 0;  // bytes of the file up to here, with the line end
  };
  /// The next line; absent at the end of the file, or when told to stop. Throws
  /// UnreadableFile.
  [[nodiscard]] std::optional<Line> next();
  /// True when a whole line is at hand without a wait.
  [[nodiscard]] bool is_ready() const { return buffer_.find('\n', start_) != std::string::npos; }

 private:
  [[nodiscard]] bool fill();

  int descriptor_;
  std::size_t longest_;
  const std::atomic<bool>* stop_;
  std::string buffer_;
  std::size_t start_ = 0;  // of what has not been given away
  bool at_end_ = false;
  std::uint64_t given_ = 0;
};

class RecordSource {
 public:
  /// `path`: a file of JSON lines, `-` for standard input, or a folder. Throws
  /// UnreadableFile.
  RecordSource(const std::string& path, const std::atomic<bool>* stop);
  ~RecordSource();
  RecordSource(const RecordSource&) = delete;
  RecordSource& operator=(const RecordSource&) = delete;

  /// The next record; absent at the end. Blank lines are none.
  [[nodiscard]] std::optional<Record> next();
  /// True when the next one is there without a wait.
  [[nodiscard]] bool is_ready() const;
  /// How much of all has been read, 0 to 1; 0 where it is not known how much there is.
  /// May be asked for while another thread reads.
  [[nodiscard]] double share_read() const;

 private:
  [[nodiscard]] std::optional<Record> next_file();
  [[nodiscard]] std::optional<Record> next_line();

  std::string path_;
  const std::atomic<bool>* stop_;
  int descriptor_ = -1;
  std::optional<Lines> lines_;
  std::uint64_t bytes_ = 0;  // of the file; 0: not known
  std::atomic<std::uint64_t> bytes_read_ = 0;
  int line_ = 0;
  std::atomic<std::size_t> number_ = 0;
  std::vector<std::string> files_;  // of a folder
};

}  // namespace haymow
