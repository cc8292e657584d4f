#include "cli/publish.h"

#include <fmt/core.h>

#include <cstdio>

namespace tenwinters::cli {
namespace fs = std::filesystem;

std::string find_templates(const std::string& given, const std::string& root) {
  if (!given.empty()) return given;
  std::error_code error;
  const fs::path beside = fs::absolute(fs::path(root), error).parent_path() / "site-templates";
  const fs::path relative = fs::relative(beside, error);
  return error || relative.empty() ? beside.string() : relative.string();
}

bool read_templates(const std::string& folder, std::map<std::string, std::string>& files) {
  std::string told;
  const bool read = read_templates(DiskReader(), folder, files, told);
  fmt::print(stderr, "{}", told);
  return read;
}

bool read_templates(const FileReader& disk, const std::string& folder, std::map<std::string, std::string>& files, std::string& told) {
  constexpr std::size_t kLimit = 8u << 20u;
  for (const std::string& sub : template_folders()) {
    const std::string path = sub.empty() ? folder : folder + "/" + sub;
    for (const std::string& name : disk.list(path)) {
      std::string why;
      std::optional<std::string> text = disk.read(path + "/" + name, kLimit, why);
      if (!text) {
        told += complaint(path + "/" + name + ": " + why);
        return false;
      }
      files.emplace(sub.empty() ? name : sub + "/" + name, std::move(*text));
    }
  }
  if (!files.empty()) return true;
  told += complaint("no templates in \"" + folder + "\"; name their folder with --templates");
  return false;
}

int publish(const Rendered& rendered, const std::string& out) {
  std::string told;
  const int status = publish(rendered, out, told);
  fmt::print(stderr, "{}", told);
  return status;
}

int publish(const Rendered& rendered, const std::string& out, std::string& told) {
  for (const Diagnostic& fault : rendered.faults) told += to_text(fault) + "\n";
  if (!rendered.faults.empty()) {
    told += fmt::format("tenwinters: nothing was written, because of {} fault{} above\n", rendered.faults.size(), rendered.faults.size() == 1 ? "" : "s");
    return kFindings;
  }
  if (const std::optional<std::string> failed = write_output(out, rendered.files)) {
    told += complaint(*failed);
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
