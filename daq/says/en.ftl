### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests.

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }

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
   *[other] {" "}at { $at }
 }. The contact is not on the surface: the gauge reads { $reads } as in the air. Bring it down and take again. If it is down, the gauge was zeroed: do the touch test again. If it cannot reach, the head is off its scale.
end-of-travel = The gauge is at the end of its travel{ $at ->
    [unknown] {""}
   *[other] {" "}at { $at }
 }: this is no reading. Set it with less preload, or bring the head closer by a scale first.
maybe-stuck = The number has not changed for some time: push the contact and let it go. If the number follows, press again. If it does not, the gauge is stuck: see to it first.
nothing-to-take-back = Nothing here can be taken back: what was turned stays turned, and a finished sweep stays listed. Sweep again instead.

## Opening an audit, the preparation card, the touch test

no-such-machine = There is no machine called { $machine } in this shop's files.
audit-open = An audit is open on this machine. Finish or abandon it first.
machine-unsafe = The audit before left this machine not safe to run: put that right first.
gauge-in-use = The gauge { $gauge } is in use: audit { $audit } on { $machine }.
other-gauge = The number on the gauge is { $found }; its file says { $known }. Put the right gauge on, or correct its file.
ram-angle-no-angle = ram_angle: found { $found }; allowed: an angle such as "15 deg" or "0.1 rad"
ram-angle-too-far = ram_angle: found { $found }; allowed: -60 deg to 60 deg

## After the service was off

card-unread = The card is still to be read.
touched-while-watched = touched: found true; allowed: false, because the screen was not off
cracked-untold = cracked: found true; allowed: false, because no bolts were to be

## Sweeping

place-unsaid = Say where the gauge is: { CAP($next) } is next.
place-read = { CAP($position) } has been read. { CAP($next) }{ $times ->
    [one] {""}
   *[other] {" "}again
 } is next.
no-sweep-to-compare = There is no sweep yet to compare a turned one with: sweep first.
no-ring-to-turn = Only a ring or a plate can be turned half round: the file names neither.
arm-was-out = The arm was out since the last sweep: there is nothing to compare it with.
sweep-again-without-why = Say why another sweep is wanted: it is listed with its reason.
bolts-loose = Tighten the bolts first: a sweep counts only with all tight.
off-scale-place-unsaid = Say where the gauge is off its scale.
off-scale-after-sweep = Only a head that no sweep has read yet is recorded as off scale.

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

## What the gauge does by itself

no-zero-in-samples = No zero in these samples.
lifted-for-block = The contact is lifted to move the block: that is no zero.
zero-asked-already = That is asked already.
zero-expected = It was turned to where it reads zero: that is no zero.
nothing-noticed = Nothing was noticed since the last step.
not-shown-by-samples = These samples do not show that.

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
last-good-no-date = last_good: found { $found }; allowed: the date the machine was last known good, such as 2026-03-31, not after today ({ $today })
abandoned-without-why = Say why the audit is abandoned.
nothing-unsafe = Nothing here is said to be unsafe.
