// The tool in a browser on this computer: what is answered to what is asked. Knows no
// network (serve_page.h does) and keeps nothing in mind: the browser holds the text that
// is worked on, the folder holds the files, the worker what takes its time.
#pragma once

#include <filesystem>
#include <string>

#include "scenarios/page_worker.h"

namespace haymow {

struct PageRequest {
  std::string method;  // GET, POST
  std::string path;
  std::string host;    // as the browser says whom it asks
  std::string origin;  // of the page that asks; empty: not told
  std::string body;
};

struct PageResponse {
  int status = 200;
  std::string type = "application/json; charset=utf-8";
  std::string body;
};

/// Where the page may look, and under which name it is asked.
struct PagePlace {
  std::filesystem::path folder;  // no file outside it, nor in a folder in it
  int port = 0;
};

/// A request of more bytes is refused: the largest scenario and what is said of it.
inline constexpr std::size_t most_request_bytes = 2'500'000;

/// Never throws: what is wrong is told in the response. A host other than the loopback
/// address with the port of `place`, or another origin, gets 403.
///
/// All but the page itself is POST with a JSON object, and answers with one:
///   /files {}                           {files: [name]}
///   /open  {file}                       {text, new: there is no file yet, unsaved: text or
///                                       null}; of a new file the text is an example
///   /keep  {file, text}                 keeps unsaved work beside the file
///   /drop  {file}                       forgets it
///   /save  {file, text, was}            409 when the file is no longer `was`
///   /look  {text, file, view, what_if}  what look_at() of page_answer.h gives; `view` may
///                                       be left out, and what_if: {prices: {feed: money a
///                                       pack}, forage_share: %} in all its parts
///   /plan  {text, file, view}           {plan: number}: what takes its time is begun, and
///                                       what was begun before is stopped
///   /planned {plan}                     how far it is, what PageTasks::told gives
///   /stop  {plan}                       {stopped: it was still to be stopped}
///   /edit  {text, path, and one of words, yaml, key with yaml, item, remove}
///                                       {text}, or {refused: why}
[[nodiscard]] PageResponse respond(const PageRequest& request, const PagePlace& place,
                                   PageWorker& worker);

}  // namespace haymow
