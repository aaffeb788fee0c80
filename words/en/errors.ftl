# What cannot be done, why, and how to mend it. `said` is what a part of the program said of a file in its own English.

## Names of what is entered
the-label = the label
the-note = the note
the-name = the name
the-reason = the reason
the-file-name = the file's name

## Answers
error-about-item = { $item }: { $what }
error-words = { $what } cannot be kept as it is
error-words-hint = use 1 to 4,000 letters, figures and signs without control characters
error-out-of-range-hint = measure again; if it really is so, record it once more and say that you are sure
complaint-kept = { $fault }; kept because you are sure
error-no-why = { $item }: say why it could not be reached
error-no-why-hint = for example “panel behind the freezer”
error-no-answer = { $item }: there is no answer
error-one-answer = { $item } takes one answer, { $n } were given
error-no-option = { $item }: “{ $word }” is none of its answers
error-two-lengths = { $item }: “{ $text }” can mean two lengths
error-no-length = { $item }: “{ $text }” is no length
error-no-length-typed = “{ $text }” is no length
error-length-hint = { $note }
error-check-hint = write the check, what it showed and the condition, like “live-scan shows-it bulkhead-wires”; what it showed is shows-it, shows-not or unclear
error-no-check-result = “{ $text }” is no check result
error-no-check = “{ $check }” is no check of the catalog
error-no-outcome = “{ $word }” is no outcome of a check
error-check-silent = the check “{ $check }” says nothing about “{ $condition }”
error-condition-once = a house has “{ $condition }” once, without a place
error-no-condition = “{ $condition }” is no condition of the catalog
error-tolerance-of-length = only a length has a tolerance
error-no-tolerance = “{ $text }” is no tolerance
error-no-tolerance-hint = write ± as a length, like 1/8 in
error-did-you-mean = ; did you mean “{ $word }”?
error-did-you-mean-hint = did you mean { $word }?
error-no-item = “{ $item }” is no item of the walk
error-no-item-hint = the items are those the walk asks; show the house to see them
error-photo-not-here = photograph { $photo } is not in this survey
error-photo-not-here-hint = take the photograph in first
error-answer-unknown-item = the walk has no item “{ $item }”{ $meant }
error-answer-unknown-option = “{ $given }” is no answer to “{ $item }”{ $meant }; it can be: { $known }
error-answer-wrong-kind = “{ $item }” is answered with { $wanted }
error-answer-wrong-unit = “{ $item }” is asked in { $wanted }, not in “{ $given }”
error-answer-out-of-range = { $given } is outside the range of “{ $item }”: { $min } to { $max }
error-answer-stands-alone = “{ $option }” of “{ $item }” stands alone; leave it out or the others
error-answer-empty = “{ $item }” needs at least one option, or “can't tell”
error-answer-unknown-check = there is no check “{ $given }”{ $meant }
error-answer-unknown-condition = there is no condition “{ $given }”{ $meant }
error-number-none = “{ $text }” is not a number; write digits, like 52 or 1.25
error-number-none-unit = “{ $text }” is not a number; write digits, like 52 or 1.25 (in { $unit })
error-number-no-unit = “{ $text }” is in { $found }, but this is asked as a plain number; convert it and enter it again
error-number-unit = “{ $text }” is in { $found }, but this is asked in { $wanted }; convert it and enter it again
error-number-fine = “{ $text }” has more digits than can be kept; use at most three decimals and a million

## What an item takes
takes-option = it takes one option: { $options }
takes-options = it takes one or more options: { $options }
takes-inches = it takes a length, like 19 3/8 or 492 mm (a bare number is in in)
takes-feet = it takes a length, like 19 3/8 or 492 mm (a bare number is in ft)
takes-number = it takes a plain number
takes-number-unit = it takes a number in { $unit }
takes-checks = it takes check results, like “live-scan shows-it bulkhead-wires”

