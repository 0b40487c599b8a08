#!/usr/bin/env bash
# Two windows at one shelf on a PostgreSQL server of this script's own, one of them over a line of 40 ms
# there and back and with a clock that is wrong by more than a hold lasts: each sees what the other saves, holds and numbers; the server goes and comes back; a
# password is asked and given.
# Usage: tests/window/server.sh QUILLBORE [FOLDER-FOR-PICTURES]
set -euo pipefail
. "$(dirname "$0")/hands.sh"

bin=$(pg_config --bindir 2>/dev/null || true)
[ -x "$bin/initdb" ] || bin=$(find /usr/lib/postgresql -maxdepth 2 -name bin 2>/dev/null | sort -V | tail -n 1)
[ -x "$bin/initdb" ] || { echo "a PostgreSQL server is missing: install postgresql" >&2; exit 1; }
clock=$(ls /usr/lib/*/faketime/libfaketimeMT.so.1 2>/dev/null | head -n 1)
[ -n "$clock" ] || { echo "a clock that can be set wrong is missing: install faketime" >&2; exit 1; }
as=()
[ "$(id -u)" != 0 ] || as=(setpriv --reuid=postgres --regid=postgres --clear-groups)
# Whoever runs the server comes through to its folder.
chmod 755 "$work"
server="$work/server"; mkdir "$server"
[ "$(id -u)" != 0 ] || chown postgres "$server"
"${as[@]}" "$bin/initdb" -D "$server/data" -U shop -A trust -E UTF8 --locale=C --no-sync >"$work/initdb-log" 2>&1
free_port() { /usr/bin/python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'; }
port=$(free_port)
slow_port=$(free_port)
server_up() {
  "${as[@]}" "$bin/postgres" -D "$server/data" -k "$server" -p "$port" \
    -c listen_addresses=127.0.0.1 >>"$work/server-log" 2>&1 & server_process=$!
  wait_for "the server does not answer" "$bin/pg_isready" -q -h "$server" -p "$port"
}
server_down() { kill -INT "$server_process"; wait "$server_process" || true; }
asked() { "$bin/psql" -X -q -A -t -h "$server" -p "$port" -U shop -d "$1" -c "$2"; }
server_up
stop_server() { kill -INT "$server_process" 2>/dev/null || true; wait "$server_process" 2>/dev/null || true; finish; }
trap stop_server EXIT
asked postgres "CREATE DATABASE shelf"
/usr/bin/python3 tests/window/slow_line.py "$slow_port" "$port" 20 & processes+=($!)
address="postgresql://kim@127.0.0.1:$port/shelf"
far_address="postgresql://kim@127.0.0.1:$slow_port/shelf"

# The shelf moves house: from a folder onto the server.
folder="$work/folder"; mkdir "$folder"
cp demo-jobs/*.ron assets/sample-shelf/shop.ron "$folder"
printf 'A shelf.\n00112233445566778899aabbccddeeff\n' >"$folder/quillbore-shelf.txt"
"$quillbore" shelf copy "$folder" "postgresql://shop@127.0.0.1:$port/shelf"
asked shelf "CREATE ROLE kim LOGIN PASSWORD 'a long secret' IN ROLE quillbore_desk"

# Two desks, each with its own settings; the east has the long line, and a clock that is late.
printf '#!/bin/sh\nexec env LD_PRELOAD=%s FAKETIME=-90s FAKETIME_DONT_FAKE_MONOTONIC=1 "%s" "$@"\n' \
  "$clock" "$(realpath "$quillbore")" >"$work/late"
chmod +x "$work/late"
for desk in east west; do
  mkdir -p "$work/$desk/quillbore"
  printf '{"desk_name": "%s", "today_seen": "%s"}' "$desk site" "$(date +%F)" >"$work/$desk/quillbore/settings.json"
done
declare -A windows runs
at() { window=${windows[$1]}; window_process=${runs[$1]}; xdotool windowraise "$window"; wait_for "no keyboard" takes_keyboard; }
opened() {
  export XDG_DATA_HOME="$work/$1" XDG_CACHE_HOME="$work/$1-cache"
  # The other window is not taken for this one.
  for other in "${windows[@]}"; do xdotool windowunmap "$other"; done
  start "${@:2}"
  windows[$1]=$window; runs[$1]=$window_process
  for other in "${windows[@]}"; do xdotool windowmap "$other"; done
}
saved() { [ "$(asked shelf "SELECT count(*) FROM quillbore.document WHERE doc = '$1'")" = 1 ]; }

shelf_option=(--shelf "$far_address"); quillbore="$work/late" opened east
shelf_option=(--shelf "$address"); opened west
at east
field "customer" "Grove Pump Works"; field "part" "GP-12"
key ctrl+s
wait_for "the job was not saved" saved 26-0107
see "job 26-0107"; picture 1-saved-in-the-east
at west
see "job 26-0107"; picture 2-seen-in-the-west

# The west opens the same job, and hears who has it.
key ctrl+f; type_in "26-0107"; key Return
wait_for "the job was not opened" titled "26-0107*"
see "east site"; picture 3-held-by-the-east

# Its own job gets the next number, and the east sees it.
key ctrl+n; field "customer" "Dunmoor Hydraulics"; key ctrl+s
wait_for "the second job was not saved" saved 26-0108
at east
see "job 26-0108"; picture 4-numbered-in-the-west

# Both save the same job: nobody's work is lost.
at west
key ctrl+f; type_in "26-0107"; key Return
wait_for "the job was not opened" titled "26-0107*"
field "part name" "rotor"; key ctrl+s
changed() { [ "$(asked shelf "SELECT count(*) FROM quillbore.revision WHERE doc = '26-0107'")" = "$1" ]; }
wait_for "the west did not save" changed 2
at east
key Escape; field "quantity" "12"; key ctrl+s
see "Another desk saved this job meanwhile"; picture 5-both-saved
press "merge"; wait_for "the merged job was not saved" changed 3
asked shelf "SELECT convert_from(content, 'UTF8') FROM quillbore.revision WHERE doc = '26-0107' ORDER BY change DESC LIMIT 1" >"$work/merged"
grep -q rotor "$work/merged" || fail "the west's part name is lost"

# A paper is issued, and its file opened from a copy.
! asked shelf "SELECT name FROM quillbore.attachment" | grep . || fail "there is a paper before any was issued"

# What is typed while it is saved over the long line stands there at once.
place=$(hand field "drawing"); click_at "$place"; on "drawing"
key ctrl+s; typing "drawing" "D-0123456789"; key Return
wait_for "the east did not save" changed 3

# The server goes: what was seen stays, what is typed stays, and it is saved once it is back.
server_down
field "part name" "impeller"; key ctrl+s
see "can't be reached"; picture 6-server-gone
server_up
key ctrl+s; wait_for "nothing was saved after the server came back" changed 4
picture 7-server-back

# A desk that starts while the server is away shows what it saw last.
at west; close_window; unset 'windows[west]'
server_down
export XDG_DATA_HOME="$work/west" XDG_CACHE_HOME="$work/west-cache"
for other in "${windows[@]}"; do xdotool windowunmap "$other" 2>/dev/null || true; done
start
see "job 26-0107"; see "can't be reached"
key ctrl+f; type_in "26-0107"; key Return
wait_for "the job was not opened as it was seen last" titled "26-0107*"
see "as it was seen last"; picture 8-away
server_up
field "drawing rev" "C"; key ctrl+s
see "Another desk saved this job meanwhile"; picture 9-back
press "merge"; wait_for "what was typed while the server was away was not saved" changed 5
close_window

# A server that wants a password: it is asked in the window, and shown nowhere.
printf 'local all all trust\nhost all all 127.0.0.1/32 scram-sha-256\n' >"$server/data/pg_hba.conf"
server_down; server_up
opened third
see "password of the shelf's server"; picture 10-password
type_in "a long secret"; picture 11-typed; key Return
see "job 26-0108"; picture 12-let-in
! grep -rq "a long secret" "$work/third" "$work/third-cache" || fail "the password was written down"
echo "two windows at one server were played: 1 passed, 0 failed"
