// What the page answers, hostile requests first. The browser's side is looked at by
// tests/browser.py.
#include "scenarios/local_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <thread>

#include "feeds/diagnostic.h"
#include "scenarios/files.h"
#include "scenarios/page_answer.h"
#include "scenarios/report_winter.h"
#include "scenarios/scenario.h"
#include "scenarios/winter_files.h"

namespace haymow::local_page_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

const std::string yard =
    "yard: Brook   # ours\n"
    "money: GBP\n"
    "horses:\n"
    "  - {name: Ash, bodyweight: 500 kg, work: none}\n"
    "market:\n"
    "  - {feed: \"meadow hay, late cut\", name: hay, price: 0.20 per kg}\n"
    "  - {feed: soya bean meal, price: 0.80 per kg}\n"
    "  - {feed: balancer pellet, price: 1.30 per kg}\n"
    "  - {feed: vitamin and mineral powder, price: 6.00 per kg}\n"
    "  - {feed: salt, price: 0.50 per kg}\n";

std::string with_season(const std::string& text) {
  return text + "season: {from: 2026-11-01, until: 2026-11-21}\n";
}

class LocalPage : public ::testing::Test {
 protected:
  LocalPage() {
    std::string name = (fs::temp_directory_path() / "haymow-page-XXXXXX").string();
    place_.folder = ::mkdtemp(name.data());
    place_.port = 8000;
    write_whole((place_.folder / "brook.yaml").string(), yard, false);
  }
  ~LocalPage() override {
    std::error_code error;
    fs::remove_all(place_.folder, error);
  }
  LocalPage(const LocalPage&) = delete;
  LocalPage& operator=(const LocalPage&) = delete;

  [[nodiscard]] PageResponse post(const std::string& path, const std::string& body) const {
    return respond({"POST", path, "127.0.0.1:8000", "", body}, place_, worker_);
  }
  [[nodiscard]] Json asked(const std::string& path, const Json& what) const {
    return Json::parse(post(path, what.dump()).body);
  }
  [[nodiscard]] int status(const std::string& path, const Json& what) const {
    return post(path, what.dump()).status;
  }

  [[nodiscard]] Json worked_out_for(const std::string& text, const std::string& view) {
    const Json plan = asked("/plan", {{"text", text}, {"file", "brook.yaml"}, {"view", view}});
    while (true) {
      const Json told = asked("/planned", plan);
      if (told["state"] != "waiting" && told["state"] != "working") return told;
      std::this_thread::yield();
    }
  }

  PagePlace place_;
  mutable PageWorker worker_{worked_out};
};

TEST_F(LocalPage, AnswersTheLoopbackAddressAlone) {
  const auto status_for = [&](const std::string& host, const std::string& origin) {
    return respond({"POST", "/files", host, origin, "{}"}, place_, worker_).status;
  };
  EXPECT_EQ(status_for("127.0.0.1:8000", ""), 200);
  EXPECT_EQ(status_for("localhost:8000", "http://localhost:8000"), 200);
  EXPECT_EQ(status_for("127.0.0.1:8001", ""), 403);
  EXPECT_EQ(status_for("yard.example:8000", ""), 403);
  EXPECT_EQ(status_for("", ""), 403);
  EXPECT_EQ(status_for("127.0.0.1:8000", "http://yard.example"), 403);
  EXPECT_EQ(status_for("127.0.0.1:8000", "null"), 403);
  EXPECT_EQ(status_for("127.0.0.1:8000", "https://127.0.0.1:8000"), 403);
}

TEST_F(LocalPage, GivesNoFileOutsideItsFolder) {
  fs::create_directory(place_.folder / "inner");
  write_whole((place_.folder / "inner" / "x.yaml").string(), yard, false);
  fs::create_symlink("/etc/hostname", place_.folder / "link.yaml");
  fs::create_symlink(place_.folder / "inner", place_.folder / "far.yaml");
  for (const std::string& name :
       {std::string("../x.yaml"), std::string("inner/x.yaml"), std::string("/etc/x.yaml"),
        std::string("link.yaml"), std::string("far.yaml"), std::string(".x.yaml"),
        std::string("brook.yaml\0.png", 15), std::string("x\0.yaml", 7), std::string("notes.txt"),
        std::string(), std::string(300, 'a') + ".yaml", std::string("c:x.yaml"),
        std::string("..\\x.yaml")}) {
    EXPECT_EQ(status("/open", {{"file", name}}), 403) << name;
    EXPECT_EQ(status("/save", {{"file", name}, {"text", "x"}}), 403) << name;
    EXPECT_EQ(status("/keep", {{"file", name}, {"text", "x"}}), 403) << name;
  }
  EXPECT_THAT(asked("/files", Json::object())["files"], ElementsAre("brook.yaml"));
}

