# The screens.

app = Underlath
reading = Reading the record…
houses = Houses
on-device = on this device
houses-heading = { $n ->
    [0] No house on this device yet
    [one] One house on this device
   *[other] { $n } houses on this device
}
houses-none-how = Start the first one: its label and what is planned are enough.
last-touched = last touched { $when }
answered-of = { $answered } of { $wanted } answered
photos = { $n ->
    [one] 1 photo
   *[other] { $n } photos
}
not-assessed = no odds frozen yet
p80 = P80 { $money }
failed-heading = The record could not be read
again = Try again
field-gone = The program behind this page was ended. What was answered before is kept.
field-gone-how = Start “underlath field” again and open the address it prints.
foot-label = Always at hand
walk = The walk
odds-and-money = Odds and money
odds-short = Odds
walk-done = Every question is answered, { $wanted } in all
walk-done-disagree = { $n ->
    [one] Every question is answered, { $wanted } in all, and one has answers that disagree
   *[other] Every question is answered, { $wanted } in all, and { $n } have answers that disagree
}
walk-open = { $open ->
    [one] One question is still open
   *[other] { $open } questions are still open
}
walk-open-disagree = { $open ->
    [one] { $n ->
        [one] One question is still open, and one has answers that disagree
       *[other] One question is still open, and { $n } have answers that disagree
    }
   *[other] { $n ->
        [one] { $open } questions are still open, and one has answers that disagree
       *[other] { $open } questions are still open, and { $n } have answers that disagree
    }
}
walk-bar = { $answered } of { $wanted } questions answered
cant-tell = Can’t tell
could-not-reach = Could not reach
open-row = open: not asked or not answered
open-row-answer = { $answer }; open: not asked or not answered
disagree-row = These answers disagree
against = is not equal to
entered = written as { $entered }
by-at = { $by }, { $at }
odds-none = The answers do not go together
carry = Carry { $money } for the unknown to be right 8 times in 10
money-rule = Money for the unknown
days-rule = Extra days
even-odds = even odds
eight-in-10 = 8 in 10 below
nine-in-10 = 9 in 10 below
twenty-dots = Twenty dots, each one chance in twenty. Sixteen lie left of P80.
drawn-times = Drawn { $n } times from the odds as they stand; P80 is good to ±{ $money }.
parts-not-added = Parts are not added: the dots are of the sum.
on-average = { $n ->
    [one] Over many houses like this one, { $money } and 1 day on average.
   *[other] Over many houses like this one, { $money } and { $n } days on average.
}
weigh-most = { $n ->
    [one] The one that weighs most
    [5] Five that weigh most
   *[other] The { $n } that weigh most
}
weigh-average = on average
weigh-if-there = if it is there
from-to = { $low } to { $high }
conditions-heading = What is probably in there
in-ten = { $n } in 10
dot-note = Filled dot: the estimate. Open dot: the base rate before any answer. Band: where the estimate would lie, 8 times in 10, were the base rate as far off as what stands behind it allows; the answers are taken as they are. Nothing seen is never nothing there.
if-there = If it is there: { $low } to { $high }, most likely { $likely }.
frozen-at = Frozen last { $when }: { $money } at 8 in 10, catalog { $catalog }, engine { $engine }. Sealing freezes the odds too.
because = { $n ->
    [one] What moved it: one answer
   *[other] What moved it: { $n } answers
}
dot-got-here = How the dot got here
base-rate = Base rate of houses like this one
nothing-moved = Base rate of houses like this one; no answer has moved it.
taken-out = { $n ->
    [one] Taken out: { $place }; 1 answer kept
   *[other] Taken out: { $place }; { $n } answers kept
}
no-rows = Nothing is recorded in this house yet, and no question matters before the planned work is known.
fits = What fits
fits-none = Nothing has been measured that a calculation could use
fits-within = Nothing measured lies at or beyond a table value
fits-within-open = { $open ->
    [one] Nothing measured lies at or beyond a table value, and one result cannot be said yet
   *[other] Nothing measured lies at or beyond a table value, and { $open } results cannot be said yet
}
fits-beyond = { $n ->
    [one] One result lies at or beyond a table value
   *[other] { $n } results lie at or beyond a table value
}
fits-beyond-open = { $n ->
    [one] { $open ->
        [one] One result lies at or beyond a table value, and one cannot be said yet
       *[other] One result lies at or beyond a table value, and { $open } cannot be said yet
    }
   *[other] { $open ->
        [one] { $n } results lie at or beyond a table value, and one cannot be said yet
       *[other] { $n } results lie at or beyond a table value, and { $open } cannot be said yet
    }
}
fits-how = Worked out from the answers as they stand. Touch one for its drawing, its arithmetic and who decides.
stands-within = within
stands-near = close
stands-beyond = beyond
stands-ask = ask locally
stands-open = not known yet
stands-quantity = worked out
stands-not-yet = not asked yet
stands-by-hand = with figures
all-fits = All calculations
from-walk = From the walk
input-missing = Not answered: answer it now
by-hand = With the figures typed below. Nothing of it is recorded.
as-walked = Back to what the walk says
other-figures = Try other figures
figures = Figures
figures-how = Nothing typed here is recorded. A tolerance may follow a length: 19 3/8 ± 1/8.
more-figures = { $n ->
    [one] One more that may be given
   *[other] { $n } more that may be given
}
else-taken = left out, { $what } is taken
left-out = left out
work-out = Work it out
not-known = Not known: { $what }.
one-change = One change at a time
how-reckoned = How it was reckoned
held-against = Held against
assumed-heading = Assumed, because nobody measured or chose it

