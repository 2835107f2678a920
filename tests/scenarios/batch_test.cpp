#include "scenarios/batch.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <numeric>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "scenarios/batch_progress.h"
#include "scenarios/batch_reader.h"
#include "scenarios/batch_records.h"
#include "scenarios/in_order.h"
#include "scenarios/run.h"

namespace haymow::batch_test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::string_view shop = R"(
money: GBP
season: {from: 2026-11-01, until: 2026-12-31}
climate: {november: 3 C, december: -5 C}
feeding times: [07:00, 17:00]
forage: [{feed: "meadow hay, average", name: our hay, price: 200 per tonne}]
market:
  - {feed: "oats, rolled", name: oats, price: 11.50 per 20 kg bag}
  - {feed: balancer pellet, price: 28.00 per 20 kg bag}
  - {feed: vitamin and mineral powder, price: 21.00 per 3 kg tub}
  - {feed: salt, price: 11.00 per 25 kg bag}
)";

Record line(std::string text, int number = 1) {
  Record record;
  record.number = static_cast<std::size_t>(number);
  record.file = "records.jsonl";
  record.line = number;
  record.text = std::move(text);
  return record;
}

// --- reading ----------------------------------------------------------------------------

TEST(RecordReader, TakesFromTheSharedScenarioWhatARecordLeavesOut) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  const auto read = reader.read(line(
      R"({"key": "1", "horses": [{"name": "Fern", "bodyweight": "500 kg", "work": "light"}]})"));
  ASSERT_NE(read.scenario, nullptr);
  EXPECT_EQ(read.about.key, "1");
  EXPECT_EQ(read.scenario->stable.money, "GBP");
  EXPECT_EQ(read.scenario->stable.offers.size(), 5U);
  ASSERT_EQ(read.scenario->stable.horses.size(), 1U);
  EXPECT_EQ(read.scenario->stable.horses[0].meals, 2) << "by the feeding times they share";
  EXPECT_TRUE(read.scenario->stable.horses[0].cold) << "by the climate they share";
}

// The short way, for records of horses alone, must read what the long way reads.
TEST(RecordReader, ReadsAHorseAsAWholeScenarioWouldHaveIt) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  const std::string horses =
      R"("horses": [{"name": "Fern", "bodyweight": "500 kg", "work": "light"}])";
  const auto brief = reader.read(line("{\"key\": \"1\", " + horses + "}"));
  ASSERT_NE(brief.scenario, nullptr);
  const Scenario short_way = *brief.scenario;
  const auto longer = reader.read(line("{\"key\": \"1\", \"yard\": \"here\", " + horses + "}"));
  ASSERT_NE(longer.scenario, nullptr);
  RunOptions brief_run;
  brief_run.brief = true;
  const auto one = run(short_way, brief_run);
  const auto two = run(*longer.scenario, brief_run);
  ASSERT_EQ(one.size(), 1U);
  ASSERT_EQ(one[0].status, AnswerStatus::found);
  EXPECT_EQ(one[0].solution.columns, two[0].solution.columns);
  EXPECT_EQ(one[0].solution.cost, two[0].solution.cost);
}

TEST(RecordReader, LetsARecordHaveItsOwnForage) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  const auto read = reader.read(
      line(R"({"key": "1", "forage": [{"feed": "meadow hay, late cut", "price": "90 per tonne"}],)"
           R"( "horses": [{"name": "Fern", "bodyweight": "500 kg", "work": "light"}]})"));
  ASSERT_NE(read.scenario, nullptr);
  EXPECT_EQ(read.scenario->stable.offers.front().name, "meadow hay, late cut");
  EXPECT_EQ(read.scenario->stable.offers.size(), 5U);
}

TEST(RecordReader, DoesNotMixUpTwoRecords) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  for (const std::string name : {"Fern", "Cob"}) {
    const auto read = reader.read(line("{\"key\": \"1\", \"horses\": [{\"name\": \"" + name +
                                       R"(", "bodyweight": "500 kg", "work": "light"}]})"));
    ASSERT_NE(read.scenario, nullptr);
    ASSERT_EQ(read.scenario->stable.horses.size(), 1U);
    EXPECT_EQ(read.scenario->stable.horses[0].name, name);
  }
}

