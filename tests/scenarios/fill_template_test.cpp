// Templates are Mustache (mustache.github.io, mustache(5)); what is ours is the escaping.
#include "scenarios/page/fill_template.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace haymow::fill_template_test {
namespace {

TEST(FillTemplate, EscapesEveryCharacterThatHtmlGivesAMeaning) {
  EXPECT_EQ(fill_template("<b title='{{a}}'>{{a}}</b>", {{"a", "<&>\"'"}}),
            "<b title='&lt;&amp;&gt;&quot;&apos;'>&lt;&amp;&gt;&quot;&apos;</b>");
}

TEST(FillTemplate, TellsControlCharactersInsteadOfPrintingThem) {
  EXPECT_EQ(fill_template("{{a}}", {{"a", "x\x1b[1m\n"}}), "x\\x1b[1m\\x0a");
}

TEST(FillTemplate, TakesAValueForNoTemplate) {
  EXPECT_EQ(fill_template("{{a}}", {{"a", "{{b}}"}, {"b", "no"}}), "{{b}}");
}

TEST(FillTemplate, RepeatsAPartForEveryEntryAndLeavesOutWhatIsFalse) {
  const nlohmann::ordered_json values = {{"rows", {{{"x", "1"}}, {{"x", "2"}}}}, {"none", false}};
  EXPECT_EQ(
      fill_template("{{#rows}}[{{x}}]{{/rows}}{{#none}}!{{/none}}{{^none}}-{{/none}}", values),
      "[1][2]-");
}

TEST(FillTemplate, PutsInNamedParts) {
  EXPECT_EQ(fill_template("{{>part}}", {{"a", "&"}}, {{"part", "({{a}})"}}), "(&amp;)");
}

TEST(FillTemplate, RefusesWhatIsNoTemplate) {
  EXPECT_THROW(static_cast<void>(fill_template("{{#a}}", {{"a", true}})), std::logic_error);
}

}  // namespace
}  // namespace haymow::fill_template_test
