# shellcheck shell=bash
# A real window under Xvfb, with keyboard and mouse; sourced by the scripts beside it, whose first word
# is the program and whose second, if any, a folder for pictures.
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit
[ $# -ge 1 ] || { echo "name the program to open: $0 QUILLBORE [FOLDER-FOR-PICTURES]" >&2; exit 1; }
quillbore=$1
[ -x "$quillbore" ] || { echo "$quillbore is not there or can't be run: build it first (.ci/release)" >&2; exit 1; }
for tool in Xvfb xdotool xclip import; do
  command -v "$tool" >/dev/null || { echo "$tool is missing: install xvfb, xdotool, xclip and imagemagick" >&2; exit 1; }
done
work=$(mktemp -d)
pictures=${2:-$work}
mkdir -p "$pictures"
processes=()
finish() { for process in "${processes[@]}"; do kill "$process" 2>/dev/null || true; done; rm -rf "$work"; }
trap finish EXIT

# Without -noreset it begins anew, under a window that is just opening, when xdotool leaves as the last.
Xvfb -displayfd 3 -noreset -screen 0 1280x800x24 3>"$work/display" 2>/dev/null & processes+=($!)
for _ in $(seq 100); do [ -s "$work/display" ] && break; sleep 0.1; done
[ -s "$work/display" ] || { echo "Xvfb gives no display" >&2; exit 1; }
DISPLAY=:$(cat "$work/display"); export DISPLAY LIBGL_ALWAYS_SOFTWARE=1
export XDG_DATA_HOME="$work/data" XDG_CACHE_HOME="$work/cache"
# The sample jobs, in a folder of their own.
shelf="$XDG_DATA_HOME/quillbore/sample-jobs"; shelf_option=(--samples)

fail() { picture failed; echo "$1" >&2; exit 1; }
# Waits, at most 30 seconds, until a command succeeds; the first word is what to say if it doesn't.
wait_for() {
  local said=$1 _; shift
  for _ in $(seq 300); do if "$@" 2>/dev/null; then return; fi; sleep 0.1; done
  fail "$said"
}

# Opens the window and puts it off the corner, so that its places are not those of the screen.
open_window() {
  "$quillbore" "${shelf_option[@]}" "$@" >"$work/log" 2>&1 & window_process=$!; processes+=("$window_process")
  window=
  for _ in $(seq 300); do
    window=$(xdotool search --onlyvisible --name Quillbore 2>/dev/null | head -n 1) || true
    [ -z "$window" ] || break
    sleep 0.1
  done
  [ -n "$window" ] || { cat "$work/log" >&2; fail "no window opened"; }
  xdotool windowmove "$window" 0 40
  wait_for "the window does not take the keyboard" takes_keyboard
}
takes_keyboard() { xdotool windowfocus "$window" && [ "$(xdotool getwindowfocus)" = "$window" ]; }
close_window() { kill "$@" "$window_process"; wait "$window_process" 2>/dev/null || true; }

key() { xdotool key "$@"; sleep 0.2; }
type_in() { xdotool type --delay 15 "$1"; }
# A press of the mouse at a place counted from the window's corner, long enough to be drawn.
click() {
  xdotool mousemove --window "$window" "$1" "$2"; sleep 0.1
  xdotool mousedown 1; sleep 0.1; xdotool mouseup 1; sleep 0.1
}
title() { xdotool getwindowname "$window"; }
# Whether the title has a shape, as in `case`.
# shellcheck disable=SC2053
titled() { [[ "$(title)" == $1 ]]; }
brightness() { import -window "$window" -colorspace gray -format '%[fx:round(100*mean)]' info:; }
is_dark() { [ "$(brightness)" -lt 40 ]; }
is_light() { [ "$(brightness)" -gt 60 ]; }
# A picture of the screen, once two in a row are the same or three seconds are over.
picture() {
  local last=none now _
  for _ in $(seq 10); do
    sleep 0.3; import -window root "$pictures/$1.png"
    now=$(sha256sum <"$pictures/$1.png")
    [ "$now" != "$last" ] || return 0
    last=$now
  done
}