## Houses
error-label = a house needs a label of 1 to 120 characters on one line
error-label-hint = give it a name you would say on the phone, like “Mill Lane kitchen”
error-label-taken = there is already a survey “{ $label }” on this device
error-label-taken-hint = choose another label, or go on recording in that one
error-contract = the contract price must be more than 0 and at most ten billion dollars
error-contract-hint = leave it out if there is none yet
error-no-house = There is no survey “{ $wanted }”
error-no-house-hint = Name one by its label or by the beginning of its id. Here are: { $there }.
error-no-house-yet = Name one by its label or by the beginning of its id. Here are: none yet.
error-no-survey = there is no survey { $survey } on this device
error-log-damaged = the log of this survey is damaged: { $said }
error-rescue-hint = save what is readable with “underlath rescue FILE”, and keep the folder as it is

## Calculations and code books
error-no-calculation = there is no calculation “{ $word }”
error-no-calculation-hint = list them with `underlath calc`
error-no-family = there is no family of codes “{ $word }”
error-no-family-hint = write family=book; families are { $families }
error-no-book = there is no code book “{ $word }” for { $family }
error-no-book-hint = books are { $books }

error-no-packet = no packet { $n } of this house was sealed on this device
error-no-packet-hint = look at the list of its packets
error-packet-gone = the packet lies no more where it was sealed: { $path }
error-packet-gone-hint = seal the house again; nothing in the record is lost
error-packet-changed = the packet is not the file that was sealed: { $path }
error-no-downloads = there is no folder to put files into
error-no-downloads-hint = set XDG_DOWNLOAD_DIR
error-no-sealing = no packet of this house is being sealed
error-no-sealing-hint = begin sealing it
error-no-page-to-sign = this program makes no pages, so there is none for the household to sign
error-nothing-to-sign = there is no page to sign now: begin sealing again, with the household's signature
error-signature-drawn = the drawn signature leaves its field or has more lines than a hand draws; rub it out and draw it again
error-not-signed = { $path }: no household signed it
error-packet-pages = the packet holds no pages
error-packet-pages-hint = seal with a program that was built with pages
error-template-large = { $path }: a folder of templates may hold { $most } files of 1 MB each
error-template-large-hint = take out what the pages do not need

## Settings
error-no-setting = there is no setting “{ $setting }”
error-no-setting-hint = settings are firm, by, device, language, light, unit, tolerance, and codes- with a family
error-setting-value = “{ $value }” is none of the values of { $setting }
error-setting-value-hint = values are { $values }, or nothing
error-codes-fixed = the books for { $family } are set by the firm’s catalog
error-codes-fixed-hint = change them in the firm’s overlay
code-family = { $family ->
    [plumbing] plumbing
    [gas] fuel gas
    [electrical] electrical
    [framing] framing
   *[other] old materials
 }

## The records of this device
error-store = { $said } ({ $place })

## Assessments
error-assess-impossible = these answers cannot all be true together under the catalog: { $items }. Look again at one of them, or answer it “can't tell”; everything recorded stays recorded
error-assess-too-large = this house's network is too large to compute exactly: { $said }
error-assess-catalog = the catalog makes no network: { $said }; check the firm's changes to the catalog
error-forecast-unreadable = the assessment cannot be read: { $said }
error-forecast-older = the assessment has form { $found }; this program reads form { $known }: assess the house again
error-forecast-newer = the assessment has form { $found }; this program reads form { $known }: use a newer program

## Photographs and packets
error-photos-refused = { $n ->
    [one] 1 of { $of } files is no photograph that can be taken in
   *[other] { $n } of { $of } files are no photographs that can be taken in
 }
