// What the report says of the questions of a file: a table of what each would cost
// beside the file as it stands, and for each question who is fed what else.
#pragma once

#include <vector>

#include "scenarios/ask.h"
#include "scenarios/report.h"
#include "scenarios/wording.h"

namespace haymow {

/// Nothing without questions.
[[nodiscard]] std::vector<Section> asked_sections(const Scenario& scenario,
                                                  const std::vector<AskedAnswer>& questions,
                                                  const Wording& words);

/// Says over every answer that it is one to a question: nobody may feed it unawares.
void mark_as_if(Report& report, const std::string& what_if);

}  // namespace haymow
