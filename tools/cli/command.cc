#include "cli/command.h"

#include <CLI/CLI.hpp>
#include <optional>
#include <utility>

#include "cli/session.h"

namespace tenwinters::cli {

Option& Option::type_name(const std::string& name) {
  option_->type_name(name);
  return *this;
}

Option& Option::required() {
  option_->required();
  return *this;
}

Option& Option::take_all() {
  option_->take_all();
  return *this;
}

Option& Option::between(int low, int high) {
  option_->check(CLI::Range(low, high));
  return *this;
}

Option& Option::between(double low, double high) {
  option_->check(CLI::Range(low, high));
  return *this;
}

Option& Option::one_of(const std::vector<std::string>& words) {
  option_->check(CLI::IsMember(words));
  return *this;
}

Option& Option::default_in_help() {
  option_->capture_default_str();
  return *this;
}

Command Command::add_command(const std::string& name, const std::string& description) const { return Command(*app_->add_subcommand(name, description)); }

void Command::require_command() const { app_->require_subcommand(1); }

void Command::footer(const std::string& text) const { app_->footer(text); }

void Command::does(Session& session, std::function<int()> work) const {
  app_->callback([&session, work = std::move(work)] { session.run = work; });
}

Command Command::one_of(const std::string& group) const {
  CLI::App* options = app_->add_option_group(group);
  options->require_option(1);
  return Command(*options);
}

template <class Value>
Option Command::add_option(const std::string& name, Value& value, const std::string& help) const {
  return Option(*app_->add_option(name, value, help));
}

template Option Command::add_option(const std::string& name, std::string& value, const std::string& help) const;
template Option Command::add_option(const std::string& name, std::vector<std::string>& value, const std::string& help) const;
template Option Command::add_option(const std::string& name, int& value, const std::string& help) const;
template Option Command::add_option(const std::string& name, double& value, const std::string& help) const;
template Option Command::add_option(const std::string& name, std::optional<double>& value, const std::string& help) const;

void Command::add_flag(const std::string& name, bool& value, const std::string& help) const { app_->add_flag(name, value, help); }

}  // namespace tenwinters::cli
