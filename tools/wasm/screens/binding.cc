// The engine of the pages compare, yard plan, tonight and calendar, in a page. As binding.cc of the picker,
// but that it also takes seasons and words, and answers what screens.h says:
//
//   e.tw_load(...put(catalogJson), ...put(officeJson), ...put(seasonsJson), ...put(wordsJson));   // 1 = understood
//   const at = e.tw_answer(...put('{"screen":"calendar","trees":["owari"]}')), size = e.tw_size();
#include <optional>

#include "screens/screens.h"
#include "wasm/page.h"
#include "wire/wire.h"

namespace {

// The page's one engine; a module has one page.
std::optional<tenwinters::screens::Screens>& screens() {
  static std::optional<tenwinters::screens::Screens> the;
  return the;
}

}  // namespace

extern "C" {

TENWINTERS_EXPORT(tw_load) int tw_load(char* catalog, std::size_t catalog_size, char* office, std::size_t office_size, char* seasons,
                                       std::size_t seasons_size, char* words, std::size_t words_size) {
  const tenwinters::page::Given catalog_text(catalog, catalog_size), office_text(office, office_size), seasons_text(seasons, seasons_size), words_text(words, words_size);
  std::optional<tenwinters::Catalog> read_catalog = tenwinters::catalog_from_json(catalog_text.text());
  std::optional<tenwinters::Office> read_office = tenwinters::office_from_json(office_text.text());
  std::optional<tenwinters::Seasons> read_seasons = tenwinters::screens::seasons_from_json(seasons_text.text());
  std::optional<tenwinters::Language> read_words = tenwinters::screens::words_from_json(words_text.text());
  if (!read_catalog || !read_office || !read_seasons || !read_words) return 0;
  screens().emplace(std::move(*read_catalog), std::move(*read_office), std::move(*read_seasons), std::move(*read_words));
  return 1;
}

TENWINTERS_EXPORT(tw_answer) const char* tw_answer(char* request, std::size_t size) {
  const tenwinters::page::Given text(request, size);
  return tenwinters::page::tell(screens() ? screens()->answer(text.text()) : R"({"error":"load","found":""})");
}

}  // extern "C"
