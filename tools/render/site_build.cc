// The whole site from its parts: what pages share, the pages of every language, and what a rebuild may take over.
#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <utility>

#include "lib/parallel.h"
#include "lib/things.h"
#include "render/advice_view.h"
#include "render/fact_view.h"
#include "render/handout.h"
#include "render/page.h"
#include "wire/wire.h"

namespace tenwinters {
namespace {

// The files under `prefix`, without it.
std::map<std::string, std::string> under(const std::map<std::string, std::string>& files, const std::string& prefix) {
  std::map<std::string, std::string> out;
  for (auto file = files.lower_bound(prefix); file != files.end() && file->first.compare(0, prefix.size(), prefix) == 0; ++file)
    out.emplace(file->first.substr(prefix.size()), file->second);
  return out;
}

std::string text_of(const SiteInput& input, const std::string& path, std::vector<Diagnostic>& faults) {
  const auto file = input.files.find(path);
  if (file != input.files.end()) return file->second;
  faults.push_back({input.folder + "/" + path, 0, 0, "the file is missing", "", false});
  return "";
}

std::string file_name(const std::string& path) { return path.substr(path.rfind('/') + 1); }

// True for a word of the pages of the second engine, which says most words itself.
bool screens_say(std::string_view key, const NamedWords& script) {
  constexpr std::string_view kSections[] = {"language.", "units.", "questions.", "enums.", "criteria.", "protections.", "spots.", "cautions.",
                                            "limits.", "reasons.", "shelves.", "calendar.", "night.", "yard_plan.", "explain.", "screens.",
                                            "ui.ruler_", "ui.year_", "ui.fig_", "ui.chance", "ui.nights", "ui.date", "ui.range", "ui.on_stock",
                                            "ui.never", "ui.why_", "ui.record", "ui.basis.", "ui.cautions_", "ui.find_out", "ui.as_table",
                                            "ui.none", "things.", "ui.notes_", "ui.invented_notice", "terminal.on_stock"};
  if (key.starts_with("types.")) return key.ends_with(".name");
  if (key.starts_with("questions.") && key.ends_with(".why")) return false;
  return std::any_of(std::begin(kSections), std::end(kSections), [&](std::string_view start) { return key.starts_with(start); }) || script.contains(key);
}

// A page's words and the names of things, in one language.
template <class Says>
std::string page_words(const SiteInput& input, const SharedAssets& shared, const Language& language, const std::string& script, const Says& says) {
  // Section within section, as the file has them: a page has less to fetch.
  nlohmann::ordered_json words;
  const NamedWords named(script);
  for (const auto& [key, text] : language.words) {
    if (!says(key, named)) continue;
    nlohmann::ordered_json* at = &words;
    for (std::size_t from = 0; from <= key.size();) {
      const std::size_t dot = std::min(key.find('.', from), key.size());
      at = &(*at)[key.substr(from, dot - from)];
      from = dot + 1;
    }
    *at = text;
  }
  const Voice voice{input.catalog, input.office, language, input.units};
  nlohmann::ordered_json out;
  out["words"] = std::move(words);
  out["units"] = name_of(input.units);
  for (const Cultivar& c : input.catalog.cultivars) out["cultivars"][c.id] = {c.name, c.type};
  for (const Rootstock& r : input.catalog.rootstocks) out["rootstocks"][r.id] = r.name;
  for (const Caution& c : input.catalog.cautions) out["cautions"][c.id] = name_of(c.severity);
  out["places"] = nlohmann::ordered_json::array();
  for (const Place& p : input.office.places)
    out["places"].push_back({{"id", p.id}, {"name", voice.of(p.name)}, {"record", record_line(voice, p)}, {"winters", file_name(shared.winters.at(p.id))}});
  out["questions"] = nlohmann::ordered_json::array();
  for (const Question& q : input.catalog.questions) {
    nlohmann::ordered_json answers = nlohmann::ordered_json::array();
    for (const Answer& a : q.answers) answers.push_back(a.id);
    out["questions"].push_back({{"id", q.id}, {"answers", answers}});
  }
  for (const LocalRule& rule : input.office.rules) out["rules"][rule.id] = {voice.of(rule.says), voice.of(rule.ask)};
  return "window.tenwintersWords=" + out.dump() + ";\n";
}

// What an office's data comes to, and the words of the pages' scripts: some time goes into them.
struct Packed {
  std::map<std::string, std::string> winters;  // by place
  std::string data;
};

// The winters are most of an office's data: a page fetches those of its reader's place alone.
std::map<std::string, std::string> packed_winters(const SiteInput& in) {
  std::map<std::string, std::string> out;
  for (const Place& place : in.office.places)
    out[place.id] = "(window.tenwintersWinters ||= {})[\"" + place.id + "\"]=\"" + base64(gzip(winters_to_json(place.winters))) + "\";\n";
  return out;
}

std::string packed_data(const SiteInput& in) {
  Office without = in.office;
  for (Place& place : without.places) place.winters = {};
  // One line each, for neither text holds a line break of its own.
  return "window.tenwintersData=\"" + base64(gzip(catalog_to_json(in.catalog) + "\n" + office_to_json(without))) + "\";\n";
}

// Words for scripts, with what they were made from: made again when that has changed.
class ScriptWords {
 public:
  struct Wanted {
    std::string name;
    const std::string* script;
    std::function<std::string()> make;
  };
  void make(const std::vector<Wanted>& all) {
    std::vector<std::pair<const Wanted*, Made*>> stale;
    for (const Wanted& one : all)
      if (Made& made = made_[one.name]; made.text.empty() || made.script != *one.script) stale.emplace_back(&one, &made);
    each_in_parallel(stale.size(), [&](std::size_t i) { *stale[i].second = {*stale[i].first->script, stale[i].first->make()}; });
  }
  [[nodiscard]] const std::string& get(const std::string& name) const { return made_.at(name).text; }
  void forget(const std::string& name) { made_.erase(name); }

