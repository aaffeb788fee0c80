# Lines of the command line.

as-it-is = { $text }

## new, record, note, photo
new-done = opened { $survey }  { $label }
record-done = { $item }  { $answer }
record-corrected = { $item }  { $answer } (corrects what stood there; both are kept)
record-complaint = look again: { $said }
note-done = noted  { $text }
undo-done = taken back  { $what } { $said }
photo-taken-in = { $photo }  { $name } taken in
photo-known = { $photo }  { $name } already in this survey
photo-complaint = note: { $said }
photo-dark = too dark to read a tape in it: take it again?
photo-glare = burnt out to white: take it again without flash, or with your back to the window?
photo-blurred = blurred: hold still and take it again?
photo-alike = looks the same as photograph { $photo }, taken already
photo-clocks = taken { $camera } by the camera's clock, taken in { $device } by this device's: { $apart } apart. If it was taken just now, one of the clocks is wrong
apart-minutes = { $n ->
    [one] 1 minute
   *[other] { $n } minutes
}
apart-hours = { $n ->
    [one] 1 hour
   *[other] { $n } hours
}
apart-days = { $n ->
    [one] 1 day
   *[other] { $n } days
}
photo-fact-size = { $width } × { $height } pixels, { $format }, { $bytes } bytes
photo-fact-turned = stored as { $width } × { $height }, turned by orientation { $orientation }
photo-fact-taken = taken { $time }
photo-fact-taken-local = taken { $time } by the camera's clock; it wrote no offset from UTC
photo-fact-no-time = says no time it was taken
photo-fact-place = tells where it was taken: { $latitude }, { $longitude }
photo-fact-place-hidden = tells where it was taken, in a form not read here
photo-fact-no-place = does not tell where it was taken
photo-refused = not taken in: { $said }
photo-copied = { $name } copied without location, serial numbers and all else but picture, time and the way up
photo-copied-marked =
    { $n ->
        [0] { $name } copied small and upright; it bears no marks
        [one] { $name } copied small and upright with 1 mark burnt in; the original is as it was
       *[other] { $name } copied small and upright with { $n } marks burnt in; the original is as it was
    }

## show
show-none = no houses on this device yet: open one with “underlath new LABEL”
show-answered = { $answered } of { $wanted } answered
show-photos = { $n ->
    [one] 1 photo
   *[other] { $n } photos
}
show-p80 = 8 in 10 within { $sum }
show-not-assessed = not assessed
show-not-assessed-yet = not assessed yet
show-open = (open)
show-taken-out = Taken out, with what was recorded there
show-remarks = Remarks
show-assessed = assessed { $when } by { $engine } with catalog { $catalog }

## assess
assess-head = { $n ->
    [one] { $label }: the unknown, from one entry of the log
   *[other] { $label }: the unknown, from { $n } entries of the log
}
assess-no-plan = no planned work is recorded: all { $n } conditions are counted, most of which this job may never meet
assess-money = money   half the time within { $half }, 8 in 10 within { $eight }, 9 in 10 within { $nine } (mean { $mean } ± { $error })
assess-days = days    half the time within { $half }, 8 in 10 within { $eight }, 9 in 10 within { $nine }
assess-over = chance of more than 2, 5, 10% of the contract: { $two }, { $five }, { $ten }
assess-in-base = apart from that, taken to be in the base price: { $sum }
assess-measurements = What the measurements answer
assess-not-known = not known: { $what }
assess-assumed = assumed: { $what }
assess-screening = Screening answers: the licensed plumber, gas fitter, electrician or renovator decides; local code governs.
assess-conditions = Conditions in scope: { $all }, of which { $likely } more than unlikely
assess-more = … and { $n } more in the packet
assess-frozen = frozen as number { $number } ({ $sum })

