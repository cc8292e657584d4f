#include <gtest/gtest.h>

#include "render/markup.h"
#include "render/template.h"

namespace tenwinters {
namespace {

Language english() {
  Language language;
  language.code = "en";
  language.words = {{"ui.next", "Next & on"}};
  return language;
}

std::string rendered(Templates& templates, const Model& model) { return templates.render("page.mustache", model, english()); }

TEST(Templates, FillsEscapesAndRepeats) {
  Templates templates({{"page.mustache", "{{title}} {{{raw}}} {{ui.next}}\n{{#rows}}\n  <li>{{name}} of {{title}}</li>\n{{/rows}}\n{{^rows}}none{{/rows}}"}}, "t");
  Model model;
  model["title"] = "<A & 'B'>";
  model["raw"] = "<b>";
  model["rows"].add()["name"] = "x";
  model["rows"].add()["name"] = "y";
  EXPECT_EQ(rendered(templates, model),
            "&lt;A &amp; &#39;B&#39;&gt; <b> Next &amp; on\n<li>x of &lt;A &amp; &#39;B&#39;&gt;</li>\n<li>y of &lt;A &amp; &#39;B&#39;&gt;</li>\n");
  EXPECT_TRUE(templates.faults().empty());
}

TEST(Templates, LinesOfSectionTagsPrintNothingHoweverDeep) {
  Templates templates({{"page.mustache", "{{#rows}}\n  {{#deep}}\n  <b>{{name}}</b>\n  {{/deep}}{{^deep}}\n  -\n  {{/deep}}\n{{/rows}}\nend\n"}}, "t");
  Model model;
  Model& row = model["rows"].add();
  row["deep"] = true;
  row["name"] = "x";
  model["rows"].add()["deep"] = false;
  EXPECT_EQ(rendered(templates, model), "<b>x</b>\n-\nend\n");
  EXPECT_TRUE(templates.faults().empty());
}

TEST(Templates, AMissingNameIsAFaultWithTemplateLineAndName) {
  Templates templates({{"page.mustache", "one\n{{> part}}\n{{titel}}\n"}, {"part.mustache", "\n\n{{#nowhere}}x{{/nowhere}}"}}, "t");
  Model model;
  model["title"] = "A";
  (void)rendered(templates, model);
  ASSERT_EQ(templates.faults().size(), 2u);
  // In the order in which the page meets them: the part stands on line 2.
  EXPECT_EQ(templates.faults()[0].file, "t/part.mustache");
  EXPECT_EQ(templates.faults()[0].line, 3);
  EXPECT_EQ(templates.faults()[0].message, "nothing is called \"nowhere\" (language en)");
  EXPECT_EQ(templates.faults()[1].file, "t/page.mustache");
  EXPECT_EQ(templates.faults()[1].line, 3);
  EXPECT_EQ(templates.faults()[1].message, "nothing is called \"titel\" (language en)");
}

TEST(Templates, AMissingNameInARepeatedRowIsSaidOnce) {
  Templates templates({{"page.mustache", "{{#rows}}{{lost}}{{/rows}}"}}, "t");
  Model model;
  model["rows"].add()["name"] = "x";
  model["rows"].add()["name"] = "y";
  (void)rendered(templates, model);
  EXPECT_EQ(templates.faults().size(), 1u);
}

TEST(Templates, AFlagThatIsFalseIsNotMissing) {
  Templates templates({{"page.mustache", "{{#open}}a{{/open}}{{^open}}b{{/open}}{{^empty}}c{{/empty}}"}}, "t");
  Model model;
  model["open"] = false;
  model["empty"] = Model::list();
  EXPECT_EQ(rendered(templates, model), "bc");
  EXPECT_TRUE(templates.faults().empty());
}

TEST(Templates, BrokenTemplatesAreFaultsNotCrashes) {
  const std::map<std::string, std::string> cases = {
      {"{{#a}}", "\"a\" is opened and not closed"},
      {"{{/a}}", "\"a\" is closed where nothing is open"},
      {"{{#a}}{{#b}}{{/a}}{{/b}}", "\"a\" is closed where \"b\" is open"},
      {"x {{a", "a tag is opened and not closed"},
      {"{{=<% %>=}}", "delimiters may not be changed"},
      {"{{> lost}}", "no such template, included by page.mustache"},
      {"{{> page}}", "the template includes itself"}};
  for (const auto& [text, message] : cases) {
    Templates templates({{"page.mustache", text}}, "t");
    EXPECT_EQ(rendered(templates, Model()), "") << text;
    ASSERT_EQ(templates.faults().size(), 1u) << text;
    EXPECT_EQ(templates.faults()[0].message, message);
  }
}

TEST(Markup, MarkdownLeavesOutHtmlAndUnsafeLinks) {
  const std::string html = markdown_to_html("# A\n\n*b* <script>x</script> [c](javascript:d) [e](f.html)");
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_EQ(html.find("javascript"), std::string::npos);
  EXPECT_NE(html.find("<h3>A</h3>"), std::string::npos);
  EXPECT_NE(html.find("<em>b</em>"), std::string::npos);
  EXPECT_NE(html.find("<a href=\"f.html\">e</a>"), std::string::npos);
}

TEST(Markup, MarkdownShowsHtmlAsTextAndImagesByTheirDescription) {
  EXPECT_EQ(markdown_to_html("a `b <i>c</i> ![d *e*](https://f.invalid/g.png) h"),
            "<p>a `b &lt;i&gt;c&lt;/i&gt; d <em>e</em> h</p>\n");
  EXPECT_EQ(markdown_to_html("<div onclick=\"a\">\n\n![![b](c)](d)"), "<p>&lt;div onclick=&quot;a&quot;&gt;\n</p>\n<p>b</p>\n");
}

TEST(Markup, SlugKeepsOnlyWhatAFragmentMayHold) { EXPECT_EQ(slug("Key lime_2, \"x\""), "Key-lime_2---x-"); }

}  // namespace
}  // namespace tenwinters