 private:
  struct Made { std::string script, text; };
  std::map<std::string, Made> made_;
};

struct Common {
  Assets assets;
  SharedAssets shared;
  std::vector<Diagnostic> faults;
};

Common make_common(const SiteInput& in, const std::vector<const Language*>& languages, const Packed& packed, ScriptWords& words) {
  Common out;
  Assets& assets = out.assets;
  SharedAssets& shared = out.shared;
  const std::map<std::string, std::string> beside = under(in.files, "assets/"), modules = under(in.files, "js/");
  const auto bundle = [&](const char* entry) { return bundle_modules(modules, entry, in.folder + "/js", out.faults); };
  for (const auto& [name, text] : beside)
    if (name.ends_with(".txt")) assets.add_plain(name, text);
  const auto add_style = [&](const std::string& name) {
    return assets.add_style(name, text_of(in, "assets/" + name, out.faults), beside, in.folder + "/assets", out.faults);
  };
  shared.style = add_style("style.css");
  shared.more_style = add_style("pages.css");
  shared.print_style = add_print_style(in, find_print_office(in, out.faults), "print.css", assets, out.faults);
  shared.icon = assets.add("icon.svg", text_of(in, "assets/icon.svg", out.faults));
  const std::string script = bundle("main.js"), screens = bundle("screens.js");
  shared.picker = assets.add("picker.js", script);
  shared.reckon = assets.add("reckon.js", bundle("reckon.js"));
  shared.search = assets.add("search.js", bundle("search.js"));
  shared.screens = assets.add("screens.js", screens);
  shared.engine = assets.add("engine.js", "window.tenwintersEngine=\"" + base64(in.engine) + "\";\n");
  shared.screens_engine = assets.add("screens-engine.js", "window.tenwintersEngine=\"" + base64(in.screens_engine) + "\";\n");
  for (const auto& [place, text] : packed.winters) shared.winters[place] = assets.add("winters-" + place + ".js", text);
  shared.data = assets.add("data.js", packed.data);
  std::vector<ScriptWords::Wanted> wanted;
  for (const Language* language : languages) {
    wanted.push_back({"words-" + language->code, &script, [&, language] { return page_words(in, shared, *language, script, picker_says); }});
    wanted.push_back({"screen-words-" + language->code, &screens, [&, language] {
      Language named = *language;
      add_names(named, in.catalog, in.office);
      return page_words(in, shared, named, screens, screens_say) + "window.tenwintersSeasons=" + js_string(in.seasons) + ";\n";
    }});
  }
  words.make(wanted);
  for (const Language* language : languages) {
    const std::string& code = language->code;
    shared.words[code] = assets.add("words-" + code + ".js", words.get("words-" + code));
    shared.screen_words[code] = assets.add("screen-words-" + code + ".js", words.get("screen-words-" + code));
  }
  return out;
}

// The site's front door: sends a visitor to the office's first language, and offers the others.
Page front_door(const Site& site) {
  const Voice voice{site.input.catalog, site.input.office, *site.languages.front(), site.input.units};
  Model model;
  view_office(voice, model);
  model["lang"] = voice.language.code;
  model["style"] = site.shared.style;
  model["icon"] = site.shared.icon;
  model["first"] = voice.language.code + "/index.html";
  model["languages"] = Model::list();
  for (const Language* language : site.languages) {
    Model& row = model["languages"].add();
    row["code"] = language->code;
    row["name"] = language->say("language.name");
    row["href"] = language->code + "/index.html";
  }
  Page page;
  page.draft.path = "index.html";
  page.text = site.templates.render("front.mustache", model, voice.language);
  page.hash = content_hash(page.text.text());
  return page;
}

std::string sitemap(std::string base, const std::vector<const Page*>& pages) {
  if (base.back() != '/') base += '/';
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n";
  for (const Page* page : pages) text += "<url><loc>" + base + page->draft.path + "</loc></url>\n";
  return text + "</urlset>\n";
}

// The service worker, at the site's root so that it may keep all of it: what the picker needs at once, and with it the
// start page of each language; other pages as they are read. `kept` changes when any page does.
std::string worker(const SiteInput& input, const std::vector<const Language*>& languages, const std::vector<OutputFile>& assets,
                   const std::string& kept, std::vector<Diagnostic>& faults) {
  std::vector<std::string> files = {"index.html"};
  for (const Language* language : languages) files.push_back(language->code + "/index.html");
  for (const OutputFile& asset : assets) files.push_back(asset.path);
  std::sort(files.begin(), files.end());
  files.erase(std::unique(files.begin(), files.end()), files.end());
  return "const kept = \"" + kept.substr(0, 10) + "\";\nconst files = " + nlohmann::json(files).dump() + ";\n" +
         bundle_modules(under(input.files, "js/"), "worker.js", input.folder + "/js", faults);
}

// The files at the top of the templates' folder: templates, or others.
std::map<std::string, std::string> at_top(const std::map<std::string, std::string>& files, bool templates) {
  std::map<std::string, std::string> out;
  for (const auto& [path, text] : files)
    if (path.find('/') == std::string::npos && path.ends_with(".mustache") == templates) out.emplace(path, text);
  return out;
}

constexpr void (*kSections[])(Site&, const Voice&) = {add_cultivar_pages, add_yard_pages, add_print_room,  add_type_pages,   add_home,      add_call_pages,
                                                      add_guide_pages,    add_pollen_page, add_search_page, add_screen_pages, add_rootstock_page, add_sources_page};

// The same languages with a prose of the same things.
bool alike(const std::vector<Language>& a, const std::vector<Language>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Language& one, const Language& other) {
    return one.code == other.code &&
           std::equal(one.prose.begin(), one.prose.end(), other.prose.begin(), other.prose.end(), [](const auto& p, const auto& q) { return p.first == q.first; });
  });
}

