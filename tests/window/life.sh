#!/usr/bin/env bash
# Plays the whole life of a job in the real window under Xvfb, by keyboard: inquiry, quotation, order,
# parts, traveler, run record, delivery, a crash in between, and the reorder from the code on the paper.
# Usage: tests/window/life.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/window.sh"

start
field 430 117 "Grove Pump Works"
field 430 141 "GP-12"
field 430 189 "Stainless 316"
field 430 285 "12"
field 430 510 "Wren"
printf 'hole\tqty\tdia\tdepth\nA\t6\t0,80 +-0,05\t12\nB\t2\t1.2 +-0.1\t10\n' | xclip -selection clipboard
click 240 418
key ctrl+v
sleep 1; picture 1-inquiry

# A power cut before anything was saved: the draft is offered at the next start.
sleep 3
kill -9 "$window_process"; wait "$window_process" 2>/dev/null || true
start
picture 2-draft
click 565 65
case "$(title)" in "new-job (not saved)"*) ;; *) fail "the draft was not taken back" ;; esac

word "issue quotation"; sleep 1.5
number=$(ls "$shelf" | grep '\.ron$' | tail -n 1); number=${number%.ron}
[ -f "$shelf/$number.files/$number-Q1.pdf" ] || fail "no quotation was issued"
quoted=$(sha256sum "$shelf/$number.files/$number-Q1.pdf")
word "preview quotation"; picture 3-quoted

word "add order"; picture 4-order
word "issue order"; sleep 1
[ ! -e "$shelf/$number.files/$number-C1.pdf" ] || fail "an order without a price was confirmed"
price=$(sed -n 's/.*each: "\([0-9.]*\)".*/\1/p' "$shelf/$number.ron" | head -n 1)
word "type the price"; type_in "$price"; key Return; sleep 0.5
word "issue order"; sleep 1
[ -f "$shelf/$number.files/$number-C1.pdf" ] || fail "the order was not confirmed"
word "issue traveler"; sleep 0.5; picture 5-no-parts
[ ! -e "$shelf/$number.files/$number-T1.pdf" ] || fail "a traveler was released without parts"
word "add parts"; type_in "12"; key Return; picture 6-parts
word "issue receiving"; sleep 1
word "issue traveler"; sleep 1.5
[ -f "$shelf/$number.files/$number-T1.pdf" ] || fail "the traveler was not released"
picture 7-on-the-floor
word "add run"
type_in "101-112"; key Tab; key Tab; type_in "48"; key Tab; key Tab; type_in "400"; key Tab; type_in "212"; key Tab; type_in "96"; key Tab; type_in "240"; key Tab; type_in "30"
key Tab; type_in "2"; picture 8-run
word "add non"
word "add delivery"; type_in "12"; key Return; sleep 0.5
word "issue certificate"; sleep 1; picture 8-not-certified
[ ! -e "$shelf/$number.files/$number-F1.pdf" ] || fail "an open non-conformance did not stop the certificate"
word "issue packing"; sleep 1
[ ! -e "$shelf/$number.files/$number-P1.pdf" ] || fail "an open non-conformance did not hold the delivery"
word "say why"; type_in "the customer takes them as they are"; key Return; sleep 0.5
word "issue packing"; sleep 1
word "issue box"; sleep 1
key ctrl+s; sleep 1; picture 9-delivered
for paper in P1 B1; do
  [ -f "$shelf/$number.files/$number-$paper.pdf" ] || fail "paper $paper was not issued"
done
[ "$quoted" = "$(sha256sum "$shelf/$number.files/$number-Q1.pdf")" ] || fail "the quotation changed"

# The reorder. To the priced confirmation: 1 scan the paper, 2 again, 3 the order's words, 4 confirm.
key ctrl+n
key ctrl+f; type_in "$number-T1/1"; key Return; sleep 1
case "$(title)" in "$number "*) ;; *) fail "the code did not open the job" ;; esac
key ctrl+r; type_in "PO 7781; 12; 80; "; key Return; sleep 1.5; picture 10-again
again=$(ls "$shelf" | grep '\.ron$' | tail -n 1); again=${again%.ron}
[ "$again" != "$number" ] || fail "the reorder got no number"
grep -q "\"again\": (\"$number\"" "$shelf/$again.ron" || fail "the reorder does not point back"
word "issue order"; sleep 1; picture 11-stopped
[ ! -e "$shelf/$again.files/$again-C1.pdf" ] || fail "an open non-conformance did not stop the reorder"
# Somebody says why it may go on; then the order is confirmed.
field 430 147 "the customer reams them"; sleep 0.5; picture 12-may-go-on
word "accept it"; type_in "Pell: their price stays"; key Return; sleep 0.5
word "issue order"; sleep 1.5; picture 13-confirmed
[ -f "$shelf/$again.files/$again-C1.pdf" ] || fail "the reorder was not confirmed"
# Days later, to the traveler: 1 the parts, 2 their count, condition and heat, 3 release.
word "add parts"; type_in "12"; key Return; type_in "as before"; key Return; type_in "H4471"; key Return
word "issue traveler"; sleep 2; picture 14-traveler
[ -f "$shelf/$again.files/$again-T1.pdf" ] || fail "the traveler of the reorder was not released"
key ctrl+l; sleep 0.5; picture 15-dark; key ctrl+l
key ctrl+k; type_in "this desk"; key Return; sleep 0.5; picture 16-settings
echo "the life of a job was played: 1 passed, 0 failed"
