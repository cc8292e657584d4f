// tenwinters new: a file to fill in.
#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "cli/commands.h"
#include "cli/edit.h"
#include "loader/format.h"
#include "tenwinters/traits.h"

namespace tenwinters::cli {
namespace {

namespace fs = std::filesystem;

// "Old Wharf" -> "old_wharf". Latin letters lose their accents; other signs part words.
std::string id_from(std::string_view name) {
  constexpr std::string_view kLatin =  // U+00C0 to U+00FF
      "aaaaaaaceeeeiiiidnooooo_ouuuuy_saaaaaaaceeeeiiiidnooooo_ouuuuy_y";
  std::string id;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const auto byte = static_cast<unsigned char>(name[i]);
    char letter = '_';
    if (byte == 0xC3 && i + 1 < name.size()) {
      const auto next = static_cast<unsigned char>(name[++i]);
      if (next >= 0x80 && next <= 0xBF) letter = kLatin[next - 0x80U];
    } else if ((byte >= 'a' && byte <= 'z') || (byte >= '0' && byte <= '9')) {
      letter = name[i];
    } else if (byte >= 'A' && byte <= 'Z') {
      letter = static_cast<char>(byte - 'A' + 'a');
    } else if (byte == '\'') {
      continue;
    }
    if (letter != '_' || (!id.empty() && id.back() != '_')) id += letter;
  }
  while (!id.empty() && id.back() == '_') id.pop_back();
  return id;
}

std::string range(const Fact& fact, std::string_view unit) {
  return fmt::format("best: {}, low: {}, high: {}, unit: {}", fact.best, fact.low, fact.high, unit);
}

// The traits of the type as lines to take up: what stands there is what the new cultivar has without them.
std::string trait_lines(const Traits& traits, const std::string& today) {
  const std::string evidence = ", sources: [], basis: common-practice, seen: " + today + "}\n";
  std::string out;
  for_each_trait(traits, Overloaded{
      [](std::string_view, const std::array<TissueCold, kTissueCount>&) {},  // cold_offset says it better
      [&](std::string_view key, const Window& window) {
        out += fmt::format("#  {}: {{from: {}, to: {}{}", key, window.from_month, window.to_month, evidence);
      },
      [&](std::string_view key, const std::vector<Ripening>& regions) {
        out += fmt::format("#  {}:\n", key);
        for (const Ripening& one : regions)
          out += fmt::format("#  - {{region: {}, from: {}, to: {}{}", name_of(one.region), one.window.from_month, one.window.to_month, evidence);
      },
      [&](std::string_view key, const Fact& fact, std::string_view unit, double, double) {
        out += fmt::format("#  {}: {{{}{}", key, range(fact, unit), evidence);
      },
      [&]<class E>(std::string_view key, const Choice<E>& choice) {
        out += fmt::format("#  {}: {{is: {}{}", key, name_of(choice.is), evidence);
      },
      [&]<class E>(std::string_view key, const Choices<E>& choices, bool) {
        std::string words;
        for (E one : choices.are) words += (words.empty() ? "" : ", ") + std::string(name_of(one));
        out += fmt::format("#  {}: {{are: [{}]{}", key, words, evidence);
      },
  });
  return out;
}

std::string skeleton(const std::string& id, const std::string& name, const CitrusType& type, const std::string& today) {
  std::string out = "# yaml-language-server: $schema=../schema/cultivar.json\n";
  out += "# Whatever is not stated here is taken from the type. SCHEMA.md describes every key; take the # away in front\n"
         "# of what you know, put in the figure with its source, and run `tenwinters check`.\n";
  out += "id: " + id + "\ntype: " + type.id + "\nname: " + written(name) + "  # the registered or common name, never a brand\n";
  out += "#botanical: where it differs from the type's, " + type.botanical + "\n"
         "#synonyms: [other names in the trade]\n"
         "#misspellings: [what people write and say]\n"
         "#look_alikes: [ids of cultivars it is confused with]\n"
         "#ancestors: [ids of its parents]\n"
         "#partners: [ids of cultivars that set its fruit well]\n"
         "#not_partners: [ids of cultivars that cannot]\n";
  out += "# Degrees to add to the killing points of the type; minus is hardier.\n"
         "#cold_offset: {best: 0, low: -0.5, high: 0.5, unit: C, sources: [], basis: estimate, seen: " + today +
         ", note: \"what the judgement rests on\"}\n";
  out += "# Basis: published (a source in sources.yaml that somebody read), common-practice (a rule of the trade),\n"
         "# memory (a named source, recalled) or estimate (our judgement; say why in a note).\n"
         "#traits:\n";
  return out + trait_lines(type.traits, today);
}

int new_cultivar(const Session& session, const std::string& name, const std::string& type_id) {
  const std::string root = find_catalog(session);
  if (root.empty()) {
    complain("no catalogue found: run this inside the project, or name its folder with --catalog");
    return kMisuse;
  }
  const DiskReader disk;
  const LoadedCatalog loaded = load_catalog(disk, root, session.today);
  const CitrusType* type = find_type(loaded.catalog, type_id);
  if (type == nullptr) {
    std::vector<std::string_view> ids;
    std::string list;
    for (const CitrusType& one : loaded.catalog.types) {
      ids.push_back(one.id);
      list += (list.empty() ? "" : ", ") + one.id;
    }
    complain("no type has the id \"" + type_id + "\"", std::string(nearest_name(type_id, ids)));
    fmt::print(stderr, "The types are: {}\n", list);
    return kMisuse;
  }
  const std::string id = id_from(name);
  if (id.empty() || id.front() < 'a' || id.front() > 'z' || id.size() > 60) {
    complain("\"" + name + "\" gives no id; a name needs to begin with a Latin letter");
    return kMisuse;
  }
  const std::string path = (fs::path(root) / "cultivars" / (id + ".yaml")).generic_string();
  for (const Cultivar& cultivar : loaded.catalog.cultivars) {
    const bool synonym = std::find(cultivar.synonyms.begin(), cultivar.synonyms.end(), name) != cultivar.synonyms.end();
    if (cultivar.id != id && cultivar.name != name && !synonym) continue;
    complain("\"" + name + "\" is there already: " + (fs::path(root) / "cultivars" / (cultivar.id + ".yaml")).generic_string());
    return kFindings;
  }
  if (const std::string failed = write_file(path, skeleton(id, name, *type, session.today)); !failed.empty()) {
    complain(failed);
    return kFindings;
  }
  fmt::print("{}\nOpen it and fill in what you know; then `tenwinters check`. A few sentences for people go into\n{}.\n", path,
             (fs::path(root) / "prose" / "en" / "cultivars" / (id + ".md")).generic_string());
  return kDone;
}

}  // namespace

void add_new(const Command& app, Session& session) {
  const Command command = app.add_command("new", "A file to fill in");
  command.require_command();
  const Command cultivar = command.add_command("cultivar", "A cultivar, with every key explained and what it takes from its type");
  const auto name = std::make_shared<std::string>();
  const auto type = std::make_shared<std::string>();
  cultivar.add_option("NAME", *name, "Its name, in quotes if it has blanks").required();
  cultivar.add_option("--type", *type, "The id of its type, such as satsuma").required().type_name("ID");
  cultivar.footer("Example:\n  tenwinters new cultivar \"Old Wharf\" --type mandarin");
  cultivar.does(session, [&session, name, type] { return new_cultivar(session, *name, *type); });
}

}  // namespace tenwinters::cli
