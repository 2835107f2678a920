// Ctrl-C and a request to end, while a long command is at work: noticed, not obeyed at
// once, so that what is known can still be told. A second one ends the program there
// and then. Only commands that ask now and then whether to stop may hold one.
#pragma once

#include <csignal>

namespace haymow {

class Interruption {
 public:
  /// Listens to SIGINT and SIGTERM until it is destroyed; not to one that was ignored
  /// when the program began, as in the background of a script.
  Interruption();
  ~Interruption();
  Interruption(const Interruption&) = delete;
  Interruption& operator=(const Interruption&) = delete;

  [[nodiscard]] static bool asked();

 private:
  struct sigaction on_interrupt_ {};  // as they were before
  struct sigaction on_end_ {};
};

}  // namespace haymow
