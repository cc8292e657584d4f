// What a yard plan is offered: the trees of advise() for every way to grow them, by hand on the small catalogue.
#include <gtest/gtest.h>

#include <algorithm>

#include "small_catalog.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

using testing::small_question;

const Answers kGround{{"sun", "full"}, {"planting", "ground"}, {"soil", "acid"}, {"work", "none"}, {"taste", "sweet"}, {"priority", "balanced"}};

// The small catalogue without some of its questions.
Catalog without(const std::vector<std::string>& questions) {
  Catalog catalog = testing::small_catalog();
  std::erase_if(catalog.questions, [&](const Question& question) {
    return std::find(questions.begin(), questions.end(), question.id) != questions.end();
  });
  return catalog;
}

// With the question that tells what other citrus blooms near by.
Catalog with_company() {
  Catalog catalog = without({"room"});
  catalog.questions.push_back(small_question("company", {{"nobody", 0.5, {{Variable::company, "none"}}}, {"others", 0.5, {{Variable::company, "other_kind"}}}}));
  catalog.questions.push_back(small_question("seeds", {{"any", 0.5, {{Variable::seeds, "any"}}}, {"none", 0.5, {{Variable::seeds, "none"}}}}));
  return catalog;
}

PlanProblem offer(const Catalog& catalog, const Answers& answers, const std::vector<ExistingTree>& existing = {}) {
  const Office office = testing::small_office();
  return yard_offer(catalog, office, office.places[0], answers, existing);
}

std::vector<PlanTree> trees_of(const PlanProblem& problem, const std::string& id) {
  std::vector<PlanTree> out;
  std::copy_if(problem.trees.begin(), problem.trees.end(), std::back_inserter(out), [&](const PlanTree& tree) { return tree.id == id; });
  return out;
}

Answers with(Answers answers, const std::string& question, const std::string& answer) {
  answers[question] = answer;
  return answers;
}

TEST(PlanOffer, WithoutQuestionsOnSizeThereIsOneWayToGrowATree) {
  const Catalog catalog = without({"planting", "indoors", "room"});
  const PlanProblem problem = offer(catalog, kGround);
  const Advice advice = testing::small_advice(catalog, testing::small_office(), kGround);
  std::size_t grows = 0;
  for (const Candidate& candidate : advice.candidates) {
    const std::vector<PlanTree> trees = trees_of(problem, candidate.cultivar);
    if (candidate.shelf == Shelf::not_here) {
      EXPECT_TRUE(trees.empty()) << candidate.cultivar;
      continue;
    }
    ++grows;
    ASSERT_EQ(trees.size(), 1u) << candidate.cultivar;
    EXPECT_EQ(trees[0].points, candidate.points);
    EXPECT_EQ(trees[0].rootstock, candidate.rootstock);
    EXPECT_EQ(trees[0].alone_loss, 0);
    EXPECT_EQ(trees[0].seed_loss, 0);
    // All are 4 m wide on a stock that keeps their size, and there is no narrower room to keep them to.
    EXPECT_EQ(trees[0].crown_cm, 400);
    EXPECT_EQ(trees[0].natural_cm, 400);
    EXPECT_FALSE(trees[0].container);
  }
  EXPECT_GT(grows, 0u);
  EXPECT_LT(grows, advice.candidates.size());
  EXPECT_TRUE(problem.notes.empty());  // nobody is asked what blooms near by
}

TEST(PlanOffer, EveryWidthAndPotThatTheAnswersLeaveOpen) {
  Catalog catalog = testing::small_catalog();
  const auto ways = [&](const Answers& answers) {
    std::vector<std::pair<bool, int>> out;  // carried, crown
    for (const PlanTree& tree : trees_of(offer(catalog, answers), "brave")) out.emplace_back(tree.carried, tree.crown_cm);
    std::sort(out.begin(), out.end());
    return out;
  };
  // 4 m of crown have room in 6 m; in 1 m they have none, pruned or not, so the narrow way is no offer.
  EXPECT_EQ(ways(kGround), (std::vector<std::pair<bool, int>>{{false, 400}}));
  // Room for 3 m: the tree is kept to that.
  catalog.questions[4].answers[1].sets[0].second = "3";
  const std::vector<PlanTree> two = trees_of(offer(catalog, kGround), "brave");
  ASSERT_EQ(two.size(), 2u);
  for (const PlanTree& tree : two) {
    EXPECT_TRUE(tree.crown_cm == 400 || tree.crown_cm == 300) << tree.crown_cm;
    EXPECT_EQ(tree.natural_cm, 400);
    EXPECT_EQ(tree.height_cm, tree.crown_cm) << "as high as wide, and kept as low in proportion";
  }
  // The answer on room is left aside.
  EXPECT_EQ(trees_of(offer(catalog, with(kGround, "room", "narrow")), "brave").size(), 2u);
}

