# Openings and patches, the lead rule, wishes.
trade-1-standing-alone-unless = 1, standing alone unless said
trade-added-patch-area-offcuts = Added to the patch area for offcuts
trade-all-now = All, now
trade-all-sum-later = All with a sum for later
trade-all-sum-later-later = All with a sum for later, later
trade-all-sum-later-now = All with a sum for later, now
trade-any-year = any year
trade-basis = basis: { $basis }
trade-basis-common-practice = common practice
trade-black-floor-adhesive = black floor adhesive
trade-bottom-hole = bottom of the hole
trade-break-even-chance = { $id }, break-even chance
trade-break-even-leaves-out = Break-even leaves out interest, the disturbance of opening again, and what the finished thing itself costs.
trade-brick-mortar = brick and mortar
trade-building-counts-facility-written = The building counts as a facility: written notice and work rules from { $pipe } ft of pipe, { $other } ft² or { $off } ft³ of asbestos material on; the openings take { $total } of surface in all.
trade-built = built { $y }
trade-built-beyond-minor-repair = Built { $year }, and { $reasons }: beyond minor repair whatever the area, so the rule's work practices apply.
trade-built-cannot-said-whether = Built { $year }: it cannot be said whether this is minor repair before more is known.
trade-built-chance-rules-work = Built { $year }: { $parts }; chance that the rule's work practices apply: { $chance }.
trade-built-lead-rule-names = Built { $year }: the lead rule names houses built before { $before }.
trade-built-not-before-within = Built { $year }, not before { $before }: within the years the lead rule leaves alone. Older parts brought into the house are not ruled out.
trade-cannot-say-catalog-holds = cannot say: the catalog holds no sum
trade-ceiling-tile = ceiling tile
trade-ceiling-wall-texture = ceiling or wall texture
trade-cement-board-siding = cement board and siding
trade-certified-persons-test-below = A certified person's test below { $mg } mg/cm² and below { $percent } percent by weight takes a component out of the rule; a look at it does not.
trade-certified-persons-test-painted = A certified person's test of the painted surfaces before work, priced on its own line.
trade-certified-persons-test-surface = A certified person's test of the surface before work, priced on its own line.
trade-chance-lead-rules-work = { $area }; chance that the lead rule's work practices apply: { $chance }.
trade-chance-wish = chance of a wish
trade-check-how-room-surface = check how room, surface and plane are spelled, or leave its row out
trade-check-size-plane-where = check the size of the plane and where the hole lies
trade-concrete-poured = concrete
trade-concrete-block = concrete block
trade-corner-corner-2 = corner to corner: { $whole } = { $area }
trade-corner-strips = { $name }, corner strips
trade-costs-now-later-low = Costs now and later, low and high
trade-cutting-grinding = Cutting or grinding { $dusty }
trade-cutting-grinding-tile-masonry = Cutting or grinding tile, masonry, stone, plaster or fiber cement, if there is any,
trade-demolition-painted-surface-cut = demolition of the painted surface by the cut-out
trade-described-house-none-lead = As described the house is none the lead rule names: housing for elderly or disabled people, or without a bedroom, and no child under 6. Keep the owner's word in writing.
trade-difference = { $what }, difference
trade-does-child-under-6 = Does a child under 6 live there, or is one expected?
trade-does-count-demolition-painted = Does it count as demolition of a painted surface?
trade-duct-insulation-tape = duct insulation and tape
trade-dwelling-units = dwelling units
trade-epa-reads-demolition-destroying = EPA reads demolition as destroying a painted component: count a cut-out in a painted wall as demolition, however small, unless a certified renovator says otherwise.
trade-farthest-hole-proposed-moved = Farthest a hole is proposed to be moved along its plane
trade-finishing = { $name }, finishing
trade-finishing-cannot-said-without = { $name }: finishing cannot be said without the width and height of the plane.
trade-finishing-priced-nearest-corner = Finishing is priced to the nearest corner or break, a texture over the full plane
trade-firms-own = the firm's own
trade-floor-sheathing = floor sheathing
trade-for = For { $trade }
trade-framing-spacing = framing spacing
trade-framing-spacing-2 = framing spacing, { $name }
trade-ft-3 = { $o } ft² { $o2 }
trade-ft-4 = { $area } ft²
trade-ft-corner-ceiling-line = { $x } ft of corner or ceiling line taped anew
trade-ft-less-painted-surface = { $less } ft² less of painted surface { $place } in one job of { $days } days would bring it to { $less2 } ft².
trade-ft-painted-surface = { $sigma } ft² of painted surface, { $name }
trade-ft-painted-surface-table = { $total } ft² of painted surface { $place }, { $word } the table value of { $limit } ft²
trade-give-once = give it once
trade-give-one-spacing-one = give one spacing and one first stud for all holes of a plane, or name two planes
trade-give-size-once = give its size once
trade-has-no-hole = has no hole
trade-has-rows-different-framing = has rows with different framing
trade-have-these-tested-before = Have these tested before they are cut, whatever the year; later material has been found with asbestos too: { $list }.
trade-height-2 = height
trade-height-hole = height of the hole
trade-hole-2 = { $what } of hole { $i }
trade-hole-3 = { $name }, hole { $n }, { $trade }
trade-hole-further-spares-bay = { $name }, hole { $hole }: { $by } further { $way } spares a bay, { $saved } of patch, if the trade can have it there.
trade-holes-holes-patches-if = holes: { $holes }; { $holearea } of holes; { $patcharea } of patches if they were the only ones
trade-house-built-painted-surface = In a house built { $year }, painted surface disturbed, { $name }: { $total }, { $rule } the table value of { $rule2 }
trade-house-up-four-units = A house of up to four units standing alone is no facility under the federal notice rule; states and worker rules can be stricter.
trade-housing-elderly-disabled-people = Is it housing for elderly or disabled people, or without a bedroom?
trade-how-far-apart-framing = How far apart are the framing centers?
trade-how-high = How high is it?
trade-how-high-bottom = How high is its bottom?
trade-how-high-plane = How high is the plane?
trade-how-large-planes = How large are the planes?
trade-how-likely-wanted-within = How likely is it wanted within five years, from 0 to 1?
trade-how-many-dwelling-units = How many dwelling units has the building?
trade-how-much-outside-30 = How much outside in the 30 days before?
trade-how-much-painted-surface = How much painted surface is disturbed in this room?
trade-how-much-painted-surface-2 = How much painted surface?
trade-how-much-painted-surface-disturbed = How much painted surface is disturbed outside?
trade-how-much-same-room = How much in the same room in the 30 days before?
trade-how-wide-2 = How wide is it?
trade-how-wide-plane = How wide is the plane?
trade-if-x-left-end = If x is from the left end: where is the first framing center?
trade-inside = inside
trade-inside-break-even-range = inside the break-even range: the ranges do not decide
trade-joint-compound-wallboard = joint compound on wallboard
trade-judgment = judgment
trade-later = { $id }, later
trade-later-average = { $id }, later on average
trade-later-now-farthest-ends = later − now, farthest ends: { $shown }
trade-lead-rule = Lead rule
trade-left-3 = left
trade-left-edge = left edge
trade-left-edge-hole = left edge of the hole
trade-loose-fill-insulation = loose-fill insulation
trade-lows-highs-added = lows and highs added: { $shown }
trade-makes-silica-dust-water = { $what } makes silica dust: water or vacuum and a respirator as Table 1 names them for the tool (about { $tools } tools; drywall finishing is not in it), else measured air under { $pel } µg/m³, with duties from { $action } µg/m³ on.
trade-more-than-certain = { $p }, more than certain
trade-n-sheets-of = { $n ->
    [one] 1 sheet of { $what }, 4 × 8
   *[other] { $n } sheets of { $what }, 4 × 8
 }
