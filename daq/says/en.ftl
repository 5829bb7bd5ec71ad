### English. A sentence each, by its code. What stands in braces is a number, a name out of the
### shop's files, or another sentence. A sentence nobody uses, and a code without one, fail the tests.

## Several things in a row

list-more = { $before }, { $next }
list-last = { $before } and { $last }

## The terms of an uncertainty, and where each number comes from

term-repeatability = How well a spot reads the same when the gauge comes back to it
term-resolution = The gauge's last digit
term-friction = Plunger friction on a springy arm
term-scale = The gauge's scale
term-local = The gauge's error over the short span used
term-radius = The sweep radius
term-parallel = Plunger not parallel to the spindle
term-axial = The spindle's rise and fall once a turn
term-wedge = { $seat ->
    [block] The block
   *[other] The { $seat }'s wedge
 }
term-seating = How the { $seat } sits
term-return = Drift that was not steady
term-zero = The gauge's zero
term-sag = The arm's sag
term-force = Contact force

note-repeatability = pooled over visits; √2 of one reading for two spots, more where a drift is taken out
note-resolution = digit/√6 for a difference when it stands still, less when it moves
note-friction = always approached from the same side; what is left, anywhere within its bound
note-scale = its share of the difference read, anywhere within its bound
note-local = anywhere within its bound; the error over the whole travel would overstate
note-radius = the difference grows with the radius; half-width over √3
note-parallel = it reads more than the height by one over the cosine
note-arm-turned = the arm was clamped half a turn round for a second sweep: it changes sign
note-both-gauges = it moves both gauges alike
note-axial = looks exactly like lean; twice its amplitude at most, in any direction: /√6
note-same-block = the same block at every spot
note-put-down = it is put down anew at every spot, anywhere within its bound
note-turned = the { $seat } was turned half round for a second sweep: it changes sign
note-wedge-known = its size is known, its direction is not: /√2
note-wedge = at most so much, in any direction: /√6
note-seating = looks exactly like lean; at most so much, in any direction: /√6
note-return = return error/(2√3), more where all but the first spot count one way
note-same-spots = the same at every spot
note-bar-turned = out by turning the bar half round
note-opposite = the same at opposite spots

## What a sweep says against itself

return-error = Back at the first position the gauge reads { $found } { $unit } different; allowed { $allowed }. Something moved: see to the arm and the contact and sweep again.
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
apart = The head does not stand where the last readings left it: was it knocked, or the surface seated anew?
part = { $of ->
    [ring] The ring's wedge
   *[arm] The spindle's rise and fall once a turn
 } comes to { $found } { $unit } across the sweep; the machine's file allows for { $bound }. Something was knocked while it was turned: sweep again. Or put the file right.

## A verdict, and where its guard comes from

gauge-not-good-enough = The gauge is not good enough for this tolerance.
judged = { $word ->
    [in] Inside the limit{ $rule ->
        [simple] ; the uncertainty is not allowed for.
       *[guarded] , with the uncertainty allowed for.
     }
    [out] Outside the limit{ $rule ->
        [simple] ; the uncertainty is not allowed for.
       *[guarded] , with the uncertainty allowed for.
     }
   *[close] Too close to call: the limit lies within the uncertainty.
 }
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
   *[no] Not good
 }: its errors span { $span } { $unit }; allowed { $allowed } { $unit }.
gauge-checked-repeats = { $told } It repeats within a standard deviation of { $sd } { $unit }.
gauge-checked-both-ways = { $told } Up and down differ by up to { $by } { $unit }.
gauge-checked-not-good = { $told } Take it out of use until it has been seen to.

## Coming to a stop-at, and what the gauge cannot follow

shim-behind = { $thickness } shim behind { $place }
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
put-shim = Put { $shim }.
parked-shim = Gauge parked { $at }: put { $shim }.
shim-then = The gauge should then read about { $stop }. { $come }
go-past = Go { $past } past it and come back. { $come }
move-then = { $goes } { $come } Then let go and press.
move-turns-then = { $goes } That is { $turns }. { $come } Then let go and press.
two-sentences = { $first } { $second }

## Pulling up the bolts

pulled-up = { $share ->
    [quarter] a quarter of the way
    [third] a third of the way
    [half] half way
    [two-thirds] two thirds of the way
    [three-quarters] three quarters of the way
   *[all] all the way
 }
pulled-up-by = { $part }/{ $of } of the way
pull-up = Pull up { $bolt }, { $part }.
bolt-over = { CAP($bolt) } moved the head by { $moved }; allowed is { $allowed }. Slacken it, pull up the one across from it, then come back to it.

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
    [1] Turn the spindle by hand to { $to }°, the gauge { $at } { $unit } below the nose.
   *[other] With the bar set in half a turn round, turn the spindle by hand to { $to }°, the gauge { $at } { $unit } below the nose.
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
 }, always from the same side.
travel-slope = Slope along { $axis ->
    [x] X
   *[y] Y
 }
travel-form = Straightness along { $axis ->
    [x] X
   *[y] Y
 }
term-turned = The spindle stopped off its angle
term-bar = The bar's own run-out
term-edge = What is read along is not straight
term-laid = How it lies
note-follows = pooled over visits; as much as the result follows each reading
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
caution-locked-out = Power off and locked out; nothing turns or moves but by hand.
caution-turn-by-hand = Turn the spindle at its nose, never by the gauge or the drawbar; fingers clear of the bar and the contact.
caution-table-clear = See that the table's whole way is free, and hands are out of the ways and screws.
