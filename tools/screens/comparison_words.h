// What decides between two trees, in words.
#pragma once

#include <string>
#include <vector>

#include "render/voice.h"
#include "tenwinters/change.h"

namespace tenwinters::screens {

// Which of the two leads, and by how much.
[[nodiscard]] std::string lead_text(const Voice& voice, const Comparison& two);
// "Will the pot be carried in? -> Outdoors"
[[nodiscard]] std::string change_text(const Voice& voice, const Change& change);
// What that answer would do: "Meyer would lead by 3".
[[nodiscard]] std::string turn_text(const Voice& voice, const Comparison& two, const Turn& turn);
// At what usual winter low the order turns, or that none within reach turns it.
[[nodiscard]] std::string cold_turn_text(const Voice& voice, const Comparison& two);

}  // namespace tenwinters::screens
