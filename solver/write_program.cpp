#include "solver/write_program.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <unordered_set>
#include <utility>
#include <vector>

namespace haymow {
namespace {

// Clp's reader of the LP format takes names of up to 100 characters (from
// memory), GLPK's of 255; room is left for what makes a name unlike another.
constexpr std::size_t longest_name = 60;

// Words with a meaning of their own in the LP format (CPLEX's and GLPK's
// manuals, from memory), in lower case.
constexpr std::array<std::string_view, 24> reserved_words = {
    "minimize", "minimise", "minimum", "min",      "maximize", "maximise", "maximum", "max",
    "subject",  "such",     "st",      "s",        "bounds",   "bound",    "free",    "inf",
    "infinity", "general",  "gen",     "generals", "integer",  "integers", "binary",  "end"};

/// The shortest digits that read back as the same number, whatever the locale.
std::string text_of(double value) {
  std::array<char, 32> digits{};
  const auto result = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  return {digits.data(), result.ptr};
}

bool is_plain(char character) {
  return (character >= 'a' && character <= 'z') || (character >= 'A' && character <= 'Z') ||
         (character >= '0' && character <= '9') || character == '_';
}

std::string lower_case(std::string text) {
  for (char& character : text) {
    if (character >= 'A' && character <= 'Z') {
      character = static_cast<char>(character - 'A' + 'a');
    }
  }
  return text;
}

/// A name may not read as the start of a number (1x, e5) or as a keyword.
bool reads_as_something_else(const std::string& name) {
  const auto is_digit = [](char character) { return character >= '0' && character <= '9'; };
  if (is_digit(name[0]) || name[0] == '_') {
    return true;
  }
  if ((name[0] == 'e' || name[0] == 'E') && (name.size() == 1 || is_digit(name[1]))) {
    return true;
  }
  const std::string plain = lower_case(name);
  return std::find(reserved_words.begin(), reserved_words.end(), plain) != reserved_words.end();
}

/// Gives every name of one kind a plain one, unlike all others of the kind.
class Names {
 public:
  /// `prefix` goes before a name that would read as something else.
  explicit Names(std::string prefix) : prefix_(std::move(prefix)) {}

  std::string plain(const std::string& name) {
    std::string stem;
    for (const char character : name) {
      stem += is_plain(character) ? character : '_';
    }
    if (stem.empty() || reads_as_something_else(stem)) {
      stem = prefix_ + stem;
    }
    if (stem.size() > longest_name) {
      stem.resize(longest_name);
    }
    std::string unlike = stem;
    for (int number = 2; !taken_.insert(lower_case(unlike)).second; ++number) {
      unlike = stem + '_' + std::to_string(number);
    }
    return unlike;
  }

 private:
  std::string prefix_;
  std::unordered_set<std::string> taken_;  // in lower case: some readers ignore case
};

/// The names written, in order; and a line of comment for each one changed.
struct Naming {
  explicit Naming(const LinearProgram& program) {
    Names column_names("x_");
    for (const Column& column : program.columns()) {
      columns.push_back(column_names.plain(column.name));
    }
    Names row_names("r_");
    objective = row_names.plain("cost");
    for (const Row& row : program.rows()) {
      rows.push_back(row_names.plain(row.name));
      // A row with both bounds is written as two in the LP format.
      upper_rows.push_back(is_two_sided(row) ? row_names.plain(row.name + "_upper")
                                             : std::string());
    }
    nothing = column_names.plain("nothing");
  }

  static bool is_two_sided(const Row& row) {
    return std::isfinite(row.lower) && std::isfinite(row.upper) && row.lower != row.upper;
  }

  std::string objective;
  std::string nothing;  // stands in sums without terms; fixed at 0
  std::vector<std::string> columns;
  std::vector<std::string> rows;
  std::vector<std::string> upper_rows;
};

void comment_name(std::string& out, std::string_view mark, std::string_view kind,
                  const std::string& written, const std::string& original) {
  if (written == original) {
    return;
  }
  out.append(mark).append(" ").append(kind).append(" ").append(written).append(": ");
  for (const char character : original) {
    // A line break or other control character would end the comment.
    const bool is_control = static_cast<unsigned char>(character) < 0x20U || character == 0x7F;
    out += is_control ? ' ' : character;
  }
  out += '\n';
}

std::string heading(const LinearProgram& program, const Naming& naming, std::string_view mark) {
  std::string out;
  out.append(mark).append(" Minimises; names that had to change are listed here.\n");
  for (std::size_t j = 0; j < naming.columns.size(); ++j) {
    comment_name(out, mark, "column", naming.columns[j], program.columns()[j].name);
  }
  for (std::size_t i = 0; i < naming.rows.size(); ++i) {
    comment_name(out, mark, "row", naming.rows[i], program.rows()[i].name);
  }
  return out;
}

bool has_bound(const Row& row) { return std::isfinite(row.lower) || std::isfinite(row.upper); }

// ---- CPLEX LP --------------------------------------------------------------

class LpSum {
 public:
  explicit LpSum(const Naming& naming) : naming_(naming) {}

