// QR codes (ISO/IEC 18004) as SVG, for the page a sheet or a sign belongs to.
#pragma once

#include <string>
#include <string_view>

namespace tenwinters::draw {

// Modules of white that a reader needs on every side.
inline constexpr int kQrQuietZone = 4;

// The code of `text` at error correction M (about 15 in 100 of it may be hidden), with its quiet zone, one unit a
// module. `title` says what it is to people who cannot see it. "" when the text is empty or too long for a code.
[[nodiscard]] std::string qr(const std::string& text, std::string_view title);

}  // namespace tenwinters::draw
