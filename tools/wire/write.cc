#include "wire/write.h"

#include "wire/wire.h"

namespace tenwinters {
namespace {

using wire::Json;

std::string to_text(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

}  // namespace

std::string catalog_to_json(const Catalog& catalog) {
  Json json = wire::Writer::write(catalog);
  // A trait that is its type's is not said again.
  for (std::size_t i = 0; i < catalog.cultivars.size(); ++i) {
    Json& own = json["cultivars"][i]["traits"];
    for (const Json& type : json["types"]) {
      if (type["id"] != catalog.cultivars[i].type) continue;
      for (const auto& [name, value] : type["traits"].items())
        if (own[name] == value) own.erase(name);
    }
  }
  return to_text(json);
}

std::string office_to_json(const Office& office) { return to_text(wire::Writer::write(office)); }
std::string winters_to_json(const Winters& winters) { return to_text(wire::Writer::write(winters)); }

}  // namespace tenwinters
