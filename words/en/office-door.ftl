# The office over the network: what its console says, and what its door refuses.

## office
office-open = The office is open at { $address }
office-fingerprint = SHA-256 of its certificate: { $sum }
office-certificate-new = This certificate was made just now. Browsers warn of it until somebody compares the sum above and lets it pass.
office-no-screens = The screens were not built into this program; packets are taken in all the same (“make field” builds one with them).
office-set-up = Nobody is here yet. Whoever opens this link becomes the first owner; it works once, and until this program ends:
office-how = Ctrl-C ends it; whoever is being answered is let finish.
office-scans = Packets and photographs are kept once { $program } has looked at them.
office-log-goes = The lines of the audit log go to { $to }, too.
log-not-sent = the audit log cannot be sent to { $to }: { $said }; what is missing follows once it can
error-log-to = { $to } is no machine the log can be sent to
error-log-to-hint = give its name and port, such as collector.example:6514
error-log-certificate-hint = give the certificates in PEM by which that machine is known
office-watches = Packets that appear in { $folder } are taken in, and set aside there.
watch-received = { $about } (from the folder)
watch-link = this is a link, and links are not followed; lay the packet itself here
watch-no-file = this is no file
watch-stays = { $name } stays where it is: { $why }
error-watch-none = there is no folder { $path } to watch
error-watch-folder = { $path } cannot be watched: it is no folder, or one with the office’s own
error-watch-hint = name a folder that is there and lies apart from the office’s
office-host = this office is asked by a name that is not its own
office-host-hint = open it by its address, or start it with --name and that name
office-origin = this was asked by another page, and is not answered
office-packet-large = a packet of more than { $most } GB is not taken
office-full = the disk of the office has no room for it; nothing of it was kept
office-full-hint = make room there and send it again
office-disk = the disk of the office could not keep it
office-disk-hint = whoever looks after that machine should check the disk
office-again = send it again
office-no-key = this office has no key of its own yet
office-fault = something failed inside the office
office-fault-hint = whoever looks after it finds the reason in the log of the people’s screen, as “something failed”
office-backed-up = backed up into { $file }
office-restored = restored into { $folder }
office-backup-holds = { $files ->
    [one] 1 file
   *[other] { $files } files
}, { $size } kB, as of { $at }
office-password-unread = the password could not be read from standard input: { $said }
office-password-set = { $name } has another password, and is signed in nowhere

## people
people-signed-out = nobody is signed in in this browser
people-first-password = this password was chosen by somebody else; choose your own before anything else
people-second-first = this office asks everybody for a second factor; set yours up before anything else
people-second-demanded = this office asks everybody for a second factor, so that nobody gives theirs up
people-code-wanted = the password is right; give the code that your phone shows as well
people-wrong-code = this code is not the one of this moment, or was used before
people-wrong-code-hint = a code is good once; wait for the next, and see whether the clocks of phone and office agree
people-own-second = your own second factor is removed under Myself, by password and code
people-own-second-first = set up your own second factor before you ask everybody for one
people-not-begun = setting it up was not begun here, or more than ten minutes ago
people-not-begun-hint = begin again, and scan the new code
people-too-quick = more was asked in this minute than a person can
people-too-quick-hint = wait a minute
people-role = this takes the role { $least } or more; yours is { $role }
people-role-estimator = estimator
people-role-office = office
people-role-reviewer = reviewer
people-role-owner = owner
people-wrong = there is nobody here by that name and password
people-wrong-hint = both are compared; after five wrong passwords one must wait
people-locked = too many wrong passwords were given for this name
people-locked-hint = wait a quarter of an hour, or have an owner unlock it
people-too-many = too many attempts came from this address
people-wait-hint = wait a quarter of an hour
people-busy = too many people sign in at this moment
people-busy-hint = try again
people-link = this link was used, or belongs to an earlier start of the office
people-link-hint = while nobody is here, the office prints a new one when it is started
people-name = give a name on one line, in at most 80 letters
people-name-taken = somebody here is called “{ $name }” already
people-short = the password has fewer than { $n } letters
people-long = the password has more than { $n } letters
people-guessable = the password is made of names of this office, of common words or of runs of letters
people-became-known = this password became known at a break-in elsewhere, and guessers try it first
people-weak-hint = four or five words that have nothing to do with each other are easy to keep and hard to guess; digits and capitals are not needed
people-wrong-old = this is not the password you have now
people-nobody = there is no such person here
people-last-owner = this is the last owner
people-last-owner-hint = make somebody else an owner first
people-no-command = there is no command “{ $name }”
people-arguments = the arguments of “{ $command }” cannot be read: { $what }

## errors
error-address = { $address } cannot be listened on: { $said }
error-address-hint = name another with --address, such as 127.0.0.1:8443
error-certificate = { $path } is no certificate or key to show: { $said }
error-certificate-hint = both are PEM files, and the key is that of the first certificate
error-certificate-name = no certificate can be made for { $names }: { $said }
error-office-served = another program serves the office in { $path }
error-office-served-hint = end it first
error-backup-no-office = there is no office in { $path }
error-backup-there = { $path } is there already; a backup is written to a new file
error-backup-not-empty = { $path } is not empty; a backup is restored into an empty folder
error-backup-not-empty-hint = name another folder with --office, or put this one aside
error-backup-not-whole = { $path } is no whole backup: { $what }. Nothing was restored
error-backup-not-whole-hint = take an earlier backup
error-backup-archive = it cannot be read ({ $said })
error-backup-no-list = the list of its files is missing, so it was cut off or is something else
error-backup-newer = a newer program made it
error-backup-file = “{ $name }” is altered, missing or not in its list

# Tablets on the line
tablet-not-paired = this tablet is not paired with this office
tablet-pair-hint = have an owner of the office invite it, and pair it by the new link
tablet-revoked = “{ $name }” was revoked at this office ({ $since }); it may send nothing more
tablet-code = this invitation was used, is too old, or is another one
tablet-code-hint = an invitation works once and for ten minutes; have the office make a new one
tablet-name = give the tablet a name on one line, in at most 120 letters
tablet-none = there is no such tablet here
tablet-address = “{ $address }” is no address with a port by which a tablet could find this office
tablet-recipe = what the tablet says of its packet cannot be read
office-range = a piece came without where it belongs
arriving-not-begun = this packet was not begun here, or was given up
arriving-foreign = this piece is not of the packet as it was told
arriving-not-whole = not all of the packet is here
arriving-another = what came is another file than was told
arriving-too-many = more than { $most } packets of this tablet are underway and not whole
arriving-too-many-hint = finish one of them first
