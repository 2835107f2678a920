// What a horse is asked to do, by the classes of NRC 2007.
#pragma once

#include <optional>
#include <string>
#include <variant>

namespace haymow {

enum class MaintenanceLevel { minimum, average, elevated };
enum class WorkLevel { light, moderate, heavy, very_heavy };
struct Idle {
  MaintenanceLevel level = MaintenanceLevel::average;
};
struct Stallion {
  bool breeding = false;
};
struct Working {
  WorkLevel level = WorkLevel::light;
};
struct Pregnant {
  int month = 1;  // 1 to 11
};
struct Lactating {
  int month = 1;  // 1 to 6
};
struct Growing {
  double age_months = 6.0;        // 4 to 24
  std::optional<WorkLevel> work;  // absent: not in training
};
using LifeStage = std::variant<Idle, Stallion, Working, Pregnant, Lactating, Growing>;

/// For a sentence: "moderate work", "pregnant, month 9".
[[nodiscard]] std::string describe(const LifeStage& stage);

}  // namespace haymow
