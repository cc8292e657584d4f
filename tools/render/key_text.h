// A paper key in words: the same on the terminal and on the sheet.
#pragma once

#include <string>
#include <vector>

#include "render/voice.h"
#include "tenwinters/key.h"

namespace tenwinters {

struct KeyStep {
  int number = 0;                     // from 1, in the order of the key's nodes
  std::string question;               // "1. How much direct sun ...?"
  struct Line { std::string answer, leads; };
  Line yes, no;
};
[[nodiscard]] std::vector<KeyStep> key_steps(const Voice& voice, const PaperKey& key);

// How often the key agrees with the ranking, as measured on yards it was not fitted to.
[[nodiscard]] std::string key_agreement(const Voice& voice, const PaperKey& key);

}  // namespace tenwinters
