#include "scenarios/batch_records.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <utility>

#include "feeds/source_text.h"
#include "scenarios/files.h"

namespace haymow {
namespace {

constexpr std::size_t read_at_once = 65'536;

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r") == std::string_view::npos;
}

std::vector<std::string> scenario_files(const std::filesystem::path& folder) {
  std::vector<std::string> files;
  try {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
      const auto& path = entry.path();
      const bool scenario = path.extension() == ".yaml" || path.extension() == ".yml";
      if (!scenario || !entry.is_regular_file()) continue;
      files.push_back(path.lexically_relative(folder).generic_string());
    }
  } catch (const std::filesystem::filesystem_error& error) {
    throw UnreadableFile(
        fmt::format("cannot list `{}`: {}", folder.string(), error.code().message()));
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

Lines::Lines(int descriptor, std::size_t longest, const std::atomic<bool>* stop)
    : descriptor_(descriptor), longest_(longest), stop_(stop) {}

// False when there is no more, or when told to stop.
bool Lines::fill() {
  buffer_.erase(0, start_);
  start_ = 0;
  const std::size_t kept = buffer_.size();
  buffer_.resize(kept + read_at_once);
  while (true) {
    if (stop_ != nullptr && *stop_) break;
    const ssize_t count = ::read(descriptor_, buffer_.data() + kept, read_at_once);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) {
      throw UnreadableFile(fmt::format("cannot read to the end: {}", std::strerror(errno)));
    }
    buffer_.resize(kept + static_cast<std::size_t>(count));
    at_end_ = count == 0;
    return !at_end_;
  }
  buffer_.resize(kept);
  return false;
}

std::optional<Lines::Line> Lines::next() {
  Line line;
  std::size_t looked_at = start_;
  while (true) {
    const std::size_t end = buffer_.find('\n', looked_at);
    if (end != std::string::npos) {
      line.text.append(buffer_, start_, end - start_);
      given_ += end + 1 - start_;
      start_ = end + 1;
      break;
    }
    // What is beyond the longest is dropped as it comes.
    const std::size_t rest = buffer_.size() - start_;
    if (line.text.size() + rest > longest_) {
      line.text.append(buffer_, start_, rest);
      line.text.resize(std::min(line.text.size(), longest_ + 1));
      given_ += rest;
      start_ = buffer_.size();
    }
    looked_at = buffer_.size() - start_;  // where it will be after the move
    if (fill()) continue;
    if (!at_end_) return std::nullopt;  // told to stop
    if (buffer_.empty() && line.text.empty()) return std::nullopt;
    line.text += buffer_;
    given_ += buffer_.size();
    buffer_.clear();
    line.has_end = false;
    break;
  }
  line.is_cut = line.text.size() > longest_;
  if (line.is_cut) line.text.resize(longest_);
  line.end = given_;
  return line;
}

RecordSource::RecordSource(const std::string& path, const std::atomic<bool>* stop)
    : path_(path), stop_(stop) {
  std::error_code ignored;
  if (path != "-" && std::filesystem::is_directory(path, ignored)) {
    files_ = scenario_files(path);
    if (files_.empty()) {
      throw UnreadableFile(
          fmt::format("`{}` is a folder without a scenario file\nhelp: files that end in .yaml are "
                      "read",
                      path));
    }
    return;
  }
  descriptor_ = path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor_ < 0) {
    throw UnreadableFile(fmt::format("cannot read `{}`: {}", path, std::strerror(errno)));
  }
  struct stat about {};
  if (::fstat(descriptor_, &about) == 0 && S_ISREG(about.st_mode)) {
    bytes_ = static_cast<std::uint64_t>(about.st_size);
  }
  lines_.emplace(descriptor_, most_file_bytes, stop);
}

RecordSource::~RecordSource() {
  if (descriptor_ > STDIN_FILENO) ::close(descriptor_);
}

bool RecordSource::is_ready() const { return !lines_ || lines_->is_ready(); }

double RecordSource::share_read() const {
  if (!lines_) return static_cast<double>(number_.load()) / static_cast<double>(files_.size());
  return bytes_ == 0 ? 0.0 : static_cast<double>(bytes_read_.load()) / static_cast<double>(bytes_);
}

std::optional<Record> RecordSource::next() { return lines_ ? next_line() : next_file(); }

std::optional<Record> RecordSource::next_file() {
  const std::size_t at = number_;
  if (at == files_.size() || (stop_ != nullptr && *stop_)) return std::nullopt;
  Record record;
  record.path.emplace(files_[at]);
  record.number = at + 1;
  number_ = record.number;
  record.file = (std::filesystem::path(path_) / *record.path).string();
  try {
    record.text = read_whole(record.file);
  } catch (const UnreadableFile& error) {
    record.trouble = error.what();
  }
  return record;
}

std::optional<Record> RecordSource::next_line() {
  while (true) {
    auto line = lines_->next();
    if (!line) return std::nullopt;
    bytes_read_ = line->end;
    ++line_;
    if (line_ == 1) line->text = std::string(without_byte_order_mark(line->text));
    if (is_blank(line->text)) continue;
    Record record;
    record.number = ++number_;
    record.file = path_ == "-" ? "standard input" : path_;
    record.line = line_;
    if (line->is_cut) {
      record.trouble = fmt::format("this line is longer than {} bytes", most_file_bytes);
    }
    record.text = std::move(line->text);
    return record;
  }
}

}  // namespace haymow
