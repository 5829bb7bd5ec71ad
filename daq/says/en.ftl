### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests,
### and so does one that another language (es.ftl) lacks.

## What this language calls itself, where one is chosen: on one line

language-name = English

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }

## A day inside a sentence, where one asks for it: DAY($day)

a-day = { $iso }

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
there = There
creeps-on = It creeps: wait { $seconds } s
stop-within = { $finer ->
    [yes] stop within ± { $band }: this limit is finer than the stop
   *[no] stop within ± { $band }
 }
leans-now = { $axis } { $lean } ± { $by }
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
console-by-phone = The console, by phone:
sound-is-on = Sound is on
sound-is-soft = Sound is soft

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
called-too-close = TOO CLOSE TO CALL
called-same = NOTHING MOVED
called-look = LOOK CLOSER
not-measured = not measured yet
allowed = allowed { $limit }
allowed-over = allowed { $limit } over { $over }

## Of a press

yes-do-it = Yes, do it
fill-in = { $field }: please fill this in.
may-stay-empty = (may stay empty)
or-type = Or type it
day-like = Year first, such as 2026-03-31
digits = Digits
digit-back = Take back the last digit
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
from-round = From round { $n }.
from-sweep-aged = From sweep { $n }, { $age }.
head-rule = Rule
head-condition = Condition
no-condition = None stated in the machine's file.
spindle-ran = { $warm ->
    [cold] spindle left cold
   *[warm] spindle run warm{ $minutes ->
        [0] {""}
        [one] {" "}for 1 minute
       *[other] {" "}for { $minutes } minutes
    }
}
just-ran = { CAP($ran) }.
head-work = What the lean does to the work
no-work = The machine's file names no cutter and no work.
head-head = What is known of this head
fact-error = Error
fact-toward = Points
fact-word = Called
fact-u = Standard uncertainty
fact-expanded = Expanded uncertainty
fact-k = Coverage factor k
fact-dof = Degrees of freedom
fact-guard = Guard
fact-guard-say = Guard rests on
fact-probability = Probability of conformity
fact-gauge = Gauge
not-good-enough = Not good enough for this tolerance.
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
aria-circle = Where the gauge is read, seen from where you stand
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
why-this = Why this?
aria-rare = Ending it
aria-around = Other screens
aria-language = Language of this screen
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
no-machine = No machine is set up yet.
setup-is = Setup: gauges, machines and the record
title-setup = headsweep: setup
setup = Setup
setup-says = What the shop's files say, and how each part is doing. Nothing is changed here: that is done from a paired screen, or with an editor, and counts once the files are read anew.
setup-lost = The Pi does not answer: what stands here is old.
gauges = Gauges
machines = Machines
latest-check = Latest check against known lengths
check-passed = Passed
check-not-passed = Not passed
no-check = None on record for this gauge.
frames-since = Frames since the port was opened:
frames-good = good,
frames-bad = bad,
frames-damaged = of these damaged on their way (another check value than their bytes have)
record = Record and disk
disk = Disk
rows = Rows
last-hash = Hash of the last row
unsafe-machine = { $machine }: { $title }
check-span = on { $day }: errors span { $span }, allowed { $allowed }
last-good-frames = Last good frames
last-bytes = Last bytes, whatever they were
last-bad = Where a frame was last bad


## What is wrong with a table: a body, an address, a command or a shop's file

in-their-words = { $words }
lines = { $first }{"\u000A"}{ $rest }
fault = { $where }: { $what }
fault-at = { $where }: { $path }: { $what }
in-body = body
in-query = query
in-callout = callout
in-command = command { $kind }
found-allowed = found { $found }; allowed: { $allowed }
missing-key = missing; allowed: { $allowed }
unknown-key = unknown key { $key }; known: { $known }
unknown-key-near = unknown key { $key }; nearest known: { $near }
found-table = a table
found-list = a list
found-nothing = nothing
found-digits = a number of more than { $digits } digits
allows-text = text
allows-whole-number = a whole number
allows-number = a number
allows-true-false = true or false
allows-date = a date such as 2028-03-31
allows-table = a table
allows-one-of = one of { $choices }
allows-or = { $first } or { $other }
allows-list = a list, each item { $item }
allows-within = { $what }, { $limits }
allows-quantity = { $kind ->
    [length] a length such as "100 mm" or "4 in"
    [slope] a slope such as "0.025 mm/300 mm" or "0.001 in/12 in"
    [time] a time such as "0.5 s" or "200 ms"
    [angle] an angle such as "15 deg" or "0.1 rad"
    [torque] a torque such as "60 N m" or "45 lbf ft"
   *[temperature] a temperature such as "20 °C" or "68 °F"
 }
limit-least = at least { $limit }
limit-above = above { $limit }
limit-most = at most { $limit }
limit-both = { $first } and { $other }
id-no-uuid = id: found { $found }; allowed: a UUID
no-such-row = expects_seq: found { $found }; allowed: 0 to { $last }
not-one-callout = callout: found { $found ->
    [none] none
   *[other] { $found }
 }; allowed: one of bore, wall, face
wider-than-cutter = { $key }: found { $found } mm; allowed: up to the cutter's { $cutter } mm
toml-unread = cannot be read: { $why }
toml-no-utf-8 = line { $line }: found a byte that is not UTF-8; allowed: a UTF-8 text file
toml-none = is not TOML: { $why }
toml-too-deep = found brackets nested too deep; allowed: a few, one in another
toml-too-many-digits = found a number of some thousand digits; allowed: a few

## What a press is refused for, whatever the step

payload = { $problems }
no-audit = No audit is open on this machine.
another-audit = That was for another audit; { $open } is open now.
no-such-command = command kind: found { $found }; allowed: { $allowed }
not-this-step = That does not belong to this step ({ $step }); asked for: { $asked }.
no-samples-since = No samples since the reading was taken: take it again.
not-settled = The number had not settled: take the reading again.
off-contact = Off contact{ $at ->
    [unknown] {""}
    [station] {""}
   *[other] {" "}at { $at }
 }. The contact is not on the surface: the gauge reads { $reads } as in the air. Bring it down and take again. If it is down, the gauge was zeroed: do the touch test again.{ $at ->
    [station] {""}
   *[other] {" "}If it cannot reach, the head is off its scale.
 }
end-of-travel = The gauge is at the end of its travel{ $at ->
    [unknown] {""}
    [station] {""}
   *[other] {" "}at { $at }
 }: this is no reading. Set it with less preload{ $at ->
    [station] {""}
   *[other] , or bring the head closer by a scale first
 }.
maybe-stuck = The number has not changed for some time: push the contact and let it go. If the number follows, press again. If it does not, the gauge is stuck: see to it first.
nothing-to-take-back = Nothing here can be taken back: { $of ->
    [check] a finished round stays listed. Read all again instead.
   *[head] what was turned stays turned, and a finished sweep stays listed. Sweep again instead.
 }

## The card of the table, before anything else: common practice, no source

table-ready = Table bare and clean, everything locked.
table-ready-how = Do these four, then press and tick them.
table-tick = { $tick ->
    [bare] Vise and keys off, table bare
    [clean] Burrs and chips off: stone and wipe the table{ $seat ->
        [ring] {" "}and both faces of the ring
        [plate] {" "}and both faces of the plate
        [block] {" "}and the block
       *[table] {""}
     }
    [centred] Table centred and locked, gibs snug
   *[locked] { $z ->
        [powered] Quill and Z locked
       *[knee] Knee and quill locked
     }; ram, turret and knuckle bolts tight
}
table-is-ready = Done: tick the four
table-why = What is not ticked: why
temperatures-such-as = { $seat ->
    [ring] Room / machine / ring, such as { $unit ->
        [in] 68 / 70 / 71 °F
       *[mm] 20 / 21 / 22 °C
     }
    [plate] Room / machine / plate, such as { $unit ->
        [in] 68 / 70 / 71 °F
       *[mm] 20 / 21 / 22 °C
     }
   *[other] Room / machine, such as { $unit ->
        [in] 68 / 70 °F
       *[mm] 20 / 21 °C
     }
 }
thermometer-number = Number on the thermometer
wrench-number = Number on the torque wrench
vise-is-heavy = A vise is heavy: two people or a hoist. A stone on the table only lightly, gloves against burrs.
table-was-readied = the table was made ready
table-not-done = Not done: { $what }. Why: { $why }
table-temperatures = Temperature: { $of }
degrees = { $degrees } { $unit ->
    [in] °F
   *[mm] °C
 }
degrees-of = { $of ->
    [machine] machine
    [ring] ring
    [plate] plate
   *[room] room
 } { $degrees } { $unit ->
    [in] °F
   *[mm] °C
 }
temperatures-apart = { $seat ->
    [plate] Plate
   *[ring] Ring
 }, machine and room are { $apart } apart: more is left in doubt. It is less once they lie together for some hours.
temperatures-too-many = temperatures: found { $found }; allowed: { $allowed } at most, in the order of the card
table-thermometer = Thermometer no. { $number }
tool-overdue = { $tool ->
    [wrench] Torque wrench
   *[thermometer] Thermometer
 } { $number } is overdue: its calibration was good until { $day }.
table-wrench = Torque wrench no. { $number }
table-without-why = Not ticked: { $what }. Tick it, or say why not.
temperature-no-temperature = temperature: found { $found }; allowed: a number and its unit, such as "20 °C" or "68 °F"
temperature-implausible = temperature: found { $found }; allowed: 0 °C to 50 °C (32 °F to 122 °F)

## Opening an audit, the preparation card, the touch test

no-such-machine = There is no machine called { $machine } in this shop's files.
audit-open = An audit is open on this machine. Finish or abandon it first.
machine-unsafe = The audit before left this machine not safe to run: put that right first.
gauge-in-use = The gauge { $gauge } is in use: audit { $audit } on { $machine }.
other-gauge = The number on the gauge is { $found }; its file says { $known }. Put the right gauge on, or correct its file.
number-unread = serial_number: found nothing; allowed: the number on the gauge, or last_two, the last two characters of it
ram-angle-no-angle = ram_angle: found { $found }; allowed: an angle such as "15 deg" or "0.1 rad"
ram-angle-too-far = ram_angle: found { $found }; allowed: -60 deg to 60 deg
not-zeroed-carry-on = Not zeroed: carry on.
zeroed-at-the-push = The gauge was zeroed meanwhile: let it hang free and take the reading again.
pushed-unmoved = The number did not move. Push the contact in and let it go, then press again; if it still does not move, the gauge is stuck.
pushed-wrong-way = The number went the wrong way ({ $moved }): the gauge's file says it counts { $counts ->
    [up] up
   *[down] down
 } when pushed in. Push the contact in, or correct the file.
pushed-not-back = It did not come back: { $off }. Arm loose, or contact sticking. See to it, then push again.
flick-not-back = Flicked, it did not come back: { $off }. Arm loose, or contact sticking. See to it, flick three times, then take it again.
contact-came-back = The contact came back.
gauge-answers = The gauge answers: { $moved }.

## After the service was off

card-unread = The card is still to be read.
touched-while-watched = touched: found true; allowed: false, because the screen was not off
cracked-untold = cracked: found true; allowed: false, because no bolts were to be
off-since-proof = The screen was off. Was anything touched since the last sweep? Then sweep again.
off-arm-away = The screen was off: is the lock still on? Then go on here; arm and gauge go back in after it.
off-arm-out = Arm and gauge out already? Put them back in first.
touched-while-off = The gauge or the head was touched while the screen was off.

## Sweeping

place-unsaid = Say where the gauge is: { CAP($next) } is next.
slow-turn-do = Turn slowly round, then all the way back
slow-turn-how = From front once round to front and back the same way, about 12 s each, as even as the hand can; then press.
slow-turn-done = Turned round and back
slow-turn-so-far = At { $place }: { $done } of { $of }
slow-turn-slower = Slower
slow-turn-not-offered = This sweep is read standing still, spot by spot.
slow-turn-not = Not taken. { $why }
slow-turn-gap = The gauge was silent for { $seconds } s on the way: turn again.
slow-turn-odd = At { $place } the circle stands off by { $found } { $unit }: a chip, a slot or a bump? Wipe it and turn again.
row-slow-turn = Turned slowly round and back in { $seconds } s: { $samples } samples, the gauge { $lag } ± { $u } s late, the hand uneven by { $uneven } %
round-no-switch = No switch of the collar was passed: is its cable in? Once round and back, from front to front.
round-half-way = Not once round and back: it ended at { $place }, { $quarters } quarters of the way. Begin again at front.
round-went-back = The hand went back at { $place }: round one way, then all of it back. Begin again at front.
round-missed = No switch told between { $before } and { $after }: it did not close, or its wire is off. Begin again at front, slower.
round-too-few = The mark at front was passed { $marks ->
    [one] once
   *[other] { $marks } times
 }: it wants once at the start, once turning back, once at the end.
round-unlike = { $forth } s forth and { $back } s back: the mark was missed, or told twice. Begin again at front.
round-too-fast = Too fast: { $turn } s a turn, { $least } s at least. Slower, as steady as the hand can.
round-few-samples = The gauge sent { $samples } numbers on the way, { $least } are wanted: turn slower.
place-read = { CAP($position) } has been read. { CAP($next) }{ $times ->
    [one] {""}
   *[other] {" "}again
 } is next.
no-sweep-to-compare = There is no sweep yet to compare a turned one with: sweep first.
no-ring-to-turn = Only a ring or a plate can be turned half round: the file names neither.
arm-was-out = The arm was out since the last sweep: there is nothing to compare it with.
choose-before-parking = That is chosen before the gauge is parked, with every bolt tight.
not-to-be-first = Only an axis that is out and is to be moved can come first.
left-alone-without-why = Say why it is left alone: it is on record with its reason.
left-alone-already = That axis is left alone already.
nothing-to-square = Nothing is out that could be set: clear away and sign.
sweep-again-without-why = Say why another sweep is wanted: it is listed with its reason.
bolts-loose = Tighten the bolts first: a sweep counts only with all tight.
off-scale-place-unsaid = Say where the gauge is off its scale.
off-scale-after-sweep = Only a head that no sweep has read yet is recorded as off scale.
little-preload = Little preload at { $position }: { $pushed } pushed in.
near-end-of-travel = Near the end of the gauge's travel at { $position }: { $left } left.
turned-half-round = { $turned ->
    [ring] the ring was turned half round
   *[arm] the arm was clamped anew, half round in the spindle
 }
off-scale = off scale at { $position }
off-scale-beyond = off scale, beyond { $by } { $unit } at { $position }
closer-because = { CAP($position) }: { $how }.

## Parking for a move, and what is asked there

not-parked = There is no parked reading: park and read.
move-not-seen-from = From { $position } this move cannot be watched: park at { $best }.
gauge-hardly-moves = The gauge hardly moves here: park at { $better }.
parked-elsewhere = The gauge was parked at { $parked ->
    [unknown] its spot
   *[other] { $parked }
 }: read that spot again.
nothing-asked = Nothing was asked.
no-such-answer = answer: found { $found }; allowed: { $allowed }
question-open = Answer the question first.
stop-answered-not-pressed = Press that it stopped on purpose: the gauge is read as it stands now.
stand-unsure = Where the head stands now is not known well enough: check this axis first.
spot-differs = This spot read { $was }, now { $now }: zeroed or bumped?
went-other-way = This spot read { $was }, now { $now }: went round the other way?
spot-like-another = This spot read { $was }, now { $now }, as { $other } did: is the gauge at { $other }?
was-taken = Taken: { $value }
at-large-other-way = Went round the other way?
at-large-like-another = Reads as at { $other }: is the gauge there?
at-large-drift = Does it drift steadily, as in warming up?
answer-read-again = I have moved it: read again
answer-sweep-again = Not sure: sweep again
answer-check-again = Not sure: check this axis again
answer-other-way = Yes, the other way round
answer-only-zeroed = Only zeroed: carry on
answer-set-anew = Only the contact was set anew: carry on

## The move, the pair check, the bolts

no-stop-at = There is no stop-at: park and read this spot first.
place-not-wanted = { $position ->
    [none] No position
   *[other] { CAP($position) }
 } is not wanted now: { $next } is next.
tight-already = Those bolts are tight already.
bolts-not-watched = The bolts of this axis are not pulled up one by one.
no-such-bolt = bolt: found { $found }; allowed: { $next ->
    [none] {""}
   *[other] { $next }, which is next{ $again ->
        [none] {""}
       *[other] {"; "}
     }
 }{ $again ->
    [none] {""}
   *[other] { $again } again, which is to be put right
 }.
stop-far = { $way ->
    [wrong] Wrong way, { $by }
   *[right] { $by }
 } { $where ->
    [past] past
   *[short] to go
 }: stopped here on purpose?
stop-past = { $by } past: bring it back, then press.
answer-brought-back = Brought back
answer-stays = It stopped here on purpose
creeps-still = It still creeps, by { $by } or so: wait { $seconds } s, then read. Hands off.
answer-read-now = Read it now
went-back = Let go, it fell back by { $by }: { $of ->
    [backlash] its backlash. Coming with the other side rising last takes that up
   *[creep] as it does when the hand leaves. The next stop-at allows for it
 }.
answer-stopped = Yes, stopped on purpose
answer-turn-back = No, turn back
answer-turn-further = No, turn further
stopped-off = It stopped { $by } { $where ->
    [past] past
   *[short] short of
 } the stop-at. The check takes it as it stands.
went-away = The number went away from the stop-at: { $adjuster } answers the other way round, or another one was turned. The check shows where the head stands.
another-adjuster = The number moved but { LOWER($axis) } did not: was another adjuster turned? Nothing is learned from this move.
led-astray = { $axis } does not go where the number says: the pivot in the machine's file is wrong, or something is knocked. No stop-at is given until a turn by hand has shown how it answers.
answered-backwards = { $axis } went the other way than the number said: the pivot in the machine's file lies on the wrong side. The next stop-at allows for it; what is learned is kept once a second turn bears it out. Put the file right.
knocked = The readings do not fit the move: the head, the arm or the surface was knocked, or the pivot in the machine's file is far off. Nothing is learned from this move.
knocked-while-tight = This is not what moving { LOWER($moved) } does to { LOWER($axis) }: the head, the arm or the surface was knocked, a spot was mistaken, or the ram is swung otherwise than said. Nothing is learned from it.
tightened-read-again = { $axis } reads { $by } otherwise than before tightening: knocked, or did the number jump? Read both spots again.
tightened-too-far = { $axis } stands { $by } otherwise than before tightening, more than tightening should do: knocked? Nothing is learned from it unless it comes again.

## What the gauge does by itself

no-zero-in-samples = No zero in these samples.
lifted-for-block = The contact is lifted to move the block: that is no zero.
zero-asked-already = That is asked already.
zero-expected = It was turned to where it reads zero: that is no zero.
nothing-noticed = Nothing was noticed since the last step.
not-shown-by-samples = These samples do not show that.
number-went-to-zero = The number went to zero: was the gauge zeroed?
answer-not-zeroed = I did not zero it: carry on
answer-was-zeroed = Yes, it was zeroed
zeroed-read-again = Zeroed: read this spot again.
zeroed-start-again = Zeroed in the middle: start again with the first position.
zeroed-noted = Zeroed: noted.
zeroed-or-lifted = Zeroed, or the contact was lifted: let it hang free and take the reading.
zeroed-while-loose = Zeroed with the bolts loose: check this axis again.
away-while-parked = The gauge was away: read this spot again.
away-while-loose = The gauge was away and the bolts are loose: check this axis again.
away-in-check = The gauge was away in the middle of the check: start it again.
unit-changed = The unit key was pressed: everything is in { $unit ->
    [in] inches
   *[mm] millimetres
 } now.
travel-ended = The gauge is at the end of its travel: stop, and set it anew.
contact-lifted = The contact is off the surface: bring the gauge down.
number-jumped = The number jumped: preset or bumped? Read again.
jumped-at-rest = The number became another one at once, quicker than a hand turns: preset, its unit key, or a knock? After a key press “{ $touch }”; after a knock take back what was read, and read it again. If you only turned on, carry on.
number-stuck = The number has not changed for some time: push the contact and let it go.
number-moves = The number moves again.

## Clearing away and signing

stopped-without-why = Say why the head is left as it is: the record will show it.
no-as-found = There is no full sweep of the head as it was found to sign for.
no-as-left = There is no full sweep since the bolts were last touched: sweep first.
signed-by-nobody = done_by: found nothing; allowed: the name or initials of who did the audit
found-and-left-differ = as_left: found { $left }; allowed: { $found }, because nothing was loosened: the head is left as it was found
as-found-never-read = as_found: found { $found }; allowed: nothing, because no sweep read the head as it was found
no-such-sweep = { $field }: found { $found }; allowed: { $allowed }
sweep-without-why = { $field }_why: found nothing; allowed: why sweep { $chosen } counts and not the first { $field ->
    [as_found] before anything was loosened
   *[as_left] after the last tightening
 }, which is sweep { $first }
no-disposition = disposition: found nothing; allowed: what becomes of the work done since then, because the machine was found out of tolerance
last-good-no-date = last_good: found { $found }; allowed: the day the machine was last known good, year first, such as 2026-03-31
last-good-ahead = last_good: found { $found }, a day still to come; allowed: today ({ $today }) or before
abandoned-without-why = Say why the audit is abandoned.
nothing-unsafe = Nothing here is said to be unsafe.
## The terms of an uncertainty, and where each number comes from

