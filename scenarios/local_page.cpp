#include "scenarios/local_page.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "scenarios/commands.h"
#include "scenarios/files.h"
#include "scenarios/page/embedded.h"
#include "scenarios/page_answer.h"
#include "scenarios/page_edit.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

/// What the browser did not ask rightly; the status tells which kind of wrong.
struct Refused : std::runtime_error {
  Refused(int how, const std::string& why) : std::runtime_error(why), status(how) {}
  int status;
};

bool ends_as_scenario(const std::string& name) {
  return name.ends_with(".yaml") || name.ends_with(".yml");
}

// A file of the folder itself: no way out of it, no link that leads out.
fs::path file_in(const PagePlace& place, const std::string& name) {
  const bool plain = !name.empty() && name.size() <= 200 && name.front() != '.' &&
                     name.find_first_of("/\\:") == std::string::npos &&
                     name.find('\0') == std::string::npos && ends_as_scenario(name);
  if (!plain) {
    throw Refused(403, fmt::format("`{}` is no name of a scenario file in this folder", name));
  }
  const fs::path path = place.folder / name;
  std::error_code error;
  const auto kind = fs::symlink_status(path, error).type();
  if (kind != fs::file_type::regular && kind != fs::file_type::not_found) {
    throw Refused(403, fmt::format("`{}` is not a plain file", name));
  }
  return path;
}

// Beside the file, and not shown by `ls`.
fs::path unsaved_of(const fs::path& file) {
  return file.parent_path() / ("." + file.filename().string() + ".unsaved");
}

std::optional<std::string> text_if_there(const fs::path& path) {
  std::error_code error;
  if (fs::symlink_status(path, error).type() != fs::file_type::regular) return std::nullopt;
  return read_whole(path.string());
}

std::string text_of(const Json& asked, const char* key) {
  const auto found = asked.find(key);
  if (found == asked.end() || !found->is_string()) {
    throw Refused(400, fmt::format("`{}` is missing, or no text", key));
  }
  return found->get<std::string>();
}

Json files(const PagePlace& place) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(place.folder)) {
    const std::string name = entry.path().filename().string();
    if (entry.symlink_status().type() == fs::file_type::regular && name.front() != '.' &&
        ends_as_scenario(name)) {
      names.insert(name);
    }
  }
  return {{"files", names}};
}

Json open(const Json& asked, const PagePlace& place) {
  const fs::path path = file_in(place, text_of(asked, "file"));
  const auto text = text_if_there(path);
  const auto unsaved = text_if_there(unsaved_of(path));
  return {{"text", text ? *text : starter_scenario()},
          {"new", !text.has_value()},
          {"unsaved", unsaved ? Json(*unsaved) : Json(nullptr)}};
}

Json keep(const Json& asked, const PagePlace& place) {
  const fs::path path = unsaved_of(file_in(place, text_of(asked, "file")));
  write_whole(path.string(), text_of(asked, "text"), true);
  return {{"kept", true}};
}

Json drop(const Json& asked, const PagePlace& place) {
  std::error_code error;
  fs::remove(unsaved_of(file_in(place, text_of(asked, "file"))), error);
  return {{"dropped", !error}};
}

Json save(const Json& asked, const PagePlace& place) {
  const fs::path path = file_in(place, text_of(asked, "file"));
  const auto there = text_if_there(path);
  const auto was = asked.find("was");
  const bool as_known =
      there ? was != asked.end() && was->is_string() && was->get<std::string>() == *there
            : was == asked.end() || was->is_null();
  if (!as_known) {
    throw Refused(409,
                  "the file is another than when it was opened: somebody else has written it. "
                  "Save under another name, or open it again");
  }
  write_whole(path.string(), text_of(asked, "text"), true);
  std::error_code error;
  fs::remove(unsaved_of(path), error);
  return {{"saved", true}};
}

PageView view_of(const Json& asked) {
  if (!asked.contains("view")) return PageView::ration;
  const auto view = page_view_named(text_of(asked, "view"));
  if (!view) throw Refused(400, "`view` is none of those that were offered");
  return *view;
}

double number_of(const Json& value, const std::string& what) {
  if (!value.is_number()) throw Refused(400, fmt::format("`{}` is no number", what));
  return value.get<double>();
}

