// Scenario files with a mistake, and the whole message each must give. Each
// mistakes/NAME.yaml has one mistake; NAME.txt beside it is what is said of it.
// HAYMOW_UPDATE=1 in the environment writes NAME.txt: read it before committing.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "scenarios/run.h"
#include "scenarios/scenario.h"
#include "tests/scenarios/files.h"
#include "tests/scenarios/message_page.h"

namespace haymow::scenario_mistakes_test {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::StartsWith;

std::vector<std::string> mistake_names() {
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::directory_iterator(test_files::path_of("mistakes"))) {
    if (file.path().extension() == ".yaml") names.push_back(file.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// What is wrong with `text`; nothing when it is sound.
std::vector<Diagnostic> mistakes_in(std::string_view text, const std::string& file) {
  try {
    (void)read_scenario(text, file);
  } catch (const InputError& error) {
    return error.diagnostics();
  }
  return {};
}

std::string rendered(const std::vector<Diagnostic>& diagnostics) {
  return diagnostics.empty() ? "" : std::string(InputError(diagnostics).what()) + "\n";
}

std::string said_of(std::string_view text) { return rendered(mistakes_in(text, "f.yaml")); }

class ScenarioMistake : public ::testing::TestWithParam<std::string> {};

TEST_P(ScenarioMistake, IsSaidOnceInFull) {
  const std::string name = "mistakes/" + GetParam();
  const auto found = mistakes_in(test_files::text_of(name + ".yaml"), GetParam() + ".yaml");
  if (std::getenv("HAYMOW_UPDATE") != nullptr) {
    std::ofstream(test_files::path_of(name + ".txt"), std::ios::binary) << rendered(found);
  }
  ASSERT_EQ(found.size(), 1U) << rendered(found);
  EXPECT_EQ(found[0].severity, Severity::error);
  EXPECT_FALSE(found[0].help.empty()) << "how to mend it is missing";
  EXPECT_TRUE(message_page::explains(found[0].message)) << "not in docs/reference/messages.md";
  EXPECT_EQ(rendered(found), test_files::text_of(name + ".txt"));
}

INSTANTIATE_TEST_SUITE_P(Files, ScenarioMistake, ::testing::ValuesIn(mistake_names()),
                         [](const auto& file) { return file.param; });

TEST(ScenarioMistakes, HaveNoMessageWithoutAFile) {
  const auto names = mistake_names();
  ASSERT_GT(names.size(), 100U);
  for (const auto& file : std::filesystem::directory_iterator(test_files::path_of("mistakes"))) {
    const std::string stem = file.path().stem().string();
    EXPECT_TRUE(std::binary_search(names.begin(), names.end(), stem)) << file.path();
  }
}

TEST(ScenarioMistakes, AreSaidAllAtOnceInTheOrderOfTheFile) {
  const auto found = mistakes_in(
      "money: pounds\n"
      "horses:\n"
      "  - {name: Juniper, bodyweight: 5 kg, work: hard}\n"
      "forage:\n"
      "  - {feed: meadow hay, price: dear, waste: 8}\n",
      "f.yaml");
  std::vector<int> lines;
  for (const Diagnostic& d : found) lines.push_back(d.position.line);
  EXPECT_THAT(lines, ::testing::ElementsAre(1, 3, 3, 5, 5)) << rendered(found);
}

TEST(ScenarioMistakes, OfAFeedDoNotMakeItsNameUnknown) {
  // The hay is there, only its price is not: one mistake, one message.
  const auto found = mistakes_in(
      "money: GBP\n"
      "horses: [{name: J, bodyweight: 500 kg, work: none, fed now: {our hay: 8 kg}}]\n"
      "forage: [{feed: meadow hay, name: our hay, price: dear},\n"
      "         {fed: oat straw, price: 1 per kg}]\n",
      "f.yaml");
  ASSERT_EQ(found.size(), 2U) << rendered(found);
  EXPECT_THAT(found[0].message, HasSubstr("dear"));
  EXPECT_THAT(found[1].message, HasSubstr("fed"));
}

TEST(ScenarioMistakes, MoreThanTwentyAreCounted) {
  std::string text = "money: GBP\nforage: [{feed: oat straw, price: 0 per kg}]\nhorses:\n";
  for (int i = 1; i <= 25; ++i) {
    text += "  - {name: h" + std::to_string(i) + ", bodyweight: 5 kg, work: light}\n";
  }
  EXPECT_THAT(said_of(text), ::testing::EndsWith("\nand 5 more\n"));
}

TEST(ScenarioMistakes, OfAFileThatIsNotText) {
  const std::string junk(
      "\x7f"
      "ELF\x02\x01\x01\0\0\0\xff\xfe\x80",
      13);
  EXPECT_EQ(said_of(junk),
            "f.yaml:1:1: error: byte 0x7f does not belong in a text file\n"
            "  \\x7fELF\\x02\\x01\\x01\\x00\\x00\\x00\\xff\\xfe\\x80\n"
            "  ^~~~\n"
            "  help: check that this is the scenario file, saved as plain text\n");
  EXPECT_THAT(said_of("money: \xa3\n"),
              HasSubstr("f.yaml:1:8: error: byte 0xa3 is not UTF-8 text"));
  EXPECT_THAT(said_of(std::string("\xff\xfem\0o\0", 6)), HasSubstr("the file is UTF-16 text"));
  EXPECT_THAT(said_of(std::string("money: GBP\n\0", 12)),
              HasSubstr("f.yaml:2:1: error: byte 0x00"));
}

TEST(ScenarioMistakes, OfAFileOfFiveMegabytesAreToldAtOnce) {
  std::string text = "money: GBP\nhorses:\n";
  while (text.size() < 5'000'000) text += "  - {name: a, bodyweight: 500 kg, work: none}\n";
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(said_of(text),
            "f.yaml: error: the file has 5.0 MB; at most 1 MB is read\n"
            "  help: check that this is the scenario file; two hundred horses take less than 0.1 "
            "MB\n");
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
}

TEST(ScenarioMistakes, InDeepBracketsEndReading) {
  EXPECT_THAT(said_of(std::string(100000, '[')), StartsWith("f.yaml:1"));
  EXPECT_THAT(said_of("horses: " + std::string(5000, '{')), StartsWith("f.yaml:1"));
}

TEST(ScenarioMistakes, ShowNoControlCharactersOfTheFile) {
  EXPECT_THAT(said_of("money: GBP\nhor\x1b[31mses: 1\n"),
              AllOf(HasSubstr("\\x1b"), ::testing::Not(HasSubstr("\x1b"))));
}

// ---- Damaged copies of a sound file ----------------------------------------

/// Makes the same sequence on every machine: mt19937 is fixed by the standard,
/// the distributions of the library are not.
class Damage {
 public:
  explicit Damage(std::uint32_t seed) : random_(seed) {}

  std::string of(std::string text) {
    const std::size_t times = 1 + below(3);
    for (std::size_t i = 0; i < times && !text.empty(); ++i) once(text);
    return text;
  }

 private:
  std::size_t below(std::size_t end) { return random_() % end; }

  void once(std::string& text) {
    static const std::array<std::string, 36> bits{"-",
                                                  ":",
                                                  ": ",
                                                  "{",
                                                  "}",
                                                  "[",
                                                  "]",
                                                  ",",
                                                  "\t",
                                                  "#",
                                                  "'",
                                                  "\"",
                                                  "&a ",
                                                  "*a",
                                                  "<<: *a",
                                                  "!!int ",
                                                  "|\n",
                                                  "? ",
                                                  "~",
                                                  ".nan",
                                                  "010",
                                                  "1e999",
                                                  "0x1F",
                                                  "-0",
                                                  "1,5",
                                                  "\xc2\xa3",
                                                  "99999999999999",
                                                  "\n",
                                                  "\r",
                                                  "---",
                                                  "\n...\n",
                                                  "null",
                                                  "no",
                                                  "%",
                                                  "\xe2\x88\x92",
                                                  "name: x"};
    const std::size_t at = below(text.size());
    switch (below(7)) {
      case 0:
        text.erase(at, 1 + below(12));
        break;
      case 1:
        text[at] = static_cast<char>(below(256));
        break;
      case 2:
        text.insert(at, bits[below(bits.size())]);
        break;
      case 3:
        text.replace(at, 1 + below(6), bits[below(bits.size())]);
        break;
      case 4: {  // a stretch twice
        const std::string stretch = text.substr(at, 1 + below(80));
        text.insert(below(text.size()), stretch);
        break;
      }
      case 5:
        text.resize(at);
        break;
      default: {  // another digit, where there is one further on
        const std::size_t digit = text.find_first_of("0123456789", at);
        if (digit != std::string::npos) text[digit] = static_cast<char>('0' + below(10));
      }
    }
  }

  std::mt19937 random_;
};

TEST(ScenarioMistakes, OfDamagedFilesAreAlwaysSaidAndNeverCrash) {
  const std::string sound = test_files::text_of("everything.yaml");
  constexpr int copies = 4000;
  constexpr double most_seconds = 60.0;
  Damage damage(20261101);
  int read = 0;
  int refused = 0;
  const std::clock_t start = std::clock();  // of this process, however busy the machine is
  for (int i = 0; i < copies; ++i) {
    const std::string text = damage.of(sound);
    try {
      const Scenario scenario = read_scenario(text, "f.yaml");
      ++read;
      // What the reader lets through, the model can take.
      for (const Horse& horse : scenario.stable.horses) {
        (void)question_for(horse, scenario.stable.offers, horse.meals.value_or(2));
      }
    } catch (const InputError& error) {
      ++refused;
      ASSERT_FALSE(error.diagnostics().empty()) << text;
      for (const Diagnostic& d : error.diagnostics()) {
        EXPECT_TRUE(message_page::explains(d.message))
            << "not in docs/reference/messages.md: " << d.message;
        ASSERT_LE(d.position.line, 1 + std::count(text.begin(), text.end(), '\n')) << text;
      }
    } catch (const std::exception& other) {
      FAIL() << "copy " << i << ": " << other.what() << "\n" << text;
    }
    ASSERT_LT(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC, most_seconds)
        << "at copy " << i;
  }
  // Both happen often, or the damage is not worth its time.
  EXPECT_GT(read, copies / 20);
  EXPECT_GT(refused, copies / 4);
}

}  // namespace
}  // namespace haymow::scenario_mistakes_test
