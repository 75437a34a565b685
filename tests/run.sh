#!/usr/bin/env bash
# The project's test command: installs what is missing, checks the format, builds, runs every test, and closes with
# one line "N passed, N failed, N skipped". A test that was skipped counts as a failure of the run: whatever a test
# needs is installed here.
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
out=tests/.out
mkdir -p "$out"

say() { printf '\n== %s\n' "$*"; }

# need COMMAND-OR-FILE PACKAGE: installs a Debian package when its command, or the file at a path, is missing.
need() {
  { command -v "$1" >/dev/null 2>&1 || [ -f "$1" ]; } && return 0
  say "installing $2 for $1"
  { [ -n "${apt_updated:-}" ] || { apt-get update -qq && apt_updated=1; }; } &&
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$2" >/dev/null ||
    { echo "tests/run.sh: $1 is missing and $2 could not be installed; install it and run again." >&2; exit 2; }
}

if ! command -v dotnet >/dev/null 2>&1; then
  echo "tests/run.sh: the .NET 10 SDK is needed (command 'dotnet' not found)." >&2
  exit 2
fi
need setpriv util-linux
need flock util-linux
need awk gawk
need openssl openssl
need gpg gnupg
need /usr/bin/chromium chromium
need /usr/share/fonts/truetype/dejavu/DejaVuSans.ttf fonts-dejavu-core

failed_steps=0
step() {
  say "$1"
  shift
  "$@" || { echo "FAILED: $*"; failed_steps=$((failed_steps + 1)); return 1; }
}

step "tools" dotnet tool restore -v q
step "format" dotnet csharpier check .
# As it is shipped, and since the compiler's optimizing halves the time that the tests take.
# One compiler serves all projects: to start it anew for each takes longer than the compiling.
step "build" dotnet build PupilBridge.sln -c Release --nologo -v q -clp:ErrorsOnly -p:UseSharedCompilation=true
dotnet build-server shutdown --vbcscompiler >/dev/null 2>&1

results=$out/results
rm -rf "$results" "$out/keys.txt"
say "tests"
dotnet test PupilBridge.sln -c Release --no-build --nologo -m:1 --results-directory "$results" --logger trx \
  --logger "console;verbosity=${VERBOSITY:-minimal}" 2>&1 | tee "$out/test.log"
test_exit=${PIPESTATUS[0]}

# Each project leaves a file of results, in which one line counts them. What was neither passed nor failed was skipped.
read -r passed failed skipped < <(
  grep -ho '<Counters [^>]*' "$results"/*.trx 2>/dev/null |
    awk -F'"' '{ for (i = 1; i < NF; i += 2) n[$i] += $(i + 1) }
               END { p = n[" passed="]; t = n["<Counters total="]; f = n[" failed="] + n[" error="] + n[" timeout="] + n[" aborted="]
                     printf "%d %d %d\n", p, f, t - p - f }'
)
say "the longest tests"
grep -ho '<UnitTestResult [^>]*' "$results"/*.trx 2>/dev/null |
  sed -E 's/.* testName="([^"]*)".* duration="([^"]*)".*/\2  \1/' | sort -r | head -15

# The whole clinic simulated (docs/reliability.md): other seeds for each commit, the same ones for the same commit. Each finding counts as a failed test.
voyage_hours=${VOYAGE_HOURS:-2000}
commit=$(git rev-parse --short=8 HEAD 2>/dev/null | cut -c1-8)
voyage_from=${VOYAGE_FROM:-$((16#${commit:-1}))}
# Memory is collected each 128 MB and not by the size of a cache, which virtual machines tell wrongly.
say "simulation of $voyage_hours exam-hours from seed $voyage_from"
DOTNET_GCgen0size=0x8000000 dotnet run -c Release --no-build --project tests/PupilBridge.Voyage -- run --hours "$voyage_hours" --from "$voyage_from" 2>&1 |
  tee "$out/voyage.log"
voyage_exit=${PIPESTATUS[0]}
findings=$(awk '/^voyages: / { print $4 }' "$out/voyage.log")
# A program that fell over before its closing line found something, too.
[ "$voyage_exit" -ne 0 ] && [ "${findings:-0}" -eq 0 ] && findings=1
# However many voyages it made, it counts as one test when it found nothing.
[ "${findings:-0}" -eq 0 ] && passed=$((passed + 1))
failed=$((failed + ${findings:-0}))

failed=$((failed + failed_steps))
[ "$test_exit" -ne 0 ] && [ "$failed" -eq 0 ] && failed=1
echo
[ -f "$out/keys.txt" ] && sort "$out/keys.txt"
[ "$skipped" -gt 0 ] && echo "A skipped test fails this run: install what it wants in tests/run.sh."
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" -eq 0 ] && [ "$skipped" -eq 0 ] && [ "$passed" -gt 0 ]
