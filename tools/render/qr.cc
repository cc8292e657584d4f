#include "render/qr.h"

#include <qrencode.h>

#include <memory>

#include "render/markup.h"

namespace tenwinters::draw {

std::string qr(const std::string& text, std::string_view title) {
  if (text.empty()) return "";
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M), QRcode_free);
  if (!code) return "";
  const int modules = code->width, size = modules + 2 * kQrQuietZone;
  const auto dark = [&](int x, int y) { return (code->data[y * modules + x] & 1u) != 0; };
  // One path of all runs of dark modules.
  std::string path;
  for (int y = 0; y < modules; ++y)
    for (int x = 0; x < modules;) {
      if (!dark(x, y)) {
        ++x;
        continue;
      }
      int end = x;
      while (end < modules && dark(end, y)) ++end;
      const std::string run = std::to_string(end - x);
      path += "M" + std::to_string(x + kQrQuietZone) + " " + std::to_string(y + kQrQuietZone) + "h" + run + "v1h-" + run + "z";
      x = end;
    }
  const std::string side = std::to_string(size);
  return "<svg class=\"qr\" viewBox=\"0 0 " + side + " " + side + "\" role=\"img\" aria-label=\"" + escape_html(title) +
         "\" shape-rendering=\"crispEdges\"><rect width=\"" + side + "\" height=\"" + side + "\" fill=\"#fff\"/><path d=\"" + path + "\"/></svg>";
}

}  // namespace tenwinters::draw
