// write_folder FOLDER a|b: writes one of two sets of files that differ in every way two sites can. Exit 1 and the
// message if it cannot.
#include <cstdio>
#include <string>

#include "faults/sets.h"

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const auto failed = tenwinters::write_output(argv[1], tenwinters::testing::files_of(argv[2]));
  if (!failed) return 0;
  std::puts(failed->c_str());
  return 1;
}
