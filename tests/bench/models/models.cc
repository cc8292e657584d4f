// tenwinters_models FOLDER_OF_THE_PROGRAM [--time]: what the pages of the demo site are made of, as JSON on standard output: the
// models, the languages, and which template makes which page. For site_peer.mjs, which must make the same bytes of it.
// With --time: how long the program itself takes from there.
#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "lib/parallel.h"
#include "load_real.h"
#include "render/page.h"
#include "render/site.h"
#include "screens/screens.h"

namespace tenwinters {
namespace {

using Json = nlohmann::ordered_json;

Json to_json(const Model& model) {
  switch (model.kind()) {
    case Model::Kind::text: return model.text();
    case Model::Kind::flag: return model.flag();
    case Model::Kind::prose: return {{"$prose", model.text()}};
    case Model::Kind::list: {
      Json list = Json::array();
      for (const Model& item : model.items()) list.push_back(to_json(item));
      return list;
    }
    case Model::Kind::object: break;
  }
  Json object = Json::object();
  for (std::size_t i = 0; i < model.names().size(); ++i) object[std::string(model.names()[i].text())] = to_json(model.items()[i]);
  return object;
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// From the models to the pages' text: milliseconds on one thread and on all cores, the best of several rounds.
int time_rendering(const SiteInput& input, const std::vector<Page>& pages) {
  constexpr int kRounds = 15;
  std::map<std::string, std::string> texts;
  for (const auto& [path, text] : input.files)
    if (path.ends_with(".mustache")) texts.emplace(path, text);
  Templates templates(texts, "site-templates");
  double best[2] = {1e9, 1e9};
  for (int round = 0; round < kRounds; ++round)
    for (const bool all : {false, true}) {
      const auto render = [&](std::size_t i) {
        const auto language = std::find_if(input.languages.begin(), input.languages.end(), [&](const Language& each) { return each.code == pages[i].draft.language; });
        if (templates.render(pages[i].draft.form, pages[i].draft.model, *language) != pages[i].text) std::abort();
      };
      const auto began = std::chrono::steady_clock::now();
      if (all) each_in_parallel(pages.size(), render);
      else
        for (std::size_t i = 0; i < pages.size(); ++i) render(i);
      best[all] = std::min(best[all], std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
    }
  std::cout << Json{{"one", best[0]}, {"all", best[1]}}.dump() << '\n';
  return 0;
}

int run(const std::string& programs, bool timed) {
  bool good = true;
  testing::RealCatalog real = testing::load_real([&](const std::string& fault) {
    std::cerr << fault << '\n';
    good = false;
  });
  SiteInput input{real.catalog, real.office, real.descent, real.languages, {}, "site-templates", bytes_of(programs + "/picker.wasm.gz"), real.office.units, real.guidance};
  input.screens_engine = bytes_of(programs + "/screens.wasm.gz");
  input.seasons = screens::seasons_to_json(load_catalog(DiskReader(), std::string(TENWINTERS_SOURCE_DIR) + "/catalog").seasons);
  const std::string folder = std::string(TENWINTERS_SOURCE_DIR) + "/site-templates";
  for (const std::string& sub : template_folders())
    for (const std::string& name : DiskReader().list(folder + "/" + sub)) input.files[sub.empty() ? name : sub + "/" + name] = bytes_of(folder + "/" + sub + "/" + name);
  SiteBuilder builder;
  const Rendered site = builder.build(input, {"kept", "kept"});
  for (const Diagnostic& fault : site.faults) std::cerr << to_text(fault) << '\n';
  if (!good || !site.faults.empty()) return 1;
  if (timed) return time_rendering(input, builder.pages());
  Json out;
  for (const Language& language : real.languages) out["languages"][language.code] = {{"words", language.words}, {"prose", language.prose}};
  for (const Page& page : builder.pages())
    out["pages"].push_back({{"path", page.draft.path}, {"form", page.draft.form}, {"language", page.draft.language}, {"model", to_json(page.draft.model)}});
  std::cout << out.dump() << '\n';
  return 0;
}

}  // namespace
}  // namespace tenwinters

int main(int argc, char** argv) {
  const bool timed = argc == 3 && std::string_view(argv[2]) == "--time";
  if (argc == 2 || timed) return tenwinters::run(argv[1], timed);
  std::cerr << "usage: tenwinters_models FOLDER_OF_THE_PROGRAM [--time]\n";
  return 2;
}
