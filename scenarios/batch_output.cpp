#include "scenarios/batch_output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "scenarios/files.h"

namespace haymow {
namespace {

// The longest line that can have been written: a full answer for a yard of hundreds.
constexpr std::size_t longest_answer = 500'000'000;
constexpr mode_t readable_by_all = 0666;  // less what the umask takes away

}  // namespace

BatchOutput::BatchOutput(const std::optional<std::string>& path, bool overwrite)
    : path_(path && *path != "-" ? *path : ""), descriptor_(STDOUT_FILENO) {
  if (path_.empty()) return;
  descriptor_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, readable_by_all);
  if (descriptor_ < 0) fail("cannot write");
  if (::flock(descriptor_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
    ::close(descriptor_);
    throw UnwritableFile(fmt::format(
        "another run is writing to `{}`\nhelp: wait for it, or name another file", path_));
  }
  if (overwrite) cut_to(0);
  kept_.emplace(descriptor_, longest_answer, nullptr);
}

BatchOutput::~BatchOutput() {
  if (!path_.empty()) ::close(descriptor_);
}

void BatchOutput::fail(std::string_view what) const {
  throw UnwritableFile(fmt::format("{} `{}`: {}", what, path_.empty() ? "standard output" : path_,
                                   std::strerror(errno)));
}

std::optional<Lines::Line> BatchOutput::next_kept() { return kept_ ? kept_->next() : std::nullopt; }

void BatchOutput::cut_to(std::uint64_t bytes) {
  if (path_.empty()) return;
  const auto end = static_cast<off_t>(bytes);
  // What cannot be cut, such as a pipe or /dev/null, has kept nothing either.
  if (::lseek(descriptor_, 0, SEEK_END) > end && ::ftruncate(descriptor_, end) != 0) {
    fail("cannot cut");
  }
  static_cast<void>(::lseek(descriptor_, end, SEEK_SET));
  kept_.reset();
}

bool BatchOutput::write(std::string_view lines) const {
  while (!lines.empty()) {
    const ssize_t count = ::write(descriptor_, lines.data(), lines.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0 && errno == EPIPE && path_.empty()) return false;
    if (count < 0) fail("cannot write");
    lines.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

void BatchOutput::finish() const {
  if (path_.empty()) return;
  // Not every file has a disk below it.
  if (::fsync(descriptor_) != 0 && errno != EINVAL && errno != EROFS) fail("cannot write");
}

}  // namespace haymow
