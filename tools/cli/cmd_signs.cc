// tenwinters signs: pot tags, bench cards and aisle signs from a nursery's stock list.
#include <fmt/core.h>

#include <algorithm>
#include <cstdio>
#include <memory>

#include "cli/commands.h"
#include "cli/paper.h"
#include "cli/publish.h"
#include "cli/stock.h"
#include "render/signs.h"

namespace tenwinters::cli {
namespace {

struct SignOptions {
  PaperOptions paper;
  std::string stock, place, flip = "long";
  std::vector<std::string> formats;
  double bleed = -1;                     // mm; < 0: as is usual for the format
  bool each = false, strict = false;
};

// A tag is cut out of the middle of a sheet; cards and aisle signs have no ink at the edge and fill it.
double usual_bleed(SignFormat format) { return format == SignFormat::tag ? 3 : 0; }

int run_signs(const Session& session, const SignOptions& options) {
  Loaded loaded;
  if (const int status = load(session, loaded)) return status;
  const Place* place = find_place(loaded.office, options.place);
  if (place == nullptr) {
    std::vector<std::string_view> ids;
    for (const Place& known : loaded.office.places) ids.push_back(known.id);
    complain("no place \"" + options.place + "\" in this office", std::string(nearest_name(options.place, ids)));
    return kMisuse;
  }
  Stock stock;
  if (const int status = read_stock(options.stock, loaded, stock)) return status;
  for (const Diagnostic& fault : stock.faults) fmt::print(stderr, "{}\n", to_text(fault));
  const std::size_t left_out = stock.read - stock.rows.size();
  if (options.strict && !stock.faults.empty()) {
    complain("nothing was made, because of what is said above (--strict)");
    return kFindings;
  }
  if (stock.rows.empty()) {
    complain(options.stock + ": no row that a sign can be made of");
    return kFindings;
  }
  SiteInput input{loaded.catalog, loaded.office, loaded.descent, loaded.languages, {}, find_templates(options.paper.templates, loaded.root), "", loaded.units};
  if (!read_templates(input.folder, input.files)) return kFindings;
  SignOrder order;
  order.sheet = *parse<SignSheet>(options.paper.paper.empty() ? "letter" : options.paper.paper);
  order.flip = *parse<Flip>(options.flip);
  order.place = static_cast<std::size_t>(place - loaded.office.places.data());
  order.language = loaded.language(session.language).code;
  order.today = session.today;
  order.each = options.each;
  Rendered all;
  const std::vector<std::string> formats = options.formats.empty() ? std::vector<std::string>{"tag"} : options.formats;
  for (const std::string& format : formats) {
    order.format = *parse<SignFormat>(format);
    order.bleed_mm = options.bleed < 0 ? usual_bleed(order.format) : options.bleed;
    Rendered signs = render_signs(input, stock.rows, order);
    for (OutputFile& file : signs.files)
      if (std::none_of(all.files.begin(), all.files.end(), [&](const OutputFile& f) { return f.path == file.path; })) all.files.push_back(std::move(file));
    std::move(signs.faults.begin(), signs.faults.end(), std::back_inserter(all.faults));
  }
  if (const int status = publish(all, options.paper.out)) return status;
  const int status = put_on_paper(all, options.paper);
  if (left_out > 0) complain(fmt::format("{} of {} rows left out; the others are made", left_out, stock.read));
  return status != kDone || left_out == 0 ? status : kFindings;
}

}  // namespace

void add_signs(const Command& app, Session& session) {
  const Command command = app.add_command("signs", "Make signs for a nursery's stock: pot tags, bench cards, aisle signs, many to a sheet");
  const auto options = std::make_shared<SignOptions>();
  command.add_option("--stock", options->stock, "Table with a first line of names: cultivar, rootstock, pot size, price, quantity, notes").required().type_name("FILE.csv");
  command.add_option("--format", options->formats, "tag (default), bench or aisle; may be given again and again")
      .one_of({"tag", "bench", "aisle"}).type_name("KIND").take_all();
  command.add_option("--place", options->place, "Place whose winters judge (default: the office's first)").type_name("ID");
  add_paper_options(command, options->paper, {"letter", "tabloid", "a4", "a3"});
  command.add_option("--bleed", options->bleed, "Colour beyond the cut, in mm (default: 3 on tags, none on cards and aisle signs)")
      .between(0.0, kMostBleed).type_name("MM");
  command.add_option("--flip", options->flip, "Edge over which the printer turns the sheet: long (default) or short").one_of({"long", "short"}).type_name("EDGE");
  command.add_flag("--each", options->each, "A sign for every plant of the quantity, not one a row");
  command.add_flag("--strict", options->strict, "Make nothing if anything in the list is not understood");
  command.footer(
      "Letter and tabloid carry tags of 2 x 4 in, cards of 5.5 x 8.5 in and aisle signs of Letter size; A4 and A3 carry\n"
      "tags of 50 x 100 mm, cards of A5 and aisle signs of A4. Backs lie behind their fronts when the sheet is turned.\n"
      "Example:\n"
      "  tenwinters signs --stock stock.csv --place gannet_quay --pdf --out signs\n"
      "  tenwinters signs --stock stock.csv --format bench --format aisle --paper a4 --lang es --pdf --out signs");
  command.does(session, [&session, options] { return run_signs(session, *options); });
}

}  // namespace tenwinters::cli
