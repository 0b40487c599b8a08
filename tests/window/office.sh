#!/usr/bin/env bash
# Sets a shop up in the real window under Xvfb, from an empty folder to the traveler on the printer and
# the job ordered again, and counts what the hand does: a press, a key, a line typed and entered.
# Usage: tests/window/office.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"
shelf="$XDG_DATA_HOME/quillbore/shelf"; shelf_option=()

# What opens and what prints is recorded.
mkdir -p "$work/tools"
for tool in xdg-open lp; do
  printf '#!/bin/sh\nfor word; do printf "%%s\\n" "$word"; done >>"%s"\n' "$work/$tool-record" >"$work/tools/$tool"
done
printf '#!/bin/sh\n' >"$work/tools/lpstat"
chmod +x "$work/tools"/*
export PATH="$work/tools:$PATH"

hands=0
pressed() { hands=$((hands + 1)); press "$1"; }
# The mouse on a line, then what is typed there.
filled() { hands=$((hands + 2)); field "$1" "$2"; }
# Typed where the keyboard is, and entered; an empty text leaves the line as it stands.
entered() {
  hands=$((hands + 1))
  if [ -n "$2" ]; then typing "$1" "$2"; else on "$1"; fi
  key "${3:-Return}"
}
keyed() { hands=$((hands + 1)); key "$1"; }
at_most() { [ "$hands" -le "$1" ] || fail "$2 took $hands interactions, more than $1"; echo "$2: $hands interactions"; }
issued() { [ -f "$shelf/$1.files/$1-$2.pdf" ]; }
newest() { find "$shelf" -maxdepth 1 -name '[0-9]*.ron' -printf '%f\n' | sort | tail -n 1 | sed 's/\.ron$//'; }

cat >"$work/logo.svg" <<'SVG'
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 20"><circle cx="10" cy="10" r="9" fill="#1d4f73"/><path d="M24 4h30v3H24zM24 12h22v3H24z" fill="#c2571a"/></svg>
SVG

first_word="start quoting"; start
entered "name" "Tallow Street Fine Bores"
entered "address" "1 Tallow Street; Exampleton"
entered "currency" ""; entered "mm or in" ""; entered "paper size" ""
entered "machine, per hour" "62"; entered "labor, per hour" "44"
entered "margin on price, %" "25"; entered "minimum charge per lot" "120"
entered "a machine: its name" "Plover"; entered "electrode from" ""; entered "electrode to" "3"
entered "electrode diameters in the drawer, such as 0.3 0.5 0.8" "0.3 0.5 0.8 1.0 1.2"
picture 1-first-start
pressed "all of the shop"
pressed "go to customers"; hands=$((hands + 1)); type_in "Grove Pump Works"; key Return
picture 2-customer
pressed "go to name, currency, logo"; picture 3-identity
hands=$((hands + 2)); place=$(hand field "file of the logo, PNG or SVG: type its path and Enter, or drop it on the page"); click_at "$place"; type_in "$work/logo.svg"; key Return
see "SVG, "; picture 4-logo
keyed F7

# The inquiry: customer, part and a table from a spreadsheet.
filled "customer" "Grove Pump Works"
filled "part" "GP-12"
filled "material" "Stainless 316"
filled "quantity" "12"
picture 5-inquiry
{
  printf 'hole\tqty\tdia\tdepth\tend\tangle\n'
  printf 'A\t6\t0,80 +-0,05\t12\tthrough\t\nB\t2\t1.2 +-0.1\t10\tthrough\t\nC\t4\t0.5 +-0.05\t8\tthrough\t\n'
  printf 'D\t1\t1.0 +-0.05\t20\tthrough\t\nE\t3\t0.8 +-0.05\t15\tblind\t\nF\t2\t.047 in +-.004 in\t.5 in\tthrough\t\n'
  printf 'G\t8\t0.5 +0.05 -0\t6\tthrough\t15\nH\t1\t1,0 +-0,1\t30\tthrough\t\nI\t2\t0.8 +-0.05\t12\tthrough\t30\n'
  printf 'K\t5\t0.5 +-0.05\t5\tblind\t\nL\t1\t1.2 +-0.05\t25\tthrough\t\nM\t4\t0.8 +-0.05\t10\tthrough\t\n'
  printf 'N\t2\t1.0 +-0.05\t10\tblind\t\nP\t6\t0.5 +-0.05\t9\tthrough\t20\n'
} | xclip -selection clipboard
bring "hole table"; pressed "hole 1 mark"
keyed ctrl+v; see "columns understood"; picture 6-pasting; keyed Return
see "Pasted: 14 lines, 14 rows."; picture 7-pasted
keyed ctrl+Return; picture 8-next
