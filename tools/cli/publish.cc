#include "cli/publish.h"

#include <fmt/core.h>

#include <cstdio>

namespace tenwinters::cli {
namespace fs = std::filesystem;

std::string find_templates(const std::string& given, const Loaded& loaded) {
  if (!given.empty()) return given;
  std::error_code error;
  const fs::path beside = fs::absolute(fs::path(loaded.root), error).parent_path() / "site-templates";
  const fs::path relative = fs::relative(beside, error);
  return error || relative.empty() ? beside.string() : relative.string();
}

bool read_templates(const std::string& folder, std::map<std::string, std::string>& files) {
  constexpr std::size_t kLimit = 8u << 20u;
  const DiskReader disk;
  for (const std::string& sub : template_folders()) {
    const std::string path = sub.empty() ? folder : folder + "/" + sub;
    for (const std::string& name : disk.list(path)) {
      std::string why;
      std::optional<std::string> text = disk.read(path + "/" + name, kLimit, why);
      if (!text) {
        complain(path + "/" + name + ": " + why);
        return false;
      }
      files.emplace(sub.empty() ? name : sub + "/" + name, std::move(*text));
    }
  }
  if (!files.empty()) return true;
  complain("no templates in \"" + folder + "\"; name their folder with --templates");
  return false;
}

int publish(const Rendered& rendered, const std::string& out) {
  for (const Diagnostic& fault : rendered.faults) fmt::print(stderr, "{}\n", to_text(fault));
  if (!rendered.faults.empty()) {
    fmt::print(stderr, "tenwinters: nothing was written, because of {} fault{} above\n", rendered.faults.size(),
               rendered.faults.size() == 1 ? "" : "s");
    return kFindings;
  }
  if (const std::optional<std::string> failed = write_output(out, rendered.files)) {
    complain(*failed);
    return kFindings;
  }
  return kDone;
}

std::string find_engine(const std::string& name, const Session& session) {
  std::error_code error;
  const fs::path link = fs::read_symlink("/proc/self/exe", error);
  const fs::path folder = (error ? fs::path(session.program) : link).parent_path();
  const fs::path installed = folder.parent_path() / "share" / "tenwinters" / name;
  return !fs::exists(folder / name, error) && fs::exists(installed, error) ? installed.string() : (folder / name).string();
}

}  // namespace tenwinters::cli
