// What a report shows beside its words where there is room for pictures: on a page,
// not in a terminal. Values at full precision; the writer scales and draws.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace haymow {

/// A need or a limit as a ruler from its floor to its ceiling, and where the ration
/// lies on it. All three in `unit`, a day.
struct Ruler {
  std::string name;
  std::string unit;
  int decimals = 1;
  double supplied = 0.0;
  std::optional<double> floor;
  std::optional<double> ceiling;
  std::string remark;  // "known for 78 % of the dry matter"; may be empty
};

/// Parts of a whole, the largest bar the full width.
struct Bar {
  std::string name;
  std::string amount;  // as the tables word it
  double value = 0.0;
};

/// Lines over one axis, either of numbers or of words (then `labels` names x = 0, 1, 2...).
struct Plot {
  struct Point {
    double x = 0.0;
    double y = 0.0;
  };
  struct Line {
    std::string name;
    std::vector<Point> points;
    bool steps = false;  // holds its value until the next point
    bool dots = false;   // points alone, without a line
  };
  /// A line across the plot at x, with words.
  struct Mark {
    double x = 0.0;
    std::string words;
  };
  std::string title;
  std::string x_words;
  std::string y_words;
  std::vector<std::string> labels;
  std::vector<Line> lines;
  std::vector<Mark> marks;
  std::string note;
  bool small = false;     // one of many: two beside each other, without a legend
  bool from_zero = true;  // amounts are; money may be drawn from the least of it
};

struct Pictures {
  std::vector<Ruler> rulers;
  std::vector<Bar> bars;
  std::vector<Plot> plots;
  [[nodiscard]] bool any() const { return !rulers.empty() || !bars.empty() || !plots.empty(); }
};

}  // namespace haymow