## next
next-ask = Ask next ({ $n } open)
next-question-at = { $item } ({ $place }: --place { $id }): { $question }
next-disagreed = asked again: people said different things
next-for-pages = asked for the pages
next-value = worth about { $value }, most for: { $conditions }
next-bears-on = bears on: { $conditions }
next-no-use = not asked, because their answers could no longer be worth the minute: { $items }
next-coverage = { $share } of what answers can be worth is gathered (give or take { $error })
next-look = Look next
next-photos = photographs still wanted: { $items }
next-nothing = nothing more is worth its minutes
next-worth = { $n ->
    [one] { $label }: worth about { $value } for one minute ({ $how }, { $who })
   *[other] { $label }: worth about { $value } for { $n } minutes ({ $how }, { $who })
}
next-could-change = could change: { $conditions }
look-serves = One time serves { $places }
next-not-while = not while: { $ask }

## Before the house is left

leave-head = Before leaving
leave-disagree = people said different things (settle it with a correction): { $items }
leave-implausible = outside what is plausible (measure again): { $items }
leave-ruled-out = answered, though other answers rule the question out: { $items }
leave-photos = photographs missing: { $items }
leave-clash = { $answer } does not go with the other answers: they left it { $chance }. Look again.
leave-clash-with = { $answer } does not go with the other answers, most of all with { $rival }: they left it { $chance }. Look at both again.
leave-nothing = nothing disagrees and nothing is missing
leave-worth-most = Unasked and worth most
leave-all-asked = nothing is left to ask

## seal, verify, receive
seal-done = sealed  { $path }
seal-holds = { $files } files, { $photos } photographs, { $bytes } bytes
seal-pages = to be read: { $pages }
seal-sign-name = Name (empty: sealed without a signature)
seal-no-pages = without pages to read: this program was built without them
verify-whole = { $path }: whole, and unaltered since it was sealed
verify-sum = sha256
verify-house = house
verify-packet = { $label } (packet { $number })
verify-sealed = sealed
verify-by = { $when } by { $by }
verify-holds = holds
verify-held = { $n } log entries, { $photos } photographs, assessment { $sum }
verify-household = the household signed { $page }: { $name }, { $when }
receive-done = { $label }  packet { $number } received { $when }
receive-again = { $label }  packet { $number } was already received { $when }

## finding, compare
finding-done = { $condition }  { $outcome }  { $cost }  entered as number { $n }
compare-head = { $label }: forecast beside finding
compare-in-base = { $cost } (in the base price)
compare-nothing-opened = nothing was opened yet: there is nothing to score or to sum
compare-scores = { $opened } opened, { $found } found: Brier { $brier } against { $base } for the era’s base rate{ $skill }; log score { $log } against { $logbase }
compare-skill = , skill { $skill }
compare-few = a small number of outcomes: luck weighs heavily in these scores
compare-within-50 = within P50
compare-within-80 = between P50 and P80
compare-within-90 = between P80 and P90
compare-beyond = beyond P90
compare-came-to = came to { $sum }
compare-took-days =
    { $n ->
        [one] took { $days } day
       *[other] took { $days } days
    }
compare-money = money { $actual } against P50 { $p50 }, P80 { $p80 }, P90 { $p90 }: { $lies }; of it { $late } found after the price was fixed
compare-days = days { $actual } against P50 { $p50 }, P80 { $p80 }, P90 { $p90 }: { $lies }
compare-none = none
compare-missed = missed (found though at most “possible”): { $list }
compare-false-alarms = false alarms (not there though “likely”): { $list }
compare-not-opened = not opened or not entered, in no score: { $n }
compare-out-of-scope = found though the forecast held them out of scope: { $list }

## merge, check, rescue
merge-done = { $new } entries taken in, { $known } were here already
check-whole = { $n } entries and all photographs are as they were recorded
check-mended = small pictures of { $made } photographs made anew; { $swept } leftover files taken away
check-leftover = { $n ->
    [one] 1 file among the small pictures belongs to no photograph; check with --mend takes it away
   *[other] { $n } files among the small pictures belong to no photograph; check with --mend takes them away
 }
rescue-done = { $n } entries saved to { $path }; the damaged records were not touched

