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
entered "currency" "USD"; entered "mm or in" ""; entered "paper size" ""
entered "machine, per hour" "62"; entered "labor, per hour" "44"
entered "margin on price, %" "25"; entered "minimum charge per lot" "120"
entered "a machine: its name" "Plover"; entered "electrode from" ""; entered "electrode to" "3"
entered "electrode diameters in the drawer, such as 0.3 0.5 0.8" "0.3 0.4 0.7 0.9 1.1"
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
  printf 'G\t8\t0.5 +-0.05\t6\tthrough\t15\nH\t1\t1,0 +-0,1\t30\tthrough\t\nI\t2\t0.8 +-0.05\t12\tthrough\t30\n'
  printf 'K\t5\t0.5 +-0.05\t5\tblind\t\nL\t1\t1.2 +-0.05\t25\tthrough\t\nM\t4\t0.8 +-0.05\t10\tthrough\t\n'
  printf 'N\t2\t1.0 +-0.05\t10\tblind\t\nP\t6\t0.5 +-0.05\t9\tthrough\t20\n'
} | xclip -selection clipboard
bring "hole table"; pressed "hole 1 mark"
keyed ctrl+v; see "columns understood"; picture 6-pasting; keyed Return
see "Pasted: 14 lines, 14 rows."; picture 7-pasted
pressed "accepted by us: depth not to be promised of E"; hands=$((hands + 1)); type_in "each is measured"; key Return; picture 8-answered
keyed ctrl+Return; picture 8-quotation
pressed "say lead time: 5 working days"; pressed "say valid for: 30 days"
keyed ctrl+Return
quoted_first() { number=$(newest); issued "$number" Q1; }
wait_for "no quotation was issued" quoted_first
quoted=$(sha256sum "$shelf/$number.files/$number-Q1.pdf")
pressed "open"; picture 9-quoted
opened() { grep -qxF "$shelf/$number.files/$number-Q1.pdf" "$work/xdg-open-record"; }
wait_for "the quotation was not opened" opened
keyed ctrl+Return; picture 10-order
entered "customer's PO of order 1" "PO 7781"
price=$(sed -n 's/.*each: "\([0-9.]*\)".*/\1/p' "$shelf/$number.ron" | head -n 1)
pressed "type the price"; entered "price each of order 1" "$price"
keyed ctrl+Return; keyed ctrl+Return
wait_for "the order was not confirmed" issued "$number" C1
keyed ctrl+Return; entered "count of parts received 2" "12"; picture 11-parts
keyed ctrl+Return; picture 12-next
keyed ctrl+Return
wait_for "the traveler was not released" issued "$number" T1
pressed "print"; picture 13-print
entered "printer, empty for the system's usual one" ""
printed() { grep -q "$number-T1.pdf" "$work/lp-record"; }
wait_for "the traveler did not reach the printer command" printed
picture 14-printed
at_most 70 "from an empty folder to the traveler on the printer"

# The same parts again: four to the priced confirmation, three to the traveler.
hands=0
keyed ctrl+r
entered "customer's PO: number; quantity; price each; revision" "PO 7902; 12; same; "
reordered() { again=$(newest); [ "$again" != "$number" ] && grep -qF "\"again\": (\"$number\"" "$shelf/$again.ron"; }
wait_for "the reorder got no number, or does not point back" reordered
picture 15-again
keyed ctrl+Return; picture 16-confirmation; keyed ctrl+Return
wait_for "the reorder was not confirmed" issued "$again" C1
at_most 4 "the reorder to its confirmation"
hands=0
keyed ctrl+Return; entered "count of parts received 2" "12" ctrl+Return
picture 17-traveler; keyed ctrl+Return
wait_for "the traveler of the reorder was not released" issued "$again" T1
[ "$quoted" = "$(sha256sum "$shelf/$number.files/$number-Q1.pdf")" ] || fail "the quotation changed"
picture 18-end
at_most 3 "the reorder's parts and traveler"
echo "a shop was set up and went to work: 1 passed, 0 failed"
