### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests.

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }

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
    [maintenance] After maintenance
    [check-only] Check only
    [practice] Practice
   *[scheduled] Scheduled
}
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
still-low = Still { $by } low { $at }
still-too-low = Still { $by } too low { $at }

## While there is no number

halt-wait = WAIT: no reading.
halt-stop = STOP: no reading.
halt-turning = STOP turning: no reading.
halt-tightening = STOP tightening: no reading.
halt-turn-nothing = Turn nothing.
halt-leave-bolts = Leave the bolts as they are.
halt-leave-shim = Leave the shim and the bolts as they are.
halt-hands-off = Hands off the adjuster.
halt-goes-on = It goes on by itself once there is a number.

## The wall

ready = Ready for an audit.
choose-why = Choose why the head is being checked.
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
    [clear] Clear away
   *[sign] Sign
}
headline-bumped = Knocked?
headline-again = Read both spots again.
headline-wrong-adjuster = Wrong adjuster?
headline-reversed = It went the other way.
headline-astray = No stop-at for now.
headline-apart = Not where it was left.
headline-bolt = That bolt moved the head.
headline-moved = Not at the stop-at.
headline-stuck = Does the gauge move?
parked-turn = Gauge parked { $at }: { LOWER($turn) } until it reads { $stop }.
parked-put-shim = Gauge parked { $at }: put { $shim }.

## Both axes

axis-name = { $axis ->
    [nod] Nod
   *[side] Side to side
}
the-side = { $side ->
    [right] right side
    [left] left side
    [back] back
   *[front] front
}
plus-minus = ±{ $limit }
low-by = { $side } low { $limit }
too-low-by = { $side } too low { $limit }
never-low = { $side } low not at all
never-too-low = { $side } too low not at all
level = level
side-low = { $side } low
side-too-low = { $side } too low
as-wanted = { $stands }, as wanted
low-but-too-high = { $side } low, but too high
level-but-too-high = level: { $side } too high
verdict-in = Inside tolerance on both axes.
verdict-out = Outside tolerance.
verdict-close = The reading cannot tell inside from outside.
gauge-not-good-enough = The gauge is not good enough for this tolerance.
whole-out = Each axis is inside; the lean as a whole is out.
whole-close = Each axis is inside; the lean as a whole is too close to call.

## Cautions: common practice, no source

manual-first = The machine's manual and your shop's rules come first.
held-by-bolts = Only its bolts hold this head: block or sling it before anything is cracked.
turn-by-the-nose = Turn the spindle by its nose, never by the gauge or the drawbar.
crack-only = Crack the bolts only; never remove a nut. The head is heavy: have it supported.
hands-clear = Hands out of the joint, nobody beneath the head.
gauge-away = Take the gauge out of the way.
tight-before-reading = Pull the bolts up again before anything is read.
head-still-blocked = Head still blocked or slung, nobody beneath it.
tap-softly = Tap with brass or a soft hammer, clear of the gauge.
head-still-slung = Head still slung or jacked. Open the joint no further than the shim needs.
push-with-a-strip = Push the shim in with a strip, never with fingers.
lock-out = Isolate the machine, lock it out, then try to start it.
keep-the-lock = Never defeat a lock-out to release a spindle brake.
own-supply = This screen has its own supply; it stays on.
swing-clear = Check that arm and cable swing clear all the way round.
pedal-clear = Put the pedal where nobody trips over it.
do-not-force = Do not force the adjuster against tight bolts.
watch-the-travel = Watch the gauge's travel.
no-extension = No extension bar on the wrench.
before-power = Both before power comes back.
big-nod = A big nod, about { $about } here: raise the quill and set the contact anew before this.
falling-head = No gauge under a falling head.
bolts-loose = { $bolts } loose
bolts-tight = { $bolts } tight
arm-in-spindle = arm in the spindle
arm-is-out = arm out, wrench off the drawbar
not-safe = NOT SAFE TO RUN: { $left }.
put-right = Before power comes back: tighten { $bolts }, arm out, wrench off the drawbar.
take-arm-out = Before power comes back: arm out, wrench off the drawbar.
all-put-right = { CAP($done) }

## The instruction of each step

down-again = Bring the contact down again, set as it was.
down-again-at = Bring the contact down again { $at }, set as it was.
cracked-too = { CAP($bolts) } are cracked too.
leave-alone = Leave { $bolts } alone.
keep-tight = Keep { $bolts } tight for now.
screen-was-off = The screen was off: is the lock still on?
screen-was-off-ask = Try to start. Is the gauge untouched, its number { $numbers }, the head untouched?
keep-supported = Keep the head supported: { $bolts } may be loose.
make-safe = Make the machine safe, then put the gauge on.
make-safe-bar = Make the machine safe, then put the bar with both gauges on.
gauge-number = Read the number on the gauge: it must be { $numbers }.
gauges-numbers = Read the numbers on the gauges: they must be { $numbers }.
lift-contact = Lift the contact and let it hang free in the air.
lift-contact-why = Then take the reading: it shows whether the gauge was zeroed. The audit goes on where it was.
hang-free = Let the contact hang free in the air.
hang-free-take = Hands off, then take the reading.
push-contact = Push the contact in with a finger and let it go.
push-contact-why = This shows that the gauge is alive and which way it counts.
take = Take the reading.
take-at = Take the reading { $at }.
turn-to = Turn { $to } and take the reading.
first-sweep = Everything still tight: a full sweep.
proving-sweep = Everything tight: this full sweep shows how the head is left.
down-pushed-in = Bring the contact down { $at }, about { $preload } pushed in.
tight-take = Everything still tight. Take the reading.
turn-back = Turn back the way you came, { $to }.
take-again-there = Take the reading there again: it shows whether anything drifted.
turn-until-at = Turn the spindle so that the gauge stands { $at }.
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
crack-enough = Just enough to let the head move. It may drop a little; the stop-at stays. Then press.
crack-by-hand = Just enough to let the head move. It may drop a little. Then press.
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
put-shim = Put { $shim }.
shim-reads = The gauge should then read about { $stop }. { $come }
check-other = A pair check: the other move may have changed { $axis } too.
check-before-tightening = A pair check before tightening.
check-tight = A pair check with { $bolts } tight.
pull-up = Pull up { $bolt }, { $part }.
pull-up-limit = Then press. One bolt may move the number by { $limit }.
tighten = Tighten { $bolts }.
tighten-how = A third at a time, in a cross pattern, watching the number.
arm-out = Arm out. Wrench off the drawbar.
is-inside = The head is inside.
leave-inside = Leave it: the head is inside.
leave-close = Leave it: closer than this cannot be told, or set.
leave-out = Nothing more is turned: the audit reports what is.
report-only = { $axis }: report only.
sign-audit = Sign the audit.
recorded-already = Every reading is recorded already.
bring-closer = Bring the head closer by scale or square.
bring-closer-how = It is further out than the gauge can read. Crack the bolts, set it, tighten; then press and sweep.
off-at = { $place }: { $say }.

