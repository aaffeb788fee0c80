//! The terms of a chain: what was said of each, or the default that stands in for it, with its σ.

use alloc::{format, vec::Vec};

use survey::{Phrase, Said, say};

use super::chain::Connection;
use super::defaults::{DrainDefaults, Term};
use super::plan::{Mount, SecondBowl, Shell, SinkPlan};
use crate::given::show_inches as show;
use crate::sheet::Assumed;
use crate::tolerance::Reading;

/// Collects what is assumed while terms are chosen.
#[derive(Default)]
pub(super) struct Assumptions(pub(super) Vec<Assumed>);

impl Assumptions {
    pub(super) fn add(&mut self, item: Phrase, value: impl Into<Said>) {
        let one = Assumed::new(item, value);
        if !self.0.contains(&one) {
            self.0.push(one);
        }
    }
    /// The given length with its σ, or the default with its wide one.
    pub(super) fn term(&mut self, item: Phrase, given: Option<Reading>, default: Term) -> (f64, f64) {
        match given {
            Some(reading) => (reading.inches(), stated(reading, default.measured)),
            None => {
                self.add(item, show(default.inches));
                (default.inches, default.assumed)
            }
        }
    }
}

/// σ of a reading: half of its stated tolerance, or what such a reading usually has.
pub(super) fn stated(reading: Reading, usual: f64) -> f64 {
    if reading.tolerance.is_some() { reading.sigma(usual) } else { usual }
}

/// Counter top to the plane of the bowl depth, and its σ.
pub(super) fn offset(plan: &SinkPlan, d: &DrainDefaults, assumed: &mut Assumptions) -> (f64, f64) {
    match (plan.mount, plan.rim) {
        (Some(Mount::DropIn), rim) => {
            let (rim, sigma) = assumed.term(Phrase("trade-rim-drop-sink-above"), rim, d.rim);
            (-rim, sigma)
        }
        (Some(Mount::ApronFront), Some(rim)) => (-rim.inches(), stated(rim, d.rim.measured)),
        (Some(Mount::Undermount | Mount::ApronFront), _) => {
            assumed.term(Phrase("trade-counter-thickness"), plan.counter_thick, d.counter_thick)
        }
        (None, _) => {
            // The deeper mount is taken; drop-in or not moves the bowl by both offsets, read as a range of ±2σ.
            assumed.add(Phrase("trade-mount-sink"), Phrase("trade-undermount"));
            let (thick, sigma) =
                assumed.term(Phrase("trade-counter-thickness"), plan.counter_thick, d.counter_thick);
            (thick, libm::fmax(libm::fmax(sigma, d.counter_thick.assumed), (thick + d.rim.inches) / 4.0))
        }
    }
}

/// Thickness of the bowl's bottom, and its σ.
pub(super) fn shell(plan: &SinkPlan, d: &DrainDefaults, assumed: &mut Assumptions) -> (f64, f64) {
    let known = plan.shell.map(|shell| match shell {
        Shell::Steel => d.shell_steel,
        Shell::Composite => d.shell_composite,
        Shell::Fireclay => d.shell_fireclay,
        Shell::CastIron => d.shell_cast_iron,
    });
    match known {
        Some(term) => (term.inches, term.measured),
        None => {
            assumed.add(
                Phrase("trade-bowl-material"),
                say!("trade-steel-thick", shellsteel = show(d.shell_steel.inches)),
            );
            (d.shell_steel.inches, d.shell_steel.assumed)
        }
    }
}

/// What is said of the fitting under one bowl.
pub(super) struct Fixture {
    disposer: Option<bool>,
    disposer_drop: Option<Reading>,
    strainer_drop: Option<Reading>,
}