// The words of alike languages, or the prose, that are not the same in both.
std::set<Word> changed_texts(const std::vector<Language>& before, const std::vector<Language>& now, decltype(Language::words) Language::*texts) {
  std::set<Word> out;
  for (std::size_t i = 0; i < now.size(); ++i) {
    const auto lacks = [&](const Language& one, const Language& other) {
      for (const auto& [key, text] : one.*texts)
        if (const auto same = (other.*texts).find(key); same == (other.*texts).end() || same->second != text) out.emplace(one.code, key);
    };
    lacks(before[i], now[i]);
    lacks(now[i], before[i]);
  }
  return out;
}

// True if kinds are the same but for their traits; the ids of those whose traits are not go to `changed`.
template <class Kind>
bool same_but_traits(const std::vector<Kind>& before, const std::vector<Kind>& now, std::set<std::string>& changed) {
  return std::equal(before.begin(), before.end(), now.begin(), now.end(), [&](const Kind& was, const Kind& is) {
    if (was == is) return true;
    changed.insert(is.id);
    Kind other = was;
    other.traits = is.traits;
    if constexpr (requires { other.cold_offset_c; }) other.cold_offset_c = is.cold_offset_c;
    return other == is;
  });
}

// The trees that fare otherwise than before, in one yard.
void note_changed_trees(const Advice& before, const Advice& now, std::set<std::string>& changed) {
  const auto lacks = [&](const Advice& one, const Advice& other) {
    for (const Candidate& candidate : one.candidates)
      if (const Candidate* same = find_candidate(other, candidate.cultivar); !same || *same != candidate) changed.insert(candidate.cultivar);
  };
  lacks(before, now);
  lacks(now, before);
}

}  // namespace

