#include "scenarios/page_edit.h"

#include "feeds/findings.h"
#include "feeds/yaml_changes.h"
#include "feeds/yaml_edit.h"

namespace haymow {
namespace {

using Json = nlohmann::ordered_json;

std::string_view kind_of(const YamlNode& node) {
  switch (node.kind) {
    case YamlKind::text:
      return "text";
    case YamlKind::list:
      return "list";
    case YamlKind::map:
      return "group";
    case YamlKind::nothing:
      break;
  }
  return "nothing";
}

// NOLINTNEXTLINE(misc-no-recursion): a file is read twenty levels deep at most.
Json told(const YamlNode& node) {
  Json out = {{"kind", kind_of(node)},
              {"text", node.kind == YamlKind::text ? node.text : written(node)},
              {"line", node.span.position.line}};
  if (node.kind == YamlKind::map) {
    out["entries"] = Json::array();
    for (const YamlEntry& entry : node.entries) {
      Json value = told(entry.value);
      value["key"] = entry.key.text;
      out["entries"].push_back(std::move(value));
    }
  }
  if (node.kind == YamlKind::list) {
    out["items"] = Json::array();
    for (const YamlNode& item : node.items) out["items"].push_back(told(item));
  }
  return out;
}

std::optional<YamlPath> path_of(const Json& asked) {
  const auto found = asked.find("path");
  if (found == asked.end() || !found->is_array() || found->size() > 20) return std::nullopt;
  YamlPath path;
  for (const Json& step : *found) {
    if (step.is_string()) {
      path.emplace_back(step.get<std::string>());
    } else if (step.is_number_unsigned()) {
      path.emplace_back(step.get<std::size_t>());
    } else {
      return std::nullopt;
    }
  }
  return path;
}

std::optional<std::string> words_of(const Json& asked, const char* key) {
  const auto found = asked.find(key);
  if (found == asked.end() || !found->is_string()) return std::nullopt;
  return found->get<std::string>();
}

}  // namespace

Json entries_of_file(const std::string& text) {
  Findings findings(text, "");
  const YamlNode root = read_yaml(findings);
  if (findings.error_count() > 0 || root.kind != YamlKind::map) return nullptr;
  return told(root)["entries"];
}

Json edited(const std::string& text, const Json& asked) {
  const auto path = path_of(asked);
  if (!path) return {{"refused", "`path` is missing, or no list of keys and places"}};
  const auto words = words_of(asked, "words");
  const auto yaml = words_of(asked, "yaml");
  const auto key = words_of(asked, "key");
  const auto item = words_of(asked, "item");
  std::optional<std::string> out;
  if (words) {
    out = with_text(text, *path, *words);
  } else if (key && yaml) {
    out = with_entry(text, *path, *key, *yaml);
  } else if (yaml) {
    out = with_yaml(text, *path, *yaml);
  } else if (item) {
    out = with_item(text, *path, *item);
  } else if (asked.contains("remove")) {
    out = without(text, *path);
  }
  if (out) return {{"text", *out}};
  return {{"refused",
           "this cannot be changed here without touching what stands beside it: change it in "
           "the text of the file"}};
}

}  // namespace haymow