## The console: what may be pressed, asked and filled in

all-done = Is all of it done?
not-zeroed = I did not zero it: carry on
not-bumped = Not preset, not bumped: carry on
take-back = Take back the last step
why = Why
abandon = Abandon this audit
abandon-sure = The audit ends without a verdict. What was read stays recorded.
safe-and-number = Safe, and the gauge's number is { $number }
ram-moved = Safe and right, but the ram or turret was moved since last time
ram-swung-by = Ram swung by, such as 15 deg
untouched = Locked out, all untouched, number { $number }
untouched-tight = Locked out, all untouched, { $bolts } tight, number { $number }
touched = Locked out, but gauge or head was touched
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
pulled-up = Pulled up { $bolt }
all-tight = All tight
set-and-tight = Set and tight again
sweep-again = Sweep again
sweep-again-why = Why another sweep
ring-turned = Ring turned half round: sweep again
arm-turned = Arm clamped half round: sweep again
cleared = Arm out, wrench off the drawbar
done-by = Done by
last-good = Last known good on
disposition = What becomes of the work since then
as-found-sweep = The sweep that shows how the head was found
as-found-why = Why, if not sweep { $number }, the first before anything was loosened
as-left-sweep = The sweep that shows how the head is left
as-left-why = Why, if not sweep { $number }, the first after the last tightening
reviewed-by = Reviewed by
note = Note
sign = Sign
sweep-came-to = Sweep { $number }: { $word }

## The numbers behind a verdict

head-as-found = the head as found
rule-of = { $together ->
    [jointly] both axes together
    [vector] the length of the lean
   *[each] each axis by itself
}
rule-simple = Simple: the number itself against its limit, { $of }.
rule-guarded = Guarded: { $sure } sure, { $of }.
many = many
cancels = cancels
nearly-certain = over 99.9 %
hardly-ever = under 0.1 %
effect = { $effect } Exact: { $exact }; by the textbook's form: { $textbook }.
effect-dish = A strip { $width } wide, face-milled { $fed } with the { $cutter } cutter, comes out hollow by { $amount }.
effect-step = Passes { $fed }, { $apart } apart, meet in steps of { $amount }.
effect-hole = A hole drilled { $depth } deep with the quill ends { $amount } off.
effect-hole-toward = A hole drilled { $depth } deep with the quill ends { $amount } off toward { $toward }.
effect-bore = A bore of { $size }, made by raising the table, comes out oval by { $amount }.
less-than = less than { $of }
fed = { $feed ->
    [left-right] left to right
   *[front-back] front to back
}
toward = { $place ->
    [front-right] the front right
    [right] the right
    [back-right] the back right
    [back] the back
    [back-left] the back left
    [left] the left
    [front-left] the front left
   *[front] the front
}
head-unknown = Nothing is known yet of how this head answers but what its file says.
head-answers = { $axis }: the pivot acts { $pivot } from the spindle, give or take { $doubt }; the other axis follows by { $cross } %, give or take { $cross_doubt }.

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
machine-was-prepared = the machine was prepared
service-was-restarted = the service was started again
machine-was-made-safe = the machine was said to be safe
free-reading-was-taken = the free reading was taken
contact-was-pushed = the contact was pushed
reading-was-taken = a reading was taken
sweep-was-finished = a sweep was finished
parked-reading-was-taken = the parked reading was taken
question-was-answered = a question was answered
number-went-to-zero = the number went to zero
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
audit-was-abandoned = the audit was abandoned
step-was-taken-back = the last step was taken back
gauge-was-noticed = something about the gauge was noticed
gauge-was-checked = the gauge was checked against known lengths
gauge-stopped = the gauge stopped giving readings
gauge-is-back = the gauge gives readings again
not-taken = NOT TAKEN: { $why }
not-done = Not done: { $why }

## The trend

found-angled = Started after angled work: how it was found says nothing about how it kept square.
found-off-scale = Found off the gauge's scale.
limits-come = Limits come with { $fewest } values; there { $there ->
    [one] is { $there }
   *[other] are { $there }
}.
outside-limits = Outside the limits: { $values ->
    [one] { $values } value
   *[other] { $values } values
}, last on { $day }.
has-drifted = It has drifted: { $values ->
    [one] { $values } smoothed value
   *[other] { $values } smoothed values
}, last on { $day }, outside the smoothed limits.
inside-limits = Every value lies inside the limits, and it has not drifted.
no-interval = No interval between audits is agreed for this machine.
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
