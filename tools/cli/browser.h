// Pages to PDF, by a Chromium-family browser found on the machine. Run by argument list, never by a shell.
#pragma once

#include <optional>
#include <string>

namespace tenwinters::cli {

// The program to run: `given`, else the environment's TENWINTERS_BROWSER, else the first of the usual
// names on PATH. nullopt when there is none; `tried` then says what was looked for.
[[nodiscard]] std::optional<std::string> find_browser(const std::string& given, std::string& tried);

// Prints one HTML file as a tagged PDF. nullopt, or what went wrong.
[[nodiscard]] std::optional<std::string> print_to_pdf(const std::string& browser, const std::string& html, const std::string& pdf);

}  // namespace tenwinters::cli
