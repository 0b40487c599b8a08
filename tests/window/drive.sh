#!/usr/bin/env bash
# Drives the real window under Xvfb by keyboard and mouse: new job, paste, price, print, save, reopen.
# Usage: tests/window/drive.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"

start
key ctrl+n
field "customer" "Grove Pump Works"
field "part" "GP-12"
field "material" "Stainless 316"
field "quantity" "12"
field "machine" "Wren"
printf 'hole\tqty\tdia\tdepth\tend\tbehind\tangle\nA\t6\t0,80 +-0,05\t12\tinto\t1\t\nB\t2\t1.2 +-0.1\t10\tthrough\t\tsteepish\n' | xclip -selection clipboard
# A click that is let go at once takes the keyboard, too.
bring "hole table"; place=$(hand place "hole 1 mark")
xdotool mousemove --window "$window" "${place% *}" "${place#* }" sleep 0.3 mousedown 1 mouseup 1; sleep 0.3
type_in "A"; see "editing hole 1 mark"; key Escape
press "hole 1 mark"
key ctrl+v; see "columns understood"; key Return
see "Pasted: 2 lines, 2 rows."; picture pasted
[ "$(title)" != "" ] || fail "the window has no title"

# The remedy underlined in the side note. What can't be read leaves no price.
press "add backing"
see "Can't be quoted:"

key ctrl+s
new_job() { saved=$(find "$shelf" -maxdepth 1 -name '[0-9]*.ron' -printf '%f\n' | grep -vxF "$(ls demo-jobs)"); }
wait_for "the new job was not saved" new_job
see "Saved: $shelf/$saved"
wait_for "the title does not say that the job is saved" titled "${saved%.ron} –*"
grep -q '"backed"' "$shelf/$saved" || fail "the remedy was not applied"
grep -q 'steepish' "$shelf/$saved" || fail "what can't be read was lost"

# Put right, it has one in the foot, which opens its working.
press "hole 2 angle"; type_in "20"; key Return
press_before "each,"; see "The price each at 12"; picture working
key ctrl+s
wait_for "the title does not say that the job is saved again" titled "${saved%.ron} –*"
status=0; "$quillbore" figures "$shelf/$saved" --json >"$work/figures.json" || status=$?
[ "$status" -le 1 ] || fail "the saved job gives no figures"
grep -q '"quantity": 12' "$work/figures.json" || fail "the quantity did not reach the job"
[ "$(grep -c '"places":' "$work/figures.json")" = 2 ] || fail "the pasted rows did not reach the job"

key ctrl+shift+p; on "print into the folder"; key Return
printed() { [ -n "$(find "$shelf" -name '*traveler*.pdf')" ]; }
wait_for "no traveler was printed" printed
see "Printed: "
key ctrl+l; wait_for "the window did not turn dark" is_dark; picture dark
key ctrl+l; wait_for "the window did not turn light" is_light

key ctrl+z
wait_for "undo did not change the job" titled '*(not saved)*'
close_window

start "$shelf/$saved"
wait_for "the job did not reopen" titled "${saved%.ron}*"
picture reopened
echo "the window was driven: 1 passed, 0 failed"
