#include "render/sheet.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <utility>

#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/page.h"
#include "render/qr.h"

namespace tenwinters {
namespace {

constexpr std::string_view kColours[] = {"ink", "soft", "rule", "leaf"};
constexpr std::string_view kFonts[] = {"serif", "sans"};
constexpr std::string_view kKeys[] = {"colours", "fonts", "block"};

bool is_colour(std::string_view text) {
  return (text.size() == 4 || text.size() == 7) && text[0] == '#' &&
         text.substr(1).find_first_not_of("0123456789abcdefABCDEF") == std::string_view::npos;
}

// A list of font names: nothing that would end the declaration.
bool is_font_list(std::string_view text) { return !text.empty() && text.find_first_of(";{}<>\\\n") == std::string_view::npos; }

std::string quoted_list(std::span<const std::string_view> names) {
  std::string out;
  for (const std::string_view name : names) out += (out.empty() ? "" : ", ") + std::string(name);
  return out;
}

class OfficeReader {
 public:
  OfficeReader(std::string file, std::vector<Diagnostic>& faults) : file_(std::move(file)), faults_(faults) {}

  PrintOffice read(std::string_view text) {
    PrintOffice out;
    const nlohmann::ordered_json root = nlohmann::ordered_json::parse(text, nullptr, false);
    if (!root.is_object()) {
      fault("expected a JSON object with " + quoted_list(kKeys));
      return out;
    }
    names(root, kKeys, "");
    std::string style;
    for (const char* key : {"colours", "fonts"})
      if (!root.contains(key)) fault("\"" + std::string(key) + "\" is missing");
    if (root.contains("colours")) properties(root["colours"], "colours", kColours, is_colour, "a colour such as #2c5a39", style);
    if (root.contains("fonts")) properties(root["fonts"], "fonts", kFonts, is_font_list, "a list of font names", style);
    if (!style.empty()) out.style = ":root {" + style + "}\n";
    if (root.contains("block")) block(root["block"], out);
    return out;
  }

 private:
  void fault(std::string message) { faults_.push_back({file_, 0, 0, std::move(message), "", false}); }

  void names(const nlohmann::ordered_json& object, std::span<const std::string_view> known, const std::string& under) {
    for (const auto& [key, value] : object.items()) {
      if (std::find(known.begin(), known.end(), key) != known.end()) continue;
      const std::string_view nearest = nearest_name(key, known);
      fault(under + "found \"" + key + "\", expected one of " + quoted_list(known) +
            (nearest.empty() ? "" : "; did you mean \"" + std::string(nearest) + "\"?"));
    }
  }

  template <class Test>
  void properties(const nlohmann::ordered_json& object, const std::string& key, std::span<const std::string_view> known, Test fits,
                  const std::string& expected, std::string& style) {
    if (!object.is_object()) return fault(key + ": expected an object");
    names(object, known, key + ": ");
    for (const std::string_view name : known) {
      const auto value = object.find(std::string(name));
      if (value == object.end()) fault(key + ": \"" + std::string(name) + "\" is missing");
      else if (!value->is_string() || !fits(value->get_ref<const std::string&>()))
        fault(key + "." + std::string(name) + ": found " + value->dump() + ", expected " + expected);
      else
        style += " --" + std::string(name) + ": " + value->get<std::string>() + ";";
    }
  }

  void block(const nlohmann::ordered_json& object, PrintOffice& out) {
    if (!object.is_object()) return fault("block: expected lines by language, as {\"en\": [\"Monday to Friday\"]}");
    for (const auto& [code, lines] : object.items()) {
      if (!lines.is_array()) {
        fault("block." + code + ": expected a list of lines");
        continue;
      }
      for (const auto& line : lines) {
        if (line.is_string()) out.block[code].push_back(line.get<std::string>());
        else fault("block." + code + ": found " + line.dump() + ", expected text");
      }
    }
  }

  const std::string file_;
  std::vector<Diagnostic>& faults_;
};

}  // namespace

PrintOffice read_print_office(std::string_view json, const std::string& file, std::vector<Diagnostic>& faults) {
  return OfficeReader(file, faults).read(json);
}

std::string page_address(const Voice& voice, const std::string& page) {
  const std::string& base = voice.office.address;
  if (base.empty()) return "";
  return base + (base.back() == '/' ? "" : "/") + voice.language.code + "/" + page;
}

Model framed(const Voice& voice, const PrintOffice& office, const Sheet& sheet, const SheetFrame& frame) {
  Model model = sheet.body;
  view_office(voice, model);
  if (const auto own = office.block.find(voice.language.code); own != office.block.end()) {
    model["contact"] = Model::list();
    for (const std::string& line : own->second) model["contact"].add(line);
  }
  model["lang"] = voice.language.code;
  model["title"] = sheet.head.title;
  model["description"] = sheet.head.says;
  model["paper"] = frame.paper.empty() ? "any" : frame.paper;
  model["style"] = frame.style;
  model["has_room"] = !frame.room.empty();
  model["room"] = frame.room;
  bool invented = voice.office.invented;
  std::string records;
  for (const std::size_t place : sheet.places) {
    records += (records.empty() ? "" : " ") + record_line(voice, voice.office.places[place]);
    invented = invented || voice.office.places[place].winters.invented;
  }
  model["invented"] = invented;
  std::vector<std::string> cautions = sheet.cautions;
  std::sort(cautions.begin(), cautions.end());
  cautions.erase(std::unique(cautions.begin(), cautions.end()), cautions.end());
  model["has_cautions"] = !cautions.empty();
  model["cautions"] = view_cautions(voice, cautions);
  model["in_full"] = sheet.cautions_in_full;
  const std::string address = page_address(voice, sheet.page);
  const std::string code = draw::qr(address, voice.say("ui.sheets.qr", {{"address", address}}));
  model["has_qr"] = !code.empty();
  model["qr"] = code;
  model["has_address"] = !voice.office.address.empty();
  model["address"] = voice.office.address;
  model["sources"] = voice.say("ui.handout.sources_line", {{"types", std::to_string(voice.catalog.types.size())},
                                                           {"cultivars", std::to_string(voice.catalog.cultivars.size())},
                                                           {"rootstocks", std::to_string(voice.catalog.rootstocks.size())},
                                                           {"records", records}});
  model["has_date"] = !frame.today.empty();
  model["printed"] = voice.say("ui.handout.printed", {{"date", frame.today}});
  return model;
}

}  // namespace tenwinters
