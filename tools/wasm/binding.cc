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
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

#include "wire/wire.h"

#define TENWINTERS_EXPORT(name) __attribute__((export_name(#name), visibility("default")))

namespace {

constexpr std::size_t kMostBytes = 32u << 20;

// The page's one engine; a module has one page.
std::optional<tenwinters::Desk>& desk() {
  static std::optional<tenwinters::Desk> the;
  return the;
}
std::string& last_answer() {
  static std::string the;
  return the;
}

// Text given by the page, freed when done with.
class Given {
 public:
  Given(char* at, std::size_t size) : at_(at), size_(at == nullptr ? 0 : size) {}
  ~Given() { std::free(at_); }
  Given(const Given&) = delete;
  Given& operator=(const Given&) = delete;
  [[nodiscard]] std::string_view text() const { return {at_, size_}; }

 private:
  char* at_;
  std::size_t size_;
};

}  // namespace

extern "C" {

// Room for `size` bytes, or null when there is none.
TENWINTERS_EXPORT(tw_alloc) void* tw_alloc(std::size_t size) { return size > kMostBytes ? nullptr : std::malloc(size > 0 ? size : 1); }

TENWINTERS_EXPORT(tw_load) int tw_load(char* catalog, std::size_t catalog_size, char* office, std::size_t office_size) {
  const Given catalog_text(catalog, catalog_size), office_text(office, office_size);
  std::optional<tenwinters::Catalog> read_catalog = tenwinters::catalog_from_json(catalog_text.text());
  std::optional<tenwinters::Office> read_office = tenwinters::office_from_json(office_text.text());
  if (!read_catalog || !read_office) return 0;
  desk().emplace(std::move(*read_catalog), std::move(*read_office), tenwinters::TENWINTERS_TELLS());
  return 1;
}

TENWINTERS_EXPORT(tw_advise) const char* tw_advise(char* request, std::size_t size) {
  const Given text(request, size);
  last_answer() = desk() ? desk()->answer(text.text()) : R"({"error":"load","found":"","nearest":""})";
  return last_answer().data();
}

// Bytes of the last answer.
TENWINTERS_EXPORT(tw_size) std::size_t tw_size() { return last_answer().size(); }

}  // extern "C"