term-repeatability = How well a spot reads the same when the gauge comes back to it
term-place = Where the gauge was, with a hand that turns unevenly
term-resolution = The gauge's last digit
term-friction = Plunger friction on a springy arm
term-scale = The gauge's scale
term-local = The gauge's error over the short span used
term-certificate = The gauge's certificate
term-since = The gauge's drift since its certificate
term-temperature = The { $seat }'s temperature
term-lever = The lever's angle to the surface
term-radius = The sweep radius
term-parallel = Plunger not parallel to the spindle
term-axial = The spindle's rise and fall once a turn
term-wedge = { $seat ->
    [block] The block
   *[other] The { $seat }'s wedge
 }
term-seating = How the { $seat } sits
term-flatness = The surface's form around the circle
term-return = Drift that was not steady
term-zero = The gauge's zero
term-sag = The arm's sag
term-force = Contact force
term-blocks = The gauge blocks
term-grown = How gauge and blocks grow unlike
term-unlike = Gauge and blocks not equally warm
term-square = Gauge not square to the blocks
note-blocks = by the set's certificate, U/k of each block; of both stacks
note-of-check = pooled over the check's repeats; √2 of one reading for two
note-of-two-digits = digit/√6 for the difference of two readings
note-grown = what each grows by a kelvin, off by its doubt, times how far from 20 °C (ISO 1); anywhere within that
note-unlike = within { $kelvins } K, { $rested ->
    [yes] rested an hour or more
   *[no] not rested for an hour
 }: steel grows 11.5e-6 a K (ISO 3650) in the length between; anywhere within that
note-square = it reads less than the length by one over the cosine, within half a degree; anywhere within that

note-repeatability = pooled over visits; √2 of one reading for two spots, more where a drift is taken out
note-repeatability-assumed = assumed until more visits tell; √2 of one reading for two spots
note-measured-on = measured on { $day }: { $what }
note-repeatability-bench = pooled over the repeats of the gauge's check, until more visits tell; √2 of one reading for two spots
note-follows-bench = pooled over the repeats of the gauge's check, until more visits tell; as much as the result follows each reading
note-hysteresis = half of what up and down differed by in the gauge's check, half a count at least; anywhere within that
note-of-samples = from all samples of both ways, by sums over stretches of the circle
note-place = hand, display's lag and the switches' places, times how steep the circle is there
note-resolution = digit/√6 for a difference when it stands still, less when it moves
note-friction = always approached from the same side; what is left, anywhere within its bound, less what visits show of it
note-flicked = pooled scatter of { $times } returns of the flicked arm, more for being few
note-flicks-in-count = { $times } returns of the flicked arm agree; a count may hide digit/√12
note-flicks-in-file = { $times } returns of the flicked arm agree, but a count hides more than the file says: anywhere within its bound
note-scale = its share of the difference read, anywhere within its bound
note-local = anywhere within its bound, half a digit less; the error over the whole travel would overstate
note-local-checked = the worst its latest check showed over a short span, its digit included: anywhere within it
note-certificate = U/k of its error at a point; a difference takes two, half of it common to both: once
note-no-certificate = the gauge's file names no certificate's uncertainty
note-since = its drift a year, times the years since, anywhere within that
note-temperature = one side warmer than the other: steel grows 11.5e-6 a degC (textbook) in its thickness, anywhere within that; how the head leans as it warms is its condition, not counted
note-temperature-read = read within { $apart } K of machine and room, and 0.5 K for the thermometer: steel grows 11.5e-6 a K (textbook) in its thickness, anywhere within that
note-temperature-more = read { $apart } K apart from machine or room, more than the file allows for, and 0.5 K for the thermometer: steel grows 11.5e-6 a K (textbook) in its thickness, anywhere within that
note-lever = by the cosine of an angle off by its doubt, anywhere within that
note-radius = the difference grows with the radius; half-width over √3
note-parallel = it reads more than the height by one over the cosine
note-arm-turned = the arm was clamped half a turn round for a second sweep: it changes sign
note-both-gauges = it moves both gauges alike
note-axial = looks exactly like lean; twice its amplitude at most, on either axis: /√3
note-axial-known = looks exactly like lean; twice its amplitude, where in the turn is not known: /√2
note-same-block = the same block at every spot
note-put-down = it is put down anew at every spot, anywhere within its bound
note-turned = the { $seat } was turned half round for a second sweep: it changes sign
note-wedge-known = its size is known, its direction is not: /√2
note-wedge = at most so much, on either axis: /√3
note-seating = looks exactly like lean; at most so much, on either axis: /√3
note-return = half the return error, less what two readings scatter, or the file's drift where that is more: /√3, more where all but the first spot count one way
note-flatness = waves that these places take for lean: half from peak to valley, /√3
note-flatness-seen = up to the sixth wave it stays out of the lean with these places
note-same-spots = the same at every spot
note-bar-turned = out by turning the bar half round
note-opposite = the same at opposite spots

## What a sweep says against itself

return-error = Back at the first position the gauge reads { $found } { $unit } different; allowed { $allowed }. Something moved: see to what holds the gauge and to the contact, and begin again.

# A steady drift
drift-asked = Back at the first position the gauge reads { $found } { $unit } different; allowed { $allowed }. Does it drift by { $rate } { $unit } a minute all the time, as while a machine warms up?
drift-steady = The gauge drifts by { $rate } { $unit } a minute, said to be steady: taken out, up to { $left } { $unit } either way is left in doubt.
answer-steady = Yes, a steady drift: take it out
answer-sweep-anew = Not sure: see to holder and contact, sweep again
drift-was-asked-about = a drift was asked about
drift-was-judged = the drift was judged

# What seems to have happened
is-ram-swung = Is the ram swung about { $angle }° { $way ->
    [left] anticlockwise
   *[right] clockwise
}?
were-spots-exchanged = Were these two spots exchanged?
was-it-zeroed = Was the gauge zeroed, or set anew?
answer-use-it = Yes: use that
answer-was-knocked = No: it was knocked
answer-not-sure = Not sure: go on
ram-looks-swung = This looks like a ram swung about { $angle }° { $way ->
    [left] anticlockwise
   *[right] clockwise
}: look at it. Nothing is learned from what was done since the last sweep.
ram-taken-for-swung = This looks like a ram swung about { $angle }° { $way ->
    [left] anticlockwise
   *[right] clockwise
}, as before: it is used from now on.
fell-back = { $axis } fell back when it was let go, by no more than its adjuster's backlash. Nothing is learned from this move.
crept = { $axis } went back a little when it was let go. Nothing is learned from this move.
ram-was-asked-about = it was asked whether the ram is swung
surmise-was-answered = it was answered what had happened
row-surmise = { $key ->
    [use] Yes: it is used
    [knocked] No: it was knocked
    [not-sure] Not sure: used if it comes again
   *[check-again] Not sure: read again
}
row-guess = { $share } %: { $kind ->
    [knocked] knocked
    [swung] the ram is swung, { $angle }°
    [other-side] the pivot lies on the other side
    [elsewhere] the pivot lies elsewhere
    [fell-back] it fell back by its backlash
    [crept] it went back when it was let go
    [other-adjuster] the other adjuster was turned
    [exchanged] both spots were exchanged
    [other-way] the sweep went the other way round
   *[zeroed] the gauge was zeroed
}
row-guess-used = From now on the ram is taken to be swung so.

spare-equation = The middle of left–right is not level with the middle of front–back: { $found } { $unit } apart; allowed { $allowed }. A chip under one contact, a spot taken at the wrong place, or the gauge zeroed on the way: wipe and sweep again.
form = The middle of left–right is not level with the middle of front–back: { $found } { $unit } apart, as before; allowed { $allowed }. The surface itself is not flat there.
second-harmonic = The surface itself is not flat: along { $high ->
    [left-right] left–right
    [back-right-front-left] back right–front left
    [front-back] front–back
   *[back-left-front-right] back left–front right
 } it stands { $found } { $unit } higher than along { $low ->
    [left-right] left–right
    [back-right-front-left] back right–front left
    [front-back] front–back
   *[back-left-front-right] back left–front right
 }; allowed { $allowed }. The lean is not touched by it.
aliasing = With { $positions ->
    [3] three
    [4] four
    [5] five
    [6] six
    [7] seven
    [8] eight
   *[other] { $positions }
 } positions { $tells ->
    [nothing] a surface that is not flat reads as lean and nothing can tell.
    [partly] spread like this a surface that is not flat partly reads as lean.
    [hollow] a hollow or a ridge shows; a surface with three high places around the circle reads as lean.
   *[most] the surface's form stays out of the lean up to { $waves ->
        [3] three
        [4] four
        [5] five
        [6] six
        [7] seven
        [8] eight
       *[other] { $waves }
     } high places around the circle.
 }
elsewhere = The head does not stand where the last readings left it: was it knocked, or the surface seated anew?
added = { $of ->
    [ring] The ring's wedge
   *[arm] The spindle's rise and fall once a turn
 } comes to { $found } { $unit } across the sweep; the machine's file allows for { $bound }. Something was knocked while it was turned: sweep again. Or put the file right.

## A named ring's wedge, a spindle's rise, and what was learned of them by a mark

note-learned = as audit { $audit } left it known from turning the { $of ->
    [ring] ring
   *[arm] arm in the spindle
 }: taken out of the result
differs = { $of ->
    [ring] { $what }: its wedge
   *[arm] The spindle's rise and fall
 } is { $apart } { $unit } from what it was known to be since audit { $audit }.
differs-other-way = { $of ->
    [ring] { $what }: its wedge
   *[arm] The spindle's rise and fall
 } lies the other way round than it was known to since audit { $audit }. Does { $mark } point the other way?
differs-why = { $of ->
    [ring] The ring's wedge is not as known. Why?
   *[arm] The spindle's rise is not as known. Why?
 }
was-misread = Mark read wrong, or nobody knows
was-changed = { $of ->
    [ring] Another ring, or it was damaged or reground
   *[arm] Spindle worked on, or knocked
 }: learn it anew
was-not-half = { $of ->
    [ring] Ring not turned
   *[arm] Arm not clamped
 } just half round: sweep again
not-half-round = { $turned ->
    [ring] the ring had not been turned just half round
   *[arm] the arm had not been clamped just half round
 }
said-why-it-differs = it was said why what was turned is not as known
ring-marked = { $ring } (mark: { $mark })
which-ring = Ring on the table
mark-points = Its mark points to, as the first sweep begins
spindle-mark-points = With the arm in front, { $mark } on the spindle points to
ring-mark-now = { CAP($mark) } on the ring points to
no-spindle-mark = How the arm is clamped is told by a mark on the spindle: the machine's file names none (spindle_mark), or two gauges are read on a bar.
no-such-ring = Found ring { $found }; allowed: { $allowed }

## A verdict, and where its guard comes from

judged-too-fine = { $judged } The gauge is not good enough for this tolerance.
no-guard = no guard
guard = { $share } % { $where ->
    [side] to one side
    [between] between both limits
   *[circle] inside the circle
 }
guard-jointly = { $share } % { $where ->
    [side] to one side
    [between] between both limits
   *[circle] inside the circle
 }, so that both reach { $both } %
guard-student = { $guard }; Student's t, { $dof ->
    [one] 1 degree
   *[other] { $dof } degrees
 } of freedom

## The rule a verdict was reached by, and the risk it takes

risk-simple = { $word ->
    [in] Inside the limit as it reads. At the limit it would be as likely out as in
   *[other] Outside the limit as it reads. At the limit it would be as likely in as out
 }: a risk of up to 50 %. Truly inside, for this one: { $sure } %.
risk-over-share = Too close to call: it may be off by { $found } % of the limit. By this rule at most { $most } % may be.
risk-beyond = Outside the limit by more than it may be off. Truly inside: { $sure } %.
risk-guarded = { $word ->
    [in] Inside the limit, with the uncertainty allowed for: of what is called in, at most { $most } % is out.
    [out] Outside the limit, with the uncertainty allowed for: of what is called out, at most { $most } % is in.
   *[close] Too close to call: the limit lies within the uncertainty.
 } Truly inside: { $sure } %.
assumes = { $together ->
    [jointly] The axes are taken as independent of each other.
   *[vector] The larger uncertainty of the two stands for both axes.
 }

## What can be decided with this gauge, ring and radius, and what would help

decides-nothing = { $axis }: nothing can be called in here; the doubt, ±{ $by }, takes up the whole limit.
decides-within = { $axis }: in only within ±{ $within }; a small move ends there { $often ->
    [0] hardly ever
    [10] nearly always
   *[other] { $often } of 10 times
 }.
decides-help = { $enough ->
    [yes] Enough
   *[no] Helps, not enough
 }: { $way ->
    [ring] { $moves ->
        [yes] prove it with the ring turned half round too
       *[no] turn the ring half round
     }
    [arm] { $moves ->
        [yes] prove it with the arm clamped half round too
       *[no] clamp the arm half round
     }
    [eight] eight positions in this machine's file, next audit
    [radius] sweep_radius { $radius } in this machine's file, next audit, if arm and surface reach
   *[gauge] gauge “{ $gauge }” in this machine's file, next audit
 }{ $way ->
    [radius] {""}
   *[other] , ±{ $was } → ±{ $now }
 }: { $often ->
    [0] hardly ever in
    [10] nearly always in
   *[other] in { $often } of 10 times
 }.
turned-gains = { $turned ->
    [ring] Ring turned half round
   *[arm] Arm clamped half round
 }: ±{ $was } → ±{ $now }, sweep again
head-decides = What can be decided

## Tolerances by name

tolerance-roughing = roughing and drilling
tolerance-general = general work
tolerance-facing = wide facing
tolerance-boring = boring
tolerance-acceptance = acceptance of the machine
tolerance-from = "{ $key }", { $name }: { $limit } over { $over } ({ $source })
source-trade = common practice, no source
source-acceptance = ISO 1701-2 (from memory, number not seen)

## What a lean does to the work

effect-amount = { $mm } { $unit }
effect-below = less than { $least } { $unit }
effect-dish = A strip { $strip } { $unit } wide, face-milled { $feed ->
    [left-right] left to right
   *[front-back] front to back
 } with the { $cutter } { $unit } cutter, comes out hollow by { $by }.
effect-step = Passes { $feed ->
    [left-right] left to right
   *[front-back] front to back
 }, { $apart } { $unit } apart, meet in steps of { $by }.
effect-hole = A hole drilled { $deep } { $unit } deep with the quill ends { $by } off{ $toward ->
    [front] {" "}toward the front
    [back] {" "}toward the back
    [left] {" "}toward the left
    [right] {" "}toward the right
    [front-left] {" "}toward the front left
    [front-right] {" "}toward the front right
    [back-left] {" "}toward the back left
    [back-right] {" "}toward the back right
   *[nowhere] {""}
 }.
effect-bore = A bore of { $bore } { $unit }, made by raising the table, comes out oval by { $by }.
effect-exactly = { $effect } Exact: { $exact }; by the textbook's form: { $textbook }.

## A gauge's check

gauge-checked = { $good ->
    [yes] Good
    [close] Too close to call
   *[no] Not good
 }: its errors span { $span } { $unit }; allowed { $allowed } { $unit }.
gauge-checked-repeats = { $told } It repeats within a standard deviation of { $sd } { $unit }.
gauge-checked-both-ways = { $told } Up and down differ by up to { $by } { $unit }.
gauge-checked-over = { $told } Checked over { $part } of { $travel } { $unit }.
gauge-checked-within = { $told } The check may itself be off by { $by } { $unit } ({ $share } %). { $risk }
gauge-checked-short = { $told } Within { $within } { $unit } its error changes by up to { $by } { $unit }, read from one side.
gauge-checked-undecided = { $told } A set with a finer certificate, or more repeats, may tell; until then take another gauge.
gauge-checked-not-good = { $told } Take it out of use until it has been seen to.

## Coming to a stop-at, and what the gauge cannot follow

turn-by-degrees = about { $degrees ->
    [one] 1 degree
   *[other] { $degrees } degrees
 }
turn-by-part = about { $part ->
    [eighth] an eighth of a turn
    [sixth] a sixth of a turn
    [quarter] a quarter of a turn
    [third] a third of a turn
    [half] half a turn
    [two-thirds] two thirds of a turn
   *[three-quarters] three quarters of a turn
 }
turns = about { $whole ->
    [one] one turn
   *[other] { $whole } turns
 }
turns-and = about { $whole ->
    [one] one
   *[other] { $whole }
 } and { $part ->
    [eighth] an eighth
    [sixth] a sixth
    [quarter] a quarter
    [third] a third
    [half] a half
    [two-thirds] two thirds
   *[three-quarters] three quarters
 } turns
approach-by-hand = Push or tap it lightly, a little at a time, and let go before you read.
approach-shims = Snug the bolts on the shims before each reading; they are tightened later.
approach-none = Report only: nothing on this axis can be set.
approach-raising = Come to it slowly, with the { $rising } of the head rising.
approach-one-side = Come to it slowly, always from the same side.
move-off-scale = This move is larger than the gauge can follow. Bring the head closer by scale or square first.
move-past-travel = The gauge runs out of travel { $by } before the stop-at. Set it with less preload and read this spot again.
move-lifts-contact = This move lifts the contact off the surface. Push the gauge in further and read this spot again.
move-little-preload = This move leaves the contact only { $left } pushed in. Push the gauge in further and read this spot again.

## Pulling up the bolts

pulled-up = { $share ->
    [quarter] to a quarter
    [third] to a third
    [half] half way
    [two-thirds] to two thirds
    [three-quarters] to three quarters
   *[all] all the way
 }
pulled-up-by = to { $part }/{ $of }
pulled-up-to = to { $torque }
torque = { $torque } { $unit ->
    [in] lbf·ft
   *[mm] N·m
 }
torque-by = { $torque }, wrench no. { $wrench }
bolt-over = { CAP($bolt) } moved the head by { $moved }; allowed is { $allowed }. { $bolts ->
    [1] Slacken it, then pull it up more gently.
    [2] Slacken it, pull up the other one, then come back to it.
    [3] Slacken it, pull up the other two, then come back to it.
   *[other] Slacken it, pull up the one across from it, then come back to it.
 }

## Why there is no reading yet

no-reading = No reading: { $why }. { $by ->
    [key] Take it
   *[touch] Hands off, then take
 } again.
no-samples = no samples since the reading was taken
not-long-enough = not long enough yet: { $samples ->
    [one] 1 sample
   *[other] { $samples } samples
 } so far
still-moving = still moving: { $found } { $unit } over the last { $seconds } s; allowed { $allowed }
key-not-pressed = the gauge's key was not pressed
key-down = the gauge's key is still down
key-presses = the gauge's key was pressed { $pressed } of { $of } times
presses-apart = the last { $presses } presses differ by { $found } { $unit }; allowed { $allowed }

## Other checks than the sweep: what they are, where they read, what came out

check-runout = Spindle run-out
check-travel = Table along its travel
station-angle = Spindle at { $to }°, { $at } { $unit } below the nose{ $seat ->
    [1] {""}
   *[other] , bar turned round
 }
turn-spindle = { $seat ->
    [1] Spindle to { $to }°, gauge { $at } { $unit } below the nose.
   *[other] Bar turned round: spindle { $to }°, { $at } { $unit } below nose.
 }
runout-total = Run-out { $at } { $unit } below the nose
runout-spindle = The spindle's own run-out { $at } { $unit } below the nose
runout-bar = The bar's own eccentricity { $at } { $unit } below the nose
runout-eccentricity = Eccentricity { $at } { $unit } below the nose
runout-tilt = Tilt against the axis of rotation
station-travel = { $axis ->
    [x] X
   *[y] Y
 } at { $to } { $unit }
move-table = Move the table to { $to } { $unit } along { $axis ->
    [x] X
   *[y] Y
 }.
take-from-one-side = Come to it always from the same side. Take the reading.
travel-slope = Slope along { $axis ->
    [x] X
   *[y] Y
 }
travel-form = Straightness along { $axis ->
    [x] X
   *[y] Y
 }
# A vise's jaw, and how it is tapped in
check-vise = Vise jaw along the travel
station-vise = { $to } { $unit } from the { $along ->
    [x] left
   *[y] front
 } end
move-along-jaw = Contact to { $to } { $unit } from the jaw's { $along ->
    [x] left
   *[y] front
 } end.
jaw-end = { $end ->
    [left] left
    [right] right
    [front] front
   *[back] back
 } end
vise-nearer = Jaw: { $end } nearer the gauge
term-jaw = Jaw or travel is not straight
tap-end = Tap the { $end } { $by } away from the gauge.
tap-how = Nip the bolt at its other end, leave this one just snug, and tap until it reads { $stop }. Then tighten both.
tap-until = Tap the { $end } until it reads { $stop }.
tapped-tight = Tapped, both bolts tight: read again
was-tapped = tapped in since
halt-tap = Do not tap.
caution-tap = Soft hammer on the vise's body, the contact and fingers clear of it.
end-was-tapped = the vise was tapped in
term-turned = The spindle stopped off its angle
term-bar = The bar's own run-out
term-edge = What is read along is not straight
term-laid = How it lies
note-follows = pooled over visits; as much as the result follows each reading
note-follows-assumed = assumed until more visits tell; as much as the result follows each reading
note-digit = digit/√12 of a reading when it stands still, less when it moves
note-hump = half the return error/√3 of a reading, and of one sign all through a lap
note-same-zero = the same all through a lap
note-turned-off = as much of the run-out there as the angle is off, in radians; anywhere within its bound
note-no-bar = { $read ->
    [bore] no bar is read
   *[bar] the bar was set in half a turn round for a second time: it changes sign
 }
