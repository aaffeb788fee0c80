# The pages of a packet.

## What the pages answer
pages-title = The unknown: { $sum } or less, 8 times in 10
pages-lead = Of { $all } conditions in the scope of this work { $likely } are likely or more; { $left } unlikely ones are not listed. Nothing seen is never nothing there.
pages-lead-no-plan = No planned work is recorded, so every condition is counted. Of { $all } conditions in the scope of this work { $likely } are likely or more; { $left } unlikely ones are not listed. Nothing seen is never nothing there.
pages-draws = From { $n } joint draws of all conditions and their costs; percentiles of the sum, never sums of percentiles.
pages-over = Chance that it passes 2, 5, 10% of the contract: { $two }, { $five }, { $ten }.
pages-kept-apart = Kept apart: { $sum } on average for conditions the base price is taken to hold.
pages-utility = { $n ->
    [one] A utility may take one calendar day from signing in 8 cases of 10.
   *[other] A utility may take { $n } calendar days from signing in 8 cases of 10.
}
pages-look-why = Could change: { $conditions }. Done by: { $who }.
pages-look-why-ask = Could change: { $conditions }. Done by: { $who }. Not while: { $ask }.
pages-minutes = { $n } min
pages-the-house = The house
pages-remarks = Remarks
pages-no-time = time not in the file

## Document, running head and sums
pages-document = Packet { $number }: { $label }
pages-running = packet { $number }, for the office
pages-byline = Surveyed by { $who }. Sealed { $when }, UTC{ $offset }, from { $n } entries of the log.
pages-byline-firm = Surveyed by { $who } for { $firm }. Sealed { $when }, UTC{ $offset }, from { $n } entries of the log.
pages-nobody = nobody named
pages-cost = { $low } to { $high }
pages-most-likely = most likely { $sum }
pages-from-nothing = From nothing to { $sum }
pages-missing = Not known: { $what }.
pages-p50-words = even odds
pages-p80-words = 8 in 10 below
pages-p90-words = 9 in 10 below
pages-mean = Mean
pages-mean-words = over many houses
pages-survey = Survey
pages-computed-by = Computed by
pages-from-log = From the log
pages-entries = { $n ->
    [one] one entry
   *[other] { $n } entries
}
pages-assessment = Assessment
pages-catalog-sum = { $catalog }, sum { $sum }
pages-assessment-sum = data/assessment.json, sum { $sum }
pages-cut = … (the rest stands in the log)

## Words of the template
pages-no-name = House without a name
pages-house = House
pages-sealed = Sealed
pages-catalog = Catalog
pages-packet = Packet
pages-page = Page
pages-nothing-raised = Nothing in the scope of this survey is raised.
pages-condition = Condition, cost if it is there
pages-odds = Odds, 0 to 10 in 10
pages-do = Do
pages-because = Because; who decides
pages-money-and-days = Money and days
pages-unknown = The unknown
pages-money = Money
pages-good-to = Good to
pages-of-contract = Of the contract
pages-extra-days = Extra days
pages-twenty-dots = Twenty dots, each one chance in twenty; sixteen lie left of P80. Behind them, how the draws lie.
pages-weigh-most = What weighs most
pages-on-average = On average
pages-if-there = If it is there
pages-calculation = Calculation
pages-drawing = Drawing of the result
pages-one-change = One change at a time
pages-who-decides = Who decides.
pages-measurements = What the measurements answer
pages-annex = The arithmetic, the values held against and what was assumed stand under “How the measurements were reckoned”.
pages-held-against = Held against
pages-assumed = Assumed, because nobody measured or chose it
pages-also = Also
pages-reckoned = How the measurements were reckoned
pages-look = Look before signing
pages-no-look = No further look is worth its time.
pages-takes = Takes
pages-worth = Worth
pages-look-what = Look
pages-could-do = What it could do
pages-answers = All answers
pages-no-place = Place without a name
pages-question = Question
pages-answer = Answer as entered
pages-who-when = Who and when
pages-not-known = Not known, and named so
pages-all-known = Every question asked has an answer.
pages-where = Where
pages-what = What
pages-why = Why
pages-photographs = Photographs
pages-no-photographs = None were taken.
pages-small-copies = Small copies; the originals, as the camera wrote them, lie in the packet under names that begin as printed below each.
pages-no-picture = No picture: the small copy handed in was not a JPEG.
pages-photograph = Photograph
pages-check = How to check the seal
pages-check-how = The packet is a zip with one folder, a bag by RFC 8493. Three steps with programs every office has; none of them is ours. Type the file's own name where these lines say packet.zip.
pages-check-1 = Sum the whole file.
pages-check-1-how = Compare the sum with the one noted when it was sealed; it cannot stand on a page inside the file.
pages-check-2 = Unpack it and sum every file.
pages-check-2-how = Each line must end in OK.
pages-check-3 = Look for anything extra.
pages-check-3-how = The validator of the Library of Congress also finds files that no list names.
pages-check-shows = What that shows: nothing in the packet was changed since it was sealed, if step 1 gives the sum that was noted then. What it does not show: that an answer is right, or who sealed it.
pages-went-in = What went into these numbers
pages-may-be = What may be concealed
pages-do-not-say = What these pages do not say

