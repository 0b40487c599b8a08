#!/usr/bin/env bash
# Plays customers' files in the real window under Xvfb: a solid with two hundred holes of which thirty are
# ours, from the file to the price in under fifteen interactions; its next revision, compared; a workbook.
# Usage: tests/window/files.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"

# Every key, word and press that a hand does is counted.
hands=0
count() { hands=$((hands + 1)); }
at_most() { [ "$hands" -le "$1" ] || fail "$2 took $hands interactions, more than $1"; echo "$2: $hands interactions"; }
corpus=$PWD/tests/step-corpus

start
key ctrl+n; count
key ctrl+i; count
typing "take holes from the file" "$corpus/manifold-a.step"; count
key Return; count
see "take 200 holes in 4 rows"; picture 1-read
typing "sizes to take" "0.5-1.2"; count
key Return; count
see "take 30 holes in 1 row"; picture 2-chosen
key Return; count
see "Taken from manifold-a.step"
field "material" "Stainless 316"; count; count
field "quantity" "10"; count; count
field "machine" "Wren"; count; count
see "machine hours"; picture 3-priced
at_most 14 "from a solid with 200 holes to a price"

# The file went into the job's folder, and with it the job got a number.
kept() { find "$shelf" -name manifold-a.step | grep -q .; }
wait_for "the solid was not put into the job's folder" kept

# The next revision, compared with the rows that are there.
key ctrl+i
typing "take holes from the file" "$corpus/manifold-b.step"; key Return
see "The holes that are there came from manifold-a.step."
# This time by the picture: a frame around the leaning ones, then a press on one of them and on it again.
frame() {
  xdotool mousemove --window "$window" "$1" "$2"; sleep 0.2; xdotool mousedown 1; sleep 0.2
  xdotool mousemove --window "$window" "$((($1 + $3) / 2))" "$((($2 + $4) / 2))"; sleep 0.2
  xdotool mousemove --window "$window" "$3" "$4"; sleep 0.2; xdotool mouseup 1; sleep 0.3
}
frame 858 300 940 362
see "take 30 holes in 2 rows"
click 924 311; see "take 29 holes in 2 rows"; click 924 311; see "take 30 holes in 2 rows"
see "1 changed, 0 gone, 1 new"; see "the lot"; picture 4-compared
press "take 30 holes in 2 rows"
see "Taken from manifold-b.step"
key ctrl+s
revised() { grep -rl 'manifold-b.step' "$shelf" --include='[0-9]*.ron' | grep -q .; }
wait_for "the revision was not saved" revised
picture 5-revised

# A workbook with several sheets.
key ctrl+n
key ctrl+i
typing "take holes from the file" "$PWD/tests/workbook-corpus/several.xlsx"; key Return
see "worksheet"; picture 6-workbook
key Return
see "Taken from several.xlsx"; picture 7-rows

# A drawing in PDF: its callouts are offered beside the page, none is taken unasked.
key ctrl+n
key ctrl+i
typing "take holes from the file" "$PWD/tests/pdf-corpus/lab-metric.pdf"; key Return
see "take 0 callouts"; picture 8-pages
press "callout 4X ⌀0.80 ±0.02 THRU, page 1, upper left"
see "take 1 callout"
typing "take those with" "0.80"; key Return
see "take 3 callouts"; picture 9-callouts
key Return
see "Taken from lab-metric.pdf: 3 rows."; picture 10-called
close_window
echo "customers' files were played: 1 passed, 0 failed"
