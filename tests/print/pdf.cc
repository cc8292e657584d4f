// The PDFs, by poppler and by a decoder of codes. Sizes of paper in points: Letter 612 x 792 (8.5 x 11 in at 72 to the
// inch), A4 595 x 842 (ISO 216, rounded).
#include <cmath>

#include "paper.h"

namespace tenwinters {
namespace {

using testing::codes_on;
using testing::count_of;
using testing::holds;
using testing::Outcome;
using testing::Pixels;
using testing::PrintRoom;
using testing::rasterised;

std::string said_of(const std::string& info, const std::string& what) {
  const std::size_t at = info.find(what + ":");
  if (at == std::string::npos) return "";
  const std::size_t start = info.find_first_not_of(' ', at + what.size() + 1);
  return info.substr(start, info.find('\n', start) - start);
}

void expect_sound(const PrintRoom& room, const std::string& pdf, const std::string& size, const std::string& language, int most_pages) {
  const std::string info = room.shell("pdfinfo 'out/" + pdf + "'").text;
  EXPECT_EQ(said_of(info, "Tagged"), "yes") << pdf;
  EXPECT_TRUE(holds(said_of(info, "Page size"), size)) << pdf << ": " << said_of(info, "Page size");
  EXPECT_FALSE(said_of(info, "Title").empty()) << pdf;
  EXPECT_GE(std::stoi("0" + said_of(info, "Pages")), 1) << pdf;
  EXPECT_LE(std::stoi("0" + said_of(info, "Pages")), most_pages) << pdf;
  EXPECT_TRUE(holds(room.shell("grep -a -o '/Lang ([a-z]*)' 'out/" + pdf + "'").text, "/Lang (" + language + ")")) << pdf;
  std::istringstream fonts(room.shell("pdffonts 'out/" + pdf + "' | tail -n +3").text);
  int count = 0;
  for (std::string line; std::getline(fonts, line); ++count) {
    EXPECT_TRUE(std::regex_search(line, std::regex("Almanac.* yes +yes +yes"))) << pdf << ": " << line;  // the office's own, embedded, subset, with text
  }
  EXPECT_GE(count, 2) << pdf;
}

void expect_in_order(const std::string& text, const std::vector<std::string>& parts, const std::string& where) {
  std::size_t at = 0;
  for (const std::string& part : parts) {
    const std::size_t found = text.find(part, at);
    EXPECT_NE(found, std::string::npos) << where << ": \"" << part << "\" is not where it is read";
    if (found != std::string::npos) at = found;
  }
}

TEST(Pdf, SheetsAreTaggedEmbeddedAndOfTwoPagesAtMost) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_sheets");
  const Outcome made = room.run("handout county night planting types --type mandarin --type sour_orange --answer sun=full --answer planting=ground --pdf");
  ASSERT_EQ(made.status, 0) << made.text;
  for (const char* stem : {"which-citrus", "cold-night-gannet_quay", "planting-gannet_quay", "kind-mandarin", "kind-sour_orange", "your-yard"})
    for (const std::string language : {"en", "es"}) {
      expect_sound(room, std::string(stem) + "-" + language + "-letter.pdf", "612 x 792 pts", language, 2);
      expect_sound(room, std::string(stem) + "-" + language + "-a4.pdf", "594.96 x 841.92 pts", language, 2);
    }
  const auto text = [&](const std::string& pdf) { return room.shell("pdftotext 'out/" + pdf + "' -").text; };
  expect_in_order(text("which-citrus-en-letter.pdf"), {"Which citrus for me?", "Before you buy", "Kinds, hardiest first", "Satsumas", "Key limes", "When a hard freeze", "Take care", "Ask us"}, "en");
  expect_in_order(text("which-citrus-es-a4.pdf"), {"¿Qué cítrico me conviene?", "Antes de comprar", "Satsumas", "Cuando anuncian", "Tenga cuidado", "Pregúntenos"}, "es");
  expect_in_order(text("which-citrus-en-letter.pdf"), {"1/2", "2/2"}, "numbers of pages");
}

// The longest answers, and none at all, at both places.
TEST(Pdf, HouseholdSheetsKeepToTwoPagesWhateverIsAnswered) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_households");
  room.write("callers.csv",
             "name,place,sun,drainage,planting,indoors,spot,room,soil,winter_work,company,taste,use,seeds,season,thorns,medicine,pets,priority\n"
             "A,gannet_quay,full,good,pot_large,carried_in,open,wide,acid_or_neutral,many_nights,other_kind,any,fresh,few,winter,do_not_mind,include,has_pets,harvest\n"
             "B,burdock_hollow,half,standing,ground,,low_pocket,narrow,limy,no_work,none,sour,preserves,none,summer,avoid,leave_out,has_pets,little_work\n"
             "C,gannet_quay,,,,,,,,,,,,,,,,,\n"
             "D,burdock_hollow,,,,,,,,,,,,,,,,,\n"
             "E,burdock_hollow,most,slow,pot_small,stays_out,south_wall,small,salty,few_nights,will_plant,sweet_tart,juice,any,autumn,do_not_mind,include,no_pets,eating\n");
  const Outcome made = room.run("handout --batch callers.csv --pdf");
  EXPECT_EQ(made.status, 0) << made.text;
  EXPECT_FALSE(holds(made.text, "does not fit"));
  for (int i = 1; i <= 5; ++i)
    for (const std::string language : {"en", "es"}) expect_sound(room, "your-yard-" + std::to_string(i) + "-" + language + "-letter.pdf", "612 x 792 pts", language, 2);
  // Together: a bookmark for each.
  ASSERT_EQ(room.run("handout --batch callers.csv --together --lang en --paper letter --pdf").status, 0);
  expect_sound(room, "all-yards-en-letter.pdf", "612 x 792 pts", "en", 10);
  const std::string bookmarks = room.shell("grep -a -o '/Title (Citrus for your yard: [A-E])' out/all-yards-en-letter.pdf").text;
  EXPECT_EQ(count_of(bookmarks, "Citrus for your yard"), 5) << bookmarks;
}

