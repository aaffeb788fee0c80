# Answers, odds, advice and reasons, the same on every screen, page and line.

## Options said alike at every item. Their English is held against the catalog's.
option-cant-tell = can't tell
option-yes = yes
option-no = no

## Answers
answer-cant-tell = can’t tell
answer-not-reached = could not reach: { $why }
answer-taken-back = taken back
answer-no-check = no further check
answer-check-shows = { $check } shows: { $conditions }
answer-check-shows-not = { $check } does not show: { $conditions }
answer-check-open = { $check } leaves open: { $conditions }
answer-with-remark = { $answer }; { $remark }
answer-entered = { $answer } (entered “{ $entered }”)
rival-answer = { $answer } ({ $by }, { $when })
quantity = { $number } { $unit }
length-outside = outside what is plausible here, { $least } to { $most }
year-about = about: give or take { $n } years
# A name and what belongs to it.
at-place = { $what } ({ $place })
named = { $name }: { $text }

## Odds. Never a claim of certainty.
odds-unlikely = unlikely
odds-possible = possible
odds-even = even
odds-likely = likely
odds-expect = expect it
in-10-less = less than 1 in 10
in-10 = about { $n } in 10
in-10-more = more than 9 in 10
band-between = between { $low } and { $high } in 10
band-up-to = anywhere up to { $high } in 10
band-from = { $low } in 10 or more
in-100-less = less than 1 in 100
in-100 = { $n } in 100
in-100-more = more than 99 in 100

## What moved the odds
reason-far-up = far up: { $question } — { $answer }
reason-up = up: { $question } — { $answer }
reason-little-up = a little up: { $question } — { $answer }
reason-little-down = a little down: { $question } — { $answer }
reason-down = down: { $question } — { $answer }
reason-far-down = far down: { $question } — { $answer }

## Advice in a word or two
advice-licensed-look-first-short = Licensed look first
advice-price-in-or-test-short = Price in or test
advice-in-base-price-short = In the base price
advice-below-floor-short = Not raised
advice-nothing-short = Nothing
advice-price-in-short = Price in
advice-allowance-short = Allowance
advice-unit-price-short = Unit price
advice-exclude-short = Exclude

## Advice in a sentence
advice-licensed-look-first = Stop here first: { $until }.
advice-price-in-or-test = Treat as present: put it in the price, or before signing: { $until }. Never exclude it.
advice-in-base-price = The base price holds it.
advice-in-base-price-assumed = Usually in the base price; taken so here. Ask whether it is.
advice-below-floor = Too small to raise.
advice-nothing = No cost of its own.
advice-price-in = Put { $sum } in the price.
advice-allowance = Carry an allowance of { $sum }, credited back if unused.
advice-unit-price = Exclude it, with a price agreed beforehand (about { $sum } if it is there).
advice-exclude = Exclude it by name.

## Who decides
caution-who-decides = { $caution } Who decides: { $who }; local code governs.

## Why something is not known; the first two are held against the words of a frozen assessment.
why-cant-tell = can't tell
why-disagree = answers disagree

## Looks
look-ask-first-open = an answer that could forbid it is still open: settle it first
invasive-0 = look
invasive-1 = touch or instrument
invasive-2 = opens a part
invasive-3 = pinhole
invasive-4 = small opening
invasive-5 = opening

## Findings
found = found
found-not-there = not there
found-not-opened = not opened
found-no-entry = no finding yet

## The caution of every assessment, held against the words of a frozen one.
assessment-caution = A survey aid, not an inspection, a design or a code ruling. “Nothing seen” is never “nothing there”. Electrical, plumbing, gas, structural, asbestos, lead and mold work belongs to the licensed or certified person named with each condition, under the locally adopted code.

## Lists cut short
and-more = { $list } and { $n } more

## How an estimate came about
moved-far-up = far up
moved-up = up
moved-little-up = a little up
moved-little-down = a little down
moved-down = down
moved-far-down = far down
step-others = { $n ->
    [one] one more answer
   *[other] { $n } more answers together
}

## The unknown, drawn
chances-money = Money for the unknown, twenty dots, each one chance in twenty
chances-money-said = Half of the outcomes lie within { $p50 }, eight in ten within { $p80 }, nine in ten within { $p90 }.
chances-days = Extra working days
chances-days-said = Half of the outcomes take at most { $p50 } days, eight in ten at most { $p80 }, nine in ten at most { $p90 }.
chance-even = even odds
chance-8-in-10 = 8 in 10 below
chance-9-in-10 = 9 in 10 below

## Trades of the calculations
calc-trade-drains = Drains and vents
calc-trade-framing = Framing
calc-trade-gas = Gas
calc-trade-electrical = Electrical
calc-trade-openings = Openings and paint
calc-trade-household = The household
calc-trade-lights = Lights
calc-trade-lengths = Lengths and areas

## What can be taken back
act-photo = photograph { $name }
act-mark = a mark
act-mark-gone = a mark taken back
act-taken-back = something taken back
