// What the program says to the shell when it ends.
#pragma once

namespace haymow {

enum class ExitStatus {
  done = 0,          // found and certified; for check: the file is sound
  no = 1,            // a definite no, explained
  usage = 2,         // the command line is wrong
  input = 3,         // an input file is missing, unreadable or wrong
  failed = 4,        // we failed: not certified, not writable, a bug
  interrupted = 130  // 128 + SIGINT
};

}  // namespace haymow
