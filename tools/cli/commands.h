// The commands of `tenwinters`: one file each (cmd_NAME.cc). add_NAME declares options and leaves in
// Session::run what to do; main parses, runs it, and exits with what it returned:
// 0 done, 1 findings or failure, 2 misuse.
#pragma once

#include "cli/command.h"
#include "cli/session.h"

namespace tenwinters::cli {

void add_check(const Command& app, Session& session);
void add_rank(const Command& app, Session& session);
void add_ask(const Command& app, Session& session);
void add_explain(const Command& app, Session& session);
void add_key(const Command& app, Session& session);
void add_calendar(const Command& app, Session& session);
void add_climate(const Command& app, Session& session);
void add_night(const Command& app, Session& session);
void add_yard(const Command& app, Session& session);
void add_evidence(const Command& app, Session& session);
void add_new(const Command& app, Session& session);
void add_fmt(const Command& app, Session& session);
void add_export(const Command& app, Session& session);
void add_import(const Command& app, Session& session);
void add_site(const Command& app, Session& session);
void add_handout(const Command& app, Session& session);
void add_signs(const Command& app, Session& session);
void add_manual(const Command& app, Session& session);

}  // namespace tenwinters::cli
