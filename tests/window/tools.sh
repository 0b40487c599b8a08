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
