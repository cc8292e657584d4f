// What site and handout share: the templates from disk, and writing what was rendered.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "cli/session.h"
#include "render/site.h"

namespace tenwinters::cli {

// The folder of templates: as given, else `site-templates` beside the catalogue's folder, `root`.
[[nodiscard]] std::string find_templates(const std::string& given, const std::string& root);

// Every template, style sheet, font and script. False, with a complaint, when the folder has none.
[[nodiscard]] bool read_templates(const std::string& folder, std::map<std::string, std::string>& files);
// The same by way of `disk`; the complaint goes to `told`.
[[nodiscard]] bool read_templates(const FileReader& disk, const std::string& folder, std::map<std::string, std::string>& files, std::string& told);

// Prints faults, or writes the files into `out`. 0 or the exit status.
[[nodiscard]] int publish(const Rendered& rendered, const std::string& out);
// The same; what would be printed goes to `told`.
[[nodiscard]] int publish(const Rendered& rendered, const std::string& out, std::string& told);

// A browser engine by its file name: beside this program, as it is built, else where it is installed.
[[nodiscard]] std::string find_engine(const std::string& name, const Session& session);

}  // namespace tenwinters::cli
