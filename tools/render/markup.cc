#include "render/markup.h"

#include <cmark.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

namespace tenwinters {

std::string markdown_to_html(std::string_view text) {
  constexpr int kOptions = CMARK_OPT_DEFAULT | CMARK_OPT_VALIDATE_UTF8 | CMARK_OPT_SMART;
  constexpr int kTopHeading = 2;
  const std::unique_ptr<cmark_node, decltype(&cmark_node_free)> document(
      cmark_parse_document(text.data(), text.size(), kOptions), &cmark_node_free);
  if (!document) return "";
  for (cmark_node* node = cmark_node_first_child(document.get()); node; node = cmark_node_next(node))
    if (cmark_node_get_type(node) == CMARK_NODE_HEADING)
      cmark_node_set_heading_level(node, std::min(6, cmark_node_get_heading_level(node) + kTopHeading));
  const std::unique_ptr<char, decltype(&std::free)> html(cmark_render_html(document.get(), kOptions), &std::free);
  return html ? std::string(html.get()) : "";
}

std::string slug(std::string_view text) {
  std::string out(text);
  std::replace_if(out.begin(), out.end(), [](char c) {
    return !((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_');
  }, '-');
  return out;
}

}  // namespace tenwinters