error-photo-copy-there = { $path } is there already; copies are never written over a file
error-no-marked-photo = No photograph of this house bears marks
error-no-marked-photo-hint = Make one with the verb photo mark, or name photographs by the start of their digests.
error-packet = { $said }
error-packet-io-mend = Check that the disk has room, the path is right and may be written, then try again.
error-packet-altered-mend = Copy the packet again from the device that sealed it and compare its sum; do not repack or edit it.
error-packet-name-mend = Do not unpack this file; ask the sender for the packet as it was sealed.
error-packet-newer-mend = Use a newer version of this program; the packet itself may well be whole.
error-packet-too-large-mend = Ask the sender what this file is; a packet of one house is far smaller.
error-packet-exists-mend = Seal into another folder, or move the file that is there.
error-packet-contents-mend = Run the check of the survey; the log on the device is not changed by this.
error-packet-photo-mend = Put the original photograph back where the survey keeps it, then seal again.
error-packet-pages-mend = If a template of the firm’s own is named above, mend it or take it out of its folder; otherwise send the message with the log. Nothing is lost.
error-photo-unread = photograph { $photo }: { $said }

## Files, folders and what is typed
error-file = { $path }: { $said }
error-file-missing = { $path }: { $said }
error-file-full = { $path }: { $said }
error-path-hint = check the path; nothing was recorded
error-room-hint = make room on that disk and try again
error-not-a-file = { $path } is not a file
error-no-file = there is no file { $path }
error-no-file-hint = check the path; nothing was received
error-too-large = { $path } is larger than 256 MB
error-no-folder = no folder for the records
error-no-folder-hint = name one, or set { $variable }
error-person = a person's name is 1 to 80 characters on one line
error-broken-off = the work was broken off
error-no-command = there is no command “{ $command }”
error-command-args = “{ $command }” cannot be asked so: { $said }
error-no-length-item = “{ $item }” takes no length
error-no-act = there is nothing to take back in this house
error-act-answered-since = { $by } has answered this since; it cannot be taken back from here
error-act-answered-since-hint = answer the question again: both answers are kept
error-input = standard input cannot be read: { $said }
error-input-json = standard input is not JSON: { $said }
error-input-json-hint = give an array of cases, or an object with “cases”
error-reckon = { $said }
error-line = { $file } line { $line }: { $said }
error-nothing-taken = nothing was taken in
error-verify = { $path }: { $said }
error-problems = { $n ->
    [one] 1 problem in { $path }
   *[other] { $n } problems in { $path }
}

## Catalog, samples, demo
error-catalog = { $said }
error-catalog-hint = mend the catalog; nothing was recorded
error-catalog-none = { $path } holds no catalog files (*.toml)
error-catalog-faults = { $n ->
    [one] 1 fault
   *[other] { $n } faults
}
error-no-photo = there is no photograph { $photo } on this device
error-no-screens = this program was built without the screens
error-no-screens-hint = “make field” builds them (it needs Node) and a program with them inside
error-port-taken = port { $port } is taken by another program
error-port-denied = port { $port } is not ours to take: { $said }
error-port-hint = name another with --port, or leave it out
error-catalog-thing = { $said }
error-catalog-thing-hint = kinds are { $kinds }; “underlath catalog show KIND” lists the ids of one
error-overlay-there = { $path } is there already
error-overlay-there-hint = edit it, or name another folder
error-own-words = { $file } line { $line } cannot be read as a message: { $text }
error-own-words-hint = write a message as: id = words
error-no-samples = { $path } holds no sample surveys
error-no-samples-hint = run this in the project's folder, or name the folder with --samples
error-sample = { $path } line { $line }: { $said }
error-sample-hint = the keys are explained in the README beside the samples
error-demo-folder = { $path } holds something this command did not make
error-demo-folder-hint = name another folder with --into
error-demo-twice = the office did not receive the packet exactly once
error-cost = { $condition }: cost { $cost } cannot be kept
error-internal = { $said }

