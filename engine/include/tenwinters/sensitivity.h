// Which figures the rankings hang on: each figure of each cultivar is moved to the ends of its evidence, and
// the places it moves its cultivar in a sample of yards are counted.
//
//   const std::vector<SampleYard> yards = sample_yards(catalog, office, 12);
//   for (const FigureEffect& effect : sensitivity(catalog, office, yards)) read_up_on(effect);  // largest first
//
// A number goes to its low and its high; months a month earlier and a month later; a word to its neighbours
// in its list; of words each is put in or taken out in turn. One figure of one cultivar moves at a time.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "tenwinters/advise.h"

namespace tenwinters {

struct SampleYard {
  const Place* place = nullptr;  // never null
  Answers answers;
};

// `count` yards spread evenly over the places' shares and the questions' priors; every question that
// applies is answered. The same arguments give the same yards. Empty if the office has no place.
[[nodiscard]] std::vector<SampleYard> sample_yards(const Catalog& catalog, const Office& office, std::size_t count);

struct FigureEffect {
  std::string cultivar;
  std::string trait;       // as in the files: "height_m", "cold.leaf.hardened", "ripening.gulf"
  Basis basis = Basis::estimate;
  bool from_type = false;
  double places = 0;       // the further of its two ways, mean over the yards
  int yards = 0;           // in how many of the yards it moves its cultivar at all
};

// Every figure of every cultivar on sale, those that move nothing included; most places first, then by
// cultivar and trait.
[[nodiscard]] std::vector<FigureEffect> sensitivity(const Catalog& catalog, const Office& office,
                                                    std::span<const SampleYard> yards);

}  // namespace tenwinters
