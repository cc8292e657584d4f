// The browser engine and this one: the same bytes for ten thousand yards, and for requests that are wrong.
//
// Two modules are made of one set of objects: the picker's, and one that tells everything.
// The native answers are piped to tests/browser/engine_agree.mjs, which asks the browser engine the same.
#ifdef TENWINTERS_BROWSER_ENGINES

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <random>

#include "../real_catalog.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

constexpr int kWrong = 500;

// How many yards; TENWINTERS_YARDS=10000 is the whole proof (tools/test --full).
int yards() {
  const char* wanted = std::getenv("TENWINTERS_YARDS");
  return wanted == nullptr ? 1000 : std::max(1, std::atoi(wanted));
}

// Mostly rankings, half of them with how sure they are; one in twenty asks for the least change, one in twenty to
// compare two trees; the picker is asked what it tells. Half the households answer everything; the others leave out one question in four and do not know another.
std::string random_request(const Catalog& catalog, const Office& office, bool picker, std::mt19937& random) {
  const bool everything = random() % 2 == 0;
  std::string text = "{\"place\":\"" + office.places[random() % office.places.size()].id + "\",\"answers\":{";
  bool first = true;
  for (const Question& question : catalog.questions) {
    std::string answer = question.answers[random() % question.answers.size()].id;
    if (!everything) {
      const unsigned pick = random() % 4;
      if (pick == 0) continue;
      if (pick == 1) answer = kDontKnow;
    }
    text += (first ? "\"" : ",\"") + question.id + "\":\"" + answer + "\"";
    first = false;
  }
  text += "}";
  const auto tree = [&] { return catalog.cultivars[random() % catalog.cultivars.size()].id; };
  const auto what = random() % 20;
  if (picker) text += what < 10 ? ",\"tell\":\"certainty\"" : ",\"tell\":\"order\"";
  else if (what == 0) text += ",\"tell\":\"change\",\"cultivar\":\"" + tree() + "\"";
  else if (what == 1) text += ",\"tell\":\"comparison\",\"cultivar\":\"" + tree() + "\",\"against\":\"" + tree() + "\"";
  else if (what == 2) text += ",\"tell\":\"order\"";
  else if (what < 12) text += ",\"tell\":\"ranking\"";
  return text + "}";
}

std::string damaged(std::string text, std::mt19937& random) {
  for (auto n = random() % 3 + 1; n > 0; --n) {
    const std::size_t at = random() % text.size();
    if (random() % 2 == 0) text[at] = static_cast<char>(random() % 255 + 1);
    else text.erase(at, random() % 20 + 1);
    if (text.empty()) text = "x";
  }
  for (char& c : text)
    if (c == '\n') c = ' ';
  return text;
}

void expect_agreement(const std::string& module, bool picker, int sound, int wrong) {
  const testing::RealCatalog& real = testing::real_catalog();
  ASSERT_FALSE(real.catalog.cultivars.empty());
  const std::string command =
      "node '" TENWINTERS_SOURCE_DIR "/tests/browser/engine_agree.mjs' '" TENWINTERS_BROWSER_ENGINES "/" + module + "'";
  std::FILE* browser = popen(command.c_str(), "w");
  ASSERT_NE(browser, nullptr);
  const auto send = [&](const std::string& line) { return std::fwrite(line.data(), 1, line.size(), browser) == line.size() && std::fputc('\n', browser) == '\n'; };

  bool sent = send(catalog_to_json(real.catalog)) && send(office_to_json(real.office));
  Desk desk(real.catalog, real.office, picker ? picker_tells() : all_tells());
  std::mt19937 random(20261125);
  for (int i = 0; i < sound + wrong && sent; ++i) {
    std::string request = random_request(real.catalog, real.office, picker, random);
    if (i >= sound) request = damaged(std::move(request), random);
    sent = send(request) && send(desk.answer(request));
  }
  const int status = pclose(browser);
  EXPECT_TRUE(sent) << "the browser engine's test stopped listening";
  EXPECT_EQ(status, 0) << "node and the browser engine must be there, and every answer the same; see above";
}

TEST(BrowserEngine, AgreesByteForByte) { expect_agreement("all_tells.wasm", false, yards(), kWrong); }
TEST(BrowserEngine, PickerAgreesByteForByte) { expect_agreement("picker.wasm", true, yards() / 5, kWrong / 5); }

}  // namespace
}  // namespace tenwinters

#endif
