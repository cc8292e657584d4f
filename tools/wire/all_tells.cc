#include <iterator>

#include "wire/wire.h"

namespace tenwinters {
namespace {

constexpr Tell kMore[] = {
    {"ranking", 0, [](const Asked& a) {
       return ranking_to_json(advise(a.catalog, a.office, a.place, a.answers, a.replay, a.memo),
                              how_sure(a.catalog, a.office, a.place, a.answers, a.replay, a.memo));
     }},
    {"change", 1, [](const Asked& a) {
       return least_change_to_json(*least_change(a.catalog, a.office, a.place, a.answers, std::string(a.cultivar), a.replay, a.memo));
     }},
    {"comparison", 2, [](const Asked& a) {
       return comparison_to_json(
           *compare(a.catalog, a.office, a.place, a.answers, std::string(a.cultivar), std::string(a.against), a.replay, a.memo));
     }},
};

}  // namespace

std::span<const Tell> all_tells() {
  static const std::vector<Tell> kAll = [] {
    std::vector<Tell> all(picker_tells().begin(), picker_tells().end());
    all.insert(all.end(), std::begin(kMore), std::end(kMore));
    return all;
  }();
  return kAll;
}

}  // namespace tenwinters
