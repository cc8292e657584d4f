#include <gtest/gtest.h>
#include <zlib.h>

#include "render/assets.h"

namespace tenwinters {
namespace {

// RFC 4648, The Base16, Base32, and Base64 Data Encodings, 2006, section 10.
TEST(Assets, Base64AsPublished) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
  EXPECT_EQ(base64(std::string("\xff\xfe\x00", 3)), "//4A");
}

// RFC 1952, GZIP file format specification version 4.3, 1996, sections 2.2 and 2.3.1: the first bytes, and
// the size of what was packed in the last four.
TEST(Assets, GzipHasNoClockAndCanBeUndone) {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += static_cast<char>(i * i % 251);
  const std::string packed = gzip(text);
  ASSERT_GT(packed.size(), 18U);
  EXPECT_EQ(packed.substr(0, 8), std::string("\x1f\x8b\x08\x00\x00\x00\x00\x00", 8));
  EXPECT_EQ(packed.substr(packed.size() - 4), std::string("\x88\x13\x00\x00", 4));
  std::string undone(text.size() + 1, '?'), in = packed;
  z_stream stream{};
  ASSERT_EQ(inflateInit2(&stream, MAX_WBITS + 16), Z_OK);
  stream.next_in = reinterpret_cast<Bytef*>(in.data());
  stream.avail_in = static_cast<uInt>(in.size());
  stream.next_out = reinterpret_cast<Bytef*>(undone.data());
  stream.avail_out = static_cast<uInt>(undone.size());
  EXPECT_EQ(inflate(&stream, Z_FINISH), Z_STREAM_END);
  undone.resize(stream.total_out);
  inflateEnd(&stream);
  EXPECT_EQ(undone, text);
}

// Collet, xxHash: XXH64 with seed 0 of "" and "a" (memory).
TEST(Assets, HashAsPublished) {
  EXPECT_EQ(content_hash(""), "ef46db3751d8e999");
  EXPECT_EQ(content_hash("a"), "d24ec4f1a98c6e5b");
}

TEST(Assets, ScriptStringsCannotEndTheirScript) {
  EXPECT_EQ(js_string("a\"b\\c\n</script>\x01"), "\"a\\\"b\\\\c\\n\\u003c/script>\\u0001\"");
}

TEST(Assets, ModulesBecomeOneScriptDependenciesFirst) {
  std::vector<Diagnostic> faults;
  const std::string script = bundle_modules({{"main.js", "import {a} from './a.js';\n// said to whoever reads this\na();\n"},
                                             {"a.js", "import {b} from './b.js';\nexport function a() { b; }\n"},
                                             {"b.js", "export const b = 1;\n"}}, "main.js", "js", faults);
  EXPECT_TRUE(faults.empty());
  EXPECT_EQ(script, "(() => {\n'use strict';\nconst b = 1;\nfunction a() { b; }\na();\n})();\n");
}

TEST(Assets, ModulesItCannotJoinAreFaults) {
  const std::vector<std::pair<std::map<std::string, std::string>, std::string>> cases = {
      {{{"main.js", "import {a} from './a.js';\n"}}, "there is no module \"a.js\""},
      {{{"main.js", "import {a} from './a.js';\n"}, {"a.js", "import {m} from './main.js';\n"}},
       "modules import one another in a ring: \"main.js\""},
      {{{"main.js", "import a from 'far-away';\n"}}, "an import must read: import {a, b} from './file.js';"},
      {{{"main.js", "export default 1;\n"}}, "an export must stand before a function, const or class"}};
  for (const auto& [modules, message] : cases) {
    std::vector<Diagnostic> faults;
    (void)bundle_modules(modules, "main.js", "js", faults);
    ASSERT_EQ(faults.size(), 1u) << message;
    EXPECT_EQ(faults[0].message, message);
  }
}

TEST(Assets, StyleSheetsFollowTheirFonts) {
  Assets assets;
  std::vector<Diagnostic> faults;
  const std::string path = assets.add_style("style.css", "a\nb { src: url(fonts/x.woff2) }\nc { src: url(lost.png) }",
                                            {{"fonts/x.woff2", "FONT"}}, "site-templates/assets", faults);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].line, 3);
  ASSERT_EQ(assets.files().size(), 2u);
  EXPECT_EQ(assets.files()[0].path, "assets/fonts/x-" + content_hash("FONT").substr(0, 10) + ".woff2");
  EXPECT_EQ(assets.files()[1].path, path);
  EXPECT_NE(assets.files()[1].content.text().find("url(fonts/x-" + content_hash("FONT").substr(0, 10) + ".woff2)"), std::string::npos);
}

TEST(Assets, StyleSheetsGoOutWithoutCommentsAndIndentation) {
  Assets assets;
  std::vector<Diagnostic> faults;
  (void)assets.add_style("style.css", "/* a\n   b */\np {\n  color: red; /* c */\n\n}\n.n::before { content: \"  \"; }\n", {}, "site-templates/assets", faults);
  EXPECT_TRUE(faults.empty());
  ASSERT_EQ(assets.files().size(), 1u);
  EXPECT_EQ(assets.files()[0].content.text(), "p {\ncolor: red; \n}\n.n::before { content: \"  \"; }\n");
}

}  // namespace
}  // namespace tenwinters
