#include "model/naming.h"

#include <gtest/gtest.h>

#include "tests/model/hand_made.h"

namespace haymow::naming_test {
namespace {

Offer alfalfa_chaff() {
  Feed feed = hand_made::feed_of("alfalfa chaff", FeedGroup::dried_forage, 900.0, {});
  feed.also = {"lucerne chaff", "Chopped lucerne"};
  feed.traits = {FeedTrait::legume};
  Offer offer = hand_made::offer_of(feed, 1.0);
  offer.name = "the green bag";
  return offer;
}

struct Case {
  const char* word;
  bool refers;
};

void PrintTo(const Case& each, std::ostream* out) { *out << '`' << each.word << '`'; }

class Naming : public testing::TestWithParam<Case> {};

TEST_P(Naming, AKeepersWordFindsTheFeedItMeans) {
  EXPECT_EQ(refers_to(GetParam().word, alfalfa_chaff()), GetParam().refers);
}

INSTANTIATE_TEST_SUITE_P(Words, Naming,
                         testing::Values(Case{"alfalfa chaff", true},    // its name
                                         Case{"Alfalfa Chaff", true},    // letter case
                                         Case{"alfalfa", true},          // a word of its name
                                         Case{"chaff", true},            // another
                                         Case{"lucerne chaff", true},    // another name
                                         Case{"chopped lucerne", true},  //
                                         Case{"dried forage", true},     // its group
                                         Case{"legume", true},           // a trait
                                         Case{"the green bag", true},    // the offer's own name
                                         Case{"The Green Bag", true},    //
                                         Case{"alf", false},             // half a word
                                         Case{"chaf", false},            //
                                         Case{"halfalfa", false},        //
                                         Case{"hay", false},             // another group
                                         Case{"lucerne", false},         // a word of another name
                                         Case{"green", false},           // a word of the offer's
                                         Case{"", false}));

// An offer's own name is the keeper's; it is not the feed's.
TEST(Naming, AnOffersNameIsNotItsFeedsName) {
  EXPECT_FALSE(refers_to("the green bag", alfalfa_chaff().feed));
}

TEST(Naming, AWordInsideAnotherIsNotAWord) {
  const Feed oatfeed = hand_made::feed_of("oatfeed, oat hulls", FeedGroup::fibre, 900.0, {});
  EXPECT_TRUE(refers_to("oat", oatfeed));  // the second word, not the first
  EXPECT_FALSE(refers_to("oats", oatfeed));
  EXPECT_TRUE(refers_to("oat hulls", oatfeed));
}

}  // namespace
}  // namespace haymow::naming_test
