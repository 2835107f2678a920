#include "scenarios/commands.h"

#include <fmt/format.h>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string_view>

#include "feeds/feed_table.h"
#include "model/naming.h"
#include "scenarios/as_if.h"
#include "scenarios/audit.h"
#include "scenarios/batch.h"
#include "scenarios/curves_csv.h"
#include "scenarios/files.h"
#include "scenarios/interruption.h"
#include "scenarios/offers_options.h"
#include "scenarios/progress_line.h"
#include "scenarios/report.h"
#include "scenarios/report_explain.h"
#include "scenarios/report_offers.h"
#include "scenarios/report_stretch.h"
#include "scenarios/report_winter.h"
#include "scenarios/run.h"
#include "scenarios/serve_page.h"
#include "scenarios/sheet.h"
#include "scenarios/terminal.h"
#include "scenarios/winter_files.h"
#include "solver/write_program.h"

namespace haymow {
namespace {

// "1 horse", "4 horses".
std::string counted(std::size_t count, std::string_view thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

bool coloured(const Command& command) {
  if (command.colour != Colour::automatic) return command.colour == Colour::always;
  const char* no_color = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  if (no_color != nullptr && *no_color != '\0') return false;
  if (term == nullptr || std::string_view(term) == "dumb") return false;
  return !command.output && ::isatty(STDOUT_FILENO) == 1;
}

// What -v tells on standard error besides the longer report.
spdlog::logger talk_for(const Command& command) {
  spdlog::logger talk("haymow", std::make_shared<spdlog::sinks::stderr_sink_mt>());
  talk.set_pattern("%v");
  talk.set_level(command.verbose && !command.quiet ? spdlog::level::info : spdlog::level::err);
  return talk;
}

void deliver(const Command& command, const std::string& text) {
  if (command.output && *command.output != "-") {
    write_whole(*command.output, text, command.overwrite);
  } else {
    print(text);
  }
}

// Only the form that was asked for is made.
template <class MakeReport, class MakeJson>
void deliver(const Command& command, MakeReport report, MakeJson json) {
  switch (command.format) {
    case Format::text:
      return deliver(command, write_text(report(), terminal_width(), coloured(command)));
    case Format::html:
      return deliver(command, write_html(report()));
    case Format::sheet:
      throw UsageError("--format sheet is for `haymow ration`");
    case Format::json:
      return deliver(command, json());
  }
}

ReportOptions options_of(const Command& command) {
  return {command.units, command.verbose, command.format == Format::html};
}

Scenario scenario_of(const Command& command) {
  const std::string name = command.file == "-" ? "standard input" : command.file;
  return read_scenario(read_whole(command.file), name);
}

// program.lp for one horse; program-Juniper.lp for each of several.
std::string program_path(const std::string& path, const std::string& horse, bool several) {
  if (!several) return path;
  std::string plain = horse;
  std::replace_if(
      plain.begin(), plain.end(), [](char c) { return c == '/' || c == '\\' || c == '\0'; }, '_');
  const auto dot = path.rfind('.');
  return path.substr(0, dot) + "-" + plain + path.substr(dot);
}

// program.lp has its whole-step program beside it, in program-steps.lp.
std::string steps_path(const std::string& path) {
  const auto dot = path.rfind('.');
  return path.substr(0, dot) + "-steps" + path.substr(dot);
}

// The program that the practical ration was found with. Where the barn was mended
// afterwards, the question has other shares: it is the one of the first search.
LinearProgram program_in_steps(const HorseAnswer& answer) {
  return whole_step_program(answer.question, answer.formulation, answer.practical->choices).program;
}

void write_programs(const Command& command, const std::vector<HorseAnswer>& answers) {
  const std::string& path = *command.write_program;
  const auto write = [&](const LinearProgram& program, const std::string& file) {
    write_whole(file, path.ends_with(".mps") ? to_free_mps(program) : to_cplex_lp(program),
                command.overwrite);
  };
  const auto write_both = [&](const HorseAnswer& answer, const std::string& file) {
    write(answer.formulation.program, file);
    // A promise is kept by rows that the search adds as it goes: no one program.
    if (answer.practical && !answer.promise) write(program_in_steps(answer), steps_path(file));
  };
  for (const HorseAnswer& answer : answers) {
    if (answer.formulation.rows.empty()) continue;  // refused: there is no program
    const std::string& horse = answer.question.horse.name;
    write_both(answer, program_path(path, horse, answers.size() > 1));
    for (const HorseAnswer& other : answer.other_spells) {
      const MonthOfSeason& from = other.spell.months.front();
      const std::string name = fmt::format("{}-{}-{:02}", horse, from.year, from.month);
      write_both(other, program_path(path, name, true));
    }
  }
}

ExitStatus exit_status_of(AnswerStatus worst) {
  if (worst == AnswerStatus::failed) return ExitStatus::failed;
  return worst == AnswerStatus::found ? ExitStatus::done : ExitStatus::no;
}

ExitStatus ration(const Command& command) {
  if (command.write_program && !command.write_program->ends_with(".lp") &&
      !command.write_program->ends_with(".mps")) {
    throw UsageError("--write-program takes a name that ends in .lp or .mps");
  }
  spdlog::logger talk = talk_for(command);
  Scenario scenario = scenario_of(command);
  if (command.as_if) {
    Scenario as_if = question_named(*command.as_if, scenario).scenario;
    scenario = std::move(as_if);
  }
  talk.info("read {} and {} on offer", counted(scenario.stable.horses.size(), "horse"),
            counted(scenario.stable.offers.size(), "feed"));
  RunOptions options;
  if (command.confidence) options.confidence = *command.confidence / 100.0;
  options.exact = command.exact;
  const std::vector<HorseAnswer> answers = run(scenario, options);
  for (const HorseAnswer& answer : answers) {
    talk.info("{}: {}, {} rows, {} columns, {} iterations", answer.question.horse.name,
              name_of(answer.status), answer.formulation.program.row_count(),
              answer.formulation.program.column_count(), answer.solution.iterations);
  }
  const std::vector<AskedAnswer> questions = ask(scenario, answers, options);
  if (command.format == Format::sheet) {
    deliver(command, write_sheet(feed_room_sheet(scenario, answers, command.units)));
  } else {
    deliver(
        command, [&] { return ration_report(scenario, answers, options_of(command), questions); },
        [&] { return ration_json(scenario, answers, questions); });
  }
  if (command.write_program) write_programs(command, answers);
  AnswerStatus worst = AnswerStatus::found;
  for (const HorseAnswer& answer : answers) worst = worse(worst, answer.worst());
  return exit_status_of(worst);
}

ExitStatus offers_command(const Command& command) {
  Scenario scenario = scenario_of(command);
  const OffersOptions choice = offers_options(command.offers, scenario);
  const std::vector<OffersAnswer> answers = offers(scenario, choice);
  deliver(
      command, [&] { return offers_report(scenario, answers, choice, options_of(command)); },
      [&] { return offers_json(scenario, answers, choice); });
  if (command.offers.curves) {
    write_whole(*command.offers.curves, curves_csv(answers, scenario.stable.money),
                command.overwrite);
  }
  AnswerStatus worst = AnswerStatus::found;
  for (const OffersAnswer& answer : answers) worst = worse(worst, answer.answer.status);
  return exit_status_of(worst);
}

// Of all plans of a command together. Common practice, no source.
constexpr std::chrono::minutes most_time{10};

Watch watched_by(ProgressLine& line) {
  Watch watch;
  const auto end = std::chrono::steady_clock::now() + most_time;
  watch.season.stop = [end] {
    return Interruption::asked() || std::chrono::steady_clock::now() >= end;
  };
  watch.season.tell = [&line](const SeasonProgress& progress) { line.step(progress); };
  watch.stage = [&line](std::string_view what) { line.stage(what); };
  return watch;
}

ExitStatus winter_command(const Command& command) {
  check_winter_files(command);
  const Scenario scenario = scenario_of(command);
  if (!scenario.stable.season) {
    throw UnreadableFile(fmt::format(
        "`{}` has no `season`, so there is no winter to plan\nhelp: add its first and last day: "
        "`season: {{from: 2026-11-01, until: 2027-04-20}}`",
        command.file));
  }
  const Interruption interruption;
  ProgressLine line(is_watched(command.quiet), terminal_width());
  WinterAnswer answer = winter(scenario, season_planners(watched_by(line)));
  line.erase();
  answer.time_is_up = answer.stopped && !Interruption::asked();
  deliver(
      command, [&] { return winter_report(scenario, answer, options_of(command)); },
      [&] { return winter_json(scenario, answer); });
  if (answer.stopped && !answer.time_is_up) return ExitStatus::interrupted;
  write_winter_files(command, scenario, answer);
  if (Interruption::asked()) return ExitStatus::interrupted;
  if (answer.bills) return complete(answer) ? ExitStatus::done : ExitStatus::no;
  return answer.plan.status == SeasonStatus::none ? ExitStatus::no : ExitStatus::failed;
}

ExitStatus stretch_command(const Command& command) {
  const Scenario scenario = scenario_of(command);
  if (!scenario.stable.season) {
    throw UnreadableFile(fmt::format(
        "`{}` has no `season`, so there is no end to last to\nhelp: add its first and last day: "
        "`season: {{from: 2026-11-01, until: 2027-04-20}}`",
        command.file));
  }
  const Interruption interruption;
  ProgressLine line(is_watched(command.quiet), terminal_width());
  StretchAnswer answer = stretch(scenario, watched_by(line));
  line.erase();
  answer.time_is_up = answer.stopped_in && !Interruption::asked();
  deliver(
      command, [&] { return stretch_report(scenario, answer, options_of(command)); },
      [&] { return stretch_json(scenario, answer); });
  if (Interruption::asked()) return ExitStatus::interrupted;
  if (answer.found()) return complete(answer) ? ExitStatus::done : ExitStatus::no;
  return answer.plan.status == SeasonStatus::none ? ExitStatus::no : ExitStatus::failed;
}

ExitStatus audit_command(const Command& command) {
  const Scenario scenario = scenario_of(command);
  const std::vector<Audit> audits = audit(scenario);
  if (audits.empty()) {
    throw UnreadableFile(fmt::format(
        "no horse in `{}` has `fed now`, so there is nothing to judge\nhelp: add to a horse: "
        "`fed now: {{meadow hay: 9 kg, oats: 2 kg}}`",
        command.file));
  }
  deliver(
      command, [&] { return audit_report(scenario, audits, options_of(command)); },
      [&] { return audit_json(scenario, audits); });
  const bool adequate =
      std::all_of(audits.begin(), audits.end(), [](const Audit& a) { return a.adequate(); });
  return adequate ? ExitStatus::done : ExitStatus::no;
}

ExitStatus check(const Command& command) {
  try {
    const Scenario scenario = scenario_of(command);
    std::string text;
    for (const Diagnostic& remark : scenario.remarks) text += render(remark);
    for (const AskedQuestion& question : scenario.asked) {
      for (const Diagnostic& remark : new_remarks(question, scenario)) text += render(remark);
    }
    text += fmt::format("{}: sound: {}, {} on offer, {}\n", command.file,
                        counted(scenario.stable.horses.size(), "horse"),
                        counted(scenario.stable.offers.size(), "feed"),
                        counted(scenario.remarks.size(), "assumption"));
    deliver(command,
            command.format == Format::json ? diagnostics_json("found", scenario.remarks) : text);
    return ExitStatus::done;
  } catch (const InputError& error) {
    deliver(command, command.format == Format::json ? diagnostics_json("none", error.diagnostics())
                                                    : std::string(error.what()) + "\n");
    return ExitStatus::no;
  }
}

ExitStatus prices(const Command& command) {
  Command of_file = command;
  of_file.file = *command.prices;
  const Scenario scenario = scenario_of(of_file);
  deliver(
      command, [&] { return prices_report(scenario, options_of(command)); },
      [&] { return prices_json(scenario); });
  return ExitStatus::done;
}

// `near` may be empty.
ExitStatus no_such_feed(const std::string& name, const std::vector<std::string>& near) {
  std::string text = fmt::format("haymow: no feed is called `{}`", name);
  if (!near.empty()) text += fmt::format("\nhelp: did you mean `{}`?", near.front());
  fmt::print(stderr, "{}\n", text);
  return ExitStatus::no;
}

ExitStatus explain(const Command& command) {
  std::optional<Scenario> scenario;
  if (command.look_in) {
    Command of_file = command;
    of_file.file = *command.look_in;
    scenario = scenario_of(of_file);
  }
  const Scenario* looked_in = scenario ? &*scenario : nullptr;
  const auto feed = find_explained(*command.explain, looked_in);
  if (!feed) return no_such_feed(*command.explain, near_explained(*command.explain, looked_in));
  deliver(
      command, [&] { return explain_report(*feed); }, [&] { return explain_json(*feed); });
  return ExitStatus::done;
}

ExitStatus feeds(const Command& command) {
  if (command.explain) return explain(command);
  if (command.prices) return prices(command);
  if (command.origins) {
    deliver(
        command, [] { return origins_report(); }, [] { return origins_json(); });
    return ExitStatus::done;
  }
  std::vector<const Feed*> chosen;
  bool full = false;
  if (command.name.empty()) {
    for (const Feed& feed : feed_table()) chosen.push_back(&feed);
  } else if (const Feed* feed = find_feed(command.name)) {
    chosen.push_back(feed);
    full = true;
  } else {
    for (const Feed& feed_of_table : feed_table()) {
      if (refers_to(command.name, feed_of_table)) chosen.push_back(&feed_of_table);
    }
  }
  if (chosen.empty()) return no_such_feed(command.name, near_feed_names(command.name));
  deliver(
      command, [&] { return feeds_report(chosen, full); }, [&] { return feeds_json(chosen); });
  return ExitStatus::done;
}

}  // namespace

ExitStatus execute(const Command& command) {
  switch (command.kind) {
    case Command::Kind::ration:
      return ration(command);
    case Command::Kind::audit:
      return audit_command(command);
    case Command::Kind::offers:
      return offers_command(command);
    case Command::Kind::winter:
      return winter_command(command);
    case Command::Kind::stretch:
      return stretch_command(command);
    case Command::Kind::batch:
      if (command.file == "-" && command.base == "-") {
        throw UsageError("the records and --base cannot both be standard input");
      }
      return batch_command(command);
    case Command::Kind::check:
      return check(command);
    case Command::Kind::feeds:
      return feeds(command);
    case Command::Kind::needs: {
      const Scenario scenario = scenario_of(command);
      deliver(
          command, [&] { return needs_report(scenario); }, [&] { return needs_json(scenario); });
      return ExitStatus::done;
    }
    case Command::Kind::page:
      serve_page({command.file.empty() ? "." : command.file, command.port, command.open_browser});
      return ExitStatus::done;
    case Command::Kind::start:
      deliver(command, starter_scenario());
      return ExitStatus::done;
    case Command::Kind::message:
      print(command.message);
      return ExitStatus::done;
  }
  return ExitStatus::failed;
}

}  // namespace haymow
