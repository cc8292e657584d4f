#include "stock.h"

#include "limit_rules.h"

namespace tenwinters {

Stocks stocks_for(const Setting& setting, const Cultivar& cultivar, const Rootstock& fallback) {
  Stocks fit, unfit;
  for (const Rootstock& stock : setting.catalog.rootstocks) {
    const std::vector<std::string>& sold = setting.office.rootstocks_on_sale;
    if (!sold.empty() && !contains(sold, stock.id)) continue;
    if (forbidding(setting.office, stock.id) != nullptr) continue;
    const bool bad = contains(stock.unfit_for, cultivar.id) || contains(stock.unfit_for, cultivar.type);
    (bad ? unfit : fit).usable.push_back(&stock);
  }
  if (!fit.usable.empty()) return fit;
  unfit.fits = false;
  if (unfit.usable.empty()) unfit.usable.push_back(&fallback);
  return unfit;
}

}  // namespace tenwinters
