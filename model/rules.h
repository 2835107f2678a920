// The rules of welfare and practice as rows of one table: what each asks, how
// strongly, and who says so. A life stage or a health state is a set of changes
// to that table; a recorded veterinary instruction is another. Nothing about a
// rule stands anywhere else: formulate.h turns the outcome into algebra.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "model/stable.h"

namespace haymow {

enum class Strength {
  law,    // welfare: never looser than its absolute figure, whoever asks
  vet,    // looser only on an instruction the file records
  guide,  // good practice: the keeper may decide otherwise
};
[[nodiscard]] std::string_view name_of(Strength strength);

/// One row of the table.
struct Rule {
  std::string_view id;  // family and side: "forage/min"
  Strength strength = Strength::guide;
  /// The limit, in `unit`; absent: no limit until a stage or state sets one.
  std::optional<double> number;
  std::string_view unit;
  std::string_view sentence;  // `{}` stands for the number with its unit
  std::string_view source;
  /// The loosest figure that an instruction may set; absent for a guide.
  std::optional<double> absolute;
  /// False: judged and reported, but no ration is refused for it.
  bool forced = true;
};
[[nodiscard]] std::span<const Rule> rule_table();
[[nodiscard]] const Rule* find_rule(std::string_view id);

/// A rule as it stands for one horse.
struct Limit {
  std::string id;
  Strength strength = Strength::guide;
  double number = 0.0;
  std::string unit;
  std::string sentence;  // number filled in
  std::string source;
  std::string because;  // what changed it: "laminitis-prone"; empty: as the table has it
  bool forced = true;
};

/// All limits that apply to a horse, in table order: the table, then the
/// changes of its life stage, then of its health states (the stricter of two
/// holds), then recorded instructions. An instruction that objection_to refuses
/// throws std::invalid_argument.
[[nodiscard]] std::vector<Limit> limits_for(const Horse& horse);
[[nodiscard]] const Limit* find_limit(std::span<const Limit> limits, std::string_view id);

/// Why an instruction cannot be followed, in words; nothing when it can.
[[nodiscard]] std::optional<std::string> objection_to(const Instruction& instruction,
                                                      const Horse& horse);

/// Advice that a health state brings and that no sum can hold.
[[nodiscard]] std::vector<std::string> advice_for(const Horse& horse);

}  // namespace haymow
