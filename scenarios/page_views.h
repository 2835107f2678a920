// What the page can show of a file: the answers of the commands, by the words of a yard.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/report.h"
#include "scenarios/watch.h"

namespace haymow {

enum class PageView { ration, needs, audit, offers, winter, stretch };

/// "ration", "winter": the name of the command that answers the same.
[[nodiscard]] std::string_view name_of(PageView view);
[[nodiscard]] std::optional<PageView> page_view_named(std::string_view name);
/// "What to feed".
[[nodiscard]] std::string_view words_for(PageView view);
/// True for what takes longer than anyone waits for at every key.
[[nodiscard]] bool takes_its_time(PageView view);

/// What the file says enough for: a winter needs a season, an audit what is fed now.
[[nodiscard]] std::vector<PageView> views_of(const Scenario& scenario);

struct ViewMade {
  Report report;
  bool good = true;
  std::string told;      // where it is not good, in a line
  bool stopped = false;  // by the watch: what is here holds
};

/// The ration view of answers that are there.
[[nodiscard]] ViewMade ration_view(const Scenario& scenario,
                                   const std::vector<HorseAnswer>& answers);

/// The answer in full, as the command gives it. `view` is one of views_of(scenario).
[[nodiscard]] ViewMade make_view(PageView view, const Scenario& scenario, const Watch& watch = {});

}  // namespace haymow