note-edge = the same at every visit to a place; anywhere within its bound
note-laid = looks exactly like the slope; anywhere within its bound
note-line-out = the line through the readings takes it out
do-not-fit = The readings do not fit together: what remains of one is { $found } { $unit }; allowed { $allowed }. A chip under the contact, a place not as told, or the gauge zeroed on the way: wipe and read again.
highest-at = highest at { $angle }°
highest-within = highest at { $angle }° ± { $by }°
toward-untold = which way cannot be told
figure-over = { $figure } over { $over }
give-or-take = uncertainty { $by } { $unit }
check-came-to = { $check }: { $word ->
    [in] inside
    [close] too close to call
   *[out] outside
}
check-signed = { $came }. Audit { $audit } is signed.
check-signed-by = Done by { $by }. Ready for the next one.
reason-of = { $check }. { $reason }
open-check = Check: { $check }
gauge-out = Gauge and set-up out. { $drawbar ->
    [hand] Wrench off the drawbar.
   *[power] Spindle emptied by its drawbar.
}
cleared-gauge = All out of the way, { $drawbar ->
    [hand] wrench off the drawbar
   *[power] drawbar empty
}
gauge-in-the-way = gauge or test bar in the way
gauge-is-out = gauge and test bar out, { $drawbar ->
    [hand] wrench off the drawbar
   *[power] drawbar empty
}
take-gauge-out = { $drawbar ->
    [hand] Before power comes back: gauge and test bar out, wrench off the drawbar.
   *[power] Before power comes back: gauge off. Then the test bar out, by its drawbar.
}
read-again = Read all again
read-again-why = Why it is read again
no-such-check = check: found { $found }; allowed: { $allowed }
no-round = Not every station has been read yet: there is nothing to sign for.
only-squaring = { $keys }: only where a head is squared; what is open is another check: { $check }.
only-at-stations = station: found { $found }; here the head is squared, and a place of its circle is read.
other-station = Another reading is next: { $next }.
# A morning's look at two spots: whether the head stands as its last signed sweep left it
check-morning = Morning check
morning-change = { $pair ->
    [front-right] Front against right
    [front-left] Front against left
    [right-left] Right against left
   *[front-back] Front against back
}: changed by
look-came-to = { $check }: { $word ->
    [in] nothing moved
   *[out] look closer. Do the whole check
}
would-have-seen = Would have seen { $size } over { $over } { $unit }, 19 times in 20, since { $day }.
blind-to-axis = Blind to: { $axis }.
blind-to-corner = Blind to a lean along { $corner ->
    [front-right] front right to back left
   *[front-left] front left to back right
}.
few-alarms = With nothing moved, 1 morning in 20 says look closer. No tolerance is judged.
neutral-first = Before the lock-out: gears in neutral, two fingers turn the spindle.
touched-since = Bolts, ram, turret or a knock since { $day }? Give this up and do the whole check.
term-then = The sweep of audit { $audit }
note-then = as signed on { $day }, without what the same gauge is off by today as well
term-form = The table's form
note-same-form = the same spots of the table both times
note-put-anew = put down anew since: as much as in a sweep's own budget
note-clamped-anew = the arm may stand elsewhere in the turn: as much as in a sweep's own budget
term-between = Drift between the two spots
note-between = nothing is read twice: as much as a step of that sweep, and a count at least; over √3
read-otherwise = The last signed sweep was read { $what ->
    [gauge] by another gauge
    [radius] on another circle
    [seat] on another surface
   *[ram] with the ram at another angle
}: nothing to compare with. Do the whole check.
caution-locked-out = Power off and locked out; nothing turns or moves but by hand.
caution-turn-by-hand = Turn the spindle at its nose, never by the gauge or the drawbar; fingers clear of the bar and the contact.
caution-table-clear = See that the table's whole way is free, and hands are out of the ways and screws.

## Good enough for a job

enough-title = Good enough for this job?
enough-is = a drawing's callout against the last sweep
enough-how = Type what the drawing asks for, each with its unit. No bolt is touched, and nothing is recorded unless you keep the answer.
enough-what = What is cut
enough-kind = { $of ->
    [bore] Bore or hole
    [wall] Wall
   *[face] Face
 }
callout-depth = Depth
callout-height = Height
callout-width = Width
callout-zone = { $of ->
    [bore] Squareness, across its zone
    [wall] Squareness
   *[face] Flatness or parallelism
 }
callout-faces = It faces
callout-any = any way
callout-right-left = right or left
callout-front-back = front to back
callout-left-right = left to right
callout-cutter = Cutter, across
callout-step = From one pass to the next, if it takes several
callout-to = It is to be
callout-flat = flat
callout-parallel = parallel to the table
callout-feed = The feed runs
enough-ask = Good enough?
enough-keep = Keep this answer
enough-kept = Kept in the record.
callout-of = { $of ->
    [bore] your bore
    [wall] your wall
   *[face] your face
 }
enough = { $word ->
    [in] Good enough: { $does } over { $over }, ± { $by }. Allowed { $zone } { $unit }.
    [out] Not good enough: { $does } over { $over }, ± { $by }. Allowed { $zone } { $unit }.
   *[close] Too close to tell: { $does } over { $over }, ± { $by }. Allowed { $zone } { $unit }.
 }
enough-gauge = That sweep cannot tell so little, whatever it reads.
enough-signed = By the sweep signed on { $day } (audit { $audit }), { $days ->
    [0] today
    [one] 1 day old
   *[other] { $days } days old
 }.
enough-fresh = By the latest sweep of the open audit { $audit }, not signed yet.
enough-since = { $open ->
    [yes] Nothing was loosened since.
   *[no] Nothing on record moved the head since. A knock, a swung ram or a bolt touched without an audit only you know of.
 }
enough-alone = The head's part alone. { $of ->
    [bore] How quill or knee travels, the cutter and the vise come on top.
    [wall] How the table travels, the cutter bending and the vise come on top.
   *[face] How the table travels, the spindle's run-out and the vise come on top.
 }
callout-not-so = That is not a callout yet:
enough-unsafe = The machine is not safe to run: first put right what was left loose.
enough-moved = The head may have moved since its last sweep. Sweep it first.
enough-doubted = The morning check said to look closer, and the head was not swept since. Sweep it first.
enough-crash = There was a crash since the last sweep. Sweep the head first.
enough-no-sweep = The head has not been swept and signed yet. Sweep it first.
enough-other-sweep = The head was swept again since (audit { $audit }). Ask once more.
answer-was-kept = an answer for a job was kept

## On several screens

and-then = { $first } { $next }
name = { $name }
length = { $length } { $unit }
percent = { $of } %
word = { $word ->
    [in] in
    [close] too close to call
   *[out] out
}
reason = { $reason ->
    [after-angled-work] After angled work
    [crash] After a crash
    [before-job] Before a job that matters
    [bad-work] Work came out wrong (step, oval bore)
    [moved] Moved or levelled
    [maintenance] After maintenance
    [check-only] Check only
    [practice] Practice
   *[scheduled] Scheduled
}
checked-and-squared = Check only, then squared
age = { $age ->
    [as-found] as found
    [before-move] before the move
    [before-tightening] before tightening
    [pair-check] pair check
    [estimate] estimate
    [old-zero] old zero
    [as-left] as left
   *[was] was
}
place-name = { $place ->
    [front-right] Front-right
    [right] Right
    [back-right] Back-right
    [back] Back
    [back-left] Back-left
    [left] Left
    [front-left] Front-left
   *[front] Front
}
at-place = { $place ->
    [front-right] at the front right
    [right] at the right
    [back-right] at the back right
    [back] at the back
    [back-left] at the back left
    [left] at the left
    [front-left] at the front left
   *[front] at the front
}
to-place = { $place ->
    [front-right] to the front right
    [right] to the right
    [back-right] to the back right
    [back] to the back
    [back-left] to the back left
    [left] to the left
    [front-left] to the front left
   *[front] to the front
}
round-by = Half a turn, with the gauge { $at } on the way: so its cable unwinds.
still-low = Still { $by } low { $at }
still-too-low = Still { $by } too low { $at }

## While there is no number

halt-wait = WAIT: no reading.
halt-stop = STOP: no reading.
halt-turning = STOP turning: no reading.
halt-tightening = STOP tightening: no reading.
halt-turn-nothing = Turn nothing.
halt-leave-bolts = Leave the bolts as they are.
halt-hands-off = Hands off the adjuster.
halt-goes-on = It goes on by itself once there is a number.

## The wall

ready = Ready for an audit.
# Where a machine's file offers other checks than the head's, each choice stands over its buttons.
choose-what = Choose what to check.
choose-why = Choose why the head is being checked.
choose-other = Or choose another check.
was-abandoned = Audit { $audit } was abandoned.
audit-signed = Audit { $audit } is signed: { $word }.
audit-signed-by = { $moves ->
    [one] { $moves } move
   *[other] { $moves } moves
}. Done by { $by }. Ready for the next one.
stage = { $stage ->
    [prepare] Prepare
    [as-found] As found
    [square] Square
    [final] Prove
    [stations] Read
    [clear] Clear away
   *[sign] Sign
}
headline-knocked = Knocked?
headline-read-again = Read both spots again.
headline-another-adjuster = Wrong adjuster?
headline-backwards = It went the other way.
headline-astray = No stop-at for now.
headline-elsewhere = Not where it was left.
headline-bolt = That bolt moved the head.
headline-not-there = Not at the stop-at.
headline-stuck = Does the gauge move?
headline-crept = Let go, it went back.
headline-not-back = It did not come back.
headline-lifted = Zeroed or lifted?
headline-differs = Not as it was known.
headline-travel = The travel runs out.
headline-lifts = The contact will lift off.
headline-preload = Too little pushed in.
headline-look = See the console.
parked-turn = Gauge parked { $at }: { LOWER($turn) } until it reads { $stop }.

## Both axes

axis-name = { $axis ->
    [nod] Nod
   *[side] Side to side
}
# Which end of the table the head is low at, and which way it is nodded.
low-end = { $side ->
    [right] right end low
    [left] left end low
    [back] nodded up
   *[front] nodded down
}
too-low-end = { $side ->
    [right] right end too low
    [left] left end too low
    [back] nodded too far up
   *[front] nodded too far down
}
plus-minus = ±{ $limit }
low-by = { $end } { $limit }
never-low = { $end } not at all
level = level
side-low = { $side ->
    [right] right end low
    [left] left end low
    [back] nodded up
   *[front] nodded down
}
as-wanted = { $stands }, as wanted
low-but-too-high = { $end }, but not enough
level-but-too-high = { $side ->
    [right] level: right end too high
    [left] level: left end too high
    [back] level: nodded too far down
   *[front] level: nodded too far up
}
verdict-in = Inside tolerance on both axes.
verdict-out = Outside tolerance.
verdict-close = The reading cannot tell inside from outside.
gauge-not-good-enough = The gauge is not good enough for this tolerance.
whole-out = Each axis is inside; the lean as a whole is out.
whole-close = Each axis is inside; the lean as a whole is too close to call.

## Cautions: common practice, no source

manual-first = The machine's manual and your shop's rules come first.
held-by-bolts = Only the bolts hold this head. { $by ->
    [sling] Sling or jack
   *[block] Block or sling
 } it first.
turn-by-the-nose = Turn the spindle by its nose, never by the gauge or the drawbar.
rack-runs-back = { CAP($adjuster) } may run back when its bolts are cracked: keep hold of it.
crack-only = Crack the bolts only; never remove a nut. The head is heavy: have it supported.
hands-clear = Hands out of the joint, nobody beneath the head.
tight-before-reading = Pull the bolts up again before anything is read.
head-still-blocked = Head still blocked or slung, nobody beneath it.
tap-softly = Tap with brass or a soft hammer, clear of the gauge.
head-still-slung = Head still slung or jacked, nobody beneath it.
push-with-a-strip = Push the shim in with a strip, never with fingers.
lock-out = Isolate the machine, { $air ->
    [vented] vent its air,{" "}
   *[none] {""}
 }{ $people ->
    [1] lock it out
   *[other] lock it out with a lock each
 }, try to start it, then switch back to off.
keep-the-lock = Never defeat a lock-out to release a spindle brake.
brake-holds = Brake holds with power off? Use its hand release as the manual says.
brake-by-hand = Hand brake off, so that the spindle turns by its nose.
own-supply = This screen has its own supply; it stays on.
swing-clear = Check that arm and cable swing clear all the way round.
pedal-clear = Put the pedal where nobody trips over it.
do-not-force = Do not force the adjuster against tight bolts.
watch-the-travel = Watch the gauge's travel.
no-extension = No extension bar on the wrench.
before-power = Both before power comes back.
power-for-drawbar = Power back for the drawbar alone, as the manual says: in neutral, hands clear of it.
big-nod = A big nod, about { $about } here: { $z ->
    [knee] lower the knee
    [quill] raise the quill
   *[powered] raise the gauge in its holder
 } and set the contact anew before this.
falling-head = No gauge under a falling head.
are-loose = { $bolts } loose
are-tight = { $bolts } tight
arm-is-in = Arm in the spindle
arm-goes-in = Arm goes in the spindle
gauge-set-up = Gauge set up on the machine
arm-in-spindle = arm in the spindle
arm-is-out = arm out, { $drawbar ->
    [hand] wrench off the drawbar
   *[power] drawbar empty
}
not-safe = NOT SAFE TO RUN: { $left }.
put-right = Before power comes back: tighten { $bolts }, { $drawbar ->
    [hand] arm out, wrench off the drawbar.
   *[power] gauge off. Then the arm out, by its drawbar.
}
take-arm-out = { $drawbar ->
    [hand] Before power comes back: arm out, wrench off the drawbar.
   *[power] Before power comes back: gauge off. Then the arm out, by its drawbar.
}
all-put-right = { CAP($done) }

## Given up, or put aside for a hot job: how the machine is left

how-left = How the machine is left
left-as-is = As it is. { $tag }
leave-as-is = Left as it is
put-aside = Put aside for a hot job
put-aside-sure = The audit stays open. When it goes on, what was read so far counts no more: card, touch test and a full sweep come first.
put-aside-without-why = Say why the audit is put aside: the tag shows it.
rests-already = This audit is put aside already.
rest-first = Make it safe before power comes back.
rest-how = Then press. The audit waits; the machine may run.
rests-safe = All tight, arm out, { $drawbar ->
    [hand] wrench off the drawbar
   *[power] drawbar empty
}. Its gauge may be used elsewhere.
put-aside-for = Put aside: { $why }
half-unjudged = HALF SQUARED: not judged yet.
half-inside = HALF SQUARED: last verdict IN{ $since ->
    [loose] , bolts loosened since
   *[tight] {""}
 }.
half-squared = HALF SQUARED: last verdict { $word ->
    [close] TOO CLOSE
   *[out] OUT
 } ({ $axes }){ $since ->
    [loose] , bolts loosened since
   *[tight] {""}
 }.
half-axis = { $axis ->
    [nod] nod
   *[side] side
 } { $off }
half-read = HALF DONE: { $check }, not judged yet.
half-checked = HALF DONE: { $came }.
take-up = Take it up again
take-up-sure = The card, the touch test and a full sweep come first.

## While there is still power, and how the contact comes down, by the kind of machine:
## common practice, no source

run-it-warm = { $reason ->
    [crash] After a crash: leave it cold, in neutral.
   *[other] While there is still power: run it warm.
}
run-it-warm-how = Spindle empty. { $reason ->
    [crash] Stopped
   *[other] Run it some minutes, or leave it cold. Then stop it
}, gears in neutral: { $brake ->
    [none] two fingers turn it
   *[other] with its brake off two fingers turn it
 }.
unlock-first = Locked out for that? All tight and nobody at it: then each takes off their own lock.
clear-of-power = Guards on, hands clear of all that moves by power.
looked-at-first = After a crash: run nothing before someone qualified has looked at it.
minutes = Minutes
is-warm = Run warm, in neutral
is-warm-after = Run warm for some minutes, in neutral
left-cold = Left cold, in neutral
clamp-arm = { $of ->
    [check] Clamp what it holds
   *[head] Clamp the arm and gauge
 } by the power drawbar.
clamp-arm-how = Hands clear of nose and drawbar while it clamps. { $of ->
    [check] It
   *[head] The arm
 } stays in from now on.
start-nothing = Nobody starts the spindle while the arm is in.
drawbar-clear = The power drawbar as the manual says: it clamps hard, or drops what it holds.
arm-clamped = { $of ->
    [check] Clamped, hands clear
   *[head] Arm clamped, hands clear
 }
set-height = Set the height, then clamp it.
set-height-how = By power and slowly, until the contact hangs about { $clear } above where it is to read. Then clamp Z.
head-may-sink = A powered head may sink when its power goes: clamp or block it, as the manual says.
height-is-set = Height set, Z clamped
no-such-minutes = minutes: found { $found }; allowed: 1 to { $most }, where it was run warm
was-warmed = the spindle was run warm, or left cold
arm-was-fitted = the power drawbar clamped
height-was-set = the height was set
contact-down = { $z ->
    [knee] Quill up and locked. Raise the knee until about { $preload } is pushed in. Lock the knee, then read.
    [quill] Bring the quill down until about { $preload } is pushed in. Lock the quill, then read.
   *[powered] Z stays clamped. Let the gauge down in its holder until about { $preload } is pushed in. Clamp it, then read.
 }
contact-as-it-was = { $z ->
    [knee] Raise the knee to where it was and lock it.
    [quill] Quill down to where it was, and locked.
   *[powered] Z stays clamped: gauge down in its holder to where it was.
 }

## Arm and gauge out, a shim in, and back: common practice, no source

arm-and-gauge-out = { $drawbar ->
    [hand] Arm and gauge out.
   *[power] Gauge off the arm, clear of the head.
 }
arm-and-gauge-back = { $drawbar ->
    [hand] Arm and gauge back in.
   *[power] Gauge back on the arm.
 }
support-head = { $by ->
    [sling] Then sling or jack the head: only its bolts hold it.
    [block] Then block or sling the head: only its bolts hold it.
   *[adjuster] Then have the head supported: it is heavy.
 }
still-locked-out = Power still locked out. The contact is touched next.
nobody-beneath = Nobody beneath the head from now on.
arm-is-away = Out of the way, head supported
arm-is-back = Back, fingers clear
open-again = Slacken { $bolts } again.
open-joint = Then open the joint only as far as the shim needs. Hands out of it.
joint-is-open = Open, head held
push-then-snug = Push it in with a strip. Then snug the bolts on it.
arm-went-out = arm and gauge were taken out of the way
arm-was-put-back = arm and gauge were put back
shim-was-put-in = a shim was put in

## The instruction of each step

down-again = Bring the contact down{ $set ->
    [anew] .
   *[as-it-was] {" "}again, set as it was.
}
down-again-at = Bring the contact down{ $set ->
    [anew] {" "}{ $at }.
   *[as-it-was] {" "}again { $at }, set as it was.
}
cracked-too = { CAP($bolts) } are cracked too.
behind-the-head = Behind the head, facing the column's back, right is your left.
leave-alone = Leave { $bolts } alone.
keep-tight = Keep { $bolts } tight for now.
screen-was-off = The screen was off: is the lock still on?
screen-was-off-ask = Try to start. Is the gauge untouched, and { $of ->
    [check] all it is set on or against
   *[head] the head
 }? Read the number on the gauge again.
keep-supported = Keep the head supported: { $bolts } may be loose.
# After angled work
angle-asked = Is the head still at an angle?
angle-asked-why = Nothing may hang in the spindle while it is swung back.
still-angled = Still at an angle
angle-is-back = Set back to zero already
set-back-first = Set the head back by its scale.
set-back-how = Support it, crack the bolts, bring each scale to zero, nip the bolts evenly, then pull them tight.
arm-stays-out = No arm and no gauge in the spindle yet.
is-set-back = At the scale's zero, and tight
was-set-back = Set back by its scale after angled work; not as found.
# After a crash
try-the-bolts = Wrench on every head, ram, turret bolt: which moved?
bolts-to-try = Try { $bolts }. Pull up what moves.
has-moved = Moved: { $bolt }
ram-bolt-too = If the ram or the turret slipped, the next card asks for it.
bolts-tried = { $moved ->
    [0] All tried, none moved
   *[other] All tried, { $moved } moved and tight again
}
run-out-first = The spindle's run-out first
crash-bolts-held = One bolt at a time, none slackened: the head is heavy.
not-to-be-tried = bolt: found { $found }; allowed: { $allowed }
# The machine was moved
level-first = Stand the machine level first.
level-first-how = Every foot carries, the table level both ways. Let it settle, then read the level again.
is-level = Level, and it has settled
jack-by-manual = Lift and jack it as the maker's manual says, by people who know how; nobody beneath it.
make-safe = Make the machine safe, then put the gauge on.
make-safe-bar = Make the machine safe, then bar and gauges on.
read-number = Read the number on the gauge, press, and pick or type it.
read-numbers = Read the numbers on both gauges, press, and pick or type them.
lift-contact = Lift the contact: let it hang free.
lift-contact-why = Then take the reading: it shows whether the gauge was zeroed. The audit goes on where it was.
hang-free = Let the contact hang free in the air.
hang-free-take = Hands off, then take the reading.
push-contact = Push the contact in and let it go.
push-contact-why = This shows that the gauge is alive, which way it counts, and that it comes back.
hold-contact-in = Hold the contact in until its number shows.
hold-contact-in-why = A gauge with a key: press the key meanwhile. Then let go.
let-contact-go = Let the contact go.
let-contact-go-why = Finger off, then take the reading: it must come back.
take = Take the reading.
take-at = Take the reading { $at }.
turn-to = Turn { $to } and take the reading.
first-sweep = Everything still tight: a full sweep.
proving-sweep = Everything tight: this full sweep shows how the head is left.
down-at = Bring the contact down { $at }.
flick-first = Flick the arm three times, letting it rest each time.
all-still-tight = Everything still tight.
turn-on = Turn on, { $to }.
turn-back = Turn back the way you came, { $to }.
take-again-there = Take the reading there again: it shows whether anything drifted.
turn-until-at = Turn the spindle: gauge { $at }.
read-again-at = Read the gauge again { $at }.
touch-nothing = Touch nothing else before.
bolts-as-they-are = Bolts as they are.
bolts-still-tight = Bolts still tight.
park-at = Park the gauge { $at }.
park-next = Next is { $axis }. { $bolts } Take the reading.
park-take = { $park } { $bolts } Take it.
out-go-on = { $out }: { $onward }.
try-a-turn = try a turn
a-shim = a shim
another-shim = another shim
push-further = push further
turn-further = turn further
hands-off-until = Hands off until that is answered.
turn-nothing-until = Turn nothing until that is answered.
crack = Crack { $bolts }.
nip-back = Slack, then nip back until { $kind ->
    [hand] a tap
   *[screw] the adjuster
 } moves it stiffly.