## The brief
pages-todo = What to include, carry, leave out and look at first
pages-todo-what = Conditions, the heaviest first
pages-uncertain = What makes the sum most uncertain
pages-one-by-one = Condition by condition
pages-all-listed = The other conditions that are raised
pages-how-reached = How the number was reached
pages-moved = Moved it
pages-may-change = What could still change it
pages-photo = Photo
pages-how-likely = How likely
pages-and-more = { $n ->
    [one] and one more
   *[other] and { $n } more
}
pages-base-rate = Houses like this one, with this work planned
pages-clue = { $question } { $answer }
pages-small-steps = { $n ->
    [one] One more answer
   *[other] { $n } more answers, each of little weight
}
pages-a-little = a little
pages-look-short = { $look } ({ $n } min)
pages-days-range = { $low } to { $high } days
pages-days-wait = a wait of { $low } to { $high } days for the utility
pages-stage-demolition = demolition
pages-stage-rough-in = rough-in
pages-stage-close-up = close-up

## The trades
pages-for-framer = for the framer
pages-for-plumber = for the plumber
pages-for-electrician = for the electrician
pages-for-hvac = for the HVAC contractor
pages-for-drywall = for drywall and paint
pages-trade-title = { $n ->
    [one] One condition may be met in your work
   *[other] { $n } conditions may be met in your work
}
pages-trade-title-beyond = { $n ->
    [0] { $title }: beyond the value it is held against
    [one] { $title }: beyond the value it is held against; one condition may be met
   *[other] { $title }: beyond the value it is held against; { $n } conditions may be met
}
pages-trade-title-follows = { $n ->
    [one] You may be called after another trade, once
   *[other] You may be called after other trades, { $n } times
}
pages-trade-title-figures = What was worked out for your trade
pages-after-demolition = Sealed after demolition was declared ({ $by }, { $at }): worked out again from what the walk had answered before it. What was opened since is told by findings, not by these pages.
pages-trade-lead = Read in an occupied house with nothing opened. These are odds and readings, not a ruling; nothing seen is never nothing there.
pages-trade-decides = The licensed person of the trade decides how it is done; local code governs. A table value here is quoted with its edition and says nothing about what the place has adopted.
pages-may-meet = What may be met
pages-measured = Measured
pages-reading = Reading
pages-seen-there = What else was seen and said
pages-openings = Openings that may be made and closed
pages-opening-size = How many and how large
pages-openings-note = Number and size are what is usual, by judgment, for one such place: state your own before you price, so that closing them can be priced.
pages-opening-planned = in what the work opens anyway; state the size
pages-opening-cut = { $n } of { $width } × { $height }
pages-opening-cuts = { $n } ({ $few } to { $many }) of { $width } × { $height }
pages-for = For
pages-opens = Opens
pages-by = By
pages-closes = Closes
pages-asked = What is asked of you
pages-look-there = Looks worth taking while you are there
pages-look-closes = Leaves a hole to be closed
pages-not-while = Not while: { $what }
pages-ask-look = { $condition }: nothing is done before { $until }.
pages-ask-treat = { $condition }: treat as there until { $until }.
pages-ask-price = Your price beforehand, each by itself, if it is there: { $conditions }.
pages-ask-tell = If you meet anything that is not on this page, stop, take a picture with a tape in it and call the office before going on.

