// Who sets fruit alone, who needs whom, and who makes whom seedy: by the plan's own rules of pollen.
#include <algorithm>

#include "draw/draw.h"
#include "render/guide_view.h"
#include "render/page.h"
#include "tenwinters/plan.h"

namespace tenwinters {
namespace {

using draw::PollenTable;
constexpr double kMoreSeeds = 2;  // seeds a fruit that are worth a mark

std::string say(const Voice& voice, const std::string& key, Voice::Fills fills = {}) { return voice.say("reading." + key, fills); }

// As much of a tree as the rules of pollen ask for.
PlanTree as_tree(const Cultivar& cultivar) {
  PlanTree tree;
  tree.id = cultivar.id;
  tree.type = cultivar.type;
  tree.needs_partner = cultivar.traits.sets_fruit.is == SetsFruit::partner_needed;
  tree.bloom = months_of(cultivar.traits.bloom.from_month, cultivar.traits.bloom.to_month);
  tree.pollen = cultivar.traits.pollen.is;
  tree.partners = cultivar.partners;
  tree.not_partners = cultivar.not_partners;
  return tree;
}

struct Kind {
  const CitrusType* type = nullptr;
  std::vector<std::pair<PlanTree, bool>> trees;  // and whether pollen makes it seedy
};

std::vector<Kind> kinds_of(const Catalog& catalog) {
  std::vector<Kind> kinds;
  for (const CitrusType& type : catalog.types) {
    Kind kind{&type, {}};
    for (const Cultivar& cultivar : catalog.cultivars)
      if (cultivar.type == type.id)
        kind.trees.emplace_back(as_tree(cultivar), cultivar.traits.seeds_with_pollen.best - cultivar.traits.seeds_alone.best >= kMoreSeeds);
    if (!kind.trees.empty()) kinds.push_back(std::move(kind));
  }
  std::sort(kinds.begin(), kinds.end(), [](const Kind& a, const Kind& b) { return a.type->trade_order < b.type->trade_order; });
  return kinds;
}

// Over all pairs of a taker's and a giver's cultivars. A tree that needs a partner is not blamed for its seeds.
PollenTable::Cell cell_of(const Kind& taker, const Kind& giver) {
  int pairs = 0, meet = 0, fruit = 0, seeds = 0;
  for (const auto& [to, seedy] : taker.trees)
    for (const auto& [from, unused] : giver.trees) {
      if (to.id == from.id) continue;
      ++pairs;
      const bool lands = makes_seeds_in(from, to);
      meet += lands ? 1 : 0;
      fruit += to.needs_partner && sets_fruit_of(from, to) ? 1 : 0;
      seeds += !to.needs_partner && seedy && lands ? 1 : 0;
    }
  const auto reach = [&](int n) { return n == 0 ? PollenTable::Reach::none : n == pairs ? PollenTable::Reach::all : PollenTable::Reach::some; };
  return {meet > 0, reach(fruit), reach(seeds)};
}

Model view_matrix(const Voice& voice) {
  const std::vector<Kind> kinds = kinds_of(voice.catalog);
  PollenTable table;
  for (const Kind& kind : kinds) table.kinds.push_back(voice.say("types." + kind.type->id + ".plural"));
  for (const Kind& taker : kinds) {
    std::vector<PollenTable::Cell>& row = table.cells.emplace_back();
    for (const Kind& giver : kinds) row.push_back(cell_of(taker, giver));
  }
  table.fruit_key = say(voice, "pollen_key_sets");
  table.seeds_key = say(voice, "pollen_key_seeds");
  table.nothing_key = say(voice, "pollen_key_none");
  table.blank_key = say(voice, "pollen_key_blank");
  const std::string title = say(voice, "pollen_drawn");
  table.caption = {"pollen", title, say(voice, "pollen_says")};
  Model out = plain_figure(title, say(voice, "pollen_note"), draw::pollen_table(table, draw::Form::wide), draw::pollen_table(table, draw::Form::slim));
  out["tabled"] = true;
  out["head"].add(say(voice, "pollen_col_sets"));
  out["head"].add(say(voice, "pollen_col_seeds"));
  for (std::size_t t = 0; t < kinds.size(); ++t) {
    const auto names = [&](PollenTable::Reach PollenTable::Cell::*which) {
      std::string text;
      for (std::size_t g = 0; g < kinds.size(); ++g) {
        const PollenTable::Reach reach = table.cells[t][g].*which;
        if (reach == PollenTable::Reach::none) continue;
        text += (text.empty() ? "" : ", ") + (reach == PollenTable::Reach::all ? table.kinds[g] : say(voice, "pollen_some", {{"kind", table.kinds[g]}}));
      }
      return text.empty() ? voice.say("ui.none") : text;
    };
    Model& row = out["rows"].add();
    row["label"] = table.kinds[t];
    row["cells"].add(names(&PollenTable::Cell::fruit));
    row["cells"].add(names(&PollenTable::Cell::seeds));
  }
  return out;
}

}  // namespace

void add_pollen_page(Site& site, const Voice& voice) {
  Model page;
  page["figure"] = view_matrix(voice);
  Advised shown;
  shown.shows = {Shown::partners, Shown::seedy};
  page["blocks"] = view_local(voice, shown, "", "", 2);
  page["kinds"] = Model::list();
  for (const Kind& kind : kinds_of(voice.catalog)) {
    Model& group = page["kinds"].add();
    group["name"] = voice.say("types." + kind.type->id + ".plural");
    group["href"] = "types/" + kind.type->id + ".html";
    group["rows"] = Model::list();
    for (const auto& [tree, seedy] : kind.trees) {
      const Cultivar& cultivar = *find_cultivar(voice.catalog, tree.id);
      Model& row = group["rows"].add();
      row["name"] = cultivar.name;
      row["href"] = "cultivars/" + cultivar.id + ".html";
      row["sets"] = voice.word("sets_fruit", name_of(cultivar.traits.sets_fruit.is));
      row["pollen"] = voice.word("pollen_worth", name_of(cultivar.traits.pollen.is));
      row["alone"] = guide_value(voice, GuideUnit::count, cultivar.traits.seeds_alone.best);
      row["near"] = guide_value(voice, GuideUnit::count, cultivar.traits.seeds_with_pollen.best);
    }
  }
  add_page(site, voice, "pollen.mustache", {"pollen.html", say(voice, "pollen_title"), say(voice, "pollen_lede"), "pollen", false}, std::move(page));
}

}  // namespace tenwinters