## A house is started
start-a-house = Start a house
start-takes = about 2 minutes
left-off = Where you left off
left-off-at = Where you left off, { $when }
go-on = Go on with the walk
go-on-done = Open it
others = The others
new-house = A new house
new-house-heading = Which house, and what is planned?
new-house-kept = kept once it is started
house-label = Label
house-label-how = street or job name
who-walks = Who walks
built = Built
built-how = year, as far as anybody knows
built-sure = How sure is the year?
known = known
no-idea = no idea
year-none = no year given yet
year-said = { $within ->
    [0] built { $year }
   *[other] built about { $year }, give or take { $within } years
}
contract = Contract price
contract-how = dollars; may wait
planned = What is planned? Touch it, even if it is a maybe.
planned-short = Planned
planned-note = What is planned decides what is asked. It can be changed on its card in the walk.
chosen = { $n ->
    [one] 1 chosen
   *[other] { $n } chosen
}
start-walk = Start the walk
start-needs-label = give it a label first

## The walk, card by card
places = Places
look-next = Look next
position = { $n } of { $wanted } that matter now
foot-look = { $minutes } min, about { $money }
foot-weighing = weighing…
foot-trouble = answers to settle
foot-no-look = nothing worth its minutes
touch-all = Touch all that hold.
next-card = { $n ->
    [one] That one, next
   *[other] These { $n }, next
}
next-one = Next
could-not-reach-why = Could not reach…
back = Back
pass = Pass over
take-back = Take back last
take-back-what = Done last: { $what } { $said }
note = { $n ->
    [0] Note
    [one] Note (1)
   *[other] Note ({ $n })
}
note-label = A note on this question
note-keep = Keep the note
kept = Kept: { $said }
stands = Answered:
disagree-card = People said different things. Touch what holds; the other answers stay in the record.
why-asked = Why asked.
photo-needed = A photo is needed.
photo-helps = A photo would help.
walk-at-end = Nothing that matters is left to ask
walk-at-end-how = { $wanted ->
    [one] The one question that matters is answered. See what is amiss before you leave.
   *[other] All { $wanted } questions that matter are answered. See what is amiss before you leave.
}
reach-because = Could not reach it, because…
reach-locked = Locked or screwed shut
reach-furniture = Furniture in the way
reach-high = Too high or too tight
reach-said-no = The household said no
reach-danger = Live, or dangerous to open
reach-time = Out of time
reach-own = Another reason, in words
reach-back = Back to the question
reach-kept = Kept as an answer. The office and the trades see that nobody looked here.

## Measuring
units = Units
inch = inch
feet = feet
then-inches = feet, then inches
rub-out = rub out
type = in words
type-how = As you would write or say it: 1' 7 3/8, 19 3/8, 492 mm
good-to = good to
lower = lower
point = decimal point
drawn-reading = { $what } Drawn: { $reading }
drawn-not-to-scale = The drawing shows what is measured; it is not to the scale of this house.
tape-said = On the tape: { $reading }
outside = { $said }. Measure again; if it is so, keep it.
keep-it = It is so: keep it