TEST(Pdf, CodesAreReadBackAtPrintResolution) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_codes");
  ASSERT_EQ(room.run("handout county --place gannet_quay --answer sun=full --answer planting=ground --lang es --paper letter --pdf").status, 0);
  const std::string site = "https://quillback.example/citrus/es/";
  EXPECT_EQ(codes_on(room, "your-yard-es-letter.pdf", 2, 300), std::vector<std::string>{site + "index.html#place=gannet_quay&sun=full&planting=ground"});
  room.write("stock.csv", "cultivar\nOwari\nMeiwa\nChangsha\nMinneola\nCalamondin\nSatsuma \xC3\x97 Changsha hybrid\n");
  for (const std::string format : {"tag", "bench", "aisle"}) {
    ASSERT_EQ(room.run("signs --stock stock.csv --lang es --pdf --format " + format).status, 0);
    std::vector<std::string> read = codes_on(room, "signs-" + format + "-es-letter.pdf", 1, 300);
    std::sort(read.begin(), read.end());
    std::vector<std::string> expected = {site + "cultivars/owari.html"};
    if (format != "aisle") expected.push_back(site + "cultivars/meiwa.html");
    if (format == "tag")
      for (const char* id : {"changsha", "minneola", "calamondin", "satsuma_changsha"}) expected.push_back(site + "cultivars/" + id + ".html");
    std::sort(expected.begin(), expected.end());
    EXPECT_EQ(read, expected) << format;
  }
}

// A browser that writes down each of its starts.
TEST(Pdf, ABatchTakesOneStartOfTheBrowserAndHasABookmarkASign) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_starts");
  const std::string real = room.shell("echo ${TENWINTERS_BROWSER:-$(command -v chromium chromium-browser google-chrome google-chrome-stable | head -1)}").text;
  room.write("browser", "#!/bin/sh\necho start >> '" + (room.project().folder() / "starts").string() + "'\nexec " + real.substr(0, real.find('\n')) + " \"$@\"\n");
  ASSERT_EQ(room.shell("chmod +x browser").status, 0);
  std::string csv = "cultivar\n";
  for (int i = 0; i < 7; ++i) csv += "Owari\nMeiwa\n";
  room.write("stock.csv", csv);
  const Outcome made = room.run("signs --stock stock.csv --format tag --format bench --lang en --pdf --browser ./browser");
  ASSERT_EQ(made.status, 0) << made.text;
  EXPECT_EQ(room.project().read("starts"), "start\n");
  for (const char* pdf : {"signs-tag-en-letter.pdf", "signs-bench-en-letter.pdf"})
    for (const char* name : {"Owari", "Meiwa"}) EXPECT_EQ(count_of(room.shell("grep -a -o '/Title (" + std::string(name) + ")' out/" + pdf).text, name), 7) << pdf;
}

