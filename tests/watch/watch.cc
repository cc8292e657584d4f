// An edit is shown, a fault is told, nothing leads out, and it ends when it is told to.
#include "watch/run.h"

namespace tenwinters {
namespace {

using namespace testing;

constexpr const char* kPage = "/en/index.html";
constexpr const char* kWords = "catalog/words/en.yaml";
constexpr const char* kTitle = "site_title: \"Which citrus for your yard";

TEST(Watch, ShowsAnEditedWordAndTellsAFault) {
  Watched watch("watch_word");
  ASSERT_TRUE(watch.start());
  ASSERT_TRUE(wait_until([&] { return watch.shows(kPage, "Which citrus for your yard"); })) << watch.log();
  watch.edit(kWords, kTitle, "site_title: \"Which citrus for this yard");
  EXPECT_TRUE(wait_until([&] { return watch.shows(kPage, "Which citrus for this yard"); })) << watch.log();
  ASSERT_TRUE(watch.wait_for_build(2));
  EXPECT_NE(watch.project().read("out/en/index.html").find("Which citrus for this yard"), std::string::npos);

  const std::string state = watch.ask("/.live/state");
  EXPECT_NE(state.find("\"faults\":\"\""), std::string::npos) << state;
  watch.edit(kWords, "site_title: \"Which", "site_title: \"{ Which");
  EXPECT_TRUE(wait_until([&] { return watch.ask("/.live/state").find("catalog/words/en.yaml:") != std::string::npos; })) << watch.log();
  EXPECT_NE(watch.log().find("catalog/words/en.yaml:"), std::string::npos) << "told in the terminal too";
  EXPECT_TRUE(watch.shows(kPage, "Which citrus for this yard")) << "the old pages stay";
  EXPECT_NE(watch.project().read("out/en/index.html").find("Which citrus for this yard"), std::string::npos);

  watch.edit(kWords, "site_title: \"{ Which citrus for this", "site_title: \"Which citrus for another");
  EXPECT_TRUE(wait_until([&] { return watch.shows(kPage, "Which citrus for another yard"); })) << watch.log();
  EXPECT_NE(watch.ask("/.live/state").find("\"faults\":\"\""), std::string::npos) << "the fault is mended";
}

TEST(Watch, AFaultInATemplateIsToldAndMended) {
  Watched watch("watch_template");
  ASSERT_TRUE(watch.start());
  ASSERT_TRUE(watch.wait_for_build(1));
  watch.edit("site-templates/home.mustache", "<h1", "{{no_such_name}}<h1");
  EXPECT_TRUE(wait_until([&] { return watch.ask("/.live/state").find("site-templates/home.mustache:") != std::string::npos; })) << watch.log();
  watch.edit("site-templates/home.mustache", "{{no_such_name}}<h1", "<p>Mended</p><h1");
  EXPECT_TRUE(wait_until([&] { return watch.shows(kPage, "<p>Mended</p>"); })) << watch.log();
}

TEST(Watch, BeginsWithABrokenCatalogueAndWaitsForItToBeMended) {
  Watched watch("watch_broken");
  watch.edit(kWords, "site_title: \"Which", "site_title: \"{ Which");
  ASSERT_TRUE(watch.start());
  EXPECT_TRUE(wait_until([&] { return watch.ask(kPage).find("catalog/words/en.yaml:") != std::string::npos; })) << "the faults are the page";
  EXPECT_TRUE(watch.ask(kPage).starts_with("HTTP/1.1 503"));
  EXPECT_FALSE(fs::exists(watch.project().folder() / "out/index.html"));
  watch.edit(kWords, "site_title: \"{ Which", "site_title: \"Which");
  EXPECT_TRUE(wait_until([&] { return watch.shows(kPage, "Which citrus for your yard"); })) << watch.log();
}

TEST(Watch, ServesTheSiteAndNothingElse) {
  Watched watch("watch_paths");
  watch.project().write("secret.txt", "nobody may read this");
  ASSERT_TRUE(watch.start());
  ASSERT_TRUE(watch.wait_for_build(1));
  for (const std::string path : {"/../secret.txt", "/en/../../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/%2e%2e%2fsecret.txt", "/en/%2e%2e/%2e%2e/secret.txt",
                                  "//../secret.txt", "/..\\secret.txt", "/..%5csecret.txt", "/.tenwinters-manifest", "/en", "/assets/", "/.live/", "/.live/../secret.txt",
                                  "/secret.txt%00.html", "../secret.txt", "secret.txt"}) {
    const std::string answer = watch.ask(path);
    EXPECT_FALSE(answer.starts_with("HTTP/1.1 200")) << path << "\n" << answer.substr(0, 300);
    EXPECT_EQ(answer.find("nobody may read this"), std::string::npos) << path;
  }
  EXPECT_TRUE(watch.ask(kPage, "evil.example").starts_with("HTTP/1.1 403")) << "another name that leads here";
  EXPECT_TRUE(watch.ask(kPage, "localhost:8080").starts_with("HTTP/1.1 200"));
  EXPECT_TRUE(watch.ask(kPage, "127.0.0.1", "POST").starts_with("HTTP/1.1 405"));
  const std::string page = watch.ask("/"), style = watch.ask("/.live/page.css"), worker = watch.ask("/worker.js");
  EXPECT_NE(page.find("Content-Type: text/html"), std::string::npos);
  EXPECT_NE(style.find("Content-Type: text/css"), std::string::npos);
  EXPECT_NE(worker.find("unregister"), std::string::npos) << "no service worker keeps old pages";
  // What the server adds is not in the site.
  for (const auto& entry : fs::recursive_directory_iterator(watch.project().folder() / "out"))
    if (entry.is_regular_file()) {
      EXPECT_EQ(file_text(entry.path()).find("/.live/"), std::string::npos) << entry.path();
    }
}

TEST(Watch, EndsOnCtrlC) {
  Watched watch("watch_end");
  ASSERT_TRUE(watch.start());
  ASSERT_TRUE(watch.wait_for_build(1));
  EXPECT_EQ(watch.end(SIGINT), 0);
  EXPECT_NE(watch.log().find("The watch has ended"), std::string::npos) << watch.log();
  EXPECT_EQ(watch.ask("/"), "") << "the port is free again";
}

TEST(Watch, SaysThatAPortIsTaken) {
  Watched watch("watch_port");
  ASSERT_TRUE(watch.start());
  const std::string port = std::to_string(watch.port());
  const Outcome second = watch.project().run("site --out second --watch --port " + port);
  EXPECT_EQ(second.status, 2);
  EXPECT_NE(second.text.find("port " + port + " on 127.0.0.1 cannot be had"), std::string::npos) << second.text;
  EXPECT_NE(second.text.find("--port"), std::string::npos) << "what to do";
  EXPECT_FALSE(fs::exists(watch.project().folder() / "second"));
}

TEST(Watch, MisuseIsSaid) {
  const ProjectCopy project("watch_misuse");
  for (const std::string options : {"--port 8000", "--watch --port 0", "--watch --port 70000", "--watch --port eight", "--watch --base ftp://a/"}) {
    const Outcome outcome = project.run("site --out out " + options);
    EXPECT_EQ(outcome.status, 2) << options << "\n" << outcome.text;
    EXPECT_NE(outcome.text.find(options.find("--base") == std::string::npos ? "port" : "base"), std::string::npos) << options << "\n" << outcome.text;
  }
}

}  // namespace
}  // namespace tenwinters
