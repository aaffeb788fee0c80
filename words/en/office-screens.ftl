# The screens of the office.

the-office = the office
office-gone = The office's program does not answer. What was entered before is kept.
office-gone-how = See whether it runs and this machine reaches it, then try again.
packets = Packets
people = People
findings = Findings
compared = Compared
me = Myself

## Signing in
sign-in = Sign in
sign-in-heading = Who is at the desk?
sign-out = Sign out
name = Name
password = Password
set-up-first = This office is not set up yet. Open the link that its program printed when it was started.
set-up = Set up the office
set-up-heading = Set up this office
set-up-how = This link works once. Whoever uses it becomes the first owner: owners add the others and say what each may do.
firm = Firm
firm-how = As it stands on receipts and certificates.
your-name = Your name
name-how = Stands beside every finding you enter.
password-how = At least { $n } letters; several words that do not go together are good. No rule about digits or signs.
password-again = Once more
password-differs = The two passwords are not the same. Type both again.
password-other = Another password
password-old = The one so far
password-new = The new one
password-change = Change it
password-changed = The password is changed. It holds from now on.
language = Language of this page

## Second factor
second-factor = Second factor
second-what = A second factor is a code of six digits from an app on your phone. Whoever learns your password does not get in without it.
second-has = You have one: signing in asks for its code beside the password.
second-wanted = This office asks everybody for a second factor. Set yours up; until then nothing else is shown.
second-begin = Set one up
second-scan = Scan this with an app for such codes, or type the secret there. Then give the code that it shows.
second-picture = A code to be scanned
second-secret = Secret
second-until = It waits ten minutes for your code.
second-code = Code
second-code-how = Six digits, good for half a minute and once.
second-confirm = This is the code
second-another = Set up another phone
second-drop = Remove my second factor
second-lost = Without the phone an owner takes it away for you; for the last owner, whoever looks after the office’s machine gives them another password.
second-set = The second factor is set up. Your other sessions ended.
second-dropped = You have no second factor any more.
password-now = Your password

## Sessions
sessions-heading = Where you are signed in
session-here = this browser
session-from = from { $at }
session-since = since { $when }
session-seen = last used { $when }
session-end = End
sessions-end = End all but this one
sessions-how = Ending one asks for your password.
sessions-ended = Ended.

## People
people-heading =
    { $n ->
        [one] One person works here
       *[other] { $n } people work here
    }
here-since = since { $when }
role = May
role-of = What { $name } may do
role-estimator = estimator
role-office = office
role-reviewer = reviewer
role-owner = owner
role-estimator-how = Reads packets, houses and comparisons.
role-office-how = Reads, and hands packets in.
role-reviewer-how = Reads, hands packets in, and enters findings.
role-owner-how = All of that, and says who works here.
is-locked = Locked after too many wrong passwords.
unlock = Unlock
remove-person = Remove…
remove-really = { $name } will not get in any more; what they entered stays.
remove-now = Remove
stays = Stays
add-heading = Somebody new
add-person = Add
password-first = First password
password-first-how = At least { $n } letters. Hand it over in person; whoever signs in by it must choose their own.
password-show = Show it
first-password = Somebody else chose this password. Choose your own; until then nothing else is shown.
end-sessions = End sessions
has-second = with a second factor
lift-second = Take the second factor away
seen-heading = Who sees this house
seen-all = Everybody of the office who is signed in.
seen-some = Owners, and whom you choose here. Nobody else finds it anywhere.
seen-only-owners = There is nobody here but owners, who see every house.
seen-people = Who sees it besides owners
seen-close = Close it
seen-open = Open it to everybody
seen-closed = This house is closed: owners see it, and those they named.
demand-heading = Second factor
demand-is = Everybody needs a second factor. Whoever has none sets one up before they see anything.
demand-not = A password alone lets people in. A second factor keeps out whoever learned one.
demand = Ask everybody for one
demand-no-more = Leave it to each person
audit-heading = What was done
earlier-lines = Earlier ones
deed-set-up = office set up
deed-signed-in = signed in
deed-wrong-password = wrong password
deed-locked = locked
deed-unlocked = unlocked
deed-signed-out = signed out
deed-password-changed = password changed
deed-person-added = person added
deed-role-set = may do something else
deed-person-removed = person removed
deed-packet-received = packet received
deed-finding-entered = finding entered
deed-sessions-ended = sessions ended
deed-second-factor-set = second factor set up
deed-second-factor-dropped = second factor taken away
deed-second-factor-demanded = second factor asked of everybody
deed-second-factor-left-free = second factor left to each person
deed-wrong-code = wrong code
deed-code-asked = right password, code asked for
deed-had-to-wait = had to wait
deed-wrong-link = wrong set-up link
deed-not-allowed = asked for more than the role allows
deed-request-refused = request refused
deed-house-closed = house closed
deed-house-opened = house opened to everybody
deed-house-shown = house shown to somebody
deed-house-hidden = house hidden from somebody
deed-fault = something failed
deed-restored = records restored

