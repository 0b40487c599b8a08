#!/usr/bin/env bash
# How long the program takes from its start to its window on a shelf of 1,000 jobs, and what it takes
# while nobody does anything. The times are told and judged by whoever reads them: machines are shared.
# What fails is a window that never rests, or one that takes ten times as long as it should.
set -euo pipefail
. "$(dirname "$0")/window.sh"
command -v xwininfo >/dev/null || { echo "xwininfo is missing: install x11-utils" >&2; exit 1; }

jobs=${JOBS:-1000}
open_window; close_window   # the shelf gets its mark and the demo jobs
for number in $(seq 1 "$jobs"); do
  name=$(printf '24-%04d' "$number")
  sed "s/number: \"26-0079\"/number: \"$name\"/" demo-jobs/26-0079.ron >"$shelf/$name.ron"
done

# From the start to the window on the screen, in milliseconds.
once() {
  local from to
  from=$(date +%s%N)
  "$quillbore" --shelf "$shelf" >"$work/log" 2>&1 & window_process=$!
  until xwininfo -root -tree 2>/dev/null | grep -q '"[^"]*Quillbore"'; do :; done
  to=$(date +%s%N)
  echo $(((to - from) / 1000000)) >>"$work/times"
}
for _ in 1 2 3 4 5 6 7; do once; sleep 1; close_window; done
median=$(sort -n "$work/times" | sed -n 4p)
echo "start to window with $jobs jobs: median $median ms of $(sort -n "$work/times" | paste -sd ' ')"
[ "$median" -lt 1500 ] || { echo "ten times as long as the 150 ms it should take" >&2; exit 1; }

# Ticks of the processor, a hundredth of a second each, over ten seconds of rest.
open_window
sleep 8
ticks() { awk '{print $14 + $15}' "/proc/$window_process/stat"; }
before=$(ticks); sleep 10; after=$(ticks)
echo "at rest for 10 s: $((after - before)) hundredths of a second of the processor"
[ $((after - before)) -le 10 ] || { echo "the window does not rest" >&2; exit 1; }
close_window
