// What has been found wrong or doubtful in one file so far. Reading goes on
// after a mistake, so that a keeper sees all of them at once.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feeds/diagnostic.h"

namespace haymow {

/// A stretch of a file: where it starts and how many characters it covers.
struct SourceSpan {
  SourcePosition position;
  int width = 1;
};

/// The text of a message; `note` and `help` may be empty.
struct Complaint {
  std::string message;
  std::string help;
  std::string note;
};

class Findings {
 public:
  /// `text` is the whole file; it is kept for the lines that messages show. Where it
  /// is a part of the file, `first_line` is the number of its first line there.
  Findings(std::string_view text, std::string file, int first_line = 1);

  void error(const SourceSpan& at, Complaint complaint);
  /// A warning: something was assumed, or is odd.
  void remark(const SourceSpan& at, Complaint complaint);

  /// The position of byte `offset` of the text [line and column from 1].
  [[nodiscard]] SourcePosition position_of(std::size_t offset) const;
  /// The position of a byte counted within its line, both from 0.
  [[nodiscard]] SourcePosition position_in(std::size_t line, std::size_t byte) const;
  /// The byte of the text that is byte `byte` of line `line`, both from 0.
  [[nodiscard]] std::size_t offset_of(std::size_t line, std::size_t byte) const;
  /// A line without its line break, `line` from 1; empty beyond the text.
  [[nodiscard]] std::string_view line_text(int line) const;
  [[nodiscard]] int line_count() const { return static_cast<int>(line_starts_.size()); }
  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] std::string_view text() const { return text_; }

  [[nodiscard]] std::size_t error_count() const { return errors_.size(); }
  /// Takes over the errors of another reading of the same text that are not here. Those
  /// that stand before `line` get the note, which says in which reading they arose.
  void take_over(const Findings& other, int line, const std::string& note);
  /// Throws InputError with every error in file order; returns when there is none.
  void throw_if_any() const;
  /// The warnings, in file order.
  [[nodiscard]] std::vector<Diagnostic> remarks() const;

 private:
  [[nodiscard]] Diagnostic diagnostic(Severity severity, const SourceSpan& at,
                                      Complaint complaint) const;

  std::string text_;
  std::string file_;
  int first_line_;
  std::vector<std::size_t> line_starts_;
  std::vector<Diagnostic> errors_;
  std::vector<Diagnostic> remarks_;
};

}  // namespace haymow
