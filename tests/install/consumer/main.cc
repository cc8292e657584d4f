// Somebody else's program: ranks for a yard over a catalogue of its own, here an empty one.
#include <cstdio>

#include "tenwinters/advise.h"
#include "tenwinters/units.h"

int main() {
  tenwinters::Catalog catalog;
  tenwinters::Office office;
  office.places.emplace_back();
  const tenwinters::Advice advice = tenwinters::advise(catalog, office, office.places.front(), {});
  std::printf("%.1f C, %zu candidates\n", tenwinters::to_celsius({23}).degrees, advice.candidates.size());
}
