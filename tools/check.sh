#!/usr/bin/env bash
# The house rules that a compiler does not know. Prints every breach; exit status 1 if there is one.
set -uo pipefail
cd "$(dirname "$0")/.."
failed=0
breach() { printf '%s\n' "$1"; failed=1; }

# Who may include what: folder, then the include prefixes that must not appear in it.
forbid() {
  local folder=$1 pattern=$2 found
  [ -d "$folder" ] || return 0
  found=$(grep -rnE "^[[:space:]]*#[[:space:]]*include[[:space:]]*[<\"]($pattern)" "$folder" --include='*.cc' --include='*.h') &&
    breach "an include that points the wrong way:"$'\n'"$found"
}
world='fstream|iostream|cstdio|filesystem|ctime|chrono|thread|mutex|atomic|locale|clocale|random|unistd\.h'
libraries='yaml-cpp|kainjow|cmark|nlohmann|rapidjson|CLI|fmt|qrencode|civetweb'
forbid engine "$world|$libraries|lib/|loader/|records/|render/|wire/|wasm/|cli/"
forbid tools/draw "$world|$libraries|tenwinters/|lib/|loader/|records/|render/|wire/|wasm/|cli/"
forbid tools/lib 'draw/|loader/|records/|render/|wire/|wasm/|cli/|yaml-cpp|kainjow|CLI/'
forbid tools/loader 'draw/|records/|render/|wire/|wasm/|cli/|yaml-cpp|kainjow|CLI/'
forbid tools/records 'draw/|loader/|render/|wire/|wasm/|cli/|yaml-cpp|kainjow|CLI/'
forbid tools/render 'loader/|records/|wasm/|cli/|yaml-cpp|CLI/'
forbid tools/wire 'draw/|lib/|loader/|records/|render/|wasm/|cli/|yaml-cpp|kainjow|fmt/'
forbid tools/screens "$world|loader/|records/|wasm/|cli/|yaml-cpp|kainjow|cmark|fmt/|CLI/"
forbid tools/wasm 'lib/|loader/|records/|render/|cli/|yaml-cpp|kainjow|fmt/'
for folder in engine tools; do forbid $folder 'tests/'; done
# Only one part may know each library.
for pair in 'yaml-cpp:tests' 'kainjow:tools/render' 'cmark:tools/render|tools/loader' 'CLI/:tools/cli' 'civetweb:tools/cli'; do
  library=${pair%%:*} home=${pair#*:}
  found=$(grep -rnE "#[[:space:]]*include[[:space:]]*[<\"]$library" engine tools --include='*.cc' --include='*.h' | grep -vE "^($home)/")
  [ -n "$found" ] && breach "$library belongs to $home alone:"$'\n'"$found"
done

# The core that runs in the browser uses exact operations only.
found=$(grep -nE '\b(std::)?(exp|log|log2|log10|pow|sin|cos|tan|asin|acos|atan|atan2|tanh|fma|cbrt|hypot)\(' engine/src/*.cc 2>/dev/null |
  grep -vE '^engine/src/climate')
[ -n "$found" ] && breach "inexact function in the exact core:"$'\n'"$found"

# Two types of one name in one namespace: no compiler says so, and either may be destroyed as the other.
found=$(grep -ohE '^(struct|class|enum class) [A-Za-z]+[^;]*\{' engine/include/tenwinters/*.h engine/src/*.h | awk '{print $NF == "{" ? $(1 + ($1 == "enum") + 1) : $2}' | sort | uniq -d)
[ -n "$found" ] && breach "defined in two headers of the engine: $found"

# The top level holds these and nothing else.
allowed='^(CMakeLists\.txt|CMakePresets\.json|README\.md|DEVELOPERS\.md|CHANGELOG\.md|LICENSE|engine|catalog|site-templates|tests|public|tools|\..*)$'
found=$(git ls-files | cut -d/ -f1 | sort -u | grep -vE "$allowed")
[ -n "$found" ] && breach "not at the top level:"$'\n'"$found"
found=$(git ls-files public | grep -vE '^public/(README\.md|\.gitignore)$')
[ -n "$found" ] && breach "generated files in git:"$'\n'"$found"
# A letter in brackets keeps a pattern from finding itself.
found=$(git grep -nE '(/[w]ork/|/tmp/[b]ash|/[r]oot/|registry\.[n]pmjs|deb\.[d]ebian\.org|"resolved": *"[h]ttp)')
[ -n "$found" ] && breach "a machine path or a registry host:"$'\n'"$found"

# Scripts parse.
while IFS= read -r script; do bash -n "$script" || breach "$script does not parse"; done \
  < <(git grep -lE '^#!/usr/bin/env bash' -- tools .ci)

[ $failed -eq 0 ] && echo "house rules: kept"
exit $failed