## demo
demo-invented = An invented house: every answer, picture, cost and finding was made up for demonstration.
demo-walked = walked by { $by }: { $items } items, { $photos } photographs
demo-halfway = Halfway through the walk the looks most worth their minutes were
demo-sealed = sealed: { $files } files, { $photos } photographs, { $size } kB, sha256 { $sum }; received once though sent twice
demo-made = Made:
demo-packet = packet  { $path }
demo-pages = pages  { $path }
demo-comparison = comparison  { $path }

## calc
calc-list = Calculations
calc-list-how = underlath calc WORD asks; underlath calc WORD --help lists what it takes.
calc-needed = needed
calc-may = may be left out
calc-else = taken as { $default } if left out
calc-rows = one row each time it is given; in a row, separated by commas:
calc-code = --code FAMILY=BOOK: answer by another code book this once
calc-drawing = --drawing FILE: write the section as SVG
calc-json = --json: answer in JSON
calc-ask = An empty line leaves a question out.
calc-another = Another? An empty line ends the rows.
calc-spread = Spread, one standard deviation: { $sigma }
calc-not-known = Not known
calc-one-change = One change at a time
calc-held-against = Held against
calc-assumed = Assumed
calc-also = Also

## words
words-none = every text of the catalog is said in this language
words-how = { $n ->
    [one] One text is said in the catalog's English. Write it beside the catalog, in { $file }, with its id.
   *[other] { $n } texts are said in the catalog's English. Write them beside the catalog, in { $file }, with their ids.
}

## place
show-answers = { $n ->
    [one] 1 answer
   *[other] { $n } answers
}
place-taken-out = taken out; { $answers } kept
place-again = there again, with { $answers }
place-not-named = (the first, not named)

## order
order-act = Order of the walk.
order-moved = { $place }: stop { $n }
order-listed = as the catalog lists it
order-nothing-asked = nothing to ask

## Demolition
demolition-declared = Demolition is declared, and the walk of this house is over. What is seen from now on is a finding: “underlath finding” enters it beside the forecast.
demolition-withdrawn = { $n ->
    [0] The declaration is withdrawn; the walk goes on.
    [one] The declaration is withdrawn; the walk goes on. One entry that stood aside counts again.
   *[other] The declaration is withdrawn; the walk goes on. { $n } entries that stood aside count again.
}
demolition-by = Demolition was declared by { $by }, { $at }.
demolition-by-for = Demolition was declared by { $by }, { $at }: { $reason }
demolition-found = Demolition counts as begun with the first finding ({ $by }, { $at }); no packet declares it.
demolition-means = The walk is over: what is seen from now on is a finding.
demolition-set-aside = Recorded after it; kept, and counted nowhere
demolition-withdrawn-by = A declaration of demolition was withdrawn by { $by }, { $at }: { $reason }
assess-after-demolition = Worked out again after demolition was declared, from what the walk had answered until then. It is kept apart, and never judged.
finding-begins-demolition = No packet declares demolition of this house: it counts as begun with this finding. No forecast that comes from now on is judged.
merge-set-aside = { $n ->
    [one] One entry came after demolition was declared: it is kept, and counted nowhere.
   *[other] { $n } entries came after demolition was declared: they are kept, and counted nowhere.
}

## sheet, sheet-answers
sheet-made = { $n ->
    [one] sheet   { $file }  1 question
   *[other] sheet   { $file }  { $n } questions
}
sheet-send = send it to the household, or print it; answers come back as { $answers }
sheet-no-plan = no planned work is recorded, so it cannot say what will be off: record planned-work and make it again
sheet-recorded = { $n ->
    [one] 1 answer recorded, said by { $by }
   *[other] { $n } answers recorded, said by { $by }
}
sheet-recorded-and-remarks = { $n ->
    [one] 1 answer and { $remarks } in words recorded, said by { $by }
   *[other] { $n } answers and { $remarks } in words recorded, said by { $by }
}
sheet-corrects = { $answer } (corrects what stood there; both are kept)
sheet-known = { $n ->
    [one] 1 of this file was here already
   *[other] { $n } of this file were here already
}
sheet-side-by-side = ≠ two answers stand side by side and count as none: record the item again to settle it
sheet-stands = the household is not sure, others have answered: { $items }
sheet-other-catalog = the sheet was made from another catalog; what still fits was taken
sheet-not-taken = not taken: { $item } = { $said } ({ $why })
sheet-at-the-table = to ask at the table: { $items }

