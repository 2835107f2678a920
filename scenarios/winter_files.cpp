#include "scenarios/winter_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "model/season_program.h"
#include "scenarios/files.h"
#include "scenarios/season_files.h"
#include "solver/write_program.h"

namespace haymow {
namespace {

// Of each of the four plans at most, and of all draws together: common practice, no source.
constexpr double time_limit_seconds = 60.0;
constexpr double draws_limit_seconds = 600.0;

std::vector<std::string> files_of(const Command& command) {
  std::vector<std::string> files;
  for (const auto* file : {&command.output, &command.write_program, &command.winter.orders,
                           &command.winter.bills, &command.winter.calendar}) {
    if (*file && **file != "-") files.push_back(**file);
  }
  return files;
}

// Amounts of any size, week by week, with every row: the program whose optimum is the
// bound that the report tells.
std::string program_text(const SeasonQuestion& question, const std::string& file) {
  const SeasonParts parts = season_parts(question);
  const LinearProgram program =
      season_program(question, parts, weekly_spells(question, parts)).program;
  return file.ends_with(".mps") ? to_free_mps(program) : to_cplex_lp(program);
}

}  // namespace

Planners season_planners(const Watch& watch) {
  const auto options = [watch](Packs packs) {
    SeasonOptions out = watch.options(packs);
    out.time_limit_seconds = time_limit_seconds;
    return out;
  };
  const auto planner = [options](Packs packs) {
    return [options, packs](const SeasonQuestion& question) {
      return plan_season(question, options(packs));
    };
  };
  return {planner(Packs::whole),
          planner(Packs::any),
          [options](const SeasonQuestion& question) {
            return explain_season_failure(question, options(Packs::any));
          },
          [options](const SeasonQuestion& question, const SeasonFailure& failure) {
            return season_mends(question, failure, options(Packs::any));
          },
          [options](const SeasonOfDraw& season, const SeasonDoubt& doubt) {
            SeasonOptions of_all = options(Packs::any);
            of_all.time_limit_seconds = draws_limit_seconds;
            return season_chances(season, doubt, of_all);
          },
          watch};
}

void check_winter_files(const Command& command) {
  if (command.write_program && !command.write_program->ends_with(".lp") &&
      !command.write_program->ends_with(".mps")) {
    throw UsageError("--write-program takes a name that ends in .lp or .mps");
  }
  std::vector<std::string> files = files_of(command);
  for (const std::string& file : files) {
    if (!command.overwrite) refuse_existing(file);
  }
  std::sort(files.begin(), files.end());
  const auto twice = std::adjacent_find(files.begin(), files.end());
  if (twice != files.end()) {
    throw UsageError(
        fmt::format("`{}` is to be written twice; give each file its own name", *twice));
  }
}

void write_winter_files(const Command& command, const Scenario& scenario,
                        const WinterAnswer& answer) {
  const auto write = [&](const std::optional<std::string>& file, auto text) {
    if (file) write_whole(*file, text(), command.overwrite);
  };
  if (!answer.question.horses.empty()) {
    write(command.write_program,
          [&] { return program_text(answer.question, *command.write_program); });
  }
  if (!answer.bills) return;
  write(command.winter.orders, [&] { return orders_csv(scenario, answer); });
  write(command.winter.bills, [&] { return bills_csv(scenario, answer); });
  write(command.winter.calendar, [&] { return season_calendar(scenario, answer); });
}

}  // namespace haymow
