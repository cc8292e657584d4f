// The names of things among a language's words, for a page that gets catalogue and office without any:
// what the browser's engine decides by travels without the texts for people.
#pragma once

#include "lib/texts.h"

namespace tenwinters {

// Office, places, rootstocks and rules, as `things.*`; names in the language, else in the office's first.
void add_names(Language& language, const Catalog& catalog, const Office& office);
// The way back: names that are among the words are given to their things.
void take_names(const Language& language, Catalog& catalog, Office& office);

}  // namespace tenwinters
