#!/usr/bin/env bash
# Installs what is missing, builds everything and runs the tests: the core under sanitizers first, then the whole
# suite, window included (in a virtual display when there is none). Ends with ctest's summary.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
bash "$root/app/install.sh"
cd "$root"
jobs=${JOBS:-$(nproc)}
configure() { # preset
    cmake --preset "$1" >"/tmp/slabside-configure-$1.log" 2>&1 || { cat "/tmp/slabside-configure-$1.log" >&2; exit 2; }
}
preset=${PRESET:-dev}
configure "$preset"
cmake --build --preset "$preset" -- -j "$jobs"
# Every room of the core under sanitizers; SANITIZED="units plates" takes some of them.
rooms=${SANITIZED:-base units formula document geometry stock donor body picture likeness plates mechanisms frames fit nesting ride route sight modules takeoff drawing evaluate board pack}
if [ "${SANITIZERS:-on}" = on ]; then
    configure asan
    targets=()
    for room in $rooms; do targets+=("test_$room"); done
    cmake --build --preset asan -- -j "$jobs" "${targets[@]}"
    echo "== $rooms under AddressSanitizer and UndefinedBehaviorSanitizer"
    ASAN_OPTIONS=detect_leaks=0 ctest --test-dir build/asan -j "$jobs" --output-on-failure \
        -L "^(${rooms// /|})\$" -E "^(Survey|SurveyOfWhatMoves|Verdict)\." --no-tests=error # those two only repeat the rest, for long
fi
echo "== the whole suite"
export LIBGL_ALWAYS_SOFTWARE=1
if [ -n "${DISPLAY:-}" ]; then
    ctest --test-dir "build/$preset" -j "$jobs" --output-on-failure
else
    xvfb-run -a -s "-screen 0 1600x1000x24" ctest --test-dir "build/$preset" -j "$jobs" --output-on-failure
fi