## The office
error-office-packet = this packet was not received: { $said }
error-office-mismatch = the packet of “{ $label }” holds an assessment of another house or of another log; it was not taken. Seal the house again on the tablet
error-office-conflict = packet { $number } of “{ $label }” was already received with other content ({ $held }); this one ({ $offered }) was not taken. Ask which tablet sealed it twice, and seal the house again there
error-office-no-house = the office has no house “{ $wanted }”; it has: { $known }
error-office-several = “{ $wanted }” can mean several houses: { $known }; give more of the id
error-office-no-packet = the office has no packet { $packet }
error-office-no-forecast = no packet of the house { $survey } came before its demolition began, so there is no forecast to hold it against
error-office-not-forecast = the forecast of this house does not hold “{ $condition }”; what was found all the same is entered under “Found something else”, or with “underlath finding”
error-office-in-forecast = the forecast of this house holds “{ $condition }”; enter what was found in its row
error-office-long-note = a note has at most { $most } letters
error-office-no-place = the forecast of this house has no place “{ $place }”; it has: { $known }
error-promise-refused-hint = leave it out, or have it looked at and record that first; “underlath assess” lists what is in scope
error-office-no-condition = “{ $condition }” is no condition of the catalog{ $meant }
error-office-database = the office's database { $path } cannot be used: { $said }. restore it from the last backup; packets can be received again, findings cannot
error-office-newer = the office's database { $path } was written by a newer program; use that one
error-finding-cost = “{ $condition }” was { $outcome } but carries a cost or days; enter it as found, or leave both at 0
error-finding-paid = “{ $condition }” was { $outcome }, so nobody paid for it; enter it as found, or leave out who paid
error-finding-range = cost { $cost } and { $days } days for “{ $condition }” cannot be kept; both must be 0 or more, days at most 1000

## Calculations
error-nothing-drawn = this answer has nothing to draw; no file was written
error-drawing-name = “{ $path }” is no name for a drawing
error-drawing-name-hint = name a file, such as arm.svg
error-no-drawing = { $path } is there and is no drawing; it was left alone
error-no-drawing-hint = name another file
error-stands-alone = “{ $word }” stands alone
error-stands-alone-hint = write answers as --name value
error-no-value = --{ $name } has no value
error-no-value-hint = write --name value

## The window
error-no-folder-window-hint = set UNDERLATH_HOME to one and start again

## Places, sheets, suppositions
error-place-no-word = “{ $label }” has no word in it
error-place-no-word-hint = name it, for example by what it is over or beside
error-place-there = “{ $label }” is there already
error-place-there-hint = record its answers with --place { $place }, or use other words for another one
error-places-full = the house has { $n } of “{ $station }” already; a walk takes in { $most }
error-places-full-hint = survey the rest as another house, or take one out
error-place-first = “{ $place }” is the first of its kind and stays
error-place-first-hint = where there is none, answer its questions so; to change which is first, record it there
error-item-once = “{ $item }” is asked once for the house, not at “{ $place }”
error-item-once-hint = leave the place out
error-item-at-each = “{ $item }” is asked at each of { $n } places
error-item-at-each-hint = say which with --place: { $places }
error-place-out = “{ $place }” was taken out
error-place-out-hint = add it again under its name: what was recorded there is still kept
error-no-place = the house has no place “{ $place }”
error-no-place-hint = it has: { $places }
error-station-once = a house has “{ $station }” once
error-no-station = “{ $station }” is no station of the walk
error-several-hint = there can be several of: { $stations }
error-name-long = a name has one line of at most { $most } characters
error-name-long-hint = keep the rest for a remark
error-no-stop = the walk has no station or place “{ $name }”
error-no-stop-hint = the stations are: { $stations }
error-no-stop-near-hint = did you mean “{ $near }”? the stations are: { $stations }
error-order-start = the walk starts with what is planned
error-order-start-hint = the plan decides what is asked at all other stops; move one of those
error-order-first = “{ $place }” is the first stop already
error-order-last = “{ $place }” is the last stop already
error-order-there = “{ $place }” is walked there already
error-order-listed = the house is walked in the catalog's order already
error-act-ordered-since = { $by } has changed the order of the walk since; it cannot be taken back from here
error-act-ordered-since-hint = move the stop again: both changes are kept
error-demolition-again = { $by } has declared demolition of this house already ({ $at })
error-promise-late = { $by } declared demolition of this house ({ $at }); a promise is made before anything is opened
error-promise-late-hint = a promise made by then stands in the packet sealed by then; seal this one without a promise
error-demolition-none = nobody has declared demolition of this house
error-demolition-sealed = the house was sealed after demolition was declared, so the declaration stands
error-demolition-sealed-hint = the office may have been told; what was opened, or was not, is entered there as a finding
error-which-place = it is not said which place is meant
error-which-place-hint = name the place: underlath place HOUSE PLACE --label NAME
error-place-needs-name = one more of “{ $which }” needs a name
error-place-needs-name-hint = for example: underlath place HOUSE bulkhead "Soffit over the refrigerator"
error-sheet-name = “{ $file }” is no name for a sheet
error-sheet-name-hint = name a file, such as mill-lane.html
error-no-sheet-there = { $file } is there and is no sheet; it was left alone
error-other-file-hint = name another file
error-no-survey-here = there is no such survey on this device
error-no-check-item = this catalog’s walk has no item that takes the results of checks
error-nothing-supposed = nothing is supposed
error-nothing-supposed-hint = suppose an answer, the result of a check, a look, or a condition priced in
error-neither-yes-nor-no = “{ $word }” is neither yes nor no
error-neither-yes-nor-no-hint = write --shows CHECK KEY yes, or --shows CHECK KEY no
error-one-look = one look is supposed at a time
error-one-look-hint = suppose the result of the others with --shows

