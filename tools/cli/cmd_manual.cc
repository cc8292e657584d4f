// tenwinters manual: the man page and the shell completion, from the definitions of the commands themselves.
#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "cli/commands.h"

namespace tenwinters::cli {
namespace {

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
  return app.get_subcommands([](const CLI::App* command) { return !command->get_name().empty() && !command->get_group().empty(); });
}

// Those of its groups too, in the order of --help.
std::vector<const CLI::Option*> options_of(const CLI::App& app) {
  std::vector<const CLI::Option*> options = app.get_options([](const CLI::Option* option) { return !option->get_group().empty(); });
  for (const CLI::App* group : app.get_subcommands([](const CLI::App* command) { return command->get_name().empty(); }))
    for (const CLI::Option* option : options_of(*group)) options.push_back(option);
  return options;
}

// Text of a man page: a hyphen is a minus sign, and nothing is read as a request.
std::string roff(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if ((i == 0 || text[i - 1] == '\n') && (c == '.' || c == '\'')) out += "\\&";
    if (c == '\\') out += "\\e";
    else if (c == '-') out += "\\-";
    else out += c;
  }
  return out;
}

std::string option_line(const CLI::Option& option) {
  std::string out = ".TP\n\\fB" + roff(option.get_name(false, true)) + "\\fR";
  if (option.get_expected_max() > 0 && option.get_items_expected_max() > 0 && !option.get_type_name().empty())
    out += " \\fI" + roff(option.get_type_name()) + "\\fR";
  return out + "\n" + roff(option.get_description()) + "\n";
}

std::string footer(const CLI::App& app) {
  const std::string text = app.get_footer();
  return text.empty() ? "" : ".PP\n.nf\n" + roff(text) + "\n.fi\n";
}

std::string man_page(const CLI::App& app) {
  std::string out = ".TH TENWINTERS 1 \"\" \"tenwinters " TENWINTERS_VERSION "\" \"User commands\"\n.SH NAME\ntenwinters \\- which citrus to plant, and will it live\n"
                    ".SH SYNOPSIS\n\\fBtenwinters\\fR [\\fIOPTION\\fR ...] \\fICOMMAND\\fR [\\fIOPTION\\fR ...]\n.SH DESCRIPTION\n" + roff(app.get_description()) +
                    "\n.SH OPTIONS\nBefore or after the command.\n";
  for (const CLI::Option* option : options_of(app)) out += option_line(*option);
  out += ".SH COMMANDS\n";
  for (const CLI::App* command : commands_of(app)) {
    out += ".SS " + roff(command->get_name()) + "\n" + roff(command->get_description()) + ".\n";
    for (const CLI::Option* option : options_of(*command))
      if (option->get_lnames() != std::vector<std::string>{"help"}) out += option_line(*option);
    out += footer(*command);
  }
  return out + ".SH FILES\n.TP\n\\fIshare/tenwinters/schema/COMMAND.json\\fR\nJSON Schema of what the command prints with \\-\\-json.\n.SH EXIT STATUS\n0 done; 1 findings or failure; 2 misuse.\n";
}

std::string long_names(const CLI::App& app) {
  std::string out;
  for (const CLI::Option* option : options_of(app))
    for (const std::string& name : option->get_lnames()) out += (out.empty() ? "--" : " --") + name;
  return out;
}

// For bash: commands first, then the options of the chosen one; else names of files.
std::string completion(const CLI::App& app) {
  std::string names, cases;
  for (const CLI::App* command : commands_of(app)) {
    names += (names.empty() ? "" : " ") + command->get_name();
    cases += "    " + command->get_name() + ") options='" + long_names(*command) + "' ;;\n";
  }
  return "# bash completion for tenwinters\n"
         "_tenwinters() {\n"
         "  local word=${COMP_WORDS[COMP_CWORD]} command= options= each\n"
         "  for each in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
         "    case \" " + names + " \" in *\" $each \"*) command=$each; break ;; esac\n"
         "  done\n"
         "  case \"$command\" in\n" + cases +
         "    *) options='" + names + "' ;;\n"
         "  esac\n"
         "  COMPREPLY=($(compgen -W \"$options " + long_names(app) + "\" -- \"$word\"))\n"
         "}\n"
         "complete -o default -F _tenwinters tenwinters\n";
}

}  // namespace

void add_manual(const Command& app, Session& session) {
  const Command command = app.add_command("manual", "The manual page, or completion for the shell");
  const auto shell = std::make_shared<bool>(false);
  command.add_flag("--completion", *shell, "Completion for bash instead");
  command.footer("Example:\n  tenwinters manual | man -l -\n  source <(tenwinters manual --completion)");
  command.does(session, [app, shell] {
    fmt::print("{}", *shell ? completion(app.app()) : man_page(app.app()));
    return kDone;
  });
}

}  // namespace tenwinters::cli
