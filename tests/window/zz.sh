. "$(dirname "$0")/hands.sh"
start
key F7; sleep 2; picture shop1
press "go to rates"; sleep 1; picture shop2
press "go to machines"; sleep 1; picture shop3
press "go to customers"; sleep 1; picture shop4
press "go to name, currency, logo"; sleep 1; picture shop5