## promise
promise-head = { $n ->
    [one] A promise of one condition, up to { $cap }
   *[other] A promise of { $n } conditions, up to { $cap }
}
promise-premium = premium { $premium } ± { $error }: the mean { $mean } and { $loading } of what P90 { $nine } lies above it
promise-rare-and-dear = P90 lies below the mean: what is rare and dear is in the mean only, and the loading takes off instead of adding. Think of charging the mean at least.
promise-payout = payout  mean { $mean } ± { $error }, 8 in 10 within { $eight } ± { $eight_error }, 9 in 10 within { $nine } ± { $nine_error }
promise-cap = the cap is reached: { $chance }
promise-without = The premium without one of them
promise-without-it = { $sum } without it
promise-under = Under { $sum }
promise-already = it is there already
promise-no-check = no check that may be offered tells anything of what is promised
promise-cheapest = cheapest with a chance of { $chance } or more (every set of checks was tried):
promise-cheap = cheapest with a chance of { $chance } or more (built up one check at a time):
promise-nearest = no set of checks has a chance of { $chance } (every one was tried); the nearest:
promise-near = no set of checks has a chance of { $chance } (built up one check at a time); the nearest:
promise-check = { $check } ({ $who }), for { $conditions }
promise-plan = { $minutes } minutes, about { $cost }; chance that the premium is then { $wanted } or less: { $chance }
promise-clear = chance that nothing shows: { $chance }, the premium then { $sum }; averaged over all results { $mean }, because looking does not change what is there
promise-draws = From { $n } joint draws. Nothing was recorded.
promise-loading = So is the loading of { $loading }.
promise-loading-own = The loading of { $loading } is the firm’s own.
odds-are-judgment = Odds and costs are the catalog’s, and one factor on all base odds sets their level: judgment until the firm’s own jobs have spoken.

## suppose
suppose-head = { $label }: if
suppose-in-price = in the base price: { $condition }
suppose-look = { $check }, for: { $condition }
suppose-worth = { $n ->
    [one] the look is worth about { $value } before its cost of about { $cost } (one minute, { $who }), on all that it tells of
   *[other] the look is worth about { $value } before its cost of about { $cost } ({ $n } minutes, { $who }), on all that it tells of
}
suppose-no-worth = no result of the look would change what to do about it; where a gate stands a named licensed person looks first whatever a look is worth
suppose-changes = Odds that change by a point or more
suppose-if-shows = If it shows ({ $chance }), odds that change by a point or more
suppose-if-not = If it does not show ({ $chance }), odds that change by a point or more
suppose-none = none
suppose-gate = { $name }: { $caution } First: { $gate }.
suppose-not-recorded = Supposed, not recorded.
suppose-now = now
suppose-then = then
suppose-shows = it shows ({ $chance })
suppose-shows-not = it does not show ({ $chance })
suppose-money = money { $p }
suppose-money-mean = money mean
suppose-in-base = in the base price, mean
suppose-over-5 = more than 5% of the contract
suppose-days = days P50, P80, P90
not-in-scope = not in scope
and-so-many-more = … and { $n } more

## catalog calibrate
calibrate-head = Expected unknown of a typical kitchen that nobody has looked at, as a share of the mid-range kitchen
calibrate-now = factor now
calibrate-proposed = proposed
calibrate-wanted = wanted
calibrate-gives = gives
calibrate-residual = { $points } points remain, because the factor is kept to four digits
calibrate-by-era = By era: one factor does not fit all
calibrate-jobs-head = The factor on base odds, from the firm’s reviewed jobs
calibrate-open = left out, conditions without a finding: { $n }
calibrate-other = left out, forecast with another catalog: { $n }
calibrate-none = no job has a finding for every condition in scope: the factor stays judgment
calibrate-reviewed = { $n } reviewed; actual sums are { $ratio } of what was expected
calibrate-factor = factor { $now } → { $factor }, nine in ten between { $low } and { $high }; the catalog’s own counts as { $weight } jobs
calibrate-small = a small number of jobs: the figure is still mostly the catalog’s, and luck
calibrate-take-over = Nothing was changed. To take it over, write into the firm’s overlay (docs/overlay.md), and raise its version:

