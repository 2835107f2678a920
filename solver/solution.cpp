#include "solver/solution.h"

namespace haymow {

std::string_view name_of(Status status) {
  switch (status) {
    case Status::not_solved:
      return "not solved";
    case Status::optimal:
      return "optimal";
    case Status::infeasible:
      return "infeasible";
    case Status::unbounded:
      return "unbounded";
    case Status::limit_reached:
      return "limit reached";
    case Status::gave_up:
      return "gave up";
  }
  return "not solved";
}

}  // namespace haymow
