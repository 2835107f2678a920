// What is wrong or doubtful in a file, where, and how to mend it.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "model/source_position.h"

namespace haymow {

enum class Severity { error, warning };

/// `message`: what was found and what was expected. `note`: why it matters or
/// where the other half is. `help`: how to mend it, ready to copy. The last two
/// may be empty. `source_line` is the text of the line, for the caret.
struct Diagnostic {
  Severity severity = Severity::error;
  SourcePosition position;
  std::string message;
  std::string note;
  std::string help;
  std::string source_line;
  int width = 1;  // characters the caret marks
};

/// file:line:column: error: message, the line, a caret, note and help.
/// Control characters from the file are shown escaped.
[[nodiscard]] std::string render(const Diagnostic& diagnostic);

/// All mistakes of one file, in file order.
class InputError : public std::runtime_error {
 public:
  explicit InputError(std::vector<Diagnostic> diagnostics);
  [[nodiscard]] const std::vector<Diagnostic>& diagnostics() const { return diagnostics_; }

 private:
  std::vector<Diagnostic> diagnostics_;
};

/// Up to `most` candidates within edit distance 2 (or a third of the length) of
/// `wanted`, nearest first, letter case ignored.
[[nodiscard]] std::vector<std::string> near_names(std::string_view wanted,
                                                  const std::vector<std::string>& candidates,
                                                  int most = 3);

}  // namespace haymow
