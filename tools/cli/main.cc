#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "cli/commands.h"
#include "lib/utf8.h"
#include "loader/yaml_file.h"

using namespace tenwinters::cli;

namespace {

std::string date_of_today() {
  const std::time_t now = std::time(nullptr);
  char text[16] = {};
  return std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now)) > 0 ? text : "";
}

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) names.push_back(command->get_name());
  return names;
}

// The first word that should have named a command and does not, or "".
std::string stray_word(const std::vector<std::string>& names, int argc, char** argv) {
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word.rfind('-', 0) != 0) return std::find(names.begin(), names.end(), word) == names.end() ? word : "";
    if (word.find('=') == std::string::npos) ++i;  // the options before a command all take a value
  }
  return "";
}

}  // namespace

int main(int argc, char** argv) try {
  Session session;
  session.program = argv[0];
  session.today = date_of_today();

  CLI::App app{"Which citrus to plant here, and will it live: answers from a catalogue and a place's own winters."};
  app.name("tenwinters");
  app.set_version_flag("--version", TENWINTERS_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  app.failure_message(CLI::FailureMessage::help);
  app.add_option("--catalog", session.catalog, "Folder of the catalogue (default: found from here upwards)")->type_name("DIR");
  app.add_option("--office", session.office, "Office file (default: the invented demo office)")->type_name("FILE");
  app.add_option("--lang", session.language, "Language of the answer, such as en or es (default: the office's)")->type_name("CODE");
  app.add_option("--units", session.units, "us or metric (default: the office's)")->check(CLI::IsMember({"us", "metric"}))->type_name("KIND");
  app.add_option("--today", session.today, "Date to take as today, YYYY-MM-DD")
      ->check([](const std::string& date) -> std::string { return tenwinters::is_date(date) ? "" : "found \"" + date + "\", expected a date that exists, as 2026-11-25"; })
      ->type_name("DATE");

  const Command commands(app);
  add_check(commands, session);
  add_rank(commands, session);
  add_ask(commands, session);
  add_explain(commands, session);
  add_key(commands, session);
  add_calendar(commands, session);
  add_climate(commands, session);
  add_night(commands, session);
  add_yard(commands, session);
  add_evidence(commands, session);
  add_new(commands, session);
  add_fmt(commands, session);
  add_export(commands, session);
  add_import(commands, session);
  add_site(commands, session);
  add_handout(commands, session);
  add_signs(commands, session);
  add_manual(commands, session);

  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& asked_for_help) {
    return app.exit(asked_for_help);
  } catch (const CLI::ParseError& error) {
    const std::vector<std::string> names = command_names(app);
    if (const std::string word = stray_word(names, argc, argv); !word.empty()) {
      complain("no command \"" + word + "\"",
               std::string(tenwinters::nearest_name(word, std::vector<std::string_view>(names.begin(), names.end()))));
      fmt::print(stderr, "See `tenwinters --help` for the commands.\n");
      return kMisuse;
    }
    fmt::print(stderr, "tenwinters: {}\nSee `tenwinters --help`, or `tenwinters COMMAND --help` for an example.\n", tenwinters::shown(error.what()));
    return kMisuse;
  }
  return session.run ? session.run() : kMisuse;
} catch (const std::exception& error) {
  std::fprintf(stderr, "tenwinters: unexpected failure: %s\n", tenwinters::shown(error.what()).c_str());
  return kFindings;
}