  void add(double coefficient, const std::string& column) {
    if (count_ > 0 && count_ % terms_a_line == 0) {
      text_ += "\n  ";
    }
    text_ += coefficient < 0.0 ? " - " : (count_ == 0 ? " " : " + ");
    text_ += text_of(std::abs(coefficient)) + ' ' + column;
    ++count_;
  }

  /// The sum as text; a sum of nothing still needs a term.
  [[nodiscard]] std::string text() const { return count_ > 0 ? text_ : " 0 " + naming_.nothing; }

 private:
  static constexpr int terms_a_line = 6;  // keeps lines under 510 characters, CPLEX's limit

  const Naming& naming_;
  std::string text_;
  int count_ = 0;
};

std::string lp_sum(const Row& row, const Naming& naming) {
  LpSum sum(naming);
  for (const Term& term : row.terms) {
    sum.add(term.coefficient, naming.columns[static_cast<std::size_t>(term.column)]);
  }
  return sum.text();
}

void add_lp_row(std::string& out, const Row& row, std::size_t i, const Naming& naming) {
  const auto line = [&](const std::string& name, const char* relation, double bound) {
    out += ' ' + name + ':' + lp_sum(row, naming) + relation + text_of(bound) + '\n';
  };
  if (row.lower == row.upper) {
    line(naming.rows[i], " = ", row.lower);
    return;
  }
  if (std::isfinite(row.lower)) {
    line(naming.rows[i], " >= ", row.lower);
  }
  if (std::isfinite(row.upper)) {
    line(std::isfinite(row.lower) ? naming.upper_rows[i] : naming.rows[i], " <= ", row.upper);
  }
}

void add_lp_bounds(std::string& out, const Column& column, const std::string& name) {
  if (column.lower == column.upper) {
    out += ' ' + name + " = " + text_of(column.lower) + '\n';
  } else if (std::isinf(column.lower) && std::isinf(column.upper)) {
    out += ' ' + name + " free\n";
  } else if (std::isinf(column.lower)) {
    out += " -inf <= " + name + " <= " + text_of(column.upper) + '\n';
  } else if (std::isinf(column.upper)) {
    if (column.lower != 0.0) {
      out += ' ' + name + " >= " + text_of(column.lower) + '\n';
    }
  } else {
    out += ' ' + text_of(column.lower) + " <= " + name + " <= " + text_of(column.upper) + '\n';
  }
}

// ---- Free MPS --------------------------------------------------------------

void add_mps_row_heads(std::string& out, const LinearProgram& program, const Naming& naming) {
  out += "ROWS\n N " + naming.objective + '\n';
  for (std::size_t i = 0; i < naming.rows.size(); ++i) {
    const Row& row = program.rows()[i];
    if (has_bound(row)) {
      const char* kind = row.lower == row.upper ? " E " : std::isfinite(row.lower) ? " G " : " L ";
      out += kind + naming.rows[i] + '\n';
    }
    if (Naming::is_two_sided(row)) {
      out += " L " + naming.upper_rows[i] + '\n';
    }
  }
}

void add_mps_columns(std::string& out, const LinearProgram& program, const Naming& naming) {
  std::vector<std::string> entries(naming.columns.size());
  for (std::size_t j = 0; j < naming.columns.size(); ++j) {
    // Written even when 0: a column must stand here to exist.
    entries[j] = ' ' + naming.columns[j] + ' ' + naming.objective + ' ' +
                 text_of(program.columns()[j].cost) + '\n';
  }
  for (std::size_t i = 0; i < naming.rows.size(); ++i) {
    const Row& row = program.rows()[i];
    for (const Term& term : row.terms) {
      const auto j = static_cast<std::size_t>(term.column);
      const auto entry = [&](const std::string& name) {
        entries[j] += ' ' + naming.columns[j] + ' ' + name + ' ' + text_of(term.coefficient) + '\n';
      };
      if (has_bound(row)) {
        entry(naming.rows[i]);
      }
      if (Naming::is_two_sided(row)) {
        entry(naming.upper_rows[i]);
      }
    }
  }
  out += "COLUMNS\n";
  bool is_whole = false;
  for (std::size_t j = 0; j < entries.size(); ++j) {
    if (std::exchange(is_whole, program.columns()[j].whole) != is_whole) {
      out += is_whole ? " MARKER 'MARKER' 'INTORG'\n" : " MARKER 'MARKER' 'INTEND'\n";
    }
    out += entries[j];
  }
  if (is_whole) {
    out += " MARKER 'MARKER' 'INTEND'\n";
  }
}

void add_mps_right_sides(std::string& out, const LinearProgram& program, const Naming& naming) {
  out += "RHS\n";
  for (std::size_t i = 0; i < naming.rows.size(); ++i) {
    const Row& row = program.rows()[i];
    if (has_bound(row)) {
      const double side = std::isfinite(row.lower) ? row.lower : row.upper;
      out += " RHS " + naming.rows[i] + ' ' + text_of(side) + '\n';
    }
    if (Naming::is_two_sided(row)) {
      out += " RHS " + naming.upper_rows[i] + ' ' + text_of(row.upper) + '\n';
    }
  }
}

/// Both bounds are written, lower first: readers disagree on what an upper
/// bound alone says of the lower one, and on the bounds of whole columns.
void add_mps_bounds(std::string& out, const LinearProgram& program, const Naming& naming) {
  out += "BOUNDS\n";
  for (std::size_t j = 0; j < naming.columns.size(); ++j) {
    const Column& column = program.columns()[j];
    const auto line = [&](const char* kind, const std::string& value) {
      out += std::string(" ") + kind + " BND " + naming.columns[j] + value + '\n';
    };
    if (column.lower == column.upper) {
      line("FX", ' ' + text_of(column.lower));
      continue;
    }
    if (std::isinf(column.lower) && std::isinf(column.upper)) {
      line("FR", "");
      continue;
    }
    if (std::isinf(column.lower)) {
      line("MI", "");
    } else {
      line("LO", ' ' + text_of(column.lower));
    }
    if (std::isinf(column.upper)) {
      line("PL", "");
    } else {
      line("UP", ' ' + text_of(column.upper));
    }
  }
}

}  // namespace

std::string to_cplex_lp(const LinearProgram& program) {
  const Naming naming(program);
  std::string out = heading(program, naming, "\\");
  LpSum cost(naming);
  for (std::size_t j = 0; j < naming.columns.size(); ++j) {
    cost.add(program.columns()[j].cost, naming.columns[j]);
  }
  out += "Minimize\n " + naming.objective + ':' + cost.text() + "\nSubject To\n";
  bool has_empty_sum = naming.columns.empty();
  bool has_rows = false;
  for (std::size_t i = 0; i < naming.rows.size(); ++i) {
    const Row& row = program.rows()[i];
    add_lp_row(out, row, i, naming);
    has_rows = has_rows || has_bound(row);
    has_empty_sum = has_empty_sum || (has_bound(row) && row.terms.empty());
  }
  if (!has_rows) {  // readers want at least one
    out += " r_nothing: " + naming.nothing + " >= 0\n";
    has_empty_sum = true;
  }
  out += "Bounds\n";
  for (std::size_t j = 0; j < naming.columns.size(); ++j) {
    add_lp_bounds(out, program.columns()[j], naming.columns[j]);
  }
  if (has_empty_sum) {
    out += ' ' + naming.nothing + " = 0\n";
  }
  if (program.has_whole_columns()) {
    out += "General\n";
    for (std::size_t j = 0; j < naming.columns.size(); ++j) {
      if (program.columns()[j].whole) {
        out += ' ' + naming.columns[j] + '\n';
      }
    }
  }
  return out + "End\n";
}

std::string to_free_mps(const LinearProgram& program) {
  const Naming naming(program);
  std::string out = heading(program, naming, "*");
  out += "NAME program FREE\n";  // the word by which COIN readers know the free format
  add_mps_row_heads(out, program, naming);
  add_mps_columns(out, program, naming);
  add_mps_right_sides(out, program, naming);
  add_mps_bounds(out, program, naming);
  return out + "ENDATA\n";
}

}  // namespace haymow
