// What other people's solvers make of a program of ours. Tests only.
#pragma once

#include <cmath>
#include <map>
#include <optional>
#include <sstream>
#include <string>

#include "solver/write_program.h"
#include "tests/solver/foreign_solvers.h"

namespace haymow::second_opinion {

/// HiGHS by way of SciPy, from the rows and columns themselves, so that no
/// reader of files stands between; in whole numbers to 1e-3 of the best. Nothing
/// when SciPy is missing.
inline std::optional<double> highs_optimum(const foreign_solvers::Folder& folder,
                                           const LinearProgram& program) {
  std::ostringstream text;
  text.precision(17);
  const auto number = [&](double value) {
    if (std::isinf(value)) {
      text << (value > 0.0 ? "inf" : "-inf");
    } else {
      text << value;
    }
    text << ",";
  };
  text << "from math import inf\nimport numpy as np\n"
          "from scipy.optimize import Bounds, LinearConstraint, milp\nc = [";
  for (const Column& column : program.columns()) number(column.cost);
  text << "]\nlow = [";
  for (const Column& column : program.columns()) number(column.lower);
  text << "]\nhigh = [";
  for (const Column& column : program.columns()) number(column.upper);
  text << "]\nrow_low = [";
  for (const Row& row : program.rows()) number(row.lower);
  text << "]\nrow_high = [";
  for (const Row& row : program.rows()) number(row.upper);
  text << "]\nwhole = [";
  for (const Column& column : program.columns()) number(column.whole ? 1.0 : 0.0);
  text << "]\na = np.zeros((len(row_low), len(c)))\n";
  for (std::size_t i = 0; i < program.rows().size(); ++i) {
    for (const Term& term : program.rows()[i].terms) {
      text << "a[" << i << ", " << term.column << "] = " << term.coefficient << "\n";
    }
  }
  text << "r = milp(c, constraints=LinearConstraint(a, row_low, row_high), bounds=Bounds(low, "
          "high), integrality=whole, options={'mip_rel_gap': 1e-3})\n"
          "print('optimum', repr(float(r.fun)) if r.status == 0 else 'none')\n";
  const std::string script = folder.write("highs.py", text.str());
  return foreign_solvers::number_after(
      foreign_solvers::output_of("/usr/bin/python3 '" + script + "' 2>&1"), "optimum ");
}

inline bool has_scipy() {
  return foreign_solvers::output_of("/usr/bin/python3 -c 'import scipy.optimize; print(1)' 2>&1")
      .starts_with("1");
}

/// The optimum by each other solver that is installed; one that is installed
/// and finds none says so by an absent number.
inline std::map<std::string, std::optional<double>> optima_of(const LinearProgram& program) {
  const foreign_solvers::Folder folder;
  const std::string path = folder.write("program.mps", to_free_mps(program));
  std::map<std::string, std::optional<double>> optima;
  if (foreign_solvers::has("clp")) optima["Clp"] = foreign_solvers::clp_optimum(path);
  if (foreign_solvers::has("cbc")) optima["Cbc"] = foreign_solvers::cbc_optimum(folder, path);
  if (foreign_solvers::has("lp_solve"))
    optima["lp_solve"] = foreign_solvers::lp_solve_optimum(path);
  if (has_scipy()) optima["HiGHS"] = highs_optimum(folder, program);
  return optima;
}

}  // namespace haymow::second_opinion
