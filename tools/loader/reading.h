// What the readers of one catalogue share while they read it. Internal to the loader.
#pragma once

#include <algorithm>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lib/files.h"
#include "loader/loader.h"
#include "loader/yaml_file.h"
#include "tenwinters/catalog.h"

namespace tenwinters {

// What an id may lead to.
using Ids = std::set<std::string, std::less<>>;

enum class Kin { source, type, cultivar, rootstock, caution, type_or_cultivar, whom_to_ask, ancestor };

struct Reading {
  Reading(const FileReader& files_to_read, std::string folder, std::string date)
      : disk(files_to_read), root(std::move(folder)), today(std::move(date)) {}

  const FileReader& disk;
  std::string root;   // of the catalogue
  std::string today;  // ISO date or ""
  Catalog catalog;
  Descent descent;
  Guidance guidance;
  Seasons seasons;
  std::vector<Language> languages;
  std::vector<Diagnostic> faults;  // those of no open file
  std::vector<std::unique_ptr<YamlFile>> files;  // kept open until all links are followed

  // Ids to be looked up when everything is read.
  struct Link {
    YamlFile* file;
    const Node* node;
    Kin kin;
  };
  std::vector<Link> links;

  // Figures said to be published: at least one of their sources must have been read.
  struct Published {
    YamlFile* file;
    const Node *basis, *sources;
  };
  std::vector<Published> published;

  // Ids that exist, those of unreadable files included: a fault in a file is told once, not at each link to it.
  Ids source_ids, type_ids, cultivar_ids, rootstock_ids, caution_ids, question_ids, protection_ids, ask_keys, ancestor_ids;
  std::vector<std::string> not_whole;  // keys of tables that could not be read whole: their ids are not all known

  [[nodiscard]] bool whole(std::string_view key) const {
    return std::find(not_whole.begin(), not_whole.end(), key) == not_whole.end();
  }

  // The file, read and parsed; nullptr (and a fault) if it cannot be had. Path from the working directory.
  YamlFile* open(const std::string& path) { return open_all({path}).front(); }
  // Several, which are parsed at the same time.
  std::vector<YamlFile*> open_all(const std::vector<std::string>& paths);
  void fault_of_path(const std::string& path, std::string message) {
    faults.push_back({path, 0, 0, std::move(message), "", false});
  }
  void link(YamlFile& file, const Node* node, Kin kin);
  // Every item of a list of ids.
  std::vector<std::string> link_all(YamlFile& file, const Node* node, Kin kin);
};

// "en", "pt", "es-MX".
[[nodiscard]] bool is_language_code(std::string_view text);

inline constexpr std::size_t kLargestFile = 1U << 20U;  // bytes

// Reads a file by itself, outside a catalogue. Whatever is wrong in it or with it is told, in its order.
std::vector<Diagnostic> read_alone(const FileReader& files, const std::string& path, const std::function<void(YamlFile&)>& use);

// The plain tree of a file that a check has passed; nothing if it cannot be read.
template <class Use>
void with_tree(const FileReader& files, const std::string& path, const Use& use) {
  std::string why;
  std::optional<std::string> raw = files.read(path, kLargestFile, why);
  if (!raw) return;
  SourceText text(path, std::move(*raw));
  const YamlTree tree(text);
  use(text, tree.root());
}

// Ids of FOLDER/*.yaml by file name; tells files that would be passed over.
Ids ids_of_folder(Reading& reading, const std::string& folder, std::string_view ending);

// --- facts.cc: figures with their evidence; see catalog/SCHEMA.md ---
Evidence read_evidence(Reading& reading, MapReader& map);
Fact read_fact(Reading& reading, YamlFile& file, const Node* node, std::string_view unit, double least, double most);
Window read_window(Reading& reading, YamlFile& file, const Node* node);

template <class E>
Choice<E> read_choice(Reading& reading, YamlFile& file, const Node* node) {
  MapReader map(file, node);
  Choice<E> choice{read_word<E>(file, map.take("is")), {}};
  choice.evidence = read_evidence(reading, map);
  map.finish();
  return choice;
}

template <class E>
Choices<E> read_choices(Reading& reading, YamlFile& file, const Node* node, bool may_be_empty) {
  MapReader map(file, node);
  const Node* are = map.take("are");
  Choices<E> choices{read_words<E>(file, are), {}};
  if (!may_be_empty && are != nullptr && are->kind == Node::Kind::list && are->children.empty()) {
    file.fault(*are, "an empty list, expected at least one of " + joined(names_of<E>()));
  }
  choices.evidence = read_evidence(reading, map);
  map.finish();
  return choices;
}

// --- traits.cc ---
// `all`: every trait must be there (a type); else those stated replace what `traits` holds.
void read_traits(Reading& reading, YamlFile& file, const Node* node, Traits& traits, bool all);
// The traits of a type as a cultivar inherits them.
Traits inherited(const Traits& of_type, const Fact& cold_offset, bool has_offset);

// --- pollen.cc ---
SGenotype read_s_genotype(Reading& reading, YamlFile& file, const Node* node);
// What the alleles settle: pollen that is refused becomes `not_partners`, and good pollen in the same months that is
// taken becomes `partners` of a tree that needs some. What a file states comes first.
void derive_pollen(Catalog& catalog);

// --- descent.cc ---
// ancestors.yaml; before the types, whose own ancestors are checked with it.
void read_ancestors(Reading& reading);
// Parents stated in a type or a row: {are: [ids], sources, basis, seen}.
void read_descent_of(Reading& reading, YamlFile& file, const Node* node, const std::string& self);
// A cultivar that names no parents is taken for a child of its type.
void note_parents_of_cultivars(Reading& reading);

// --- guidance.cc; before the words, which say these pages ---
void read_calls(Reading& reading);
void read_guides(Reading& reading);

// --- trees.cc, tables.cc, words.cc, links.cc ---
void read_types(Reading& reading);
void read_cultivars(Reading& reading);
void read_rootstocks(Reading& reading);
void read_sources(Reading& reading);
void read_questions(Reading& reading);
void read_model(Reading& reading);
void read_curves(Reading& reading);
void read_microclimates(Reading& reading);
void read_protections(Reading& reading);
void read_cautions(Reading& reading);
void read_cold_model(Reading& reading);  // cold_model.cc
void read_seasons(Reading& reading);     // seasons.cc
void read_rules(Reading& reading);       // rules.cc; after the words, whose languages it asks for
void follow_links(Reading& reading);
void check_published(Reading& reading);
void read_words(Reading& reading);
void read_prose(Reading& reading);

// The items of `key`, the one key of a table file; nullptr if the file cannot be read. Keeps Reading::not_whole.
YamlFile* open_table(Reading& reading, const std::string& name, std::string_view key, std::span<const Node>& rows);

// Tells an id that stands a second time; true if it is new.
bool is_new(YamlFile& file, const Node& at, const std::string& id, Ids& seen);
// Reads a row's "id" into `id`; true when it is one that no row before has had.
bool take_new_id(YamlFile& file, MapReader& map, Ids& seen, std::string& id);
// Is there such a file? Some may be absent.
bool has_table(const Reading& reading, std::string_view name);

template <class T>
void sort_by_id(std::vector<T>& things) {
  std::sort(things.begin(), things.end(), [](const T& a, const T& b) { return a.id < b.id; });
}

}  // namespace tenwinters