std::optional<SlidersAsked> sliders_of(const Json& asked) {
  const auto what_if = asked.find("what_if");
  if (what_if == asked.end() || what_if->is_null()) return std::nullopt;
  if (!what_if->is_object()) throw Refused(400, "`what_if` is no JSON object");
  SlidersAsked sliders;
  if (const auto prices = what_if->find("prices"); prices != what_if->end()) {
    if (!prices->is_object()) throw Refused(400, "`prices` is no JSON object");
    for (const auto& [name, price] : prices->items()) {
      sliders.prices.insert_or_assign(name, number_of(price, "prices"));
    }
  }
  if (const auto share = what_if->find("forage_share"); share != what_if->end()) {
    sliders.forage_share = number_of(*share, "forage_share");
  }
  return sliders;
}

PageTasks::Number plan_of(const Json& asked) {
  const auto found = asked.find("plan");
  if (found == asked.end() || !found->is_number_unsigned()) {
    throw Refused(400, "`plan` is missing, or no number of one");
  }
  return found->get<PageTasks::Number>();
}

Json plan(const Json& asked, PageWorker& worker) {
  const PageView view = view_of(asked);
  if (!takes_its_time(view)) throw Refused(400, "`view` is answered by /look");
  return {{"plan", worker.ask({std::string(name_of(view)), text_of(asked, "text"),
                               text_of(asked, "file")})}};
}

Json answer_to(const std::string& path, const Json& asked, const PagePlace& place,
               PageWorker& worker) {
  if (path == "/files") return files(place);
  if (path == "/open") return open(asked, place);
  if (path == "/keep") return keep(asked, place);
  if (path == "/drop") return drop(asked, place);
  if (path == "/save") return save(asked, place);
  if (path == "/look") {
    return look_at(text_of(asked, "text"), text_of(asked, "file"), view_of(asked),
                   sliders_of(asked));
  }
  if (path == "/plan") return plan(asked, worker);
  if (path == "/planned") return worker.told(plan_of(asked));
  if (path == "/stop") return {{"stopped", worker.stop(plan_of(asked))}};
  if (path == "/edit") return edited(text_of(asked, "text"), asked);
  throw Refused(404, "there is nothing here");
}

PageResponse told(int status, const std::string& why) {
  PageResponse response;
  response.status = status;
  response.body = Json{{"refused", why}}.dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

PageResponse asset(const std::string& path) {
  if (path == "/") return {200, "text/html; charset=utf-8", std::string(form_page())};
  if (path == "/page.css") {
    return {200, "text/css; charset=utf-8", std::string(style_sheet()) + std::string(form_style())};
  }
  if (path == "/page.js") {
    return {
        200, "text/javascript; charset=utf-8",
        fmt::format("{}{}{}{}", plan_script(), fields_script(), what_if_script(), form_script())};
  }
  if (path == "/plots.js") {
    return {200, "text/javascript; charset=utf-8", chart_script() + std::string(plots_script())};
  }
  if (path == "/schema.json") {
    return {200, "application/json; charset=utf-8", std::string(scenario_schema())};
  }
  return told(404, "there is nothing here");
}

bool is_ours(const PageRequest& request, const PagePlace& place) {
  const std::string address = fmt::format("127.0.0.1:{}", place.port);
  const std::string name = fmt::format("localhost:{}", place.port);
  if (request.host != address && request.host != name) return false;
  return request.origin.empty() || request.origin == "http://" + request.host;
}

}  // namespace

PageResponse respond(const PageRequest& request, const PagePlace& place, PageWorker& worker) {
  if (!is_ours(request, place)) return told(403, "this page answers to this computer only");
  if (request.method == "GET") return asset(request.path);
  if (request.method != "POST") return told(405, "only GET and POST are answered");
  if (request.body.size() > most_request_bytes) return told(413, "more than can be read at once");
  try {
    const Json asked = Json::parse(request.body, nullptr, false);
    if (!asked.is_object()) return told(400, "what was sent is no JSON object");
    PageResponse response;
    response.body = answer_to(request.path, asked, place, worker)
                        .dump(-1, ' ', false, Json::error_handler_t::replace);
    return response;
  } catch (const Refused& refused) {
    return told(refused.status, refused.what());
  } catch (const UnreadableFile& error) {
    return told(500, error.what());
  } catch (const UnwritableFile& error) {
    return told(500, error.what());
  } catch (const std::exception& error) {
    return told(500, fmt::format("a mistake of ours: {}", error.what()));
  }
}

}  // namespace haymow
