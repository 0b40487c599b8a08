#!/usr/bin/env bash
# Sees that the window opens, draws, and that mouse and keyboard arrive where the eye would send them:
# the one script that knows places, two of them, and that runs without the bus of accessibility.
# Where the layout changes, take both from a picture.
# Usage: tests/window/smoke.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/window.sh"
unset DBUS_SESSION_BUS_ADDRESS

open_window
# The newest of the demo jobs is the first of the shelf's list, which is there once the shelf was read.
first=$(find demo-jobs -name '*.ron' -printf '%f\n' | sort | tail -n 1); first=${first%.ron}
first_job() { click 40 300; sleep 0.5; titled "$first *"; }
wait_for "the mouse does not reach the first job of the list at 40, 300" first_job
# The line of the customer.
click 300 137; key ctrl+a; type_in "Grove Pump Works"; key Return
wait_for "the mouse does not reach the customer's line at 300, 137, or nothing can be typed there" titled "$first (not saved)*"
key ctrl+s
wait_for "what was typed was not saved" grep -q 'Grove Pump Works' "$shelf/$first.ron"
picture smoke
echo "the window was reached: 1 passed, 0 failed"