crack-enough = { $nip } It may drop a little; the stop-at stays. Then press.
crack-by-hand = { $nip } It may drop a little. Then press.
turn-adjuster = Turn { $adjuster }
push-adjuster = Push { $adjuster }
a-little = { $turn } a little either way.
a-little-back = { $turn } a little back the way you came.
a-little-how = A few degrees; there is no stop-at. It shows how the head answers. Then let go and press.
turn-until = { $turn } until the gauge reads { $stop }.
turn-how = { $goes } { $come } Then let go and press.
goes = The number goes { $way ->
    [up] up
   *[down] down
} from about { $now }.
there-already = It reads that already.
that-is = That is { $turns }.
go-past = Go { $by } past it and come back. { $come }
shim = { $thickness } shim behind { $place }
shim-stack = { $thick } + { $thin } shims behind { $place }
shim-sum = { $sum } ({ $thick } + { $thin })
shim-leaves = The nearest there is leaves { $leaves } over { $over }: { $word ->
    [in] inside
    [out] outside
   *[close] too close to call
}.
no-shim = No shim here brings { $axis } inside: { $leaves } is left at best.
put-shim = Put { $shim }.
check-other = A pair check: the other move may have changed { $axis } too.
check-before-tightening = A pair check before tightening.
check-left-out = No pair check of { $axis }: { $likely } in 100 to be inside, and the last sweep shows it.
return-left-out = Not read back: even { $walked } of drift would change no word of it.
check-tight = A pair check with { $bolts } tight.
pull-up = Pull up { $bolt }, { $part }.
pull-up-limit = Then press. One bolt may move the number by { $limit }.
tighten = Tighten { $bolts }.
tighten-both = Tighten { $side } and { $nod }.
both-bolts = { $side } and { $nod }
pull-up-with = Wrench no. { $wrench }. Then press. One bolt may move the number by { $limit }.
tighten-how = A third at a time, { $bolts ->
    [0] in turn, watching the number.
    [1] watching the number.
    [2] one, then the other, watching the number.
    [3] one after the other, watching the number.
   *[other] in a cross pattern, watching the number.
 }
tighten-to = To { $torque }, a third at a time, watching the number.
arm-out = { $drawbar ->
    [hand] Arm out. Wrench off the drawbar.
   *[power] Gauge off. Then the arm out, by its drawbar.
 }
is-inside = Square, in tolerance.
leave-inside = Leave it: square, in tolerance.
leave-close = Leave it: as good as this gauge can tell.
# What is put back, and what the verdict says nothing of: common practice, no source.
put-back = Wipe the keys, put the vise back and indicate its jaw.
set-back = Gears and speed as they were; knee, quill and table locks as the next job needs them.
verdict-of-table = The verdict is of the spindle against what was swept on the table. A bore fed by knee or quill follows that, not this.
arm-had-been-out = the arm had been taken out
was-left-alone = { $axis } left alone today: { $why }
found-out = Out: { $axes }.
leave-out = Nothing more is turned: the audit reports what is.
report-only = { $axis }: report only.
sign-audit = Sign the audit.
recorded-already = Every reading is recorded already.
bring-closer = Bring the head closer by scale or square.
bring-closer-how = It is further out than the gauge can read. Crack the bolts, set it, tighten; then press.

## The console: what may be pressed, asked and filled in

all-done = Is all of it done?
not-zeroed = I did not zero it: carry on
not-bumped = Not preset, not bumped: carry on
take-back = Take back the last step
why = Why
abandon = Abandon this audit
abandon-sure = The audit ends without a verdict. What was read stays recorded.
safe-read = Safe, and the number is read
number-read = Number on the gauge
numbers-read = Numbers on both gauges
numbers-are = { $numbers }
number-ends = Or type its last two characters
numbers-end = Or type the last two characters of both, a space between
ram-moved = Safe and right, but the ram or turret was moved since last time
ram-swung-by = Ram swung by, such as 15 deg
untouched = Locked out, all untouched
untouched-tight = Locked out, all untouched, { $bolts } tight
touched = Locked out, but gauge or { $of ->
    [check] what it is set on was touched
   *[head] head was touched
 }
touched-tight = Locked out, { $bolts } tight, but gauge or head was touched
are-cracked = Locked out, but { $bolts } are cracked
take-free = Contact is free: take the reading
pushed = Pushed and let go
take-reading = Take the reading
take-reading-at = Take the reading { $at }
stands-at = It stands { $at }: take it
off-scale-record = Off scale { $at }: record it
off-scale-found = The head as found is recorded as off the gauge's scale; no reading is kept.
off-scale-now = The head as it is now is recorded as off the gauge's scale; no reading is kept.
touch-again = The gauge was zeroed: touch test
leave-it = Leave it as it is
leave-it-why = Why the head is left as it is
tight-again = Tight again: { $bolts }
tighten-anyway = { $out }: tighten all the same?
cracked = Cracked { $bolts }
shim-in = Shim in, bolts snug
stopped = Stopped turning, hands off
put-right-again = Put { $bolt } right: read again
bolt-pulled-up = Pulled up { $bolt }
all-tight = All tight
square-now = Square it now
axis-first = { $axis } first
leave-axis = Leave { $axis } alone today
leave-axis-why = Why it is left alone
set-and-tight = Set and tight again
sweep-again = Sweep again
arm-is-where = { $of ->
    [check] The gauge
   *[head] The arm
 }
arm-still-in = Still in place, lock on
arm-was-taken-out = Was taken out: prepare and touch first
sweep-again-why = Why another sweep
because = { $because ->
    [chip] A chip
    [bumped] Bumped
    [unsure] Not sure
   *[other] Something else
}
in-own-words = In your own words
ring-turned = Ring turned half round: sweep again
arm-turned = Arm clamped half round: sweep again
cleared = { $drawbar ->
    [hand] Arm out, wrench off the drawbar
   *[power] Arm out, drawbar empty
 }
done-by = Done by
last-good = Last known good on
last-good-why = { $sure ->
    [yes] From the record: audit { $audit } left it in tolerance that day.
   *[no] From the record: audit { $audit } left it in tolerance that day, by a clock that nobody had set.
 }
disposition = What becomes of the work since then
as-found-sweep = The sweep that shows how the head was found
as-found-why = Why, if not sweep { $number }, the first before anything was loosened
as-left-sweep = The sweep that shows how the head is left
as-left-why = Why, if not sweep { $number }, the first after the last tightening
reviewed-by = Reviewed by
note = Note
sign = Sign
sweep-came-to = Sweep { $number }: { $word }

## What speaks against a gauge or the dates, and why a verdict is signed all the same

all-the-same = Why sign all the same?
clock-not-sure = No time server has set the clock: calibrations were judged by the day it says, { $today }.
clock-set-meanwhile = The clock was set during this audit, from { $before } to { $after } UTC: its dates may be wrong.
no-reason-to-sign = all_the_same: found nothing; allowed: why it is signed all the same. { $facts }
signed-all-the-same = Signed all the same: { $why } ({ $facts })

## What a verdict is of

measurand-lean = Measured: the spindle's axis against { $seat ->
    [ring] what the ring stands on
    [plate] what the plate stands on
    [block] what the block stands on, spot by spot
   *[table] the table's top
 }, over this circle (Ø { $across }). { $by }
measurand-check = Measured: { $kind ->
    [runout] how far the bar or bore runs out as the spindle is turned by hand, at the places read
    [travel] how the surface read along stands to the table's travel, over the length read
    [vise] how the vise's fixed jaw stands to the table's travel, over the jaw's length
    [morning] whether the head still stands as its last signed sweep left it, at the two spots read
   *[other] { $name }
 }. { $by }
gauge-known = { $name } ({ $number })
condition-and-gauge = Gauge: { $gauge }. Condition: { $condition }
signed-by-rule = Rule: { $rule }
likely-inside = Probability of conformity: { $of }.
likely-of = { $name } { $likely }
as-vector = length of the lean

## The numbers behind a verdict

head-as-found = the head as found
rule-of = { $together ->
    [jointly] both axes together
    [vector] the length of the lean
    [figures] each figure by itself
   *[each] each axis by itself
}
rule-simple = Simple: the number itself against its limit, { $of }.
rule-guarded = Guarded: { $sure } sure, { $of }.
many = many
cancels = cancels
nearly-certain = over 99.9 %
hardly-ever = under 0.1 %
head-unknown = Nothing is known yet of how this head answers but what its file says.
head-answers = { $axis }: the pivot acts { $pivot } from the spindle, give or take { $doubt }; the other axis follows by { $cross } %, give or take { $cross_doubt }.

## Why a stop-at, or a shim, is what it is: each with what it makes of the number

why-base = Base: { $base }, read { $at }. Stop at { $stop }.
why-shim = The shim: { $thickness }.
why-lean = { CAP($end) } by { $by } across the sweep, its pivot { $pivot } { $where ->
    [beyond] beyond the spindle
   *[this-side] on this side of the spindle
}, give or take { $doubt }: the gauge sees { $sees } times that, { $makes }.
why-shim-lean = { CAP($end) } by { $by } across the sweep, the bolts { $spacing } apart: { $sees } times that, { $makes }.
why-cross = { $axis }, still to be moved, will bring it { $by } { $end }: { $makes } for that.
why-no-cross = { $axis }: nothing is left for its move.
why-tightening = Tightening will bring it { $by } { $end }, give or take { $doubt }: { $makes } for that.
why-no-tightening = Tightening: nothing is left for it; it may do { $doubt } either way.
why-rest = Stopped and let go, it still goes { $by } { $end }: { $makes } for that.
why-no-rest = Let go: nothing is known to come back.
why-shelf = The nearest shim that there is: { $makes }.
why-bend = The pivot's height bends its way: { $makes }.

## What changed, and a press that did nothing

told-where = { $what } ({ $where })
told-axis = { $axis ->
    [nod] nod
   *[side] side
}
told-place = { $place ->
    [front-right] front-right
    [right] right
    [back-right] back-right
    [back] back
    [back-left] back-left
    [left] left
    [front-left] front-left
   *[front] front
}
audit-was-opened = an audit was opened
bolt-has-moved = a bolt had moved
bolts-were-tried = every bolt was tried
run-out-was-first = the run-out was chosen first
angle-was-asked = it was asked whether the head is still at an angle
head-was-set-back = the head was set back by its scale
squaring-was-wanted = it was squared after a check
other-axis-is-first = an axis was chosen to be first
axis-was-left-alone = an axis is left alone
machine-was-levelled = the machine was levelled
machine-was-prepared = the machine was prepared
service-was-restarted = the service was started again
machine-was-made-safe = the machine was said to be safe
free-reading-was-taken = the free reading was taken
contact-was-pushed = the contact was pushed
arm-was-flicked = the arm was flicked
reading-was-taken = a reading was taken
station-was-read = a station was read
check-was-finished = a check was finished
sweep-was-finished = a sweep was finished
parked-reading-was-taken = the parked reading was taken
question-was-answered = a question was answered
zero-was-noticed = the number went to zero
parked-spot-was-read-again = the parked spot was read again
bolts-were-cracked = bolts were cracked
stop-was-asked-about = a stop far from the stop-at was asked about
adjuster-was-turned = an adjuster was turned
pair-check-was-finished = a pair check was finished
bolts-were-tightened = bolts were tightened
bolt-was-pulled-up = a bolt was pulled up
head-is-off-scale = the head is off the gauge's scale
head-was-brought-closer = the head was brought closer
head-was-learned = something was learned about the head
sweep-was-asked-for = another sweep was asked for
touch-was-asked-for = the touch test is to be done again
head-is-left = the head is left as it is
machine-was-cleared = the machine was cleared
audit-was-signed = the audit was signed
audit-was-put-aside = the audit was put aside
machine-was-left = it was said how the machine is left
audit-was-taken-up = the audit was taken up again
audit-was-abandoned = the audit was abandoned
step-was-taken-back = the last step was taken back
gauge-was-noticed = something about the gauge was noticed
audit-was-attested = the shop's key signed an audit
clock-stepped = the Pi's clock was set
samples-let-go = samples were let go, as the shop's file says
gauge-was-checked = the gauge was checked against known lengths
gauge-stopped = the gauge stopped giving readings
gauge-is-back = the gauge gives readings again
steps-before = { $full ->
    [yes] { $more } or more steps
   *[no] { $more ->
        [one] { $more } step
       *[other] { $more } steps
    }
} before the last { $last }
# Short enough for the wall.
not-taken = NOT TAKEN: { FIRST($why) }
not-done = Not done: { FIRST($why) }

## An audit on record: its page

no-records-here = No audit can be read here.
title-record = { $machine }, { $short }: on record
record-head = Head against table
record-state = { $stands ->
    [signed] Signed
    [given-up] Given up, without a verdict
   *[open] Open: not signed yet
 }
record-practice = PRACTICE: not of a real machine
record-of = Audit { $short }
record-unbroken = Checked just now: unbroken. { $rows ->
    [one] Its one row is
   *[other] All { $rows } rows of it are
 } as written, held against the hash of the row before, and so { $evidence ->
    [0] would be its samples: it names none
    [one] are its samples, one piece
   *[other] are its samples, { $evidence } pieces
 }{ $gone ->
    [0] {""}
   *[other] {" "}({ $gone } more were let go on purpose, and a row says so)
 }. The whole chain is checked by "headsweep ledger verify".
record-broken = NOT AS WRITTEN: { $many ->
    [one] row { $rows }
   *[other] rows { $rows }
 }, or the samples named there. Do not rely on this record. Keep the data folder as it is and run "headsweep ledger verify".
record-when = { $utc } UTC{ $sure ->
    [no] {" "}(clock not set)
   *[yes] {""}
 }{ $local ->
    [none] {""}
   *[other] , { $local }
 }
record-by = { $by }, { $when }
record-papers = { $of }: { $are }
record-checked-on = checked on { $day }{ $passed ->
    [no] , not passed
   *[yes] {""}
 }
fact-reason = Opened for
fact-opened = Opened
fact-given-up = Given up
fact-signed = Signed by
fact-reviewed = Reviewed by
fact-last-good = Last known good
fact-disposition = Work since then
fact-note = Note
fact-ring = Ring
fact-tool = Tool
fact-across = Across the circle
fact-card = On the card
record-guard = { $axis }: guard { $guard }{ $rests ->
    [none] {""}
   *[other] {" "}({ $rests })
 }. { $risk }
record-results = What it came to
record-as-found = As found
record-as-left = As left
record-not-read = not read so
record-added = Added after the signature
record-what-to = What it rests on
record-facts = Who, when, with what
record-swept = Sweeps and checks, every reading
record-moves = Moves and bolts
record-asked = Questions and answers
record-rows = Every row ({ $rows })
record-none = None.
record-above = What was read, moved and asked is told with its numbers further up.
record-row = Row { $n }
record-row-hash = hash
record-row-samples = samples
record-row-bad = NOT AS WRITTEN
record-let-go = let go by row { $by }
record-struck = Taken back by row { $by }
record-last = Row { $row }, hash { $hash }
record-place = Place
record-read = Read
record-spread = Spread
record-samples = Samples
record-data = As data
readings-alone = Readings begun again
pair-check-of = Pair check, { $axis }
other-gauge-at = { $place }, other gauge
budget-u = u
record-u = U { $by }
budget-dof = Freedom

## A recorded audit, played again

record-play = Play it on the wall
play-mark = RECORD of { $day }, { $short }: not live
play-not-live = RECORD: not live
play-no-number = No number on record here
play-unread = The record cannot be read now
play-no-moment = moment: found { $found }; allowed: 0 to { $last }
play-moves = Through the record
play-first = Start
play-back = Back
play-run = Play
play-halt = Pause
play-on = On
play-step = Next step
play-other = Wall / console
play-leave = The record

## An audit's rows, told afterwards: by whom

row-by = { $by }
row-by-service = the service itself
row-pressed = { $at ->
    [console] console
    [wall] wall
    [screen] screen
   *[other] { $at }
 }{ $screen ->
    [none] {""}
   *[other] {" "}({ $screen })
 }{ $right ->
    [sign] , with a PIN
    [practice] , practice
   *[other] {""}
 }

## An audit's rows, told afterwards: what was read, done and said, with its numbers

row-read = { $by ->
    [second] The other gauge read
   *[first] Read
 } { $value }, spread { $spread }, { $samples ->
    [one] 1 sample
   *[other] { $samples } samples
 }
row-why = Why: { $why }
row-number = Number on the gauge: { $number }
row-laid = { $ring }, its mark { $at }
row-clamped = Spindle's mark { $at } while the arm is in front
row-touched = Gauge or head were touched meanwhile
row-cracked = Bolts were cracked meanwhile
row-ram-moved = Ram or turret were moved: what was learned before is void
row-wanders = Wanders by { $by }
row-pushed = Moved { $by }
row-stayed-away = { $by } away at the worst
row-not-taken = Not taken as done
row-preload = Pushed in { $by }
row-sweep = Sweep { $n }, { $purpose ->
    [as-found] as found
   *[final] after work
 }{ $turned ->
    [ring] , ring turned half round
    [arm] , arm clamped half round
   *[none] {""}
 }
row-return = Return { $by }
row-spare = Check of the four { $by }
row-added = Taken out, { $of ->
    [ring] of the ring
    [arm] of the spindle
   *[none] known before
 }: side to side { $side }, nod { $nod }
row-sweep-again = Not usable: swept again
row-round = Round { $n }
row-round-again = Not usable: read again
row-axis = { $axis }: { $value } { $unit } ({ $low }), allowed { $limit }, { $doubted ->
    [expanded] U
   *[standard] u
 } { $doubt }: { $word }
row-whole = The lean as one: { $word }, inside with { $likely }
row-shift = Tightening shifted it { $by }
row-before-tightening = Difference before tightening { $d }
row-shift-doubted = A shift of { $by } is not believed: read again
row-by-hand = From { $base }: a little turn by hand
row-shim = Shim { $thickness } thick, behind { $place }
row-stop-at = From { $base }, stop at { $stop }{ $turns ->
    [none] {""}
   *[other] , { $turns }
 }{ $past ->
    [none] {""}
   *[other] , past it by { $past } first
 }
row-asked = Asked: { $what }
row-answer = Answer: { $what }
row-relabelled = Sweep { $n }, its spots put right
row-expected = Expected { $value }
row-came-back = Came back { $by } off
row-dropped = The number moved { $by }
row-past = Past the stop-at by { $by }
row-bolt = { $bolt }, step { $step }
row-creeps = It may still creep by a lean of { $by } mm over 100 mm
row-bolt-did = This step { $by }, since the first { $since }{ $over ->
    [yes] , more than one may do
   *[no] {""}
 }
row-beyond = Beyond { $by }
row-zeroed = From { $before } to { $after }
row-lost = This spot read { $value } just before
row-fault = Fault: { $code ->
    [silent] nothing comes
    [unplugged] unplugged
    [stuck] its reader stands still
    [other-channel] others send on its port, it does not
   *[other] { $code }
 }
row-unit = It shows { $unit ->
    [in] inches
   *[mm] millimetres
 } from here on
row-gauge = Gauge: { $gauge }
row-verdict = Verdict: { $verdict ->
    [conforms] conforms
    [does-not-conform] does not conform
    [nothing-moved] nothing moved
    [look-closer] look closer
   *[cannot-be-decided] cannot be decided
 }
row-found = As found
row-left = As left
row-moves = { $moves ->
    [0] No move
    [one] One move
   *[other] { $moves } moves
 }
row-tightened = Tightening shifted { $axis } { $by }
row-callout = Asked of { $of ->
    [bore] a bore { $size } deep
    [wall] a wall { $size } high
   *[face] a face { $size } wide
 }{ $cutter ->
    [none] {""}
   *[other] , cutter { $cutter }
 }{ $step ->
    [none] {""}
   *[other] , in passes { $step } apart
 }
row-enough-basis = By the sweep of audit { $audit }{ $day ->
    [none] {""}
   *[other] , signed on { $day }
 }
row-listed = Sweep { $n }{ $stands ->
    [left] : as left
    [found] : as found
   *[none] {""}
 }{ $usable ->
    [true] {""}
   *[false] , not usable
 }
row-reviewed = Reviewed by { $by }
row-last-good = Last known good: { $day }
row-disposition = Work since: { $what }
row-note = Note: { $note }
row-found-why = Another sweep is the as found: { $why }
row-left-why = Another sweep is the as left: { $why }
row-borne-out = The audit before was { $sure } % sure: { $agreed ->
    [yes] borne out
    [no] not borne out
   *[not-counted] not held against this one
 }
row-handed = { $left } to { $taken }
row-number-of = { $n }
row-takes-back = { $many ->
    [one] Takes back row { $rows }
   *[other] Takes back rows { $rows }
 }
row-addendum = To the signature in row { $signed }. { $kind }: { $text }
row-measure = { $name }: { $value }, U { $doubt }{ $limit ->
    [none] {""}
   *[other] , allowed { $limit }
 }{ $toward ->
    [none] {""}
   *[other] , { $toward }
 }{ $sees ->
    [none] {""}
   *[other] , { $sees } would have been seen
 }{ $word ->
    [none] {""}
   *[other] : { $word }
 }
