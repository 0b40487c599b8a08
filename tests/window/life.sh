#!/usr/bin/env bash
# Plays the whole life of a job in the real window under Xvfb, by keyboard: inquiry, quotation, order,
# parts, traveler, run record, delivery, a crash in between, and the reorder from the code on the paper.
# Usage: tests/window/life.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"

# Whether a paper of a job was issued: its number, then the paper's.
issued() { [ -f "$shelf/$1.files/$1-$2.pdf" ]; }
newest() { find "$shelf" -maxdepth 1 -name '[0-9]*.ron' -printf '%f\n' | sort | tail -n 1 | sed 's/\.ron$//'; }

start
field "customer" "Grove Pump Works"
field "part" "GP-12"
field "material" "Stainless 316"
field "quantity" "12"
field "machine" "Wren"
printf 'hole\tqty\tdia\tdepth\nA\t6\t0,80 +-0,05\t12\nB\t2\t1.2 +-0.1\t10\n' | xclip -selection clipboard
bring "hole table"; press "hole 1 mark"
key ctrl+v; see "columns understood"; key Return
see "Pasted: 2 lines, 2 rows."; picture 1-inquiry

# A power cut before anything was saved: the draft is offered at the next start.
drafted() { grep -rqF --include='*.draft' '1.2 +-0.1' "$work/data"; }
wait_for "no draft of the job was kept" drafted
close_window -9
start
see "was not saved when the program ended last"; picture 2-draft
press "restore"
wait_for "the draft was not taken back" titled "new-job (not saved)*"

word "issue quotation"
quoted_first() { number=$(newest); issued "$number" Q1; }
wait_for "no quotation was issued" quoted_first
see "Issued: "
quoted=$(sha256sum "$shelf/$number.files/$number-Q1.pdf")
word "preview quotation"; picture 3-quoted

word "add order"; on "customer's PO of order 1"; picture 4-order
word "issue order"; see "Not issued: the order has no price each"
! issued "$number" C1 || fail "an order without a price was confirmed"
price=$(sed -n 's/.*each: "\([0-9.]*\)".*/\1/p' "$shelf/$number.ron" | head -n 1)
word "type the price"; typing "price each of order 1" "$price"; key Return
word "issue order"
wait_for "the order was not confirmed" issued "$number" C1
see "$number-C1.pdf"
word "issue traveler"; see "Not issued: the parts are not here"; picture 5-no-parts
! issued "$number" T1 || fail "a traveler was released without parts"
word "add parts"; typing "count of parts received 2" "12"; key Return; picture 6-parts
word "issue receiving"; see "$number-R1.pdf"
word "issue traveler"
wait_for "the traveler was not released" issued "$number" T1
see "$number-T1.pdf"; picture 7-on-the-floor
word "add run"
typing "pieces, serials of run record 3" "101-112"; key Tab; on "mark of run record 3"; key Tab
typing "holes of run record 3" "48"; key Tab; on "electrode number of run record 3"; key Tab
on "electrode used of run record 3"; key Tab
typing "length before of run record 3" "400"; key Tab
typing "length after of run record 3" "212"; key Tab
on "dressed or cut off of run record 3"; key Tab; on "depth reached of run record 3"; key Tab
typing "sparking by the counter, min of run record 3" "96"; key Tab
typing "or by the clock, min of run record 3" "240"; key Tab
typing "less stops, min of run record 3" "30"; key Tab
typing "electrodes of run record 3" "2"; picture 8-run
word "add non"; on "holes and pieces of non-conformance 4"
word "add delivery"; typing "count of delivery 5" "12"; key Return
word "issue certificate"; see "Not issued: no run record and no inspection says"; picture 8-not-certified
! issued "$number" F1 || fail "an open non-conformance did not stop the certificate"
word "issue packing"; see "Not issued: a non-conformance is open"
! issued "$number" P1 || fail "an open non-conformance did not hold the delivery"
word "say why"
typing "may be delivered because of non-conformance 4" "the customer takes them as they are"; key Return
word "issue packing"; see "$number-P1.pdf"
word "issue box"; see "$number-B1.pdf"
key ctrl+s; see "Saved: "; picture 9-delivered
for paper in P1 B1; do
  issued "$number" "$paper" || fail "paper $paper was not issued"
done
[ "$quoted" = "$(sha256sum "$shelf/$number.files/$number-Q1.pdf")" ] || fail "the quotation changed"

# The reorder. To the priced confirmation: 1 scan the paper, 2 reorder, 3 the order's words, 4 confirm.
key ctrl+n
key ctrl+f; typing "find on the shelf" "$number-T1/1"; key Return
wait_for "the code did not open the job" titled "$number *"
key ctrl+r; typing "customer's PO: number; quantity; price each; revision" "PO 7781; 12; 80; "; key Return
reordered() { again=$(newest); [ "$again" != "$number" ] && grep -qF "\"again\": (\"$number\"" "$shelf/$again.ron"; }
wait_for "the reorder got no number, or does not point back" reordered
see "Saved: $shelf/$again.ron"; picture 10-again
word "issue order"
see "Not issued: the order differs (price), which is not accepted yet; a non-conformance of the previous job is open"; picture 11-stopped
! issued "$again" C1 || fail "an open non-conformance did not stop the reorder"
# Somebody says why it may go on; then the order is confirmed.
field "may go on because of order 1" "the customer reams them"; picture 12-may-go-on
word "accept it"; typing "accepted by, why (printed) of order 1" "Pell: their price stays"; key Return
word "issue order"
wait_for "the reorder was not confirmed" issued "$again" C1
see "$again-C1.pdf"; picture 13-confirmed
# Days later, to the traveler: 1 the parts, 2 their count, condition and heat, 3 release.
word "add parts"; typing "count of parts received 2" "12"; key Tab
typing "condition of parts received 2" "as before"; key Tab
typing "heat of parts received 2" "H4471"; key Return
word "issue traveler"
wait_for "the traveler of the reorder was not released" issued "$again" T1
see "$again-T1.pdf"; picture 14-traveler
key ctrl+l; wait_for "the window did not turn dark" is_dark; picture 15-dark
key ctrl+l; wait_for "the window did not turn light" is_light
word "settings"; picture 16-settings
echo "the life of a job was played: 1 passed, 0 failed"
