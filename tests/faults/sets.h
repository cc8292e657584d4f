// Two sets of files, "a" and "b": some stay, some change, come, go, become a folder or stop being one.
#pragma once

#include <string>
#include <vector>

#include "lib/files.h"

namespace tenwinters::testing {

inline std::vector<OutputFile> files_of(const std::string& set) {
  const std::string long_text(20000, set.front());
  std::vector<OutputFile> files = {
      {"index.html", "front " + set}, {"same.html", "same"},        {"en/index.html", "home " + set + long_text},
      {"en/deep/er/page.html", set},  {"assets/style.css", set},    {"assets/same.css", "same"}};
  if (set == "a") files.insert(files.end(), {{"turns", "a file"}, {"stops/one.html", "1"}, {"stops/two.html", "2"}, {"gone/x/y.html", "y"}});
  else files.insert(files.end(), {{"turns/into.html", "a folder"}, {"stops", "a file now"}, {"fresh/z.html", "z"}});
  return files;
}

}  // namespace tenwinters::testing