## Places
left-of = { $left } of { $wanted } left
places-heading = { $n ->
    [0] Every place is done
    [one] One question is left
   *[other] { $n } questions are left
}
places-drawn = { $n ->
    [one] A section of a house with one stop of the walk
   *[other] A section of a house with the { $n } stops of the walk
}
stop-here = here, { $n } left
stop-left = { $n } left
stop-done = done
stop-done-photos = { $n ->
    [one] done, one photo wanted
   *[other] done, { $n } photos wanted
}
answered-row = answered
place-another = Another one like this…
place-name = What it is over or beside
place-add = Add it
place-rename = Its name
place-keep-name = Keep this name
place-other-name = Another name…
place-out = Take it out…
place-out-answers = { $n ->
    [one] One question is answered at “{ $place }”. It leaves the walk and the odds; the answer is kept and comes back with it.
   *[other] { $n } questions are answered at “{ $place }”. It leaves the walk and the odds; the answers are kept and come back with it.
}
place-out-empty = Nothing is recorded at “{ $place }”. It leaves the walk and the odds.
place-out-now = Take it out
place-stays = It stays
place-put-back = Put it back
not-now = Not now
stop-earlier = Earlier
stop-later = Later
stop-earlier-of = Walk earlier: { $place }
stop-later-of = Walk later: { $place }
record = As recorded

## Photographs
photos-leaf = Photos
photos-heading = { $n ->
    [0] No photo of this house yet
    [one] One photo of this house
   *[other] { $n } photos of this house
}
photos-of = For: { $question }
photos-all = { $n ->
    [0] All photos
    [one] All photos (1)
   *[other] All photos ({ $n })
}
photos-no-place = The house
photo-take = Take a photo
photo-files = Choose files
photo-again = Take it again
photo-again-how = The first one stays in the record as well.
photos-taken = Taken in just now
photos-coming = { $kept } of { $of } kept
photos-stop = Stop after this one
photo-kept = Kept: { $name }
photo-was-there = Was there already: { $name }
photo-not-kept = Not kept: { $name }
photo-open = { $name }: open it to mark or measure
photo-no-picture = The file is kept; it cannot be shown here.
photo-shows-more = { $n ->
    [one] and one more question
   *[other] and { $n } more questions
}
photo-marks = { $n ->
    [0] no marks
    [one] 1 mark
   *[other] { $n } marks
}
photo-drawn = { $n ->
    [0] Photo: { $what }
    [one] Photo with one mark: { $what }
   *[other] Photo with { $n } marks: { $what }
}

## Marks on a photograph
mark-tools = What to draw
mark-ring = Ring
mark-arrow = Arrow
mark-dimension = Length
mark-words = Words
mark-paper = Sheet
mark-ring-how = Put the ring around it: touch its middle, then its edge
mark-arrow-how = Point at it: touch where the arrow starts, then its head
mark-dimension-how = Touch both ends, then write what the tape said
mark-words-how = Touch where the words begin, then write them
mark-ring-middle = Middle
mark-ring-edge = Edge
mark-arrow-tail = Start
mark-arrow-head = Head
mark-end-1 = End 1
mark-end-2 = End 2
mark-words-start = Start of the words
mark-middle = Set in the picture: { $name }
mark-left = Move left
mark-up = Move up
mark-down = Move down
mark-right = Move right
mark-words-what = The words, one line
mark-tape-said = What the tape said.
mark-keep = Keep this mark
mark-anew = Set the points again
mark-rub-out = Rub out last
mark-put-back = Put back
mark-never = The photo itself is never changed. Marks lie over it; one that is rubbed out stays in the record.

## Measuring on a photograph
sheet-leaf = Length from a photo
sheet-measure = Measure with a sheet of paper
sheet-which = What lies flat in the picture
sheet-letter = Letter
sheet-a4 = A4
sheet-own = Own size
sheet-lying = Long side first
sheet-width = First side, corner 1 to 2
sheet-height = Other side, corner 2 to 3
sheet-corner = Touch corner { $n } of the sheet
sheet-end = Touch end { $n } of what is measured
sheet-set = Four corners and two ends are set
sheet-corner-name = Corner { $n }
sheet-end-name = End { $n }
sheet-how = Go around the sheet corner by corner, the short side first. Then touch both ends of the length. Touch a point to enlarge it; move it by finger or by the arrows.
sheet-came-to = { $length }, give or take { $tolerance }
sheet-from-photo = { $metric }, from the photo
sheet-distance = Taken from about { $feet } ft { $inches } in away.
sheet-distance-check = If you stood elsewhere, do not trust the length.
sheet-focal = The picture does not say its lens; that of a phone was taken.
sheet-plane = Holds only on the face the sheet lies on. Behind it or before it, take the tape.
sheet-answers = It is the answer to
sheet-keep = Keep this length
sheet-to-marks = Marks on this photo

