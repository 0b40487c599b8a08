# A real window under Xvfb and the hands that drive it; sourced by the scripts beside it, whose first
# word is the program and whose second, if any, a folder for pictures.
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
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
export XDG_DATA_HOME="$work/data" XDG_CACHE_HOME="$work/cache"
shelf="$work/shelf"

start() {
  "$quillbore" --shelf "$shelf" "$@" >"$work/log" 2>&1 & window_process=$!; processes+=("$window_process")
  : >"$work/id"
  for _ in $(seq 200); do xdotool search --onlyvisible --name Quillbore >"$work/id" 2>/dev/null && break; sleep 0.1; done
  [ -s "$work/id" ] || { echo "no window opened:"; cat "$work/log"; exit 1; }
  sleep 2; xdotool windowfocus "$(head -n 1 "$work/id")"; sleep 0.5
}
key() { xdotool key "$@"; sleep 0.4; }
type_in() { xdotool type --delay 15 "$1"; sleep 0.2; }
click() { xdotool mousemove "$1" "$2"; sleep 0.2; xdotool mousedown 1; sleep 0.1; xdotool mouseup 1; sleep 0.5; }
field() { click "$1" "$2"; key ctrl+a; type_in "$3"; key Return; }
# Types a word into the line of all words and does the first that is found.
word() { key ctrl+k; type_in "$1"; key Return; sleep 0.8; }
picture() { import -window root "$pictures/$1.png"; }
title() { xdotool getwindowname "$(head -n 1 "$work/id")"; }
fail() { picture failed; echo "$1"; exit 1; }
