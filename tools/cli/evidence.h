// How well the catalogue is founded, in counts and as a reading list.
#pragma once

#include <string>

#include "cli/session.h"
#include "loader/figures.h"

namespace tenwinters::cli {

// Counts of figures by kind and basis, a line a kind.
[[nodiscard]] std::string basis_table(const std::vector<Figure>& figures);

// For `check --evidence`: the counts, the share by basis of the cultivar figures that move rankings in
// `yards` sample yards, and the weak figures that move them most. Prints; 0 or the exit status.
[[nodiscard]] int report_evidence(const Session& session, std::size_t yards, bool json);

}  // namespace tenwinters::cli
