# Lines of the command line.

as-it-is = { $text }

## new, record, note, photo
new-done = opened { $survey }  { $label }
record-done = { $item }  { $answer }
record-corrected = { $item }  { $answer } (corrects what stood there; both are kept)
record-complaint = look again: { $said }
note-done = noted  { $text }
photo-taken-in = { $photo }  { $name } taken in
photo-known = { $photo }  { $name } already in this survey
photo-complaint = note: { $said }

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
next-no-use = not asked, because nothing depends on them any more: { $items }
next-coverage = { $share } of what answers can be worth is gathered (give or take { $error })
next-look = Look next
next-photos = photographs still wanted: { $items }
next-nothing = nothing more is worth its minutes
next-worth = { $n ->
    [one] { $label }: worth about { $value } for one minute ({ $how }, { $who })
   *[other] { $label }: worth about { $value } for { $n } minutes ({ $how }, { $who })
}
next-could-change = could change: { $conditions }
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
seal-no-pages = without pages to read: this program was built without them
verify-whole = { $path }: whole, and unaltered since sealing if its sum is the one noted then
verify-sum = sha256
verify-house = house
verify-packet = { $label } (packet { $number })
verify-sealed = sealed
verify-by = { $when } by { $by }
verify-holds = holds
verify-held = { $n } log entries, { $photos } photographs, assessment { $sum }
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
