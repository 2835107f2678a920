// What a page is made of, as the files of this folder say it, inside the program: a
// report needs no file beside it and no network.
#pragma once

#include <string>
#include <string_view>

namespace haymow {

[[nodiscard]] std::string_view report_template();   // Mustache
[[nodiscard]] std::string_view section_template();  // Mustache, a part of the above
[[nodiscard]] std::string_view parts_template();    // Mustache, all but the head
[[nodiscard]] std::string_view form_page();         // HTML, as it is
[[nodiscard]] std::string_view form_style();        // CSS, after style_sheet()
[[nodiscard]] std::string_view form_script();       // JavaScript
[[nodiscard]] std::string_view plan_script();       // JavaScript, before form_script()
[[nodiscard]] std::string_view fields_script();     // JavaScript, before form_script()
[[nodiscard]] std::string_view what_if_script();    // JavaScript, before form_script()
[[nodiscard]] std::string_view scenario_schema();   // docs/reference/scenario.schema.json
[[nodiscard]] std::string_view sheet_template();    // Mustache
[[nodiscard]] std::string_view sheet_style();       // CSS, after style_sheet()
[[nodiscard]] std::string_view style_sheet();       // CSS
[[nodiscard]] std::string_view plots_script();      // JavaScript of ours, for Chart.js
[[nodiscard]] const std::string& chart_script();    // Chart.js as Debian ships it

}  // namespace haymow
