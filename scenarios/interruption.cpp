#include "scenarios/interruption.h"

#include <unistd.h>

#include "scenarios/exit_status.h"

namespace haymow {
namespace {

// The one thing that a signal handler may write to.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables)
volatile std::sig_atomic_t was_asked = 0;

void note(int /*signal*/) {
  if (was_asked != 0) ::_exit(static_cast<int>(ExitStatus::interrupted));
  was_asked = 1;
}

void listen_to(int signal, struct sigaction& before) {
  ::sigaction(signal, nullptr, &before);
  if (before.sa_handler == SIG_IGN) return;
  struct sigaction action {};
  action.sa_handler = note;
  ::sigemptyset(&action.sa_mask);
  action.sa_flags = SA_RESTART;  // a file that is being written is written to its end
  ::sigaction(signal, &action, nullptr);
}

}  // namespace

Interruption::Interruption() {
  was_asked = 0;
  listen_to(SIGINT, on_interrupt_);
  listen_to(SIGTERM, on_end_);
}

Interruption::~Interruption() {
  ::sigaction(SIGINT, &on_interrupt_, nullptr);
  ::sigaction(SIGTERM, &on_end_, nullptr);
}

bool Interruption::asked() { return was_asked != 0; }

}  // namespace haymow
