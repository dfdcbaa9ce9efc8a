# How check runs things and counts them. Sourced.
passed=0
failed=0
log=$(mktemp -d)
trap 'rm -rf "$log"' EXIT

# run NAME COMMAND...: a command that closes with "N passed, N failed" counts
# for that much, any other for one. Output is shown only when it failed.
run() {
  local name=$1 out="$log/out" status line p=0 f=0 began=$SECONDS
  shift
  "$@" >"$out" 2>&1 </dev/null
  status=$?
  line=$(grep -E '^[0-9]+ passed, [0-9]+ failed$' "$out" | tail -n 1)
  if [ -n "$line" ]; then
    p=${line%% passed*}
    f=${line##*, }
    f=${f%% failed}
  elif [ $status -eq 0 ]; then
    p=1
  fi
  if [ $status -ne 0 ] && [ "$f" -eq 0 ]; then
    f=1
  fi
  passed=$((passed + p))
  failed=$((failed + f))
  printf '%-40s %5d passed %3d failed %4d s\n' "$name" "$p" "$f" \
    $((SECONDS - began))
  [ "$f" -eq 0 ] || tail -n 60 "$out"
}

# build DIR [MESON OPTION...]: warnings are errors here.
build() {
  local dir=$1
  shift
  if [ -f "$dir/build.ninja" ]; then
    run "configure $dir" meson configure "$dir" -Dwerror=true "$@"
  else
    run "set up $dir" meson setup "$dir" -Dwerror=true "$@"
  fi
  local before=$failed
  run "build $dir" ninja -C "$dir"
  [ "$failed" -eq "$before" ]
}

tally() {
  echo "$passed passed, $failed failed"
  [ "$failed" -eq 0 ]
}
