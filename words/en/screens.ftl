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
houses-none-how = Start one with the command line: underlath new
last-touched = last touched { $when }
answered-of = { $answered } of { $wanted } answered
photos = { $n ->
    [one] 1 photo
   *[other] { $n } photos
}
not-assessed = not assessed yet
p80 = P80 { $money }
read-only = Answers are recorded with the command line in this version; this screen shows them.
failed-heading = The record could not be read
again = Try again
foot-label = Always at hand
walk = The walk
odds-and-money = Odds and money
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
odds-none = Not assessed yet
odds-none-how = Assess it with the command line: underlath assess
carry = Carry { $money } for the unknown to be right 8 times in 10
money-rule = Money for the unknown
days-rule = Extra days
even-odds = even odds
eight-in-10 = 8 in 10 below
nine-in-10 = 9 in 10 below
mark-said = { $name } { $value }, { $says }
marks-said = { $name }: { $marks }
on-average = { $n ->
    [one] On average { $money } and 1 day. { $note }
   *[other] On average { $money } and { $n } days. { $note }
}
parts-not-added = The three marks are of the sum, drawn from the odds as they stand; the parts are not added.
conditions-heading = What is probably in there
in-ten = { $n } in 10
dot-note = Filled dot: the estimate. Open dot: the base rate before any answer. Nothing seen is never nothing there.
if-there = If it is there: { $low } to { $high }, most likely { $likely }.
frozen-at = Frozen { $when }, catalog { $catalog }, engine { $engine }.
because = { $n ->
    [one] What moved it: one answer
   *[other] What moved it: { $n } answers
}
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
not-known = Not known: { $what }.
one-change = One change at a time
how-reckoned = How it was reckoned
held-against = Held against
assumed-heading = Assumed, because nobody measured or chose it
screens-in-english = The calculations are worded in English in this version.
