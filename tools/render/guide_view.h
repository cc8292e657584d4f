// What the pages of advice show: sentences with their figures filled in, the figures with their evidence, and what
// is worked out for each place.
#pragma once

#include <string>

#include "lib/guidance.h"
#include "render/fact_view.h"
#include "render/model.h"
#include "render/voice.h"

namespace tenwinters {

// A figure of a guide in the reader's units: "5 months", "3 ft", "100,000".
[[nodiscard]] std::string guide_value(const Voice& voice, GuideUnit unit, double value);
// "5 to 6 months"; one value where both ends look alike.
[[nodiscard]] std::string guide_range(const Voice& voice, const GuideFact& fact);

// A text with the facts it names.
[[nodiscard]] std::string advice_text(const Voice& voice, const std::string& key, const Advised& advised);

// Rows {label, value, evidence} for facts.mustache.
[[nodiscard]] Model view_guide_facts(const Voice& voice, const Advised& advised, References& references);

// For local.mustache: one block for each of `advised.shows`. `id` begins the ids on the page; `up` leads to the
// language's folder; `level` is that of the headings.
[[nodiscard]] Model view_local(const Voice& voice, const Advised& advised, const std::string& id, const std::string& up, int level = 3);

}  // namespace tenwinters
