// The wire: what is written is read back, and nothing that is given can break it.
#include "wire/wire.h"

#include <gtest/gtest.h>

#include <random>

#include "small_catalog.h"
#include "wire/text.h"

namespace tenwinters {
namespace {

TEST(Wire, CatalogueAndOfficeComeBackWhole) {
  const std::string catalog = catalog_to_json(testing::small_catalog()), office = office_to_json(testing::small_office());
  const std::optional<Catalog> read_catalog = catalog_from_json(catalog);
  const std::optional<Office> read_office = office_from_json(office);
  ASSERT_TRUE(read_catalog && read_office);
  EXPECT_EQ(catalog_to_json(*read_catalog), catalog);
  EXPECT_EQ(office_to_json(*read_office), office);
  // And decide the same.
  const Catalog original = testing::small_catalog();
  const Office there = testing::small_office();
  EXPECT_EQ(advice_to_json(advise(*read_catalog, *read_office, read_office->places[0], {})),
            advice_to_json(advise(original, there, there.places[0], {})));
}

TEST(Wire, RefusesWhatIsNotWhole) {
  const std::string catalog = catalog_to_json(testing::small_catalog()), office = office_to_json(testing::small_office());
  const auto replaced = [](std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  };
  EXPECT_FALSE(catalog_from_json(""));
  EXPECT_FALSE(catalog_from_json("[]"));
  EXPECT_FALSE(catalog_from_json(catalog.substr(0, catalog.size() / 2)));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"sweet\"", "\"swete\"")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"bloom\":[3,4]", "\"bloom\":[3,13]")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"bloom\":[3,4]", "\"bloom\":[3]")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"size_share\":[1.0,1.0,1.0]", "\"size_share\":[1.0,1.1,1.2]")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"size_share\":[1.0,1.0,1.0]", "\"size_share\":[1e300,1e300,1e300]")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"prior\":0.6", "\"prior\":-1")));
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"sun_hours\",\"9\"", "\"sun_hours\",\"nine\"")));
  EXPECT_FALSE(office_from_json(replaced(office, "\"hardening\":[800", "\"hardening\":[1001")));
  EXPECT_FALSE(office_from_json(replaced(office, "\"start_hour\":[2", "\"start_hour\":[24")));
  EXPECT_FALSE(office_from_json(replaced(office, "\"lowest_tenths_c\":[-10", "\"lowest_tenths_c\":[\"-10\"")));
  EXPECT_FALSE(office_from_json(replaced(office, "\"spells\":[1", "\"spells\":[2"))) << "a column too short";
  EXPECT_FALSE(office_from_json(replaced(office, "\"spells\":[1", "\"spells\":[0"))) << "a column too long";
  EXPECT_FALSE(catalog_from_json(replaced(catalog, "\"type\":\"", "\"type\":\"x"))) << "a cultivar of no type";
}

// The parser must not look for the rest of a character behind the end; the sanitizers would tell. Found by tests/fuzz.
TEST(Wire, RefusesACharacterCutOffByTheEnd) {
  for (const std::string_view cut : {"\xF4", "\xF4o", "\xE2\x80", "\xC3"}) {
    const std::string text = "{\"a long enough name to lie on the heap" + std::string(cut);
    EXPECT_FALSE(answers_from_json(text)) << cut.size();
    EXPECT_FALSE(catalog_from_json(text)) << cut.size();
  }
}

TEST(Wire, TraitsOfTheTypeAreNotSaidAgain) {
  Catalog catalog = testing::small_catalog();
  ASSERT_FALSE(catalog.cultivars.empty());
  CitrusType& type = catalog.types[0];
  Cultivar& cultivar = catalog.cultivars[0];
  cultivar.type = type.id;
  cultivar.traits = type.traits;
  cultivar.traits.bloom.from_month = 7;
  cultivar.traits.bloom.to_month = 8;
  const std::string text = catalog_to_json(catalog), own = text.substr(text.find("\"cultivars\""));
  EXPECT_NE(own.find("\"traits\":{\"bloom\":[7,8]}"), std::string::npos) << own.substr(0, 400);
  const std::optional<Catalog> read = catalog_from_json(text);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->cultivars[0].traits.bloom.from_month, 7);
  EXPECT_EQ(read->cultivars[0].traits.height_m.best, type.traits.height_m.best);
}

TEST(Wire, DeskSaysWhatIsWrong) {
  Desk desk(testing::small_catalog(), testing::small_office(), all_tells());
  const std::pair<const char*, const char*> cases[] = {
      {"", R"({"error":"request","found":"","nearest":""})"},
      {"null", R"({"error":"request","found":"null","nearest":""})"},
      {R"({"answer":{}})", R"({"error":"request","found":"answer","nearest":""})"},
      {R"({"place":"hare"})", R"({"error":"place","found":"hare","nearest":"here"})"},
      {R"({"place":7})", R"({"error":"place","found":"number","nearest":""})"},
      {R"({"answers":[]})", R"({"error":"answer","found":"array","nearest":""})"},
      {R"({"answers":{"sun":9}})", R"({"error":"answer","found":"object","nearest":""})"},
      {R"({"answers":{"sum":"full"}})", R"({"error":"question","found":"sum","nearest":"sun"})"},
      {R"({"answers":{"sun":"fill"}})", R"({"error":"answer","found":"fill","nearest":"full"})"},
  };
  for (const auto& [request, answer] : cases) EXPECT_EQ(desk.answer(request), answer) << request;
  EXPECT_EQ(desk.answer(std::string(70000, ' ')), R"({"error":"request","found":"longer than 64 KiB","nearest":""})");
  EXPECT_EQ(desk.answer(std::string(60000, '[')).substr(0, 18), R"({"error":"request")");
}