TEST_F(LocalPage, AnswersWhatItCannotReadWithAMessage) {
  for (const char* body : {"", "[]", "null", "{", "{\"text\": 3}", "\xff\xfe", "{\"file\": {}}"}) {
    for (const char* path :
         {"/open", "/keep", "/save", "/look", "/edit", "/plan", "/planned", "/stop"}) {
      const PageResponse response = post(path, body);
      EXPECT_EQ(response.status, 400) << path << ' ' << body;
      EXPECT_THAT(Json::parse(response.body)["refused"].get<std::string>(), Not(IsEmpty()));
    }
  }
  EXPECT_EQ(post("/nowhere", "{}").status, 404);
  EXPECT_EQ(respond({"DELETE", "/files", "127.0.0.1:8000", "", ""}, place_, worker_).status, 405);
  EXPECT_EQ(post("/look", std::string(most_request_bytes + 1, ' ')).status, 413);
}

TEST_F(LocalPage, OpensKeepsAndSavesAFile) {
  EXPECT_EQ(asked("/open", {{"file", "brook.yaml"}})["text"], yard);
  EXPECT_EQ(status("/keep", {{"file", "brook.yaml"}, {"text", yard + "# more\n"}}), 200);
  EXPECT_EQ(asked("/open", {{"file", "brook.yaml"}})["unsaved"], yard + "# more\n");
  EXPECT_EQ(read_whole((place_.folder / "brook.yaml").string()), yard);
  EXPECT_EQ(status("/save", {{"file", "brook.yaml"}, {"text", yard + "# more\n"}, {"was", yard}}),
            200);
  EXPECT_EQ(read_whole((place_.folder / "brook.yaml").string()), yard + "# more\n");
  EXPECT_TRUE(asked("/open", {{"file", "brook.yaml"}})["unsaved"].is_null());
}

TEST_F(LocalPage, NeverWritesOverWhatSomebodyElseHasWritten) {
  const auto save = [&](const Json& was) {
    return status("/save", {{"file", "brook.yaml"}, {"text", "mine"}, {"was", was}});
  };
  EXPECT_EQ(save("what was read before"), 409);
  EXPECT_EQ(save(nullptr), 409);
  EXPECT_EQ(read_whole((place_.folder / "brook.yaml").string()), yard);
  EXPECT_EQ(status("/save", {{"file", "new.yaml"}, {"text", yard}, {"was", "gone"}}), 409);
  EXPECT_EQ(status("/save", {{"file", "new.yaml"}, {"text", yard}, {"was", nullptr}}), 200);
}

TEST_F(LocalPage, ShowsTheRationOfTheTextAsItStands) {
  const Json said = asked("/look", {{"text", yard}, {"file", "brook.yaml"}});
  EXPECT_THAT(said["errors"], IsEmpty());
  EXPECT_TRUE(said["good"]);
  EXPECT_THAT(said["answer"].get<std::string>(), HasSubstr("Certified"));
  EXPECT_EQ(said["entries"][2]["items"][0]["entries"][1]["text"], "500 kg");
}

TEST_F(LocalPage, TellsAMistakeInTheWordsOfTheCommandLineAndWhere) {
  std::string text = yard;
  text.replace(text.find("500 kg"), 6, "500 kq");
  const Json said = asked("/look", {{"text", text}, {"file", "brook.yaml"}});
  EXPECT_TRUE(said["answer"].is_null());
  ASSERT_EQ(said["errors"].size(), 1U);
  EXPECT_EQ(said["errors"][0]["line"], 4);
  try {
    static_cast<void>(read_scenario(text, "brook.yaml"));
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(said["errors"][0]["message"], error.diagnostics()[0].message);
  }
}

TEST_F(LocalPage, ChangesAFieldAndLeavesTheRestOfTheTextAlone) {
  const Json said =
      asked("/edit", {{"text", yard}, {"path", {"horses", 0, "bodyweight"}}, {"words", "520 kg"}});
  std::string expected = yard;
  expected.replace(expected.find("500 kg"), 6, "520 kg");
  EXPECT_EQ(said["text"], expected);
  EXPECT_TRUE(asked("/edit", {{"text", yard}, {"path", {"horses", -1}}, {"words", "x"}})
                  .contains("refused"));
}

TEST_F(LocalPage, OffersWhatTheFileCanAnswer) {
  const auto views = [&](const std::string& text) {
    std::vector<std::string> names;
    const Json said = asked("/look", {{"text", text}, {"file", "brook.yaml"}});
    for (const Json& view : said["views"]) names.push_back(view["name"]);
    return names;
  };
  EXPECT_THAT(views(yard), ElementsAre("ration", "needs", "offers"));
  EXPECT_THAT(views(with_season(yard)),
              ElementsAre("ration", "needs", "offers", "winter", "stretch"));
  std::string fed = yard;
  fed.replace(fed.find("work: none"), 10, "work: none, fed now: {hay: 8 kg}");
  EXPECT_THAT(views(fed), ElementsAre("ration", "needs", "audit", "offers"));
}

