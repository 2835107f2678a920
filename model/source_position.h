// Where in a file something was read, so that a message can point back to it.
#pragma once

#include <string>

namespace haymow {

/// Lines and columns count from 1. Line 0: not from a file.
struct SourcePosition {
  std::string file;
  int line = 0;
  int column = 0;
};

}  // namespace haymow
