// The files beside these tests.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace haymow::test_files {

/// Path of `name` in tests/scenarios.
inline std::string path_of(const std::string& name) {
  return std::string(HAYMOW_SOURCE_DIR) + "/tests/scenarios/" + name;
}

/// Every byte of a file of the source tree.
inline std::string text_at(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

inline std::string text_of(const std::string& name) { return text_at(path_of(name)); }

}  // namespace haymow::test_files
