#include "tenwinters/catalog.h"

#include <algorithm>

namespace tenwinters {
namespace {

template <class T>
const T* find_sorted(const std::vector<T>& all, std::string_view id) {
  const auto at = std::lower_bound(all.begin(), all.end(), id, [](const T& one, std::string_view wanted) { return one.id < wanted; });
  return at != all.end() && at->id == id ? &*at : nullptr;
}

}  // namespace

const CitrusType* find_type(const Catalog& catalog, std::string_view id) { return find_sorted(catalog.types, id); }
const Cultivar* find_cultivar(const Catalog& catalog, std::string_view id) { return find_sorted(catalog.cultivars, id); }
const Rootstock* find_rootstock(const Catalog& catalog, std::string_view id) { return find_sorted(catalog.rootstocks, id); }
const Caution* find_caution(const Catalog& catalog, std::string_view id) { return find_sorted(catalog.cautions, id); }
const Protection* find_protection(const Catalog& catalog, std::string_view id) { return find_sorted(catalog.protections, id); }

// Questions stand in the order of the interview, not of their ids.
const Question* find_question(const Catalog& catalog, std::string_view id) {
  for (const Question& question : catalog.questions)
    if (question.id == id) return &question;
  return nullptr;
}

}  // namespace tenwinters
