#!/usr/bin/env bash
# installed.sh BUILD_DIR: see README.md.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "${1:?usage: installed.sh BUILD_DIR}" && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
fail() { echo "FAILED: $1" >&2; exit 1; }

cpack --config "$build/CPackConfig.cmake" -B "$scratch/package" >"$scratch/log" 2>&1 || { cat "$scratch/log"; fail "cpack"; }
package=$(ls "$scratch"/package/*.deb)
version=$(sed -n 's/^project(tenwinters VERSION \([0-9.]*\).*/\1/p' "$here/../../CMakeLists.txt")
[ "$(dpkg-deb -f "$package" Version)" = "$version" ] || fail "the package's version is $(dpkg-deb -f "$package" Version), expected $version"
[[ $(dpkg-deb -f "$package" Depends) == *libc6* ]] || fail "the package names no libraries"
dpkg-deb -x "$package" "$scratch/tree"

# From a folder without a catalogue above it.
mkdir "$scratch/work" && cd "$scratch/work"
program="$scratch/tree/usr/bin/tenwinters --today 2026-12-01"
[ "$($program --version)" = "$version" ] || fail "--version says $($program --version)"
$program check >check.txt || { cat check.txt; fail "check"; }
grep -q "$scratch/tree/usr/share/tenwinters/catalog" check.txt || fail "the installed catalogue was not the one that was read"
if [ -e "$scratch/tree/usr/share/tenwinters/picker.wasm.gz" ]; then
  $program site --out site >/dev/null && [ -e site/index.html ] || fail "site"
else
  echo "SKIPPED: this build made no browser engine, so no site either"
fi
$program handout --out handouts >/dev/null && ls handouts/*.html >/dev/null || fail "handout"

page="$scratch/tree/usr/share/man/man1/tenwinters.1"
[ -e "$page" ] || { gunzip -k "$page.gz"; }
completion="$scratch/tree/usr/share/bash-completion/completions/tenwinters"
bash -n "$completion"
sed 's/\\-/-/g' "$page" >plain
# shellcheck disable=SC1090
. "$completion"
COMP_WORDS=(tenwinters "") COMP_CWORD=1
_tenwinters
$program --help | sed -n '/^Subcommands:/,$p' | awk '/^  [a-z]/ {print $1}' >commands
[ "$(wc -l <commands)" -gt 10 ] || fail "no commands in --help"
while read -r command; do
  grep -q "^\.SS $command\$" "$page" || fail "the manual page lacks $command"
  [[ " ${COMPREPLY[*]} " == *" $command "* ]] || fail "completion lacks $command"
  # Every option of its help is in both.
  COMP_WORDS=(tenwinters "$command" --) COMP_CWORD=2
  _tenwinters
  # What it prints for another program is written down.
  if $program "$command" --help | grep -q '^ *--json'; then
    [ -e "$scratch/tree/usr/share/tenwinters/schema/$command.json" ] || fail "no schema of $command --json is installed"
  fi
  for option in $($program "$command" --help | awk '/^  (-[a-z],)?--/ {print $1}' | sed 's/^-[a-z],//'); do
    [[ " ${COMPREPLY[*]} " == *" $option "* ]] || fail "completion of $command lacks $option"
    grep -q -- "$option" plain || fail "the manual page lacks $option of $command"
  done
  COMP_WORDS=(tenwinters "") COMP_CWORD=1
  _tenwinters
done <commands
if command -v man >/dev/null; then
  LC_ALL=C.UTF-8 MANROFFSEQ='' man --warnings -l "$page" 2>warnings >/dev/null || true
  [ ! -s warnings ] || { cat warnings; fail "the manual page is not clean"; }
fi

cmake -S "$here/consumer" -B consumer -DCMAKE_PREFIX_PATH="$scratch/tree/usr" -DWANTED_VERSION="${version%.*}" >log 2>&1 || { cat log; fail "find_package"; }
cmake --build consumer >log 2>&1 || { cat log; fail "consumer"; }
[ "$(consumer/consumer)" = "-5.0 C, 0 candidates" ] || fail "consumer says $(consumer/consumer)"
! cmake -S "$here/consumer" -B other -DCMAKE_PREFIX_PATH="$scratch/tree/usr" -DWANTED_VERSION=99 >/dev/null 2>&1 || fail "version 99 was found"
echo "installed: program, data, manual page, completion and library work from the package"
