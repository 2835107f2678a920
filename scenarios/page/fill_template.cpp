#include "scenarios/page/fill_template.h"

#include <kainjow/mustache.hpp>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "scenarios/control_characters.h"

namespace haymow {
namespace {

using kainjow::mustache::data;
using kainjow::mustache::mustache;
using kainjow::mustache::partial;
using Json = nlohmann::ordered_json;

// NOLINTNEXTLINE(misc-no-recursion): values are as deep as a page's parts.
data data_of(const Json& value) {
  if (value.is_object()) {
    data out;
    for (const auto& [name, inner] : value.items()) out.set(name, data_of(inner));
    return out;
  }
  if (value.is_array()) {
    data out{data::type::list};
    for (const Json& inner : value) out.push_back(data_of(inner));
    return out;
  }
  if (value.is_string()) return value.get<std::string>();
  return value.is_boolean() && value.get<bool>() ? data(true) : data(false);
}

std::string escaped(const std::string& words) {
  return kainjow::mustache::html_escape(with_control_characters_told(words));
}

}  // namespace

std::string fill_template(std::string_view whole, const Json& values,
                          const std::vector<NamedTemplate>& named) {
  data all = data_of(values);
  for (const auto& [name, part] : named) {
    all.set(name, partial{[text = std::string(part)] { return text; }});
  }
  mustache form{std::string(whole)};
  form.set_custom_escape(escaped);
  std::string filled = form.render(all);
  if (!form.is_valid()) throw std::logic_error("page template: " + form.error_message());
  return filled;
}

}  // namespace haymow
