// Stock lists and tables of callers, with all that spreadsheets and people do to them: a clear message, nothing lost.
#include "lib/csv.h"
#include "paper.h"

namespace tenwinters {
namespace {

using testing::count_of;
using testing::holds;
using testing::Outcome;
using testing::PrintRoom;

TEST(Csv, CellsKeepTheirTextAndTheirPlace) {
  const CsvTable table = read_csv("\xEF\xBB\xBF" "a,b\r\n\r\n\"x, \"\"y\"\"\r\nz\",=1+1\r\n");
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_EQ(table.rows[1], (CsvRow{"x, \"y\"\r\nz", "=1+1"}));
  EXPECT_EQ(table.spots[1][0].line, 3);
  EXPECT_EQ(table.spots[1][1].line, 4);
  EXPECT_EQ(table.spots[1][1].column, 4);
  EXPECT_EQ(read_csv("a,\"b\nc").unclosed_line, 1);
  EXPECT_EQ(read_csv("a\rb\r").rows.size(), 2u);
  EXPECT_EQ(csv_separator("a;b\n1,2"), ';');
  EXPECT_EQ(csv_separator("a\tb"), '\t');
  EXPECT_EQ(csv_separator("a;b,c"), ',');
}

Outcome signs(const PrintRoom& room, const std::string& csv, const std::string& options = "") {
  room.write("stock.csv", csv);
  return room.run("signs --stock stock.csv " + options);
}
constexpr const char* kTags = "signs-tag-en-letter.html";

TEST(Stock, NamesColumnsAndRowsAsPeopleWriteThem) {
  const PrintRoom room("stock_names");
  const Outcome made = signs(room, "Variety,Root Stock,Container,Retail,Qty,Remarks\n"
                                   "owari,Carrizo,5 gal,$39.95,3,ask us\n"          // id, stock by first name
                                   "Satsuma OWARI,,,,,\n"                            // kind before the name
                                   "Dwarf Nagami Kumquat tree,flying dragon,,,,\n"   // what a list adds to a name
                                   "Meyer lemon,,,,,\n"                              // a synonym
                                   "naranjo,,,,,\n");                                // unknown
  EXPECT_EQ(made.status, 1) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:6:1: found \"naranjo\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "1 of 5 rows left out")) << made.text;
  const std::string html = room.read(kTags);
  EXPECT_EQ(count_of(html, "<h2>Owari</h2>"), 2);
  EXPECT_EQ(count_of(html, "<h2>Nagami</h2>"), 1);
  EXPECT_EQ(count_of(html, "<h2>Improved Meyer</h2>"), 1);
  EXPECT_TRUE(holds(html, "on Carrizo")) << "the stock is named";
  EXPECT_TRUE(holds(html, "<b>$39.95</b><span>5 gal</span>"));
}

TEST(Stock, SpanishListsWithSemicolonsAreRead) {
  const PrintRoom room("stock_spanish");
  const Outcome made = signs(room, "Variedad;Patr\xC3\xB3n;Tama\xC3\xB1o de maceta;Precio;Cantidad\nOwari;Swingle;20 L;39,95 $;2\n", "--lang es --paper a4");
  EXPECT_EQ(made.status, 0) << made.text;
  EXPECT_TRUE(holds(room.read("signs-tag-es-a4.html"), "<b>39,95 $</b><span>20 L</span>"));
}

TEST(Stock, SlipsAreToldWithLineColumnAndNearestName) {
  const PrintRoom room("stock_slips");
  const Outcome made = signs(room, "cultivar,rootstock,quantity\nMinneloa,,\nOwari,swingel,\nsatsuma,,\nOwari,,many\n,carrizo,\n");
  EXPECT_EQ(made.status, 1);
  EXPECT_TRUE(holds(made.text, "stock.csv:2:1: found \"Minneloa\", which the catalogue does not have; did you mean \"minneola\"?")) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:3:7: found rootstock \"swingel\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "did you mean \"swingle\"?"));
  EXPECT_TRUE(holds(made.text, "stock.csv:4:1: \"satsuma\" is a kind; name its cultivar, one of ")) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:5:8: warning: found quantity \"many\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:6:1: no cultivar is named")) << made.text;
  EXPECT_EQ(count_of(room.read(kTags), "<h2>"), 1);
}

TEST(Stock, StrictMakesNothing) {
  const PrintRoom room("stock_strict");
  EXPECT_EQ(signs(room, "cultivar\nOwari\nOwri\n", "--strict").status, 1);
  EXPECT_FALSE(room.has(kTags));
  EXPECT_EQ(signs(room, "cultivar\nOwari\n", "--strict").status, 0);
  EXPECT_TRUE(room.has(kTags));
}

