// What every command shares: where the catalogue is, whose office, which language.
//
//   Loaded loaded;
//   if (int status = load(session, loaded)) return status;   // faults already printed
//   const Place& place = *find_place(loaded.office, "");     // "" = the office's first
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "lib/files.h"
#include "lib/texts.h"
#include "loader/loader.h"
#include "render/voice.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {
struct Record;
}

namespace tenwinters::cli {

inline constexpr int kDone = 0, kFindings = 1, kMisuse = 2;

struct Session {
  std::string program;       // argv[0], to find the catalogue beside an installed or built program
  std::string catalog;       // folder; "" = found by find_catalog
  std::string office;        // office.yaml; "" = the demo office of the catalogue
  std::string language;      // code; "" = the office's first
  std::string units;         // us, metric; "" = the office's
  std::string today;         // ISO date, for review dates and printed dates
  std::function<int()> run;  // set by the chosen command
};

struct Loaded {
  std::string root;                  // the catalogue's folder
  Catalog catalog;
  Descent descent;
  Guidance guidance;
  Seasons seasons;
  std::vector<Language> languages;
  Office office;                     // places with their winters
  Units units = Units::us;
  std::vector<Diagnostic> warnings;

  // The language asked for, else the office's first.
  [[nodiscard]] const Language& language(const std::string& code) const;
  // How the reader of this session is spoken to.
  [[nodiscard]] Voice voice(const Session& session) const { return {catalog, office, language(session.language), units}; }
};

// Reads catalogue, office and, unless they are not wanted, the records of its places. Prints faults to standard
// error; 0 or the exit status.
enum class Records { read, unread };
[[nodiscard]] int load(const Session& session, Loaded& loaded, Records records = Records::read);

// Records once packed, for whoever loads again and again.
struct PackedRecords {
  struct One {
    std::string text;
    double latitude = 0;
    bool invented = false;
    Winters winters;
    std::vector<Diagnostic> faults;  // warnings among them
  };
  std::map<std::string, One> by_path;
};

// The same by way of `files`; what would be printed goes to `told`. `packed` may be nullptr.
[[nodiscard]] int load(const FileReader& files, const Session& session, Loaded& loaded, Records records, PackedRecords* packed, std::string& told);

// The catalogue's folder: the option, else `catalog` in this folder or above it, else beside the
// program or above it, else the installed one. "" if none.
[[nodiscard]] std::string find_catalog(const Session& session);

// The weather record of one of the office's places. Faults go to `faults`; nothing if it cannot be read.
[[nodiscard]] std::optional<Record> read_office_record(const FileReader& files, const LoadedOffice& office, std::size_t place,
                                                       std::vector<Diagnostic>& faults);

// Fills the winters of an office's places from their records. Faults go to `faults`.
void load_records(const FileReader& files, LoadedOffice& office, std::vector<Diagnostic>& faults, PackedRecords* packed = nullptr);

// The place with this id ("" = the first), or nullptr.
[[nodiscard]] const Place* find_place(const Office& office, const std::string& id);

// "unknown question "sum"; did you mean "sun"?" as it is printed.
[[nodiscard]] std::string complaint(const std::string& what, const std::string& nearest = "");
// The same on standard error.
void complain(const std::string& what, const std::string& nearest = "");

// Wraps to 80 columns with a hanging indent.
[[nodiscard]] std::string wrap(const std::string& text, std::size_t indent);

}  // namespace tenwinters::cli