## Packets as they come
inbox-heading =
    { $n ->
        [0] No packet has come yet
        [one] { $wanting ->
            [0] One packet came in, and the firm vouches for it
           *[other] One packet came in, and it needs a look
        }
       *[other] { $wanting ->
            [0] { $n } packets came in, and the firm vouches for all
            [one] { $n } packets came in; one needs a look
           *[other] { $n } packets came in; { $wanting } need a look
        }
    }
inbox-none-how = Seal a house on the tablet, carry the packet here and drop it on this page.
inbox-note = A packet is used whole or not at all, and kept once however often it comes.
houses-n =
    { $n ->
        [one] 1 house
       *[other] { $n } houses
    }
drop-here = Drop packets here, as the tablet sealed them.
choose-packet = Choose files
handing = Handing in { $name }
handing-left =
    { $n ->
        [one] one more waits
       *[other] { $n } more wait
    }
handing-check = Here; every bit of it is being compared.
sending-share = { $n } of 100 sent
not-received = Not taken: { $name }
refused-heading = { $n ->
    [one] One file of the watched folder was refused
   *[other] { $n } files of the watched folder were refused
}
refused-where = { $n ->
    [0] Each lies in its folder “refused”. Taken away from there, it is gone from here.
   *[other] These are the latest; { $n } more lie in its folder “refused”. Taken away from there, they are gone from here.
}
came-in = packet { $n }: received, whole
came-again = packet { $n }: was here already, and is kept once
packet-n = packet { $n }
packet-holds =
    { $n ->
        [one] { $entries } entries, 1 photo, { $size }
       *[other] { $entries } entries, { $n } photos, { $size }
    }
sealed-when = sealed { $when }
megabytes = { $n } MB
kilobytes = { $n } kB
findings-of = { $entered } of { $wanted } entered
not-judged = its forecast is not the one that counts
enter-findings = Enter findings

## A house
house-counts =
    { $n ->
        [one] { $answered } answered, 1 photo
       *[other] { $answered } answered, { $n } photos
    }
house-sums = Even odds at { $low }, 9 in 10 within { $high }.
house-days = Extra days: { $low } at even odds, { $likely } at 8 in 10.
packet-after-demolition = Sealed after demolition was declared; never judged
calculated = What was calculated
to-print = To print
photos-of-walk = Photos of the walk
photo-nth = Photo { $n } of { $of }
photo-before = Photo before
photo-after = Photo after
photo-alone = The photo alone, without its marks
photo-not-inside = This packet holds no such photo
shot-none = The photo is kept; it cannot be shown here.

## Findings
was-said = Said before demolition
was-there = Was there
findings-heading =
    { $left ->
        [0] Every one of { $wanted } conditions has a finding
        [one] One of { $wanted } conditions still has no finding
       *[other] { $left } of { $wanted } conditions still have no finding
    }
findings-entered = { $entered } of { $wanted } entered
findings-all = Nothing is left to enter.
findings-note = Not opened is a finding too: it says that nobody looked, and it counts neither for nor against the forecast. A change is a new entry with its own time; the one before stays.
findings-read-only = You may read here. A reviewer enters what was found.
frozen-when = said { $when }
finding = What was there
outcome-found = found
outcome-not-there = not there
outcome-not-opened = not opened
no-finding = no finding yet
to-enter = to enter
to-enter-here = to enter: press a letter, or open the row
only-left = Only what is left
letter-found = F
letter-not-there = N
letter-not-opened = O
letter-days = D
letter-note = W
letter-left = L
keys-rows = up and down
keys-along = take along
keys-heard = With the keys: arrows go from row to row, with Shift they take rows along; Enter opens a row. { $found }: found. { $notThere }: not there. { $notOpened }: not opened. { $left }: only what is left. { $other }: found something else. Letters hold for all rows taken along.
taken-along = taken along
findings-taken = { $n } rows taken along
finding-kept = { $name }: { $what }, kept. { $entered } of { $wanted }.
findings-kept = { $n } rows: { $what }, kept. { $entered } of { $wanted }.
survey = Survey
opened = Opened
survey-shot = { $n ->
    [0] Photo of the survey: { $what }
    [one] Photo of the survey with one mark: { $what }
   *[other] Photo of the survey with { $n } marks: { $what }
}
photo-large = Look at it large
survey-shot-none = No photo of the survey shows what speaks for or against it.
shot-number = Photo { $n }
finding-shot = Photo of what was there: { $what }
said-money = If it is there, { $range }
said-money-came = Said { $range }; came to { $money }
said-days = Days, if it is there: { $low } to { $high }
in-base-price-note = It is in the base price and in no sum.
keep-found = Found: keep
came-to = came to
days = days
days-how = Like 2, 1.5 or 1 1/2.
days-added =
    { $n ->
        [one] 1 day
       *[other] { $n } days
    }
