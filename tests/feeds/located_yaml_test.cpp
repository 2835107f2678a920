#include "feeds/located_yaml.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "feeds/plain_text.h"
#include "feeds/source_text.h"

namespace haymow::located_yaml_test {
namespace {

using ::testing::HasSubstr;

YamlNode read_good(std::string_view text) {
  Findings findings(text, "f.yaml");
  YamlNode root = read_yaml(findings);
  EXPECT_NO_THROW(findings.throw_if_any());
  return root;
}

/// Everything that is wrong with `text`, rendered.
std::string mistakes_in(std::string_view text) {
  Findings findings(text, "f.yaml");
  (void)read_yaml(findings);
  try {
    findings.throw_if_any();
  } catch (const InputError& error) {
    return std::string(error.what()) + "\n";
  }
  return "";
}

TEST(LocatedYaml, PositionsCountFromOne) {
  const YamlNode root = read_good("a: 1\nb:\n  - x: 2\n");
  ASSERT_EQ(root.kind, YamlKind::map);
  ASSERT_EQ(root.entries.size(), 2U);
  EXPECT_EQ(root.entries[0].value.span.position.line, 1);
  EXPECT_EQ(root.entries[0].value.span.position.column, 4);
  const YamlNode& list = root.entries[1].value;
  ASSERT_EQ(list.kind, YamlKind::list);
  EXPECT_EQ(list.items[0].entries[0].key.span.position.line, 3);
  EXPECT_EQ(list.items[0].entries[0].key.span.position.column, 5);
}

TEST(LocatedYaml, ColumnsCountCharacters) {
  const YamlNode root = read_good("{\xc3\xa9\xc3\xa9: x}\n");
  EXPECT_EQ(root.entries[0].value.span.position.column, 6);
}

TEST(LocatedYaml, TakesWindowsLinesAndAByteOrderMark) {
  const std::string_view text =
      "\xef\xbb\xbf"
      "a: 1\r\nb: 2\r\n";
  const YamlNode root = read_good(without_byte_order_mark(text));
  ASSERT_EQ(root.entries.size(), 2U);
  EXPECT_EQ(root.entries[0].key.text, "a");
  EXPECT_EQ(root.entries[0].value.text, "1");
}

TEST(LocatedYaml, WordsStayText) {
  const YamlNode root = read_good("a: no\nb: 010\nc: '12'\n");
  EXPECT_EQ(root.entries[0].value.text, "no");
  EXPECT_EQ(root.entries[1].value.text, "010");
  EXPECT_EQ(root.entries[2].value.text, "12");
}

TEST(LocatedYaml, EmptyValueStandsAtItsKey) {
  const YamlNode root = read_good("a:\n\n\nb: 1\n");
  EXPECT_EQ(root.entries[0].value.kind, YamlKind::nothing);
  EXPECT_EQ(root.entries[0].value.span.position.line, 1);
}

TEST(LocatedYaml, DuplicateKeyNamesBothLines) {
  EXPECT_EQ(mistakes_in("a: 1\nb: 2\na: 3\n"),
            "f.yaml:3:1: error: `a` stands here twice\n"
            "  a: 3\n"
            "  ^\n"
            "  note: the first is in line 1\n"
            "  help: delete one of the two\n");
}

TEST(LocatedYaml, EveryDuplicateIsReported) {
  const std::string text = mistakes_in("a: 1\na: 3\nx: {c: 1, c: 2}\n");
  EXPECT_THAT(text, HasSubstr("f.yaml:2:1: error: `a` stands here twice"));
  EXPECT_THAT(text, HasSubstr("f.yaml:3:11: error: `c` stands here twice"));
}

TEST(LocatedYaml, DecimalCommaInBracesIsOneMistake) {
  EXPECT_EQ(mistakes_in("label: {fat: 4,5 %, ash: 3 %}\n"),
            "f.yaml:1:14: error: the comma splits `4,5 %` in two\n"
            "  label: {fat: 4,5 %, ash: 3 %}\n"
            "               ^\n"
            "  help: write a decimal point: `fat: 4.5 %`\n");
}

struct Mistake {
  const char* name;
  std::string text;
  const char* place_and_message;
};
void PrintTo(const Mistake& mistake, std::ostream* out) { *out << mistake.name; }

class LocatedYamlRefuses : public ::testing::TestWithParam<Mistake> {};

TEST_P(LocatedYamlRefuses, WithOneMessage) {
  const std::string text = mistakes_in(GetParam().text);
  EXPECT_THAT(text, HasSubstr(GetParam().place_and_message));
  EXPECT_EQ(text.find(": error:"), text.rfind(": error:")) << text;
}

INSTANTIATE_TEST_SUITE_P(
    Text, LocatedYamlRefuses,
    ::testing::Values(
        Mistake{"empty", "", "f.yaml: error: the file is empty"},
        Mistake{"blanks", " \n\n", "f.yaml: error: the file is empty"},
        Mistake{"nul", std::string("a: 1\nb: \0x\n", 11),
                "f.yaml:2:4: error: byte 0x00 does not belong in a text file"},
        Mistake{"escape", "a: \x1b[0m\n", "f.yaml:1:4: error: byte 0x1b does not belong"},
        Mistake{"latin1", "a: caf\xe9\n", "f.yaml:1:7: error: byte 0xe9 is not UTF-8 text"},
        Mistake{"utf16",
                std::string("\xff\xfe"
                            "a\0:\0",
                            6),
                "the file is UTF-16 text"},
        Mistake{"tab", "a:\n\t- 1\n", "f.yaml:2:1: error: this line is indented with a tab"},
        Mistake{"old mac line ends", "a: 1\rb: 2\r", "byte 0x0d does not belong"}));

INSTANTIATE_TEST_SUITE_P(
    Yaml, LocatedYamlRefuses,
    ::testing::Values(
        Mistake{"open bracket", "a: [1, 2\nb: 3\n",
                "f.yaml:2:2: error: a `[` is not closed, here or just above"},
        Mistake{"open brace", "a: {x: 1\nb: 3\n",
                "f.yaml:2:2: error: a `{` is not closed, here or just above"},
        Mistake{"open quote", "a: 'x\nb: 1\n", "f.yaml:1:4: error: this quote is never closed"},
        Mistake{"open double quote", "a: \"x\nb: 1\n",
                "f.yaml:1:4: error: this quote is never closed"},
        Mistake{"two colons", "a: b: c\n", "f.yaml:1:5: error: a colon where no key can stand"},
        Mistake{"no blank", "a:1\nb: 2\n", "f.yaml:1:2: error: a blank is missing after this"},
        Mistake{"indent", "- a\nb: 1\n", "f.yaml:2:1: error: this line does not belong"},
        Mistake{"second document", "a: 1\n---\nb: 2\n",
                "f.yaml:2:1: error: a second document starts here"},
        Mistake{"at sign", "a: @b\n", "f.yaml:1:4: error: a value cannot start with `@`"},
        Mistake{"backtick", "a: `b`\n", "f.yaml:1:4: error: a value cannot start with a backtick"},
        Mistake{"anchor", "a: &x 1\nb: *x\n", "f.yaml:1:4: error: YAML anchors"},
        Mistake{"alias", "a: *x\n", "f.yaml:1:4: error: YAML anchors"},
        Mistake{"merge key", "<<: {a: 1}\n", "f.yaml:1:1: error: YAML anchors"},
        Mistake{"tag", "a: !!int 3\n", "f.yaml:1:4: error: YAML tags (`!`) are not read here"},
        Mistake{"key is a list", "? [a, b]\n: 1\n", "f.yaml:1:3: error: a key must be a word"},
        Mistake{"deep", std::string(30, '[') + std::string(30, ']') + "\n",
                "f.yaml:1:21: error: more than 20 levels"},
        Mistake{"long line", "a: " + std::string(5000, 'x') + "\n",
                "this line is 5003 bytes long; a line has at most 4000"}));

TEST(LocatedYaml, GrowingAliasesAreRefusedAtTheFirst) {
  const std::string text = mistakes_in(
      "a: &a [x, x, x, x, x, x, x, x]\n"
      "b: &b [*a, *a, *a, *a, *a, *a]\n"
      "c: &c [*b, *b, *b, *b, *b, *b]\n");
  EXPECT_THAT(text, HasSubstr("f.yaml:1:4: error: YAML anchors"));
}

/// Text of about a megabyte made of one piece, which parsers find hard.
class LocatedYamlEndures : public ::testing::TestWithParam<const char*> {};

TEST_P(LocatedYamlEndures, AMegabyteOfIt) {
  const std::string_view piece = GetParam();
  std::string text;
  while (text.size() + piece.size() + 1 < most_file_bytes) {
    text += piece;
    if (text.size() % 2000 < piece.size()) text += '\n';
  }
  const auto start = std::chrono::steady_clock::now();
  (void)mistakes_in(text);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_LT(took.count(), 10.0);  // seconds; a tenth of it is usual
}

INSTANTIATE_TEST_SUITE_P(Piece, LocatedYamlEndures,
                         ::testing::Values("[", "{", "- ", "? ", "a: ", "&a ", "*a ", "!a ", "'",
                                           "\"", "|", "a\n", "a: b\n", "[a,", "{a: ", "- - a\n",
                                           ": ", "[]\n", "{},", "#", "\n", "%a\n", "---\n",
                                           "a: {b: 1, c: [1,2]}\n", "\"a\": ", "- {a: 1}\n", "]",
                                           "}", ",", "...\n", "? a\n: b\n", "a:\n"));

TEST(LocatedYaml, ATooLargeFileIsRefusedUnread) {
  std::string text;
  while (text.size() < 5'000'000) text += "- {name: a, bodyweight: 500 kg}\n";
  EXPECT_THAT(mistakes_in(text), HasSubstr("f.yaml: error: the file has 5.0 MB; at most 1 MB"));
}

}  // namespace
}  // namespace haymow::located_yaml_test