## Look next
weighing = Weighing what is left to look at…
broken-off = Weighing was broken off again and again
next-heading = { $n ->
    [0] No look is worth its minutes now
    [one] One look is worth its minutes
   *[other] { $n } looks are worth their minutes
}
next-trouble = Some answers cannot all be true
looks-laid = { $n ->
    [one] One look, { $minutes } minutes
   *[other] { $n } looks laid end to end, { $minutes } minutes
}
minutes = { $n } min
min = min
worth = worth
if-no = if no
if-yes = if yes
change-said = { $name }: about { $now } in 10 now, { $yes } if it shows, { $no } if it does not
look-how = { $how }; { $who }
look-made = Looked
look-made-of = Looked: { $what }
look-what-shown = What did it show?
look-shows-it = It is there
look-shows-not = Nothing seen
look-unclear = Can’t tell
look-nothing-seen = Nothing seen is never nothing there; how far it lowers the odds depends on the look.
look-back = Not looked yet
not-while = Not while: { $what }
looks-note = The figure is what the look is worth on average in better pricing, less its minutes and any patch. The arrows show where a yes or a no would move the dot.
gathered = Of what answers can be worth, { $share } is gathered.
gathered-short = { $share } gathered
ask-rather = Rather ask:
answer-it = Answer

## Before leaving
leaving = Before leaving
leaving-heading = { $n ->
    [0] Nothing disagrees and nothing is missing
    [one] One thing is still open
   *[other] { $n } things are still open
}
leaving-ask = Worth asking, not asked yet
leaving-disagree = People said different things
leaving-clash = Answers that do not go together
leaving-implausible = Measured outside what is plausible
leaving-ruled-out = Answered, though other answers rule it out
leaving-photos = Photos wanted
look-again = Look again
look-other = Look at the other
measure-again = Measure again
clash-chance = In view of all other answers the first has a chance of { $chance }.
count-answers = answers
count-measurements = measurements
count-photos = photos
count-notes = notes

## Odds
assessing = Working out odds, money and days…
freeze = Freeze these odds
freezing = Freezing odds, money and days…
frozen-none = Worked out from the answers as they stand; sealing freezes them.
why-coming = Working out which answers moved it…

## Sealing and handing over
seal = Seal and hand over
seal-heading-none = Not sealed yet
seal-heading-going = Sealing the packet
seal-heading-whole = Packet { $number } holds all that is recorded
seal-heading-since = { $n ->
    [one] One entry was recorded since packet { $number }
   *[other] { $n } entries were recorded since packet { $number }
}
seal-how = Sealing weighs the house as it stands, checks every answer and photo, and writes one file. The record goes on: seal again whenever something was added.
seal-for-office = The packet is for your office. It holds the photos as the camera took them, with whatever the camera wrote into them; do not pass it on to others.
seal-now = Seal it
seal-going = photo { $n } of { $of }
seal-writing = weighing and writing the pages
seal-stop = Stop. Nothing is lost
left-open = Left open
left-open-none = Nothing is left open.
open-not-asked = not asked
open-no-photo = no photo
open-two-answers = two answers
open-clash = does not go together with another answer
open-implausible = outside what is plausible
open-ruled-out = other answers rule it out
packet-number = packet { $number }
packet-sealed-at = sealed { $when }
packet-not-sealed = not sealed
packet-files = files in it
packet-size = size
packet-megabytes = { $n } MB
packet-sum = Its sum, SHA-256
packet-sum-how = Note it: it names this packet and no other. Who sealed it the seal inside tells, by this device's key.
household-in = Household's pages in
household-signs = The household signs its page first
sign-heading = For the household to read and sign
sign-page-of = The household's page, sheet { $n } of { $of }
sign-words = The words of this page
sign-name = Name
sign-field = Sign here
sign-no-hand = Whoever cannot draw here signs by name alone.
sign-rub-out = Rub out
sign-seal = Seal with this signature
sign-without = Seal without a signature
packet-signed-by = signed by
packet-gone = The file lies no more where it was sealed: { $path }
packets-before = Packets before it
packets-kept = Kept on this device: { $path }
hand-over = Hand over
hand-over-packet = Copy the packet to your files
hand-over-pages = Copy its pages, to read or print
hand-over-what = A folder with a document for each reader: the office, each trade that the house concerns, the household, likely change orders; and the tables for a spreadsheet.
handed-over = The copy lies at { $path }
no-firm = No firm stands on the pages yet.
house-packet = { $since ->
    [0] packet { $number } sealed
   *[other] packet { $number } sealed, { $since } recorded since
}
house-demolition = demolition declared