struct SiteBuilder::Kept {
  Figures figures;                              // what all below was made from; none: nothing is kept
  std::map<std::string, std::string> settings;  // files of the templates' folder that are no templates
  std::vector<Language> languages;
  std::vector<CitrusType> types;
  std::vector<Cultivar> cultivars;
  Descent descent;
  YardsMemory memory;
  YardAdvice yards;
  Packed packed;
  ScriptWords words;
  SharedAssets shared;
  std::vector<Page> pages;                      // none: to be made anew
  std::vector<std::vector<OutputFile>> own;     // assets of single pages, by part
  std::vector<std::vector<Word>> words_of;      // that models were made with, but those of pages that can be made alone, by part
  std::map<std::string, std::string> sources;   // of the templates, by name
};

SiteBuilder::SiteBuilder() : kept_(std::make_unique<Kept>()) {}
SiteBuilder::~SiteBuilder() = default;

const std::vector<Page>& SiteBuilder::pages() const { return kept_->pages; }

// False if more of the input has changed than traits of kinds, and with them the advice; else what pages may be about.
bool SiteBuilder::note_changed_figures(const SiteInput& input, const YardAdvice& yards, std::set<std::string>& changed) const {
  const Kept& kept = *kept_;
  if (!same_but_traits(kept.types, input.catalog.types, changed) || !same_but_traits(kept.cultivars, input.catalog.cultivars, changed) ||
      kept.descent != input.descent)
    return false;
  for (std::size_t p = 0; p < yards.advice.size(); ++p)
    for (std::size_t y = 0; y < yards.yards.size(); ++y) {
      const Advice &before = kept.yards.advice[p][y], &now = yards.advice[p][y];
      if (before == now) continue;
      changed.insert(about_yard(input.office.places[p], yards.yards[y].id));
      note_changed_trees(before, now, changed);
    }
  if (!changed.empty()) changed.insert(kAboutAll);
  return true;
}