## Marks and measuring on photographs
the-words = the words
error-photos-begin-so = several photographs begin with “{ $photo }”
error-photos-begin-so-hint = write more of its digest
error-no-mark = the photograph has no mark { $mark }
error-no-mark-hint = “underlath photo marks” lists them
error-marks-full = a photograph takes { $most } marks
error-marks-full-hint = take some back, or mark another picture
error-mark-outside = the point { $x },{ $y } lies outside the picture
error-mark-outside-hint = the upright picture is { $width } by { $height } pixels
error-no-point = “{ $text }” is no point
error-no-point-hint = write two numbers with a comma, like 1204,860
error-no-paper = “{ $text }” is no paper
error-no-paper-hint = write letter, a4, or two lengths like 12x18
error-no-mark-id = “{ $text }” is no mark’s id
error-plane-number = a mark or a size is not a number
error-plane-number-hint = mark again
error-plane-outline = the four marks are no outline of a sheet
error-plane-outline-hint = mark its corners one after the other around it
error-plane-horizon = an end lies beyond the horizon of the sheet’s plane
error-plane-horizon-hint = mark ends that lie in the plane of the sheet
error-plane-no-length = both ends are the same point
error-plane-no-length-hint = mark two ends
error-plane-uncertain = { $inches } in, give or take { $give_or_take } in: too uncertain to be recorded
error-plane-uncertain-hint = put the sheet nearer to what is measured, in its plane, and photograph both straight on

## Lengths as they are written
length-how = write 19 3/8, 19.375, 3' 6 1/2" or 492 mm
length-too-fine = it has more digits than a length can keep; write 19 3/8 or 19.375
length-too-long = it is longer than any house (the limit is 10 km); check the unit
length-range = it could be a range; enter one number, and the other as its own reading
length-rounded = not a whole number of 1/8 µm: rounded once
length-too-many = too many characters for a length; { $how }
length-about = marked as about: take the reading again if you can
length-nothing = nothing to read; { $how }
length-comma = a comma may be a decimal point or a thousands mark; write 36.5, or 1200 without a comma
length-negative = a length is not negative; write the distance, and say which way in a note
length-inches-first = inches stand before feet; write feet first, like 3' 6 1/2"
length-feet-and-metric = feet and metric in one length; write it in one system
length-feet-twice = feet are written twice; write the second number as inches, like 3' 6"
length-part-of-foot = part of a foot and inches together: check the feet
length-twelve-inches = 12 inches or more after feet: check the feet
length-decimal-and-fraction = a decimal and a fraction in one number; { $how }
length-over-zero = a fraction over zero; write it like 3/8
length-whole-fraction = the fraction is a whole or more: check it
length-odd-fraction = no tape has this fraction; halves to sixty-fourths are usual
length-metric-fraction = a fraction of a metric unit: check the unit, or write a decimal
length-no-number = a unit without a number; { $how }
length-hyphens = a length is not negative; write one hyphen at most, like 3'-6"
length-range-or-feet = it could be a range or feet and inches; write 5' 6 1/2", or enter one number of the range
length-no-unit = numbers without a unit between them could be feet and inches or a slip; write 3' 6 1/2" or 36 1/2
length-not-one = it does not read as one length; { $how }
length-inches-and-metric = inches and metric in one length; write it in one system
length-after-unit = something follows the unit; { $how }
length-no-unit-word = “{ $word }” is not a unit this reads; { $how }
length-odd-sign = “{ $sign }” does not belong in a length; { $how }
length-two-sizes = two sizes in one entry; enter each as its own length
length-slash = a fraction needs one whole number above and one below, like 3/8
length-run-together = two numbers run together; { $how }