who-bore = who bore it
borne-in-price = in the price
borne-allowance = allowance
borne-change-order = change order
borne-absorbed = we did
borne-not-said = not said
in-words = in words
finding-photo = Photo of it
finding-photo-sent = The photo is here. It belongs to the finding once that is kept.
entered-by = Entered by { $by }, { $at }.
entered-before =
    { $n ->
        [one] One entry before it stays in the record.
       *[other] { $n } entries before it stay in the record.
    }
cost-not-read = “{ $said }” is no sum.
cost-not-read-how = Write it as 1480 or $1,480.
days-not-read = “{ $said }” is no number of days.
days-not-read-how = Write it as 2, 1.5 or 1 1/2.
letter-other = E
other = Found something else
others-heading = Found though nobody forecast it
other-which = What was it
other-which-how = Some words of its name; the arrows go down the list, Enter chooses.
other-fit =
    { $n ->
        [0] Nothing that has no row yet has these words in its name.
        [one] One fits.
       *[other] { $n } fit, { $shown } shown.
    }
other-leave = Nothing of these
other-chosen = { $name }, to enter: what it cost.
other-kept = { $name }: { $what }, kept. Nobody forecast it.
other-counts = The forecast said nothing of it. It counts as a miss, and what it cost is in what the house came to.

## Forecast beside finding
compare = Compare
compared-heading = { $label } came to { $money }
compared-heading-dots =
    { $n ->
        [0] { $label } came to { $money }: below all twenty dots
        [20] { $label } came to { $money }: above all twenty dots
        [one] { $label } came to { $money }: above one of twenty dots
       *[other] { $label } came to { $money }: above { $n } of twenty dots
    }
compared-heading-none = Nothing of { $label } was opened yet
compared-none-how = There is nothing to compare before the first finding.
compared-opened = { $n } of { $wanted } opened
came-lies = That lies { $lies }.
came-dots =
    { $n ->
        [0] No dot lies below what it came to.
        [one] One of twenty dots lies below what it came to.
       *[other] { $n } of twenty dots lie below what it came to.
    }
one-house = One house proves nothing; it is one line of the record.
where-fell = Where the { $money } fell
came-late = Of it, { $money } came up after the price was fixed.
days-took = Extra days: { $days }, { $lies }
odds-scored = How the odds scored
scored = { $n } opened, { $found } found: { $brier } against { $base } for the base rate of the era.
scored-how = Brier score: the smaller, the closer the odds were to what was there.
scored-few = With so few outcomes it is mostly luck.
differences = Where it differed, most first
carried-average = carried on average
carried-came = carried { $carried }, came to { $came };
said-odds = said { $odds }
not-forecast = not forecast
a-miss = a miss
an-alarm = a false alarm
no-difference = What was opened came to what was carried.
all-differences =
    { $n ->
        [one] And one more
       *[other] And { $n } more
    }
fewer = Only the largest
which-misled = Which clue misled: { $name }
misled-others = Other misses and false alarms
wrong-way = the wrong way
opened-was = Opened: { $what }
unopened-heading =
    { $n ->
        [one] One was not opened
       *[other] { $n } were not opened
    }
unopened-how = They count neither way: nobody knows.

## The track record
track = Track record
track-heading =
    { $n ->
        [one] One place opened: { $found } found, { $expected } to be expected by what we said
       *[other] { $n } places opened: { $found } found, { $expected } to be expected by what we said
    }
track-heading-none = No forecast was put to the test yet
track-none-how = A forecast is put to the test once its house was opened and a finding entered.
track-all = All that was said
bin-said = Said { $range }
bin-off = outside its bar
found-of = { $found } of { $n } found
found-said = { $found } of { $n } found; said { $expected }
nothing-opened = nothing opened
track-luck = { $n } outcomes.
track-luck-holds = Each bar is the room that luck leaves around what was found. What we said lies inside every one, so nothing here speaks against the figures yet.
track-luck-off = Each bar is the room that luck leaves around what was found. Where what we said lies outside one, luck alone hardly explains it.
office-track-small =
    { $n ->
        [one] One outcome in { $houses } houses is a small number.
       *[other] { $houses ->
            [one] { $n } outcomes in one house are a small number.
           *[other] { $n } outcomes in { $houses } houses are a small number.
        }
    }
