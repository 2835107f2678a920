// The command line as a value. Parses only: opens no file, solves nothing.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "scenarios/report.h"

namespace haymow {

enum class Format { text, html, sheet, json };
enum class Colour { automatic, always, never };

/// Which other mixes are asked for, in words: what they mean, offers_options.h says.
struct OffersWords {
  int count = 4;
  double margin_percent = 5.0;
  std::vector<std::string> without;
  std::vector<std::string> with;      // "oats: 1 kg"
  std::optional<std::string> only;    // a price list
  std::vector<std::string> prices;    // "oats", "oats: 8 to 20 per 20 kg bag"
  std::vector<std::string> limits;    // "forage share", "starch a day: 300 to 900 g"
  std::optional<std::string> curves;  // where the points of the curves go
};

/// Files that `winter` writes beside the report.
struct WinterFiles {
  std::optional<std::string> orders;    // CSV
  std::optional<std::string> bills;     // CSV
  std::optional<std::string> calendar;  // iCalendar
};

struct Command {
  enum class Kind {
    ration,
    needs,
    feeds,
    check,
    audit,
    offers,
    winter,
    stretch,
    batch,
    page,
    start,
    message
  };
  Kind kind = Kind::message;
  std::string file;                    // the scenario, or the records; `-` is standard input
  std::string name;                    // feeds: one feed, or empty for all
  bool origins = false;                // feeds: how the figures are known
  std::optional<std::string> prices;   // feeds: the scenario whose offers are compared
  std::optional<std::string> explain;  // feeds: the one feed that is explained
  std::optional<std::string> look_in;  // feeds: the scenario that is looked in first for it
  Format format = Format::text;
  Colour colour = Colour::automatic;
  Units units = Units::metric;
  std::optional<std::string> output;  // absent: standard output
  std::optional<std::string> write_program;
  std::optional<double> confidence;  // ration: per cent
  bool exact = false;                // ration: solve again in fractions
  std::optional<std::string> as_if;  // ration: a question of the file, or its number
  std::optional<std::string> base;   // batch: the scenario that records share
  std::optional<int> jobs;           // batch: threads; absent: one a processor
  bool full = false;                 // batch: all that `ration` says
  OffersWords offers;
  WinterFiles winter;
  int port = 0;              // page: 0: one that is free
  bool open_browser = true;  // page
  bool overwrite = false;
  bool verbose = false;
  bool quiet = false;
  std::string message;  // message: help or version, for standard output
};

/// What is wrong with the command line, in words, with a help line.
class UsageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Throws UsageError.
[[nodiscard]] Command parse_command(int argc, const char* const* argv);

}  // namespace haymow
