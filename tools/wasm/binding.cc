// The engine in a page. All text is UTF-8 in linear memory:
//
//   const put = (text) => { const b = new TextEncoder().encode(text), at = e.tw_alloc(b.length);
//                           new Uint8Array(e.memory.buffer, at, b.length).set(b); return [at, b.length]; };
//   e._initialize();
//   e.tw_load(...put(catalogJson), ...put(officeJson));   // 1 = understood, 0 = not
//   const at = e.tw_advise(...put('{"place":"...","answers":{...}}')), size = e.tw_size();
//   const answer = new TextDecoder().decode(new Uint8Array(e.memory.buffer, at, size));
//
// tw_load and tw_advise free what they are given. The answer stays until the next call. No request,
// however wrong, traps; see Desk in wire.h for what it answers.
#include <optional>

#include "draw/draw.h"
#include "wasm/page.h"
#include "wire/wire.h"

namespace {

// The page's one engine; a module has one page.
std::optional<tenwinters::Desk>& desk() {
  static std::optional<tenwinters::Desk> the;
  return the;
}

}  // namespace

extern "C" {

TENWINTERS_EXPORT(tw_load) int tw_load(char* catalog, std::size_t catalog_size, char* office, std::size_t office_size) {
  const tenwinters::page::Given catalog_text(catalog, catalog_size), office_text(office, office_size);
  std::optional<tenwinters::Catalog> read_catalog = tenwinters::catalog_from_json(catalog_text.text());
  std::optional<tenwinters::Office> read_office = tenwinters::office_from_json(office_text.text());
  if (!read_catalog || !read_office) return 0;
  desk().emplace(std::move(*read_catalog), std::move(*read_office), tenwinters::TENWINTERS_TELLS());
  return 1;
}

TENWINTERS_EXPORT(tw_advise) const char* tw_advise(char* request, std::size_t size) {
  const tenwinters::page::Given text(request, size);
  return tenwinters::page::tell(desk() ? desk()->answer(text.text()) : R"({"error":"load","found":"","nearest":""})");
}

// The why bar of the pages, as SVG: draw::why_bar().
TENWINTERS_EXPORT(tw_why_bar) const char* tw_why_bar(int points, int of, int most) { return tenwinters::page::tell(tenwinters::draw::why_bar(points, of, most)); }

}  // extern "C"