// On the pixels: crop marks and the band of colour where impose() puts them, on both sides of the sheet. A single tag
// lies in the first of three columns, whose place is worked out by hand: columns begin at (215.9 - 3 x 50.8 - 2 x 6) / 2
// = 25.75 mm, rows at (279.4 - 2 x 101.6 - 6) / 2 = 35.1 mm.
TEST(Pdf, MarksBandsAndBacksLieWhereTheNumbersSay) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_marks");
  room.write("stock.csv", "cultivar\nOwari\n");
  ASSERT_EQ(room.run("signs --stock stock.csv --lang en --place gannet_quay --pdf").status, 0);
  expect_sound(room, "signs-tag-en-letter.pdf", "612 x 792 pts", "en", 2);
  constexpr int kDpi = 600, kDark = 200;
  constexpr double kLeft = 25.75, kTop = 35.1, kWidth = 50.8, kBleed = 3, kSheet = 215.9, kWithin = 0.15;  // mm
  const auto pixel = [&](double mm) { return static_cast<int>(std::lround(mm / 25.4 * kDpi)); };
  for (const int page : {1, 2}) {
    const Pixels pixels = rasterised(room, "signs-tag-en-letter.pdf", page, kDpi);
    ASSERT_EQ(pixels.width, pixel(kSheet));
    const auto first_dark = [&](double from, double to, auto at) {  // mm, along a line; -1: none
      const int step = from < to ? 1 : -1;
      for (int i = pixel(from); i != pixel(to); i += step)
        if (at(i) < kDark) return i * 25.4 / kDpi;
      return -1.0;
    };
    // Upright marks over the first row: at every edge of the three columns, 4 mm long, 1 mm outside the bleed.
    const double mark_middle = kTop - kBleed - 1 - 2;
    for (int column = 0; column < 3; ++column)
      for (const double edge : {0.0, kWidth}) {
        const double x = kLeft + column * (kWidth + 2 * kBleed) + edge;
        EXPECT_NEAR(first_dark(x - 1, x + 1, [&](int i) { return pixels.at(i, pixel(mark_middle)); }), x, kWithin) << "page " << page;
      }
    EXPECT_EQ(first_dark(kLeft + 1, kLeft + kWidth - 1, [&](int i) { return pixels.at(i, pixel(mark_middle)); }), -1) << "nothing but marks there";
    EXPECT_NEAR(first_dark(kTop - kBleed - 7, kTop - kBleed - 0.2, [&](int i) { return pixels.at(pixel(kLeft), i); }), kTop - kBleed - 1 - 4, kWithin);
    // Level marks left of the first column: at the top of the sign.
    EXPECT_NEAR(first_dark(kTop - 1, kTop + 1, [&](int i) { return pixels.at(pixel(kLeft - kBleed - 1 - 2), i); }), kTop, kWithin);
    // The band runs into the bleed on three sides; on the back it lies mirrored.
    const double band_left = page == 1 ? kLeft - kBleed : kSheet - kLeft - kWidth - kBleed, band_row = kTop - 1;
    EXPECT_NEAR(first_dark(band_left - 2.5, band_left + 5, [&](int i) { return pixels.at(i, pixel(band_row)); }), band_left, kWithin) << "page " << page;
    EXPECT_NEAR(first_dark(band_left + kWidth + 2 * kBleed + 2.5, band_left, [&](int i) { return pixels.at(i, pixel(band_row)); }), band_left + kWidth + 2 * kBleed, kWithin);
    EXPECT_NEAR(first_dark(kTop - kBleed - 0.8, kTop, [&](int i) { return pixels.at(pixel(band_left + 20), i); }), kTop - kBleed, kWithin);
  }
}

TEST(Pdf, WhatDoesNotFitIsNamed) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("pdf_misfits");
  std::string essay;
  for (int i = 0; i < 120; ++i) essay += "a long remark ";
  room.write("stock.csv", "cultivar,notes\nMeiwa,short\nOwari," + essay + "\n");
  const Outcome made = room.run("signs --stock stock.csv --lang en --pdf");
  EXPECT_EQ(made.status, 1);
  EXPECT_TRUE(holds(made.text, "signs-tag-en-letter.pdf: does not fit: line 3, Owari: back")) << made.text;
  EXPECT_FALSE(holds(made.text, "Meiwa:"));
  // A sheet of three pages.
  std::string prose = room.project().read("catalog/prose/en/print/planting/year_1.md");
  for (int i = 0; i < 40; ++i) prose += "- " + essay.substr(0, 200) + "\n";
  room.write("catalog/prose/en/print/planting/year_1.md", prose);
  const Outcome sheet = room.run("handout planting --place gannet_quay --lang en --paper letter --pdf");
  EXPECT_EQ(sheet.status, 1);
  EXPECT_TRUE(holds(sheet.text, "does not fit: \"Planting")) << sheet.text;
}

TEST(Pdf, WithoutABrowserTheHtmlIsThereAndTheMessageSaysWhatToDo) {
  const PrintRoom room("pdf_none");
  const Outcome made = room.run("handout --lang en --paper letter --pdf --browser no-such-browser");
  EXPECT_EQ(made.status, 1);
  EXPECT_TRUE(holds(made.text, "no PDF was made") && holds(made.text, "no-such-browser") && holds(made.text, "print them to PDF")) << made.text;
  EXPECT_TRUE(room.has("which-citrus-en-letter.html"));
  // Named by the environment; a program that is no browser is told from one that is.
  const Outcome wrong = room.shell("TENWINTERS_BROWSER=/bin/true " + std::string(TENWINTERS_BINARY_DIR) + "/tenwinters handout --lang en --paper letter --pdf --templates '" +
                                   TENWINTERS_SOURCE_DIR + "/site-templates' --out out");
  EXPECT_EQ(wrong.status, 1);
  EXPECT_TRUE(holds(wrong.text, "the browser") && holds(wrong.text, "the HTML is written")) << wrong.text;
  // Nothing of its name is run by a shell.
  const Outcome shell = room.run("handout --lang en --paper letter --pdf --browser '/bin/true; touch caught'");
  EXPECT_EQ(shell.status, 1);
  EXPECT_FALSE(std::filesystem::exists(room.project().folder() / "caught"));
}

}  // namespace
}  // namespace tenwinters