trade-nearest-corner-break-144-2 = to the nearest corner or break: { $wide } × { $height } ÷ 144 = { $area }
trade-no-area-small-enough = { $area }; { $why }, so no area is small enough and the lead rule's work practices apply.
trade-no-area-small-enough-2 = { $text }; { $reason }: no area is small enough
trade-nobody-can-tell-eye = Nobody can tell by eye whether an old surface holds lead or asbestos. Until a qualified person has tested it, do not cut, sand or scrape; price testing and protected work on lines of their own. A certified renovator, a licensed asbestos professional and the local authority decide; state, local and worker rules govern and can be stricter. A screening answer for pricing, not an approval.
trade-none-because-none-was = none, because none was given
trade-not-three-point-estimate = { $three } is not a three-point estimate; it needs low ≤ likely ≤ high
trade-now = { $id }, now
trade-now-later = now ÷ later: { $shown } ÷ { $shown2 } = { $low } to { $shown3 } ÷ { $shown4 } = { $high }
trade-number-holes = the number of holes
trade-one-one-overlap = { $sum } one by one − { $union } of overlap = { $union2 }
trade-one-patch-over-holes = { $name }, one patch over holes { $names }
trade-open-flames-heat-guns = Open flames, heat guns at high heat and power sanding without a HEPA vacuum are prohibited practices (from memory: look it up in 40 CFR 745.85).
trade-openings-patches = Openings and patches
trade-or-2 = { $before } or { $next }
trade-outside = outside
trade-outside-sheathing = outside sheathing
trade-over-whole-break-even = over the whole break-even range: now costs less on average
trade-own-arithmetic-published-values = own arithmetic on published values
trade-painted-area = painted area
trade-painted-area-disturbed-inside = painted area disturbed, inside or outside
trade-painted-surface = painted surface { $place }
trade-painted-surface-2 = Painted surface { $place }
trade-painted-surface-3 = painted surface
trade-painted-surface-4 = Painted surface, { $name }
trade-painted-surface-demolished = a painted surface is demolished
trade-painted-surface-demolished-also = Is a painted surface demolished, also by cutting it out?
trade-patch-reaches-left-right = A patch reaches left and right to the centers of framing; its upper and lower edges get blocking
trade-patches = { $name }, patches
trade-patches-over-painted-holes = patches over painted holes { $painted } + components taken out { $removed } + { $earlier } within { $days } days before = { $total }, at most { $rule }; chance that it is more: { $rule2 }
trade-patches-sentence = { $total } of patches for { $holes ->
    [one] 1 hole
   *[other] { $holes } holes
 } on { $planes ->
    [one] 1 plane
   *[other] { $planes } planes
 }, { $bought }. { $lead }
