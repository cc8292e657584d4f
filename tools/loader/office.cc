// offices/ID/office.yaml: an office, its places, its rules.
#include <algorithm>
#include <cmath>

#include "lib/texts.h"
#include "loader/reading.h"

namespace tenwinters {
namespace {

constexpr std::string_view kDiseases[] = {"greening", "canker", "scab"};

// Ids that an office may name.
struct Known {
  std::vector<std::string_view> cultivars, rootstocks, trees;

  explicit Known(const Catalog& catalog) {
    for (const Cultivar& c : catalog.cultivars) cultivars.push_back(c.id);
    for (const Rootstock& r : catalog.rootstocks) rootstocks.push_back(r.id);
    trees = cultivars;
    trees.insert(trees.end(), rootstocks.begin(), rootstocks.end());
    for (const CitrusType& t : catalog.types) trees.push_back(t.id);
    std::sort(trees.begin(), trees.end());
  }
};

std::vector<std::string> read_known_ids(YamlFile& file, const Node* node, const std::vector<std::string_view>& known,
                                        const std::string& kind) {
  if (node == nullptr) return {};
  for (const Node& item : node->children) {
    const bool good = std::find(known.begin(), known.end(), item.text) != known.end();
    if (!good && item.kind == Node::Kind::scalar && is_id(item.text)) {
      file.fault(item, "no " + kind + " has the id " + quoted(item.text) + did_you_mean(item.text, known));
    }
  }
  return read_ids(file, node);
}

// {en: ..., es: ...}: the office's first language must be there.
Words read_by_language(YamlFile& file, const Node* node, const std::vector<std::string>& languages) {
  Words words;
  const Node* map = as_map(file, node);
  if (map == nullptr) return words;
  const std::vector<std::string_view> names(languages.begin(), languages.end());
  for (const Node& child : map->children) {
    if (!languages.empty() && std::find(languages.begin(), languages.end(), child.key) == languages.end()) {
      file.fault_at_key(child,
                        "the office has no language " + quoted(child.key) + "; expected one of " + joined(names));
      continue;
    }
    std::string text = read_text(file, &child);
    if (!text.empty()) words.emplace(child.key, std::move(text));
  }
  if (map->partial) return words;
  for (const std::string& language : languages) {
    if (map->find(language) != nullptr) continue;
    if (language == languages.front()) {
      file.fault_at_key(*map, "no text in " + quoted(language) + ", the office's first language");
    } else {
      file.warning_at_key(*map, "no text in " + quoted(language));
    }
  }
  return words;
}

std::vector<std::string> read_languages(YamlFile& file, const Node& node) {
  std::vector<std::string> languages = read_texts(file, &node);
  for (const Node& item : node.children) {
    const bool truth_value = item.is_plain() && looks_like_boolean(item.text);
    if (item.kind == Node::Kind::scalar && !truth_value && !is_language_code(item.text)) {
      file.fault(item, "found " + quoted(item.text) + ", expected a language code, as en or es-MX");
    }
    if (truth_value || !is_language_code(item.text)) std::erase(languages, item.text);
  }
  if (node.kind == Node::Kind::list && node.children.empty()) {
    file.fault(node, "an empty list, expected at least one language");
  }
  return languages;
}

class OfficeReader {
 public:
  OfficeReader(const FileReader& disk, YamlFile& file, const Catalog& catalog, const std::string& today,
               LoadedOffice& out)
      : disk_(disk), file_(file), known_(catalog), today_(today), out_(out) {
    const std::size_t slash = file.name().rfind('/');
    folder_ = slash == std::string::npos ? "" : file.name().substr(0, slash);
  }

  void read() {
    Office& office = out_.office;
    MapReader map(file_, &file_.root());
    const Node* languages = map.take("languages");
    if (languages != nullptr) office.languages = read_languages(file_, *languages);
    const Node* id = map.take("id");
    office.id = read_id(file_, id);
    const std::string folder_name = folder_.substr(folder_.rfind('/') + 1);
    if (!office.id.empty() && is_id(folder_name) && office.id != folder_name) {
      file_.fault(*id, "found " + quoted(office.id) + ", expected " + quoted(folder_name) + ", the name of the folder");
    }
    office.name = read_by_language(file_, map.take("name"), office.languages);
    office.invented = read_bool(file_, map.take("invented"));
    office.units = read_word<Units>(file_, map.take("units"));
    if (const Node* address = map.take_if("address")) office.address = read_address(address);
    if (const Node* contact = map.take_if("contact")) {
      for (const Node& line : items(file_, contact))
        office.contact.push_back(read_by_language(file_, &line, office.languages));
    }
    read_places(map.take("places"));
    if (const Node* rules = map.take_if("rules")) {
      Ids seen;
      for (const Node& rule : items(file_, rules)) read_rule(rule, seen);
    }
    office.on_sale = read_known_ids(file_, map.take_if("on_sale"), known_.cultivars, "cultivar");
    office.rootstocks_on_sale =
        read_known_ids(file_, map.take_if("rootstocks_on_sale"), known_.rootstocks, "rootstock");
    if (const Node* diseases = map.take_if("diseases_present")) {
      for (const Node& item : items(file_, diseases)) {
        if (read_word_index(file_, &item, kDiseases) >= 0) office.diseases_present.emplace_back(item.text);
      }
    }
    map.finish();
  }

