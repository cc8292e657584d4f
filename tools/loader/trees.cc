// types/, cultivars/, rootstocks/: one file each.
#include <algorithm>
#include <map>

#include "loader/reading.h"

namespace tenwinters {
namespace {

// The `id` key, which says again what the file's name says. The name counts.
void read_own_id(MapReader& map, const std::string& id) {
  const Node* node = map.take("id");
  if (node == nullptr) return;
  YamlFile& file = map.file();
  const std::string said = read_id(file, node);
  if (!said.empty() && said != id) {
    file.fault(*node, "found " + quoted(said) + ", expected " + quoted(id) + ", the name of the file");
  }
}

std::vector<std::string> optional_texts(MapReader& map, std::string_view key) {
  const Node* node = map.take_if(key);
  return node == nullptr ? std::vector<std::string>{} : read_texts(map.file(), node);
}

// Ids of other cultivars.
std::vector<std::string> optional_kin(Reading& reading, MapReader& map, std::string_view key, const std::string& self) {
  const Node* node = map.take_if(key);
  if (node == nullptr) return {};
  for (const Node& item : node->children) {
    if (item.kind == Node::Kind::scalar && item.text == self) map.file().fault(item, "names the cultivar itself");
  }
  return reading.link_all(map.file(), node, Kin::cultivar);
}

void read_type(Reading& reading, YamlFile& file, const std::string& id, std::map<int, std::string>& orders) {
  CitrusType type;
  type.id = id;
  MapReader map(file, &file.root());
  read_own_id(map, id);
  const Node* order = map.take("trade_order");
  type.trade_order = read_whole(file, order, 1, 999);
  if (order != nullptr && type.trade_order > 0) {
    const auto [place, fresh] = orders.try_emplace(type.trade_order, id);
    if (!fresh)
      file.fault(*order,
                 "found " + std::string(order->text) + ", which " + quoted(place->second) + " has already; each number stands once");
  }
  type.botanical = read_text(file, map.take("botanical"));
  type.botanical_synonyms = optional_texts(map, "botanical_synonyms");
  type.synonyms = optional_texts(map, "synonyms");
  MapReader naming(file, map.take("naming"));
  if (naming.node() != nullptr) {
    type.naming = read_evidence(reading, naming);
    naming.finish();
  }
  if (const Node* ancestors = map.take_if("ancestors")) read_descent_of(reading, file, ancestors, id);
  read_traits(reading, file, map.take("traits"), type.traits, true);
  map.finish();
  reading.catalog.types.push_back(std::move(type));
}

const CitrusType* type_of(const Reading& reading, const std::string& id) {
  const auto& types = reading.catalog.types;
  const auto found = std::find_if(types.begin(), types.end(), [&](const CitrusType& type) { return type.id == id; });
  return found == types.end() ? nullptr : &*found;
}

void read_cultivar(Reading& reading, YamlFile& file, const std::string& id) {
  Cultivar cultivar;
  cultivar.id = id;
  MapReader map(file, &file.root());
  read_own_id(map, id);
  const Node* type_node = map.take("type");
  cultivar.type = read_id(file, type_node);
  reading.link(file, type_node, Kin::type);
  const CitrusType* type = type_of(reading, cultivar.type);
  cultivar.name = read_text(file, map.take("name"));
  const Node* botanical = map.take_if("botanical");
  cultivar.botanical = botanical != nullptr ? read_text(file, botanical) : type != nullptr ? type->botanical : "";
  cultivar.synonyms = optional_texts(map, "synonyms");
  cultivar.misspellings = optional_texts(map, "misspellings");
  cultivar.look_alikes = optional_kin(reading, map, "look_alikes", id);
  if (const Node* ancestors = map.take_if("ancestors")) {
    cultivar.ancestors = reading.link_all(file, ancestors, Kin::ancestor);
    for (const Node& item : ancestors->children)
      if (item.kind == Node::Kind::scalar && item.text == id && id != cultivar.type) file.fault(item, "names the cultivar itself");
  }
  cultivar.partners = optional_kin(reading, map, "partners", id);
  const Node* not_partners = map.take_if("not_partners");
  if (not_partners != nullptr) {
    cultivar.not_partners = reading.link_all(file, not_partners, Kin::cultivar);
    for (const Node& item : not_partners->children) {
      const auto& good = cultivar.partners;
      if (std::find(good.begin(), good.end(), item.text) != good.end()) {
        file.fault(item, quoted(item.text) + " stands among the partners too");
      }
    }
  }
  if (const Node* genotype = map.take_if("s_genotype")) cultivar.s_genotype = read_s_genotype(reading, file, genotype);
  Fact offset;
  const Node* offset_node = map.take_if("cold_offset");
  if (offset_node != nullptr) offset = read_fact(reading, file, offset_node, "C", -10, 10);
  cultivar.cold_offset_c = offset.best;
  if (type != nullptr) cultivar.traits = inherited(type->traits, offset, offset_node != nullptr);
  if (const Node* traits = map.take_if("traits")) read_traits(reading, file, traits, cultivar.traits, false);
  map.finish();
  reading.catalog.cultivars.push_back(std::move(cultivar));
}

void read_rootstock(Reading& reading, YamlFile& file, const std::string& id) {
  Rootstock stock;
  stock.id = id;
  MapReader map(file, &file.root());
  read_own_id(map, id);
  stock.name = read_text(file, map.take("name"));
  stock.botanical = read_text(file, map.take("botanical"));
  stock.synonyms = optional_texts(map, "synonyms");
  if (const Node* gain = map.take("cold_gain_c")) stock.cold_gain_c = read_fact(reading, file, gain, "C", -5, 5);
  if (const Node* size = map.take("size_share")) stock.size_share = read_fact(reading, file, size, "share", 0.2, 1.2);
  const auto fitness = [&](std::string_view key, Choice<Fitness>& out) {
    if (const Node* node = map.take(key)) out = read_choice<Fitness>(reading, file, node);
  };
  fitness("lime", stock.lime);
  fitness("salt", stock.salt);
  fitness("wet", stock.wet);
  fitness("drought", stock.drought);
  fitness("foot_rot", stock.foot_rot);
  fitness("tristeza", stock.tristeza);
  fitness("fruit_quality", stock.fruit_quality);
  if (const Node* unfit = map.take_if("unfit_for")) {
    MapReader trees(file, unfit);
    stock.unfit_for = reading.link_all(file, trees.take("are"), Kin::type_or_cultivar);
    stock.unfit_evidence = read_evidence(reading, trees);
    trees.finish();
  }
  map.finish();
  reading.catalog.rootstocks.push_back(std::move(stock));
}

// `read` for each readable file; an unreadable one leaves its id, so that links to it are not told as well.
template <class T, class Read>
void read_folder(Reading& reading, const std::string& folder, Ids& ids, std::vector<T>& things,
                 const Read& read) {
  ids = ids_of_folder(reading, reading.root + "/" + folder, ".yaml");
  if (ids.empty()) reading.fault_of_path(reading.root + "/" + folder, "no file ID.yaml here; expected at least one");
  std::vector<std::string> paths;
  for (const std::string& id : ids) paths.push_back(reading.root + "/" + folder + "/" + id + ".yaml");
  const std::vector<YamlFile*> opened = reading.open_all(paths);
  std::size_t next = 0;
  for (const std::string& id : ids) {
    YamlFile* file = opened[next++];
    if (file != nullptr && file->root().kind != Node::Kind::broken) {
      read(*file, id);
    } else {
      things.emplace_back().id = id;
    }
  }
}

}  // namespace

void read_types(Reading& reading) {
  std::map<int, std::string> orders;
  read_folder(reading, "types", reading.type_ids, reading.catalog.types,
              [&](YamlFile& file, const std::string& id) { read_type(reading, file, id, orders); });
}

void read_cultivars(Reading& reading) {
  read_folder(reading, "cultivars", reading.cultivar_ids, reading.catalog.cultivars,
              [&](YamlFile& file, const std::string& id) { read_cultivar(reading, file, id); });
}

void read_rootstocks(Reading& reading) {
  read_folder(reading, "rootstocks", reading.rootstock_ids, reading.catalog.rootstocks,
              [&](YamlFile& file, const std::string& id) { read_rootstock(reading, file, id); });
}

}  // namespace tenwinters