trade-percent = { $offcutallowance } percent
trade-pipe-insulation = pipe insulation
trade-plane = plane
trade-plaster = plaster
trade-plus-minus-how-much = Plus or minus how much inside?
trade-plus-minus-how-much-outside = Plus or minus how much outside?
trade-practice-used-lead-rule = Is a practice used that the lead rule prohibits?
trade-practice-used-rule-prohibits = Is a practice used that the rule prohibits?
trade-presume-asbestos-until-test = Presume asbestos until a test shows otherwise ({ $why }), wherever there is any of this: { $list }.
trade-prohibited-practice-used = a prohibited practice is used
trade-published-window-years-level = a published window of years, the level by judgment
trade-ranges-judgment-added-end = Ranges of judgment added end to end: the true sum most likely lies well inside, and no single figure is meant.
trade-ranges-talking-about-wishes = Ranges for talking about wishes, not prices: the people who live there decide what they want, the trades price it, and a licensed plumber, electrician or gas fitter says whether and how it can be roughed in under the local code. No approval.
trade-resilient-flooring = resilient flooring
trade-right = right
trade-right-edge = right edge
trade-rounded-up = { $area } × { $offcutallowance } ÷ { $sheetarea }, rounded up = { $n }
trade-rule-leaves-out-housing = The rule leaves out housing for elderly or disabled people and dwellings without a bedroom, but only where no child under 6 lives or is expected (for the second from memory: look it up). Whether a house before { $year } is one of them is for the owner to say in writing.
trade-several-buildings-site-worked = Are several buildings on the site worked on under one owner or operator?
trade-sheets-4-8 = Sheets of { $what }, 4 × 8
trade-smaller-than-hole-reaches = is smaller than its hole reaches
trade-stone-engineered-stone = stone or engineered stone
trade-surface-painted = Is the surface painted?
trade-test-before-cutting-joint = Test before cutting: joint compound, ceiling tile, floor adhesive, loose-fill insulation, cement board
trade-texture-full-plane-2 = texture, full plane: { $whole } = { $area }
trade-textured = Is it textured?
trade-there-twice = is there twice
trade-tile-bed = tile and its bed
trade-tolerance-hole = tolerance of a hole
trade-tolerance-holes-place-size = tolerance of a hole's place and size, where none was given
trade-under-whole-break-even = under the whole break-even range: later costs less on average
trade-up-hole-144-framing = from { $x0 } to { $x1 } and { $y0 } up: hole { $x02 } × { $high } ÷ 144 = { $area }; to framing { $x03 } to { $x12 }: patch { $wide } × { $high } ÷ 144 = { $area2 }
trade-version = version { $version }
trade-wallboard = wallboard
trade-what-costs-later = what { $id } costs later
trade-what-costs-rough-wish = What it costs to rough in a wish while the wall is open, against doing it later.
trade-what-holes-all-trades = What the holes of all trades take in patches, sheets and finishing, and what paint they disturb.
trade-what-may-wanted-later = What may be wanted later?
trade-what-this-plane-called = What is this plane called, such as sink wall?
trade-what-was-disturbed-30 = What was disturbed in the 30 days before, by room?
trade-what-year-was-house = In what year was the house built?
trade-where-left-edge-framing = Where is its left edge, from a framing center or from the left end?
trade-where-may-finish-stop = Where may the finish stop, from the left end?
trade-where-may-finish-stop-between = Where may the finish stop between corners?
trade-where-not-said-holes = { $what }, where not said (holes: { $n })
trade-whether-painted-surface-demolished = whether a painted surface is demolished
trade-whether-prohibited-practice-used = whether a prohibited practice is used
trade-whether-window-replaced = whether a window is replaced
trade-whether-work-paint-house = Whether work on paint in a house before 1978 is minor repair under the federal lead rule.
trade-which-holes-does-each = Which holes does each trade need?
trade-which-material = Which material?
trade-which-old-dusty-materials = Which old or dusty materials are cut?
trade-which-painted-components-taken = Which painted components are taken out whole, by room?
trade-which-room = Which room?
trade-which-rooms-window-replaced = In which rooms is a window replaced?
trade-which-trade-needs = Which trade needs it?
trade-which-wish-catalog = Which wish of the catalog?
trade-whole-bays = whole bays
trade-width-hole = width of the hole
trade-window-replaced = Is a window replaced?
trade-window-replaced-2 = a window is replaced
trade-windows-replaced = windows replaced
trade-wish = wish
trade-wish-average = { $chance } × { $later } = { $average }; { $words }
trade-wish-there-twice = the wish “{ $id }” is there twice
trade-wishes-later = Wishes for later
trade-wishes-no-later = { $n ->
    [one] 1 wish
   *[other] { $n } wishes
 } roughed in while the wall is open: { $now }; what it costs later the catalog does not say.
trade-wishes-same-later = { $n ->
    [one] 1 wish
   *[other] { $n } wishes
 } roughed in while the wall is open: { $now }; the same later: { $later }.
trade-wishes-some-later = { $n ->
    [one] 1 wish
   *[other] { $n } wishes
 } roughed in while the wall is open: { $now }; { $both } of them, { $bothnow } now, later: { $later }.
trade-within-days-before-ft = { $area } + { $earlier } within { $days } days before = { $total } ft², at most { $limit } ft²; chance that it is more: { $chance }
trade-within-up-overlaps-once = within { $x0 } to { $x1 } and { $y0 } to { $y1 } up: { $area }, overlaps once
trade-without-list-holes-nothing = Without a list of holes nothing can be said.
trade-without-wish-nothing-can = Without a wish nothing can be said; the catalog knows { $known }.
trade-without-year-house-was = Without the year the house was built nothing can be said; until it is known, price the work as if the rule applied.
trade-without-year-house-was-built = Without the year the house was built nothing can be said under the lead rule; until it is known, price as if it applied.
trade-year-built = year built
trade-year-not-known = the year is not known
