// Reads the free MPS files that glpsol writes, as far as tests need them: one
// objective to minimise, G, L and E rows, continuous columns, bounds. Anything
// else is refused.
#pragma once

#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "solver/linear_program.h"

namespace haymow {

inline LinearProgram program_from_free_mps(const std::string& text) {
  std::vector<Row> rows;
  std::vector<Column> columns;
  std::map<std::string, std::size_t> row_of;
  std::map<std::string, std::size_t> column_of;
  std::map<std::size_t, char> kinds;
  std::string objective;
  std::string section;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line[0] == '*') {
      continue;
    }
    line = line.substr(0, line.find('$'));
    std::istringstream words(line);
    std::vector<std::string> fields;
    for (std::string word; words >> word;) {
      fields.push_back(word);
    }
    if (line[0] != ' ') {
      section = fields.at(0);
      continue;
    }
    if (section == "ROWS") {
      const char kind = fields.at(0).at(0);
      if (kind == 'N' && objective.empty()) {
        objective = fields.at(1);
      } else {
        row_of[fields.at(1)] = rows.size();
        kinds[rows.size()] = kind;
        rows.push_back({.name = fields.at(1)});
        Row& row = rows.back();
        if (kind == 'G' || kind == 'E') {
          row.lower = 0.0;
        }
        if (kind == 'L' || kind == 'E') {
          row.upper = 0.0;
        }
      }
    } else if (section == "COLUMNS") {
      if (!column_of.contains(fields.at(0))) {
        column_of[fields.at(0)] = columns.size();
        columns.push_back({.name = fields.at(0)});
      }
      const std::size_t column = column_of.at(fields.at(0));
      for (std::size_t k = 1; k + 1 < fields.size(); k += 2) {
        const double value = std::stod(fields[k + 1]);
        if (fields[k] == objective) {
          columns[column].cost = value;
        } else {
          rows.at(row_of.at(fields[k])).terms.push_back({static_cast<int>(column), value});
        }
      }
    } else if (section == "RHS") {
      for (std::size_t k = 1; k + 1 < fields.size(); k += 2) {
        const std::size_t row = row_of.at(fields[k]);  // throws on a constant in the objective
        const double value = std::stod(fields[k + 1]);
        if (kinds.at(row) == 'G' || kinds.at(row) == 'E') {
          rows[row].lower = value;
        }
        if (kinds.at(row) == 'L' || kinds.at(row) == 'E') {
          rows[row].upper = value;
        }
      }
    } else if (section == "BOUNDS") {
      Column& column = columns.at(column_of.at(fields.at(2)));
      if (fields[0] == "UP") {
        column.upper = std::stod(fields.at(3));
      } else if (fields[0] == "LO") {
        column.lower = std::stod(fields.at(3));
      } else if (fields[0] != "PL") {
        throw std::runtime_error("kind of bound not read: " + fields[0]);
      }
    } else {
      throw std::runtime_error("section not read: " + section);
    }
  }
  LinearProgram program;
  for (const Column& column : columns) {
    program.add_column(column);
  }
  for (const Row& row : rows) {
    program.add_row(row);
  }
  return program;
}

}  // namespace haymow