Rendered SiteBuilder::build(const SiteInput& input, const Figures& figures) {
  Kept& kept = *kept_;
  std::vector<Diagnostic> faults;
  std::map<std::string, std::string> settings = at_top(input.files, false);
  Templates templates(at_top(input.files, true), input.folder);
  std::vector<const Language*> languages;
  for (const std::string& code : input.office.languages)
    for (const Language& language : input.languages)
      if (language.code == code) languages.push_back(&language);

  const bool keeps = !figures.all.empty(), same_rest = keeps && kept.figures.rest == figures.rest && kept.settings == settings;
  bool same_content = same_rest && alike(kept.languages, input.languages), yards_faulty = false;
  std::set<std::string> figures_changed;  // what pages may be about
  if (!same_rest || kept.figures != figures) {
    if (!same_rest) kept.memory.clear();
    YardAdvice yards = advise_yards(input.catalog, input.office,
                                    read_yards(text_of(input, "yards.json", faults), input.folder + "/yards.json", input.catalog, faults),
                                    keeps ? &kept.memory : nullptr, [&] {
                                      if (!same_rest) kept.packed.winters = packed_winters(input);
                                      kept.packed.data = packed_data(input);
                                    });
    yards_faulty = !faults.empty();
    same_content = same_content && note_changed_figures(input, yards, figures_changed);
    kept.yards = std::move(yards);
    kept.types = input.catalog.types;
    kept.cultivars = input.catalog.cultivars;
    kept.descent = input.descent;
  }
  std::set<Word> words, prose;  // that have changed
  if (same_content) {
    words = changed_texts(kept.languages, input.languages, &Language::words);
    prose = changed_texts(kept.languages, input.languages, &Language::prose);
    for (const auto& [code, key] : words)
      for (const char* name : {"words-", "screen-words-"}) kept.words.forget(name + code);
  } else {
    kept.words = {};
    kept.pages.clear();
  }
  Common common = make_common(input, languages, kept.packed, kept.words);
  faults.insert(faults.end(), common.faults.begin(), common.faults.end());

  // A part is one kind of page in one language. Those are made whose words have changed, or all; and of the pages that
  // can be made alone only those whose own words have.
  const bool all = kept.pages.empty();
  kept.own.resize(std::size(kSections) * languages.size());
  kept.words_of.resize(kept.own.size());
  const auto any = [&](const std::vector<Word>& asked) {
    return !words.empty() && std::any_of(asked.begin(), asked.end(), [&](const Word& word) { return words.contains(word); });
  };
  std::vector<std::set<std::string>> alone(kept.own.size());  // paths, by part
  for (const Page& page : kept.pages)
    if (any(page.words) || std::any_of(page.about.begin(), page.about.end(), [&](const std::string& one) { return figures_changed.contains(one); }))
      alone[page.part].insert(page.draft.path);
  std::vector<std::size_t> made;
  for (std::size_t part = 0; part < kept.own.size(); ++part)
    if (all || !figures_changed.empty() || any(kept.words_of[part]) || !alone[part].empty()) made.push_back(part);
  std::erase_if(kept.pages, [&](const Page& page) {
    return std::binary_search(made.begin(), made.end(), page.part) && (!page.alone || alone[page.part].contains(page.draft.path));
  });
  reprint(languages, templates, common.shared, words, prose);
  std::vector<Voice> voices;
  for (const Language* language : languages) voices.push_back({input.catalog, input.office, *language, input.units});
  const Site none{input, templates, common.shared, kept.yards, languages, keeps};
  const auto heard = [&](const std::function<void()>& make) {
    std::optional<WordsAsked> asked;
    if (keeps) asked.emplace();
    make();
    return asked ? asked->words() : std::vector<Word>();
  };
  std::vector<Site> parts(made.size(), none);
  each_in_parallel(parts.size(), [&](std::size_t i) {
    const std::size_t part = made[i];
    if (!all) parts[i].only = &alone[part];
    kept.words_of[part] = heard([&] { kSections[part / languages.size()](parts[i], voices[part % languages.size()]); });
  });
  std::vector<std::pair<const PageToMake*, std::size_t>> to_make;  // and its part
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (const PageToMake& page : parts[i].to_make) to_make.emplace_back(&page, made[i]);
  std::vector<Site> singles(to_make.size(), none);
  each_in_parallel(singles.size(), [&](std::size_t i) {
    const PageToMake& what = *to_make[i].first;
    std::vector<Word> asked = heard([&] { what.add(singles[i]); });
    Page& page = singles[i].pages.front();
    page.part = to_make[i].second;
    page.alone = true;
    page.about = what.about;
    page.words = std::move(asked);
  });
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (Page& page : parts[i].pages) page.part = made[i];
    kept.own[made[i]] = parts[i].assets.files();
  }
  for (std::vector<Site>* each : {&parts, &singles})
    for (Site& site : *each) {
      std::move(site.pages.begin(), site.pages.end(), std::back_inserter(kept.pages));
      std::move(site.faults.begin(), site.faults.end(), std::back_inserter(faults));
    }
  std::sort(kept.pages.begin(), kept.pages.end(), [](const Page& a, const Page& b) { return a.draft.path < b.draft.path; });

  Rendered out;
  out.files = common.assets.files();
  for (const std::vector<OutputFile>& files : kept.own) out.files.insert(out.files.end(), files.begin(), files.end());
  std::vector<const Page*> pages;
  for (const Page& page : kept.pages) pages.push_back(&page);
  Page front;
  if (!languages.empty()) {
    front = front_door({input, templates, common.shared, kept.yards, languages});
    pages.insert(std::upper_bound(pages.begin(), pages.end(), &front, [](const Page* a, const Page* b) { return a->draft.path < b->draft.path; }), &front);
  }
  std::string hashes;
  for (const Page* page : pages) hashes += page->hash;
  std::string worker_text = worker(input, languages, out.files, content_hash(hashes), faults);
  out.files.push_back({"worker.js", std::move(worker_text)});
  if (!input.office.address.empty()) out.files.push_back({"sitemap.xml", sitemap(input.office.address, pages)});
  for (const Page* page : pages) out.files.push_back({page->draft.path, page->text});
  std::sort(out.files.begin(), out.files.end(), [](const OutputFile& a, const OutputFile& b) { return a.path < b.path; });

  faults.insert(faults.end(), templates.faults().begin(), templates.faults().end());
  sort_diagnostics(faults);
  out.faults = std::move(faults);
  // What has a fault must say so again next time.
  kept.figures = yards_faulty ? Figures{} : figures;
  if (!keeps || !out.faults.empty()) kept.pages.clear();
  kept.settings = std::move(settings);
  kept.languages = input.languages;
  kept.shared = std::move(common.shared);
  kept.sources.clear();
  for (const Page& page : kept.pages) kept.sources.try_emplace(page.draft.form, templates.source(page.draft.form));
  return out;
}

