// What a command has to say, as rows and sentences ready to print. The writers
// make no decisions and invent no words; the words are made in wording.cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenarios/ask.h"
#include "scenarios/audit.h"
#include "scenarios/pictures.h"
#include "scenarios/run.h"

namespace haymow {

enum class Units { metric, us };

/// A table: a heading for each column, then rows of the same length. Columns
/// after the first `left_columns` hold numbers and are set to the right.
struct Table {
  std::vector<std::string> headings;
  std::vector<std::vector<std::string>> rows;
  std::size_t left_columns = 1;
  bool last_is_prose = false;  // the last column holds words and is set to the left
};

/// A titled part of a report: sentences, and before them a table if there is one. A
/// terminal shows no pictures, so no section may say something by pictures alone.
struct Section {
  std::string title;
  std::optional<Table> table;
  std::vector<std::string> sentences;
  Pictures pictures = {};
};

struct Report {
  std::string title;
  struct Part {
    std::string headline;  // what to feed and what it costs, or why not
    bool good = true;
    std::vector<Section> sections;
  };
  std::vector<Part> parts;
  std::vector<Section> closing;  // cautions
};

struct ReportOptions {
  Units units = Units::metric;
  bool verbose = false;  // every need and every rule, not only those that hold
  bool on_page = false;  // room for pictures, and for where the figures come from
};

[[nodiscard]] Report ration_report(const Scenario& scenario,
                                   const std::vector<HorseAnswer>& answers,
                                   const ReportOptions& options,
                                   const std::vector<AskedAnswer>& questions = {});
[[nodiscard]] Report needs_report(const Scenario& scenario);
[[nodiscard]] Report audit_report(const Scenario& scenario, const std::vector<Audit>& audits,
                                  const ReportOptions& options);
/// All feeds of the table in brief, or one feed in full with its sources.
[[nodiscard]] Report feeds_report(const std::vector<const Feed*>& feeds, bool full);

/// For each nutrient, how many figures of the table are printed, calculated,
/// estimated, from memory, and how many feeds have none.
[[nodiscard]] Report origins_report();
/// What a kilogram eaten, a megajoule and protein of each offer really cost.
[[nodiscard]] Report prices_report(const Scenario& scenario, const ReportOptions& options);

/// Text for a terminal of `width` columns; `colour` adds ANSI emphasis.
[[nodiscard]] std::string write_text(const Report& report, int width, bool colour);

/// One HTML file that needs nothing else: no network, no other file. Every text is
/// escaped. Plots are drawn by the script in it, and stand as tables beside.
[[nodiscard]] std::string write_html(const Report& report);

/// The same without head, style and scripts, to be put into a page that has them.
[[nodiscard]] std::string write_html_part(const Report& report);

/// JSON of the same answers at full precision; see docs/reference/json-report.md.
[[nodiscard]] std::string ration_json(const Scenario& scenario,
                                      const std::vector<HorseAnswer>& answers,
                                      const std::vector<AskedAnswer>& questions = {});
[[nodiscard]] std::string needs_json(const Scenario& scenario);
[[nodiscard]] std::string audit_json(const Scenario& scenario, const std::vector<Audit>& audits);
[[nodiscard]] std::string feeds_json(const std::vector<const Feed*>& feeds);
[[nodiscard]] std::string origins_json();
[[nodiscard]] std::string prices_json(const Scenario& scenario);
/// For check, and for any command whose file is wrong.
[[nodiscard]] std::string diagnostics_json(std::string_view status,
                                           const std::vector<Diagnostic>& diagnostics);

}  // namespace haymow
