#!/usr/bin/env bash
# Everything that can be pressed or typed on has a label for readers of the screen, read over AT-SPI in
# the real window: on an empty sheet, on a job, and on what lies over it.
set -euo pipefail
. "$(dirname "$0")/hands.sh"

named() { printf '%s: ' "$1"; hand named "$2"; }

start
named "empty sheet" 40
for job in 26-0101 25-0388; do
  press "job $job"
  wait_for "$job is not in front" titled "$job*"
  named "$job" 60
  key F1; named "$job, help" 60; key Escape
  key ctrl+p; named "$job, preview" 20; key Escape
  key ctrl+r; on "customer's PO: number; quantity; price each; revision"; named "$job, reorder" 60; key Escape
done
key ctrl+k; on "find a command"; named "commands" 80; key Escape
key ctrl+comma; named "settings" 40; key Escape
key F8; see "WHAT THE SHOP HAS LEARNED"; named "what was learned" 15; key Escape
key ctrl+n
printf 'size\tdepth\twhat\n0.8\t12\tgrey\n' | xclip -selection clipboard
key ctrl+v; on "which is this"; named "table to paste" 40; key Escape
close_window
