#include "scenarios/as_if.h"

#include <fmt/format.h>

#include "feeds/diagnostic.h"
#include "feeds/plain_text.h"
#include "scenarios/command_line.h"

namespace haymow {

const AskedQuestion& question_named(const std::string& word, const Scenario& scenario) {
  if (scenario.asked.empty()) {
    throw UsageError("--as-if: the file asks no questions; add `ask:` to it");
  }
  std::vector<std::string> names;
  for (std::size_t q = 0; q < scenario.asked.size(); ++q) {
    const AskedQuestion& question = scenario.asked[q];
    if (same_text(question.what_if, word) || word == std::to_string(q + 1)) return question;
    names.push_back(question.what_if);
  }
  std::string text = fmt::format("--as-if: the file has no question `{}`", word);
  const auto near = near_names(word, names);
  if (!near.empty()) {
    text += fmt::format("; did you mean `{}`?", near.front());
  } else {
    text += fmt::format("; it asks {}: {}", names.size(), listed(names));
  }
  throw UsageError(text);
}

}  // namespace haymow
