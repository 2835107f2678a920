// Little linear programs that several tests share, each written out above it.
#pragma once

#include "solver/linear_program.h"

namespace haymow::small_programs {

/// min 2x + 3y,  sum: x + y >= 4,  share: x - y <= 2,  x, y >= 0.
/// Both rows hold: x = 3, y = 1, cost 9; duals 2.5 and -0.5.
inline LinearProgram two_rows() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 2.0});
  program.add_column({.name = "y", .cost = 3.0});
  program.add_row({.name = "sum", .lower = 4.0, .terms = {{0, 1.0}, {1, 1.0}}});
  program.add_row({.name = "share", .upper = 2.0, .terms = {{0, 1.0}, {1, -1.0}}});
  return program;
}

/// min x,  least: x >= 5,  most: x <= 3,  idle: x <= 100,  x >= 0. No answer:
/// least and most cannot both hold, idle has no part in it.
inline LinearProgram clash() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 1.0});
  program.add_row({.name = "least", .lower = 5.0, .terms = {{0, 1.0}}});
  program.add_row({.name = "most", .upper = 3.0, .terms = {{0, 1.0}}});
  program.add_row({.name = "idle", .upper = 100.0, .terms = {{0, 1.0}}});
  return program;
}

/// min -x,  floor: x >= 1,  x >= 0: the cost falls without end.
inline LinearProgram endless() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = -1.0});
  program.add_row({.name = "floor", .lower = 1.0, .terms = {{0, 1.0}}});
  return program;
}

/// min x + 2y,  need: x + y >= 2,  need again: the same,  x, y >= 0.
/// Degenerate: x = 2, cost 2, and the dual 1 may stand on either row.
inline LinearProgram twice_the_same_row() {
  LinearProgram program;
  program.add_column({.name = "x", .cost = 1.0});
  program.add_column({.name = "y", .cost = 2.0});
  program.add_row({.name = "need", .lower = 2.0, .terms = {{0, 1.0}, {1, 1.0}}});
  program.add_row({.name = "need again", .lower = 2.0, .terms = {{0, 1.0}, {1, 1.0}}});
  return program;
}

/// min 5a + 4b + 3c in whole numbers,  need: 2a + 3b + c >= 5.
/// The relaxation costs 20/3 (b = 5/3); in whole numbers b = 1, c = 2 costs 10,
/// b = 2 costs 8, a = b = 1 costs 9: the best is 8.
inline LinearProgram whole_numbers() {
  LinearProgram program;
  program.add_column({.name = "a", .upper = 10.0, .cost = 5.0, .whole = true});
  program.add_column({.name = "b", .upper = 10.0, .cost = 4.0, .whole = true});
  program.add_column({.name = "c", .upper = 10.0, .cost = 3.0, .whole = true});
  program.add_row({.name = "need", .lower = 5.0, .terms = {{0, 2.0}, {1, 3.0}, {2, 1.0}}});
  return program;
}

// Beale's example that cycles (Beale, Naval Research Logistics Quarterly 2, 1955, as
// given in Dantzig, Linear Programming and Extensions, 1963, section 10-1, here from
// memory): min -3/4 x1 + 150 x2 - 1/50 x3 + 6 x4,
//   1/4 x1 - 60 x2 - 1/25 x3 + 9 x4 <= 0,  1/2 x1 - 90 x2 - 1/50 x3 + 3 x4 <= 0,  x3 <= 1.
// The first vertex is degenerate. The optimum is x = (1/25, 0, 1, 0), cost -1/20, with
// the duals 0, -3/2 and -1/20, which leave 0, 15, 0 and 21/2 of the costs.
inline LinearProgram beale() {
  LinearProgram program;
  program.add_column({.name = "x1", .cost = -0.75});
  program.add_column({.name = "x2", .cost = 150.0});
  program.add_column({.name = "x3", .cost = -0.02});
  program.add_column({.name = "x4", .cost = 6.0});
  program.add_row(
      {.name = "a", .upper = 0.0, .terms = {{0, 0.25}, {1, -60.0}, {2, -0.04}, {3, 9.0}}});
  program.add_row(
      {.name = "b", .upper = 0.0, .terms = {{0, 0.5}, {1, -90.0}, {2, -0.02}, {3, 3.0}}});
  program.add_row({.name = "c", .upper = 1.0, .terms = {{2, 1.0}}});
  return program;
}

}  // namespace haymow::small_programs
