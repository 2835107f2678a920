#include "feeds/diagnostic.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace haymow::diagnostic_test {
namespace {

using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Diagnostic at(int line, int column, std::string source_line, int width = 1) {
  Diagnostic diagnostic;
  diagnostic.position = {"yard.yaml", line, column};
  diagnostic.message = "something is odd";
  diagnostic.source_line = std::move(source_line);
  diagnostic.width = width;
  return diagnostic;
}

TEST(Diagnostic, ShowsPlaceLineCaretNoteAndHelp) {
  Diagnostic diagnostic = at(3, 12, "    waste: 8", 1);
  diagnostic.note = "half of it is mud";
  diagnostic.help = "write `8 %`";
  EXPECT_EQ(render(diagnostic),
            "yard.yaml:3:12: error: something is odd\n"
            "      waste: 8\n"
            "             ^\n"
            "  note: half of it is mud\n"
            "  help: write `8 %`\n");
}

TEST(Diagnostic, WarningSaysSo) {
  Diagnostic diagnostic = at(1, 1, "yard: x");
  diagnostic.severity = Severity::warning;
  EXPECT_THAT(render(diagnostic), HasSubstr("yard.yaml:1:1: warning: something is odd"));
}

TEST(Diagnostic, WithoutALineNamesTheFileOnly) {
  EXPECT_EQ(render(at(0, 0, "")), "yard.yaml: error: something is odd\n");
}

TEST(Diagnostic, CaretCountsCharactersNotBytes) {
  EXPECT_EQ(render(at(1, 7, "n: \xc3\xa9\xc3\xa9 xyz", 3)),
            "yard.yaml:1:7: error: something is odd\n"
            "  n: \xc3\xa9\xc3\xa9 xyz\n"
            "        ^~~\n");
}

TEST(Diagnostic, ControlCharactersAreShownEscaped) {
  Diagnostic diagnostic = at(1, 2, "\x1b[31m");
  diagnostic.message = "bad \x07 name \xe2\x80\xae";
  const std::string text = render(diagnostic);
  EXPECT_THAT(text, HasSubstr("bad \\x07 name \\u202e"));
  EXPECT_THAT(text, HasSubstr("  \\x1b[31m\n      ^\n"));
  EXPECT_THAT(text, Not(HasSubstr("\x1b")));
}

TEST(Diagnostic, UndecodableByteIsShownEscaped) {
  EXPECT_THAT(render(at(1, 1, "\xff")), HasSubstr("  \\xff\n  ^~~~\n"));
}

TEST(Diagnostic, LongLineIsCutRoundTheCaret) {
  const std::string text = render(at(1, 300, std::string(299, 'a') + "X" + std::string(300, 'b')));
  EXPECT_THAT(text, HasSubstr("  ..." + std::string(40, 'a') + "X" + std::string(59, 'b') +
                              "...\n" + std::string(45, ' ') + "^\n"));
}

TEST(Diagnostic, CaretMayStandJustPastTheLine) {
  EXPECT_THAT(render(at(1, 3, "ab")), EndsWith("  ab\n    ^\n"));
}

TEST(InputError, RendersTwentyAndCountsTheRest) {
  const std::vector<Diagnostic> many(23, at(0, 0, ""));
  const InputError error(many);
  std::string expected;
  for (int i = 0; i < 20; ++i) expected += "yard.yaml: error: something is odd\n";
  EXPECT_EQ(std::string(error.what()), expected + "and 3 more");
  EXPECT_EQ(error.diagnostics().size(), 23U);
}

TEST(NearNames, FindsSlipsNearestFirst) {
  EXPECT_THAT(near_names("bodywieght", {"girth", "bodyweight"}), ElementsAre("bodyweight"));
  EXPECT_THAT(near_names("oat", {"goats", "oats"}), ElementsAre("oats"));
  EXPECT_THAT(near_names("Meadow Hay", {"meadow hay"}), ElementsAre("meadow hay"));
}

TEST(NearNames, SaysNothingWhenNothingIsNear) {
  EXPECT_THAT(near_names("tractor", {"oats", "hay", "straw"}), IsEmpty());
  EXPECT_THAT(near_names("oil", {"hay"}), IsEmpty());
  EXPECT_THAT(near_names("", {"hay"}), IsEmpty());
}

TEST(NearNames, NamesNoMoreThanAsked) {
  EXPECT_THAT(near_names("hay", {"hey", "hat", "day", "may"}, 2), ElementsAre("hey", "hat"));
}

}  // namespace
}  // namespace haymow::diagnostic_test
