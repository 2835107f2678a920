// Values put into a Mustache template. The one place where texts from users become part
// of a page: all are escaped, but for those a template takes in three braces.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace haymow {

/// A part of a template that others name as {{>name}}.
using NamedTemplate = std::pair<std::string, std::string_view>;

/// `values`: an object of texts, truths, objects and arrays of objects; control
/// characters of texts are told (control_characters.h), but for line ends, which
/// templates and scripts have. Throws std::logic_error on a template that is not one.
[[nodiscard]] std::string fill_template(std::string_view whole,
                                        const nlohmann::ordered_json& values,
                                        const std::vector<NamedTemplate>& named = {});

}  // namespace haymow