TEST(RecordReader, TellsAllMistakesOfARecordWithTheirPlace) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  const auto read = reader.read(
      line(R"({"key": "9", "horses": [{"name": "Fern", "bodyweight": "540", "work": "modrate"}]})",
           734));
  EXPECT_EQ(read.scenario, nullptr);
  EXPECT_EQ(read.about.key, "9");
  ASSERT_EQ(read.diagnostics.size(), 2U);
  EXPECT_EQ(read.diagnostics[0].position.file, "records.jsonl");
  EXPECT_EQ(read.diagnostics[0].position.line, 734);
  EXPECT_EQ(read.diagnostics[0].position.column, 56);
  EXPECT_THAT(read.diagnostics[1].help, HasSubstr("moderate"));
}

TEST(RecordReader, WantsAKey) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  for (const std::string text : {R"({"horses": []})", R"({"key": "", "horses": []})",
                                 R"({"key": ["a"], "horses": []})", R"({"key": null})"}) {
    const auto read = reader.read(line(text));
    EXPECT_EQ(read.scenario, nullptr) << text;
    EXPECT_EQ(read.about.key, std::nullopt) << text;
    EXPECT_THAT(read.diagnostics,
                testing::Contains(testing::Field(&Diagnostic::message, HasSubstr("`key`"))))
        << text;
  }
  EXPECT_EQ(reader.read(line(R"({"key": 17})")).about.key, "17");
  EXPECT_EQ(reader.read(line(R"({"key": "a  b"})")).about.key, "a  b") << "as written";
}

TEST(RecordReader, TellsOfQuestionsThatAreNotAnswered) {
  const SharedScenario shared(shop, "shop.yaml");
  RecordReader reader(&shared);
  const auto read = reader.read(line(
      R"({"key": "1", "horses": [{"name": "F", "bodyweight": "500 kg", "work": "light"}], "ask": []})"));
  ASSERT_NE(read.scenario, nullptr);
  ASSERT_EQ(read.diagnostics.size(), 1U);
  EXPECT_THAT(read.diagnostics[0].message, HasSubstr("not answered in a batch"));
}

TEST(SharedScenario, IsReadForMistakesWithItsOwnHorses) {
  EXPECT_THROW(SharedScenario("money: pounds\n", "shop.yaml"), InputError);
  EXPECT_THROW(SharedScenario(std::string(shop) + "horses: [{name: A}]\n", "shop.yaml"),
               InputError);
  const SharedScenario sound(
      std::string(shop) + "horses: [{name: A, bodyweight: 500 kg, work: light}]\n", "shop.yaml");
  EXPECT_EQ(sound.own_horses(), 1U);
  EXPECT_FALSE(sound.has_stock());
}

TEST(Digest, TellsRecordsApartAndIsAlwaysTheSame) {
  EXPECT_EQ(digest_of("a"), digest_of("a"));
  EXPECT_NE(digest_of("a"), digest_of("b"));
  EXPECT_NE(digest_of("a"), digest_of("a", 1));
  EXPECT_EQ(key_of(line(R"({"key": "1"})")).digest, digest_of(R"({"key": "1"})"));
}

// --- lines ------------------------------------------------------------------------------

/// The lines that come through a pipe.
std::vector<std::string> lines_of(const std::string& text, std::size_t longest) {
  std::array<int, 2> ends{};
  EXPECT_EQ(::pipe(ends.data()), 0);
  EXPECT_EQ(::write(ends[1], text.data(), text.size()), static_cast<ssize_t>(text.size()));
  ::close(ends[1]);
  Lines lines(ends[0], longest, nullptr);
  std::vector<std::string> out;
  std::uint64_t end = 0;
  while (auto next = lines.next()) {
    out.push_back(next->text + (next->is_cut ? "..." : "") + (next->has_end ? "" : "|"));
    end = next->end;
  }
  EXPECT_EQ(end, text.size());
  ::close(ends[0]);
  return out;
}

