#include "scenarios/located_json.h"

#include <gmock/gmock.h>

#include <string>

#include "feeds/findings.h"

namespace haymow::located_json_test {
namespace {

using testing::HasSubstr;

/// Kinds, texts and places of a tree, for comparison.
std::string shown(const YamlNode& node, bool places = true) {
  std::string out;
  const auto place = [&](const YamlNode& n) {
    if (!places) return std::string();
    return "@" + std::to_string(n.span.position.line) + ":" +
           std::to_string(n.span.position.column) + "+" + std::to_string(n.span.width);
  };
  switch (node.kind) {
    case YamlKind::nothing:
      return "-" + place(node);
    case YamlKind::text:
      return node.text + place(node);
    case YamlKind::list:
      for (const YamlNode& item : node.items) out += shown(item, places) + " ";
      return "[" + out + "]" + place(node);
    case YamlKind::map:
      for (const YamlEntry& e : node.entries) {
        out += shown(e.key, places) + "=" + shown(e.value, places) + " ";
      }
      return "{" + out + "}" + place(node);
  }
  return out;
}

struct Told {
  YamlNode root;
  std::vector<Diagnostic> mistakes;
};

Told read(const std::string& text, int first_line = 1) {
  Findings findings(text, "records.jsonl", first_line);
  Told told{read_json(findings), {}};
  try {
    findings.throw_if_any();
  } catch (const InputError& error) {
    told.mistakes = error.diagnostics();
  }
  return told;
}

TEST(LocatedJson, KnowsWhereEveryValueStands) {
  //                      1         2         3         4
  //             1234567890123456789012345678901234567890123456
  const auto told = read(R"({"key": "17", "a" : [1, -2.50e3,true],"b":null})", 7);
  EXPECT_EQ(shown(told.root),
            "{key@7:2+5=17@7:9+4 a@7:15+3=[1@7:22+1 -2.50e3@7:25+7 true@7:33+4 ]@7:21+1 "
            "b@7:39+3=-@7:39+3 }@7:1+1");
}

TEST(LocatedJson, CountsCharactersAndSkipsEscapedQuotes) {
  const auto told = read("{\"é\": \"a\\\"b\\u0041\", \"c\": \"d\"}");
  ASSERT_EQ(told.root.entries.size(), 2U);
  EXPECT_EQ(told.root.entries[0].value.text, "a\"bA");
  EXPECT_EQ(told.root.entries[1].key.span.position.column, 21);
}

// JSON is YAML, so the two readers must make the same tree of it.
TEST(LocatedJson, ReadsWhatTheYamlReaderReads) {
  for (const std::string text :
       {R"({"key": "17", "horses": [{"name": "Fern", "bodyweight": "500 kg", "meals": 2}]})",
        R"({"a": {"b": {"c": [1, [2, 3], {"d": "e f"}]}}, "g": 0.9, "h": []})",
        R"(["one", "two, three", "four: five"])"}) {
    Findings findings(text, "records.jsonl");
    const YamlNode yaml = read_yaml(findings);
    findings.throw_if_any();
    EXPECT_EQ(shown(read(text).root), shown(yaml)) << text;
  }
}

TEST(LocatedJson, NamesAKeyThatStandsTwice) {
  const auto told = read(R"({"a": 1, "b": 2, "a": 3})", 12);
  ASSERT_EQ(told.mistakes.size(), 1U);
  EXPECT_EQ(told.mistakes[0].message, "`a` stands here twice");
  EXPECT_EQ(told.mistakes[0].position.column, 18);
  EXPECT_EQ(told.mistakes[0].note, "the first is in line 12");
}

TEST(LocatedJson, SaysWhereItIsNotJson) {
  const auto told = read(R"({"a": 1, b: 2})", 3);
  ASSERT_EQ(told.mistakes.size(), 1U);
  EXPECT_THAT(told.mistakes[0].message, HasSubstr("this is not JSON"));
  EXPECT_EQ(told.mistakes[0].position.line, 3);
  EXPECT_EQ(told.mistakes[0].position.column, 10);
  EXPECT_EQ(told.root.kind, YamlKind::nothing);
}

TEST(LocatedJson, RefusesWhatIsTornOffOrTooDeepOrNotText) {
  for (const std::string& text :
       {std::string(R"({"a": [1, 2)"), std::string(R"({"a": "b)"), std::string("nonsense"),
        std::string(100, '[') + std::string(100, ']'), std::string("{\"a\": \"\xff\"}"),
        std::string(R"({"a": 1} {"b": 2})"), std::string(R"({"a": 1e999})"),
        std::string(R"({"a": NaN})"), std::string()}) {
    const auto told = read(text);
    EXPECT_EQ(told.mistakes.size(), 1U) << text;
    EXPECT_EQ(told.root.kind, YamlKind::nothing) << text;
  }
}

}  // namespace
}  // namespace haymow::located_json_test
