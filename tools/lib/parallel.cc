#include "lib/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace tenwinters {

void each_in_parallel(std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next = 0;
  std::mutex held;
  std::exception_ptr failed;  // guarded by `held`
  const auto take_turns = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(held);
        if (!failed) failed = std::current_exception();
      }
    }
  };
  std::vector<std::thread> others;
  const std::size_t lanes = std::min<std::size_t>(count, std::max(1u, std::thread::hardware_concurrency()));
  for (std::size_t i = 1; i < lanes; ++i) others.emplace_back(take_turns);
  take_turns();
  for (std::thread& other : others) other.join();
  if (failed) std::rethrow_exception(failed);
}

}  // namespace tenwinters
