// tenwinters handout: sheets for paper, as print HTML and as PDF.
#include <fmt/core.h>

#include <cstdio>
#include <memory>

#include "cli/callers.h"
#include "cli/commands.h"
#include "cli/paper.h"
#include "cli/publish.h"
#include "cli/yard_options.h"
#include "render/handout.h"

namespace tenwinters::cli {
namespace {

struct HandoutOptions {
  std::vector<std::string> kinds, types;
  PaperOptions paper;
  YardOptions yard;
  CallerOptions callers;
};

constexpr std::string_view kAll = "all";

// The sheets asked for. 0 or the exit status.
int read_kinds(const HandoutOptions& options, HandoutOrder& order) {
  std::vector<std::string_view> known(names_of<SheetKind>().begin(), names_of<SheetKind>().end());
  known.push_back(kAll);
  for (const std::string& kind : options.kinds) {
    if (kind == kAll) {
      for (const SheetKind each : {SheetKind::county, SheetKind::night, SheetKind::planting, SheetKind::key, SheetKind::types}) order.kinds.insert(each);
    } else if (const std::optional<SheetKind> named = parse<SheetKind>(kind)) {
      order.kinds.insert(*named);
    } else {
      complain("no sheet \"" + kind + "\"; expected one of county, night, planting, key, types, yard, all", std::string(nearest_name(kind, known)));
      return kMisuse;
    }
  }
  if (!options.types.empty()) order.kinds.insert(SheetKind::types);
  return kDone;
}

int run_handout(const Session& session, const HandoutOptions& options) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  HandoutOrder order;
  order.papers = papers_of(options.paper, {Paper::letter, Paper::a4});
  order.today = session.today;
  order.language = session.language;
  order.types = options.types;
  order.together = options.callers.together;
  if (const int status = read_kinds(options, order)) return status;
  for (const std::string& type : options.types) {
    if (find_type(loaded.catalog, type)) continue;
    std::vector<std::string_view> ids;
    for (const CitrusType& known : loaded.catalog.types) ids.push_back(known.id);
    complain("no kind \"" + type + "\"", std::string(nearest_name(type, ids)));
    return kMisuse;
  }
  int findings = kDone;
  const bool asks = !options.yard.answers.empty() || !options.yard.answers_file.empty() || !options.callers.link.empty() || !options.callers.batch.empty();
  if (asks || order.kinds.contains(SheetKind::yard)) {
    order.kinds.insert(SheetKind::yard);
    if (const int status = read_households(options.yard, options.callers, loaded, order.households)) {
      if (order.households.empty() || status == kMisuse) return status;
      findings = status;  // the others are still made
    }
  } else if (!options.yard.place.empty()) {
    if (find_place(loaded.office, options.yard.place) == nullptr) {
      std::vector<std::string_view> ids;
      for (const Place& place : loaded.office.places) ids.push_back(place.id);
      complain("no place \"" + options.yard.place + "\" in this office", std::string(nearest_name(options.yard.place, ids)));
      return kMisuse;
    }
    order.places = {options.yard.place};
  }
  if (order.kinds.empty()) order.kinds.insert(SheetKind::county);
  SiteInput input{loaded.catalog, loaded.office, loaded.descent, loaded.languages, {}, find_templates(options.paper.templates, loaded.root), "", loaded.units};
  if (!read_templates(input.folder, input.files)) return kFindings;
  const Rendered sheets = render_handouts(input, order);
  if (const int status = publish(sheets, options.paper.out)) return status;
  const int status = put_on_paper(sheets, options.paper);
  return status != kDone ? status : findings;
}

}  // namespace

void add_handout(const Command& app, Session& session) {
  const Command command = app.add_command("handout", "Make sheets for print: county, cold night, planting, paper key, kinds, one household's");
  const auto options = std::make_shared<HandoutOptions>();
  command.add_option("SHEET", options->kinds, "county (default), night, planting, key, types, yard, or all but yard").take_all();
  command.add_option("--type", options->types, "Only this kind's sheet; may be given again and again").type_name("ID").take_all();
  add_paper_options(command, options->paper, {"letter", "a4"});
  add_answer_options(command, options->yard);
  add_caller_options(command, options->callers);
  command.footer(
      "--place limits the sheets of places to one. Answers, a link or a batch make the sheets of households.\n"
      "Example:\n"
      "  tenwinters handout --pdf --paper letter --out handouts\n"
      "  tenwinters handout night planting --place gannet_quay --pdf --out handouts\n"
      "  tenwinters handout --answer sun=full --answer planting=ground --pdf --out handouts\n"
      "  tenwinters handout --batch callers.csv --together --lang es --pdf --out handouts");
  command.does(session, [&session, options] { return run_handout(session, *options); });
}

}  // namespace tenwinters::cli
