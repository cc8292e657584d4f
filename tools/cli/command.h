// What a command takes from the command line, and what it does. CLI11 reads it; its header takes longer to compile than
// most commands do, so only command.cc and the two files that need more of it include that.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace tenwinters::cli {

struct Session;

// An option just declared. A value that does not fit is misuse, told before the command begins.
class Option {
 public:
  explicit Option(CLI::Option& option) : option_(&option) {}
  Option& type_name(const std::string& name);  // of its value, in --help
  Option& required();
  Option& take_all();  // it may be given again and again
  Option& between(int low, int high);
  Option& between(double low, double high);
  Option& one_of(const std::vector<std::string>& words);
  Option& default_in_help();

 private:
  CLI::Option* option_;
};

class Command {
 public:
  explicit Command(CLI::App& app) : app_(&app) {}

  [[nodiscard]] Command add_command(const std::string& name, const std::string& description) const;
  void require_command() const;                // one of those added must be given
  void footer(const std::string& text) const;  // of --help
  // What the program does if this is the command given; `work` returns the exit status.
  void does(Session& session, std::function<int()> work) const;
  // Just one of the options added to what this returns must be given.
  [[nodiscard]] Command one_of(const std::string& group) const;

  // `name`: "--json", or "FILES" for words without dashes. `value` must live until the command has run; it is of a type
  // that command.cc lists.
  template <class Value>
  Option add_option(const std::string& name, Value& value, const std::string& help) const;
  void add_flag(const std::string& name, bool& value, const std::string& help) const;

  [[nodiscard]] const CLI::App& app() const { return *app_; }

 private:
  CLI::App* app_;
};

}  // namespace tenwinters::cli
