// What the two engines share of talking to a page: text comes in by tw_alloc, the last answer stays until the next.
// Included once by each engine's binding, for it defines what the page calls.
#pragma once

#include <cstdlib>
#include <string>
#include <string_view>
#include <utility>

#define TENWINTERS_EXPORT(name) __attribute__((export_name(#name), visibility("default")))

namespace tenwinters::page {

inline std::string& last_answer() {
  static std::string the;
  return the;
}
inline const char* tell(std::string answer) {
  last_answer() = std::move(answer);
  return last_answer().data();
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

}  // namespace tenwinters::page

extern "C" {

// Room for `size` bytes, or null when there is none.
TENWINTERS_EXPORT(tw_alloc) void* tw_alloc(std::size_t size) {
  constexpr std::size_t kMostBytes = 32u << 20;
  return size > kMostBytes ? nullptr : std::malloc(size > 0 ? size : 1);
}

// Bytes of the last answer.
TENWINTERS_EXPORT(tw_size) std::size_t tw_size() { return tenwinters::page::last_answer().size(); }

}  // extern "C"