 private:
  std::string read_address(const Node* node) {
    std::string address = read_text(file_, node);
    if (!address.empty() && !is_site_address(address)) {
      file_.fault(*node,
                  "found " + quoted(address) + ", expected an address that begins with https:// and ends with /");
    }
    return address;
  }

  void read_places(const Node* node) {
    const auto rows = items(file_, node);
    if (node != nullptr && node->kind == Node::Kind::list && rows.empty())
      file_.fault(*node, "an empty list, expected at least one place");
    const std::size_t faults = file_.faults().size();
    Ids seen;
    double sum = 0;
    for (const Node& row : rows) {
      Place place;
      MapReader map(file_, &row);
      const Node* id = map.take("id");
      place.id = read_id(file_, id);
      if (id != nullptr) is_new(file_, *id, place.id, seen);
      place.name = read_by_language(file_, map.take("name"), out_.office.languages);
      place.region = read_word<Region>(file_, map.take("region"));
      place.share = read_number(file_, map.take("share"), 0, 1, "");
      sum += place.share;
      out_.latitudes.push_back(read_number(file_, map.take("latitude"), -60, 60, "degrees north"));
      out_.record_paths.push_back(read_record_path(map.take("record")));
      map.finish();
      out_.office.places.push_back(std::move(place));
    }
    if (!rows.empty() && faults == file_.faults().size() && std::abs(sum - 1) > 0.001) {
      file_.fault_at_key(*node, "the shares add up to " + number_text(std::round(sum * 1e6) / 1e6) + ", expected 1");
    }
  }

  std::string read_record_path(const Node* node) {
    const std::string name = read_text(file_, node);
    if (name.empty()) return "";
    std::string path = folder_.empty() ? name : folder_ + "/" + name;
    if (name.front() == '/' || name.find("..") != std::string::npos || name.find('\\') != std::string::npos) {
      file_.fault(*node, "found " + quoted(name) + ", expected a file in the office's own folder");
      return path;
    }
    const std::size_t slash = path.rfind('/');
    const std::vector<std::string> there = disk_.list(slash == std::string::npos ? "." : path.substr(0, slash));
    const std::string file_name = path.substr(slash == std::string::npos ? 0 : slash + 1);
    if (std::find(there.begin(), there.end(), file_name) == there.end()) {
      const std::vector<std::string_view> names(there.begin(), there.end());
      file_.fault(*node, "the record " + quoted(name) + " is not there" + did_you_mean(file_name, names));
    }
    return path;
  }

  void read_rule(const Node& row, Ids& seen) {
    LocalRule rule;
    MapReader map(file_, &row);
    const Node* id = map.take("id");
    rule.id = read_id(file_, id);
    if (id != nullptr) is_new(file_, *id, rule.id, seen);
    rule.forbids = read_known_ids(file_, map.take("forbids"), known_.trees, "type, cultivar or rootstock");
    rule.says = read_by_language(file_, map.take("says"), out_.office.languages);
    rule.ask = read_by_language(file_, map.take("ask"), out_.office.languages);
    rule.citation = read_text(file_, map.take("citation"));
    const Node* review_by = map.take("review_by");
    rule.review_by = read_date(file_, review_by);
    if (review_by != nullptr && !rule.review_by.empty() && !today_.empty() && rule.review_by < today_) {
      file_.warning(*review_by, "the rule was to be reviewed by " + rule.review_by +
                                    "; ask the body it names whether it still holds");
    }
    map.finish();
    out_.office.rules.push_back(std::move(rule));
  }

  const FileReader& disk_;
  YamlFile& file_;
  Known known_;
  const std::string& today_;
  LoadedOffice& out_;
  std::string folder_;
};

}  // namespace

LoadedOffice load_office(const FileReader& files, const std::string& path, const Catalog& catalog,
                         const std::string& today) {
  LoadedOffice loaded;
  loaded.faults = read_alone(files, path, [&](YamlFile& file) {
    OfficeReader(files, file, catalog, today, loaded).read();
  });
  return loaded;
}

LoadedAnswers load_answers(const FileReader& files, const std::string& path, const Catalog& catalog,
                           const Office& office) {
  LoadedAnswers loaded;
  loaded.faults = read_alone(files, path, [&](YamlFile& file) {
    std::vector<std::string_view> questions = {"place"};
    for (const Question& question : catalog.questions) questions.push_back(question.id);
    const Node* map = as_map(file, &file.root());
    for (const Node& child : map == nullptr ? std::span<const Node>() : std::span<const Node>(map->children)) {
      std::vector<std::string_view> names;
      const auto question = std::find_if(catalog.questions.begin(), catalog.questions.end(),
                                         [&](const Question& q) { return q.id == child.key; });
      if (child.key == "place" && office.places.empty()) {
        loaded.place = read_id(file, &child);  // the office could not be read, and that was told
        continue;
      }
      if (child.key == "place") {
        for (const Place& place : office.places) names.push_back(place.id);
      } else if (question != catalog.questions.end()) {
        for (const Answer& answer : question->answers) names.push_back(answer.id);
        names.push_back(kDontKnow);
      } else {
        file.fault_at_key(child, "no such question" + did_you_mean(child.key, questions));
        continue;
      }
      const int index = read_word_index(file, &child, names);
      if (index < 0) continue;
      if (child.key == "place") {
        loaded.place = child.text;
      } else {
        loaded.answers[std::string(child.key)] = child.text;
      }
    }
  });
  return loaded;
}

}  // namespace tenwinters
