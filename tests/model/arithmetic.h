// Reads a printed equation back and works it out again, so that a test can tell
// whether what is shown to the keeper is what was computed.
#pragma once

#include <cctype>
#include <cmath>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <vector>

namespace haymow::printed {

/// Value of a sum such as "0.04 g/kg x 500 kg + 2 x (3 - 1)"; unit words are
/// skipped. Throws std::runtime_error for anything it cannot read.
class Arithmetic {
 public:
  explicit Arithmetic(std::string text) : text_(std::move(text)) {}

  double value() {
    const double total = sum();
    if (at_ != text_.size()) throw std::runtime_error("unread: " + text_.substr(at_));
    return total;
  }

 private:
  static bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

  void skip_spaces() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool word_is(const std::string& word) const {
    if (text_.compare(at_, word.size(), word) != 0) return false;
    const std::size_t end = at_ + word.size();
    return end >= text_.size() || !is_letter(text_[end]);
  }
  void skip_units() {
    skip_spaces();
    while (at_ < text_.size() && is_letter(text_[at_]) && !word_is("x")) {
      while (at_ < text_.size() && (is_letter(text_[at_]) || text_[at_] == '/')) ++at_;
      skip_spaces();
    }
  }
  bool take(const std::string& token) {
    skip_spaces();
    const bool found = token == "x" ? word_is(token) : text_.compare(at_, token.size(), token) == 0;
    if (found) at_ += token.size();
    skip_spaces();
    return found;
  }
  double sum() {
    double total = product();
    for (;;) {
      if (take("+")) {
        total += product();
      } else if (take("-")) {
        total -= product();
      } else {
        return total;
      }
    }
  }
  double product() {
    double total = factor();
    for (;;) {
      if (take("x")) {
        total *= factor();
      } else if (take("/")) {
        total /= factor();
      } else {
        return total;
      }
    }
  }
  double factor() {
    const double base = atom();
    return take("^") ? std::pow(base, atom()) : base;
  }
  double atom() {
    if (take("exp(")) return std::exp(bracketed());
    if (take("(")) return bracketed();
    const char* begin = text_.c_str() + at_;
    char* end = nullptr;
    const double number = std::strtod(begin, &end);
    if (end == begin) throw std::runtime_error("no number at: " + text_.substr(at_));
    at_ += static_cast<std::size_t>(end - begin);
    skip_units();
    return number;
  }
  double bracketed() {
    const double inside = sum();
    if (!take(")")) throw std::runtime_error("no closing bracket at: " + text_.substr(at_));
    skip_units();
    return inside;
  }

  std::string text_;
  std::size_t at_ = 0;
};

/// One line of a printed equation, "name: sum = result unit".
struct PrintedLine {
  std::string sum;
  std::string result;  // the number as printed
};

/// The lines of an equation, remarks in square brackets and names left out.
inline std::vector<PrintedLine> lines_of(const std::string& equation) {
  std::string plain;
  int depth = 0;
  for (const char c : equation) {
    if (c == '[') ++depth;
    if (depth == 0) plain += c;
    if (c == ']') --depth;
  }
  std::vector<PrintedLine> lines;
  for (std::size_t begin = 0; begin < plain.size();) {
    const std::size_t end = std::min(plain.find("; ", begin), plain.size());
    std::string line = plain.substr(begin, end - begin);
    const std::size_t name_end = line.rfind(": ");
    if (name_end != std::string::npos) line.erase(0, name_end + 2);
    const std::size_t equals = line.find(" = ");
    if (equals == std::string::npos) throw std::runtime_error("no result in: " + line);
    const std::string result = line.substr(equals + 3);
    lines.push_back({line.substr(0, equals), result.substr(0, result.find(' '))});
    begin = end + 2;
  }
  return lines;
}

/// Half a unit of the last digit of a printed number.
inline double half_digit(const std::string& printed) {
  const std::size_t point = printed.find('.');
  if (point == std::string::npos) return 0.5;
  return 0.5 * std::pow(10.0, -static_cast<double>(printed.size() - point - 1));
}

}  // namespace haymow::printed
