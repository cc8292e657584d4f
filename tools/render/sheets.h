// The sheets of the print room, one builder each; framed() and a template make a document of them.
#pragma once

#include <string>
#include <vector>

#include "render/sheet.h"
#include "render/yards.h"
#include "tenwinters/change.h"
#include "tenwinters/key.h"

namespace tenwinters {

// The heads of the sheets, which lists of them say too.
[[nodiscard]] SheetHead county_head(const Voice& voice, const std::vector<std::size_t>& places);
[[nodiscard]] SheetHead type_head(const Voice& voice, const CitrusType& type);
[[nodiscard]] SheetHead night_head(const Voice& voice, std::size_t place);
[[nodiscard]] SheetHead planting_head(const Voice& voice, std::size_t place);
[[nodiscard]] SheetHead key_head(const Voice& voice, std::size_t place);

// "Which citrus for me?": every kind by place, first things first, freeze, planting. At most three places.
[[nodiscard]] Sheet county_sheet(const Voice& voice, const YardAdvice& yards, const std::vector<std::size_t>& places);

// One household's answer: the best kinds in full, the others in a line, what does not do and why, what was said.
struct Household {
  std::string name;            // whom it is for, as they wrote it; may be empty
  std::size_t place = 0;
  Answers answers;
};
// `least`: where nothing does, the least that would let the nearest tree grow; else empty.
[[nodiscard]] Sheet household_sheet(const Voice& voice, const Household& household, const Advice& advice, const LeastChange& least);

// One kind for a class or a counter: its cultivars at each place, its cold and its year drawn, its facts.
[[nodiscard]] Sheet type_sheet(const Voice& voice, const YardAdvice& yards, const CitrusType& type);

// "When the forecast says ...": at which low each kind grown at the place loses fruit, leaves, tree; how often it gets
// that cold; what to do, in order.
[[nodiscard]] Sheet night_sheet(const Voice& voice, const YardAdvice& yards, std::size_t place);

// Planting and the first three years, with the place's own last freezes.
[[nodiscard]] Sheet planting_sheet(const Voice& voice, std::size_t place);

// The paper key of a place, with its agreement as measured.
[[nodiscard]] Sheet key_sheet(const Voice& voice, std::size_t place, const PaperKey& key);

}  // namespace tenwinters
