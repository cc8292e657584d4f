// A figure and how we know it.
//
// `best` is the value used; `low..high` is what the sources span (low <= best <= high).
// Evidence stays with the figure from the YAML file to the page that prints it.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/names.h"

namespace tenwinters {

enum class Basis { published, common_practice, memory, estimate };
template <> struct Names<Basis> {
  static constexpr std::string_view list[] = {"published", "common-practice", "memory", "estimate"};
};

struct Evidence {
  Basis basis = Basis::estimate;
  std::vector<std::string> sources;  // ids in Catalog::sources; may be empty for common-practice and estimate
  std::string seen;                  // ISO date on which a person last looked at the source
  std::string note;                  // free text, may be empty
  bool from_type = false;            // inherited from the type, weaker evidence about the one cultivar

  bool operator==(const Evidence&) const = default;
};

// A number with its spread. The unit is fixed by the field (see catalog/SCHEMA.md); inside it is metric.
struct Fact {
  double best = 0;
  double low = 0;
  double high = 0;
  Evidence evidence;

  bool operator==(const Fact&) const = default;
};

// One word out of a fixed list.
template <class E>
struct Choice {
  E is{};
  Evidence evidence;

  bool operator==(const Choice&) const = default;
};

// Several words out of a fixed list, in the list's order, without repeats.
template <class E>
struct Choices {
  std::vector<E> are;
  Evidence evidence;

  bool operator==(const Choices&) const = default;
};

// Whole months, 1..12, both ends included; from > to runs over the new year.
struct Window {
  int from_month = 1;
  int to_month = 1;
  Evidence evidence;

  [[nodiscard]] constexpr bool contains(int month) const {
    return from_month <= to_month ? from_month <= month && month <= to_month
                                  : month >= from_month || month <= to_month;
  }

  bool operator==(const Window&) const = default;
};

}  // namespace tenwinters
