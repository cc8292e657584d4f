// Loaded before the C library: counts the calls that change a disk, and at one of them kills the process or lets the
// call fail. TENWINTERS_TRIP_AT=N chooses the call, TENWINTERS_TRIP=kill or the number of an error.
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

// True if this call must fail.
bool trips() {
  static int calls = 0;
  const char* at = std::getenv("TENWINTERS_TRIP_AT");
  const char* how = std::getenv("TENWINTERS_TRIP");
  if (at == nullptr || how == nullptr || ++calls != std::atoi(at)) return false;
  if (std::strcmp(how, "kill") == 0) ::raise(SIGKILL);
  errno = std::atoi(how);
  return true;
}

template <class Call>
Call* next(const char* name) {
  return reinterpret_cast<Call*>(::dlsym(RTLD_NEXT, name));
}

}  // namespace

#define TRIP(result, name, bad, parameters, arguments)                        \
  extern "C" result name parameters {                                         \
    if (trips()) return bad;                                                  \
    static const auto real = next<result parameters>(#name);                  \
    return real arguments;                                                    \
  }

TRIP(int, rename, -1, (const char* from, const char* to), (from, to))
TRIP(int, link, -1, (const char* from, const char* to), (from, to))
TRIP(int, mkdir, -1, (const char* path, mode_t mode), (path, mode))
TRIP(int, rmdir, -1, (const char* path), (path))
TRIP(int, remove, -1, (const char* path), (path))
TRIP(int, unlink, -1, (const char* path), (path))
TRIP(int, unlinkat, -1, (int folder, const char* path, int flags), (folder, path, flags))
TRIP(ssize_t, write, -1, (int to, const void* data, size_t size), (to, data, size))
TRIP(ssize_t, writev, -1, (int to, const struct iovec* parts, int count), (to, parts, count))
TRIP(FILE*, fopen64, nullptr, (const char* path, const char* mode), (path, mode))
TRIP(int, fclose, -1, (FILE * file), (file))