## catalog
basis-judgment = judgment
basis-common-practice = common practice, no source
basis-window = published years, judged level
basis-derived = worked out from published values
basis-published = published
basis-firm = the firm's own
catalog-no-faults = Catalog version { $version }: no faults
catalog-no-overlay = no overlay is in use
catalog-overlay-empty = the overlay at { $path } changes nothing
catalog-overlay-in-use = overlay { $name }, at { $path }
catalog-overlay-counts = { $changes ->
    [one] 1 change
   *[other] { $changes } changes
} · { $added ->
    [one] 1 thing added
   *[other] { $added } things added
} · { $removed ->
    [one] 1 thing left out
   *[other] { $removed } things left out
}
catalog-notes = No fault, and worth a look
catalog-jobs = { $n ->
    [one] counted in 1 job
   *[other] counted in { $n } jobs
}
catalog-diff-head = { $name }, catalog version { $version }
catalog-diff-changed = Changed
catalog-diff-added = Added
catalog-diff-removed = Left out
catalog-diff-nothing = nothing
catalog-diff-with = and with it { $what }
catalog-show-removed = not offered here: { $reason } ({ $place })
catalog-show-standing = { $basis }, weighs { $weight ->
    [one] 1 house
   *[other] { $weight } houses
}
catalog-show-by-firm = written by the firm
catalog-show-by-catalog = written in the catalog
catalog-show-was = was { $was }: { $why }
overlay-made = { $file } is written. As it stands it changes nothing.
overlay-made-check = after every edit: { $command }
overlay-made-use = to use it: { $option } with any verb, UNDERLATH_OVERLAY, or as the folder “overlay” in the home
overlay-starter-name = Our firm
overlay-starter-reason = counted in our own jobs
overlay-starter-judged = the owners agreed on it
overlay-starter-unused = we do not own one
overlay-starter-head = What our firm knows better than the catalog. An example becomes real when the sign before its lines, # without a space, is taken away; these remarks keep theirs. Every change says why (reason); every number says where it comes from (basis) and, where it was counted, in how many jobs (jobs). Raise the version with every edit.
overlay-starter-money = A number of the firm: what a day of delay costs, in dollars. “underlath catalog show setting” lists them all.
overlay-starter-cost = What a condition costs when it is found after the price is fixed: low, likely, high, in dollars. “underlath catalog show condition bulkhead-duct” shows its keys.
overlay-starter-odds = How many houses of an era have it.
overlay-starter-codes = Which book the firm works by.
overlay-starter-removed = What is not offered here, with the reason. Conditions and questions of our own are added with [[condition]], [[clue]], [[item]]: docs/overlay.md shows one.

## photo mark, marks, measure
mark-made = { $mark }  { $shape } on { $photo }
mark-taken-back = { $mark } is drawn no more; it stays in the log
mark-none = no marks on { $photo }
mark-drawn = { $file }  the marks over a small copy; the original is as it was
shape-arrow = arrow
shape-ring = ring
shape-words = words: { $text }
shape-dimension = dimension { $length }
shape-paper = paper { $width } by { $height }
measure-length = { $length } ± { $tolerance }  (two standard deviations; one is { $sigma } in)
measure-distance = by the picture the camera stood { $feet } ft { $inches } in from the plane: if you stood elsewhere, do not trust it
measure-focal = the picture does not say its focal length; that of a phone was taken
measure-not-recorded = nothing was recorded; add --item ITEM to record it
measured-on-photo = measured on photograph { $photo } beside something of known size

