// Other people's solvers, run as programs on a file, to check ours. Each is a
// Debian package that only tests use: glpk-utils, coinor-clp, coinor-cbc, lp-solve.
#pragma once

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>

namespace haymow::foreign_solvers {

/// All that `command`, run by the shell, writes to standard output.
inline std::string output_of(const std::string& command) {
  // The commands are those of the tests below. NOLINTNEXTLINE(cert-env33-c)
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  if (!pipe) {
    throw std::runtime_error("cannot run: " + command);
  }
  std::string output;
  std::array<char, 4096> part{};
  while (std::fgets(part.data(), static_cast<int>(part.size()), pipe.get()) != nullptr) {
    output += part.data();
  }
  return output;
}

/// True when `program` is found on PATH.
inline bool has(const std::string& program) {
  return !output_of("command -v " + program + " 2>/dev/null").empty();
}

/// A folder of its own for files that are gone when the test is.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "haymow-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) {
      throw std::runtime_error("cannot make a folder like " + pattern);
    }
    path_ = pattern;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(file(name)) << text;
    return file(name);
  }

 private:
  std::filesystem::path path_;
};

inline std::string text_of_file(const std::string& path) {
  std::ifstream stream(path);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The number right behind the last `label` in `text`.
inline std::optional<double> number_after(const std::string& text, const std::string& label) {
  const std::size_t place = text.rfind(label);
  if (place == std::string::npos) {
    return std::nullopt;
  }
  std::istringstream rest(text.substr(place + label.size()));
  double number = 0.0;
  return rest >> number ? std::optional(number) : std::nullopt;
}

/// The optimum by glpsol; `format` is --lp or --freemps. From the plain
/// solution file, which alone has all digits.
inline std::optional<double> glpsol_optimum(const Folder& folder, const std::string& format,
                                            const std::string& path) {
  const std::string answer = folder.file("glpsol.sol");
  output_of("glpsol " + format + " '" + path + "' -w '" + answer + "' 2>&1");
  // "s bas ROWS COLUMNS f f COST", or "s mip ROWS COLUMNS o COST".
  std::istringstream lines(text_of_file(answer));
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("s bas ")) {
      return number_after(line, " f f ");
    }
    if (line.starts_with("s mip ")) {
      return number_after(line, " o ");
    }
  }
  return std::nullopt;
}

inline std::optional<double> clp_optimum(const std::string& path) {
  return number_after(output_of("clp '" + path + "' -dualsimplex 2>&1"), "Optimal objective ");
}

inline std::optional<double> cbc_optimum(const Folder& folder, const std::string& path) {
  const std::string answer = folder.file("cbc.sol");
  output_of("cbc '" + path + "' solve solution '" + answer + "' 2>&1");
  return number_after(text_of_file(answer), "Optimal - objective value ");
}

/// By lp_solve, from free MPS.
inline std::optional<double> lp_solve_optimum(const std::string& path) {
  return number_after(output_of("lp_solve -fmps '" + path + "' -S3 2>&1"),
                      "Value of objective function: ");
}

}  // namespace haymow::foreign_solvers
