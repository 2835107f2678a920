// The page (local_page.h) on the loopback address of this computer, for one person.
#pragma once

#include <filesystem>

namespace haymow {

struct ServeOptions {
  std::filesystem::path folder;  // whose scenario files are shown
  int port = 0;                  // 0: one that is free
  bool open_browser = true;
};

/// Says the address on standard error, and answers until Ctrl-C. Throws UsageError when
/// the port cannot be had, UnreadableFile when the folder is none.
void serve_page(const ServeOptions& options);

}  // namespace haymow