row-toward = toward { $deg }°
row-arm-stays = The arm stays in the spindle
row-tapped = { $end } by { $by }, to { $stop }
row-not-tapped = Left as it is
row-differs = { $why ->
    [changed] It has changed: learned anew
    [not-half] It was not turned just half round
   *[misread] Its mark was misread, or nobody knows: nothing is learned
 }
row-station = { $at }
row-first = { $axis } first
row-walked = Walked { $by } in { $seconds } s
row-not-steady = Not steady
row-steady = Steady, { $by } a minute
row-rested = Rested at { $at }
row-friction = Friction u { $u }, { $returns ->
    [one] from 1 flick
   *[other] from { $returns } flicks
 }
row-tried = A wrench on { $bolts }
row-tried-moved = { $many ->
    [0] None moved
   *[other] Moved: { $bolts }
 }
row-angled = { $still ->
    [yes] Still at an angle
   *[no] At an angle no more
 }
row-left-safe = All tight, the arm out

## An open audit handed over

hand-over = Hand over
handed-by = Who leaves it
handed-to = Who takes it over
handed-from-nobody = left_by: found nothing; allowed: the name or initials of who leaves this audit
handed-to-nobody = taken_by: found nothing; allowed: the name or initials of who takes this audit over
handed-to-oneself = Nobody hands an audit to themselves: name who takes it over.
audit-was-handed-over = the audit was handed over
handed-over = Handed over by { $left } to { $taken }, { $day } { $time } UTC{ $sure ->
    [no] {" "}(clock not set)
   *[yes] {""}
}
signed-by = Signed by { $by }
in-hand-of = { $taken } has it, from { $left }

## An addendum to a signed audit

addendum-kind = { $kind ->
    [gauge-number] Wrong gauge number
    [name] Wrong name
    [finding] Found later
   *[other] Something else
}
addendum = { $kind ->
    [other] Added
   *[known] { addendum-kind }
} ({ $by }, { $day }{ $sure ->
    [no] {", "}clock not set
   *[yes] {""}
}): { $text }
addenda-before = { $more ->
    [one] One thing was added before that.
   *[other] { $more } things were added before that.
}
has-addenda = { $count ->
    [one] One thing was added to it since.
   *[other] { $count } things were added to it since.
}
addendum-under = Or add to the audit signed last.
addendum-what = What is it about?
addendum-says = In a few words (up to { $most } characters)
added-by = Added by
add-to-signed = Add to audit { $audit }
addendum-was-made = something was added to a signed audit
addendum-not-signed = audit: found { $found }; allowed: the id of an audit signed on { $machine }
addendum-text = text: found { $found } characters; allowed: 1 to { $most }
addendum-by-nobody = done_by: found nothing; allowed: the name or initials of who adds this

## The list of audits on record

records-title = Records
records-is = every audit: what came of it, by whom, with which gauge
records-of = Records of { $machine }
records-machines = By machine
records-failed = Gauges that failed a check
records-show-them = Show them
records-open-now = Open now
records-newest = Audits, newest first
records-filter = Filter
records-ask = Show
records-all = All audits
records-older = Older audits
records-none = No audit fits.
records-days = Days are those of the shop's time zone; UTC stands beside one where it names none. A "?" stands where no time server had set the clock.
records-any = any
records-yes = yes
records-no = no
listed-part = { $of ->
    [audit] Audit
    [day] Day
    [machine] Machine
    [what] What and why
    [came] Came out
    [side] Side to side
    [nod] Nod
    [who] Who
    [gauge] Gauge
    [notes] Besides
    [kind] Check
    [since] From
    [until] To
    [verdict] Came out
    [by] By
    [failed_check] Gauge failed since
    [voided] Something taken back
    [practice] Practice
   *[open] Open
}
listed-day = { $day }{ $sure ->
    [no] ?
   *[yes] { "" }
 }{ $zone ->
    [UTC] { " " }UTC
   *[other] { "" }
 }
listed-moves = { $moves ->
    [one] { $moves } move
   *[other] { $moves } moves
}
listed-amended = Report { $report } replaces an earlier one.
listed-taken-back = { $rows ->
    [one] { $rows } row
   *[other] { $rows } rows
} taken back
list-is-made = The list of audits is being made: { $behind ->
    [one] { $behind } row
   *[other] { $behind } rows
} to go.
listed-what = { $check }. { $reason }
listed-came = { $came ->
    [conforms] conforms
    [does-not-conform] does not conform
    [cannot-be-decided] cannot be decided
    [nothing-moved] nothing moved
    [look-closer] look closer
    [at-rest] open, at rest
    [given-up] given up
   *[open] open
}
listed-left = left { $left } ± { $doubt } { $unit }, allowed { $limit }
listed-found = found { $found } { $unit }, { $left }
listed-failed = Gauge { $gauge } failed its check on { $day }: { $audits ->
    [0] no audit
    [one] { $audits } audit
   *[other] { $audits } audits
} used it { $known ->
    [yes] since { $since }, when it was last known to be good
   *[no] before; when it was last good is not known
}.

## The trend

found-angled = Started after angled work: how it was found says nothing about how it kept square.
found-set-back = Set back by its scale after angled work: not as found.
found-off-scale = Found off the gauge's scale.
limits-come = Limits come with { $fewest } values; there { $there ->
    [one] is { $there }
   *[other] are { $there }
}.
outside-limits = Outside the limits: { $values ->
    [one] { $values } value
   *[other] { $values } values
}{ $which ->
    [shown] {" "}shown
   *[all] {""}
}, last on { $day }.
has-drifted = It has drifted: { $values ->
    [one] { $values } smoothed value
   *[other] { $values } smoothed values
}{ $which ->
    [shown] {" "}shown
   *[all] {""}
}, last on { $day }, outside the smoothed limits.
inside-limits = Every value{ $which ->
    [shown] {" "}shown
   *[all] {""}
} lies inside the limits, and it has not drifted.
check-head = Squaring the head
last-signed = Signed last on { $day } (audit { $audit }), { $word ->
    [in] inside
    [close] too close to call
   *[out] outside
}.
last-looked = Looked at last on { $day } (audit { $audit }): { $word ->
    [in] nothing moved
   *[out] look closer
}.
no-interval = No interval is agreed.
none-signed = No signed audit is on record: one is due.
clock-not-set = No time server had set the clock when the last one was signed.
overdue = Overdue by { $days ->
    [one] { $days } day
   *[other] { $days } days
}: it was due on { $day }.
due-today = Due today.
due-on = Due on { $day }, in { $days ->
    [one] { $days } day
   *[other] { $days } days
}.

no-such-page = before: found { $before }; allowed: a row given as `more`

## Pictures, and the tables beside them

picture-run = { $axis }, { $unit } over { $over }: as found and as left
picture-run-says = As found: { $found } As left: { $left }
picture-drifts = Drifting since { $day } (audit { $audit }): { $end }.
picture-shift = { $axis }, { $unit } over { $over }: what tightening did
picture-pivot = { $axis }, { $unit } from the spindle: where the pivot acts
picture-pivot-says = As known now: { $at }, give or take { $doubt }; { $audits ->
    [0] the machine's file says so
    [one] learned from 1 audit
   *[other] learned from { $audits } audits
}.
picture-sweep = Sweep { $n }, { $unit } over { $over }, seen from above
picture-sweep-says = { $side }, { $nod }.
picture-samples = { CAP($at) }: { $samples ->
    [0] no sample is kept
    [one] 1 sample
   *[other] { $samples } samples
}, { $unit }
picture-samples-says = The reading is { $mean }, the mean of { $count ->
    [one] 1 sample
   *[other] { $count } samples
}.
picture-move = { $axis }: the way of the number during a move, { $unit }
picture-move-says = From { $base } to { $end }; to stop at was { $stop }.
picture-move-by-hand = From { $base } to { $end }: a little turn by hand.
picture-tightening = { $axis }: the way of the number while the bolts were pulled up, { $unit }
picture-tightening-says = From { $base } to { $end }.
picture-thinned = { $title }, the extremes of { $samples } samples
no-samples-kept = Its samples are not there.
no-audit-yet = No signed audit yet.
no-tightening-yet = Nothing was tightened yet.
no-pivot-yet = Nothing is known yet.
mark-found = as found
mark-left = as left
mark-hollow = hollow: see remarks
mark-shift = one tightening
mark-learned = learned
mark-from-file = from the machine's file
mark-flagged = flagged by the gauge
mark-low = low
mark-allowed = allowed
mark-remains = off the fitted plane: { $at }
mark-smoothed = smoothed
mark-seconds = s
mark-now = now
one-reading = reading
level-allowed = allowed { $at }
level-control = control limit { $at }
level-as-left = as left { $at }
level-mean = mean { $at }
level-base = began at { $at }
level-stop = stop at { $at }
level-end = ended at { $at }
clock-was-not-set = The clock was not set: its date may be wrong.
beyond-control = Outside the control limits.
beyond-smoothed = Drifted.
picture-table = As a table
picture-table-of = { $of }, as a table
picture-past = Past the points of this picture
picture-alone = Larger, with earlier audits and a table
picture-earlier = Earlier audits
picture-of-row = Row { $row } of audit { $audit }
picture-before = The picture before
picture-after = The next picture
picture-file = As a file to print
picture-first = Every reading with its samples
pictures-of-audit = Pictures
no-picture-of-row = Row { $row } of audit { $audit } has no picture.
no-such-picture = picture: found { $key }; allowed: { $there }
column-audit = Audit
column-date = Date
column-found = As found
column-left = As left
column-shift = Shift
column-allowed = Allowed
column-smoothed = Smoothed
column-remarks = Remarks
column-pivot = Distance
column-doubt = Give or take
column-place = Place
column-reads = Reads, free of drift
column-remains = Off the plane
column-seconds = Seconds
column-number = Number

## What signed verdicts were worth, each held against the next as-found

trend-title = How it keeps square
trend-is = from audit to audit, and whether its verdicts held
held-title = Did the verdicts hold?
held-how = Each signed "conforms" is held against how the head is found at the next audit. It agrees where the axes lie inside the limits again, once the doubt of both sweeps is allowed for, and how far the head moves by itself meanwhile.
held-of-shop = All machines of the shop
held-stated = Stated sure
held-audits = Audits
held-agreed = Agreed
held-as-read = Had the head stood still
held-between = A head that moves by itself and a sweep that is worse than it says look alike: what the verdicts were worth lies between the last two columns.
held-blind = What both sweeps are off by alike, such as one ring laid the same way, is in neither.
stated-band = { $at ->
    [first] under { $high } %
    [last] { $low } % and over
   *[between] { $low } to { $high } %
}
band-few = Too few yet: { $audits } of { $fewest }
band-share = { $share } % ({ $low } to { $high } %)
reliability-few = Too few yet to say: of { $fewest } audits stated 90 to 95 % sure, { $audits ->
    [0] none has
    [one] { $audits } has
   *[other] { $audits } have
} been held against the next as-found.
reliability-share = Of { $audits } audits stated 90 to 95 % sure, the next as-found agreed with { $share } % (the true share is { $low } to { $high } %, 19 times in 20).
going-unknown = How far this head moves by itself from one audit to the next is not known yet: { $pairs } of { $fewest } pairs.
going-allowed = Allowed for: from one audit to the next this head moves by itself by about { $side } { $unit } side to side and { $nod } { $unit } nod, over { $over } { $unit }.
going-of-each = Allowed for: how far each head moves by itself from one audit to the next.
not-counted = Left out: { $audits ->
    [one] { $audits } audit
   *[other] { $audits } audits
}, { $why ->
    [after-angled-work] after angled work
    [crash] after a crash
    [moved] after the machine was moved
    [maintenance] after maintenance
    [bolts] with bolts cracked in between
    [ram] with the ram swung in between
    [seat] swept on another surface
    [long] more than a year later
    [learning] to learn how far the head moves by itself
   *[wanders] as the head moves by itself far more than both sweeps are in doubt by
}.

## A gauge: its port

of-gauge = { $gauge }: { $say }
its-port = its port
either = { $one } or { $other }
not-yet-opened = { $gauge }: not yet opened.
port-gone = { $it } has gone: is the cable plugged in?
port-not-there = { $it } is not there: is the cable plugged in?
port-being-plugged-in = { $it } is just being plugged in.
port-busy = another program has { $port } open; close it there.
port-not-allowed = this user may not open { $port }: the setup page says what to do.
port-not-allowed-in-full = { $group ->
    [none] the user { $user } may not open { $port }, and no group is let in: its udev rule is missing, see hardware/README.md.
   *[other] the user { $user } may not open { $port }. As root: usermod -aG { $group } { $user }. Then log in anew, or restart the service.
}
port-folder-not-there = { $it } is not there, nor is its folder: is the cable plugged in, and the name right? headsweep gauge list shows the ports there are.
port-is-none = { $it } is no serial port: correct the gauge's file; headsweep gauge list shows the ports there are.
port-of-no-kind = { $it }: no such kind of port. Allowed: a path such as /dev/serial/by-id/…, socket:// or rfc2217:// with a server's name and port, keys:///dev/input/by-id/…, hid://VENDOR:PRODUCT.
port-needs-package = { $it } needs one more package. As root: apt-get install { $package }. Then restart the service.
port-wrong-settings = { $it } does not take this speed, bits or parity: correct the gauge's file.
port-cannot-be-opened = { $it } cannot be opened; the system says: { $why }.
port-cannot-be-opened-in-full = { $it } cannot be opened: { $error }
port-not-opened = { $it } cannot be opened: the setup page says more.
server-gone = { $it } has ended the connection: has the serial server power and network, and does nobody else use its port?
server-not-named = { $it } names no server: correct the gauge's file, { $scheme }://NAME:PORT.
server-refuses = { $it } takes no connection: is the serial server's program running, and the port's number right?
server-unknown = { $it }: no computer of that name is known in this network: correct the name in the gauge's file, or write its address.
server-does-not-answer = { $it } does not answer: has the serial server power and network?
server-hangs-up = { $it } ends the connection at once: does another program use it, is its own cable in, and does it speak as the gauge's file says (rfc2217:// or socket://)?
server-option-unknown = { $it }: behind the ? stands an option that there is not. Allowed: ign_set_control, poll_modem, timeout=SECONDS.
server-lacks-control = { $it }: its serial server does not answer when told of flow control. The setup page says what to write in its file.
server-lacks-control-in-full = { $it } does not answer when told of flow control. Have it left unasked: in the gauge's file, port = "{ $cure }"
server-refuses-setting = { $it } does not take the { $key ->
    [baud] speed
    [bits] number of data bits
    [parity] parity
   *[stop] number of stop bits
 } of the gauge's file: correct { $key } there, or what the serial server allows.
server-speaks-otherwise = { $it } does not answer as RFC 2217 asks: switch that on at the serial server, or write socket:// and set speed and parity there.
port-shared = another program reads or writes { $port } as well and takes bytes away; close that program.
port-speed-changed = another program changed the speed of { $port } from { $was } to { $now } baud; close that program.
port-framing-changed = another program changed the bits, parity or stop bits of { $port }; close that program.
port-reading-changed = another program changed how { $port } is read; close that program.
port-exchanged = { $it } leads to another device than before: were two gauges exchanged? Put them back, or pull the adapter out and plug it in again.
port-ambiguous = { $it } may be any of several adapters that differ in nothing but their socket: the setup page says what to write in its file.
port-ambiguous-in-full = { $it } may be any of several adapters that differ in nothing but their socket: write the socket in the gauge's file, { $folder }/… ({ $sockets }).
port-other-adapter = { $it } is another adapter than before (serial number { $number ->
    [none] none
   *[other] { $number }
 }, it was { $before ->
    [none] none
   *[other] { $before }
 }): put the first one back, or restart the service if the exchange is meant.
port-other-socket = { $it } is in another socket than before and its adapter cannot be told from others: put it back; the setup page says what to do if the exchange is meant.
port-other-socket-in-full = { $it } is in another socket than before ({ $socket }, it was { $before }) and its adapter cannot be told from others: put it back, or write the new socket in the gauge's file, { $folder }/…, and restart the service.
reading-failed = reading { $port } failed: the setup page says more.
reading-failed-in-full = reading { $port } failed: { $error }
port-holds-up-the-pi = { $gauge }: its port holds up the Pi and gives no answer. Pull its cable and put it back; if that does not help, restart headsweep.

## Switches on input pins

switches-not-heard = The switches are not heard: { $why }
pins-no-chip = { $chip ->
    [none] this computer has no input pins.
   *[other] { $chip } is not there: is it plugged in?
}
pins-not-allowed = this user may not open { $chip }: add it to the group gpio.
pins-held = another program has pin { $pin } open{ $by ->
    [none] {""}
   *[other] {" "}({ $by })
}; close it there.
pins-no-such = { $chip } has no pin { $pin }: correct shop.toml.
pins-failed = { $chip } cannot be used: { $why }.

## Power: the button, and the supply's signal

power-nothing = shop.toml names no pin under [power]: there is nothing to watch.
power-not-watched = Neither button nor mains is watched: { $why }
power-well = All is well.
mains-gone = The mains is gone.
mains-gone-from-first = The supply says from the first that the mains is gone. Nothing is done about it before it said otherwise: is its wire in, and mains_gone_is right?
powers-off-soon = The mains is gone: the Pi powers off in { $seconds } s.
powers-off-now = The Pi powers off.
off-by-button = The button was held: the Pi powers off.
off-by-mains = The mains was gone for { $seconds } s: the Pi powers off.
off-failed = It cannot be powered off: { $why }

## A gauge: what comes from it

gauge-reports-an-error = the gauge itself reports an error: look at its face.
beyond-its-travel = its contact is beyond its travel: bring the gauge closer.
contact-is-off = it says that its contact touches nothing: bring the gauge closer.
battery-is-empty = its battery is empty, so it shows no number: change it.
none-of-its-channel = frames come on its port, but none of its own: is its transmitter on, and its channel the file's?
check-value-is-wrong = the frames look right, but not one fits its check value: interference on the cable, or another check than the file's?
number-is-missing = the frames look right, the number is missing: out of range, or the contact off?
unit-is-another = the frames look right, but their unit is not the file's: was the unit key pressed?
digits-are-missing = the frames look right, but the number has fewer digits than the file says: was the key for its resolution or its unit pressed?
frames-are-others = lines of text come, the speed is right, but they are not as the file says: another gauge, or another setting of this one? The setup page shows them.
frames-are-others-or-unchecked = lines of text come, the speed is right, but they are not as the file says: another gauge, another setting of this one, or no check value? The setup page shows them.
digits-are-coarse = its number has fewer digits than its file's resolution: was the key for its resolution pressed? If it is meant so, correct the file: each doubt is reckoned from it.
battery-is-weak = its battery is weak: change it before the next job.
link-is-weak = its radio link is weak: clear the way to its receiver.
answers-too-late = its answers come too late: give it a longer timeout.
requests-unanswered = silent: { $n ->
    [one] { $n } request
   *[other] { $n } requests
 } without an answer: check its cable and battery.
sends-unasked = it sends without being asked: is mode = "streams" right for it?
bad-frames = { $n ->
    [one] { $n } bad frame
   *[other] { $n } bad frames
}
bytes-came = { $n ->
    [one] { $n } byte
   *[other] { $n } bytes
}
garbled = garbled: { $what } in the last { $seconds } s, none good: wrong speed or framing?
none-good = { $what } in { $seconds } s, none good: wrong speed, bits or parity?
silent-since = silent for { $seconds } s: check its cable and battery.
silent-from-the-first = silent for { $seconds } s: check its cable, battery and speed.

## A gauge: its file and its papers

files-amiss = These files cannot be used
machine-file-amiss = { $file }, or the file of its gauge, has a mistake: Setup says which.
shop-file-amiss = shop.toml has a mistake, so no audit can be opened: Setup says which.
gauge-in-no-file = The gauge '{ $gauge }' is in no file of this shop: nothing reads it.
named-by-no-machine = No machine's file names it: its port is not opened.
gauge-is-well = It talks and is well.
calibrated-ahead = { $gauge }: its file says it was calibrated on { $day }, and that day is still to come. Look at its certificate.
calibration-overdue = { $gauge } is overdue: its calibration was good until { $day }.
check-was-failed = { $gauge } did not pass its check of { $day }: see to it or take another.
file-serial-number = Number on it
file-certificate = Certificate
file-no-certificate = none in its file
file-laboratory = Laboratory
file-calibrated-on = Calibrated on
file-calibration-due = Calibration good until
file-resolution = Resolution
file-travel = Travel
file-max-error = Permissible error
file-counts = Pushed in, it counts
file-counts-way = { $way ->
    [up] up
   *[down] down
}
file-port = Port
file-port-beside = On this port, too
file-line = Line
file-line-is = { $baud } baud, { $bits } bits, parity { $parity ->
    [even] even
    [odd] odd
    [mark] mark
    [space] space
   *[none] none
 }, { $stop } stop
room-free = { $size } free

## A machine's file

length-over = { $by } over { $over }
at-most = at most { $value }
is-measured = { $value }, measured
not-said = not said
no-interval-agreed = no interval agreed
every-days = { $days ->
    [one] every day
   *[other] every { $days } days
}
file-gauge = Gauge
file-second-gauge = Other gauge on the bar
file-surface = Swept surface
file-seat = The contact stands on
seat-ring = a ring
seat-plate = a plate
seat-table = the bare table
seat-block = one block, moved from spot to spot
file-sweep-radius = Sweep radius
file-positions = A sweep reads
file-around = { $all }, and { $first } again
file-ram-angle = Ram
ram-not-swung = not swung
ram-is-swung = swung { $by } { $way ->
    [clockwise] clockwise
   *[anticlockwise] anticlockwise
 }, seen from above
