#include "wire/wire.h"

#include "wire/json.h"

namespace tenwinters {
namespace {

using wire::Json;

template <class T>
std::optional<T> read(std::string_view text) {
  const Json json = wire::from_text(text);
  T value;
  if (json.is_discarded() || !wire::Reader::read(json, value)) return std::nullopt;
  return value;
}

}  // namespace

std::string catalog_to_json(const Catalog& catalog) { return wire::to_text(wire::Writer::write(catalog)); }
std::optional<Catalog> catalog_from_json(std::string_view text) { return read<Catalog>(text); }
std::string office_to_json(const Office& office) { return wire::to_text(wire::Writer::write(office)); }
std::optional<Office> office_from_json(std::string_view text) { return read<Office>(text); }

}  // namespace tenwinters
