// Tables by somebody who means harm, or whose spreadsheet does: text stays text down to the PDF, what does not fit is
// named, and nothing turns or hides what is printed.
#include "paper.h"

namespace tenwinters {
namespace {

using testing::count_of;
using testing::holds;
using testing::Outcome;
using testing::PrintRoom;

constexpr const char* kStock =
    "cultivar,pot size,price,notes\n"
    "owari,<b>5 gal</b>,$1<script>,\"<script>alarm()</script> & <img src=x onerror=alarm()>\"\n"
    "meyer,\xE2\x80\xAE" "5 gal,=1+1,\"=HYPERLINK(\"\"https://evil.invalid\"\")\"\n"
    "meiwa,{{title}},{{{ui}}},{{#places}}{{> head}} [press](javascript:alarm())\n"
    "seville,5 gal\xE2\x81\xA6,$9,&lt;b&gt; \x07' \"\" --\n";

TEST(Hostile, StockStaysTextOnSignsAndInTheirPdf) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("hostile_stock");
  room.write("stock.csv", kStock);
  const Outcome made = room.run("signs --stock stock.csv --format tag --format bench --pdf");
  EXPECT_EQ(made.status, 0) << made.text;
  // Hidden characters are told, by line and column, and left out.
  EXPECT_TRUE(holds(made.text, "stock.csv:3:7: warning: found the hidden character \"\\u202E\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:5:14: warning: found the hidden character \"\\u2066\"")) << made.text;
  EXPECT_TRUE(holds(made.text, "stock.csv:5:31: warning: found the hidden character \"\\x07\"")) << made.text;
  std::string all;
  for (const std::string format : {"tag", "bench"}) {
    const std::string stem = "signs-" + format + "-en-letter", html = room.read(stem + ".html");
    for (const char* never : {"<script>", "<img", "<b>5 gal</b>", "href=\"javascript", "\xE2\x80\xAE", "\xE2\x81\xA6", "\x07"})
      EXPECT_FALSE(holds(html, never)) << stem << ": " << never;
    all += room.shell("pdftotext -raw 'out/" + stem + ".pdf' - | tr '\\n' ' '").text;
    EXPECT_FALSE(holds(room.shell("grep -a -c /JavaScript 'out/" + stem + ".pdf'").text, "1"));
    EXPECT_EQ(room.shell("grep -a -o 'evil.invalid)' 'out/" + stem + ".pdf'").text, "") << "no link was made";
  }
  for (const char* as_written : {"<b>5 gal</b>", "$1<script>", "<script>alarm()</script> & <img src=x onerror=alarm()>", "=1+1", "=HYPERLINK(\"https://evil.invalid\")",
                                 "{{title}}", "{{{ui}}}", "{{#places}}{{> head}} [press]", "&lt;b&gt;"})
    EXPECT_TRUE(holds(all, as_written)) << as_written << "\n" << all;
}

TEST(Hostile, AWordTooLongForItsSignIsNamed) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("hostile_long");
  const std::string word(300, 'W');
  room.write("stock.csv", "cultivar,pot size,price,notes\nowari,5 gal,$9,\nnagami," + word + "," + word + "," + word + "\n");
  const Outcome made = room.run("signs --stock stock.csv --pdf");
  EXPECT_EQ(made.status, 1);
  EXPECT_TRUE(holds(made.text, "does not fit: line 3, Nagami: front")) << made.text;
  EXPECT_FALSE(holds(made.text, "line 2, Owari")) << made.text;
}

TEST(Hostile, NamesOfCallersStayText) {
  SKIP_WITHOUT_BROWSER();
  const PrintRoom room("hostile_callers");
  const std::string word(300, 'W');
  room.write("callers.csv", "name,place\n<script>alarm()</script>,gannet_quay\n\xE2\x80\xAE" "evil,gannet_quay\n{{title}} =1+1,gannet_quay\n" + word + ",gannet_quay\n");
  const Outcome made = room.run("handout --batch callers.csv --lang en --paper letter --pdf");
  EXPECT_EQ(made.status, 1) << "the last is too wide";
  EXPECT_TRUE(holds(made.text, "your-yard-4-en-letter.pdf: does not fit")) << made.text;
  EXPECT_EQ(count_of(made.text, "does not fit"), 1) << made.text;
  EXPECT_TRUE(holds(made.text, "callers.csv:3:1: warning: found the hidden character")) << made.text;
  const auto text = [&](int number) { return room.shell("pdftotext -raw out/your-yard-" + std::to_string(number) + "-en-letter.pdf - | tr '\\n' ' '").text; };
  EXPECT_TRUE(holds(text(1), "<script>alarm() </script>")) << text(1);  // broken over a line
  EXPECT_TRUE(holds(text(2), "evil"));
  EXPECT_FALSE(holds(text(2), "\xE2\x80\xAE"));
  EXPECT_TRUE(holds(text(3), "{{title}} =1+1"));
  EXPECT_FALSE(holds(room.read("your-yard-1-en-letter.html"), "<script>alarm"));
}

}  // namespace
}  // namespace tenwinters
