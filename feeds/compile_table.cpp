// Build step: reads tables/*.yaml strictly and writes the rows of
// feed_table_data.h as C++. A mistake in a table stops the build with its place
// and line. Not part of the program that users run.
//
//   compile_table OUT.cpp sources.yaml TABLE.yaml...
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "feeds/compile_table_rows.h"
#include "feeds/diagnostic.h"

namespace {

using haymow::Findings;

Findings open_table(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error(path + ": cannot be read");
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  // Positions name the file, not the folder of whoever builds.
  return Findings{text, "feeds/tables/" + path.substr(path.find_last_of('/') + 1)};
}

void compile(const std::vector<std::string>& arguments) {
  haymow::compile_table::Tables tables;
  Findings sources = open_table(arguments.at(1));
  haymow::compile_table::read_sources(sources, tables);
  sources.throw_if_any();
  for (std::size_t i = 2; i < arguments.size(); ++i) {
    Findings table = open_table(arguments[i]);
    haymow::compile_table::read_feeds(table, tables);
    table.throw_if_any();
  }
  haymow::compile_table::refuse_unused_sources(sources, tables);
  sources.throw_if_any();
  std::ofstream out(arguments[0], std::ios::binary);
  out << haymow::compile_table::as_cpp(tables);
  out.close();
  if (!out) throw std::runtime_error(arguments[0] + ": cannot be written");
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  if (arguments.size() < 3) {
    std::cerr << "usage: compile_table OUT.cpp sources.yaml TABLE.yaml...\n";
    return 2;
  }
  try {
    compile(arguments);
    return 0;
  } catch (const haymow::InputError& error) {
    for (const haymow::Diagnostic& mistake : error.diagnostics()) std::cerr << render(mistake);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
  }
  return 1;
}
