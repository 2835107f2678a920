#include "feeds/findings.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "feeds/plain_text.h"

namespace haymow {
namespace {

/// Kept at most; a file with more is not a scenario at all, and memory is finite.
constexpr std::size_t most_kept = 1000;

std::vector<Diagnostic> in_file_order(std::vector<Diagnostic> diagnostics) {
  const auto place = [](const Diagnostic& d) {
    return std::make_tuple(d.position.line, d.position.column);
  };
  std::stable_sort(diagnostics.begin(), diagnostics.end(),
                   [&](const auto& a, const auto& b) { return place(a) < place(b); });
  return diagnostics;
}

/// The same mistake is never told twice, however often it is met.
bool already(const std::vector<Diagnostic>& told, const SourceSpan& at,
             const Complaint& complaint) {
  return std::any_of(told.begin(), told.end(), [&](const Diagnostic& d) {
    return d.position.line == at.position.line && d.position.column == at.position.column &&
           d.message == complaint.message;
  });
}

}  // namespace

Findings::Findings(std::string_view text, std::string file, int first_line)
    : text_(text), file_(std::move(file)), first_line_(first_line), line_starts_{0} {
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (text_[i] == '\n') line_starts_.push_back(i + 1);
  }
}

std::string_view Findings::line_text(int line) const {
  const int of_text = line - first_line_;  // from 0
  if (of_text < 0 || of_text >= line_count()) return {};
  const std::size_t start = line_starts_[static_cast<std::size_t>(of_text)];
  const std::size_t end = std::min(text_.find('\n', start), text_.size());
  std::string_view found = std::string_view(text_).substr(start, end - start);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return found;
}

SourcePosition Findings::position_in(std::size_t line, std::size_t byte) const {
  const int number = static_cast<int>(line) + first_line_;
  const std::size_t before = character_count(line_text(number).substr(0, byte));
  return {file_, number, static_cast<int>(before) + 1};
}

std::size_t Findings::offset_of(std::size_t line, std::size_t byte) const {
  return line < line_starts_.size() ? line_starts_[line] + byte : text_.size();
}

SourcePosition Findings::position_of(std::size_t offset) const {
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - line_starts_.begin()) - 1;
  return position_in(line, offset - line_starts_[line]);
}

Diagnostic Findings::diagnostic(Severity severity, const SourceSpan& at,
                                Complaint complaint) const {
  return {severity,
          at.position,
          std::move(complaint.message),
          std::move(complaint.note),
          std::move(complaint.help),
          at.position.file == file_ ? std::string(line_text(at.position.line)) : "",
          at.width};
}

void Findings::error(const SourceSpan& at, Complaint complaint) {
  if (errors_.size() >= most_kept || already(errors_, at, complaint)) return;
  errors_.push_back(diagnostic(Severity::error, at, std::move(complaint)));
}

void Findings::remark(const SourceSpan& at, Complaint complaint) {
  if (remarks_.size() >= most_kept || already(remarks_, at, complaint)) return;
  remarks_.push_back(diagnostic(Severity::warning, at, std::move(complaint)));
}

void Findings::take_over(const Findings& other, int line, const std::string& note) {
  for (const Diagnostic& d : other.errors_) {
    const bool before = d.position.line < line;
    const std::string joint = d.note.empty() ? "" : "; ";
    error({d.position, d.width}, {d.message, d.help, before ? d.note + joint + note : d.note});
  }
}

void Findings::throw_if_any() const {
  if (!errors_.empty()) throw InputError(in_file_order(errors_));
}

std::vector<Diagnostic> Findings::remarks() const { return in_file_order(remarks_); }

}  // namespace haymow
