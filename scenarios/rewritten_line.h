// One line on standard error that is rewritten in place and gone at the end: for a person
// who looks on while something long is done.
#pragma once

#include <cstddef>
#include <string>

namespace haymow {

class RewrittenLine {
 public:
  /// Not `shown`: nothing is ever written. `width`: columns of the terminal, so that the
  /// line stays one.
  RewrittenLine(bool shown, int width) : shown_(shown), width_(width) {}
  ~RewrittenLine() { write({}); }
  RewrittenLine(const RewrittenLine&) = delete;
  RewrittenLine& operator=(const RewrittenLine&) = delete;

  /// In the place of what stands there; an empty text takes the line away.
  void write(std::string text);

 private:
  bool shown_;
  int width_;
  std::size_t written_ = 0;  // letters in the line now
};

}  // namespace haymow
