### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests.

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }

## The live number, held against the stop-at or against what a bolt may do

to-go = { $way ->
    [up] up
   *[down] down
 } { $size } to go
past-then-back = { $way ->
    [up] up
   *[down] down
 } { $size }, then back
come-back = Come back: { $way ->
    [up] up
   *[down] down
 } { $size }
too-far = Too far: { $way ->
    [up] up
   *[down] down
 } { $size }
there = Stop: you are there
distance-unknown = distance unknown
when-sent = { $said }, when sent
movement-unknown = movement unknown
moved-since = Moved { $moved } since the bolts were loose
bolt-moved = Moved { $moved }, allowed { $limit }
bolt-step = Step { $step } of { $of }
bolt-step-in-all = Step { $step } of { $of }, { $moved } in all

## What a page says by itself: of the live number and the line it comes by

connecting = Connecting
live = Live
not-live = Not live
no-live = No live reading
no-connection = No connection
too-many-screens = Too many screens open: close one
no-practice-mill = No connection to the practice mill.
press-the-key = Press the gauge's key
sent-by-key = Sent { $age }, by its key
last-sent = No live reading: last sent { $age }
# No line breaks within an age.
age-now = just now
age-seconds = { $n }{ "\u00A0" }s{ "\u00A0" }ago
age-minutes = { $n }{ "\u00A0" }min{ "\u00A0" }ago
age-hours = { $n }{ "\u00A0" }h{ "\u00A0" }ago
settling = Hold still
hold-still = Hold still…
sound-is-on = Sound is on

## Of the step, its circle and both axes

stage-of = { $stage }: step { $n } of { $of }
audit-short = Audit { $short }
not-recorded = Not recorded: nothing pressed now is kept.
spot-next = next
spot-parked = gauge here
spot-empty = no reading
where-column = column
where-you = you stand here
called-in = IN
called-out = OUT
called-close = TOO CLOSE
verdict-close = TOO CLOSE TO CALL
not-measured = not measured yet
allowed = allowed { $limit }
allowed-over = allowed { $limit } over { $over }

## Of a press

yes-do-it = Yes, do it
fill-in = { $field }: please fill this in.
may-stay-empty = (may stay empty)
working = Working…
sending-again = No answer yet: sending again…
unreached = The Pi did not answer. Nothing is known to be recorded.
came-between = Something came in between: { $what }. Look again, then press.
step-changed = the step changed
refused = Refused.
not-done-cut = Not done: no connection.
not-done-answer = Not done: answer on the console.
not-done-fields = Not done: that is done on the console.
not-done-back = Not done: there is nothing to take back.
keep-holding = Keep holding to undo…
let-go = Let go
nothing-to-count = There is nothing to count down to now.
stop-the-count = Stop the count
press-it-now = press it now…
key-enter = Enter

## Of what a verdict rests on

from-sweep = From sweep { $n }.
from-sweep-aged = From sweep { $n }, { $age }.
head-rule = Rule
head-condition = Condition
no-condition = None stated in the machine's file.
head-work = What the lean does to the work
no-work = The machine's file names no cutter and no work.
head-head = What is known of this head
fact-error = Error
fact-word = Called
fact-u = Standard uncertainty
fact-expanded = Expanded uncertainty
fact-k = Coverage factor k
fact-dof = Degrees of freedom
fact-guard = Guard
fact-guard-say = Guard rests on
fact-probability = Probability of conformity
fact-gauge = Gauge
gauge-not-good-enough = Not good enough for this tolerance.
budget-of = Uncertainty budget: { $axis }
budget-what = What may be off
dof-many = many

## The pages: their heads, and what stands on them from the first

brand = headsweep
title-bench = { $machine }: practice bench
title-console = { $machine }: console
title-wall = { $machine }: wall
title-practice = { $machine }: practice mill
title-problem = headsweep: { $status }
aria-circle = The sweep circle, seen from where you stand
aria-number = Live number
aria-axes = Both axes
aria-cautions = Cautions
practice-mill = Practice mill
aria-swing = Swing the gauge
waiting-first = Waiting for the first reading
stop-at = Stop at
aria-say = What to do now
cannot-be-shown = This page cannot be shown
all-screens = All screens
aria-others = Other choices
numbers = Numbers
aria-rare = Ending it
aria-around = Other screens
wall-screen = Wall screen
practice-bench = Practice bench
aria-next = Next
sound = Sound
keys-and-pedal = Keys and pedal
go-back = Go back
keys-enter = the big button; hold 2 seconds to undo
keys-to = to
keys-digits = the other buttons, as numbered
keys-u = undo
keys-c = counts down 3-2-1, let go, and then presses the big button; again, or Esc, stops it
keys-single = Use 1 to 9, U and C
keys-count = Show the count-down
pedal-is = Pedal:
pedal-set = Set the pedal
pedal-enter = Enter only
done = Done
which-screen = Which screen is this?
which-machine = Which machine?
console = Console
console-is = phone, tablet or keyboard: read, press, answer
wall-is = the big picture, read from the machine
bench-is = console and practice mill side by side
no-machine = No machine is set up yet: add a file to config/machines and start the service again.
setup-is = Setup: gauges, machines and the record
title-setup = headsweep: setup
setup = Setup
setup-says = What the shop's files say, and how each part is doing. Change the files and start the service again; nothing is changed here.
setup-lost = The Pi does not answer: what stands here is old.
gauges = Gauges
machines = Machines
latest-check = Latest check against known lengths
check-passed = Passed
check-not-passed = Not passed
no-check = None on record for this gauge.
frames-since = Frames since the port was opened:
frames-good = good,
frames-bad = bad
record = Record and disk
disk = Disk
rows = Rows
last-hash = Hash of the last row
unsafe-machine = { $machine }: { $title }
check-span = on { $day }: errors span { $span }, allowed { $allowed }
last-good = Last good frames
last-bytes = Last bytes, whatever they were
last-bad = Where a frame was last bad