## field
field-open = The screens are open in a browser of this machine, once, at
field-how = The address works for one browser and is then used up. Nothing outside this machine reaches it. Ctrl-C ends it.
field-again = end it, start “underlath field” again and open the address it prints
field-foreign = this was asked by another page or under another name, and is not answered
field-unknown = this browser did not open the printed address
field-token = this address was opened before, or is another one
field-no-page = there is no such page
field-no-json = a command is asked in JSON
field-photo-without = a photograph needs the house (survey) and the name of its file (name)
field-photo-large = a photograph of more than { $most } MB is not taken
field-large = more than { $most } kB are no command
field-unread = not all of it came
field-ended = the command came to no end

## Keys
seal-certified = sealed by the key { $key }, certified by { $firm } (no. { $serial })
seal-not-certified = sealed by the key { $key }, which no firm vouched for
verify-key = the seal holds: sealed by the key { $key }
verify-certified = that key is certified by { $firm } (no. { $serial }) as “{ $device }”
verify-certified-open = its certificate says { $firm } (no. { $serial }); not checked, because the firm's public keys were not given (--firm)
verify-no-firm = no firm vouched for that key
verify-valid = the certificate was valid when it was sealed by the device's clock, { $when }, and ran until { $until }
verify-valid-open = not checked: whether a certificate was valid then
verify-received = received by the office on { $when }
verify-received-open = not checked: when the office received it (--receipt)
verify-not-revoked = not revoked by then, by revocation list { $number } of { $issued }
verify-revoked-open = not checked: whether the key was revoked (--revoked)
verify-fails = does not hold: { $said }
receive-certified = sealed by the key { $key }, under certificate no. { $serial }
receive-not-certified = sealed by the key { $key }, which no firm vouched for
receive-receipt = receipt for the device: { $path }
receive-no-receipt = no signed receipt: this office has no key yet (underlath keys new-office)
receipt-kept = received { $when } by { $firm }; the receipt is kept: { $path }
keys-none = this device has no key yet; it makes one when it seals or asks to be certified
keys-device = key of this device  { $key }
keys-kept = its secret is kept in  { $path }
keys-certified = certified by { $firm } (no. { $serial }), from { $from } until { $until }
keys-not-certified = no firm vouches for it yet: underlath keys request
certificate-ended = certificate no. { $serial } ran out on { $until }: the office will not take what is sealed now. Have it renewed (underlath keys request)
certificate-ends = certificate no. { $serial } runs out on { $until }; have it renewed before (underlath keys request)
keys-new = new key of this device: { $key }; have the office certify it
keys-requested = request written: { $path }; tell the office the key, so that it can compare: { $key }
keys-office-made = key of the office of { $firm }: { $key }
keys-office = key of the office of { $firm }  { $key }
keys-row-until = until { $until }
keys-row-revoked = revoked since { $since }: { $why }
keys-certificate-given = certificate no. { $serial } for “{ $device }” ({ $key }): { $path }
keys-written = written: { $path }
keys-revoked = revocation list { $number }, with { $n } { $n ->
        [one] line
       *[other] lines
    }

## track, learn