## The household's answers
error-sheet-large = the file has { $bytes } bytes, more than a sheet's answers ever have
error-sheet-unreadable = the file cannot be read as answers to a sheet: { $said }
error-sheet-other-kind = the file does not hold answers to a sheet
error-sheet-newer = the file has form { $found }; this program reads form { $known }: use a newer program
error-sheet-house = these answers are for survey { $survey }, another house
error-sheet-house-hint = name the house they are for; nothing was recorded
error-sheet-twice = “{ $item }” is answered twice in the file
error-sheet-not-asked = “{ $item }” is not asked on a sheet
error-sheet-words = the words at { $place } cannot be kept: at most { $most } letters, figures and signs, none that steer a screen
error-sheet-firm = the words at the firm's name cannot be kept: at most { $most } letters, figures and signs, none that steer a screen
error-sheet-day = “{ $text }” is no day; a sheet writes it like 2026-04-10
error-sheet-empty = the file holds no answers
error-sheet-nothing-hint = nothing was recorded
error-sheet-file-hint = ask for the file that “Save my answers” made, as it was saved; nothing was recorded
error-sheet-changed-hint = the file was changed after it was saved: ask for it again, or record the answers by hand; nothing was recorded

## Promises and suppositions
error-not-in-scope = “{ $key }” is not in scope of this house
error-not-in-scope-near = “{ $key }” is not in scope of this house (did you mean “{ $near }”?)
error-promise-nothing = a promise covers at least one condition
error-promise-cap = a promise has a cap above $0; { $given } was given
error-promise-terms = the loading of a promise lies between 0 and { $most }, its chance between 0 and 1; { $given } was given
error-promise-twice = “{ $key }” is named twice
error-promise-gated = “{ $key }” cannot be promised away: a named licensed person looks first ({ $until })
error-promise-in-base = “{ $key }” is in the base price and no part of a promise
error-promise-no-cost = “{ $key }” has no cost of its own to promise
error-suppose-in-base = “{ $key }” is in the base price already: there is nothing to suppose
error-suppose-made = the check “{ $check }” was made on “{ $key }” already; suppose another result of it instead

