# shellcheck shell=bash
# Hands that find things in the window by their label; sourced by the scripts beside it in place of
# window.sh. The mouse still presses: what is covered is not reached.
. "$(dirname "${BASH_SOURCE[0]}")/window.sh"

launcher=
for path in /usr/libexec /usr/lib/at-spi2-core /usr/lib; do
  [ ! -x "$path/at-spi-bus-launcher" ] || launcher=$path/at-spi-bus-launcher
done
[ -n "$launcher" ] || { echo "at-spi-bus-launcher is missing: install at-spi2-core" >&2; exit 1; }
command -v dbus-daemon >/dev/null || { echo "dbus-daemon is missing: install dbus" >&2; exit 1; }
/usr/bin/python3 -c 'from gi.repository import Gio' 2>/dev/null ||
  { echo "/usr/bin/python3 can't reach D-Bus: install python3 and python3-gi" >&2; exit 1; }

# A bus of our own, so that nobody else's window is on it and nobody's settings change.
dbus-daemon --session --nofork --print-address=3 3>"$work/bus" 2>"$work/bus-log" & processes+=($!)
for _ in $(seq 100); do [ -s "$work/bus" ] && break; sleep 0.1; done
[ -s "$work/bus" ] || { cat "$work/bus-log" >&2; echo "dbus-daemon gives no bus" >&2; exit 1; }
DBUS_SESSION_BUS_ADDRESS=$(cat "$work/bus"); export DBUS_SESSION_BUS_ADDRESS
GSETTINGS_BACKEND=memory "$launcher" --launch-immediately --a11y=1 >"$work/launcher-log" 2>&1 & processes+=($!)

hand() {
  WINDOW_PROCESS=$window_process WINDOW_SIZE=$window_size /usr/bin/python3 tests/window/hand.py "$@" ||
    fail "The hand stopped at: $*"
}
start() {
  open_window "$@"
  window_size=$(xdotool getwindowgeometry --shell "$window" | sed -n 's/^WIDTH=//p; s/^HEIGHT=//p' | paste -sd x)
  hand place "${first_word:-commands}" >/dev/null
}
# Presses a word, or the one right before a text, where it stands.
press() { local place; place=$(hand place "$1"); click_at "$place"; }
press_before() { local place; place=$(hand place-before "$1"); click_at "$place"; }
click_at() { click "${1% *}" "${1#* }"; }
bring() { hand bring "$1"; }
see() { hand sees "$1"; }
# The line that must have the keyboard; typing goes there, or it fails.
on() { hand focused "$1"; }
typing() { on "$1"; type_in "$2"; hand holds "$1" "$2"; }
# Types on a line in place of what stands there, and enters it.
field() {
  local place; place=$(hand field "$1"); click_at "$place"; on "$1"
  key ctrl+a; typing "$1" "$2"; key Return
}
# Types a word into the line of all words and does the first that is found.
word() { key ctrl+k; typing "find a command" "$1"; key Return; hand gone "find a command"; }
