// An office: whom it serves, which places it answers for, what its rules forbid.
#pragma once

#include <string>
#include <vector>

#include "tenwinters/catalog.h"
#include "tenwinters/winters.h"

namespace tenwinters {

enum class Units { us, metric };
template <> struct Names<Units> {
  static constexpr std::string_view list[] = {"us", "metric"};
};

struct Place {
  std::string id;
  Words name;
  Region region = Region::other;   // whose ripening windows are nearest to this place's
  double share = 0;                // prior: share of the office's callers; places of an office sum to 1
  Winters winters;
};

// What an authority forbids here. The engine rules the tree out and prints the authority, never advice.
struct LocalRule {
  std::string id;
  std::vector<std::string> forbids;  // type, cultivar or rootstock ids
  Words says;
  Words ask;                         // the body to ask
  std::string citation;
  std::string review_by;             // ISO date
};

struct Office {
  std::string id;
  Words name;
  bool invented = false;
  Units units = Units::us;
  std::vector<std::string> languages;        // first is the default
  std::string address;                       // page address that QR codes point to, may be empty
  std::vector<Words> contact;                // lines of the office block
  std::vector<Place> places;                 // in the office's order
  std::vector<LocalRule> rules;
  std::vector<std::string> on_sale;          // cultivar ids; empty = the whole catalogue
  std::vector<std::string> rootstocks_on_sale;
  std::vector<std::string> diseases_present; // greening, canker, scab
};

}  // namespace tenwinters
