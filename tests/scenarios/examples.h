// The example that is shipped, read and answered once for all tests.
#pragma once

#include <stdexcept>
#include <string>

#include "scenarios/run.h"
#include "tests/solver/foreign_solvers.h"

namespace haymow::examples {

inline Scenario ninefields() {
  const std::string path = std::string(HAYMOW_SOURCE_DIR) + "/scenarios/examples/ninefields.yaml";
  return read_scenario(foreign_solvers::text_of_file(path), "ninefields.yaml");
}

inline const std::vector<HorseAnswer>& ninefields_answers() {
  static const std::vector<HorseAnswer> answers = run(ninefields());
  return answers;
}

inline const HorseAnswer& answer_for(const std::string& horse) {
  for (const HorseAnswer& answer : ninefields_answers()) {
    if (answer.question.horse.name == horse) return answer;
  }
  throw std::out_of_range(horse);
}

}  // namespace haymow::examples
