// Work on every core of the machine.
#pragma once

#include <cstddef>
#include <functional>

namespace tenwinters {

// Calls work(0), ..., work(count - 1), each once, in any order and several at the same time; returns when all are
// done. An exception of one of them is thrown on when the others have ended.
void each_in_parallel(std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace tenwinters
