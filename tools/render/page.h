// What every page of the site shares: head, navigation, foot, and where it lies.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "render/assets.h"
#include "render/site.h"
#include "render/template.h"
#include "render/voice.h"
#include "render/yards.h"

namespace tenwinters {

// Paths of the bound files, from the site's root.
struct SharedAssets {
  std::string style, more_style, icon, picker, engine, data;
  std::map<std::string, std::string> words;  // by language code
  std::map<std::string, std::string> winters;  // by place id
  std::string reckon, search;                // small scripts of single pages
  std::string screens, screens_engine;
  std::map<std::string, std::string> screen_words;
  std::string print_style;                   // of the sheets
};

// A page before it is printed: all but the names of the files that pages share, which are filled in at the end.
struct Draft {
  std::string path;                          // from the site's root
  std::string form;                          // its template
  std::string language;
  Model model;
  bool sheet = false;                        // for paper: with the style of the sheets
  bool scripts = false, screen = false;
  std::vector<std::string> own_scripts;      // from the site's root
  std::vector<std::string SharedAssets::*> shared_scripts;
};

// The files that a page links to, from the site's root.
struct Links {
  std::vector<std::string> styles, scripts;
  std::string icon;
  bool operator==(const Links&) const = default;
};
[[nodiscard]] Links links_of(const Draft& draft, const SharedAssets& shared);

struct Page {
  Draft draft;                               // emptied when the site keeps none
  SharedText text;
  std::string hash;
  Templates::Asked asked = {};               // by its template, of its language
  std::size_t part = 0;                      // of the site
  bool alone = false;                        // can be made without the others of its part: see make_page
  std::vector<Word> words = {};              // if so, that its model was made with
  std::vector<std::string> about = {};       // and whose figures: see make_page
};

struct Site;

// A page still to be made: see make_page.
struct PageToMake {
  std::vector<std::string> about;
  std::function<void(Site&)> add;
};

// What pages are made from, and those that were made: one for each language and kind of page, and one for each page that
// can be made alone, so that several threads can work.
struct Site {
  const SiteInput& input;
  Templates& templates;
  const SharedAssets& shared;
  const YardAdvice& yards;
  const std::vector<const Language*>& languages;  // of the office, in its order
  bool keeps_drafts = false;
  const std::set<std::string>* only = nullptr;    // of the pages that can be made alone, those to be made; nullptr: all
  Assets assets = {};                        // of these pages alone
  std::vector<Page> pages = {};
  std::vector<PageToMake> to_make = {};
  std::vector<Diagnostic> faults = {};
};

struct PageHead {
  std::string path;         // in the language's folder: "types/satsuma.html"
  std::string title, description;
  std::string nav;          // id of the navigation entry it belongs to
  bool scripts = false;     // the picker's page
  std::vector<std::string> own_scripts = {};  // of this page alone, from the site's root
  std::vector<std::string SharedAssets::*> shared_scripts = {};  // after those
  // For programs that read pages, in the words of schema.org: what kind of page it is, and the plant that it is
  // about, by its names.
  std::string kind = "WebPage";
  std::vector<std::string> plant_names = {};
  bool screen = false;      // a page of its own engine: see screen_pages.cc
};

// Renders `name` with the model and what all pages share, and adds it to the site.
void add_page(Site& site, const Voice& voice, const std::string& name, PageHead head, Model model);

// What a page can be about, of the things that change while a site is watched: a kind, by its id, with its traits and how
// it fares in each common yard; one such yard with all that is advised there; or all of these.
[[nodiscard]] std::string about_yard(const Place& place, std::string_view yard);
inline constexpr const char* kAboutAll = "*";

// Has `add` called later, unless `path` in the language's folder is not among the pages to be made: in any thread and with
// a site of the page's own, to which it adds the one page. A site that keeps its drafts notes the page's words, and can
// make it anew without the others of its kind: so `add` must itself ask for every word that the page says, and `about`
// name all whose figures it says. What `add` refers to must last as long as voice, input and advice.
void make_page(Site& site, const Voice& voice, const std::string& path, std::vector<std::string> about, std::function<void(Site&)> add);

// Prints a draft as it is and adds it.
void add_draft(Site& site, const Language& language, Draft draft);

// Prints it, once more if need be.
void print(Page& page, Templates& templates, const SharedAssets& shared, const Language& language);

// The way from a page back to its language's folder: "" or "../".
[[nodiscard]] std::string way_up(const std::string& path);

// Office name, contact lines and whether it is invented, for pages and print alike.
void view_office(const Voice& voice, Model& model);

// Each adds the pages of one kind in one language.
void add_home(Site& site, const Voice& voice);
void add_yard_pages(Site& site, const Voice& voice);
void add_type_pages(Site& site, const Voice& voice);
void add_cultivar_pages(Site& site, const Voice& voice);
void add_rootstock_page(Site& site, const Voice& voice);
void add_sources_page(Site& site, const Voice& voice);
void add_call_pages(Site& site, const Voice& voice);
void add_guide_pages(Site& site, const Voice& voice);
void add_pollen_page(Site& site, const Voice& voice);
void add_search_page(Site& site, const Voice& voice);
void add_print_room(Site& site, const Voice& voice);
void add_screen_pages(Site& site, const Voice& voice);

}  // namespace tenwinters