## The household
pages-for-household = for the household
pages-household-title = What may be found, and when things are off
pages-household-lead = Nobody can see inside a closed wall. We looked, measured and asked, so that fewer things come as a surprise. Here is what we think, in plain words.
pages-household-what = { $name }. { $what }
pages-household-more = { $n ->
    [one] One other thing is less likely or smaller and is not listed here.
   *[other] { $n } other things are less likely or smaller and are not listed here.
}
pages-household-questions = Ask us before you sign. This page is part of the packet that was sealed on the date below and does not change afterwards.
pages-signature-said = I have read this page. Signing it agrees to no price.
pages-inside = What may be inside
pages-means = What it means for you
pages-treat-as = Treated as there
pages-means-in-price = It is in the price.
pages-means-look-first = A licensed person looks first; nothing is opened before.
pages-means-treated = The work is done as if it were there, or it is tested before anything is opened.
pages-means-set-aside = { $sum } is set aside. What is not used comes back to you.
pages-means-asked = Not in the price. If it is found it costs { $low } to { $high }, and you are asked first.
pages-costs-days = What it may cost and how long it may take
pages-range-money = The extras are as likely to come to less than { $half } as to more. One time in ten they come to more than { $nine }.
pages-range-days = They are as likely to take less than { $half } extra days as more. One time in ten they take more than { $nine }.
pages-range-asked = You are asked before anything beyond the price is done.
pages-off-when = When things are off
pages-clash = Day { $day }: { $what }
pages-off-task = The work
pages-off-what = What is off
pages-off-hours = How long
pages-off-help = What helps
pages-off-days = { $low } to { $high } days
pages-off-some-hours = { $low } to { $high } hours
pages-medical = Medical devices and medicine
pages-medical-yes = You told us that somebody depends on a powered device or on refrigerated medicine. No power is cut before a backup has been tested and a day agreed.
pages-medical-no = You told us that nobody depends on a powered device or on refrigerated medicine. If that changes, tell us at once.
pages-medical-unknown = We do not know yet whether somebody depends on a powered device or on refrigerated medicine. Tell us before the work begins.
pages-medical-who = Tell three people: the person who runs this job, the power company, and whoever prescribes the device or the medicine.
pages-dust = Dust and holes
pages-dust-openings = Openings may be made in walls, ceilings or floors where something is found. Each is closed again.
pages-dust-closed-off = The room is closed off with plastic while there is dust. The way to a bath and to the bedrooms stays open.
pages-dust-lead = The paint is old enough to hold lead. A certified renovator decides how the work is done; children and pregnant women stay out of the room until it is cleaned.
pages-leave-alone = Leave these alone
pages-to-move = What to move
pages-move-cabinets = Empty the cabinets and drawers that are worked on, and the shelves on the other side of the wall.
pages-move-path = Clear a way as wide as a door from the entrance to the room, and take rugs up.
pages-move-above = Take pictures and mirrors off the walls next to, above and below the room; hammering shakes them.
pages-questions = Questions
pages-signature = I have had this page and could ask about it
pages-date = Date

## Likely change orders
pages-for-orders = likely change orders
pages-orders-title = { $n ->
    [0] No change order is likely
    [one] One change order that may come, agreed beforehand
   *[other] { $n } change orders that may come, agreed beforehand
}
pages-orders-lead = Each is written so that it can go into the agreement before anything is opened: what the condition is, why it could not be seen, what speaks for it, and what it costs if it is there. Odds are those of the sealed assessment.
pages-orders-more = { $n ->
    [one] One smaller one is not written out; it stands in the table of conditions.
   *[other] { $n } smaller ones are not written out; they stand in the table of conditions.
}
pages-no-orders = Nothing in the scope of this survey is likely to come as a change order.
pages-within-work = within the planned work
pages-price-range = What it costs if it is there
pages-price-allowance = Allowance in the agreement; what is not used is credited
pages-price-unit = Unit price to agree beforehand, each time it is met
pages-price-likely = Most likely, to be agreed when it is known
pages-price-time = Time it adds
pages-clause = Clause.
pages-clause-text = “{ $condition }”, { $place }: { $what } It is not part of the price. Where it is found when the work is opened, it is shown by a picture before anything is changed, and done at the price agreed here.
pages-why-hidden = Why it could not be seen.
pages-hidden-by = It lies behind finished surfaces that stay closed until { $stage }.
pages-hidden-looks = Only this would show it: { $looks }.
pages-hidden-unknown = Asked and not known: { $question } ({ $why }).
pages-evidence = What speaks for and against it
pages-evidence-none = No answer moved it: it is as likely as in other houses like this one.
pages-evidence-photos = Seen in photograph { $photos }
pages-promise = What the firm promises
pages-promise-says = The conditions named here will not change the price, up to { $cap } together. The firm pays what they cost up to that sum.
pages-covers = It covers
pages-not-covered = It does not cover
pages-promise-cap = Cap
pages-promise-cost = What the promise costs
pages-promise-reached = Chance that the cap is reached
pages-promise-above = What the named conditions cost above the cap.
pages-promise-hazards = Anything for which a licensed person must look first, and anything not named here.

## Tables
table-key = key
table-condition = condition
table-place = place
table-probability = probability, 0 to 1
table-band-low = probability may be as low as, 0 to 1
table-band-high = probability may be as high as, 0 to 1
table-cost-low = cost if there, low, USD
table-cost-likely = cost if there, likely, USD
table-cost-high = cost if there, high, USD
table-days-low = days added, low
table-days-likely = days added, likely
table-days-high = days added, high
table-stage = stage
table-trade = trade
table-do = what to do
table-amount = amount, USD
table-decides = who decides
table-opening-for = opening for
table-openings-few = openings, few
table-openings-usual = openings, usual
table-openings-many = openings, many
table-opening-width = width of one, in
table-opening-height = height of one, in
table-opens = opens
table-closes = closes
table-question = question
table-answer = answer
table-value = value
table-unit = unit of the value
table-tolerance = tolerance, in
table-entered = as entered
table-who = who
table-when = when
