// Which words a part of the site was made with, so that it is made again when one of them changes, and only then.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "lib/texts.h"

namespace tenwinters {

using Word = std::pair<std::string, std::string>;  // a language's code, and the key

class WordsAsked final : public WordListener {
 public:
  void found(const Language& language, const std::string& key) override { found_.emplace(&key, &language); }
  void missed(const Language& language, std::string_view key) override { missed_.emplace(language.code, key); }

  // While the languages stand as they were asked.
  [[nodiscard]] std::vector<Word> words() const {
    std::vector<Word> out(missed_.begin(), missed_.end());
    for (const auto& [key, language] : found_) out.emplace_back(language->code, *key);
    return out;
  }

 private:
  std::unordered_map<const std::string*, const Language*> found_;  // by address, for most are asked for again and again
  std::set<Word> missed_;
};

}  // namespace tenwinters
