// Ids that lead from one file to another.
#include <algorithm>
#include <array>
#include <exception>

#include "lib/parallel.h"
#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr std::array<std::string_view, 8> kKinNames = {
    "source", "type", "cultivar", "rootstock", "caution", "type or cultivar", "text under `ask` in words/en.yaml",
    "type, cultivar or row of ancestors.yaml"};

struct Targets {
  std::vector<std::string_view> sorted;
  bool known = true;
};

void add(Targets& ids, const Ids& more) {
  ids.sorted.insert(ids.sorted.end(), more.begin(), more.end());
  std::sort(ids.sorted.begin(), ids.sorted.end());
}

}  // namespace

std::vector<Diagnostic> read_alone(const FileReader& files, const std::string& path, const std::function<void(YamlFile&)>& use) {
  std::vector<Diagnostic> faults;
  try {
    std::string why;
    std::optional<std::string> raw = files.read(path, kLargestFile, why);
    if (!raw) return {{path, 0, 0, why, "", false}};
    YamlFile file(path, std::move(*raw));
    use(file);
    faults = file.faults();
    sort_diagnostics(faults);
  } catch (const std::exception& error) {
    faults.push_back({path, 0, 0, std::string("could not be read: ") + error.what(), "", false});
  }
  return faults;
}

std::vector<YamlFile*> Reading::open_all(const std::vector<std::string>& paths) {
  std::vector<std::optional<std::string>> raw;
  for (const std::string& path : paths) {
    std::string why;
    raw.push_back(disk.read(path, kLargestFile, why));
    if (!raw.back()) fault_of_path(path, why);
  }
  std::vector<YamlFile*> opened(paths.size(), nullptr);
  std::vector<std::unique_ptr<YamlFile>> parsed(paths.size());
  each_in_parallel(paths.size(), [&](std::size_t i) {
    if (raw[i]) parsed[i] = std::make_unique<YamlFile>(paths[i], std::move(*raw[i]));
  });
  for (std::size_t i = 0; i < paths.size(); ++i) {
    opened[i] = parsed[i].get();
    if (opened[i]) files.push_back(std::move(parsed[i]));
  }
  return opened;
}

void Reading::link(YamlFile& file, const Node* node, Kin kin) {
  if (node != nullptr && node->kind == Node::Kind::scalar && is_id(node->text)) links.push_back({&file, node, kin});
}

std::vector<std::string> Reading::link_all(YamlFile& file, const Node* node, Kin kin) {
  if (node == nullptr) return {};
  std::vector<std::string> ids = read_ids(file, node);
  for (const Node& item : node->children) link(file, &item, kin);
  return ids;
}

void follow_links(Reading& reading) {
  std::array<Targets, kKinNames.size()> ids;
  const auto of = [&](Kin kin) -> Targets& { return ids[static_cast<std::size_t>(kin)]; };
  add(of(Kin::source), reading.source_ids);
  of(Kin::source).known = reading.whole("sources");
  add(of(Kin::caution), reading.caution_ids);
  of(Kin::caution).known = reading.whole("cautions");
  add(of(Kin::type), reading.type_ids);
  add(of(Kin::cultivar), reading.cultivar_ids);
  add(of(Kin::rootstock), reading.rootstock_ids);
  for (const auto* each : {&reading.type_ids, &reading.cultivar_ids}) add(of(Kin::type_or_cultivar), *each);
  add(of(Kin::whom_to_ask), reading.ask_keys);
  of(Kin::whom_to_ask).known = reading.whole("ask");
  for (const auto* each : {&reading.type_ids, &reading.cultivar_ids, &reading.ancestor_ids}) add(of(Kin::ancestor), *each);
  of(Kin::ancestor).known = reading.whole("ancestors");
  for (const Reading::Link& link : reading.links) {
    const Targets& known = of(link.kin);
    const std::string_view id = link.node->text;
    if (link.file->full() || !known.known || std::binary_search(known.sorted.begin(), known.sorted.end(), id)) continue;
    link.file->fault(*link.node, "no " + std::string(kKinNames[static_cast<std::size_t>(link.kin)]) + " has the id " +
                                     quoted(id) + did_you_mean(id, known.sorted));
  }
}

void check_published(Reading& reading) {
  if (!reading.whole("sources")) return;
  std::vector<std::string_view> recalled;
  for (const Source& source : reading.catalog.sources) {
    if (!source.read) recalled.push_back(source.id);
  }
  for (const Reading::Published& each : reading.published) {
    const bool none_read = std::all_of(each.sources->children.begin(), each.sources->children.end(), [&](const Node& id) {
      return std::binary_search(recalled.begin(), recalled.end(), id.text);
    });
    if (none_read)
      each.file->fault(*each.basis,
                       "found \"published\", but no source of it was read; expected memory, or a source that was read");
  }
}

bool is_language_code(std::string_view text) {
  const std::size_t dash = text.find('-');
  const std::string_view language = text.substr(0, dash);
  const std::string_view country = dash == std::string_view::npos ? "" : text.substr(dash + 1);
  if (language.size() < 2 || language.size() > 3 ||
      language.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != std::string_view::npos)
    return false;
  return dash == std::string_view::npos ||
         (country.size() == 2 && country.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string_view::npos);
}

Ids ids_of_folder(Reading& reading, const std::string& folder, std::string_view ending) {
  Ids ids;
  for (const std::string& name : reading.disk.list(folder)) {
    if (name.starts_with('.') || name.ends_with('~')) continue;  // what editors leave behind
    const std::string id = name.ends_with(ending) ? name.substr(0, name.size() - ending.size()) : "";
    if (is_id(id)) {
      ids.insert(id);
    } else {
      reading.fault_of_path(folder + "/" + name, "not read; expected a file name of the form ID" + std::string(ending) +
                                                     " with an id of lower-case letters, digits and _");
    }
  }
  return ids;
}

}  // namespace tenwinters