file-first = Moved first
first-axis = { $first ->
    [worst] the axis furthest out
    [nod] nod
   *[side] side to side
}
file-loosen = Bolts are loosened
file-plan = Steps
plan-quick = what tells nothing new is left out
plan-sure = every move and tightening is checked, every sweep read back
loosen-one = one axis at a time
loosen-both = both axes at once
file-verdict = Verdict
file-rule-simple = simple: the number as it is, { $together }
file-rule-guarded = guarded: { $sure } sure, { $together }
together-each = each axis by itself
together-jointly = both axes at once
together-vector = the length of the lean against one limit
file-audit-every = Audits
file-limit = Tolerance
limit-one-sided = { $place } low by { $limit } over { $over } at most, never the other way
limit-two-sided = { $place } low by { $limit }, { $other } low by { $low } at most, over { $over }
file-tolerance = Tolerance from
tolerance-of-file = this machine's file
file-wanted-lean = Wanted lean
file-pivot = Pivot
pivot-at = { $away } away, { $up } up
file-coupling = The other axis follows by
follows-besides-ram = { $share }, besides what the ram's angle makes of it
file-adjuster = Adjuster
adjust-worm = worm
adjust-rack = rack
adjust-hand = by hand
adjust-shim = shims
adjust-none = none: only reported
finish-raising = finishing with the { $place } rising
a-turn-is = a turn is { $lean }
backlash-is = backlash { $by }
bolts-apart = bolts { $by } apart
shims-there-are = those there are: { $all }
shims-by-step = in steps of { $by }
file-tightening = Tightening
tighten-unwatched = not watched bolt by bolt
tighten-watched = { $bolts }; { $passes ->
    [one] once
   *[other] { $passes } times round
 }, each moving it { $most } at most
file-slots = Slots in the table
slots-are = { $count }, { $wide } wide, { $apart } apart, { $runs ->
    [left-right] left to right, the frontmost
   *[front-back] front to back, the leftmost
 } { $start } from the spindle; kept clear of by { $clear }
file-z = The contact is brought down
down-knee = by raising the knee
down-quill = by the quill
down-powered = by a powered head
file-drawbar = Drawbar
drawbar-hand = by hand
drawbar-powered = powered
file-brake = Spindle brake
brake-none = none
brake-hand = by hand
brake-spring = by a spring: it holds with power off
file-air = Compressed air
air-to-be-vented = to be vented
air-none = none
file-people = At the machine
people-one = one
people-two = two, a lock each
file-after-crash = Bolts after a crash
file-torque = Torque
torque-none = none given
file-uncertainty = Uncertainty
file-uncertainty-note = How far each may be off. What a file leaves out is common practice, no source.
file-repeatability = One reading, between visits
assumed-until-seen = { $u }, assumed until visits tell
worth-dof = { $u }, worth { $dof } degrees of freedom
file-wedge = Wedge
file-seating = Seating
file-flatness = Flatness along the circle
file-flatness-by-seat = { $ring } on a ring or plate, { $table } on the table
file-drift = Drift that may come and go unseen
file-axial = Spindle, once a turn
file-axial-changes = Its change in a year
file-friction = Friction
file-local-error = Gauge, over a short span
a-fifth-of-the-error = a fifth of the gauge's permissible error, less half a digit
file-scale = Gauge's scale
kelvins = { $of } degC
file-temperature = One side of the ring warmer
file-thickness = Ring's thickness
file-parallel = Plunger to spindle
file-condition = Swept in this state
file-work = Work
file-no-work = The file names no cutter and no work: a lean is not told by what it does.
file-cutter = Face mill
file-cut-width = Strip it cuts
file-pass-step = From pass to pass
file-hole-depth = Hole drilled with the quill
file-bore = Bore, raising the table
file-feed = Passes run
feed-across = left to right
feed-along = front to back

## The shop on paper: what its file says for reports, and the papers of its tools and rings

shop-on-paper = The shop on paper
file-shop-name = Name
file-address = Address
file-method = Method
method-revision = { $method }, revision { $revision }
file-customer = Customer
file-time-zone = Time zone of dates on paper
file-paper = Paper
file-digest = SHA-256 of these files
file-tools = Tools and rings
file-asset = Number in the shop
file-place = Stands
file-thermometer = Its thermometer
a-tool = { $tool ->
    [wrench] Torque wrench
   *[thermometer] Thermometer
 } { $number }
tool-named = { $say }, number { $number }
certificate-is = certificate { $number }
laboratory-is = { $name }
calibrated-on = calibrated on { $day }
good-until = good until { $day }
no-papers = no papers named

## Reports that go out by themselves once an audit is signed

on-signing = When an audit is signed
to-folder = Reports go into
to-address = A note goes to
way-is-well = { $to }: everything is there
way-owes = { $to }: { $count ->
    [one] one is on its way
   *[other] { $count } are on their way
 }
way-fails = { $to }: { $count ->
    [0] nothing waits for it.
    [one] one did not come through yet, and it is tried again.
   *[other] { $count } did not come through yet, and it is tried again.
 } { $why }
folder-not-there = There is no folder { $folder }: is its disk plugged in?
folder-does-not-take = { $folder } takes nothing ({ $why }).
address-not-reached = Nobody answers at { $host } ({ $why }).
address-refused = { $host } answered with status { $status }.
to-broker = A broker is told
broker-messages = As it happens
broker-not-yet = { $host } was not reached yet.
broker-gone = { $host } was there and is not any more ({ $why }).
broker-refuses = { $host } refuses the connection ({ $why }): look at user and password.
broker-silent = { $host } does not say that it has what was sent.
file-not-usable = { $file } cannot be used ({ $why }).
password-open = { $file } can be read by others on this computer; allowed: its owner alone (chmod 600)
not-delivered-of-itself = What row { $row } delivers could not be made ({ $why }): see the log.

## What was learned of a head

learned = Learned of this head
learned-nothing = Nothing yet: the next audit starts from the file.
learned-of-another-ram = The file says something else of the head or the ram than when this was learned: the next audit starts from the file.
learned-from = From { $audits ->
    [one] { $audits } audit
   *[other] { $audits } audits
 }; after ± the standard uncertainty.
learned-pivot = { $axis }: pivot acts at
learned-coupling = { $axis }: the other axis follows by
learned-tightening = { $axis }: tightening shifts it by
learned-no-tightening = none seen yet
learned-rest = { $axis }: let go, the parked number goes back by
learned-no-rest = not seen yet
learned-back = { $back }, until it is tight by { $later } more, from { $n }
learned-stop = { $axis }: turns end past the stop-at by
learned-no-stop = none seen yet
learned-past = { $past }, within ± { $apart } of it as a rule, from { $n }
learned-shift = { $shift } over { $over }, from { $n }

## The ledger: what is wrong with its file, its disk or its rows; also told by `ledger verify`
no-such-audit = it has no audit { $audit }
several-audits = { $asked } is more than one audit: { $these }{ $more ->
    [yes] { " " }and more
   *[no] { "" }
 }

of-file = { $path }: { $say }
with-why = { $say } ({ $why })
disk-is-full = the disk is full
disk-is-read-only = the disk is read-only
disk-does-not-answer = the disk does not answer
disk-reported-an-error = the disk reported an error
room-left = { $left } MB left on the disk; wanted: { $wanted } MB
file-is-read-only = the file or its disk is read-only
file-is-busy = another program is writing to the file
file-is-damaged = the file is damaged
file-is-no-ledger = the file is damaged or is no ledger
file-cannot-be-opened = the file cannot be opened
file-out-of-place = the file is { $how ->
    [gone] gone
   *[another] no longer the one this service opened
 }; stop the service, put the ledger back and start
file-ends-elsewhere = the file no longer ends at row { $seq } as this service left it; restart the service so that it reads what is there
ledger-is-closed = the ledger is closed
database-refused = the database refused
database-of-others = this is a database, but not a ledger
not-a-ledger = this is not a ledger
no-ledger-here = there is no ledger here
other-format = the ledger has format { $found }; this headsweep reads format { $reads }
object-amiss = the database's own { $name } is { $how ->
    [missing] missing or altered
   *[foreign] not part of a ledger
 }
pages-but-no-tables = the file is damaged (it has pages, but no tables)
log-holds-rows = the file is empty or gone, but { $log } still holds rows
begun-ledger-gone = the file is empty or gone, but ledger { $known } was begun in this folder; put it back from a copy, or use another folder
other-ledger-begun = this is ledger { $found }, but ledger { $known } was begun in this folder; put that one back, or use another folder
left-as-it-is = { $fault }; the file was left as it is
not-durable = found journal mode { $mode }, synchronous { $synchronous }; allowed: wal, { $full } (does this file system support shared memory and locks?)
sqlite-too-old = SQLite { $found } can lose committed rows; allowed: { $oldest } or newer (upgrade the apsw package)
not-open-for-writing = cannot be opened for writing
folder-in-use = another headsweep has this data folder open; allowed: one at a time
stop-the-service-first = { $why }. Stop the service first, then check the gauge.
folder-exists = exists already; allowed: a new folder
folder-not-empty = is not empty; allowed: a new folder, or an empty one
ledger-is-here = there is a ledger here already; allowed: a new folder, or an empty one
nothing-is-here = there is nothing here; allowed: the folder of a copy, or the file of an export
cannot-be-read = cannot be read
no-line-of-an-export = line { $line } is none of an export
folder-not-written = cannot be written
copy-not-sound = the copy is not sound: { $why }
nobody-has-the-id = nobody has the id { $id }
none-altered = { $rows } rows, none altered; head { $head }
ledger-is-sound = the ledger is sound: there is nothing to carry on from
row-of-release = ledger row { $row }: found { $type } of version { $found }, which { $age ->
    [older] an older
   *[newer] a newer
 } release wrote; allowed: version { $allowed }
row-unknown = ledger row { $row }: found { $type }; allowed: { $known }
row-not-open = ledger row { $row }: found { $type } for audit { $audit }, which is not open on { $machine }
ledger-has-no-rows = the ledger has no rows, not even its first
row-cannot-be-read = row { $seq } cannot be read
row-is-unreadable = row { $seq } cannot be read: { $why }
row-holds-no-event = row { $seq } is altered: it holds no event
row-is-missing = row { $seq } is missing
row-was-slipped-in = row { $seq } was slipped in before row { $want }
row-is-altered = row { $seq } is altered: its hash does not follow from what is stored
row-out-of-place = row { $seq } is out of place: it was written as row { $was }
row-of-another-ledger = row { $seq } belongs to another ledger, { $ledger }
row-and-why = row { $seq }: { $why }
row-misnames-evidence = row { $seq }: found { $found }; allowed: a SHA-256 as 64 lower-case hex digits
other-hash-noted = row { $seq } has hash { $found }, but { $noted } was noted down
later-row-noted = the ledger ends at row { $seq }, but row { $noted } was noted down
row-behind-evidence = row { $seq } stands behind the evidence
noted-in-file = { $say }, in { $file }
evidence-not-there = evidence { $digest } is not in the ledger
evidence-is-damaged = evidence { $digest } is damaged
evidence-let-go = evidence { $digest } was let go, as row { $row } says
let-go-by-none = row { $seq }: { $why }; but that row says no such thing
no-date-to-let-go-by = no time server has set this computer's clock: which samples are old is not known
let-go-meanwhile = evidence was let go meanwhile, as row { $row } says; export it again
let-go-otherwise = row { $seq } let evidence go, but not what the file lists: found { $found }

## Anchors gathered from reports and exports

anchors-found = anchors of this ledger: { $anchors }, in { $files } of { $looked } files looked at
anchors-contradict = { $n ->
    [one] 1 file contradicts
   *[other] { $n } files contradict
 } this ledger: { $names }
anchors-of-others = { $n ->
    [one] 1 file names
   *[other] { $n } files name
 } another ledger alone: { $names }
anchors-unread = { $n ->
    [one] 1 file was
   *[other] { $n } files were
 } not looked through: { $names }

## The page where a stranger checks an export

export-title = Check an export
export-intro = This page finds out whether an export of a headsweep record is as it was written. It sends nothing anywhere, and works as well when saved and opened from a disk.
export-file = The export
export-file-why = A file of lines, as headsweep ledger export prints it. Choose it, or drop it here.
export-papers = Reports and other exports of the same record
export-papers-why = If you have any. Each bears the hash of a row; a spreadsheet's is read by headsweep ledger verify alone.
export-noted = Hashes from paper
export-noted-why = If you have any: ROW:HASH, at least 8 digits of the hash.
export-noted-wrong = Found { $found }; allowed: ROW:HASH, such as 41:9f86d081884c7d65.
export-key = The shop's public key
export-key-why = If you were given one: 64 digits. Every signed audit must then be signed by it.
export-key-wrong = Allowed as a key: 64 digits (0-9, a-f).
export-start = Check
export-progress = How much was read
export-reading = { $share } % read, row { $row }
export-none-chosen = Choose an export first.
export-not-done = Not checked
export-no-export = No export
export-no-export-say = { $file } is not what headsweep ledger export prints.
export-sound = Sound
export-not-sound = Not sound
export-first-bad = First bad row
export-ledger = Ledger
export-rows = Good rows
export-head = Hash of the last of them
export-evidence = Samples
export-evidence-of = { $here } of { $named } pieces are here and as they were; { $gone } were let go on purpose
export-no-evidence = not in this file: its rows name { $named } pieces
export-anchors = Hashes from elsewhere
export-no-anchors = none of this ledger: nobody can tell here whether its end was cut off
export-anchors-of = { $ours } of this ledger, of { $all } found in { $files } files and on paper
export-signatures = Signatures by a key
export-shows = What this shows
export-shows-chain = Each row's hash is made of its text and the hash before it. So no row was altered, left out or put in, unless all rows after it were written anew.
export-shows-anchor = A hash kept elsewhere shows that the rows up to it are the ones of that day. Without one nobody can tell whether the end was cut off or all of it written anew.
export-shows-key = A signature by the shop's key shows that whoever has the key put that audit on record.
export-shows-not = None of it shows that what a row says is true. This page is only as good as where you have it from.

## The shop's key

attests-nothing = row { $seq } is a signature by a key, but does not say of what
attests-no-such-row = row { $seq } is a key's signature under row { $row }, but no signed audit stands there with that hash
attested-by-other = row { $seq }: row { $row } is signed by another key, { $key }
attested-falsely = row { $seq } is no signature of its key under row { $row }
attested-by = signed audits: { $n } of { $of } signed by key { $key }
attested-by-none = signed audits: { $n } of { $of } signed by no key, the first in row { $row }
key-is-there = { $file } is there already; allowed: one key, which is never overwritten
key-unread = { $file }: the shop's key cannot be read ({ $why })
key-open = { $file } can be read by others on this computer; allowed: its owner alone (chmod 600)
key-made = Made: { $file }. It signs each audit from the service's next start on, those signed before too. Nothing copies it: neither backup nor export.
key-on-paper = To be kept on paper, away from here: headsweep-key { $key } ({ $short })

## A data folder that cannot be used: short enough for the wall

no-record = { $because ->
    [full] The record's disk is full
    [closed] The record cannot be written to
    [gone] The record is gone
    [foreign] This is not this shop's record
    [memory] The record would go with the power
    [damaged] The record is damaged
    [people] Who may work here is not known
   *[other] The record cannot be opened
 }
no-record-do = { $because ->
    [full] Make room on the Pi's disk: it goes on by itself.
    [closed] The Pi's disk takes no writing: have it looked at.
    [gone] Put it back where it was, or plug its disk in: it goes on by itself.
    [foreign] Put the right one back. Nothing was touched.
    [memory] Its folder lies in the Pi's memory: keep it on a disk.
    [damaged] It was left as it is. Put a copy back, or have a new one begun.
    [people] The record is left as it is. Setup says what to do.
   *[other] Setup says more.
 }
no-record-why = { $what }: { $why }
no-record-look = What is loose, or in the spindle, is not known here: look before the power comes back.
no-stick-there = lies in memory, and a copy there is gone with the power: is its disk mounted?
data-in-memory = the folder lies in memory ({ $kind }) and is gone with the power; keep the record on a disk, or allow it with --data-in-memory

## The doctor: what it looked at, what it found, what to do

doctor-about = { $it ->
    [backup] Backup
    [captures] Learned gauges
    [card] Card
    [clock] Clock
    [config] Shop's files
    [disk] Disk
    [gauges] Gauges
    [groups] Groups
    [ledger] Record
    [ports] Ports
    [screens] Screens
    [service] Service
    [supply] Supply
    [temperature] Temperature
    [units] Units
    [versions] Versions
    [watchdog] Watchdog
   *[other] { $it }
 }
doctor-fine = fine
doctor-look-here = LOOK HERE
doctor-no-end = not done within { $seconds } s
doctor-broke-off = this look broke off: { $error }
doctor-look-again = Run headsweep doctor once more. If it says so again, look at the disk and its cable.
doctor-not-allowed = this user may not read { $file }
doctor-ask-as-root = Run it as root: sudo headsweep doctor.
doctor-no-backup = the record was never copied to anywhere else
doctor-nothing-to-copy = there is no record to be copied yet
doctor-backup = copied to { $to } { $days ->
    [0] today
    [one] yesterday
   *[other] { $days } days ago
 }, { $new ->
    [0] nothing new since
    [one] one new row since
   *[other] { $new } new rows since
 }
doctor-make-backup = Plug in a drive whose file system is called HEADSWEEP, or copy it by hand: headsweep ledger backup --data { $data } --to FOLDER.
doctor-card-silent = { $card } does not tell how worn it is
doctor-card = { $card } has used up to { $used } % of its life
doctor-change-card = Make a backup now, and put the system on another card.
doctor-own-clock = a clock of its own keeps the time without power
doctor-no-own-clock = without power it keeps no time, and asks a server after each start
doctor-clock-set = set by a time server; { $own }
doctor-set-clock = Have it set: sudo timedatectl set-ntp true.
doctor-reach-server = Connect it to a network where it reaches a time server, or give it one with a battery clock.
doctor-files = { $folder } has { $machines ->
    [one] one machine
   *[other] { $machines } machines
 } and { $gauges ->
    [one] one gauge
   *[other] { $gauges } gauges
 } in use
doctor-no-folder = there is no folder { $folder }
doctor-name-config = Name the folder with shop.toml with --config.
doctor-empty-shop = { $folder } holds no shop yet
doctor-set-up = On a phone, open headsweep's first page and press "{ set-up-go }".
doctor-mend-file = Mend that file; the example beside it explains each key. Then press "{ set-up-anew }" on the set-up page, or: sudo systemctl restart headsweep.
doctor-disk-errors = { $disk }: its file system has met { $errors ->
    [one] one error
   *[other] { $errors } errors
 }
doctor-check-disk = Make a backup now; then have the disk checked at a start (fsck), or change it.
doctor-room = { $gb } GB free for { $folder }
doctor-make-room = Make room, or get a larger disk; headsweep ledger let-go frees what samples take.
doctor-keep-on-disk = Have { $folder } on a disk that lasts; hardware/README.md says how, where the system's own is read only.
doctor-gauges-unknown = not asked, since the service is not running, or may not be asked by this user
doctor-ask-again = See to the service first, then run headsweep doctor again.
doctor-gauge-heard = { $gauge } is heard
doctor-gauge-not-heard = { $gauge } is not heard ({ $code })
doctor-mend-gauge = See to its cable and supply; the setup page shows what comes from { $gauge }.
doctor-compare-face = Compare the gauge's face with the number on the page before anything is measured with { $gauge }. Where they differ, learn it anew, or put its file back as it was.
doctor-no-capture = Put { $file } back from a copy. The gauge works without it; only this look cannot be taken.
doctor-no-gauge = no gauge is read: no machine names one
doctor-name-gauge = Connect one under "{ set-up-go }", or by headsweep gauge learn; then name it in a machine's file.
doctor-user-unknown = it is not known as whom the service runs
doctor-no-group = { $user } is not in the group { $group }, and may not use { $device }
doctor-add-group = sudo usermod -a -G { $group } { $user }, then sudo systemctl restart headsweep.
doctor-groups = { $user } may use ports and pins ({ $groups })
doctor-name-data = Name the folder of the record with --data; the service makes it when it starts.
doctor-no-record = { $data } holds no record yet
doctor-rows-whole = { $rows ->
    [one] one row, as it was written,
   *[other] all { $rows } rows, as they were written,
 } since { $since }
doctor-rows-seen = { $seen } of { $rows } rows since { $since } looked at, as they were written; all of them take about { $minutes } min (headsweep ledger verify)
doctor-verify = headsweep ledger verify --data { $data } says more; then restore a backup, or carry on.
doctor-sealed = sealed up to row { $row }: a start reads what came after it
doctor-no-seal = no seal that fits: the next start takes longer, since it reads every row
doctor-no-port = no serial port is plugged in
doctor-port = { $port } is the port of { $gauge }
doctor-port-gone = { $port } of { $gauges } is not there
doctor-plug-in = Plug its cable in; headsweep gauge list names the ports there are.
doctor-port-held = { $port } is open in { $name } (process { $pid })
doctor-end-other = End it, and see to it that it does not start again: it takes the gauge's bytes. sudo kill { $pid }
doctor-port-twice = { $port } is named by the files of { $gauges }, which do not go together on one port
doctor-own-port = Give each gauge's file a port of its own, or the same [line] and frames that tell whose they are.
doctor-port-unnamed = { $port } is named by no gauge's file
doctor-name-socket = Name each of them by its socket: a name under /dev/serial/by-path in the gauge's file.
doctor-screens = { $n ->
    [0] none is open
    [one] one is open
   *[other] { $n } are open
 }, { $most } at most
