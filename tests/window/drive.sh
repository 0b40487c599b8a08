#!/usr/bin/env bash
# Drives the real window under Xvfb by keyboard and mouse: new job, paste, price, print, save, reopen.
# Usage: tests/window/drive.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/window.sh"

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
click 1018 468
click 222 708; picture working

key ctrl+s; sleep 0.5; key Return; sleep 1
saved=$(ls "$shelf" | grep '\.ron$' | grep -vxF "$(ls demo-jobs)" | head -n 1)
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
