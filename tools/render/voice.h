// One reader: a language, their units, and how figures are said to them.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "lib/texts.h"
#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

struct Voice {
  const Catalog& catalog;
  const Office& office;
  const Language& language;
  Units units = Units::us;

  using Fills = std::initializer_list<std::pair<std::string_view, std::string>>;

  // Words under a key, with {name}s filled in; a text split by number is chosen by {n}.
  [[nodiscard]] std::string say(std::string_view key, Fills fills = {}) const;
  // The same for a counted thing: KEY.one or KEY.other, with {n}.
  [[nodiscard]] std::string count(std::string_view key, long n, Fills fills = {}) const;
  [[nodiscard]] std::string reason(const Reason& reason) const;

  // "6.8", with the language's decimal mark; 0 to 2 digits after it.
  [[nodiscard]] std::string number(double value, int digits) const;
  // A figure with its unit: "24 °F", "12 ft".
  [[nodiscard]] std::string figure(ArgKind kind, double value) const;
  // "November to January"; "" when from is 0.
  [[nodiscard]] std::string months(int from, int to) const;
  [[nodiscard]] std::string months(const Window& window) const { return months(window.from_month, window.to_month); }
  // "97 in 100"
  [[nodiscard]] std::string chance(double share) const;
  // The browser sees figures as tools/wire writes them, to so many steps in the unit: hundredths, shares to
  // thousandths. A page must round from there, or the two would now and then differ.
  [[nodiscard]] static double as_wired(double value, double steps = 100);
  // Rounded, halves up, as the picker rounds.
  [[nodiscard]] long whole(double value) const;
  // Degrees the reader thinks in, as a bare number.
  [[nodiscard]] double degrees(double celsius) const;

  [[nodiscard]] std::string word(std::string_view enumeration, std::string_view value) const;
  [[nodiscard]] std::string of(const Words& words) const;  // this language, else the office's first
  [[nodiscard]] std::string type_name(std::string_view id) const;
  [[nodiscard]] std::string cultivar_name(std::string_view id) const;  // bare: Owari
  [[nodiscard]] std::string rootstock_name(std::string_view id) const;
};

// Whose months stand for the office's, for its places share a region and a side of the equator; an empty one if it has none.
[[nodiscard]] const Place& first_place(const Office& office);

// "40 winters on record (1986 to 2025)", and for an invented record that it is invented.
[[nodiscard]] std::string record_line(const Voice& voice, const Place& place);

}  // namespace tenwinters
