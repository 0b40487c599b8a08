#!/usr/bin/env bash
# Drives the real window under Xvfb by keyboard and mouse: new job, paste, price, print, save, reopen.
# Usage: tests/window/drive.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
cd "$(dirname "$0")/../.."
quillbore=$1
for tool in Xvfb xdotool xclip import; do
  command -v "$tool" >/dev/null || { echo "$tool is missing: install xvfb, xdotool, xclip and imagemagick"; exit 1; }
done
work=$(mktemp -d)
pictures=${2:-$work}
mkdir -p "$pictures"
processes=()
finish() { for process in "${processes[@]}"; do kill "$process" 2>/dev/null || true; done; rm -rf "$work"; }
trap finish EXIT

Xvfb -displayfd 3 -screen 0 1280x800x24 3>"$work/display" 2>/dev/null & processes+=($!)
for _ in $(seq 100); do [ -s "$work/display" ] && break; sleep 0.1; done
DISPLAY=:$(cat "$work/display"); export DISPLAY LIBGL_ALWAYS_SOFTWARE=1
export XDG_DATA_HOME="$work/data"
shelf="$work/shelf"

start() {
  "$quillbore" --shelf "$shelf" "$@" >"$work/log" 2>&1 & window_process=$!; processes+=("$window_process")
  for _ in $(seq 200); do xdotool search --onlyvisible --name Quillbore >"$work/id" 2>/dev/null && break; sleep 0.1; done
  [ -s "$work/id" ] || { echo "no window opened:"; cat "$work/log"; exit 1; }
  sleep 2; xdotool windowfocus "$(head -n 1 "$work/id")"; sleep 0.5
}
key() { xdotool key "$@"; sleep 0.4; }
click() { xdotool mousemove "$1" "$2"; sleep 0.2; xdotool mousedown 1; sleep 0.1; xdotool mouseup 1; sleep 0.5; }
field() { click "$1" "$2"; key ctrl+a; xdotool type --delay 15 "$3"; key Return; }
picture() { import -window root "$pictures/$1.png"; }
title() { xdotool getwindowname "$(head -n 1 "$work/id")"; }

start
key ctrl+n
field 430 117 "Grove Pump Works"
field 430 141 "GP-12"
field 430 189 "Stainless 316"
field 430 285 "12"
field 430 510 "Wren"
printf 'hole\tqty\tdia\tdepth\tend\tbehind\tangle\nA\t6\t0,80 +-0,05\t12\tinto\t1\t\nB\t2\t1.2 +-0.1\t10\tthrough\t\tsteepish\n' | xclip -selection clipboard
click 240 418
key ctrl+v
sleep 1; picture pasted
[ "$(title)" != "" ] || { echo "the window has no title"; exit 1; }

# The remedy underlined in the side note, then the price in the foot, which opens its working.
click 1120 454
click 222 725; picture working

key ctrl+s; sleep 0.5; key Return; sleep 1
saved=$(ls "$shelf" | grep -v -E '^(25-0388|26-010[1-6])\.' | grep '\.ron$' | head -n 1)
[ -n "$saved" ] || { picture failed; echo "the new job was not saved"; exit 1; }
status=0; "$quillbore" figures "$shelf/$saved" --json >"$work/figures.json" || status=$?
[ "$status" -le 1 ] || { echo "the saved job gives no figures"; exit 1; }
grep -q '"quantity": 12' "$work/figures.json" || { picture failed; echo "the quantity did not reach the job"; exit 1; }
[ "$(grep -c '"places":' "$work/figures.json")" = 2 ] || { picture failed; echo "the pasted rows did not reach the job"; exit 1; }
grep -q '"backed"' "$shelf/$saved" || { picture failed; echo "the remedy was not applied"; exit 1; }
grep -q 'steepish' "$shelf/$saved" || { echo "what can't be read was lost"; exit 1; }

key ctrl+p; sleep 0.5; key Return; sleep 2
printed=$(find "$shelf" -name '*traveler*.pdf' | head -n 1)
[ -n "$printed" ] || { picture failed; echo "no traveler was printed"; exit 1; }
key ctrl+l; picture dark; key ctrl+l

key ctrl+z; sleep 0.5
case "$(title)" in *"not saved"*) ;; *) picture failed; echo "undo did not change the job"; exit 1 ;; esac
kill "$window_process"; wait "$window_process" 2>/dev/null || true

start "$shelf/$saved"
case "$(title)" in "${saved%.ron}"*) ;; *) echo "the job did not reopen"; exit 1 ;; esac
picture reopened
echo "the window was driven: 1 passed, 0 failed"