/// Under the first bowl. A disposer said to hang at the second one leaves it a strainer unless somebody said otherwise,
/// and so does a strainer's drop alone.
pub(super) fn first_fixture(plan: &SinkPlan, assumed: &mut Assumptions) -> Fixture {
    let elsewhere = plan.second.is_some_and(|second| has_disposer(&second));
    let (disposer_drop, strainer_drop) = (plan.disposer_drop, plan.strainer_drop);
    let mut fixture = Fixture { disposer: plan.disposer, disposer_drop, strainer_drop };
    let open = fixture.disposer.is_none() && disposer_drop.is_none();
    if open && (elsewhere || strainer_drop.is_some()) {
        let item = if plan.second.is_some() {
            Phrase("trade-first-bowls-outlet")
        } else {
            Phrase("trade-bowls-outlet")
        };
        assumed.add(item, Phrase("trade-strainer"));
        fixture.disposer = Some(false);
    }
    fixture
}

/// Under the second bowl: a strainer unless a disposer is named, and of one product with the first unless its own drop
/// is given.
pub(super) fn second_fixture(plan: &SinkPlan, bowl: &SecondBowl, assumed: &mut Assumptions) -> Fixture {
    let disposer = has_disposer(bowl);
    if bowl.disposer.is_none() && !disposer {
        assumed.add(Phrase("trade-second-bowls-outlet"), Phrase("trade-strainer"));
    }
    let strainer_drop = bowl.strainer_drop.or(plan.strainer_drop);
    if let (false, None, Some(drop)) = (disposer, bowl.strainer_drop, plan.strainer_drop) {
        assumed.add(
            Phrase("trade-drop-second-bowls-strainer"),
            say!("trade-firsts", drop = show(drop.inches())),
        );
    }
    Fixture { disposer: Some(disposer), disposer_drop: bowl.disposer_drop, strainer_drop }
}

fn has_disposer(bowl: &SecondBowl) -> bool {
    bowl.disposer.unwrap_or(bowl.disposer_drop.is_some())
}

/// What hangs under a bowl.
pub(super) struct Under {
    pub(super) kind: Connection,
    pub(super) drop: f64,
    pub(super) drop_sigma: f64,
    pub(super) trap: f64,
    pub(super) trap_sigma: f64,
}

/// Disposer or strainer with their drops. A trap drop is never measured beforehand: its σ is the narrower one once
/// it is settled what it hangs on.
pub(super) fn connection(fixture: &Fixture, d: &DrainDefaults, assumed: &mut Assumptions) -> Under {
    let trap_item = Phrase("trade-drop-trap-assembly");
    if fixture.disposer == Some(false) {
        let (drop, drop_sigma) =
            assumed.term(Phrase("trade-drop-strainer"), fixture.strainer_drop, d.drop_strainer);
        assumed.add(
            trap_item,
            say!("trade-under-strainer", trapdropstrainer = show(d.trap_drop_strainer.inches)),
        );
        let (trap, trap_sigma) = (d.trap_drop_strainer.inches, d.trap_drop_strainer.measured);
        return Under { kind: Connection::Strainer, drop, drop_sigma, trap, trap_sigma };
    }
    if fixture.disposer.is_none() && fixture.disposer_drop.is_none() {
        assumed.add(Phrase("trade-disposer-2"), Phrase("trade-planned"));
    }
    let (drop, drop_sigma) = match fixture.disposer_drop {
        Some(reading) => (reading.inches(), stated(reading, d.drop_disposer.measured)),
        None => {
            let open = d.drop_disposer_open;
            assumed.add(
                Phrase("trade-drop-disposer-none-chosen"),
                format!("{} ± {}", show(open.inches), show(2.0 * open.assumed)),
            );
            (open.inches, libm::fmax(open.assumed, d.drop_disposer.assumed))
        }
    };
    assumed
        .add(trap_item, say!("trade-under-disposer", trapdropdisposer = show(d.trap_drop_disposer.inches)));
    let trap = d.trap_drop_disposer;
    let trap_sigma = if fixture.disposer_drop.is_some() { trap.measured } else { trap.assumed };
    Under { kind: Connection::Disposer, drop, drop_sigma, trap: trap.inches, trap_sigma }
}