doctor-close-screens = Close pages that nobody looks at; another one finds no place.
doctor-wall-blank = the wall's browser runs and has no page open
doctor-restart-wall = sudo systemctl restart { $unit }
doctor-service-runs = runs, goes round and records
doctor-service-not-running = it is not running
doctor-start-service = sudo systemctl start headsweep; what keeps it from that is in sudo journalctl -u headsweep.
doctor-service-silent = { $name } (process { $pid }) has the record, and cannot be asked
doctor-thread-still = these parts stand still: { $threads }
doctor-thread-dropped = these parts are told no more of the record: { $threads }
doctor-restart-service = sudo systemctl restart headsweep, once nobody is at the machine.
doctor-not-recorded = nothing is recorded for { $machine }: { $say }
doctor-see-record = See what is said of disk and record here.
doctor-supply-unknown = this computer cannot tell
doctor-supply-well = holds its voltage, and did since the start
doctor-supply-low = its voltage is too low now
doctor-supply-was-low = its voltage was too low once since the start
doctor-mend-supply = Use the supply made for this computer and a short, thick cable, and take loads off its USB.
doctor-no-thermometer = this computer cannot tell
doctor-warm = { $degrees } °C; it is too warm from { $limit } °C on
doctor-cool = Give the computer air: free its slots, or take it away from the drive and out of the sun.
doctor-not-installed = nothing starts headsweep by itself after a power cut
doctor-install = From a clone of the project: sudo sh hardware/install.
doctor-unit = { $unit } is up{ $again ->
    [0] {""}
    [one] , started anew once
   *[other] , started anew { $again } times
 }
doctor-unit-failed = { $unit } failed
doctor-read-log = sudo journalctl -u { $unit } -n 50 says why.
doctor-unit-disabled = { $unit } does not come up by itself
doctor-enable-unit = sudo systemctl enable --now { $unit }
doctor-unit-idle = { $unit } is not running
doctor-start-unit = sudo systemctl start { $unit }
doctor-versions = headsweep { $headsweep }, Python { $python }, SQLite { $sqlite }, Linux { $kernel }, { $system }
doctor-packages = { $packages }
doctor-packages-missing = these packages are not there: { $packages }
doctor-install-anew = Install it anew: sudo sh hardware/install.
doctor-unwatched = nobody starts the service anew should it hang
doctor-not-by-unit = the service was started by hand, and nobody starts it anew should it hang
doctor-start-by-unit = End it, then: sudo systemctl start headsweep.
doctor-watched = the service is started anew when it is silent for { $within }
doctor-no-hardware-watchdog = this computer has none of its own
doctor-hardware-watchdog-off = this computer has one of its own, and it is off
doctor-set-hardware-watchdog = Set RuntimeWatchdogSec=15s in /etc/systemd/system.conf, and start the computer anew.
doctor-hardware-watchdog = the computer starts anew when it hangs for { $within }

## How long the disk lasts

room-lasts = { $free }, enough for { $days ->
    [one] { $days } day
   *[other] { $days } days
 } at the pace of the last weeks
room-soon-gone = The disk is full in about { $days ->
    [one] { $days } day
   *[other] { $days } days
 }, at the pace of the last weeks: make room.

## The Pi's clock

clock-unsure = No time server has set the Pi's clock: today's date, { $today }, may be wrong.
clock-behind = The Pi's clock is wrong: it says { $today }, and the record goes up to { $day }.
clock-was-set = The Pi's clock was set { $way ->
    [back] back
   *[on] on
 } by { $by }: what was dated before it may be dated wrong.
so-long = { $n } { $of ->
    [days] days
    [hours] hours
    [minutes] minutes
   *[seconds] s
 }
due-by-unsure-clock = No time server has set the clock: today's date may be wrong.

## After a run that was cut off: what happened, and what the doctor found since

cut-off = { $how ->
    [power] The Pi went off
    [killed] headsweep was cut off
   *[unclear] The Pi or headsweep was cut off
 }{ $at ->
    [unknown] {""}
   *[other] {" "}soon after { $at }
 }.
cut-off-looking = { $what } On again; looking it over.
cut-off-fine = { $what } On again, all is fine.
cut-off-look = { $what } On again. Look at: { $at }.
so-many-more = { $n } more
cut-off-read = I have read it
cut-off-gone = It is taken from all screens.
aria-cut-off = Since the last start

## Recording, and what the service itself says of a press

no-answer = NO ANSWER from recording: what is pressed now may not be kept.
screens-stand-still = SCREENS STAND STILL: they do not follow. Restart headsweep.
recording-failed = NOT RECORDED: { $why }
recording-fails = NOT RECORDED from now on: { $why }
disk-nearly-full = The disk is nearly full: { $why }
record-under-check = The record is being checked from its first row on: { $share } % done.
check-broke-off = its check broke off ({ $error })
sealed-otherwise = { $path }: { $seal } says something else than rows 1 to { $n } come to; stop the service and start it again: it then reads every row
stopping = The service is stopping.
service-silent = The service does not answer; nothing is known to be recorded.
was-not-recorded = Not recorded: { $why }
was-not-known = Not known whether recorded: { $why }
others-first = Not recorded: what the gauge did meanwhile has to be recorded first.
not-for-people = '{ $kind }' is for the service itself to notice.
changed-meanwhile = Something changed since that screen was drawn: look again.
signed-after-that = { $wait } It can be signed after that.
went-to-zero-meanwhile = It went to zero while it was read: look again.
zeroed-meanwhile = Zeroed while it was read: look again.
cannot-be-written = This cannot be written down: { $error }
id-used-before = Command id { $id } was used before, for something else.
reading-under-way = A reading is being taken: hold still.
of-second-gauge = The second gauge: { $why }
no-first-button = There is no first button now: answer on the console.
done-on-the-console = { $button }: that is done on the console.
nothing-to-undo = There is nothing to take back.
no-reading-wanted = No reading is wanted { $place } now.
press-key-in-all = Press the gauge's key, { $presses } times in all…

## The practice mill's record

practice-full = The practice record is full. Stop the demo and start it again: it then begins anew.

## The practice mill and its panel

panel-place = { CAP($place) }
panel-set = Set the contact down
panel-free = Lift the contact
panel-ring = Turn the ring half round
panel-wipe = Lift the ring, wipe it, lay it back
panel-arm = Clamp the arm the other way round
panel-push = Push the contact
panel-flick = Flick the arm
panel-zero = Press zero
panel-unit = Press the unit button
panel-spindle = Spindle to { $to }°, gauge { $at } mm below the nose
panel-table = Table to X { $to } mm
panel-jaw = Contact on the vise's jaw, { $to } mm from its left end
panel-tap = Tap the vise { $way ->
    [away] away from
   *[toward] toward
 } the gauge, { $much ->
    [a-lot] a lot
   *[a-touch] a touch
 }
panel-loosen = Loosen the { $axis ->
    [side] side-to-side
   *[nod] nod
 } bolts
panel-tighten = Tighten the { $axis ->
    [side] side-to-side
   *[nod] nod
 } bolts
panel-bolt = Pull up { $axis ->
    [side] side-to-side
   *[nod] nod
 } bolt { $bolt }
panel-turn = Turn the { $axis ->
    [side] side-to-side
   *[nod] nod
 } adjuster: { $lower } lower, { $much ->
    [a-lot] a lot
   *[a-touch] a touch
 }
panel-bump = Knock into it
panel-reset = Throw it out of square
panel-unplug = Pull the cable
panel-replug = Put the cable back
panel-fault = { $name ->
    [junk] Junk before each frame
    [truncated] Break off some frames
    [garbage] Nothing but garbage
    [stuck] Stay at this number
    [silent] Fall silent
   *[none] Mend the wire
 }
panel-group = { $group ->
    [nod] Nod
    [side] Side to side
    [gauge] Gauge and head
    [stations] Other checks
   *[trouble] Trouble to practise on
 }
panel-loose = { $axis ->
    [side] side to side
   *[nod] nod
 }
panel-bolts = { $n ->
    [0] All bolts are tight.
   *[other] Loose: { $loose }.
 }
panel-says = { $where ->
    [swinging] The gauge is swinging
    [bar] The gauge stands beside a bar in the spindle
    [edge] The gauge stands on an edge on the table
    [jaw] The gauge stands on the vise's jaw
   *[place] The gauge stands at the { $where }
 }, { $contact ->
    [free] contact in the air
   *[set] contact on the surface
 }. { $bolts }{ $cable ->
    [out] {" "}The cable is out.
   *[in] {""}
 }{ $fault ->
    [junk] {" "}Trouble on the wire: junk.
    [truncated] {" "}Trouble on the wire: truncated.
    [garbage] {" "}Trouble on the wire: garbage.
    [stuck] {" "}Trouble on the wire: stuck.
    [silent] {" "}Trouble on the wire: silent.
   *[none] {""}
 }
## Lessons on the practice mill, and their score

lessons-title = Lessons
lessons-is = eight lessons, and a score for your workmanship
lessons-page = { $machine }: lessons
lessons-how = Each begins with the mill standing as it must. Do as the console says; what you do is counted from what the mill truly did. Practice only: no real job has a score.
lesson-learner = Whose run is this? (nobody need say)
lesson-begin = Begin
lesson-over = Beginning gives up an audit that is open.
lesson-next = Another lesson was begun.
lesson-go = Go to the bench
lesson-drawn = Drawn { $farther } times too far out: what is in tolerance cannot be seen here. The gauge tells.
lesson-at-hand = What hands do now
lesson-picture = The head as you stand before it, its spindle, and the gauge over the ring
class-title = Class
class-says = For whoever teaches. The truth stays covered until you show it.
class-set = Set an error you know
class-side = Right end low, mm across the sweep (minus: left)
class-nod = Front low, mm across the sweep (minus: back)
class-for-next = Stand anew for the next learner
class-none = Nobody has begun yet.
class-show-all = Show the truth of all
class-learner = Learner
class-score = Workmanship
truth-show = Show the truth
truth-title = The truth
lost-title = Points lost
lost-none = Not a point lost.
lost-points = { $points ->
    [one] 1 point
   *[other] { $points } points
 }
lost-row = row { $row }
run-of = { $learner ->
    [nobody] Run { $nth }
   *[other] { $learner }
 }
lesson = { $lesson ->
    [two-spots] Two-spot check
    [worse-first] The worse axis first
    [tightening] Tightening pulls
    [way-round] The way round
    [zeroed] Somebody zeroed it
    [off-scale] Off the scale
    [chip] A chip under the ring
    [stiff] A stiff head
   *[known] A known error
 }
lesson-aim = { $lesson ->
    [two-spots] After a turn read both ends of the axis, and only then pull up its bolts.
    [worse-first] Turn the axis that is further out first: the other one follows it a little.
    [tightening] Find out what pulling up does to this head, and let the next stop-at allow for it.
    [way-round] Go round as the console calls the spots, wherever the arm hangs when you come.
    [zeroed] When the number jumps and nobody moved the head, say what happened, and read again.
    [off-scale] Where the gauge cannot reach, say so. Bring the head closer by hand before you read.
    [chip] When readings do not fit together, lift the ring and wipe it before you believe them.
    [stiff] The slack is large: come to the stop slowly, always from the same side.
   *[known] Square a head that somebody else has set.
 }
lesson-state = { $state ->
    [open] under way
   *[given-up] given up
 }
workmanship = Workmanship { $score } of { $whole }
truth-axis = { $axis ->
    [nod] Nod
   *[side] Side to side
 }: at first { $began } mm { $began_low ->
    [right] with the right end low
    [left] with the left end low
    [back] nodded up
   *[front] nodded down
 }, as signed { $left } mm { $left_low ->
    [right] with the right end low
    [left] with the left end low
    [back] nodded up
   *[front] nodded down
 }, over { $over } mm. Allowed { $limit } mm.
lost = { $why ->
    [move] Move { $nth }, where { $fewest } would have done
    [out] Signed with { $axis ->
        [nod] the nod
       *[side] side to side
     } truly out: { $times } times what is allowed
    [spot] Read for the { $called }, while the gauge { $stood ->
        [air] hung in the air
        [elsewhere] was on its way
       *[other] stood at the { $stood }
     }
    [refused] A take that was refused
    [both-loose] Both axes' bolts loose at once: nothing held the head
    [knocked] Knocked into arm and head
    [swept-loose] A full sweep with bolts loose
    [not-tight] Said to be tight, and not pulled up all the way: { $axis ->
        [nod] the nod bolts
       *[side] the side bolts
     }
    [not-loose] Said to be loose, and tight: { $axis ->
        [nod] the nod bolts
       *[side] the side bolts
     }
    [denied] A zero that was pressed was denied
    [unread] Bolts pulled up before both ends were read
    [lesser] Turned first: { $axis ->
        [nod] the nod
       *[side] side to side
     }, though the other was clearly worse
    [on-chip] Turned by readings taken with a chip under the ring
    [to-and-fro] An adjuster turned to and fro
   *[slow] { $times } times as long as it usually takes
 }
learner-not = learner: found { $found }; allowed: up to { $most } letters that can be printed
none-of-these = { $name }: found { $found }; allowed: { $allowed }
no-number-within = { $name }: found { $found }; allowed: a number from { $low } to { $high }

## Learning a gauge by its face

learn-leave-free = Leave the contact free and untouched for now. Keep hands away from a spindle that can turn.
learn-silent = Nothing comes by itself: it will be asked.
learn-tried = Try { $nth } of { $of }: { $line }  { $text }  (Enter: go on to the next)
learn-no-answer = It answers none of the requests.
learn-press-key = Press the gauge's key about once a second until you are told to stop. Enter to begin.
learn-press-once = Now press the gauge's key once, as for a reading. Enter to begin.
learn-understood = It is understood at { $line }.
learn-face-free = The contact is free. What does the gauge's face show, with its unit, such as -0.123 mm?
learn-face-pushed = Push the contact in a good way and hold it there, best on a gauge block. What does the face show?
learn-face-minus = Now hold it where the face shows the other sign: a minus, or else another number. What does it show? (Enter: it cannot)
learn-face-elsewhere = Once more: hold it anywhere else. What does the face show?
learn-face-again = What came does not hold { $face }. Hold it still, look again: what does the face show now?
learn-no-number = "{ $typed }" is no number with a unit. Type what the face shows, such as -0.123 mm or 0.0485 in.
learn-hold = Hold it a moment more.
learn-hold-on = Hold it: { $nth } of { $of } ({ $line }).
learn-hold-press = Hold it there, and press the gauge's key about once a second until you are told to stop. Enter to begin.
learn-work = Thank you. Now work the contact slowly in and out until you are told to stop: the number below should go along with the face.
learn-tried-out = Its file was tried: { $good } good frames, { $bad } bad. You may let go.
learn-travel = How far can the contact move, by its papers, such as 12.7 mm? (Enter: not known)
learn-speed = Which speed does its manual name, such as 9600? (Enter: not known)
learn-no-answer-that = "{ $typed }" is no answer to that. { $asked }
learn-name = What is it called? (Enter: say it later, in the file)
learn-serial = What is the number on its housing? (Enter: later)
learn-kind = Is it a plunger or a lever? (Enter: plunger)
learn-resolution = By how much does its last digit go on, by its papers, such as 0.0005 mm or 0.00005 in? (Enter: by one)
learn-max-error = How much may it be wrong over its whole travel, by its papers, such as 0.004 mm? (Enter: later)
learn-due = Until when is its calibration good, as year-month-day? (Enter: later)
learn-file = { $text }
learn-not-written = Not written to a file: say where with -o.
learn-written = Written to { $file }; the bytes it was learned from are beside it, in { $kept }. Look it through, then listen with it.
learn-missing = Still missing in it: { $keys }. Nothing runs with it before they are put in.
learn-nobody = Nobody types what the face shows: nothing is written.
learn-nothing-came = Nothing came, at any usual speed: is the gauge on, is its cable in, and what does its manual say about requests (--request)?
learn-not-pushed = The face hardly changed between free and pushed: nothing is written. Learn again, and push the contact in by a millimetre or so.
learn-no-fit = No way was found in which what came says what the face showed. Nothing is written: was each number typed with the contact still, and as it stood there? Else describe the frames by hand, as in example-fields.toml, with its manual.
learn-unasked = Tried with its file, it sent { $n } frames that were not asked for: it streams, or answers more than once. Nothing is written.
learn-file-reads-badly = Tried with its file, at last { $good } good and { $bad } bad frames came: the file does not read it well. Nothing is written; learn again.
learn-step = Step { $step } of { $of }: { $step ->
    [1] what its manual says
    [2] listening
    [3] its face, the contact free
    [4] its face, the contact held
   *[5] what its papers say
 }
learn-over = The learning is over
learn-none-fits = Learn a gauge that none of these reads
learn-says = Choose its port above. headsweep listens there, you type what the gauge's own face shows, and its file is written once both say the same. Set its zero a little inside its travel, so that a push passes through it.
learn-sends = How it sends its number
learn-sends-itself = by itself, or nobody knows
learn-sends-key = when its key is pressed
learn-sends-asked = when it is asked
learn-request = What its manual says it is asked with, such as R\r
learn-begin = Learn this gauge
learn-believed = By what comes, its face shows
learn-send = That is it
learn-without = Go on without
learn-ready = Begin
learn-sign = + / −
learn-skip = Leave this step out
learn-leave = Give it up
learn-under-way = A gauge is being learned there already. Go on with it, or give it up, first.
learn-request-missing = What the gauge is asked with goes with a gauge that is asked, and with no other.
learn-long-answer = { $found } characters; allowed: at most { $most }.
learn-left = Given up. Nothing is written, and the port is free.
learn-failed = Nothing is written: the learning ended by a mistake in the program, which the log names.
learn-keep-again = The disk or the folder does not take its file ({ $why }). What was learned is kept here meanwhile: make room, then try again.
learn-kept = The file { $file } is written; what it was learned from is beside it.
learn-kept-lacks = The file { $file } is written; what it was learned from is beside it. It still lacks { $keys }. No machine can use the gauge before that is put in, here under "{ set-up-change }" or in the file; all else goes on.
capture-differs = { $gauge }: of what it was learned from, number { $nth } was { $was } and reads { $now } now: compare with its face before it is used.
capture-counts = { $gauge }: of what it was learned from, { $was } numbers were read and { $now } are now: compare with its face before it is used.
capture-same = { $gauge }: { $n } numbers as they were learned.

## Setting up a shop from a phone

set-up-title = Set up
set-up-is = Set up: add a gauge or a machine, change a tolerance or a port
set-up-says = A gauge and a machine are all it takes. What is saved here is a commented file that any editor may change.
set-up-missing-here = What is missing:
set-up-lacks = { $what ->
    [shop] the shop's own file, shop.toml
    [gauge] a gauge
    [machine] a machine
   *[amiss] some files have a mistake: Setup says which
 }
set-up-go = Set up the shop
set-up-on-phone = On a phone in the same network open
set-up-then-code = Pair it by the code that then stands here, and press "Set up the shop" on it.
set-up-only-here = Nothing but this computer reaches these pages. So that a phone can, start headsweep with --listen 0.0.0.0:8642.
set-up-no-network = This computer is in no network that a phone could reach it by.
set-up-who = Who sets up?
set-up-who-first = Nobody may set up yet. Whoever puts a name and a PIN here may from now on, and may sign.
set-up-who-then = A person who may set up, by their PIN.
set-up-shop-name = What the shop is called
set-up-your-name = Your name
set-up-new-pin = A PIN of your own: 4 to 12 digits, shown while you type
set-up-next = Go on
set-up-gauge = A gauge
set-up-port = The port its cable is in
set-up-look = Look at the ports again
set-up-no-ports = No serial port is plugged in: is the adapter's cable in?
set-up-own-port = the Pi's own pins
set-up-talks = talks now
set-up-quiet = quiet, or not one of these
set-up-in-use = in use: { $gauge }
set-up-hearing = Listening…
set-up-like = Its numbers come like those of
set-up-shape = { $shape ->
    [text] text, as "+1.2345 in"
    [bcd] decimal digits, half a byte each
    [bits] a count in binary
   *[other] { $shape }
 } ({ $line })
set-up-face = What comes now
set-up-face-asks = Does the gauge's own face show this?
set-up-push-asks = Push the contact in: does the number grow?
set-up-yes-grows = It grows
set-up-no-falls = It falls
set-up-name = Name
set-up-number = Number on its housing
set-up-gauge-called = Gauge
set-up-machine-called = Mill
set-up-papers = What its papers say
set-up-papers-says = What is left empty is missing in its file: no machine can use the gauge before that is put in, here or there. All else goes on.
set-up-paper = { $what ->
    [name] What it is called
    [serial_number] The number on its housing
    [travel] How far the contact can move, such as 12.7 mm
    [max_error] The most it may be wrong over all of that, such as 0.004 mm
   *[calibration_due] The last day its calibration is good
 }
set-up-lacks-papers = { $gauge }: its file still lacks what stands below. No machine can use this gauge before that is put in; all else goes on.
set-up-put-in = Put it in
set-up-kind = Kind
set-up-plunger = plunger: the contact slides along the gauge
set-up-lever = lever: the contact swings
set-up-resolution = One step of its last digit
set-up-save-gauge = The face shows it: save this gauge
set-up-saved = Saved: { $file }
set-up-machine = A machine
set-up-of-gauge = Its gauge
set-up-unit = Lengths in
set-up-tolerance = How square is square enough
set-up-square = { $name }: { $limit } over 300 mm
set-up-seat = What is swept
set-up-side-moved = Moved side to side by
set-up-nod-moved = Nodded by
set-up-moved = { $by ->
    [worm] a worm
    [rack] a rack
    [hand] hand, pushed or tapped
   *[none] nothing: it is fixed
 }
