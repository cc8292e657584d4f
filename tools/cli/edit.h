// What the commands share that write into a catalogue.
#pragma once

#include <string>
#include <vector>

namespace tenwinters::cli {

// The YAML files of a catalogue, by path from its folder, sorted; offices and words included.
[[nodiscard]] std::vector<std::string> catalog_files(const std::string& root);

// Writes beside the file and moves it in, so that nobody ever sees half of it. "" or what failed.
[[nodiscard]] std::string write_file(const std::string& path, const std::string& content);

}  // namespace tenwinters::cli