TEST_F(LocalPage, ShowsTheRationWhereTheFileCannotAnswerWhatWasChosen) {
  const Json said = asked("/look", {{"text", yard}, {"file", "brook.yaml"}, {"view", "winter"}});
  EXPECT_EQ(said["view"], "ration");
  EXPECT_THAT(said["answer"].get<std::string>(), HasSubstr("Certified"));
  EXPECT_EQ(status("/look", {{"text", yard}, {"file", "b.yaml"}, {"view", "gossip"}}), 400);
  EXPECT_EQ(status("/plan", {{"text", yard}, {"file", "b.yaml"}, {"view", "ration"}}), 400);
}

TEST_F(LocalPage, PlansASeasonBesideEverythingElse) {
  const std::string text = with_season(yard);
  const Json look = asked("/look", {{"text", text}, {"file", "b.yaml"}, {"view", "winter"}});
  EXPECT_TRUE(look["waits"]);
  EXPECT_TRUE(look["answer"].is_null());
  const Json told = worked_out_for(text, "winter");
  ASSERT_EQ(told["state"], "done");
  EXPECT_TRUE(told["answer"]["good"]);
  const Scenario scenario = read_scenario(text, "b.yaml");
  ReportOptions options;
  options.on_page = true;
  EXPECT_EQ(told["answer"]["answer"],
            write_html_part(winter_report(scenario, winter(scenario, season_planners()), options)))
      << "the page and the command say the same";
}

TEST_F(LocalPage, TellsTheMistakesOfAPlanToo) {
  const Json told = worked_out_for("horses: 3\n", "winter");
  EXPECT_THAT(told["answer"]["errors"], Not(IsEmpty()));
  EXPECT_TRUE(told["answer"]["answer"].is_null());
}

TEST_F(LocalPage, KnowsNoPlanThatWasNeverBegun) {
  for (const Json& plan : {Json(0), Json(7), Json(18446744073709551615U)}) {
    EXPECT_EQ(asked("/planned", {{"plan", plan}})["state"], "gone") << plan;
    EXPECT_EQ(asked("/stop", {{"plan", plan}})["stopped"], false) << plan;
  }
  for (const Json& plan : {Json(-1), Json(1.5), Json("1"), Json::array({1}), Json(nullptr)}) {
    EXPECT_EQ(status("/planned", {{"plan", plan}}), 400) << plan;
    EXPECT_EQ(status("/stop", {{"plan", plan}}), 400) << plan;
  }
}

// Work that is never done: what is tried here is the asking.
Json never_done(const TaskAsked&, const Watch& watch) {
  while (!watch.stopped()) std::this_thread::yield();
  return Json::object();
}

RC_GTEST_PROP(LocalPageFuzz, AnswersAnyRequestWithJsonOrAPage,
              (const std::string& method, const std::string& path, const std::string& body)) {
  const PagePlace nowhere{"/nowhere-at-all", 8000};
  PageWorker worker(never_done);
  const PageResponse response = respond(
      {*rc::gen::element(method, std::string("POST"), std::string("GET")),
       *rc::gen::element(path, "/" + path, std::string("/look"), std::string("/edit"),
                         std::string("/plan"), std::string("/planned"), std::string("/stop")),
       "127.0.0.1:8000", "", body},
      nowhere, worker);
  RC_ASSERT(response.status >= 200 && response.status < 600);
  if (response.type.starts_with("application/json")) RC_ASSERT(Json::accept(response.body));
}

// Near misses find more than noise does: a request that is right but for one byte.
RC_GTEST_PROP(LocalPageFuzz, TakesNoHarmFromOneWrongByte, ()) {
  std::string body = Json{{"text", yard},
                          {"file", "a.yaml"},
                          {"path", {"horses", 0, "name"}},
                          {"words", "x"},
                          {"plan", 1},
                          {"view", *rc::gen::element("ration", "winter", "needs")}}
                         .dump();
  body[*rc::gen::inRange<std::size_t>(0, body.size())] =
      static_cast<char>(*rc::gen::inRange(0, 256));
  const PagePlace nowhere{"/nowhere-at-all", 8000};
  PageWorker worker(never_done);
  for (const char* path : {"/look", "/edit", "/plan", "/planned", "/stop"}) {
    const PageResponse response =
        respond({"POST", path, "127.0.0.1:8000", "", body}, nowhere, worker);
    RC_ASSERT(response.status == 200 || response.status == 400);
    RC_ASSERT(Json::accept(response.body));
  }
}

}  // namespace
}  // namespace haymow::local_page_test
