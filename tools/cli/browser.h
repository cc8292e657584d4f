// Pages to PDF, by a Chromium-family browser found on the machine: started once for a whole batch, by argument list,
// never by a shell, and spoken to over a pipe (DevTools protocol).
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace tenwinters::cli {

// The program to run: `given`, else the environment's TENWINTERS_BROWSER, else the first of the usual
// names on PATH. nullopt when there is none; `tried` then says what was looked for.
[[nodiscard]] std::optional<std::string> find_browser(const std::string& given, std::string& tried);

struct PrintJob {
  std::string html, pdf;                  // paths; the PDF is tagged, with outline, title and language
};

struct Printed {
  std::string pdf;
  int pages = 0;
  std::vector<std::string> misfits;       // boxes and sheets whose content does not fit, by name
};

// Prints the jobs in their order and tells of each. nullopt, or what went wrong; jobs told of are done then.
[[nodiscard]] std::optional<std::string> print_to_pdf(const std::string& browser, const std::vector<PrintJob>& jobs,
                                                      const std::function<void(const Printed&)>& tell);

}  // namespace tenwinters::cli
