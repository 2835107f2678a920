#include "scenarios/scenario_keys.h"

namespace haymow {

std::vector<KeyGroup> key_groups() {
  return {{"the file", scenario_keys},
          {"season", season_keys},
          {"change", change_keys},
          {"a horse", horse_keys},
          {"condition", condition_keys},
          {"cold", cold_keys},
          {"grazing", grazing_keys},
          {"feeds", feeds_keys},
          {"an instruction", instruction_keys},
          {"a feed on offer", offer_keys},
          {"soaking", soaking_keys},
          {"may be", range_keys},
          {"a store", store_keys},
          {"an entry of the calendar", calendar_keys},
          {"a question", question_keys}};
}

}  // namespace haymow