TEST(Wire, DeskTellsOnlyWhatItWasGiven) {
  Desk desk(testing::small_catalog(), testing::small_office(), picker_tells());
  EXPECT_EQ(desk.answer(R"({"tell":"order"})").substr(0, 9), R"({"place":)");
  EXPECT_EQ(desk.answer(R"({"tell":"ordre"})"), R"({"error":"tell","found":"ordre","nearest":"order"})");
  EXPECT_EQ(desk.answer(R"({"tell":"change","cultivar":"meyer"})").substr(0, 15), R"({"error":"tell")");
}

TEST(Wire, DeskShowsOnlyPlainText) {
  Desk desk(testing::small_catalog(), testing::small_office(), all_tells());
  EXPECT_EQ(desk.answer("\"\\\x01\xff"), R"({"error":"request","found":"\"\\\u0001?","nearest":""})");
}

TEST(Wire, TextWritesWholeNumbersOnly) {
  const auto decimal = [](double number, int decimals) {
    wire::Text text;
    text.decimal(number, decimals);
    return text.take();
  };
  EXPECT_EQ(decimal(6.8349, 2), "6.83");
  EXPECT_EQ(decimal(6.835, 1), "6.8");
  EXPECT_EQ(decimal(0.05, 2), "0.05");
  EXPECT_EQ(decimal(0.004, 2), "0");
  EXPECT_EQ(decimal(-0.004, 2), "0");
  EXPECT_EQ(decimal(-2.5, 2), "-2.5");
  EXPECT_EQ(decimal(0.9996, 3), "1");
  EXPECT_EQ(decimal(75.7, 2), "75.7");
  EXPECT_EQ(decimal(1e300, 2), "0") << "out of range is no figure";
}

TEST(Wire, DeskAnswersAsTheEngineDoes) {
  const Catalog catalog = testing::small_catalog();
  const Office office = testing::small_office();
  Desk desk(catalog, office, all_tells());
  const Answers answers{{"sun", "full"}, {"taste", "sour"}};
  const std::string once = desk.answer(R"({"place":"here","answers":{"taste":"sour","sun":"full"}})");
  EXPECT_EQ(once, advice_to_json(advise(catalog, office, office.places[0], answers)));
  EXPECT_EQ(desk.answer(R"({"answers":{"sun":"full","taste":"sour"}})"), once) << "what it remembers changes nothing";
}

// Bytes changed, dropped and doubled at random: always an answer, never a crash (also run under sanitizers).
TEST(Wire, SurvivesDamage) {
  const std::string catalog = catalog_to_json(testing::small_catalog()), office = office_to_json(testing::small_office());
  const std::string request = R"({"place":"here","answers":{"sun":"full","planting":"pot","indoors":"in"}})";
  Desk desk(testing::small_catalog(), testing::small_office(), all_tells());
  std::mt19937 random(11);
  const auto damage = [&](std::string text) {
    for (unsigned n = random() % 4 + 1; n > 0; --n) {
      const std::size_t at = random() % text.size();
      // Mostly another digit: damage that a reader can only catch by its ranges.
      if (const std::size_t digit = text.find_first_of("0123456789", at); digit != std::string::npos && random() % 4 != 0) {
        text[digit] = static_cast<char>('0' + random() % 10);
        continue;
      }
      switch (random() % 3) {
        case 0: text[at] = static_cast<char>(random() % 256); break;
        case 1: text.erase(at, random() % 8 + 1); break;
        default: text.insert(at, text.substr(at, random() % 8 + 1));
      }
      if (text.empty()) text = " ";
    }
    return text;
  };
  for (int i = 0; i < 3000; ++i) {
    const std::string answer = desk.answer(damage(request));
    ASSERT_FALSE(answer.empty());
    ASSERT_EQ(answer.front(), '{');
    ASSERT_EQ(answer.back(), '}');
  }
  // One of the two damaged at a time: both would hardly ever be read.
  int read = 0;
  for (int i = 0; i < 2000; ++i) {
    const std::optional<Catalog> one = catalog_from_json(i % 2 == 0 ? damage(catalog) : catalog);
    const std::optional<Office> other = office_from_json(i % 2 == 0 ? office : damage(office));
    if (!one || !other || other->places.empty()) continue;
    ++read;
    ASSERT_EQ(advice_to_json(advise(*one, *other, other->places[0], {})).front(), '{');
  }
  EXPECT_GT(read, 50) << "some damage must get past the reader, or this proves little";
}

}  // namespace
}  // namespace tenwinters