## Keys and what they signed
error-packet-seal-mend = Do not rely on this packet: ask the firm's office for its own copy, or seal the house again on the device.
error-key-none = this is not an Ed25519 key as this program writes it ({ $said })
error-key-weak = this key is one that anybody could sign with
error-key-shape = this is not a compact JSON Web Signature of three parts
error-key-long = this is longer than anything this program signs
error-key-base64 = its { $part } is not base64url as RFC 7515 spells it
error-key-header = its header is not as this program writes it ({ $said })
error-key-algorithm = it is signed by “{ $found }”; only EdDSA is taken
error-key-critical = its header has “crit”; nothing critical is taken
error-key-kind = it is “{ $found }”, where “{ $wanted }” is wanted
error-key-kid = it names the key { $found }; the key here is { $wanted }
error-key-not-the-firms = it is signed by the key { $key }, which is not among the firm's
error-key-not-the-firms-hint = use the public keys of the firm that signed it, as its office wrote them out last
error-key-signature = its signature does not hold: what it signs was changed, or another key signed it
error-key-payload = what it says is not as this program writes it ({ $said })
error-key-contents = what it says does not hold together ({ $said })
error-key-signing = the key could not sign ({ $said })
error-key-open = the secret key { $path } can be read by others on this machine (mode { $mode })
error-key-open-hint = if nobody else can have read it, close it with: chmod 600 { $path }; otherwise make a new key and have the old one revoked
error-key-again-hint = copy the file again from where it was written, without opening it in an editor
error-key-file = { $path }: { $said }
error-no-device-key = this device has no key ({ $path })
error-certificate-other-key = the certificate is for the key { $found }; this device seals with { $here }
error-certificate-other-key-hint = write a new request on this device and have it certified
error-no-firm-keys = this device has no public keys of a firm to hold the receipt against
error-no-firm-keys-hint = take the office's certificate in first: underlath keys accept
error-receipt-no-packet = no packet with the sum { $sum } was sealed on this device
error-file-there = another file is already there: { $path }
error-device-unnamed = the device has no name yet
error-device-unnamed-hint = give it with --name; it is what the office will call the device
error-nothing-revoked = this office has revoked nothing, so there is no list
error-no-time = “{ $text }” is not a time with an offset; write it like 2026-04-14T09:30:00-05:00
error-office-no-firm = give the firm's name with --firm, in at most 120 letters
error-office-no-key = this office has no key yet ({ $path })
error-office-no-key-hint = make one: underlath keys new-office --firm NAME
error-office-key-revoked = the key { $key } is revoked; have the device make a new one and ask again
error-office-never-certified = this office never certified { $what }
error-office-not-vouched = the packet of “{ $label }” was not taken: no certificate of this office vouches for the key { $key } that sealed it
error-office-not-vouched-hint = nothing is lost on the device: have it certified (underlath keys request) and seal the house once more; if you know where the packet comes from: underlath receive --uncertified
error-office-harmful = { $file } was not taken: the scanner of this office found something in it that does harm
error-office-harmful-hint = open it nowhere; whoever looks after the scanner can say what it found
error-office-not-scanned = it was not taken: the scanner { $program } could not look at it: { $why }
error-office-not-scanned-hint = nothing of it was kept; put the scanner right and send it again. It is started with the path of a file and ends with 0 where it found nothing, 1 where it found something
scanner-not-started = it could not be started: { $said }
scanner-ended = it ended with { $code }
scanner-broken = it came to no end of its own
error-office-register-lost = this office has a key ({ $secret }), but its database { $path } knows nothing of it, nor of what was certified and revoked
error-office-register-lost-hint = restore the database from the last backup; only where there is none: move the secret away, make a new key and certify every device again
error-office-not-taken = the packet of “{ $label }” was not taken: { $said }
error-office-not-taken-hint = nothing is lost on the device: have it certified again and seal the house once more
error-verify-key = { $path } ({ $name }): { $said }
fault-no-certificate = no firm vouched for the key that sealed it
fault-certificate = its certificate is not this firm's: { $said }
fault-too-early = its certificate began only on { $from }
fault-expired = its certificate had ended on { $until }
fault-receipt = the receipt is not this firm's: { $said }
fault-receipt-other = the receipt is for another packet, { $sum }
fault-received-before = the receipt says { $at }, more than a day before the packet was sealed
fault-list = the revocation list is not this firm's: { $said }
fault-list-old = the revocation list is number { $number }; when the office received the packet it already had number { $then }
fault-revoked = its key is revoked since { $since }: { $why }
fault-revoked-unproven = its key is revoked since { $since } ({ $why }); that it was sealed before, only a receipt could show

## track, learn