// Pages whose template, prose, words or shared files have changed.
void SiteBuilder::reprint(const std::vector<const Language*>& languages, Templates& templates, const SharedAssets& shared, const std::set<Word>& words,
                          const std::set<Word>& prose) {
  Kept& kept = *kept_;
  if (kept.pages.empty()) return;
  std::set<std::string> changed_forms;
  for (const auto& [form, source] : kept.sources)
    if (templates.source(form) != source) changed_forms.insert(form);
  using Keys = std::map<std::string_view, std::set<std::string_view>>;  // by language
  const auto by_language = [](const std::set<Word>& changed) {
    Keys keys;
    for (const auto& [code, key] : changed) keys[code].insert(key);
    return keys;
  };
  const Keys word_keys = by_language(words), prose_keys = by_language(prose);
  std::vector<Page*> stale;
  for (Page& page : kept.pages) {
    const auto any = [&](const std::vector<std::string>& asked, const Keys& changed) {
      const auto own = changed.find(page.draft.language);
      return own != changed.end() && std::any_of(asked.begin(), asked.end(), [&](const std::string& key) { return own->second.contains(key); });
    };
    const bool same_links = links_of(page.draft, shared) == links_of(page.draft, kept.shared);
    if (!same_links || changed_forms.contains(page.draft.form) || any(page.asked.words, word_keys) || any(page.asked.prose, prose_keys))
      stale.push_back(&page);
  }
  each_in_parallel(stale.size(), [&](std::size_t i) {
    const auto language = std::find_if(languages.begin(), languages.end(), [&](const Language* each) { return each->code == stale[i]->draft.language; });
    print(*stale[i], templates, shared, **language);
  });
}

Rendered render_site(const SiteInput& input) { return SiteBuilder().build(input, {}); }

}  // namespace tenwinters
