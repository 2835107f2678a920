#include "model/lysine_share.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "feeds/feed_table.h"

namespace haymow::lysine_share_test {
namespace {

using ::testing::DoubleNear;
using ::testing::HasSubstr;

Feed own_feed(FeedGroup group, double protein_g, std::set<FeedTrait> traits = {}) {
  Feed feed;
  feed.name = "own";
  feed.group = group;
  feed.traits = std::move(traits);
  feed.composition[Nutrient::crude_protein] = Figure{protein_g, FigureOrigin::laboratory, "", ""};
  return feed;
}

double share_of(const std::optional<Figure>& lysine, double protein_g) {
  return lysine ? lysine->value / protein_g : -1.0;
}

TEST(LysineShare, IsThePublishedOneOfTheKind) {
  // feeds_notes 2.9: grass forage 3.5 % of protein (British laboratory reports: 3 g
  // at 84 to 90 g, 2 g at 62 to 67 g), alfalfa hay 4.3, dehydrated 4.7, fresh 5.5.
  const auto of = [](FeedGroup group, std::set<FeedTrait> traits = {}) {
    return share_of(estimated_lysine(own_feed(group, 100.0, std::move(traits)), nullptr), 100.0);
  };
  EXPECT_THAT(of(FeedGroup::hay), DoubleNear(0.035, 1e-12));
  EXPECT_THAT(of(FeedGroup::haylage), DoubleNear(0.035, 1e-12));
  EXPECT_THAT(of(FeedGroup::hay, {FeedTrait::legume}), DoubleNear(0.043, 1e-12));
  EXPECT_THAT(of(FeedGroup::dried_forage, {FeedTrait::legume}), DoubleNear(0.047, 1e-12));
  EXPECT_THAT(of(FeedGroup::grass, {FeedTrait::legume}), DoubleNear(0.055, 1e-12));
  EXPECT_THAT(of(FeedGroup::fibre, {FeedTrait::beet}), DoubleNear(0.06, 1e-12));
  const auto reported = estimated_lysine(own_feed(FeedGroup::hay, 87.0), nullptr);
  EXPECT_THAT(reported->value, DoubleNear(3.0, 0.05));
  EXPECT_THAT(estimated_lysine(own_feed(FeedGroup::hay, 64.5), nullptr)->value,
              DoubleNear(2.0, 0.3));
}

TEST(LysineShare, IsNotInventedForMixes) {
  for (const FeedGroup group : {FeedGroup::compound, FeedGroup::balancer, FeedGroup::straw,
                                FeedGroup::protein, FeedGroup::oil, FeedGroup::supplement}) {
    EXPECT_FALSE(estimated_lysine(own_feed(group, 100.0), nullptr)) << name_of(group);
  }
  EXPECT_FALSE(estimated_lysine(Feed{}, nullptr)) << "without protein";
}

TEST(LysineShare, FollowsTheFeedItIsBasedOn) {
  const Feed* soya = find_feed("soya bean meal");
  ASSERT_NE(soya, nullptr);
  Feed own = *soya;
  own.composition[Nutrient::crude_protein]->value /= 2.0;
  const auto lysine = estimated_lysine(own, soya);
  ASSERT_TRUE(lysine);
  EXPECT_THAT(lysine->value, DoubleNear(soya->composition[Nutrient::lysine]->value / 2.0, 1e-9));
  EXPECT_EQ(lysine->origin, FigureOrigin::estimated);
  EXPECT_THAT(lysine->how, HasSubstr("as in soya bean meal"));
}

TEST(LysineShare, NamesASourceOfTheBibliography) {
  for (const FeedGroup group : all_feed_groups()) {
    for (const std::set<FeedTrait>& traits : {std::set<FeedTrait>{},
                                              {FeedTrait::legume},
                                              {FeedTrait::beet},
                                              {FeedTrait::bran},
                                              {FeedTrait::linseed}}) {
      const auto lysine = estimated_lysine(own_feed(group, 100.0, traits), nullptr);
      if (!lysine) continue;
      EXPECT_NE(find_source(lysine->source), nullptr) << lysine->source;
    }
  }
}

}  // namespace
}  // namespace haymow::lysine_share_test