TEST(Stock, CellsThatLookLikeFormulasOrPagesAreText) {
  const PrintRoom room("stock_formulas");
  const Outcome made = signs(room, "cultivar,price,notes\nOwari,=2*3,\"=HYPERLINK(\"\"http://x\"\")\nsecond line\"\nMeiwa,@SUM(A1),<b>&amp;\n");
  EXPECT_EQ(made.status, 0) << made.text;
  const std::string html = room.read(kTags);
  EXPECT_TRUE(holds(html, "<b>=2*3</b>"));
  EXPECT_TRUE(holds(html, "=HYPERLINK(&quot;http://x&quot;)\nsecond line"));
  EXPECT_TRUE(holds(html, "&lt;b&gt;&amp;amp;"));
}

TEST(Stock, FilesThatAreNoTablesAreRefused) {
  const PrintRoom room("stock_refused");
  struct Case { const char *csv, *says; };
  for (const Case& bad : {Case{"price,quantity\n1,2\n", "no column \"cultivar\""},
                          Case{"cultivra,price\nOwari,1\n", "did you mean \"cultivar\"?"},
                          Case{"cultivar,price\n\"Owari,1\n", "the quote that opens in this line is never closed"},
                          Case{"cultivar,variety\nOwari,Owari\n", "stock.csv:1:10: the column \"cultivar\" stands here a second time"},
                          Case{"cultivar\nNaranja Espa\xF1ola\n", "stock.csv:2:13: found a byte that is not UTF-8"},
                          Case{"\xFF\xFE" "c", "not plain text in UTF-8"},
                          Case{"", "the file is empty"},
                          Case{"cultivar\n", "no row that a sign can be made of"},
                          Case{"cultivar\nOwri\n", "no row that a sign can be made of"}}) {
    const Outcome made = signs(room, bad.csv);
    EXPECT_EQ(made.status, 1) << bad.csv;
    EXPECT_TRUE(holds(made.text, bad.says)) << made.text;
    EXPECT_FALSE(room.has(kTags)) << bad.csv;
  }
  EXPECT_EQ(room.run("signs --stock catalog").status, 2);
  EXPECT_EQ(room.run("signs --stock nothing.csv").status, 2);
  EXPECT_EQ(signs(room, "cultivar\nOwari\n", "--format poster").status, 2);
  EXPECT_EQ(signs(room, "cultivar\nOwari\n", "--place gannet_key").status, 2);
  EXPECT_EQ(signs(room, "cultivar\nOwari\n", "--bleed 11").status, 2);
  const Outcome tight = signs(room, "cultivar\nOwari\n", "--format aisle --bleed 3");
  EXPECT_EQ(tight.status, 1);
  EXPECT_TRUE(holds(tight.text, "does not fit on letter")) << tight.text;
}

TEST(Stock, ATargetThatCannotBeWrittenLosesNothing) {
  const PrintRoom room("stock_target");
  room.write("stock.csv", "cultivar\nOwari\n");
  room.write("taken", "a file, not a folder");
  const Outcome made = room.project().run("signs --stock stock.csv --templates '" + std::string(TENWINTERS_SOURCE_DIR) + "/site-templates' --out taken/here");
  EXPECT_EQ(made.status, 1) << made.text;
  EXPECT_TRUE(holds(made.text, "taken")) << made.text;
  EXPECT_EQ(room.project().read("taken"), "a file, not a folder");
}

TEST(Stock, TenThousandRowsAreAllThere) {
  const PrintRoom room("stock_many");
  std::string csv = "cultivar,price\n";
  constexpr int kRows = 10000;
  for (int i = 0; i < kRows; ++i) csv += std::string(i % 2 == 0 ? "Owari" : "Meiwa") + ",$" + std::to_string(10000 + i) + "\n";
  const Outcome made = signs(room, csv);
  EXPECT_EQ(made.status, 0) << made.text.substr(0, 500);
  int found = 0, row = 0;
  for (int document = 1; document <= 17; ++document) {
    char number[8];
    std::snprintf(number, sizeof number, "%02d", document);
    const std::string html = room.read("signs-tag-en-letter-" + std::string(number) + ".html");
    found += count_of(html, "<h2>");
    // In the order of the list, each with its own price.
    std::size_t at = 0;
    for (; row < found; ++row) {
      at = html.find("<b>$" + std::to_string(10000 + row) + "</b>", at);
      ASSERT_NE(at, std::string::npos) << "row " << row;
    }
  }
  EXPECT_EQ(found, kRows);
}

TEST(Stock, ASignForEveryPlantIfAsked) {
  const PrintRoom room("stock_each");
  EXPECT_EQ(signs(room, "cultivar,quantity\nOwari,3\nMeiwa,2\n", "--each").status, 0);
  EXPECT_EQ(count_of(room.read(kTags), "<h2>Owari</h2>"), 3);
  EXPECT_EQ(count_of(room.read(kTags), "<h2>Meiwa</h2>"), 2);
}