TEST(Lines, AreReadWholeAndLongOnesCut) {
  EXPECT_THAT(lines_of("a\n\nbc\n", 10), ElementsAre("a", "", "bc"));
  EXPECT_THAT(lines_of("a\nlast", 10), ElementsAre("a", "last|"));
  EXPECT_THAT(lines_of("0123456789\n01234567890\nnext\n", 10),
              ElementsAre("0123456789", "0123456789...", "next"));
  EXPECT_THAT(lines_of("", 10), ElementsAre());
}

TEST(Lines, EndWhenToldToStop) {
  std::array<int, 2> ends{};
  ASSERT_EQ(::pipe(ends.data()), 0);
  const std::atomic<bool> stop = true;
  Lines lines(ends[0], 10, &stop);
  EXPECT_FALSE(lines.next());
  ::close(ends[0]);
  ::close(ends[1]);
}

// --- keys -------------------------------------------------------------------------------

TEST(KeysMet, NamesTheRecordThatHadTheKey) {
  KeysMet keys;
  constexpr std::size_t many = 5000;  // grows three times
  for (std::size_t n = 1; n <= many; ++n) EXPECT_FALSE(keys.met("K" + std::to_string(n), n));
  for (std::size_t n = 1; n <= many; ++n) EXPECT_EQ(keys.met("K" + std::to_string(n), 0), n);
}

// --- progress ---------------------------------------------------------------------------

TEST(BatchProgress, TellsPaceAndTimeLeftOfThisRun) {
  EXPECT_EQ(batch_progress_in_words({1234567, 1000000, 0.6, 0.5, 100.0}),
            "1,234,567 records, 2,345 a second, 60 %, 7 min left");
  EXPECT_EQ(batch_progress_in_words({3000, 0, 0.5, 0.0, 1.0}),
            "3,000 records, 3,000 a second, 50 %, 1 s left");
  EXPECT_EQ(batch_progress_in_words({999, 0, 0.01, 0.0, 100.0}),
            "999 records, 9 a second, 1 %, 2 h 45 min left");
  EXPECT_EQ(batch_progress_in_words({40, 0, 0.0, 0.0, 2.0}), "40 records, 20 a second")
      << "of a pipe nobody knows the end";
}

// --- order ------------------------------------------------------------------------------

TEST(InOrder, WritesInTheOrderOfReadingWhateverTakesHowLong) {
  for (const std::size_t jobs : {1U, 2U, 5U}) {
    std::vector<int> written;
    int next = 0;
    std::atomic<int> ahead = 0;
    int most_ahead = 0;
    in_order(
        jobs,
        [&]() -> std::optional<int> {
          if (next == 500) return std::nullopt;
          most_ahead = std::max(most_ahead, ++ahead);
          return next++;
        },
        [&] {
          return [draw = std::mt19937(4)](int piece) mutable {
            volatile int spin = static_cast<int>(draw() % 20000);
            while (spin > 0) spin = spin - 1;
            return piece * 2;
          };
        },
        [&](int done) {
          --ahead;
          written.push_back(done);
        });
    std::vector<int> wanted(500);
    for (int i = 0; i < 500; ++i) wanted[static_cast<std::size_t>(i)] = 2 * i;
    EXPECT_EQ(written, wanted) << jobs;
    EXPECT_LE(most_ahead, static_cast<int>(jobs * pieces_ahead) + 1) << "memory is bounded";
  }
}

TEST(InOrder, PassesOnWhatIsThrownAnywhere) {
  for (const std::size_t jobs : {1U, 3U}) {
    for (const int where : {0, 1, 2}) {
      int next = 0;
      const auto fail_in = [&](int place, int piece) {
        if (place == where && piece == 40) throw std::runtime_error("here");
      };
      EXPECT_THROW(in_order(
                       jobs,
                       [&]() -> std::optional<int> {
                         fail_in(0, next);
                         return next < 100 ? std::optional(next++) : std::nullopt;
                       },
                       [&] {
                         return [&](int piece) {
                           fail_in(1, piece);
                           return piece;
                         };
                       },
                       [&](int done) { fail_in(2, done); }),
                   std::runtime_error);
    }
  }
}

}  // namespace
}  // namespace haymow::batch_test
