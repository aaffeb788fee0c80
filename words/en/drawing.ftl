# What drawings say.

drawing-above-must-move = Above { $x } it must move
drawing-above-must-move-row = above { $x } it must move
drawing-above-this = above this it must move
drawing-all-day = all day
drawing-and-conflicts-more = and { $n } conflicts more
drawing-and-days-more = and { $n } days more
drawing-and-more = and { $n } more
drawing-and-rows = and { $n } rows more
drawing-and-rows-more = And { $n } rows more.
drawing-and-trades-more = and { $n } trades more
drawing-bore-plates = Nail plates on { $edges }: less than { $plate } is left.
drawing-bore-said = The hole needed is { $hole }; the largest by the table is { $largest }. The member is { $depth } deep; { $near } and { $far } of wood are left at the edges, and { $kept } must be kept.
drawing-bore-title = { $member } with its hole, to scale
drawing-bottom-of-strainer = bottom of strainer
drawing-bowl-deep = bowl { $x } deep
drawing-cabinet-floor = cabinet floor
drawing-calendar-title = What is off, by working day
drawing-carries = { $name } carries { $x }
drawing-ceiling-moved = { $width } by { $depth }, { $joists }, { $lights }, { $moved } moved off a joist.
drawing-ceiling-said = { $width } by { $depth }, { $joists }, { $lights }.
drawing-ceiling-signs = O light   @ moved off a joist   X fixture replaced   : joist
drawing-ceiling-title = Ceiling from below, to scale
drawing-chance-not-known = chance not known
drawing-counter = counter
drawing-counter-above-floor = counter { $x } above the finished floor
drawing-cut-at-hole = cut at the hole
drawing-day = day
drawing-day-conflict = Day { $day }: { $words }
drawing-day-head = Day { $day }
drawing-day-head-small = day { $day }:
drawing-day-off = day { $day }, { $words }
drawing-days-off = days { $first } to { $last }, { $words }
drawing-deep = { $x } deep
drawing-disposer-outlet = disposer outlet
drawing-edges = { $n ->
    [one] 1 edge
   *[other] { $n } edges
}
drawing-fall-said = { $length } long, falling { $fall }.
drawing-fall-title = Pipe from { $from } to { $to }, laid out straight
drawing-falls = falls { $x }
drawing-feet = { $x } feet
drawing-feet-inches = { $feet } { $inches }
drawing-filled-to-chance = filled to the chance, here 4 in 10
drawing-finished-floor = finished floor
drawing-fixture-hangs = The fixture replaced hangs { $left } from the left and { $up } up.
drawing-fixture-replaced = fixture replaced
drawing-foot = { $x } foot
drawing-framing-behind = framing behind
drawing-from-left-up = { $sign } { $left } from the left, { $up } up, cut-out { $hole }
drawing-give-or-take = { $x }, give or take { $tolerance }
drawing-heights = Stub as found { $stub }; highest that drains { $highest }, all above the finished floor.
drawing-heights-lowest = Stub as found { $stub }; highest that drains { $highest }; lowest { $lowest }, all above the finished floor.
drawing-held-against = Held against: { $limits }.
drawing-highest-drains = Highest that drains
drawing-highest-drains-row = highest that drains { $x }
drawing-highest-drains-small = highest that drains
drawing-hole-needed = hole needed
drawing-hole-needed-row = hole needed { $x }
drawing-holes = { $n ->
    [one] 1 hole
   *[other] { $n } holes
}
drawing-hour-am = { $x } am
drawing-hour-pm = { $x } pm
drawing-in-10 = { $n } in 10
drawing-in-afternoon = in the afternoon
drawing-in-morning = in the morning
drawing-inch = { $x } inch
drawing-inches = { $x } inches
drawing-inside-bowl-deep = inside of the bowl, { $x } deep
drawing-inside-other-deep = inside of the other, { $x } deep
drawing-inside-tolerance = inside the tolerance
drawing-joists = { $n ->
    [one] 1 joist
   *[other] { $n } joists
}
drawing-joists-above = joists above
drawing-joists-above-apart = joists above, { $x } apart
drawing-kept-each-edge = { $x } kept at each edge
drawing-largest-table = largest by the table: { $x }
drawing-largest-table-row = largest by the table { $x }
drawing-length-not-known = length not known
drawing-length-run = { $length }, the run
drawing-light-cut-out = { $lights }, cut-out { $x }
drawing-lights = { $n ->
    [one] 1 light
   *[other] { $n } lights
}
drawing-load-said = Together { $total } { $unit }: { $parts }. { $carries }.
drawing-load-title = Load against what carries it
drawing-lowest-cabinet = Lowest, trap clear of cabinet floor: { $x }
drawing-lowest-cabinet-row = lowest, trap clear of cabinet floor
drawing-lowest-cabinet-short = lowest, trap clear of floor: { $x }
drawing-lowest-weir = Lowest by the outlet-to-weir limit: { $x }
drawing-lowest-weir-row = lowest, outlet-to-weir limit
drawing-lowest-weir-short = lowest, outlet to weir: { $x }
drawing-morning-short = am
drawing-moved-cut-out = { $n } moved off a joist, cut-out { $x }
drawing-moved-off-joist = { $n } moved off a joist
drawing-nail-plate = nail plate: under { $x } of wood
drawing-nail-plate-row = ! nail plate: less than { $x } of wood
drawing-nail-plates = nail plates: under { $x } of wood
drawing-name-figure = { $name } { $x }
drawing-name-is = { $name }: { $x }
drawing-never-off = { $name }: never off.
drawing-no-load-known = no load is known
drawing-noon = noon
drawing-not-known = not known
drawing-off-day-is = off; a day is { $from } to { $to }
drawing-off-signs = # off, + likely, - perhaps; a day is { $from } to { $to }
drawing-over-9-in-10 = over 9 in 10
drawing-part-planned = { $name } { $x } (planned)
drawing-patches = { $n ->
    [one] 1 patch
   *[other] { $n } patches
}
drawing-patches-area = { $patches }, { $area } ft²
drawing-patches-dotted = { $patches } (dotted), { $area } sq ft
drawing-planned = { $name }, planned
drawing-afternoon-short = pm
drawing-reliability-across = forecast, in 10
drawing-reliability-bin = { $from } to { $to } in 10
drawing-reliability-bin-off = Forecast { $bin }: found { $count }, and the band from { $low } to { $high } in 10 leaves the forecast out.
drawing-reliability-bin-said = Forecast { $bin }: found { $count }, band from { $low } to { $high } in 10.
drawing-reliability-bin-small = Forecast { $bin }: found { $count }.
drawing-reliability-count = { $found } of { $n }
drawing-reliability-counts = found : outcomes, by forecast; found are hatched
drawing-reliability-line = as often as forecast
drawing-reliability-none = No outcome yet.
drawing-reliability-signs = : forecast  o found  [ ] band  @ both  X band leaves forecast out
drawing-reliability-title = How often forecasts came true
drawing-reliability-title-small = Outcomes by forecast, too few for a curve
drawing-reliability-up = found, in 10, with a band of 95 in 100
drawing-rest-disposer = Counter { $counter }, disposer outlet { $outlet }, trap arm { $arm } at the trap.
drawing-rest-strainer = Counter { $counter }, strainer { $outlet }, trap arm { $arm } at the trap.
drawing-row-off = { $name } off: { $days }.
drawing-run = run { $x }
drawing-signs-found-proposed = (X) as found ( ) proposed
drawing-sink-title = Sink, trap and stub, elevation to scale
drawing-strainer = strainer
drawing-stub-as-found = Stub as found
drawing-stub-as-found-row = stub as found { $x }
drawing-stub-as-found-small = stub as found
drawing-stub-gap = stub { $gap }
drawing-stub-not-known = How the stub lies is not known.
drawing-stub-to-spare = The stub has { $x } to spare.
drawing-stub-to-spare-near = The stub has { $x } to spare, which lies inside the tolerance.
drawing-stub-too-high = The stub is { $x } too high.
drawing-stub-too-high-near = The stub is { $x } too high, which lies inside the tolerance.
drawing-stub-too-low = The stub is { $x } too low.
drawing-thick = { $x } thick
drawing-to-scale = { $name }, to scale
drawing-to-spare = { $x } to spare
drawing-together = together { $total }
drawing-together-planned = together { $total }: { $there } there now, { $planned } planned
drawing-too-high = { $x } too high
drawing-too-low = { $x } too low
drawing-trade-holes = { $trade }: { $holes }, { $area } ft²
drawing-trade-holes-plain = { $trade }: { $holes }, { $area } sq ft
drawing-trap = trap
drawing-under-1-in-10 = under 1 in 10
drawing-under-sixteenth = ±under 1/16″
drawing-under-sixteenth-words = under 1/16
drawing-unnamed = unnamed
drawing-wall-patches = { $patches }, together { $area } square feet.
drawing-wall-said = { $width } wide and { $height } high, with { $holes }.
drawing-wall-said-trades = { $width } wide and { $height } high, with { $holes }: { $trades }.
drawing-wall-title = { $name }, elevation to scale
drawing-wide-by = { $width } by { $depth }
drawing-wide-high = { $width } wide, { $height } high
drawing-with-note = { $x }, { $note }
drawing-without-tag = { $holes } without its tag here
drawing-wood-left = wood left { $near } and { $far }
drawing-working-days = Working days 1 to { $days }.