track-small-how = Below { $n } outcomes or { $houses } houses luck weighs more than anything else; only counts are drawn.
office-track-few = A small number.
track-split = Part by part
split-condition = condition
split-era = era
split-scope = planned work
split-surveyor = who walked
split-month = month
track-overlap = A house can stand in several parts.
brier-against = Brier { $brier } against { $base }.
all-parts =
    { $n ->
        [one] And one more part
       *[other] And { $n } more parts
    }
fewer-parts = Only the first
office-track-money = Money, house by house
sums-how = Band to P80, line to P90, disc what it came to: filled up to P80, open beyond, dashed where a place stayed closed.
sums-said = P50 { $p50 }, P80 { $p80 }, P90 { $p90 }; came to { $money }
sums-said-part = P50 { $p50 }, P80 { $p80 }, P90 { $p90 }; came to { $money } at least
office-track-within = How often the sums held
track-no-sums = A sum counts once every condition of its house has a finding.
money-whole = Money, everything opened
money-part = Money, a place stayed closed: at least
days-whole = Days, everything opened
days-part = Days, a place stayed closed: at least
held-on = held on { $n } of { $of }
held-band = { $low } to { $high } in 10 by luck
came-on-average = Came to { $came } on average.
off-by = The forecast lay { $by } off (CRPS).
track-scores = In figures
score = Score
score-ours = ours
score-base = base rate
score-skill = skill
score-no-skill = none
score-brier = Brier
score-brier-how = 0 is perfect
score-log = log score
score-log-how = nats; 0 is perfect
score-auc = Told apart: { $auc }.
score-auc-how = Area under the ROC curve; 0.5 is a coin, 1 is perfect.
brier-parts = Brier: reliability { $reliability } − resolution { $resolution } + uncertainty { $uncertainty }.
brier-parts-how = The base rates are those of the other houses of the same era. Skill is the share of their error that is gone.
rests-on = These rest on
track-left-out = Left out
track-neither = { $closed } conditions were never opened and { $open } have no finding yet: they count neither way.
out-no-findings = without a finding
out-no-forecast-in-time = opened before any packet was here
out-nothing-opened = nothing was opened
out-catalog-saw-it = forecast by numbers that had learned from them
track-seen = With those the numbers learned from
track-seen-how = A catalog that learned from a house knows it; such forecasts prove nothing and are left out unless asked for.
office-track-again = Forecast again
track-again-how = The last forecast of houses that were sealed again. It may know more than the first, so it is no track record.

## What houses teach
learning = What houses teach
learning-short = Learned
learning-heading =
    { $n ->
        [one] One number of the catalog would change. You decide it.
       *[other] { $n } things in the catalog would change. You decide each.
    }
learning-working = Being worked out from the opened houses
learning-working-how = This goes on by itself and takes from seconds to many minutes. Everything else can be done meanwhile.
learning-none = There is nothing to learn just now
learning-none-how = Houses teach once they were opened, and only once: what they taught stands in the numbers then.
learning-known =
    { $n ->
        [one] One house stands in the catalog’s numbers already and is not counted again.
       *[other] { $n } houses stand in the catalog’s numbers already and are not counted again.
    }
learning-skipped = A house says nothing: { $why }
learning-legend = Open dot: the number in use, in 10. Filled dot: what the opened houses say, held back by the houses the old number counts for. Band: 9 in 10.
learning-note = Nothing changes in a forecast already made: each names the catalog it used. What was taken over reaches the tablets once it is published.
learning-keys = With the keys: arrows go from line to line. { $take }: take it along or leave it. { $refuse }: refuse it. { $houses }: its houses.
letter-take = A
letter-refuse = R
letter-evidence = E
take-along = take along
refuse = refuse
its-houses = its houses
its-houses-n =
    { $n ->
        [one] Opened in one house
       *[other] Opened in { $n } houses
    }
