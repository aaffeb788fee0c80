//! The arithmetic, line by line, so that a plumber can redo it on paper. Lengths are printed to the nearest 1/16 in
//! and carried unrounded, so a line may seem off by 1/16.

use alloc::{format, string::String, vec::Vec};

use survey::{Phrase, Said, say};

use super::answer::BowlFit;
use super::chain::{Connection, HAIR, required_below_counter_plane};
use super::resolve::Case;
use crate::cite::{labeled, with_unit};
use crate::given::show_inches as show;
use crate::sheet::Line;

const FALL: Phrase = Phrase("trade-fall-trap-stub");

/// ` − x`, or ` + x` for a negative one.
fn less(inches: f64) -> String {
    if inches < 0.0 { format!(" + {}", show(-inches)) } else { format!(" − {}", show(inches)) }
}

pub(super) fn arithmetic(case: &Case, over: f64, under: f64) -> Vec<Line> {
    let mut out = Vec::new();
    let c = &case.first.chain;
    if case.counter.from_old_floor {
        let (reading, buildup) = (show(case.counter.reading), less(case.stub.buildup));
        out.push(Line::new(
            Phrase("trade-counter-top-above-new"),
            format!("{reading}{buildup} = {}", show(c.counter_height)),
        ));
    }
    let fall =
        say!("trade-ft-12", slope = show(c.slope), wasterun = show(c.run), waste = show(case.levels.fall));
    match &case.second {
        None => of_bowl(&case.first, None, Some(fall), &mut out),
        Some(second) => {
            out.push(Line::new(FALL, fall));
            of_bowl(&case.first, Some(Phrase("trade-first-bowl-3")), None, &mut out);
            of_bowl(second, Some(Phrase("trade-second-bowl-3")), None, &mut out);
            both(case, second, &mut out);
        }
    }
    out.push(Line::new(
        Phrase("trade-lowest-stub-keeps-trap"),
        format!(
            "{} + {} + ({} ÷ 2 + {} + {} + 1/8\"){} = {}",
            show(c.cabinet_floor),
            show(c.service),
            show(c.trap_size),
            show(c.seal),
            show(c.trap_size),
            less(case.levels.fall),
            show(case.levels.stub_min_cabinet)
        ),
    ));
    let stub = &case.stub;
    let start = match stub.from_cabinet {
        Some((toe, floor)) => format!("{} + {} + {}", show(toe), show(floor), show(stub.reading)),
        None => show(stub.reading),
    };
    out.push(Line::new(
        Phrase("trade-stub-above-new-floor"),
        format!("{start}{} = {}", less(stub.buildup), show(stub.height)),
    ));
    let margin = case.levels.stub_max - stub.height;
    out.push(Line::new(
        Phrase("trade-margin"),
        format!("{}{} = {}", show(case.levels.stub_max), less(stub.height), show(margin)),
    ));
    let seal = if margin < -HAIR {
        Said::from(format!("{}{} = {}", show(c.seal), less(margin), show(c.seal - margin)))
    } else {
        say!("trade-no-stretch-needed", seal = show(c.seal))
    };
    out.push(Line::new(Phrase("trade-seal-trap-reaches-stub"), seal));
    out.push(Line::new(
        Phrase("trade-spread-one-standard-deviation"),
        say!("trade-upper-limits-lower", over = format!("{over:.3}"), under = format!("{under:.3}")),
    ));
    let governing = match &case.second {
        Some(second) if second.levels.stub_max < case.first.levels.stub_max => &second.chain,
        _ => c,
    };
    let needed = required_below_counter_plane(
        governing.depth,
        governing.shell,
        governing.connection_drop,
        governing.trap_drop,
        case.levels.fall,
    );
    let plane = match c.offset {
        o if o > 0.0 => say!("trade-below-counter-top", o = show(o)),
        o if o < 0.0 => say!("trade-above-counter-top", o = show(-o)),
        _ => say!("trade-counter-top"),
    };
    out.push(Line::new(
        Phrase("trade-check-one-tape"),
        say!("trade-stub-lies-least-below", needed = show(needed), plane = plane),
    ));
    out
}

