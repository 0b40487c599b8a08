#!/usr/bin/env bash
# Plays a call about a broken tap in the real window under Xvfb: question by question to a price in under
# ten inputs, the job that it makes, and its receipt.
# Usage: tests/window/tools.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"

start
key ctrl+n
press "a broken tool instead"; picture asked
say() { type_in "$1"; key Return; }
say "M6 tap"; say "Steel, other"
see "About "; see "if it can't be got out"; picture told
say "160"; say "80"; say "60"; say "4"
say "blind"; say "2"; say "12"
see "if it can't be got out"; picture price
say "hammer and punch"; say "800"; say "2026-12-15"; say "by courier tomorrow"
say "Sallow Brook Pumps"; say "M. Orrin, 555 0142"
see "broken tool"; picture job
key ctrl+s
saved_tool() { grep -l '"broken": ("M6 tap", mm)' "$shelf"/[0-9]*.ron >"$work/tool" 2>/dev/null; }
wait_for "the job of the call was not saved" saved_tool
word "broken tool receipt"; sleep 1; picture receipt; key Escape

# A plate of start holes for a wire, pasted from a spreadsheet: to a price each hole, and its threading list.
key ctrl+n
field "customer" "Sallow Brook Pumps"
field "part" "die plate"
field "material" "Tool steel D2"
field "quantity" "2"
field "machine" "Wren"
field "x" "120"; field "y" "80"; field "z" "30"; field "mass" "2.2"; field "part value" "900"
{
  printf 'hole\tdia\tdepth\tend\twire\tleast exit\tto profile\tproved by\tx\ty\n'
  for at in 1 2 3 4 5 6; do
    printf 'A\t0.8 +-0.1\t30\tthrough\t0.25\t0.5\t2\tlight\t%s\t20\n' "$((at * 15))"
  done
} | xclip -selection clipboard
bring "hole table"; press "hole 1 mark"
key ctrl+v; see "columns understood"; picture start-pasted; key Return
see "Pasted:"
see "machine hours"; picture start-priced
key ctrl+s
saved_plate() { grep -l '"wire": ("0.25", mm)' "$shelf"/[0-9]*.ron >"$work/plate" 2>/dev/null; }
wait_for "the start-hole plate was not saved" saved_plate
word "threading list"
list="$(sed 's/\.ron$/.files/' "$work/plate")/$(basename "$(cat "$work/plate")" .ron)-threading.csv"
wait_for "there is no threading list $list" test -s "$list"
[ "$(grep -c '0.25' "$list")" = 6 ] || { cat "$list" >&2; fail "the threading list has not six holes with their wire"; }
picture start-threaded
echo "broken tap and start holes were played: 1 passed, 0 failed"
