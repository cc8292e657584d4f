// The whole site, as files in memory: pages of every language of the office, style, fonts, scripts and
// the engine, with links that work from any folder, any host and file://.
//
//   Rendered site = render_site(input);
//   if (site.faults.empty()) write_output(folder, site.files);
#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "lib/descent.h"
#include "lib/diagnostic.h"
#include "lib/files.h"
#include "lib/guidance.h"
#include "lib/texts.h"
#include "render/words_asked.h"
#include "tenwinters/catalog.h"
#include "tenwinters/key.h"
#include "tenwinters/office.h"

namespace tenwinters {

struct SiteInput {
  const Catalog& catalog;
  const Office& office;
  const Descent& descent;
  const std::vector<Language>& languages;    // those of the office are used, in the office's order
  std::map<std::string, std::string> files;  // the folder site-templates: path in it -> bytes
  std::string folder = "site-templates";     // how faults name that folder
  std::string engine;                        // picker.wasm.gz, as it is
  Units units = Units::us;
  Guidance guidance{};                       // common calls and guides
  std::vector<PaperKey> keys{};              // by place, for the print room; empty: no key is printed
  std::string screens_engine{};              // screens.wasm.gz, as it is
  std::string seasons{};                     // as JSON, for that engine
};

struct Rendered {
  std::vector<OutputFile> files;             // sorted by path
  std::vector<Diagnostic> faults;            // any: do not publish
};

// The keys of words that a script names, 'in.quotes'. The script must outlive it.
class NamedWords {
 public:
  explicit NamedWords(std::string_view script);
  // The word, or any of its numbers.
  [[nodiscard]] bool contains(std::string_view key) const;

 private:
  std::unordered_set<std::string_view> quoted_;
};

// True for a word the picker may say: of a section whose keys it puts together itself, or a word of the
// pages (ui.*) that its script names.
[[nodiscard]] bool picker_says(std::string_view key, const NamedWords& script);

// Deterministic: the same input gives the same bytes.
[[nodiscard]] Rendered render_site(const SiteInput& input);

// Texts that stand for all of the input but files, words, prose and the browser engines: `all` must be another text
// whenever any of that is another, `rest` whenever any is that does not come from the files of kinds (types, cultivars).
struct Figures {
  std::string all, rest;
  bool operator==(const Figures&) const = default;
};

class Templates;
struct SharedAssets;
struct Page;
struct YardAdvice;

// Builds a site again and again, and does once what has not changed since: the engine's advice, the packed records,
// the pages' models, and pages as they were printed. The bytes are those of render_site.
class SiteBuilder {
 public:
  SiteBuilder();
  ~SiteBuilder();
  SiteBuilder(const SiteBuilder&) = delete;
  SiteBuilder& operator=(const SiteBuilder&) = delete;

  // Without `figures` nothing is kept.
  [[nodiscard]] Rendered build(const SiteInput& input, const Figures& figures);

  // The pages that are kept, with their models; of page.h.
  [[nodiscard]] const std::vector<Page>& pages() const;

 private:
  struct Kept;
  bool note_changed_figures(const SiteInput& input, const YardAdvice& yards, std::set<std::string>& changed) const;
  void reprint(const std::vector<const Language*>& languages, Templates& templates, const SharedAssets& shared, const std::set<Word>& words, const std::set<Word>& prose);
  std::unique_ptr<Kept> kept_;
};

// The paths in site-templates that render_site and render_handouts read.
[[nodiscard]] const std::vector<std::string>& template_folders();

}  // namespace tenwinters
