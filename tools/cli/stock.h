// A nursery's stock list: a table of cultivar, rootstock, pot size, price, quantity and notes, as people write it.
#pragma once

#include <string>
#include <vector>

#include "cli/session.h"
#include "render/signs.h"

namespace tenwinters::cli {

struct Stock {
  std::vector<StockRow> rows;
  std::size_t read = 0;                 // rows of the list
  std::vector<Diagnostic> faults;       // a warning leaves its row in
};

// Faults of rows are returned; a file that is no table is complained of. 0 or the exit status.
[[nodiscard]] int read_stock(const std::string& path, const Loaded& loaded, Stock& stock);

}  // namespace tenwinters::cli
