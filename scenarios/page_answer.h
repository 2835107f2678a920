// What the page shows for the text of a scenario as it stands: the answer that was
// chosen, or what is wrong with the text.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "scenarios/page_task.h"
#include "scenarios/page_views.h"
#include "scenarios/what_if.h"

namespace haymow {

/// {entries, errors: [{line, column, width, message, note, help}], views: [{name, words,
/// waits}] or null, view: what is shown, waits: it takes its time and must be asked for,
/// answer: HTML or null, good, told: in a line why it is not good, assumed: [as errors]}.
/// `file` names the text in messages. A view that the file cannot answer is the ration.
/// With sliders, and where the view is the ration: the answer with them, and what_if: what
/// what_if_told() of page_what_if.h gives.
[[nodiscard]] nlohmann::ordered_json look_at(const std::string& text, const std::string& file,
                                             PageView view = PageView::ration,
                                             const std::optional<SlidersAsked>& sliders = {});

/// {errors, answer, good, told} as above and {stopped: before all was worked out}, for a view
/// that takes its time.
[[nodiscard]] nlohmann::ordered_json worked_out(const TaskAsked& asked, const Watch& watch);

}  // namespace haymow
