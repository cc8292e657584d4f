// Signs for a nursery's stock: what each tree will do at one place, many to a sheet, front and back.
#pragma once

#include <string>
#include <vector>

#include "render/impose.h"
#include "render/sheet.h"
#include "render/site.h"

namespace tenwinters {

enum class SignFormat { tag, bench, aisle };
template <> struct Names<SignFormat> {
  static constexpr std::string_view list[] = {"tag", "bench", "aisle"};
};

// What it is printed on. Letter and tabloid carry the US sizes of signs, A4 and A3 the metric ones.
enum class SignSheet { letter, tabloid, a4, a3 };
template <> struct Names<SignSheet> {
  static constexpr std::string_view list[] = {"letter", "tabloid", "a4", "a3"};
};
[[nodiscard]] Size size_of(SignSheet sheet);
// Pot tag 2 x 4 in or 50 x 100 mm, bench card half a Letter or A5, aisle sign Letter or A4.
[[nodiscard]] Size size_of(SignFormat format, SignSheet sheet);

// One row of the stock list, understood.
struct StockRow {
  int line = 0;                        // of the list, to name the sign by
  std::string cultivar, rootstock;     // ids; rootstock may be "", not said
  std::string size, price, notes;      // as written
  int quantity = 1;
};

struct SignOrder {
  SignFormat format = SignFormat::tag;
  SignSheet sheet = SignSheet::letter;
  double bleed_mm = 0;
  Flip flip = Flip::long_edge;
  std::size_t place = 0;
  std::string language;                // code
  std::string today;                   // ISO date
  bool each = false;                   // a sign for every plant, not for every row
};

// The signs of one document at most; a longer list makes several.
inline constexpr std::size_t kSignsInDocument = 600;
inline constexpr int kMostOfARow = 2000;  // plants of one row that get a sign

// signs-FORMAT-LANGUAGE-SHEET[-NN].html with style and fonts beside it. A sheet too small for the sign is a fault.
[[nodiscard]] Rendered render_signs(const SiteInput& input, const std::vector<StockRow>& stock, const SignOrder& order);

}  // namespace tenwinters
