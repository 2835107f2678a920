#include "scenarios/files.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>

namespace haymow {

std::string read_whole(const std::string& path) {
  if (path == "-") return {std::istreambuf_iterator<char>(std::cin), {}};
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) {
    throw UnreadableFile(fmt::format("`{}` is a folder, not a file", path));
  }
  std::ifstream in(path, std::ios::binary);
  if (!in) throw UnreadableFile(fmt::format("cannot read `{}`: {}", path, std::strerror(errno)));
  std::string text{std::istreambuf_iterator<char>(in), {}};
  if (in.bad()) throw UnreadableFile(fmt::format("cannot read `{}` to its end", path));
  return text;
}

void refuse_existing(const std::string& path) {
  if (!std::filesystem::exists(path)) return;
  throw UnwritableFile(fmt::format("`{}` exists; add --force to replace it", path));
}

void write_whole(const std::string& path, const std::string& text, bool overwrite) {
  if (!overwrite) refuse_existing(path);
  const std::string beside = fmt::format("{}.{}.part", path, ::getpid());
  std::ofstream out(beside, std::ios::binary);
  out << text;
  out.close();
  std::error_code error;
  if (out) std::filesystem::rename(beside, path, error);
  if (!out || error) {
    const std::string why = error ? error.message() : std::strerror(errno);
    std::error_code ignored;
    std::filesystem::remove(beside, ignored);
    throw UnwritableFile(fmt::format("cannot write `{}`: {}", path, why));
  }
}

void print(const std::string& text) {
  const bool written =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  if (!written && errno != EPIPE) {
    throw UnwritableFile(fmt::format("cannot write to standard output: {}", std::strerror(errno)));
  }
}

}  // namespace haymow