## Demolition: the end of the walk
demolition = Demolition
declare-demolition = Declare demolition
declare-when = Declare it when the first wall, floor or soffit is about to be opened.
declare-ends = The walk ends. What was answered, measured, photographed and noted can be read, and nothing is added, changed or taken back.
declare-findings = What shows behind the first opening is a finding. It is entered beside the forecast, at the office, and never here.
declare-whole = It is for the whole house: one open wall tells of those still closed.
declare-since = { $n ->
    [one] One entry is not in the last packet. Seal it first: a packet sealed after demolition is never judged.
   *[other] { $n } entries are not in the last packet. Seal them first: a packet sealed after demolition is never judged.
}
declare-not-sealed = This house was not sealed yet. Seal it first and hand it over: a packet sealed after demolition is never judged.
declare-words = What is opened, and where
declare-may-be-empty = (may stay empty)
declare-sure = End the walk of “{ $label }”?
declare-yes = Yes, demolition begins
declare-not-yet = Not yet
demolition-over = The walk of this house is over
demolition-now = What to do now
demolition-findings = Enter what is found beside the forecast: at the office, on the leaf Findings of this house, or with “underlath finding”.
demolition-read = The walk stays here as it was, to be read: every answer, photo and note.
demolition-judged = The house is judged by what its office had before. A packet sealed from now on carries the declaration and is never judged.
set-aside = { $n ->
    [one] Recorded later and set aside: kept, and counted nowhere
   *[other] Recorded later and set aside, { $n } entries: kept, and counted nowhere
}
demolition-mistake = Declared by mistake?
demolition-mistake-how = While nothing was sealed since, the declaration can be withdrawn. Both stay in the record, with the reason.
demolition-stands = The house was sealed since, and the office may have been told: the declaration stands.
withdraw = Withdraw the declaration
withdraw-why = Why nothing was opened after all
not-withdraw = Leave it as it is
withdrawn-by = { $by } withdrew a declaration of demolition, { $when }: { $reason }
over-declared = { $by } declared demolition, { $when }.
over-means = The walk is over; what is seen now is a finding.
over-now = What to do now
over-not-answered = Not answered in the walk.
over-no-looks = No looks any more: demolition was declared
over-gathered = What the walk gathered
over-seal = Demolition was declared. A packet sealed now says so, and its forecast is never judged.
foot-over = the walk is over

## Settings
settings = This device
settings-seldom = set once, seldom changed
settings-heading = How this device works
set-firm = Firm
set-firm-how = Stands on every page of a packet.
set-address = Line under it
set-address-how = Street and telephone, at the head of what leaves the firm.
set-by = Who walks
set-by-how = Stands beside every answer from now on.
set-device = Name of this device
set-key = Key it seals with
set-device-how = Tells the firm’s tablets apart. Packets carry its number, { $id }.
set-codes-how = Changes limits in sink fit, boring, gas and panel. The local code as adopted and amended governs: ask the building department.
codes-heading = Rules of the place
codes-open = not chosen
codes-open-how = Every book is held up; where they differ, the answer is “ask locally”.
codes-fixed = set by the firm’s catalog
codes-one = the one book there is here
set-keypad = Keypad begins in
set-tolerance = How close a reading is, unless you say otherwise
set-words = Words
set-light = Light
as-device = as the device
light-paper = paper
light-dark = dark
settings-kept = Kept here
settings-houses = { $n ->
    [one] 1 house
   *[other] { $n } houses
}
settings-folder = Everything lies in { $path } and leaves it only when you hand it over.
settings-made = { $software }, catalog { $catalog }
back-to-walk = Back to the walk

