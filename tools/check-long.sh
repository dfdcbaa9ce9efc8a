# The long half of check: another compiler, sanitizers, fuzzing, analysers,
# WebAssembly, browsers. Sourced by check; every step counts.

# Each test program of a build folder, quick tests only.
run_programs() {
  local dir=$1 program
  shift
  for program in "$dir"/tests/*/test_*; do
    if [ -f "$program" ] && [ -x "$program" ]; then
      run "$dir ${program##*/}" "$@" "$program"
    fi
  done
}

export CC=clang-14
build build-clang && run_programs build-clang
unset CC

export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=halt_on_error=1
export LSAN_OPTIONS=print_suppressions=0
build build-asan -Db_sanitize=address,undefined -Db_lundef=false &&
  run_programs build-asan
unset ASAN_OPTIONS UBSAN_OPTIONS LSAN_OPTIONS
build build-tsan -Db_sanitize=thread -Db_lundef=false && {
  for program in build-tsan/tests/app/test_app build-tsan/tests/http/test_http; do
    run "$program" "$program"
  done
}

export CC=clang-14
if build build-fuzz -Dfuzz=true -Db_sanitize=address,undefined -Db_lundef=false
then
  for target in build-fuzz/fuzz/fuzz_*; do
    if [ -f "$target" ] && [ -x "$target" ]; then
      run "${target##*/} for 60 s" "$target" -max_total_time=60 -timeout=10 \
        -rss_limit_mb=2048 -print_final_stats=1
    fi
  done
fi
unset CC

run "clang-tidy" tools/analyse/tidy
run "cppcheck" tools/analyse/cppcheck
run "engine as WebAssembly" tools/analyse/wasm

run "npm packages of the tests" npm_packages
for tests in tests/node/*.mjs tests/browser/*.test.mjs; do
  run "${tests#tests/}" node "$tests"
done
