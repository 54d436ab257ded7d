#!/bin/sh
# The main job, shown on a demo circuit: demo.sh PROGRAM FOLDER-OF-THE-SOURCES
set -eu
program=$1
cd "$2"
circuit=circuits/rear-window-heater.circuit.xml
fault=high-resistance:X1.1=200

say() { printf '\n%s\n' "$*"; }
run() {
    printf '\n$ halfsplit'
    printf ' %s' "$@"
    printf '\n'
    "$program" "$@"
}

cat <<TEXT
HALFSPLIT: finding a fault by measuring. The vehicle is invented. Cautions: ignition off and key out before anything is
unplugged; no ohmmeter on a live circuit; the maker's current instructions, local codes and licensed practice come first.

JOB CARD
  Complaint  "The rear window stays fogged. The button lights up as it always did."
  Circuit    $circuit
TEXT

say "1. WHAT SHOULD BE THERE: the heater's current path, heater on, engine running."
run volts "$circuit" --state heating --only F5 --only K1 --only X1 --only E20 --only E8

say "2. THE SAME POINTS ON THIS VEHICLE. (Its fault is named here for the demonstration; on the job you would not know it.)"
run volts "$circuit" --state heating --fault "$fault" --only F5 --only K1 --only X1 --only E20 --only E8

say "3. VOLTMETER AGAINST TEST LAMP. The glass is unplugged, as many do before they measure: now nothing flows, and"
echo "   behind the bad contact the voltmeter still reads nearly all of the supply. The lamp asks for current, and stays dark."
run measure "$circuit" --state heating --fault "$fault" --unplug E20 --with voltmeter --at E20.1
run measure "$circuit" --state heating --fault "$fault" --unplug E20 --with test-lamp --at E20.1
run measure "$circuit" --state heating --unplug E20 --with test-lamp --at E20.1

say "4. PROOF: the voltage lost across the coupling at the tailgate hinge, under load, by one voltmeter across the contact."
run measure "$circuit" --state heating --fault "$fault" --with voltmeter --at X1.1a --against X1.1b

cat <<TEXT

HOW TO GO ON
  sh ui/run.sh faults  $circuit                       what can break here
  sh ui/run.sh trace   $circuit E20 --state heating   the paths to supply and ground
  sh ui/run.sh volts   $circuit --state heating --fault open:E8
  sh ui/run.sh practise scenarios/horn-silent.scenario.xml   find a hidden fault yourself
  sh ui/run.sh measure --help                         the instruments
  sh ui/run.sh --help                                 everything else
TEXT
