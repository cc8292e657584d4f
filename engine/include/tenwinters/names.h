// The names of every enumeration that data files and JSON may use.
//
//   parse<Taste>("sour")            -> Taste::sour
//   parse<Taste>("sower")           -> nullopt (offer nearest_name("sower", names_of<Taste>()))
//   name_of(Taste::sweet_tart)      -> "sweet_tart"
//
// An enumeration takes part by specialising Names<E>::list; its enumerators count from 0 in that order.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace tenwinters {

template <class E>
struct Names;  // specialised beside each enumeration: static constexpr std::string_view list[]

template <class E>
constexpr std::span<const std::string_view> names_of() { return Names<E>::list; }

template <class E>
constexpr std::string_view name_of(E value) { return Names<E>::list[static_cast<std::size_t>(value)]; }

template <class E>
constexpr std::optional<E> parse(std::string_view text) {
  std::size_t index = 0;
  for (std::string_view name : Names<E>::list) {
    if (name == text) return static_cast<E>(index);
    ++index;
  }
  return std::nullopt;
}

// The candidate closest to `text` by edit distance, or "" when none is close enough to be a
// likely slip (more than a third of the letters, at least two). Ties go to the earlier candidate.
std::string_view nearest_name(std::string_view text, std::span<const std::string_view> candidates);

}  // namespace tenwinters
