// The catalogue's facts as a page shows them: each with its spread, its evidence and its source.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "render/model.h"
#include "render/voice.h"

namespace tenwinters {

// The sources a page leans on, numbered in the order in which they turn up.
class References {
 public:
  // For evidence.mustache: basis in words, the numbers of its sources, note, inherited or not.
  [[nodiscard]] Model cite(const Voice& voice, const Evidence& evidence);
  // For references.mustache. `up` leads to the language's folder.
  [[nodiscard]] Model list(const Voice& voice, const std::string& up) const;

 private:
  std::size_t number_of(const std::string& id);
  std::vector<std::string> ids_;
};

// Rows {label, value, evidence} for facts.mustache: everything a tree's traits say, cold aside.
[[nodiscard]] Model view_traits(const Voice& voice, const Traits& traits, References& references);
// Rows {label, hardened, unhardened, evidence} for cold_table.mustache.
[[nodiscard]] Model view_cold(const Voice& voice, const Traits& traits, References& references);
[[nodiscard]] Model view_rootstock(const Voice& voice, const Rootstock& rootstock, References& references);

// For figure.mustache: both forms of a drawing and the table behind it. `id` is unique on the page.
[[nodiscard]] Model view_cold_ruler(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits);
// The winters of `places` as dots, over the tissues of one kind.
[[nodiscard]] Model view_cold_ruler(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits, std::span<const Place> places);
[[nodiscard]] Model view_year_strip(const Voice& voice, const std::string& id, const std::string& name, const Traits& traits);
[[nodiscard]] Model view_ledger(const Voice& voice, const std::string& id, const std::string& name, const Prospect& prospect,
                                double bearing_age_years);

// A drawing that stands by its table, in both forms.
[[nodiscard]] Model plain_figure(std::string title, std::string note, std::string wide, std::string slim);

// "May 12": a day counted from 1 January, which is 0; days of the next year are taken as of this.
[[nodiscard]] std::string calendar_text(const Voice& voice, double day);
// One letter for each month.
[[nodiscard]] std::vector<std::string> month_initials(const Voice& voice);

// "January 14", for a day of the winter year as in Winter::first_freeze_day.
[[nodiscard]] std::string day_text(const Voice& voice, double day, bool south);


// "3.7 m (2.4 to 4.6)" in the reader's units; kinds as in ArgKind.
[[nodiscard]] std::string fact_text(const Voice& voice, const Fact& fact, ArgKind kind);

}  // namespace tenwinters
