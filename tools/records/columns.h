// Which column of a headed table holds what. Private to the records library.
#pragma once

#include <string>
#include <vector>

#include "records/table.h"

namespace tenwinters::records {

struct Columns {
  int date = -1, year = -1, month = -1, day = -1, day_of_year = -1, hour = -1;
  int min = -1, max = -1, min_flags = -1, max_flags = -1;
  int element = -1, value = -1, flags = -1;  // one reading a line
  int temperature = -1;                      // hourly
  int station = -1, latitude = -1;
  bool attributes = false;  // flags are "measure,quality,source", else the quality flag itself
  RecordUnit unit = RecordUnit::infer;

  [[nodiscard]] bool dated() const {
    return date >= 0 || (year >= 0 && ((month >= 0 && day >= 0) || day_of_year >= 0));
  }
  [[nodiscard]] bool wide() const { return dated() && min >= 0 && max >= 0; }
  [[nodiscard]] bool by_element() const { return dated() && element >= 0 && value >= 0; }
  [[nodiscard]] bool hourly() const { return dated() && temperature >= 0 && min < 0 && max < 0; }
  [[nodiscard]] int last() const;  // the rightmost column a line must have
};
[[nodiscard]] Columns find_columns(const std::vector<Cell>& headings);

// The header of a file: the first line, after comments and any preamble, that names enough columns.
struct Header {
  int line = 0;  // 0 = none found
  char separator = ',';
  Columns columns;
  std::string first_cell;  // to know the header again when files were joined
};
[[nodiscard]] Header find_header(std::string_view text);

}  // namespace tenwinters::records
