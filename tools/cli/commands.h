// The commands of `tenwinters`: one file each (cmd_NAME.cc). add_NAME declares options and leaves in
// Session::run what to do; main parses, runs it, and exits with what it returned:
// 0 done, 1 findings or failure, 2 misuse.
#pragma once

#include <CLI/CLI.hpp>

#include "cli/session.h"

namespace tenwinters::cli {

void add_check(CLI::App& app, Session& session);
void add_rank(CLI::App& app, Session& session);
void add_ask(CLI::App& app, Session& session);
void add_explain(CLI::App& app, Session& session);
void add_key(CLI::App& app, Session& session);
void add_calendar(CLI::App& app, Session& session);
void add_climate(CLI::App& app, Session& session);
void add_night(CLI::App& app, Session& session);
void add_yard(CLI::App& app, Session& session);
void add_evidence(CLI::App& app, Session& session);
void add_new(CLI::App& app, Session& session);
void add_fmt(CLI::App& app, Session& session);
void add_export(CLI::App& app, Session& session);
void add_import(CLI::App& app, Session& session);
void add_site(CLI::App& app, Session& session);
void add_handout(CLI::App& app, Session& session);
void add_signs(CLI::App& app, Session& session);
void add_manual(CLI::App& app, Session& session);

}  // namespace tenwinters::cli
