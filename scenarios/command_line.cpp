#include "scenarios/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <map>
#include <vector>

#include "feeds/diagnostic.h"
#include "scenarios/version.h"

namespace haymow {
namespace {

constexpr std::string_view brief =
    "haymow finds the cheapest ration that is safe for a horse, and says why.\n"
    "\n"
    "  haymow new -o yard.yaml      a file to start from\n"
    "  haymow ration yard.yaml      what to feed, what it costs, what holds it\n"
    "  haymow audit yard.yaml       is what I feed today enough\n"
    "  haymow winter yard.yaml      what the winter costs, what to order when, what to bill\n"
    "  haymow stretch yard.yaml     how long the hay lasts, and what to do when it is short\n"
    "\n"
    "commands: ration, offers, winter, stretch, batch, needs, feeds, check, audit, new; see "
    "`haymow "
    "--help`\n";

constexpr std::string_view footer =
    "\nExit status: 0 found and certified; 1 a definite no, explained; 2 command line;\n"
    "3 input file; 4 our failure; 130 interrupted. `-` as FILE is standard input.";

const std::map<std::string, Command::Kind>& kinds() {
  static const std::map<std::string, Command::Kind> map{
      {"ration", Command::Kind::ration}, {"needs", Command::Kind::needs},
      {"feeds", Command::Kind::feeds},   {"check", Command::Kind::check},
      {"audit", Command::Kind::audit},   {"offers", Command::Kind::offers},
      {"winter", Command::Kind::winter}, {"stretch", Command::Kind::stretch},
      {"batch", Command::Kind::batch},   {"page", Command::Kind::page},
      {"new", Command::Kind::start}};
  return map;
}

void add_common(CLI::App& app, Command& command) {
  app.add_option("-o,--output", command.output, "write here instead of to the terminal")
      ->type_name("FILE");
  app.add_flag("--force", command.overwrite, "let files that are written replace others");
  app.add_flag("-v,--verbose", command.verbose, "say more: every need, every limit that holds");
  app.add_flag("-q,--quiet", command.quiet, "say nothing but the result");
}

// An option that takes one of a few words.
template <class Value>
void add_choice(CLI::App& app, const std::string& name, Value& value, const std::string& what,
                const std::vector<std::pair<std::string, Value>>& choices) {
  std::string words;
  for (const auto& [word, meaning] : choices) words += (words.empty() ? "" : "|") + word;
  app.add_option_function<std::string>(
         name,
         [&value, name, words, choices](const std::string& given) {
           for (const auto& [word, meaning] : choices) {
             if (word == given) {
               value = meaning;
               return;
             }
           }
           throw CLI::ValidationError(fmt::format("{} takes {}, not `{}`", name, words, given));
         },
         what)
      ->type_name(words);
}

void add_report_options(CLI::App& app, Command& command) {
  add_choice<Format>(app, "--format", command.format,
                     "text (default), html, sheet (for ration) or json",
                     {{"text", Format::text},
                      {"html", Format::html},
                      {"sheet", Format::sheet},
                      {"json", Format::json}});
  add_choice<Colour>(
      app, "--color", command.colour, "colour: auto (default), always or never",
      {{"auto", Colour::automatic}, {"always", Colour::always}, {"never", Colour::never}});
  add_choice<Units>(app, "--units", command.units, "metric (default) or us: weights in kg or lb",
                    {{"metric", Units::metric}, {"us", Units::us}});
}

// One question at a time: all feeds or some, how they are known, what they cost, or
// one of them in full.
void add_feeds_options(CLI::App& feeds, Command& command) {
  CLI::Option* name = feeds.add_option("NAME", command.name, "a feed, a group or a word of a name");
  name->type_name("");
  CLI::Option* sources =
      feeds.add_flag("--sources", command.origins, "how the figures are known, by nutrient");
  CLI::Option* prices =
      feeds.add_option("--prices", command.prices,
                       "what the feeds of a scenario FILE cost eaten, by energy and by protein");
  prices->type_name("FILE");
  CLI::Option* explain =
      feeds.add_option("--explain", command.explain,
                       "one feed in full: where each figure comes from and how sure it is");
  explain->type_name("NAME")->excludes(name)->excludes(sources)->excludes(prices);
  feeds
      .add_option("--in", command.look_in,
                  "with --explain: look among the feeds of a scenario FILE first")
      ->type_name("FILE")
      ->needs(explain);
}

// The least and most that can be promised: below even odds it is none.
double checked_percent(double percent) {
  if (percent >= 51.0 && percent <= 99.9) return percent;
  throw CLI::ValidationError(
      fmt::format("--confidence takes a number from 51 to 99.9, not {:g}", percent));
}

// More mixes than fit side by side help nobody; more than twice the cost is no offer.
int checked_count(int count) {
  if (count >= 0 && count <= 8) return count;
  throw CLI::ValidationError(fmt::format("--mixes takes a number from 0 to 8, not {}", count));
}
double checked_margin(double percent) {
  if (percent >= 0.1 && percent <= 100.0) return percent;
  throw CLI::ValidationError(
      fmt::format("--margin takes a number from 0.1 to 100, not {:g}", percent));
}

void add_offers_options(CLI::App& offers, OffersWords& words) {
  offers
      .add_option("--without", words.without,
                  "do without a FEED, or a group of them; may be given again")
      ->type_name("FEED")
      ->allow_extra_args(false);
  offers
      .add_option("--with", words.with,
                  "use at least so much of a feed a day: \"oats: 1 kg\"; may be given again")
      ->type_name("FEED:AMOUNT")
      ->allow_extra_args(false);
  offers
      .add_option("--only", words.only,
                  "buy only from a price list FILE (money, market) beside the yard's own forage")
      ->type_name("FILE");
  offers
      .add_option(
          "--price", words.prices,
          "what the ration is as the price of a FEED moves, and what the feed is worth: one "
          "on offer, or one of `haymow feeds`; may be given again")
      ->type_name("FEED[:FROM to TO per PACK]")
      ->allow_extra_args(false);
  offers
      .add_option(
          "--limit", words.limits,
          "what a limit costs as it moves: \"forage share\", \"starch a day\", NSC, \"energy "
          "margin\", \"bucket feeds\", ...; may be given again")
      ->type_name("LIMIT[:FROM to TO UNIT]")
      ->allow_extra_args(false);
  offers
      .add_option("--curves", words.curves,
                  "also write the points of these curves as CSV, ready to plot")
      ->type_name("FILE");
  offers
      .add_option_function<double>(
          "--margin", [&](double percent) { words.margin_percent = checked_margin(percent); },
          "how much dearer other mixes may be, per cent; 5 unless said")
      ->type_name("PERCENT");
  offers
      .add_option_function<int>(
          "--mixes", [&](int count) { words.count = checked_count(count); },
          "how many other mixes to look for, 0 to 8; 4 unless said")
      ->type_name("NUMBER");
}

void add_winter_options(CLI::App& winter, Command& command) {
  winter
      .add_option("--write-program", command.write_program,
                  "also write the season's linear program, .lp (CPLEX) or .mps (free)")
      ->type_name("FILE");
  winter
      .add_option("--orders", command.winter.orders,
                  "also write what to order when as a table, CSV")
      ->type_name("FILE");
  winter
      .add_option("--bills", command.winter.bills,
                  "also write each horse's bill by month and feed as a table, CSV")
      ->type_name("FILE");
  winter
      .add_option("--calendar", command.winter.calendar,
                  "also write order days, changes of ration and condition checks, iCalendar")
      ->type_name("FILE");
}

int checked_jobs(int jobs) {
  constexpr int most_jobs = 1024;  // more threads than any machine has use for
  if (jobs >= 1 && jobs <= most_jobs) return jobs;
  throw CLI::ValidationError(
      fmt::format("--jobs takes a number from 1 to {}, not {}", most_jobs, jobs));
}

void add_batch(CLI::App& app, Command& command) {
  CLI::App* batch = app.add_subcommand(
      "batch", "a ration for each of thousands of records: JSON lines in, JSON lines out");
  batch
      ->add_option("RECORDS", command.file,
                   "a file of JSON lines, a folder of scenario files, or - for standard input")
      ->required()
      ->type_name("");
  batch
      ->add_option("--base", command.base,
                   "a scenario FILE that gives every record what the record leaves out")
      ->type_name("FILE");
  batch
      ->add_option_function<int>(
          "--jobs", [&](int jobs) { command.jobs = checked_jobs(jobs); },
          "how many to work at once; as many as there are processors unless said")
      ->type_name("NUMBER");
  batch->add_flag("--full", command.full,
                  "all that `ration` says of a horse, whole steps and meals included; slower");
  add_common(*batch, command);
}

std::string unknown_word(const std::string& word) {
  std::string text;
  if (word.starts_with('-')) {
    text = fmt::format("there is no option `{}`", word);
  } else {
    text = fmt::format("there is no command `{}`", word);
    std::vector<std::string> names;
    for (const auto& [name, kind] : kinds()) names.push_back(name);
    const auto near = near_names(word, names);
    if (!near.empty()) text += fmt::format("; did you mean `{}`?", near.front());
  }
  return text;
}

}  // namespace

Command parse_command(int argc, const char* const* argv) {
  Command command;
  if (argc <= 1) {
    command.message = brief;
    return command;
  }
  CLI::App app{"haymow finds the cheapest ration that is safe for a horse, and says why.",
               "haymow"};
  app.set_version_flag("--version", fmt::format("haymow {}", version));
  app.footer(std::string(footer));
  app.require_subcommand(1);

  const auto with_file = [&](const char* name, const char* what) {
    CLI::App* sub = app.add_subcommand(name, what);
    sub->add_option("FILE", command.file, "the scenario file, or - for standard input")
        ->required()
        ->type_name("");
    add_report_options(*sub, command);
    add_common(*sub, command);
    return sub;
  };
  CLI::App* ration =
      with_file("ration", "the cheapest safe ration for every horse, and what holds it");
  ration
      ->add_option("--write-program", command.write_program,
                   "also write each horse's linear program, .lp (CPLEX) or .mps (free)")
      ->type_name("FILE");
  ration
      ->add_option_function<double>(
          "--confidence", [&](double percent) { command.confidence = checked_percent(percent); },
          "keep every floor in so many per cent of batches, 51 to 99.9; feeds vary")
      ->type_name("PERCENT");
  ration->add_flag("--exact", command.exact,
                   "solve again in fractions, without rounding, and show the difference");
  ration
      ->add_option("--as-if", command.as_if,
                   "the whole answer to one question under `ask` in the file: its words or number")
      ->type_name("QUESTION");
  add_offers_options(*with_file("offers", "which other mixes would do, and what takes whose place"),
                     command.offers);
  add_winter_options(
      *with_file("winter", "what a winter costs, what to order when, what to bill each horse"),
      command);
  with_file("stretch", "how long what is on hand lasts, what to buy, and by when to change");
  add_batch(app, command);
  with_file("needs", "what each horse needs a day, by which equation, from which source");
  with_file("audit", "is what is fed now enough, and what does it waste");
  with_file("check", "is the file sound: all mistakes at once");
  CLI::App* feeds =
      app.add_subcommand("feeds", "the feeds that are known, or one with its sources");
  add_feeds_options(*feeds, command);
  add_report_options(*feeds, command);
  add_common(*feeds, command);
  CLI::App* page = app.add_subcommand("page", "all of it in a browser, on this computer only");
  page->add_option("FOLDER", command.file, "where the scenario files are; the current folder")
      ->type_name("");
  page->add_option("--port", command.port, "the port to be asked at; otherwise one that is free")
      ->type_name("NUMBER")
      ->check(CLI::Range(1, 65535));
  page->add_flag_callback(
      "--no-browser", [&] { command.open_browser = false; },
      "only say the address; open no browser");
  add_common(*page, command);
  CLI::App* start = app.add_subcommand("new", "a scenario file to start from");
  add_common(*start, command);

  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    command.message = chosen.empty() ? app.help() : chosen.front()->help();
    return command;
  } catch (const CLI::CallForVersion&) {
    command.message = fmt::format("haymow {}\n", version);
    return command;
  } catch (const CLI::ParseError& error) {
    // CLI11 says "arguments were not expected"; name the word and the near command.
    const std::vector<std::string> extras = app.remaining(true);
    if (error.get_name() == "RequiredError" && app.get_subcommands().empty() && argc > 1) {
      throw UsageError(unknown_word(argv[1]));
    }
    if (!extras.empty()) {
      const auto chosen = app.get_subcommands();
      throw UsageError(chosen.empty() || extras.back().starts_with('-')
                           ? unknown_word(extras.back())
                           : fmt::format("`{}` is one argument too many", extras.back()));
    }
    throw UsageError(error.what());
  }
  command.kind = kinds().at(app.get_subcommands().front()->get_name());
  return command;
}

}  // namespace haymow
