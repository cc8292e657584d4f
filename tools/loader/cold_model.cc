// cold_model.yaml: the constants of the cold model, each of them once.
#include "loader/reading.h"

namespace tenwinters {

void read_cold_model(Reading& reading) {
  YamlFile* file = reading.open(reading.root + "/cold_model.yaml");
  if (file == nullptr) return;
  MapReader top(*file, &file->root());
  MapReader constants(*file, top.take("constants"));
  for_each_constant(reading.catalog.cold_model,
                    [&](std::string_view name, std::string_view unit, double least, double most, Fact& fact) {
                      const Node* node = constants.take(name);
                      if (node != nullptr) fact = read_fact(reading, *file, node, unit, least, most);
                    });
  constants.finish();
  top.finish();
}

}  // namespace tenwinters
