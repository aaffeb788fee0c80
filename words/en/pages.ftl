# The pages of a packet.

## What the pages answer
pages-title = The unknown in this house: within { $sum } in 8 cases of 10
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
pages-concealed = What is likely concealed
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