## Help
help = Help
guide-heading = How to walk a house with this
guide-walk = One card at a time
guide-walk-text = A touch on an answer is on the disk before the next card is there. Nothing has to be saved. A program that was ended opens again on the same card with everything answered.
guide-walk-order = Questions come in walking order, and only while something still hangs on them: the count at the top shrinks as answers rule questions out. “Places” shows the whole house and takes you to any card.
guide-unsure = When you cannot know
guide-unsure-text = “Can’t tell” and “could not reach” are answers too. They are kept, they stand in the packet, and the odds stay where they were instead of guessing.
guide-measure = Measuring
guide-measure-text = Key whole inches, then add halves of an inch until it is right: ½ and ⅛ make ⅝. Feet, millimeters and typed lengths work as well. Say how close the reading is: it decides whether a limit is met, missed or too near to tell.
guide-photos = Photos
guide-photos-text = A photo belongs to the card it was taken on. Marks are drawn beside it and never into it. A sheet of paper lying flat on a surface gives other lengths on that surface.
guide-next = Look next
guide-next-text = What is worth its minutes now: how much a look could change the price of not knowing, and how long it takes. Say what it showed and the list is weighed anew.
guide-odds = Odds
guide-odds-text = Each row is a rule from 0 to 10. The dot is how many houses out of ten like this one would have it, the band how far that may be off. Open dots are what is usual before anything was seen. An estimate from what was seen and asked, never a finding.
guide-money = Money
guide-money-text = P80 is what to carry for the unknown to be enough eight times in ten, and short twice. Amounts of single conditions do not add up to it, because they seldom all come together.
guide-seal = Leaving and sealing
guide-seal-text = “Before leaving” names what disagrees, what is missing and what is still worth asking. Sealing writes one packet for the office. It can be stopped, and done again after more was recorded.
guide-back = Taking back
guide-back-text = The last fifty acts can be taken back, the last one first. What was recorded is never erased: a correction stands beside it.
guide-decides = Who decides
guide-decides-text = Nothing here is an approval. Electricity, gas, structure, lead, asbestos, mold, water and sewage are decided by the licensed person named beside the result, and the local code governs.
guide-private = Private
guide-private-text = There is no account and no counting, and nothing is asked of any network but the office this device is paired with. Records lie on this device until you hand a packet over or send it there. Copies made for others carry no place where a photo was taken.
guide-keys = With a keyboard
guide-keys-text = Tab goes from key to key, Enter or Space presses it. After an answer the next question is read out and Tab begins there.

## The office of this tablet
send-the-office = the office
office-heading = The office
office-none = This tablet is paired with no office. Packets are carried there by hand.
office-firm = Firm
office-address = Address
link-fingerprint = Sum of its certificate
office-paired = Called { $device } there, since { $when }.
pair-photo = Photograph the office’s code
pair-link = Or paste its link
pair-read = Read the link
pair-compare = Is this your office?
pair-compare-how = Compare the sum with the one that the office’s program printed. Where they differ, somebody else answers there.
pair-name = What this tablet is called there
pair-now = Yes, pair with it
pair-not = No
unpair = Unpair…
unpair-really = Nothing more is sent to { $firm }. Packets already there stay there, and all stay here.
unpair-now = Unpair
unpair-not = Stay paired
fetch-catalog = Look for a new catalog
fetch-nothing-new = The office has nothing newer.
taken-catalog = Its catalog
taken-version = Version { $number }
taken-since = In use here since { $when }.
taken-kept = Kept here since { $when }.
taken-by =
    { $houses ->
        [one] Published by { $by }, { $when }; one house stands in its numbers.
       *[other] Published by { $by }, { $when }; { $houses } houses stand in its numbers.
    }
taken-none = None was published to this tablet; it works by the shipped one.
taken-unused = Not in use:
not-taken = The last one was not taken:
send-now = Send it to the office ({ $size })
send-again = Send on
send-how = It goes on by itself over a bad line, and begins no second time. The packet stays here in any case.
send-unpaired = To send it, pair this tablet with its office first.
send-waiting = Waits for the line to { $firm }
send-going = On its way to { $firm }
send-acknowledged = { $firm } has it and signed a receipt
send-refused = { $firm } did not take it
send-share = { $sent } of { $of } sent
