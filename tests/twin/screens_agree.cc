// The second browser engine and this one: the same bytes for what the screens show, calendar files included.
//
// The native answers are piped to tests/browser/screens_agree.mjs, which asks the browser engine the same.
#ifdef TENWINTERS_SCREENS_ENGINE

#include <gtest/gtest.h>

#include <cstdio>
#include <random>

#include "../real_catalog.h"
#include "lib/things.h"
#include "screens/screens.h"
#include "tenwinters/night.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

std::string quoted_list(const std::vector<std::string>& ids) {
  std::string text = "[";
  for (const std::string& id : ids) text += (text.size() > 1 ? ",\"" : "\"") + id + "\"";
  return text + "]";
}

std::string random_request(const Catalog& catalog, const Office& office, std::mt19937& random) {
  const auto pick = [&](auto const& list) { return list[random() % list.size()]; };
  const auto trees = [&](std::size_t n) {
    std::vector<std::string> ids;
    for (; n > 0; --n) ids.push_back(pick(catalog.cultivars).id);
    return quoted_list(ids);
  };
  std::string text = "{\"place\":\"" + pick(office.places).id + "\",\"units\":\"" + (random() % 2 == 0 ? "us" : "metric") + "\",\"answers\":{";
  bool first = true;
  for (const Question& question : catalog.questions) {
    if (random() % 3 == 0) continue;
    text += (first ? "\"" : ",\"") + question.id + "\":\"" + pick(question.answers).id + "\"";
    first = false;
  }
  text += "},";
  switch (random() % 8) {
    case 0: case 1: case 2:
      return text + "\"screen\":\"calendar\",\"trees\":" + trees(random() % 4) + ",\"year\":" + std::to_string(1990 + random() % 60) +
             ",\"yearly\":" + (random() % 2 == 0 ? "true" : "false") + ",\"alarm_days\":" + std::to_string(random() % 9) + "}";
    case 3: case 4: case 5: {
      std::string list;
      for (auto n = random() % 3 + 1; n > 0; --n)
        list += (list.empty() ? "{\"id\":\"" : ",{\"id\":\"") + pick(catalog.cultivars).id + "\",\"rootstock\":\"" + pick(catalog.rootstocks).id +
                "\",\"age\":" + std::to_string(random() % 12 + 1) + ",\"container_l\":" + (random() % 2 == 0 ? "0" : "57") + ",\"protections\":[\"" +
                pick(catalog.protections).id + "\"]}";
      const std::string_view before = names_of<Before>()[random() % names_of<Before>().size()];
      return text + "\"screen\":\"night\",\"low_c\":-" + std::to_string(static_cast<double>(random() % 120) / 10) + ",\"hours\":" + std::to_string(random() % 14 + 1) +
             ",\"before\":\"" + std::string(before) + "\",\"month\":" + std::to_string(random() % 13) + ",\"trees\":[" + list + "]}";
    }
    case 6: return text + "\"screen\":\"compare\",\"trees\":" + trees(2 + random() % 3) + "}";
    default: return text + "\"screen\":\"plan\",\"width_cm\":" + std::to_string(400 + random() % 900) + ",\"length_cm\":" + std::to_string(400 + random() % 900) +
                    ",\"trees_at_most\":" + std::to_string(1 + random() % 3) + ",\"existing\":" + trees(random() % 2) + "}";
  }
}

TEST(ScreensEngine, AgreesByteForByte) {
  const testing::RealCatalog& real = testing::real_catalog();
  const DiskReader disk;
  const Seasons seasons = load_catalog(disk, std::string(TENWINTERS_SOURCE_DIR) + "/catalog").seasons;
  ASSERT_FALSE(seasons.rows.empty());
  for (Language language : real.languages) {
    add_names(language, real.catalog, real.office);
    std::FILE* browser = popen("node '" TENWINTERS_SOURCE_DIR "/tests/browser/screens_agree.mjs' '" TENWINTERS_SCREENS_ENGINE "'", "w");
    ASSERT_NE(browser, nullptr);
    const auto send = [&](const std::string& line) { return std::fwrite(line.data(), 1, line.size(), browser) == line.size() && std::fputc('\n', browser) == '\n'; };
    bool sent = send(catalog_to_json(real.catalog)) && send(office_to_json(real.office)) && send(screens::seasons_to_json(seasons)) && send(screens::words_to_json(language));
    screens::Screens native(real.catalog, real.office, seasons, language);
    std::mt19937 random(20261126);
    for (int i = 0; i < 120 && sent; ++i) {
      const std::string request = random_request(real.catalog, real.office, random);
      sent = send(request) && send(native.answer(request));
    }
    EXPECT_TRUE(sent) << "the browser engine's test stopped listening";
    EXPECT_EQ(pclose(browser), 0) << "every answer must be the same; see above";
  }
}

}  // namespace
}  // namespace tenwinters

#endif
