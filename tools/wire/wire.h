// Engine values as JSON, the same bytes from the terminal and from the browser.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "tenwinters/advise.h"
#include "tenwinters/catalog.h"
#include "tenwinters/office.h"

namespace tenwinters {

// What the browser needs to decide: catalogue without evidence, office with packed winters.
[[nodiscard]] std::string catalog_to_json(const Catalog& catalog);
[[nodiscard]] std::optional<Catalog> catalog_from_json(std::string_view text);
[[nodiscard]] std::string office_to_json(const Office& office);
[[nodiscard]] std::optional<Office> office_from_json(std::string_view text);

// The advice; keys in a fixed order, no floating-point text that could differ between builds.
[[nodiscard]] std::string advice_to_json(const Advice& advice);

[[nodiscard]] std::optional<Answers> answers_from_json(std::string_view text);

}  // namespace tenwinters
