// tenwinters evidence: where each figure comes from.
#include <fmt/core.h>

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/evidence.h"
#include "lib/descent.h"

namespace tenwinters::cli {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

const Source* find_source(const Catalog& catalog, std::string_view id) {
  for (const Source& source : catalog.sources)
    if (source.id == id) return &source;
  return nullptr;
}

std::string describe(const Source& source) {
  std::string text = source.publisher + ": " + source.title;
  if (!source.number.empty()) text += ", " + source.number;
  text += " (" + source.year + ")";
  if (!source.url.empty()) text += ". " + source.url;
  return text + (source.read ? "" : " [recalled, no copy seen]");
}

nlohmann::ordered_json to_json(const Figure& figure) {
  return {{"of", figure.of}, {"kind", figure.kind}, {"figure", figure.path}, {"value", figure.value},
          {"basis", name_of(figure.evidence.basis)}, {"sources", figure.evidence.sources}, {"seen", figure.evidence.seen},
          {"note", figure.evidence.note}, {"from_type", figure.evidence.from_type}, {"file", figure.file}, {"line", figure.line}};
}

void print_json(const Catalog& catalog, const std::vector<Figure>& figures) {
  nlohmann::ordered_json out{{"figures", nlohmann::ordered_json::array()}, {"sources", nlohmann::ordered_json::object()}};
  for (const Figure& figure : figures) {
    out["figures"].push_back(to_json(figure));
    for (const std::string& id : figure.evidence.sources)
      if (const Source* source = find_source(catalog, id))
        out["sources"][id] = {{"publisher", source->publisher}, {"title", source->title}, {"number", source->number},
                              {"year", source->year}, {"url", source->url}, {"read", source->read}};
  }
  fmt::print("{}\n", out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
}

void print_text(const Catalog& catalog, const std::vector<Figure>& figures, bool owners) {
  std::vector<std::string> names, sources;
  std::size_t name_width = 0, value_width = 0;
  for (const Figure& figure : figures) {
    std::string name = figure.path.starts_with("traits.") ? figure.path.substr(7) : figure.path;
    if (owners || name.empty()) name = figure.of + (name.empty() ? "" : " " + name);
    name_width = std::max(name_width, name.size());
    value_width = std::max(value_width, std::min<std::size_t>(figure.value.size(), 30));
    names.push_back(std::move(name));
  }
  bool told_type = false;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const Figure& figure = figures[i];
    if (figure.evidence.from_type && !told_type) fmt::print("\nTaken from its type, {}:\n", figure.of);
    told_type = told_type || figure.evidence.from_type;
    fmt::print("  {:<{}}  {:<{}}  {}{}{}  [{}:{}, looked at {}]\n", names[i], name_width, figure.value, value_width,
               name_of(figure.evidence.basis), figure.evidence.sources.empty() ? "" : ": ", joined(figure.evidence.sources),
               figure.file, figure.line, figure.evidence.seen);
    if (!figure.evidence.note.empty()) fmt::print("{:>{}}{}\n", "", name_width + 4, figure.evidence.note);
    for (const std::string& id : figure.evidence.sources)
      if (std::find(sources.begin(), sources.end(), id) == sources.end()) sources.push_back(id);
  }
  if (sources.empty()) return;
  fmt::print("\nSources:\n");
  std::sort(sources.begin(), sources.end());
  for (const std::string& id : sources)
    if (const Source* source = find_source(catalog, id)) fmt::print("  {}  {}\n", id, describe(*source));
}

// "Descends from Duncan, Dancy; in the wild from Citrus maxima (Burm.) Merr., Citrus reticulata Blanco."
void print_descent(const Loaded& loaded, const std::string& id) {
  const Descent& descent = loaded.descent;
  const std::vector<std::string>& parents = parents_of(descent, id);
  if (parents.empty()) return;
  std::vector<std::string> names, wild;
  for (const std::string& parent : parents) {
    const Cultivar* cultivar = find_cultivar(loaded.catalog, parent);
    const auto forebear = descent.forebears.find(parent);
    if (cultivar != nullptr) names.push_back(cultivar->name);
    else if (forebear != descent.forebears.end()) names.push_back(forebear->second.botanical);
    else names.push_back(loaded.languages.front().say("types." + parent + ".name"));
  }
  for (const Forebear* one : wild_ancestors(descent, id)) wild.push_back(one->botanical);
  fmt::print("Descends from {}{}{}\n", joined(names), wild.empty() || wild == names ? "" : "; in the wild from ", wild == names ? "" : joined(wild));
}

std::vector<std::string_view> known_ids(const Catalog& catalog, const std::vector<Figure>& all) {
  std::vector<std::string_view> ids;
  for (const Figure& figure : all) ids.push_back(figure.of);
  for (const Cultivar& cultivar : catalog.cultivars) ids.push_back(cultivar.id);
  for (const Source& source : catalog.sources) ids.push_back(source.id);
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  return ids;
}

int evidence(const Session& session, const std::string& id, bool json) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  const DiskReader disk;
  const std::vector<Figure> all = list_figures(disk, loaded.root);
  if (id.empty()) {
    if (json) print_json(loaded.catalog, all);
    else fmt::print("{}\n`tenwinters evidence ID` shows one thing's figures; `tenwinters check --evidence` says which matter most.\n", basis_table(all));
    return kDone;
  }
  std::vector<Figure> figures = figures_of(all, loaded.catalog, id);
  const Source* source = find_source(loaded.catalog, id);
  const bool of_source = figures.empty() && source != nullptr;
  if (of_source)
    for (const Figure& figure : all)
      if (std::find(figure.evidence.sources.begin(), figure.evidence.sources.end(), id) != figure.evidence.sources.end()) figures.push_back(figure);
  if (figures.empty() && source == nullptr) {
    complain("nothing in the catalogue has the id \"" + id + "\"", std::string(nearest_name(id, known_ids(loaded.catalog, all))));
    return kMisuse;
  }
  if (json) {
    print_json(loaded.catalog, figures);
    return kDone;
  }
  if (const Cultivar* cultivar = find_cultivar(loaded.catalog, id)) fmt::print("{} ({}), a cultivar of {}\n", cultivar->name, id, cultivar->type);
  else if (of_source) fmt::print("{}\n  {}\n{} figure{} on it:\n", id, describe(*source), figures.size(), figures.size() == 1 ? " rests" : "s rest");
  else fmt::print("{}: {}\n", figures.front().kind, id);
  if (!of_source) print_descent(loaded, id);
  print_text(loaded.catalog, figures, of_source);
  return kDone;
}

}  // namespace

void add_evidence(const Command& app, Session& session) {
  const Command command = app.add_command("evidence", "Where each figure comes from");
  const auto id = std::make_shared<std::string>();
  const auto json = std::make_shared<bool>(false);
  command.add_option("ID", *id, "A cultivar, type, rootstock, question, caution, rule ... or a source");
  command.add_flag("--json", *json, "As JSON");
  command.footer("Example:\n  tenwinters evidence owari\n  tenwinters evidence            # counts by basis");
  command.does(session, [&session, id, json] { return evidence(session, *id, *json); });
}

}  // namespace tenwinters::cli
