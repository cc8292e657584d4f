// How long the catalogue takes to load, beside two peers on the same files: reading them and looking at nothing,
// and a general YAML library (yaml-cpp) that builds their trees and checks nothing of what they say.
#include <benchmark/benchmark.h>
#include <yaml-cpp/yaml.h>

#include <filesystem>
#include <string>
#include <vector>

#include "lib/files.h"
#include "loader/loader.h"

namespace tenwinters {
namespace {

const std::string kRoot = std::string(TENWINTERS_SOURCE_DIR) + "/catalog";

// Those that load_catalog reads.
std::vector<std::string> paths(const std::string& ending) {
  std::vector<std::string> found;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(kRoot)) {
    const std::string path = entry.path().string();
    if (entry.is_regular_file() && path.ends_with(ending) && path.find("/offices/") == std::string::npos) found.push_back(path);
  }
  return found;
}

std::string content(const std::string& path) {
  constexpr std::size_t kLimit = 1u << 20u;
  std::string why;
  return DiskReader().read(path, kLimit, why).value_or("");
}

void catalogue_loaded_and_checked(benchmark::State& state) {
  for (auto _ : state) {
    const LoadedCatalog loaded = load_catalog(DiskReader(), kRoot);
    if (!loaded.faults.empty()) state.SkipWithError("the catalogue has faults");
    benchmark::DoNotOptimize(loaded.catalog.cultivars.data());
  }
}

void peer_files_read_only(benchmark::State& state) {
  std::vector<std::string> all = paths(".yaml");
  const std::vector<std::string> prose = paths(".md");
  all.insert(all.end(), prose.begin(), prose.end());
  std::size_t bytes = 0;
  for (auto _ : state) {
    bytes = 0;
    for (const std::string& path : all) bytes += content(path).size();
  }
  state.counters["files"] = static_cast<double>(all.size());
  state.counters["bytes"] = static_cast<double>(bytes);
}

void peer_yaml_cpp_trees_only(benchmark::State& state) {
  const std::vector<std::string> all = paths(".yaml");
  for (auto _ : state)
    for (const std::string& path : all) benchmark::DoNotOptimize(YAML::Load(content(path)));
}

BENCHMARK(catalogue_loaded_and_checked)->Unit(benchmark::kMillisecond);
BENCHMARK(peer_files_read_only)->Unit(benchmark::kMillisecond);
BENCHMARK(peer_yaml_cpp_trees_only)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace tenwinters