error-learn-elsewhere = { $place } changes “{ $key }” of “{ $condition }” too
error-learn-elsewhere-hint = Take it out there first, or leave this line.
error-learn-meant = Did you mean “{ $near }”?
error-learn-no-houses = There is no house to learn from: none has a forecast that came before its first finding.
error-learn-no-line = There is no proposed line “{ $line }”; underlath learn lists them.
error-learn-nothing = No line was accepted; name at least one.
error-learn-nothing-proposed = Nothing is proposed from the catalog as it is now. Open what the houses teach again.
error-learn-no-folder = There is no folder for the firm’s own numbers
error-learn-no-folder-hint = Name one with --overlay, or give the program a home.
error-learn-one-file = { $path } is one file; learned numbers are a file of their own
error-learn-one-file-hint = Put the file into a folder and name the folder.
error-learn-other-catalog = The proposal was made from another catalog; learn again.
error-learn-stopped = Learning stopped by a fault of the program. Nothing was changed.
error-learn-together = “{ $condition }/prior” cannot stand beside what the catalog says of “{ $other }”: one excludes or means the other
error-learn-together-hint = Accept “{ $other }/prior” too if it is proposed, or leave this line.
error-learned-damaged = { $path } cannot be read: { $said }
error-learned-damaged-hint = It says from which houses a catalog learned. Put it back from a backup; without it the record cannot leave those houses out.
error-publish-large = The firm’s own files are too large to be published: at most 4 MB, and 1 MB each.
error-publish-name = “{ $name }” is no name under which a file can travel to every tablet
error-publish-name-hint = Use plain letters, digits, hyphens and dots, at most 64, and end it in .toml; words of your own lie in words/es.
error-publish-nothing = There is nothing to publish: the firm has no numbers of its own over the shipped catalog.
error-publish-own = This office works by a catalog of its own ({ $path }), which no tablet has
error-publish-own-hint = What lies over the shipped catalog can be published; move your changes into an overlay.
error-publish-same = Nothing changed since version { $number } was published.
error-catalog-kept = the catalog that came from the office cannot be read here: { $said }
error-catalog-sums = the files of the published catalog are not the ones that were signed
error-catalog-older = the office offers version { $number } of its catalog as a new one, and this device has version { $had }
error-catalog-older-hint = the office may have come back from a backup: have it publish again until its number is higher
error-catalog-extends = version { $number } of the office’s catalog was made over another shipped catalog ({ $theirs }) than this program has ({ $ours })
error-catalog-extends-hint = bring office and tablet to the same version of the program, and have the office publish again
error-catalog-unloadable = version { $number } of the office’s catalog makes no catalog here: { $said }
error-catalog-beside = version { $number } of the office’s catalog does not go with what is chosen on this device: { $said }
error-catalog-beside-hint = leave the choice of code books open in the settings of this device, and look again
catalog-unused-given = another catalog was named when the program was started
catalog-unused-shipped = it was made over another shipped catalog than this program has; a new one is needed from the office
catalog-unused-own = this device has numbers of its own in { $folder }, which go before it; take them away, and it is used

# The line to the office
error-no-link = this is no link of an office
error-link-part = the part “{ $part }” of the link cannot be read
error-link-hint = take the whole line that begins with “underlath-office:”, as the office shows it
error-not-paired = this device is not paired with an office
error-not-paired-hint = have an owner of the office invite it, then: underlath pair LINK
error-no-such-packet = no packet of this house has the sum { $packet }
error-no-code = there is no QR code in this picture that can be read
error-no-code-hint = take it from closer and straight on, without glare on the screen; or paste the link as words
error-no-line = the office does not answer: { $said }
error-no-line-hint = see whether the office runs, and whether this device is in the same network
error-stranger = somebody else answers at the office's address: the certificate is another one than at pairing
error-stranger-hint = nothing was sent. Compare the sum the office prints; where it made a new certificate, pair anew
error-office-said = the office says: { $said }
sending-acknowledged = received { $when } by { $firm }
sending-receipt = the office's receipt does not hold; nothing is taken for acknowledged
sending-changed = the packet's file changed while it was sent; seal the house again
sending-said = { $message }; { $hint }
sending-line = the office does not answer; it is tried again by itself
sending-strange = what answers is no office; it is tried again by itself