set-up-z = The contact comes down by
set-up-height = { $z ->
    [knee] the knee, raised
    [quill] the quill, fed down
   *[powered] power: head or table are driven
 }
set-up-tape = With a tape; what is left empty the first moves teach
set-up-tape-first = Power off and locked out before you reach in, as the machine's manual and your shop's rules say.
set-up-surface = What is swept: heights are above it
set-up-surface-says = The contact stands on what is swept, which lies on the table.
set-up-radius = From the spindle's axis to the contact
set-up-radius-says = Seen from above: the tape lies from the spindle's axis out to the contact.
set-up-side-pivot = Side to side: from the axis to the pivot, to the left
set-up-side-pivot-says = Seen from the front: the tape lies from the spindle's axis to the pivot, level. Mostly 0.
set-up-side-height = Side to side: the pivot's height
set-up-side-height-says = Seen from the front: the tape stands on what is swept and reaches up to the pivot.
set-up-nod-pivot = Nod: from the axis back to the pivot
set-up-nod-pivot-says = Seen from the right: the tape lies from the spindle's axis back to the pivot, level.
set-up-nod-height = Nod: the pivot's height
set-up-nod-height-says = Seen from the right: the tape stands on what is swept and reaches up to the pivot.
set-up-at-spindle = spindle's axis
set-up-at-pivot = pivot
set-up-at-swept = what is swept
# What the file written so calls things, until the shop puts in words of its own.
surface-named = { $seat ->
    [ring] ground ring on the table
    [plate] ground plate on the table
    [block] one block, moved from spot to spot
   *[table] the table
 }
bolts-named = { $axis ->
    [side] the side bolts
   *[nod] the nod bolts
 }
adjuster-named = the { $axis ->
    [side] side
   *[nod] nod
 } { $moved ->
    [worm] worm
    [rack] rack
    [hand] head, pushed by hand
   *[none] joint, fixed
 }
set-up-save-machine = Save this machine and begin
set-up-change = Change what is there
set-up-change-tolerance = Change the tolerance
set-up-change-port = Change the port
set-up-anew = Read the files anew
set-up-begins-anew = The files are read anew.
set-up-audit-open = An audit is open on { $machines }. What is saved is kept, and read once that audit is signed or abandoned: press "{ set-up-anew }" then.
set-up-mend = How to mend one: open it on the Pi with an editor, such as sudo nano and its path; put right what stands below; save; then press "{ set-up-anew }" on the set-up page.
set-up-not-sound = { $file } was not saved: what would stand in it cannot be.
set-up-changed = Not saved: the shop's files were changed meanwhile. Load this page anew and look.
set-up-disk = Not saved: the disk or the folder does not take it ({ $why }). What was there is as it was.
set-up-no-port = There is no port { $port } here any more. Look at the ports again.
set-up-no-example = There is no example { $example } here. Load this page anew.
set-up-port-held = { $port } is read as { $gauge } already.
set-up-listening = Another screen listens just now. Press again.
set-up-silent = Nothing comes from it.
set-up-no-number = { $n ->
    [one] One byte comes
   *[other] { $n } bytes come
 } from it, and no number by this.
set-up-no-file = There is no file { $file }.
set-up-by-hand = { $file } says { $key } in a way of its own. Change it with an editor.
set-up-missing = { $what ->
    [name] A name is missing.
    [number] The number on the gauge's housing is missing.
    [resolution] What one step of the last digit is worth is missing.
    [radius] The length from the spindle's axis to the contact is missing.
   *[port] A port is missing.
 }
set-up-taken = Somebody may set up by now. Load this page anew.
no-bench-here = No gauge can be checked at a page here: practice, or a record that cannot be used.
no-set-up-here = Nothing is set up here: practice has its own files.

## Who may do what: pairing a screen, a PIN for signing

right-not-declared = Nobody may do this.
pair-first = This screen may not do that yet. Pair it: open /pair on it.
own-wall-only = Only the Pi's own wall may do that.
not-from-our-page = That came from no page of this screen. Load the page anew and press again.
too-often = Too many at once. Press again in { $seconds ->
    [one] one second
   *[other] { $seconds } seconds
 }.
ticket-spent = This address let the Pi's own wall in once, within a minute. Start `headsweep wall` on the Pi again.
pair-title = Pair this screen
pair-why = A paired screen works the machine. Until then it may look, once any screen is paired.
pair-first-why = No screen is paired yet, so nothing is shown here.
pair-by-wall = Show a code on the wall
pair-by-console = No wall? On the Pi type: headsweep wall --code, with --data and its folder.
pair-code = Code from the wall
pair-name = What to call this screen
pair-do = Pair
code-is-shown = The Pi's own wall shows 8 digits for two minutes. Type them here.
code-on-wall = Code to pair a screen
wrong-code = That is not the code, or its two minutes or five tries are over. Ask for a code again.
codes-spoilt = Too many wrong codes were typed, here or on another screen. Ask for a code again in { $seconds ->
    [one] one second
   *[other] { $seconds } seconds
 }.
screen-paired = Paired.
not-paired-disk = Not paired: the disk reported an error ({ $why }).
not-unpaired-disk = Still paired: the disk reported an error ({ $why }).
screen-left = This screen may only look now.
screen-unpaired = Unpaired. It may only look now.
no-such-screen = There is no such screen any more.
this-screen = This screen: { $name }
this-screen-own = This is the Pi's own wall.
this-screen-looks = This screen may only look.
leave-do = Unpair this screen
screens-paired = Paired screens
screens-none = No screen is paired. The Pi's own wall needs no pairing.
screens-since = paired { $since }, last used { $seen }
unpair-do = Unpair
unpair-who = Whose PIN (somebody who may set up)
pin = PIN
pin-of = PIN of who did it
pin-of-reviewer = PIN of who reviewed it
pin-of-leaver = PIN of who leaves it
pin-of-taker = PIN of who takes it over
nobody-has-a-pin = Nobody may sign yet. On the Pi type: headsweep access add, with a name, and --data and its folder.
has-no-pin = { $name } has no PIN here. There is one for: { $there }.
may-not-set-up = { $name } may sign, not set up. Ask somebody whose PIN was given with --set-up.
pin-missing = Type the PIN of { $name }.
pin-wrong = That is not the PIN of { $name }. Type it again.
pin-locked = The PIN of { $name } was wrong too often here. It counts again in { $minutes ->
    [one] one minute
   *[other] { $minutes } minutes
 }.
name-missing = Say the name.
pin-not-so = A PIN has { $least } to { $most } digits and nothing else.
pin-ask = PIN for { $name }:{ " " }
pin-again = The same again:{ " " }
pins-differ = The two PINs differ. Nothing was changed.
may-do = { $role ->
    [set-up] may sign and set up
   *[sign] may sign
 }
pin-kept = { $name } { $may }.
access-person = { $name }: { $may }
access-screen = screen { $name }, paired { $since }, last used { $seen }, { $id }
access-nobody = Nobody has a PIN, and no screen is paired.
access-unknown = { $name }: there is no person and no screen of that name.
access-removed = { $name } was removed.
access-damaged = { $file }: this is not what headsweep wrote ({ $why }). Move this file out of its folder, then pair screens and give PINs anew.
wall-key-unread = { $file }: the own wall's key cannot be read ({ $why }). The service makes it at its first start; the wall's user needs to be in its group.
wall-key-open = { $file }: everybody on this computer can read the own wall's key. Allowed: its owner and one group (chmod o= on it).
wall-key-short = { $file }: a key has at least { $least } characters. Remove the file, and the service makes another.
code-printed = Code to pair a screen: { $code } (for { $seconds } seconds)
no-browser = There is no browser to open. Use --link and open the address it prints, within a minute.
address-not-so = --address: found { $found }; allowed: http://, a host and a port
service-refuses = The service at that address refused (status { $status }). Is this its data folder?

## A report: what stands on paper and in files

amend-report = Audit { $audit }: issue its report anew
amend-why = Why the report is replaced (up to { $most } characters)
amended-why = why: found { $found } characters; allowed: 1 to { $most }, why the report is replaced
amended-by-nobody = done_by: found nothing; allowed: who issues the report anew
amended-unkept = The report that is replaced did not come with it, so it cannot be kept: nothing was recorded.
report-was-amended = a report was issued anew
row-amended = { $now } replaces { $before }, because: { $why }
no-such-report = There is no report { $number } of this audit. There are: { $there }.
report-files = The report as a file
report-to-print = Report, to print
report-file = { $ending ->
    [pdf] PDF
    [xlsx] Spreadsheet
    [csv] CSV: readings
    [json] JSON
   *[other] CSV: samples
 }
report-replaced = { $number }, replaced
no-such-format = found { $found }; allowed: { $allowed }
paper-title = Squareness check
paper-title-of = Machine check: { $check }
paper-no-certificate = This is no calibration certificate.
paper-number = Report { $number }
paper-page = page { $n } of { $of }
paper-end = End of report { $number }
paper-foot = { $number } · row { $row } · check { $check }
paper-qr = Record: row { $row }, check { $check }
paper-mark = { $status ->
    [practice] PRACTICE
    [given-up] NOT SIGNED: given up
   *[draft] NOT SIGNED: a draft
 }
paper-part = { $of ->
    [results] What was found and what was left
    [measured] What was measured
    [short] Remarks
    [instruments] Measured with
    [conditions] Condition of the machine
    [past] Work since it was last known good
    [addenda] Added after the signature
    [signatures] Signed
    [remarks] Remarks, and what the first page had no room for
    [judged] How each figure was judged
    [sweeps] Every sweep
    [readings] Every reading
    [curve] Error over length
    [budgets] Uncertainty, term by term
    [rows] Everything on record, row by row
    [pictures] Pictures
   *[record] The record this report is of
 }
paper-fact = { $of ->
    [gauge] Gauge
    [number] Number
    [state] State
    [done-by] Done by
    [span] Checked over
    [warm] Temperature
    [rested] Rested together
    [short] Error over 0.2 mm, read from one side
    [both-ways] Up and down differ by up to
    [repeats] Repeats within (standard deviation)
    [machine] Machine
    [asset] Asset number
    [place] Place
    [customer] Customer
    [reason] Reason
    [method] Method
    [done] Done
    [issued] Issued
    [zone] Time zone
    [replaces] Amended
    [because] Amended because
    [last-good] Last known good
    [disposition] Work since then
    [decided-by] Decided by
    [condition] Condition
    [audit] Audit
    [ledger] Ledger
    [row] Row
    [hash] Hash of that row
    [check] Check word
    [chain] Chain
    [let-go] Samples
    [software] Software
    [config] SHA-256 of the shop's files
   *[schema] Form of the JSON report
 }
paper-column = { $of ->
    [length] Length
    [off] Off by certificate, µm
    [way] Way
    [read] Read
    [error] Error
    [what] {""}
    [allowed] Allowed
    [found] As found
    [left] As left
    [expanded] ± U
    [called] Called
    [number] Number
    [certificate] Certificate
    [laboratory] Laboratory
    [calibrated] Calibrated
    [due] Due
    [role] {""}
    [name] Name
    [proof] Signature
    [at] Time
    [kind] Of what
    [text] What is added
    [by] By
    [when] {""}
    [value] Value
    [k] k
    [dof] Freedom
    [guard] Guard
    [sure] Conforms
    [sweep] No.
    [counts] Counts as
    [came] Came to
    [return] Return
    [why] Why it was taken again; what it showed
    [row] Row
    [utc] Time, UTC
    [place] Place
    [face] Reading
    [spread] Spread
    [samples] Samples
    [back] {""}
    [term] What may be off
    [u] u
    [note] Where that comes from
    [happened] What happened
   *[hash] Hash begins
 }
paper-role = { $role ->
    [gauge] Gauge
    [second-gauge] Second gauge
    [ring] Ring
    [wrench] Torque wrench
   *[thermometer] Thermometer
 }
paper-limit = ±{ $limit } { $unit }
paper-limits = { $low } to { $high } { $unit }
paper-no-limit = no limit
paper-over = { $limit } over { $over }
paper-tolerance = { $limit } over { $over }{ $named ->
    [none] {""}
   *[other] {" "}({ $named })
 }
paper-k = k = { $k }
paper-called = { $word ->
    [in] conforms
    [out] does not conform
   *[close] cannot be decided
 }
paper-none = not read
paper-verdict = { $verdict ->
    [conforms] Conforms
    [does-not-conform] Does not conform
    [nothing-moved] Nothing moved
    [look-closer] Look closer
   *[cannot-be-decided] Cannot be decided
 }{ $of ->
    [head] , as left
   *[check] {""}
 }
paper-unsigned = { $status ->
    [given-up] No verdict: the audit was given up
   *[draft] No verdict yet: the audit is open
 }
paper-rule = Decision rule: { $rule }
paper-risk = { $name }{ $guard ->
    [none] {""}
   *[other] {" "}(guard { $guard })
 }: { $risk }
paper-frozen = The tolerance is the one in force when the audit was opened.
paper-overdue = { $due }: overdue
paper-condition = { CAP($condition) }
paper-table = Done before it was read: { $done }.
paper-ram = Ram swung by { $angle }°.
paper-bolts-loose = Found loose: { $bolts }.
paper-bolts-tight = A wrench was on every bolt: none was loose.
paper-levelled = The machine had been moved; it was level and at rest.
paper-past-none = { $asked ->
    [asked] Not said yet.
   *[not] Nothing to be said: the head was not found out of tolerance, or was expected to be.
 }
paper-with-addenda = { $count ->
    [one] 1 addendum
   *[other] { $count } addenda
 }, the last in row { $row }: on the pages that follow.
paper-signed-as = { $role ->
    [done] Done by
   *[reviewed] Reviewed by
 }
paper-proved = { $proved ->
    [yes] proved by PIN
   *[no] name given, no PIN asked
 }, row { $row }
paper-unsure-moment = { $moment } (clock not set by a time server)
paper-replaces = Replaces { $number }, because: { $because }
paper-chosen = Why another sweep counts: { $why }
paper-scope = { $of ->
    [head] This report relates only to this machine as tested: static, unloaded, at one position of the table. It says nothing of run-out, table travel, quill or knee.
   *[check] This report relates only to this machine as tested: static, unloaded, at the places read.
 }
paper-because-added = something was added, in row { $row }
paper-shift = { $name }: the last tightening moved it by { $by } across the sweep.
paper-moves = { $moves ->
    [0] Nothing was moved.
    [one] 1 move was made.
   *[other] { $moves } moves were made.
 }
paper-unusable = not usable
paper-taken-back = taken back by row { $row }
paper-in-air = in the air
paper-budget = { $of }, from { $sweep ->
    [0] the readings
   *[other] no. { $sweep }
 }
paper-gauge-title = Check of a gauge
paper-gauge-in-house = A certificate of the shop's own, against gauge blocks; no accredited calibration.
paper-gauge-verdict = { $word ->
    [in] Good
    [out] Not good
   *[close] Cannot be decided
 }
paper-gauge-state = { $state ->
    [found] As found
   *[left] As left, after it was set
 }
paper-gauge-span = Span of all errors, { $state ->
    [found] as found
   *[left] as left
 } on { $day }
paper-rested = { $minutes } min
paper-of-travel = { $low } to { $high } of { $travel } { $unit }
paper-way = { $way ->
    [up] up
   *[down] down
 }
gauge-check-is = Check this gauge with blocks
gauge-check-title = Check a gauge
gauge-check-says = Against gauge blocks, while headsweep goes on. What it measures counts in every audit opened after it.
gauge-check-caution = At a bench or surface plate, never on a spindle that can turn: before you take a gauge off a machine, stop it, lock it out and keep to its manual and the shop's rules.
gauge-check-begin = Begin the check
gauge-check-blocks = Set of blocks
gauge-check-warm = How warm are the blocks
gauge-check-rested = How long have gauge and blocks lain side by side
gauge-check-lengths = Other lengths than ten steps over all its travel and ten within a turn
gauge-check-over = Over this part of its travel
gauge-check-these = These lengths instead
gauge-check-now = Comes now
gauge-check-no-number = No number now
gauge-check-paper = Its certificate (PDF)
bench-gauge = { $name }, number { $number }. q leaves at any time, b takes the last reading back.
bench-parallel = Set the gauge's lever parallel to the blocks.
bench-state = As found, or left after it was set? Enter is found, l is left
bench-warm = How warm are the blocks, such as 20.5 °C
bench-rested = How long have gauge and blocks lain there, such as 2 h
bench-done-by = Done by (or nothing)
bench-put = { $n } of { $of }: { $on ->
    [surface] set the contact on the surface the blocks stand on ({ $name })
    [several] put the { $name } blocks under the contact
   *[block] put the { $name } block under the contact
 }{ $way ->
    [up] {""}
   *[down] , from above
 }
bench-put-keys = , press Enter{ $keyed ->
    [yes] , press the gauge's key
   *[no] {""}
 }
bench-read = { $keyed ->
    [yes] Read it: I press the gauge's key
   *[no] Read it
 }
bench-back = Take the last one back
bench-leave = Leave the check
bench-no-reading = No reading: { $why }
bench-other-unit = It shows { $now } now: press its unit key back to { $before }.
bench-went-to-zero = Before that it went from { $was } to zero while it stood still.
bench-was-zeroed = Was its zero pressed?
bench-zero-keys = {" "}z: its zero was pressed, Enter: it was not
bench-zeroed = Zero or preset was pressed
bench-not-zeroed = It was not
bench-odd = That is { $off } from what the blocks say, too much for a gauge's error.
bench-what-was-it = What was it?
bench-odd-keys = {" "}Enter reads it again (another block lay there), z: zero or preset was pressed, k keeps it
bench-again = Another block lay there: read it again
bench-keep = Keep it: the gauge is off by that
bench-all-again = All is read again, from the first length.
bench-from-first = { $unit }, from the first
bench-confirm = Record this?
bench-confirm-keys = {" "}Enter is yes, n is no
bench-record = Record it
bench-discard = Record nothing
bench-recorded = Recorded as row { $row }.
bench-nothing-recorded = Nothing is recorded: { $why }
bench-left = you left.
bench-input-ended = the input ended.
bench-as-you-wish = as you wish.
bench-nobody = nobody has looked for a quarter of an hour.
bench-asked-meanwhile = Something else is asked by now.
bench-under-way = A gauge is being checked already. Finish or leave that check first.
bench-in-audit = An audit on { $machine } has that gauge: finish it first.
bench-failed = Nothing is recorded: the check ended by a mistake in the program, which the log names.
bench-cable-out = the cable was out, and the zero may have moved. Begin again.
paper-zero-of-a-count = A zero pressed on a number that stands one count from zero looks like that number's own flicker and is not noticed: errors read after it are off by that count, by which the first length, read again, differs too.
curve-title = Error over length, in { $unit }, from the first reading
curve-says = The error at each length, read up and down. From the lowest to the highest is { $span }; at most { $limit } is allowed. The limits are drawn that far apart, with the errors midway.
curve-along = length, { $unit }
curve-allowed = { $limit } allowed
curve-guard = guard { $limit }
no-gauge-check = No check of the gauge { $gauge } with a set of blocks is on record there. Rows of such: { $rows }.
paper-combined = Together
paper-expanded = U = { $by } (k = { $k }, { $coverage } %)
paper-unsound = ALTERED: this row is not as it was written
paper-let-go = let go by the shop's policy, in row { $rows }; what they came to stands here
paper-sound = { $sound ->
    [yes] every row of this audit, and its samples, is as it was written
   *[no] ALTERED: something of this audit is not as it was written
 }

## A request that cannot be answered

no-setup-here = There is no setup to show here.
no-doctor-here = Nothing examines this computer here.
doctor-title = The doctor
doctor-line = { $about }: { $found }
doctor-all-fine = All is fine.
doctor-looks = Looking it over.
doctor-again = Look again
no-list-here = No list of audits is kept here.
no-trends-here = There are no trends to show here.
no-machine-so-called = There is no machine called { $key } here. There are: { $there }.
no-practice-mill-here = There is no practice mill here.
is-a-real-machine = { $machine } is a real machine: nothing here can move it.
not-called-so = This service is not called { $host }. Use the Pi's IP address, or add the name to the hosts in the shop's settings.
foreign-page = Requests from pages of { $origin } are refused.
send-as-json = Send the body as application/json.
body-not-json = body: not JSON; allowed: a JSON object
body-no-object = body: found { $found }; allowed: a JSON object
body-not-expected = The body is not as expected.
address-not-expected = The address is not as expected.
body-too-large = That is more than is taken at a time.
no-metrics-here = There are no metrics to read here: shop.toml does not say metrics = true.
metric-build = Which release this is; always 1
metric-healthy = Whether all is well, as the page healthz says
metric-screens = Screens that are open
metric-held = Threads that stand still
metric-rows = Rows of the ledger
metric-frames = Frames that came whole since the gauge's port was opened
metric-bad = Frames that could not be read since the gauge's port was opened
metric-damaged = Of these, those that were whole but for their check value
metric-reading = Whether the gauge is read: there, with nothing wrong
metric-age = How old the gauge's last number is
metric-recording = Whether what is pressed for the machine is recorded
metric-audit = Whether an audit of the machine is open
metric-owed = Rows that are still to go out this way
metric-fails = Whether the last try this way failed
metric-cpu = Processor time of this process, its own and the system's for it
metric-memory = Memory of this process that is not swapped out
metric-began = When this process began, since 1970, UTC
metric-files = Files and connections that this process has open
nothing-here = There is nothing at this address.
not-answered = This cannot be answered ({ $status }).
too-many-presses = Too many presses are waiting for their gauge: wait a moment, then press again.
all-places-taken = All { $most } places for screens are taken. Close a page you do not need; this one then comes back by itself.
