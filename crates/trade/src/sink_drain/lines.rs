//! The arithmetic, line by line, so that a plumber can redo it on paper. Lengths are printed to the nearest 1/16 in
//! and carried unrounded, so a line may seem off by 1/16.

use alloc::{
    format,
    string::{String, ToString},
    vec::Vec,
};

use super::chain::{Chain, Connection, Levels, Odds};
use crate::tape::print_inches;

/// One line of arithmetic.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Line {
    /// What comes out.
    pub label: String,
    /// The sum, with its result.
    pub text: String,
}

/// Where the stub height came from.
pub(super) struct StubPath {
    pub(super) reading: f64,
    /// Toe kick and cabinet floor, where the reading starts at the cabinet floor.
    pub(super) from_cabinet: Option<(f64, f64)>,
    pub(super) buildup: f64,
    pub(super) stub: f64,
}

/// Inches to 1/16; a number too large to print is shown as it is.
pub(super) fn show(inches: f64) -> String {
    match print_inches(inches) {
        Ok(text) => match text.strip_prefix('-') {
            Some(rest) => format!("−{rest}"),
            None => text,
        },
        Err(_) => format!("{inches} in"),
    }
}

/// ` − x`, or ` + x` for a negative one.
fn less(inches: f64) -> String {
    if inches < 0.0 { format!(" + {}", show(-inches)) } else { format!(" − {}", show(inches)) }
}

pub(super) fn arithmetic(c: &Chain, l: &Levels, stub: &StubPath, odds: &Odds, low_sigma: f64) -> Vec<Line> {
    let mut out = Vec::new();
    let mut line = |label: &str, text: String| out.push(Line { label: label.to_string(), text });
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
    line("Fall from trap to stub", format!("{}/ft × {} ÷ 12 = {}", show(c.slope), show(c.run), show(l.fall)));
    let (trap, fall) = (less(c.trap_drop), less(l.fall));
    line("Highest practical stub", format!("{}{trap}{fall} = {}", show(l.connection), show(l.stub_max)));
    let stretch = c.seal_most - c.seal;
    line(
        "Stub with the deepest seal allowed",
        format!(
            "{} + ({} − {}) = {}",
            show(l.stub_max),
            show(c.seal_most),
            show(c.seal),
            show(l.stub_max + stretch)
        ),
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
        "Lowest stub by the 24 in rule",
        format!(
            "{}{} + {} ÷ 2{fall} = {}",
            show(l.outlet),
            less(c.outlet_to_weir_most),
            show(c.trap_size),
            show(l.stub_min_code)
        ),
    );
    line(
        "Lowest stub that keeps the trap off the cabinet floor",
        format!(
            "{} + {} + ({} ÷ 2 + {} + {} + 1/8\"){fall} = {}",
            show(c.cabinet_floor),
            show(c.service),
            show(c.trap_size),
            show(c.seal),
            show(c.trap_size),
            show(l.stub_min_cabinet)
        ),
    );
    let start = match stub.from_cabinet {
        Some((toe, floor)) => format!("{} + {} + {}", show(toe), show(floor), show(stub.reading)),
        None => show(stub.reading),
    };
    line("Stub above the new floor", format!("{start}{} = {}", less(stub.buildup), show(stub.stub)));
    line("Margin", format!("{}{} = {}", show(l.stub_max), less(stub.stub), show(l.stub_max - stub.stub)));
    line(
        "Spread, one standard deviation",
        format!("{:.3} in at the upper limits, {low_sigma:.3} in at the lower", odds.sigma),
    );
    let needed = c.depth + c.shell + c.connection_drop + c.trap_drop + l.fall;
    let plane = match c.offset {
        o if o > 0.0 => format!("{} below the counter top", show(o)),
        o if o < 0.0 => format!("{} above the counter top", show(-o)),
        _ => "at the counter top".to_string(),
    };
    line("Check with one tape", format!("the stub lies at least {} below the plane {plane}", show(needed)));
    out
}
