#include "render/markup.h"

#include <cmark.h>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <vector>

namespace tenwinters {

namespace {

// Raw HTML becomes the text it is, and an image, which no page may load, its own description.
void disarm(cmark_node* document) {
  const std::unique_ptr<cmark_iter, decltype(&cmark_iter_free)> walk(cmark_iter_new(document), &cmark_iter_free);
  std::vector<cmark_node*> raw, images;
  for (cmark_event_type event; (event = cmark_iter_next(walk.get())) != CMARK_EVENT_DONE;) {
    cmark_node* node = cmark_iter_get_node(walk.get());
    const cmark_node_type type = cmark_node_get_type(node);
    if (type == CMARK_NODE_HTML_INLINE || type == CMARK_NODE_HTML_BLOCK) raw.push_back(node);
    if (type == CMARK_NODE_IMAGE && event == CMARK_EVENT_EXIT) images.push_back(node);
  }
  for (cmark_node* node : raw) {
    cmark_node* text = cmark_node_new(CMARK_NODE_TEXT);
    cmark_node_set_literal(text, cmark_node_get_literal(node));
    cmark_node* instead = text;
    if (cmark_node_get_type(node) == CMARK_NODE_HTML_BLOCK) {
      instead = cmark_node_new(CMARK_NODE_PARAGRAPH);
      cmark_node_append_child(instead, text);
    }
    cmark_node_replace(node, instead);
    cmark_node_free(node);
  }
  for (cmark_node* node : images) {
    while (cmark_node* child = cmark_node_first_child(node)) cmark_node_insert_before(node, child);
    cmark_node_unlink(node);
    cmark_node_free(node);
  }
}

}  // namespace

std::string markdown_to_html(std::string_view text) {
  constexpr int kOptions = CMARK_OPT_DEFAULT | CMARK_OPT_VALIDATE_UTF8 | CMARK_OPT_SMART;
  constexpr int kTopHeading = 2;
  const std::unique_ptr<cmark_node, decltype(&cmark_node_free)> document(
      cmark_parse_document(text.data(), text.size(), kOptions), &cmark_node_free);
  if (!document) return "";
  disarm(document.get());
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