TEST(PlanOffer, ATreeThatSeedsMakeANoLosesAllItIsWorth) {
  Catalog catalog = with_company();
  catalog.cultivars[0].traits.seeds_alone = testing::fact(0);
  catalog.cultivars[0].traits.seeds_with_pollen = testing::fact(20);
  const Answers alone = with(with(kGround, "seeds", "none"), "company", "nobody");
  const Advice advice = testing::small_advice(catalog, testing::small_office(), alone);
  const Candidate* brave = testing::find_candidate(advice, "brave");
  ASSERT_NE(brave, nullptr);
  ASSERT_NE(brave->shelf, Shelf::not_here);
  std::vector<PlanTree> trees = trees_of(offer(catalog, alone), "brave");
  ASSERT_FALSE(trees.empty());
  for (const PlanTree& tree : trees) {
    EXPECT_EQ(tree.points, brave->points);
    EXPECT_EQ(tree.seed_loss, tree.points);
    EXPECT_FALSE(tree.partner_near);
  }
  // Where pollen is about anyway it is none of the plan's trees that brings it: no offer at all.
  EXPECT_TRUE(trees_of(offer(catalog, with(alone, "company", "others")), "brave").empty());
  // Nobody who minds seeds a little loses more by them than the tree is worth.
  for (const PlanTree& tree : trees_of(offer(catalog, with(alone, "seeds", "any")), "brave")) EXPECT_LT(tree.seed_loss, tree.points);
}

TEST(PlanOffer, CitrusNearByIsAPartner) {
  Catalog catalog = with_company();
  catalog.cultivars[0].traits.sets_fruit.is = SetsFruit::partner_needed;
  const PlanProblem alone = offer(catalog, with(kGround, "company", "nobody")), near = offer(catalog, with(kGround, "company", "others")),
                    open = offer(catalog, kGround);
  ASSERT_FALSE(trees_of(alone, "brave").empty());
  ASSERT_FALSE(trees_of(near, "brave").empty());
  for (const PlanTree& tree : trees_of(alone, "brave")) {
    EXPECT_TRUE(tree.needs_partner);
    EXPECT_FALSE(tree.partner_near);
    EXPECT_GE(4 * tree.alone_loss, 3 * tree.points) << "most of what it is worth";
    EXPECT_LE(tree.alone_loss, tree.points);
  }
  for (const PlanTree& tree : trees_of(near, "brave")) {
    EXPECT_FALSE(tree.needs_partner);
    EXPECT_TRUE(tree.partner_near);
    EXPECT_EQ(tree.alone_loss, 0);
  }
  // Not said: counted as none, and told.
  EXPECT_FALSE(testing::has_note(alone.notes, "plan_neighbours"));
  EXPECT_TRUE(testing::has_note(open.notes, "plan_neighbours"));
  for (const PlanTree& tree : trees_of(open, "brave")) EXPECT_TRUE(tree.needs_partner);
}

TEST(PlanOffer, AnOldTreeThatWouldNotBePlantedAnyMoreMayStay) {
  const Catalog catalog = testing::small_catalog();
  ASSERT_TRUE(trees_of(offer(catalog, kGround), "tender").empty());
  ASSERT_FALSE(trees_of(offer(catalog, kGround), "brave").empty());
  const ExistingTree tender{"tender", "", true, 120, 340}, brave{"brave", "acid_stock", false, 0, 0}, unknown{"no_such_tree", "", false, 0, 0};
  const PlanProblem problem = offer(catalog, kGround, {tender, unknown, brave});
  const std::vector<PlanTree> ways = trees_of(problem, "tender");
  ASSERT_EQ(ways.size(), 3u);
  // Whole, or pruned by a quarter or half, for which nobody gives a point.
  const int crowns[] = {400, 300, 200};
  for (std::size_t i = 0; i < ways.size(); ++i) {
    EXPECT_EQ(ways[i].crown_cm, crowns[i]);
    EXPECT_EQ(ways[i].natural_cm, 400);
    EXPECT_EQ(ways[i].points, 2 - static_cast<int>(i)) << "next to nothing";
    EXPECT_TRUE(ways[i].existing && ways[i].fixed);
    EXPECT_EQ(ways[i].x_cm, 120);
    EXPECT_EQ(ways[i].y_cm, 340);
    EXPECT_EQ(ways[i].rootstock, "") << "not known";
  }
  EXPECT_TRUE(testing::has_note(problem.notes, "plan_existing_poor"));
  EXPECT_TRUE(trees_of(problem, "no_such_tree").empty());
  // One that does well here is offered as it stands, on its own stock, and not a second time as new.
  const std::vector<PlanTree> kept = trees_of(problem, "brave");
  ASSERT_FALSE(kept.empty());
  for (const PlanTree& tree : kept) {
    EXPECT_TRUE(tree.existing);
    EXPECT_NE(tree.slot, ways[0].slot);
    EXPECT_EQ(tree.rootstock, "acid_stock");
    EXPECT_GT(tree.points, 2);
  }
  EXPECT_FALSE(testing::has_note(offer(catalog, kGround, {brave}).notes, "plan_existing_poor"));
}

// An old tree stands in the ground, whatever is meant for the new ones.
TEST(PlanOffer, AnOldTreeIsInTheGroundWhereNewOnesGoIntoPots) {
  const Catalog catalog = testing::small_catalog();
  const PlanProblem problem = offer(catalog, with(with(kGround, "planting", "pot"), "indoors", "in"), {{"brave", "", false, 0, 0}});
  ASSERT_FALSE(trees_of(problem, "brave").empty());
  ASSERT_FALSE(trees_of(problem, "mild").empty());
  for (const PlanTree& tree : problem.trees) {
    EXPECT_EQ(tree.container, !tree.existing) << tree.id;
    EXPECT_EQ(tree.existing, tree.id == "brave");
  }
}

}  // namespace
}  // namespace tenwinters
