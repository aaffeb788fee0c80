//! The arithmetic, line by line, so that a plumber can redo it on paper. Lengths are printed to the nearest 1/16 in
//! and carried unrounded, so a line may seem off by 1/16.

use alloc::{
    format,
    string::{String, ToString},
    vec::Vec,
};

use super::answer::BowlFit;
use super::chain::{Connection, HAIR, required_below_counter_plane};
use super::resolve::Case;
use crate::cite::with_unit;
use crate::given::show_inches as show;
use crate::sheet::Line;

const FALL: &str = "Fall from trap to stub";

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
            "Counter top above the new floor",
            format!("{reading}{buildup} = {}", show(c.counter_height)),
        ));
    }
    let fall = format!("{}/ft × {} ÷ 12 = {}", show(c.slope), show(c.run), show(case.levels.fall));
    match &case.second {
        None => of_bowl(&case.first, "", Some(fall), &mut out),
        Some(second) => {
            out.push(Line::new(FALL, fall));
            of_bowl(&case.first, "First bowl: ", None, &mut out);
            of_bowl(second, "Second bowl: ", None, &mut out);
            both(case, second, &mut out);
        }
    }
    let rest = |label: &str, text: String| Line::new(label, text);
    out.push(rest(
        "Lowest stub that keeps the trap off the cabinet floor",
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
    out.push(rest(
        "Stub above the new floor",
        format!("{start}{} = {}", less(stub.buildup), show(stub.height)),
    ));
    let margin = case.levels.stub_max - stub.height;
    out.push(rest(
        "Margin",
        format!("{}{} = {}", show(case.levels.stub_max), less(stub.height), show(margin)),
    ));
    let seal = if margin < -HAIR {
        format!("{}{} = {}", show(c.seal), less(margin), show(c.seal - margin))
    } else {
        format!("{}, no stretch needed", show(c.seal))
    };
    out.push(rest("Seal of a trap that reaches the stub", seal));
    out.push(rest(
        "Spread, one standard deviation",
        format!("{over:.3} in at the upper limits, {under:.3} in at the lower"),
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
        o if o > 0.0 => format!("{} below the counter top", show(o)),
        o if o < 0.0 => format!("{} above the counter top", show(-o)),
        _ => "at the counter top".to_string(),
    };
    out.push(rest(
        "Check with one tape",
        format!("the stub lies at least {} below the plane {plane}", show(needed)),
    ));
    out
}

/// Down to the levels of one bowl, with the fall to the stub where it is not shared.
fn of_bowl(bowl: &BowlFit, who: &str, fall_to_stub: Option<String>, out: &mut Vec<Line>) {
    let (c, l) = (&bowl.chain, &bowl.levels);
    let mut line = |label: &str, text: String| out.push(Line::new(format!("{who}{label}"), text));
    let (offset, depth, shell) = (less(c.offset), less(c.depth), less(c.shell));
    line(
        "Inside bottom of the bowl",
        format!("{}{offset}{depth} = {}", show(c.counter_height), show(l.outlet)),
    );
    let name = match c.connection {
        Connection::Disposer => "Center of the disposer outlet",
        Connection::Strainer => "Bottom of the strainer body",
    };
    let drop = less(c.connection_drop);
    line(name, format!("{}{shell}{drop} = {}", show(l.outlet), show(l.connection)));
    let mut down = less(c.trap_drop - bowl.waste_fall);
    if bowl.waste_run > 0.0 {
        let waste = show(bowl.waste_fall);
        line(
            "Fall of the continuous waste to the trap",
            format!("{}/ft × {} ÷ 12 = {waste}", show(c.slope), show(bowl.waste_run)),
        );
        down.push_str(&format!(" − {waste}"));
    }
    if let Some(fall) = fall_to_stub {
        line(FALL, fall);
    }
    let fall = less(l.fall);
    line("Highest practical stub", format!("{}{down}{fall} = {}", show(l.connection), show(l.stub_max)));
    line(
        "Stub with the deepest seal allowed",
        format!("{} + ({} − {}) = {}", show(l.stub_max), show(c.seal_most), show(c.seal), show(l.seal)),
    );
    line(
        "Stub at which water stands in the sink's outlet",
        match c.connection {
            Connection::Disposer => format!("{}{fall} = {}", show(l.connection), show(l.flood)),
            Connection::Strainer => {
                format!("{} + {} ÷ 2{fall} = {}", show(l.outlet), show(c.trap_size), show(l.flood))
            }
        },
    );
    line("Above this the stub must move", format!("the lower of the two = {}", show(l.stub_abs)));
    line(
        &format!("Lowest stub by the {} rule", with_unit(c.outlet_to_weir_most, "in")),
        format!(
            "{}{} + {} ÷ 2{fall} = {}",
            show(l.outlet),
            less(c.outlet_to_weir_most),
            show(c.trap_size),
            show(l.stub_min_code)
        ),
    );
}

/// Which of two bowls governs.
fn both(case: &Case, second: &BowlFit, out: &mut Vec<Line>) {
    let (a, b, l) = (&case.first.levels, &second.levels, &case.levels);
    let two = |a: f64, b: f64, which: &str, level: f64| {
        format!("the {which} of {} and {} = {}", show(a), show(b), show(level))
    };
    out.push(Line::new("Highest practical stub", two(a.stub_max, b.stub_max, "lower", l.stub_max)));
    out.push(Line::new("Above this the stub must move", two(a.stub_abs, b.stub_abs, "lower", l.stub_abs)));
    out.push(Line::new(
        format!("Lowest stub by the {} rule", with_unit(case.first.chain.outlet_to_weir_most, "in")),
        two(a.stub_min_code, b.stub_min_code, "higher", l.stub_min_code),
    ));
}