/// Down to the levels of one bowl, with the fall to the stub where it is not shared.
fn of_bowl(bowl: &BowlFit, who: Option<Phrase>, fall_to_stub: Option<Said>, out: &mut Vec<Line>) {
    let (c, l) = (&bowl.chain, &bowl.levels);
    let mut line = |label: Said, text: Said| {
        let label = match who {
            Some(who) => labeled(who, label),
            None => label,
        };
        out.push(Line::new(label, text));
    };
    let (offset, depth, shell) = (less(c.offset), less(c.depth), less(c.shell));
    line(
        Phrase("trade-inside-bottom-bowl").into(),
        format!("{}{offset}{depth} = {}", show(c.counter_height), show(l.outlet)).into(),
    );
    let name = match c.connection {
        Connection::Disposer => Phrase("trade-center-disposer-outlet"),
        Connection::Strainer => Phrase("trade-bottom-strainer-body"),
    };
    let drop = less(c.connection_drop);
    line(name.into(), format!("{}{shell}{drop} = {}", show(l.outlet), show(l.connection)).into());
    let mut down = less(c.trap_drop - bowl.waste_fall);
    if bowl.waste_run > 0.0 {
        let waste = show(bowl.waste_fall);
        line(
            Phrase("trade-fall-continuous-waste-trap").into(),
            say!("trade-ft-12", slope = show(c.slope), wasterun = show(bowl.waste_run), waste = &waste),
        );
        down.push_str(&format!(" − {waste}"));
    }
    if let Some(fall) = fall_to_stub {
        line(FALL.into(), fall);
    }
    let fall = less(l.fall);
    line(
        Phrase("trade-highest-practical-stub").into(),
        format!("{}{down}{fall} = {}", show(l.connection), show(l.stub_max)).into(),
    );
    line(
        Phrase("trade-stub-deepest-seal-allowed").into(),
        format!("{} + ({} − {}) = {}", show(l.stub_max), show(c.seal_most), show(c.seal), show(l.seal))
            .into(),
    );
    line(
        Phrase("trade-stub-which-water-stands").into(),
        match c.connection {
            Connection::Disposer => format!("{}{fall} = {}", show(l.connection), show(l.flood)).into(),
            Connection::Strainer => {
                format!("{} + {} ÷ 2{fall} = {}", show(l.outlet), show(c.trap_size), show(l.flood)).into()
            }
        },
    );
    line(Phrase("trade-above-this-stub-must").into(), say!("trade-lower-two", stubabs = show(l.stub_abs)));
    line(
        say!("trade-lowest-stub-rule", outlettoweirmost = with_unit(c.outlet_to_weir_most, "in")),
        format!(
            "{}{} + {} ÷ 2{fall} = {}",
            show(l.outlet),
            less(c.outlet_to_weir_most),
            show(c.trap_size),
            show(l.stub_min_code)
        )
        .into(),
    );
}

/// Which of two bowls governs.
fn both(case: &Case, second: &BowlFit, out: &mut Vec<Line>) {
    let (a, b, l) = (&case.first.levels, &second.levels, &case.levels);
    let two = |a: f64, b: f64, which: Phrase, level: f64| {
        say!("trade-the-of-and", which = which, a = show(a), b = show(b), level = show(level))
    };
    out.push(Line::new(
        Phrase("trade-highest-practical-stub"),
        two(a.stub_max, b.stub_max, Phrase("trade-lower"), l.stub_max),
    ));
    out.push(Line::new(
        Phrase("trade-above-this-stub-must"),
        two(a.stub_abs, b.stub_abs, Phrase("trade-lower"), l.stub_abs),
    ));
    out.push(Line::new(
        say!(
            "trade-lowest-stub-rule",
            outlettoweirmost = with_unit(case.first.chain.outlet_to_weir_most, "in")
        ),
        two(a.stub_min_code, b.stub_min_code, Phrase("trade-higher"), l.stub_min_code),
    ));
}
