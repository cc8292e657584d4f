// The page's memory. Blocks come in four sizes to each doubling, and a freed one waits in its size's list for
// the next of that size: an engine that asks for the same sizes over and over needs no more. It is a fifth of
// the C library's own, which a page would have to download, and quicker.
#include <cstddef>
#include <cstdint>
#include <cstring>

extern "C" unsigned char __heap_base;  // where the linker's data ends

namespace {

constexpr std::size_t kPage = 65536;
// Each growth is a call out of the engine, so that room for the replays is taken at once.
constexpr std::size_t kPagesAtOnce = 64, kPagesAtFirst = 384;
constexpr std::size_t kLargest = std::size_t{1} << 30;

struct Block {
  union {
    std::uint32_t list;  // while in use
    Block* next;         // while free
  };
  std::uint32_t unused;  // what follows is aligned to 8
};
static_assert(sizeof(Block) == 8);

Block* freed[31 * 4];
std::uintptr_t top = 0, end = 0;

// The list of blocks that hold `bytes` with their head, and how large they are.
struct Size { std::uint32_t list; std::size_t bytes; };
Size size_for(std::size_t bytes) {
  const std::size_t wanted = bytes + sizeof(Block) < 16 ? 16 : bytes + sizeof(Block);
  const unsigned doubling = 32u - static_cast<unsigned>(__builtin_clzl(wanted - 1));  // 2^(doubling-1) < wanted <= 2^doubling
  const std::size_t quarter = std::size_t{1} << (doubling - 3), step = (wanted - 1) / quarter % 4;
  return {static_cast<std::uint32_t>((doubling - 1) * 4 + step), (4 + step + 1) * quarter};
}

bool grow(std::size_t bytes) {
  if (end == 0) top = end = (reinterpret_cast<std::uintptr_t>(&__heap_base) + 7) & ~std::uintptr_t{7};
  const std::uintptr_t have = __builtin_wasm_memory_size(0) * kPage;
  if (top + bytes > have) {
    const std::size_t needed = (top + bytes - have + kPage - 1) / kPage, usual = end == top ? kPagesAtFirst : kPagesAtOnce;
    if (__builtin_wasm_memory_grow(0, needed > usual ? needed : usual) == static_cast<std::size_t>(-1) &&
        __builtin_wasm_memory_grow(0, needed) == static_cast<std::size_t>(-1))
      return false;
  }
  end = __builtin_wasm_memory_size(0) * kPage;
  return true;
}

}  // namespace

extern "C" {

__attribute__((no_builtin)) void* malloc(std::size_t bytes) {
  if (bytes > kLargest) return nullptr;
  const Size size = size_for(bytes);
  Block* block = freed[size.list];
  if (block != nullptr) {
    freed[size.list] = block->next;
  } else {
    if (top + size.bytes > end && !grow(size.bytes)) return nullptr;
    block = reinterpret_cast<Block*>(top);
    top += size.bytes;
  }
  block->list = size.list;
  return block + 1;
}

__attribute__((no_builtin)) void free(void* at) {
  if (at == nullptr) return;
  Block* block = static_cast<Block*>(at) - 1;
  const std::uint32_t list = block->list;
  block->next = freed[list];
  freed[list] = block;
}

__attribute__((no_builtin)) void* calloc(std::size_t count, std::size_t bytes) {
  if (bytes != 0 && count > kLargest / bytes) return nullptr;
  void* at = malloc(count * bytes);
  if (at != nullptr) std::memset(at, 0, count * bytes);
  return at;
}

__attribute__((no_builtin)) void* realloc(void* at, std::size_t bytes) {
  if (at == nullptr) return malloc(bytes);
  const std::uint32_t list = (static_cast<Block*>(at) - 1)->list;
  if (bytes <= kLargest && size_for(bytes).list == list) return at;
  void* moved = malloc(bytes);
  if (moved == nullptr) return nullptr;
  const std::size_t held = (std::size_t{5 + list % 4} << (list / 4 - 2)) - sizeof(Block);
  std::memcpy(moved, at, held < bytes ? held : bytes);
  free(at);
  return moved;
}

// Nothing here asks for a coarser alignment than 8.
int posix_memalign(void** at, std::size_t alignment, std::size_t bytes) {
  constexpr int kInvalid = 28;  // EINVAL
  *at = alignment > sizeof(Block) ? nullptr : malloc(bytes);
  return *at == nullptr ? kInvalid : 0;
}

// The C library's own names for them.
void* __libc_malloc(std::size_t bytes) { return malloc(bytes); }
void* __libc_calloc(std::size_t count, std::size_t bytes) { return calloc(count, bytes); }
void __libc_free(void* at) { free(at); }

}  // extern "C"