track-head = Track record over { $n ->
    [one] 1 house
   *[other] { $n } houses
}
track-none = nothing to score yet: no house has a forecast that came before its first finding, and an opened place
track-counts = { $opened } places opened, { $found } found; in no score: { $closed } not opened, { $open } without a finding
track-small = small numbers (below { $outcomes } outcomes or { $houses } houses): luck weighs heavily, no curve is drawn
track-brier = Brier { $brier } against { $base } for the base rates of the other houses{ $skill }
track-parts = reliability { $reliability } − resolution { $resolution } + uncertainty { $uncertainty }
track-log = log score { $log } against { $base }{ $skill }
track-auc = told apart (area under the ROC curve): { $auc }
track-money = money, everything opened
track-money-in-part = money, a place stayed closed (a lower limit)
track-days = days, everything opened
track-days-in-part = days, a place stayed closed (a lower limit)
track-within = { $what }: { $n ->
    [one] 1 house
   *[other] { $n } houses
}, came to { $actual } on average; within P50 { $p50 }, P80 { $p80 }, P90 { $p90 }
track-crps = off by { $crps } on average (CRPS)
track-by-condition = By condition
track-by-era = By era
track-by-scope = By planned work
track-by-surveyor = By who walked the house
track-by-month = By month of the forecast
track-column-name = what
track-column-houses = houses
track-column-found = found
track-column-closed = not scored
track-column-brier = Brier
track-column-skill = skill
track-column-log = log
track-few = small numbers
track-unknown = not known
track-groups-overlap = A house can stand in several rows.
track-out-no-findings = left out, without a finding: { $n }
track-out-no-forecast = left out, opened before any packet was here: { $n }
track-out-nothing-opened = left out, nothing was opened: { $n }
track-out-seen = left out, forecast by numbers that had learned from the house (--seen-too leaves it in): { $n }
track-again-head = Forecast again, apart from the record: { $n ->
    [one] 1 house
   *[other] { $n } houses
}
track-again = The last forecast of houses sealed more than once; { $n } of them before anything was found. It may know more than the first did, so it is no track record.
track-drawn = drawn: { $path }
learn-head = What { $n ->
    [one] 1 house teaches
   *[other] { $n } houses teach
}
learn-none = nothing to learn from: no house has a forecast that came before its first finding
learn-known = { $n } houses stand in the catalog’s numbers already and are not counted again
learn-skipped = a house says nothing: { $why }
learn-held-out = log score on { $n } opened places of houses that were not learned from: { $before } by the catalog as it is, { $after } by what the others teach; less is better
learn-not-held-out = not scored on houses apart: that needs ten houses, and no --quick
learn-evidence = { $houses } houses, { $opened } places opened; the old numbers count for { $weight } houses
learn-small = small numbers: mostly the catalog’s and luck
learn-line-held-out = on { $n } places apart: { $before } before, { $after } after
learn-more = and { $n } lines more: --json has them all
learn-accept = Nothing is changed. To take lines over: underlath learn --accept LINE …
learn-written = { $n ->
    [one] 1 line
   *[other] { $n } lines
} taken over into { $path }
learn-noted = noted which { $n } houses the catalog has learned from: { $path }
learn-carry = To have every tablet walk by it: underlath catalog publish. Forecasts name the numbers they were made by.
record-bin = { $from } to { $to } in 10
record-era = { $from } to { $to }
record-era-to = until { $to }
record-era-from = { $from } and later
learned-line = { $condition }: { $what }
learned-share = base share by era
learned-present = if it is there
learned-absent = if it is not there
learned-absent-era = if it is not there, { $era }
learned-sensitivity = shows it, if it is there
learned-specificity = shows nothing, if it is not there

## The office desk
office-seal-holds = Whole. The key that sealed it is certified by the firm, and the seal holds.
office-seal-no-key = Whole. This office has no key yet, so nobody can say whose seal it is.
office-seal-uncertified = Whole. The key that sealed it is certified by nobody: compare it with the tablet's.
office-seal-other-firm = Whole. Its certificate is not one of this firm.
office-seal-not-valid = Whole. Its certificate did not hold when it was sealed.
office-seal-revoked = Whole. The key that sealed it is revoked.
office-seal-receipt = Whole. What this office signed when it came does not go with it.
office-seal-gone = Not to be opened any more. Receive the same packet again; the tablet still has it.

# The line to the office
pair-done = paired with { $firm } at { $address }, as “{ $name }”
pair-none = this device is paired with no office
pair-undone = the office is forgotten; packets, receipts and the certificate stay
pair-device = device { $id }
send-done = packet { $n }: { $said }
error-nothing-sealed = no packet of this house was sealed on this device
error-nothing-sealed-hint = seal it first: underlath seal
error-not-sent = not all of it was sent: { $said }
error-not-sent-hint = send it again; the office keeps what it has of it
publish-done = version { $number } is published; files of the firm’s in it: { $files }, houses that stand in its numbers: { $houses }. Tablets take it the next time they are in contact.
fetch-here = version { $number } of the office’s catalog, here since { $since }; published by { $by } ({ $at }); houses that stand in its numbers: { $houses }
fetch-unused = not in use: { $why }
fetch-none = no catalog of the office is here; the shipped one is used, with what lies over it
fetch-nothing = the office has nothing newer
fetch-not-taken = the office’s catalog was not taken: { $why }
