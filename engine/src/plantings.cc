#include "plantings.h"

namespace tenwinters {

Care care_in(const Yard& yard, const Protection& habit, const Catalog& catalog, const Protection& none) {
  Care care;
  care.protection = &none;
  care.container_l = yard.container_l;
  for (const Microclimate& microclimate : catalog.microclimates)
    if (microclimate.spot == yard.spot) care.warmer_c = microclimate.warmer_c.best;
  if (yard.work_nights <= 0) return care;

  const bool carries = yard.container_l > 0 && yard.moves_indoors;
  if (carries) {
    for (const Protection& protection : catalog.protections)
      if (protection.container_only) {
        care.protection = &protection;
        care.moves_indoors = true;
        break;
      }
  } else if (!habit.container_only) {
    care.protection = &habit;
  }
  // Nights matter only to those who would spend them.
  if (care.protection != &none) care.work_nights = yard.work_nights;
  return care;
}

Planting planting_of(const Care& care, const Tree& tree) {
  Planting planting;
  planting.cultivar = tree.cultivar;
  planting.rootstock = tree.stock;
  planting.protection = care.protection;
  planting.warmer_c = care.warmer_c;
  planting.container_l = care.container_l;
  planting.moves_indoors = care.moves_indoors;
  planting.work_nights = care.work_nights;
  planting.region = tree.setting->place.region;
  return planting;
}

std::size_t CareList::slot(const Care& care) {
  for (std::size_t i = 0; i < cares_.size(); ++i)
    if (cares_[i] == care) return i;
  cares_.push_back(care);
  return cares_.size() - 1;
}

}  // namespace tenwinters