catalog-is = catalog { $catalog }
number-old = old
number-new = new
number-moves = { $old } becomes { $new }, between { $low } and { $high } in 10
line-open = open
line-taken = to take over
line-accepted = taken over
line-was-refused = refused
line-chosen = { $name }: to take over; { $n } in all.
line-left = { $name }: left; { $n } to take over.
line-refused = { $name }: refused.
line-weight = The old number counts for { $n } houses; { $houses } opened ones bear on it.
line-small = A small number: mostly the catalog’s and luck.
held-out = Tried on houses it had not learned from
held-better = Nearer: log score { $after } instead of { $before } on { $n } opened places.
held-worse = No nearer: log score { $after } instead of { $before } on { $n } opened places.
held-scoring = Still being worked out.
held-none = Not tried: that takes ten houses.
held-all = All lines together:
was-accepted = Taken over by { $by }, { $when }.
was-refused = Refused by { $by }, { $when }.
take-line = Take along
leave-line = Leave it after all
refuse-line = Refuse, with a word why
why-refused = Why not?
refuse-now = Refuse it
chosen-n =
    { $n ->
        [one] One line is to be taken over.
       *[other] { $n } lines are to be taken over.
    }
chosen-how = They are written into the firm’s own numbers together.
chosen-sure = The houses then stand in the numbers, and teach no second time: of { $n } proposed lines, those left now are proposed again only by houses still to come.
accept-lines =
    { $n ->
        [one] Take it over…
       *[other] Take { $n } over…
    }
accept-now = Take over now
not-yet = Not yet
learning-accepted =
    { $n ->
        [one] One line is taken over; the catalog is now { $catalog }.
       *[other] { $n } lines are taken over; the catalog is now { $catalog }.
    }
all-lines =
    { $n ->
        [one] And one more line
       *[other] And { $n } more lines
    }
fewer-lines = Only the surest
decided-heading = What was decided
deed-learning-accepted = learned line taken over
deed-learning-refused = learned line refused
deed-catalog-published = catalog published
deed-packet-refused = packet in the folder refused
published-heading = What the tablets work by
published-last = Version { $number }, published { $when }
published-by =
    { $houses ->
        [one] by { $by }; one house stands in its numbers; catalog { $catalog }
       *[other] by { $by }; { $houses } houses stand in its numbers; catalog { $catalog }
    }
published-none = The catalog as it was shipped
published-differs = The firm’s numbers have changed since. Tablets walk by them once they are published.
published-same = The firm’s numbers are those of this version.
published-nothing = The firm has no numbers of its own yet.
publish = Publish to the tablets…
publish-sure = Every paired tablet takes these numbers the next time it is in contact, and forecasts by them from then on. Forecasts already made stay as they are.
publish-now = Publish now

## Tablets
tablets = Tablets
tablets-heading =
    { $n ->
        [0] No tablet hands over to this office by itself
        [one] One tablet hands over to this office by itself
       *[other] { $n } tablets hand over to this office by themselves
    }
tablets-here = Paired
tablets-none = None yet. Packets carried here by hand come in all the same, until the first tablet is invited: from then on they come from tablets of this office only.
invite-heading = A further tablet
invite-what = A code on this page is photographed by the tablet, once. It tells the tablet where this office is and by which certificate to know it.
invite = Show a code
invite-code = The code to be photographed by the tablet
invite-how = On the tablet: Settings, the office, photograph the code. Then compare what the tablet shows with the certificate’s sum that the office’s program printed.
invite-until = Works once. Ends { $when }
invite-link = Or paste this there:
invite-other = Another code
tablet-since = since { $when }
tablet-invited = since { $when }, invited by { $by }
tablet-seen = last here { $when }
tablet-never = was not here yet
tablet-holds-not-said = It has not asked yet for the numbers you publish.
tablet-holds-nothing = It has none of the numbers you published.
tablet-holds-version = It has the numbers of version { $n }.
tablet-holds-another = It has numbers that this office does not know. If the office came back from a backup, publish once more.
tablet-handed = Version { $n } was handed to it; it has not said yet that it took it.
tablet-revoked-at = revoked { $when }
revoke = Revoke…
revoke-really = { $name } will send nothing more. What came from it stays.
revoke-line = Revoke the tablet
revoke-key = The tablet and its key
revoke-key-how = Its key too, where it was lost or stolen: then nothing sealed from now on is vouched for.
arriving-heading =
    { $n ->
        [one] One packet is on its way here
       *[other] { $n } packets are on their way here
    }
arriving-share = { $have } of { $of } here
arriving-since = begun { $since }, last piece { $last }
deed-tablet-invited = tablet invited
deed-tablet-paired = tablet paired
deed-tablet-revoked = tablet revoked
deed-key-revoked = key revoked
deed-key-made = the office’s key made
packet-earlier = This is the house as packet { $n } holds it. The last one is packet { $last }.
packet-last = Show the last one
signature-heading = The household’s signature
signature-drawn = What { $name } drew
signature-by-name = Signed by name alone; no line was drawn.
