// Parse, run, map what went wrong to a status. Everything else is elsewhere.
#include <csignal>
#include <exception>
#include <string>

#include <fmt/format.h>

#include "scenarios/command_line.h"
#include "scenarios/commands.h"
#include "scenarios/exit_status.h"
#include "scenarios/files.h"

namespace {

void say(const std::string& text) { fmt::print(stderr, "{}\n", text); }

haymow::ExitStatus run_program(int argc, char** argv) {
  using haymow::ExitStatus;
  haymow::Command command;
  try {
    command = haymow::parse_command(argc, argv);
    return haymow::execute(command);
  } catch (const haymow::UsageError& error) {
    say(fmt::format("haymow: {}\nhelp: `haymow --help` lists commands and options", error.what()));
    return ExitStatus::usage;
  } catch (const haymow::InputError& error) {
    if (command.format == haymow::Format::json) {
      haymow::print(haymow::diagnostics_json("input", error.diagnostics()));
    }
    say(error.what());
    return ExitStatus::input;
  } catch (const haymow::UnreadableFile& error) {
    if (command.format == haymow::Format::json) {
      haymow::Diagnostic diagnostic;
      diagnostic.position.file = command.file;
      diagnostic.message = error.what();
      haymow::print(haymow::diagnostics_json("input", {diagnostic}));
    }
    say(fmt::format("haymow: {}", error.what()));
    return ExitStatus::input;
  } catch (const haymow::UnwritableFile& error) {
    say(fmt::format("haymow: {}", error.what()));
    return ExitStatus::failed;
  } catch (const std::exception& error) {
    say(fmt::format("haymow: a mistake of ours: {}\nhelp: please report it, with the file",
                    error.what()));
    return ExitStatus::failed;
  }
}

}  // namespace

int main(int argc, char** argv) {
  static_cast<void>(std::signal(SIGPIPE, SIG_IGN));  // a reader that goes away is met in print()
  return static_cast<int>(run_program(argc, argv));
}
