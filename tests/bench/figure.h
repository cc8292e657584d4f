// A figure for the table of RESULTS.md: see figures.py.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace tenwinters {

// `ours` beside `beside`, both in `unit`; the less the better. `what` names the peer or the limit.
inline void keep_figure(const char* name, double ours, double beside, const char* unit, const char* what) {
  const char* path = std::getenv("TENWINTERS_FIGURES");
  std::FILE* file = path == nullptr ? nullptr : std::fopen(path, "a");
  if (file == nullptr) return;
  std::fprintf(file, "%s\t%.6g\t%.6g\t%s\t%s\n", name, ours, beside, unit, what);
  std::fclose(file);
}

}  // namespace tenwinters
