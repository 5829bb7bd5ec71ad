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
