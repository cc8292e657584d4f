// The pages that run the engine with a form of their own: compare, yard plan, tonight's freeze, calendar.
// Each is one template with its name; site-templates/js/screens.js does the rest.
#include "render/page.h"

namespace tenwinters {
namespace {

constexpr const char* kScreens[] = {"calendar", "compare", "night", "plan"};

}  // namespace

void add_screen_pages(Site& site, const Voice& voice) {
  for (const std::string id : kScreens) {
    Model page;
    page["screen"] = id;
    const std::string words = "screens." + id;
    page["heading"] = voice.say(words + ".title");
    page["lede"] = voice.say(words + ".lede");
    PageHead head{id + ".html", voice.say(words + ".title"), voice.say(words + ".lede"), "home"};
    head.screen = true;
    add_page(site, voice, "screen.mustache", head, std::move(page));
  }
}

}  // namespace tenwinters
