// How tools read and write files; tests use the in-memory twin.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace tenwinters {

class FileReader {
 public:
  virtual ~FileReader() = default;
  // The whole file, or nullopt (missing, a folder, unreadable, or over `limit` bytes: `why` says which).
  [[nodiscard]] virtual std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const = 0;
  // Names (not paths) of the regular files in a folder, sorted; empty if it does not exist.
  [[nodiscard]] virtual std::vector<std::string> list(const std::string& folder) const = 0;
  // Names of the folders in a folder, sorted.
  [[nodiscard]] virtual std::vector<std::string> folders(const std::string& folder) const = 0;
};

class DiskReader final : public FileReader {
 public:
  [[nodiscard]] std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const override;
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override;
  [[nodiscard]] std::vector<std::string> folders(const std::string& folder) const override;
};

class MemoryReader final : public FileReader {
 public:
  std::map<std::string, std::string> files;  // path -> content
  [[nodiscard]] std::optional<std::string> read(const std::string& path, std::size_t limit, std::string& why) const override;
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override;
  [[nodiscard]] std::vector<std::string> folders(const std::string& folder) const override;
};

// A text that its copies share: many pages are held by whoever makes them and by whoever shows them.
class SharedText {
 public:
  SharedText(const char* text) : SharedText(std::string(text)) {}
  SharedText(std::string text = {}) : text_(std::make_shared<const std::string>(std::move(text))) {}
  [[nodiscard]] const std::string& text() const { return *text_; }
  operator const std::string&() const { return *text_; }
  bool operator==(const SharedText& other) const { return text_ == other.text_ || *text_ == *other.text_; }

 private:
  std::shared_ptr<const std::string> text_;
};

// Writes a set of files into `folder` as one step as seen from outside: everything is written aside
// first, then moved in; files of an earlier run (named in the folder's manifest) that are no longer
// wanted are removed, and nothing else is. Files whose bytes did not change are left untouched.
// On failure returns a message that says what to do, and the old output is whole.
struct OutputFile { std::string path; SharedText content; };  // path relative, '/' separated, no ".."
[[nodiscard]] std::optional<std::string> write_output(const std::string& folder, const std::vector<OutputFile>& files);

}  // namespace tenwinters