TEST(Signs, SayWhatTheTreeDoesHereAndWhatTheRuleSays) {
  const PrintRoom room("signs_say");
  EXPECT_EQ(signs(room, "cultivar\nOwari\nFinger lime\nMinneola\n", "--place gannet_quay").status, 0);
  const std::string html = room.read(kTags);
  const std::string owari = html.substr(html.find("<h2>Owari"), html.find("<h2>Finger lime") - html.find("<h2>Owari"));
  EXPECT_TRUE(holds(owari, "<dt>Freezes</dt>") && holds(owari, "<dt>Ripe</dt>") && holds(owari, "<dt>Grown</dt>") && holds(owari, "<dt>In a pot</dt>"));
  EXPECT_TRUE(holds(owari, "sets fruit alone"));
  EXPECT_FALSE(holds(owari, "class=\"law\""));
  const std::string lime = html.substr(html.find("<h2>Finger lime"), html.find("<h2>Minneola") - html.find("<h2>Finger lime"));
  EXPECT_TRUE(holds(lime, "class=\"law\"") && holds(lime, "Quillback County Code 0-00 (invented)")) << lime;
  EXPECT_TRUE(holds(html.substr(html.find("<h2>Minneola")), "needs another near"));
  EXPECT_FALSE(holds(html, "due for review"));
  // The rule is to be looked at again by 2027-11-25.
  const Outcome later = room.shell(std::string(TENWINTERS_BINARY_DIR) + "/tenwinters --today 2028-01-01 signs --stock stock.csv --templates '" + TENWINTERS_SOURCE_DIR + "/site-templates' --out out");
  EXPECT_EQ(later.status, 0) << later.text;
  EXPECT_TRUE(holds(room.read(kTags), "due for review on 2027-11-25; ask before you rely on it"));
}

TEST(Callers, BatchMakesEverySoundRowAndNamesTheOthers) {
  const PrintRoom room("callers");
  room.write("callers.csv",
             "Name,Place,Sun,Planting,Link\n"
             "Ana,gannet_quay,full,In the ground,\n"
             "Ben,Burdock Hollow (inland),4 to 6 hours,pot_large,\n"
             "Cy,gannet_key,full,ground,\n"
             "Di,,ful,ground,\n"
             "Eve,,,,https://quillback.example/citrus/en/index.html#place=burdock_hollow&sun=full&units=us\n"
             "Flo,,,,https://quillback.example/citrus/en/index.html\n");
  const Outcome made = room.run("handout --batch callers.csv --lang en --paper letter");
  EXPECT_EQ(made.status, 1) << made.text;
  EXPECT_TRUE(holds(made.text, "callers.csv:4:4: found place \"gannet_key\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "did you mean \"gannet_quay\"?"));
  EXPECT_TRUE(holds(made.text, "callers.csv:5:5: found \"ful\" under \"sun\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "callers.csv:7:8: the address holds no answers")) << made.text;
  EXPECT_TRUE(holds(made.text, "3 of 6 callers left out")) << made.text;
  EXPECT_TRUE(holds(room.read("your-yard-1-en-letter.html"), "Citrus for your yard: Ana"));
  EXPECT_TRUE(holds(room.read("your-yard-2-en-letter.html"), "Burdock Hollow (inland)."));
  EXPECT_TRUE(holds(room.read("your-yard-3-en-letter.html"), "Citrus for your yard: Eve"));
  EXPECT_FALSE(room.has("your-yard-4-en-letter.html"));
  EXPECT_EQ(room.run("handout --batch callers.csv --strict").status, 2);
  EXPECT_EQ(room.run("handout --batch callers.csv --answer sun=full").status, 2);
}

TEST(Callers, AnswersFileAndAddressSayTheSame) {
  const PrintRoom room("callers_same");
  room.write("yard.yaml", "place: burdock_hollow\nsun: full\nplanting: ground\n");
  EXPECT_EQ(room.run("handout --answers yard.yaml --lang en --paper letter").status, 0);
  const std::string by_file = room.read("your-yard-en-letter.html");
  EXPECT_EQ(room.run("handout --link 'https://quillback.example/citrus/es/index.html#place=burdock_hollow&sun=full&planting=ground&units=metric' --lang en --paper letter").status, 0);
  EXPECT_EQ(room.read("your-yard-en-letter.html"), by_file);
  EXPECT_EQ(room.run("handout --place burdock_hollow --answer sun=full --answer planting=ground --lang en --paper letter").status, 0);
  EXPECT_EQ(room.read("your-yard-en-letter.html"), by_file);
  EXPECT_EQ(room.run("handout --link 'https://quillback.example/'").status, 2);
  EXPECT_EQ(room.run("handout --link 'https://quillback.example/#sun=ful'").status, 2);
}

}  // namespace
}  // namespace tenwinters
