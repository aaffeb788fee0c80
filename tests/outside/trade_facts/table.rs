//! The facts, by the part of the house they are about. Common practice, no source: all of them.

use super::Asserts::{AtLeast, AtMost, Leaves, LikelierThan, Lowers, OnlyWith, Over, Raises};
use super::Fact;

#[rustfmt::skip] // a line for each fact reads as the table it is
pub(super) const FACTS: &[Fact] = &[
    // The soffit.
    Fact { says: "A soffit holds wiring in nearly every case", plan: "remove-bulkhead", house: &[], of: "bulkhead-wires", asserts: AtLeast(&[], 0.85) },
    Fact { says: "… also before the war", plan: "remove-bulkhead", house: &[("year-built", "1925")], of: "bulkhead-wires", asserts: AtLeast(&[], 0.80) },
    Fact { says: "A scanner that hears nothing does not clear a soffit of wiring", plan: "remove-bulkhead", house: &[], of: "bulkhead-wires", asserts: AtLeast(&[("bulkhead-scan", "hollow")], 0.60) },
    Fact { says: "Lights in the soffit mean wires in it", plan: "remove-bulkhead", house: &[], of: "bulkhead-wires", asserts: AtLeast(&[("bulkhead-fitted", "lights")], 0.97) },
    Fact { says: "With the panel far off, a bundle of cables is unlikely", plan: "remove-bulkhead", house: &[("year-built", "1970")], of: "bulkhead-cable-bundle", asserts: AtMost(&[("panel-place", "across-the-house")], 0.25) },
    Fact { says: "With the panel on the work wall, a bundle of cables is likely", plan: "remove-bulkhead", house: &[("year-built", "1970")], of: "bulkhead-cable-bundle", asserts: AtLeast(&[("panel-place", "on-or-behind-work-wall")], 0.50) },
    Fact { says: "The number of cables falls with the distance of the panel", plan: "remove-bulkhead", house: &[], of: "bulkhead-cable-bundle", asserts: Over(&[("panel-place", "same-side-or-below")], &[("panel-place", "garage-or-outside-far")], 4.0) },
    Fact { says: "Plumbing is a common content of a soffit under a bath: a drain", plan: "remove-bulkhead", house: &[("over-kitchen", "bath")], of: "bulkhead-drain", asserts: AtLeast(&[("bulkhead-under", "bath-fixtures")], 0.50) },
    Fact { says: "… and water lines", plan: "remove-bulkhead", house: &[("over-kitchen", "bath")], of: "bulkhead-water-lines", asserts: AtLeast(&[("bulkhead-under", "bath-fixtures")], 0.50) },
    Fact { says: "Without a bath above, the plumbing in a soffit is above all a vent: before a drain", plan: "remove-bulkhead", house: &[("below-kind", "open-basement")], of: "bulkhead-vent-stack", asserts: LikelierThan("bulkhead-drain", &[("over-kitchen", "attic")]) },
    Fact { says: "… and before water lines", plan: "remove-bulkhead", house: &[("below-kind", "open-basement")], of: "bulkhead-vent-stack", asserts: LikelierThan("bulkhead-water-lines", &[("over-kitchen", "attic")]) },
    Fact { says: "Water heard in the soffit while the tub drains points to a drain", plan: "remove-bulkhead", house: &[("over-kitchen", "bath")], of: "bulkhead-drain", asserts: Raises(&[("bulkhead-sound", "water-heard")], 4.0) },
    Fact { says: "A roof vent above the sink line points to a vent in the soffit", plan: "remove-bulkhead", house: &[], of: "bulkhead-vent-stack", asserts: Raises(&[("roof-vents", "over-sink-line")], 1.5) },
    Fact { says: "A register in the soffit means a duct in it", plan: "remove-bulkhead", house: &[("heat-kind", "ducts")], of: "bulkhead-duct", asserts: Raises(&[("bulkhead-fitted", "register")], 8.0) },
    Fact { says: "A house with radiators seldom has a duct in the soffit", plan: "remove-bulkhead", house: &[], of: "bulkhead-duct", asserts: AtMost(&[("heat-kind", "radiators")], 0.06) },
    Fact { says: "A soffit on the line of a beam may be the beam", plan: "remove-bulkhead", house: &[], of: "bulkhead-beam", asserts: Raises(&[("bulkhead-under", "beam-line")], 4.0) },
    Fact { says: "Nothing but framing in a soffit is rare", plan: "remove-bulkhead", house: &[], of: "bulkhead-bare", asserts: AtMost(&[], 0.10) },

    // Drains.
    Fact { says: "A deep apron-front bowl with a disposer needs the drain lower than the old sink had it", plan: "deep-sink", house: &[("year-built", "1962"), ("counter-height", "36"), ("floor-buildup", "0"), ("stub-datum", "finished-floor"), ("stub-height", "18")], of: "drain-stub-high", asserts: AtLeast(&[("sink-mount", "apron-front"), ("bowl-depth", "10"), ("sink-shell", "fireclay"), ("disposer-plan", "yes")], 0.90) },
    Fact { says: "… a shallow drop-in sink without one does not", plan: "deep-sink", house: &[("year-built", "1962"), ("counter-height", "36"), ("floor-buildup", "0"), ("stub-datum", "finished-floor"), ("stub-height", "18")], of: "drain-stub-high", asserts: AtMost(&[("sink-mount", "drop-in"), ("bowl-depth", "7"), ("sink-shell", "steel"), ("disposer-plan", "no")], 0.20) },
    Fact { says: "A slow drain of galvanized pipe is closing with scale", plan: "deep-sink", house: &[("year-built", "1955")], of: "steel-drain-clogged", asserts: AtLeast(&[("drain-kind", "steel"), ("empty-time", "60")], 0.85) },
    Fact { says: "A slow drain means more on galvanized pipe than on plastic", plan: "deep-sink", house: &[("year-built", "1955")], of: "steel-drain-clogged", asserts: Over(&[("drain-kind", "steel"), ("empty-time", "60")], &[("drain-kind", "plastic"), ("empty-time", "60")], 10.0) },
    Fact { says: "A trap that runs down through the floor is mostly unvented", plan: "deep-sink", house: &[], of: "s-trap-no-vent", asserts: AtLeast(&[("trap-shape", "s-through-floor")], 0.60) },
    Fact { says: "A sink that gurgles points to a missing vent", plan: "deep-sink", house: &[], of: "s-trap-no-vent", asserts: Raises(&[("drain-story", "gurgle")], 2.0) },
    Fact { says: "A sink in an island is hard to vent", plan: "deep-sink", house: &[], of: "s-trap-no-vent", asserts: Over(&[("sink-wall", "island")], &[("sink-wall", "inside")], 2.0) },
    Fact { says: "A soft cabinet floor under the sink points to rot beneath", plan: "deep-sink", house: &[], of: "sink-base-rot", asserts: Raises(&[("base-floor", "soft")], 4.0) },
    Fact { says: "A dry one lowers it", plan: "deep-sink", house: &[], of: "sink-base-rot", asserts: Lowers(&[("base-floor", "dry")], 1.5) },
    Fact { says: "… does not clear it", plan: "deep-sink", house: &[], of: "sink-base-rot", asserts: AtLeast(&[("base-floor", "dry")], 0.02) },
    Fact { says: "A new board over the cabinet floor hides something", plan: "deep-sink", house: &[], of: "sink-base-rot", asserts: Raises(&[("base-floor", "board-over")], 1.5) },
    Fact { says: "Shut-offs that weep will not hold", plan: "deep-sink", house: &[], of: "stops-seized", asserts: AtLeast(&[("stops", "weep")], 0.60) },
    Fact { says: "Scabs on cast iron mean it is worn through near them", plan: "move-sink", house: &[("year-built", "1955")], of: "iron-drain-worn", asserts: Raises(&[("drain-below", "iron-scabbed")], 6.0) },
    Fact { says: "A toilet that rocks has a bad flange", plan: "bath-remodel", house: &[], of: "toilet-flange-rot", asserts: Raises(&[("toilet", "rocks")], 4.0) },
    Fact { says: "A shower floor that gives has a failed base", plan: "bath-remodel", house: &[], of: "shower-base-leak", asserts: Raises(&[("shower-floor", "gives")], 4.0) },
    Fact { says: "A septic tank is asked about only where there is one", plan: "deep-sink", house: &[], of: "septic-limit", asserts: OnlyWith(&[("sewer-kind", "septic")], &[("sewer-kind", "sewer")]) },

    // Water.
    Fact { says: "Galvanized pipe in the house raises rusted supply", plan: "move-sink", house: &[("year-built", "1955")], of: "steel-supply-rusted", asserts: Raises(&[("house-pipe", "steel")], 5.0) },
    Fact { says: "Copper throughout lowers it", plan: "move-sink", house: &[("year-built", "1955")], of: "steel-supply-rusted", asserts: Lowers(&[("house-pipe", "copper")], 4.0) },
    Fact { says: "Rusty first water raises it", plan: "move-sink", house: &[("year-built", "1955")], of: "steel-supply-rusted", asserts: Raises(&[("first-water", "rusty")], 3.0) },
    Fact { says: "Weak flow means more in an old house", plan: "move-sink", house: &[("faucet-flow", "1.2")], of: "steel-supply-rusted", asserts: Over(&[("year-built", "1950")], &[("year-built", "1990")], 10.0) },
    Fact { says: "Gray soft plastic pipe of 1985 is mostly polybutylene", plan: "move-sink", house: &[("year-built", "1985")], of: "polybutylene-lines", asserts: AtLeast(&[("house-pipe", "gray-soft-plastic")], 0.85) },
    Fact { says: "A dull gray, soft service pipe that no magnet holds to is, in an old house, mostly lead", plan: "move-sink", house: &[("year-built", "1925"), ("water-from", "city")], of: "lead-service", asserts: AtLeast(&[("service-pipe", "dull-gray-soft")], 0.80) },
    Fact { says: "A lead service line belongs to a public main", plan: "move-sink", house: &[("year-built", "1925")], of: "lead-service", asserts: OnlyWith(&[("water-from", "city")], &[("water-from", "well")]) },
    Fact { says: "A main valve that seeps will not hold", plan: "move-sink", house: &[], of: "main-valve-fails", asserts: Raises(&[("main-valve", "seeps")], 4.0) },
    Fact { says: "A gauge at 90 psi is pressure too high", plan: "move-sink", house: &[], of: "pressure-too-high", asserts: AtLeast(&[("static-psi", "90")], 0.70) },

    // Electrical.
    Fact { says: "Two-prong outlets raise no ground", plan: "add-circuits", house: &[("year-built", "1955")], of: "no-ground-path", asserts: Raises(&[("outlet-test", "two-slot")], 4.0) },
    Fact { says: "Outlets that test good lower it", plan: "add-circuits", house: &[("year-built", "1955")], of: "no-ground-path", asserts: Lowers(&[("outlet-test", "all-good")], 2.0) },
    Fact { says: "A jacket stamped aluminum raises aluminum branch wiring", plan: "add-circuits", house: &[("year-built", "1970")], of: "aluminum-branch", asserts: AtLeast(&[("cable-seen", "stamped-aluminum")], 0.75) },
    Fact { says: "Aluminum branch wiring is of the late sixties and early seventies", plan: "add-circuits", house: &[], of: "aluminum-branch", asserts: Over(&[("year-built", "1969")], &[("year-built", "1955")], 5.0) },
    Fact { says: "Porcelain knobs in sight raise live knob-and-tube", plan: "add-circuits", house: &[("year-built", "1925")], of: "knob-tube-live", asserts: AtLeast(&[("cable-seen", "porcelain-knobs")], 0.70) },
    Fact { says: "A house of 1985 hardly ever has knob-and-tube", plan: "add-circuits", house: &[], of: "knob-tube-live", asserts: AtMost(&[("year-built", "1985")], 0.005) },
    Fact { says: "An old house gutted in 2005 has the wiring of 2005", plan: "add-circuits", house: &[("year-built", "1925")], of: "knob-tube-live", asserts: Lowers(&[("last-gut", "2005")], 20.0) },
    Fact { says: "Two free spaces are no room for what is planned", plan: "add-circuits", house: &[], of: "panel-no-room", asserts: AtLeast(&[("free-spaces", "2")], 0.75) },
    Fact { says: "A 60 A service is small for what is planned", plan: "electric-range", house: &[], of: "service-too-small", asserts: Over(&[("main-size", "60")], &[("main-size", "200-plus")], 15.0) },
    Fact { says: "Breakers no longer made raise an obsolete panel", plan: "add-circuits", house: &[("year-built", "1968")], of: "panel-obsolete", asserts: Raises(&[("panel-kind", "discontinued-breakers")], 6.0) },
    Fact { says: "Breakers that trip point to a kitchen without its own circuits", plan: "add-circuits", house: &[], of: "kitchen-circuits-short", asserts: Raises(&[("breaker-story", "often")], 1.8) },
    Fact { says: "A three-slot range outlet is wrong for a new range", plan: "electric-range", house: &[], of: "range-circuit-wrong", asserts: Raises(&[("range-outlet", "three-slot")], 4.0) },
    Fact { says: "Tied breakers on the counter outlets are a shared neutral", plan: "add-circuits", house: &[("year-built", "1970")], of: "shared-neutral-pair", asserts: Raises(&[("tied-pair", "yes")], 4.0) },
    Fact { says: "Work by the owner leaves more buried splices than work by a licensed trade", plan: "open-wall", house: &[], of: "buried-splice", asserts: Over(&[("earlier-work", "owner-or-friend")], &[("earlier-work", "licensed")], 2.0) },

    // Structure.
    Fact { says: "A wall across the joists carries load more often than one along them", plan: "remove-wall", house: &[], of: "wall-carries-load", asserts: Over(&[("wall-run", "across-joists")], &[("wall-run", "with-joists")], 5.0) },
    Fact { says: "A wall along the joists is not cleared by that", plan: "remove-wall", house: &[], of: "wall-carries-load", asserts: AtLeast(&[("wall-run", "with-joists")], 0.05) },
    Fact { says: "Joists that join over a wall rest on it", plan: "remove-wall", house: &[], of: "wall-carries-load", asserts: Raises(&[("attic-joint", "yes")], 4.0) },
    Fact { says: "Open stud bays from floor to roof are of the time before 1940", plan: "remove-wall", house: &[], of: "balloon-frame", asserts: Over(&[("year-built", "1920")], &[("year-built", "1962")], 30.0) },
    Fact { says: "Plaster on wood lath is what an untouched house of 1925 has", plan: "open-wall", house: &[("last-gut", "0")], of: "plaster-on-lath", asserts: AtLeast(&[("year-built", "1925")], 0.65) },
    Fact { says: "… and a room gutted in 2005 has not", plan: "open-wall", house: &[("year-built", "1925")], of: "plaster-on-lath", asserts: AtMost(&[("last-gut", "2005")], 0.05) },
    Fact { says: "Joists seen notched below are notched above the bath too", plan: "bath-remodel", house: &[], of: "joists-cut", asserts: Raises(&[("joists-below", "notched-or-bored")], 3.0) },
    Fact { says: "An inch of fall in ten feet is a floor that sags", plan: "new-floor", house: &[], of: "floor-sag", asserts: Raises(&[("floor-fall", "1")], 4.0) },

    // Floors.
    Fact { says: "A slab house has its lines in the slab", plan: "move-sink", house: &[], of: "slab-lines", asserts: AtLeast(&[("below-kind", "slab")], 0.40) },
    Fact { says: "A house over a crawl space has none", plan: "move-sink", house: &[], of: "slab-lines", asserts: OnlyWith(&[("below-kind", "slab")], &[("below-kind", "crawl")]) },
    Fact { says: "Pipes that rise from the slab run in it", plan: "move-sink", house: &[("below-kind", "slab")], of: "slab-lines", asserts: Raises(&[("slab-signs", "pipes-rise-from-floor")], 3.0) },
    Fact { says: "Nine-inch tile is asbestos until a lab says otherwise", plan: "new-floor", house: &[("year-built", "1955")], of: "floor-asbestos-suspect", asserts: Raises(&[("floor-top", "tile-9in")], 4.0) },
    Fact { says: "A house after 2010 hardly ever has it in its floor", plan: "new-floor", house: &[], of: "floor-asbestos-suspect", asserts: AtMost(&[("year-built", "2015")], 0.01) },
    Fact { says: "A floor soft at the dishwasher has a leak under it", plan: "new-floor", house: &[], of: "appliance-leak-rot", asserts: Raises(&[("floor-soft", "at-appliance")], 6.0) },
    Fact { says: "Two layers at an edge are several under the cabinets", plan: "new-floor", house: &[], of: "floor-layers", asserts: Raises(&[("floor-count", "2")], 4.0) },
    Fact { says: "A board subfloor is not fit for tile", plan: "new-floor", house: &[("year-built", "1935")], of: "subfloor-unfit", asserts: Raises(&[("subfloor-kind", "boards")], 3.0) },

    // Walls and ceilings.
    Fact { says: "A house after 1978 lowers lead paint", plan: "open-wall", house: &[], of: "lead-paint", asserts: Over(&[("year-built", "1965")], &[("year-built", "1985")], 4.0) },
    Fact { says: "… and does not exclude it", plan: "open-wall", house: &[], of: "lead-paint", asserts: AtLeast(&[("year-built", "1985")], 0.01) },
    Fact { says: "A lab paper that found lead settles most of it", plan: "open-wall", house: &[("year-built", "1955")], of: "lead-paint", asserts: AtLeast(&[("old-tests", "lead-found")], 0.95) },
    Fact { says: "A bath above raises ceiling leak damage", plan: "open-ceiling", house: &[], of: "ceiling-leak-damage", asserts: Over(&[("over-kitchen", "bath")], &[("over-kitchen", "attic")], 2.0) },
    Fact { says: "A patched ceiling is not clearing: it raises leak damage", plan: "open-ceiling", house: &[], of: "ceiling-leak-damage", asserts: Raises(&[("ceiling-mark", "patched")], 1.3) },
    Fact { says: "A fresh stain raises it much", plan: "open-ceiling", house: &[], of: "ceiling-leak-damage", asserts: Raises(&[("ceiling-mark", "fresh-stain")], 3.0) },
    Fact { says: "A musty smell raises mold", plan: "open-wall", house: &[], of: "mold-behind", asserts: Raises(&[("musty", "strong")], 2.5) },
    Fact { says: "A soft window sill raises rot in the wall below", plan: "open-wall", house: &[], of: "window-wall-rot", asserts: Raises(&[("window-sill", "soft")], 3.0) },
    Fact { says: "Cold bays are bays without insulation", plan: "open-wall", house: &[], of: "wall-uninsulated", asserts: Raises(&[("wall-chill", "cold-bays")], 4.0) },
    Fact { says: "Ceiling texture of 1970 is a suspect, of 2005 hardly", plan: "open-ceiling", house: &[("ceiling-face", "texture")], of: "texture-asbestos-suspect", asserts: Over(&[("year-built", "1970")], &[("year-built", "2005")], 20.0) },
    Fact { says: "Pebble-like attic fill is mostly vermiculite", plan: "open-ceiling", house: &[("year-built", "1955")], of: "vermiculite-fill", asserts: AtLeast(&[("attic-fill", "loose-pebbles")], 0.75) },

    // Air and gas.
    Fact { says: "A hood that recirculates has no duct", plan: "new-hood", house: &[], of: "hood-no-duct", asserts: Raises(&[("hood-kind", "recirculating")], 4.0) },
    Fact { says: "A hood over 400 cfm wants replacement air", plan: "new-hood", house: &[], of: "makeup-air-needed", asserts: Raises(&[("new-hood-cfm", "900")], 4.0) },
    Fact { says: "Radiators mean heating pipes in walls", plan: "remove-wall", house: &[("year-built", "1930")], of: "heat-pipe-in-wall", asserts: Over(&[("heat-kind", "radiators")], &[("heat-kind", "ducts")], 6.0) },
    Fact { says: "A house without gas has none at the range", plan: "gas-range", house: &[], of: "gas-line-absent", asserts: AtLeast(&[("gas-meter", "no")], 0.95) },
    Fact { says: "An electric range today mostly means no gas at it", plan: "gas-range", house: &[("gas-meter", "yes")], of: "gas-line-absent", asserts: Raises(&[("range-outlet", "four-slot")], 2.5) },
    Fact { says: "A gray or brass flexible connector is an old one", plan: "gas-range", house: &[("gas-meter", "yes")], of: "gas-old-fittings", asserts: AtLeast(&[("gas-at-range", "old-brass-or-gray-flex")], 0.60) },

    // Earlier work and animals.
    Fact { says: "No permit on file raises work without one", plan: "open-wall", house: &[("earlier-work", "owner-or-friend")], of: "work-without-permit", asserts: Raises(&[("permit-file", "none-found")], 4.0) },
    Fact { says: "Mice seen raise a nest", plan: "open-wall", house: &[], of: "rodent-nest", asserts: Raises(&[("pest-story", "mice-or-rats")], 4.0) },
    Fact { says: "Mud tubes raise termite damage", plan: "open-wall", house: &[], of: "insect-damage", asserts: Raises(&[("bugs-below", "mud-tubes")], 8.0) },
    Fact { says: "Termites belong to hot and humid places more than to cold ones", plan: "open-wall", house: &[], of: "insect-damage", asserts: Over(&[("climate", "hot-humid")], &[("climate", "cold")], 2.0) },

    // No answer is none.
    Fact { says: "“Can't tell” is no evidence", plan: "deep-sink", house: &[], of: "sink-base-rot", asserts: Leaves(&[("base-floor", "cant-see"), ("stops", "cant-tell"), ("drain-story", "cant-tell")], 1.0001) },
    Fact { says: "A scan not made is no evidence", plan: "remove-bulkhead", house: &[], of: "bulkhead-wires", asserts: Leaves(&[("bulkhead-scan", "not-done"), ("bulkhead-heat", "not-done")], 1.0001) },
];
