//! Single changes that would bring the stub inside its limits, with amounts. Each stands alone; whether it is enough
//! is found by running the plan again with it. Each is for the plumber to judge: what is below the tee decides
//! whether a stub can be lowered at all.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::units::Length;
use survey::{Phrase, Said, say};

use super::answer::BowlFit;
use super::chain::{Connection, HAIR, Verdict};
use super::defaults::DrainDefaults;
use super::plan::{CounterDatum, Mount, SinkPlan};
use super::resolve::{Case, resolve};
use super::terms::Assumptions;
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::sheet::Limit;
use crate::tolerance::Reading;

/// Shallowest and deepest kitchen bowl usually sold, inches: common practice, no source.
const BOWLS: [f64; 2] = [5.5, 12.0];
/// Thinnest and thickest counter usually set, inches: common practice, no source.
const COUNTERS: [f64; 2] = [0.75, 1.5];
/// Highest counter usually set, inches: common practice, no source.
const HIGHEST_COUNTER: f64 = 38.0;
/// Shortest drop from bowl underside to a disposer's outlet among those sold, inches: common practice, no source.
const SHORTEST_DISPOSER: f64 = 4.0;

/// Which change.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum RemedyKind {
    /// Lower the stub by the amount or more.
    LowerStub,
    /// Leave out the disposer; the amount is the height gained.
    OmitDisposer,
    /// A disposer whose outlet lies no more than the amount under the bowl.
    ShorterDisposer,
    /// A bowl no deeper than the amount.
    ShallowerBowl,
    /// A counter no thicker than the amount, its top where it was.
    ThinnerCounter,
    /// A counter top at the amount or higher.
    HigherCounter,
    /// Raise the stub by the amount or more.
    RaiseStub,
    /// A bowl at least as deep as the amount.
    DeeperBowl,
    /// A counter at least as thick as the amount, its top where it was.
    ThickerCounter,
}

/// Bowls a change concerns.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bowls {
    /// The first, or the only one.
    First,
    /// The second.
    Second,
    /// Both.
    Both,
}

impl Bowls {
    fn of(first: bool, second: bool) -> Option<Self> {
        match (first, second) {
            (true, true) => Some(Self::Both),
            (true, false) => Some(Self::First),
            (false, true) => Some(Self::Second),
            (false, false) => None,
        }
    }
    const fn first(self) -> bool {
        !matches!(self, Self::Second)
    }
    const fn second(self) -> bool {
        !matches!(self, Self::First)
    }
}

/// One single change.
#[derive(Clone, PartialEq, Debug)]
pub struct Remedy {
    /// Which.
    pub kind: RemedyKind,
    /// Bowls it concerns; the first where it concerns none.
    pub bowls: Bowls,
    /// How much, inches, rounded to 1/16 on the helpful side.
    pub amount: f64,
    /// Whether it is enough by itself, at the values taken.
    pub enough: bool,
    /// The change in words.
    pub text: Said,
}

impl SinkPlan {
    /// The plan with one change made. An amount that is no length changes nothing.
    #[must_use]
    pub fn with(&self, remedy: &Remedy) -> Self {
        let mut plan = self.clone();
        let Some(amount) = Length::from_inches(remedy.amount) else { return plan };
        let to = Some(Reading::plain(amount));
        let (first, second) = (remedy.bowls.first(), remedy.bowls.second());
        match remedy.kind {
            RemedyKind::LowerStub => plan.stub = plan.stub.map(|s| Reading { value: s.value - amount, ..s }),
            RemedyKind::RaiseStub => plan.stub = plan.stub.map(|s| Reading { value: s.value + amount, ..s }),
            RemedyKind::ThinnerCounter | RemedyKind::ThickerCounter => plan.counter_thick = to,
            RemedyKind::HigherCounter => plan.counter_height = to,
            RemedyKind::ShallowerBowl | RemedyKind::DeeperBowl => {
                if first {
                    plan.bowl_depth = to;
                }
                if let (true, Some(bowl)) = (second, plan.second.as_mut()) {
                    bowl.depth = Reading::plain(amount);
                }
            }
            RemedyKind::OmitDisposer | RemedyKind::ShorterDisposer => {
                let kept = remedy.kind == RemedyKind::ShorterDisposer;
                let drop = to.filter(|_| kept);
                if first {
                    (plan.disposer, plan.disposer_drop) = (Some(kept), drop);
                }
                if let (true, Some(bowl)) = (second, plan.second.as_mut()) {
                    (bowl.disposer, bowl.disposer_drop) = (Some(kept), drop);
                }
            }
        }
        plan
    }
}

/// The single changes for a stub outside its limits; none when it fits.
pub(super) fn single(
    plan: &SinkPlan,
    defaults: &DrainDefaults,
    book: &Book,
    case: &Case,
) -> Result<Vec<Remedy>, TradeError> {
    let mut out = match case.verdict() {
        Verdict::Fits => Vec::new(),
        Verdict::TooLow => too_low(plan, case),
        Verdict::Marginal | Verdict::MustMove => too_high(plan, case),
    };
    for remedy in &mut out {
        let tried = resolve(&plan.with(remedy), defaults, book, &mut Assumptions::default())?;
        let Some(tried) = tried else { continue };
        remedy.enough = tried.verdict() == Verdict::Fits;
        if remedy.kind == RemedyKind::OmitDisposer {
            remedy.amount = tried.levels.stub_max - case.levels.stub_max;
        }
    }
    out.retain(|remedy| helps(remedy, case));
    for remedy in &mut out {
        remedy.text = words(remedy, case);
    }
    Ok(out)
}

/// Of what is not enough, only a change whose gain is worth naming stays.
fn helps(remedy: &Remedy, case: &Case) -> bool {
    let chain = &case.first.chain;
    match remedy.kind {
        RemedyKind::OmitDisposer => remedy.amount > 0.0,
        RemedyKind::ThinnerCounter => remedy.enough || chain.offset > remedy.amount,
        RemedyKind::ThickerCounter => remedy.enough || chain.offset < remedy.amount,
        RemedyKind::ShorterDisposer | RemedyKind::HigherCounter => remedy.enough,
        _ => true,
    }
}

/// A change before it is tried.
fn change(kind: RemedyKind, bowls: Bowls, amount: f64) -> Remedy {
    Remedy { kind, bowls, amount, enough: false, text: Said::nothing() }
}

fn bowls(case: &Case) -> impl Iterator<Item = &BowlFit> {
    core::iter::once(&case.first).chain(case.second.as_ref())
}

/// The bowls for which something holds.
fn which(case: &Case, holds: impl Fn(&BowlFit) -> bool) -> Option<Bowls> {
    Bowls::of(holds(&case.first), case.second.as_ref().is_some_and(holds))
}

/// Whether the counter may still be chosen, and the bowl hangs by its thickness.
fn counter_open(plan: &SinkPlan) -> bool {
    plan.counter_datum != Some(CounterDatum::OldFloor)
}
fn hangs_under_counter(plan: &SinkPlan) -> bool {
    match plan.mount {
        Some(Mount::DropIn) => false,
        Some(Mount::ApronFront) => plan.rim.is_none(),
        Some(Mount::Undermount) | None => true,
    }
}

fn too_high(plan: &SinkPlan, case: &Case) -> Vec<Remedy> {
    let stub = case.stub.height;
    let excess = stub - case.levels.stub_max;
    let over = |bowl: &BowlFit| stub > bowl.levels.stub_max + HAIR;
    // The least of a length over the bowls that are too low, each less what it lacks.
    let least = |length: fn(&BowlFit) -> f64, concerned: &dyn Fn(&BowlFit) -> bool| {
        let amounts = bowls(case).filter(|b| concerned(b)).map(|b| length(b) - (stub - b.levels.stub_max));
        down(amounts.fold(f64::INFINITY, libm::fmin))
    };
    let mut out = alloc::vec![change(RemedyKind::LowerStub, Bowls::First, up(excess))];
    let disposer = |bowl: &BowlFit| over(bowl) && bowl.chain.connection == Connection::Disposer;
    if let Some(at) = which(case, disposer) {
        out.push(change(RemedyKind::OmitDisposer, at, 0.0));
        let drop = least(|b| b.chain.connection_drop, &disposer);
        if drop >= SHORTEST_DISPOSER {
            out.push(change(RemedyKind::ShorterDisposer, at, drop));
        }
    }
    if let Some(at) = which(case, over) {
        let depth = least(|b| b.chain.depth, &over);
        out.push(change(RemedyKind::ShallowerBowl, at, libm::fmax(depth, BOWLS[0])));
    }
    if counter_open(plan) {
        let chain = &case.first.chain;
        if hangs_under_counter(plan) {
            let thick = libm::fmax(down(chain.offset - excess), COUNTERS[0]);
            out.push(change(RemedyKind::ThinnerCounter, Bowls::First, thick));
        }
        let top = up(chain.counter_height + excess);
        if top <= HIGHEST_COUNTER {
            out.push(change(RemedyKind::HigherCounter, Bowls::First, top));
        }
    }
    out
}

fn too_low(plan: &SinkPlan, case: &Case) -> Vec<Remedy> {
    let stub = case.stub.height;
    let lack = case.levels.stub_min_code - stub;
    let high = |bowl: &BowlFit| stub < bowl.levels.stub_min_code - HAIR;
    let mut out = alloc::vec![change(RemedyKind::RaiseStub, Bowls::First, up(lack))];
    if let Some(at) = which(case, high) {
        let depths = bowls(case).filter(|b| high(b)).map(|b| b.chain.depth + (b.levels.stub_min_code - stub));
        let depth = up(depths.fold(f64::NEG_INFINITY, libm::fmax));
        out.push(change(RemedyKind::DeeperBowl, at, libm::fmin(depth, BOWLS[1])));
    }
    if counter_open(plan) && hangs_under_counter(plan) {
        let thick = libm::fmin(up(case.first.chain.offset + lack), COUNTERS[1]);
        out.push(change(RemedyKind::ThickerCounter, Bowls::First, thick));
    }
    out
}

/// The change in words, once it is known whether it is enough.
fn words(remedy: &Remedy, case: &Case) -> Said {
    let by = show(remedy.amount);
    let counter = show(case.first.chain.counter_height);
    let (bowl, bowls_of) = match (remedy.bowls, &case.second) {
        (Bowls::Both, _) => (Phrase("trade-both-bowls"), Phrase("trade-bowls")),
        (Bowls::First, None) => (Phrase("trade-bowl-2"), Phrase("trade-bowl-3")),
        (Bowls::First, Some(_)) => (Phrase("trade-first-bowl"), Phrase("trade-first-bowl-2")),
        (Bowls::Second, _) => (Phrase("trade-second-bowl"), Phrase("trade-second-bowl-2")),
    };
    match (remedy.kind, remedy.enough) {
        (RemedyKind::LowerStub, enough) => {
            let mut text = alloc::vec![say!("trade-lower-stub-least-holds", by = by)];
            if case.levels.stub_max < case.levels.stub_min_cabinet {
                text.push(say!("trade-trap-would-then-come"));
            }
            if !enough {
                text.push(say!("trade-not-enough-itself"));
            }
            Said::sentences(text)
        }
        (RemedyKind::OmitDisposer, true) => {
            say!("trade-omit-disposer-strainer-place-gains", by = by)
        }
        (RemedyKind::OmitDisposer, false) => {
            say!("trade-omit-disposer-strainer-place", by = by)
        }
        (RemedyKind::ShorterDisposer, _) => say!("trade-choose-disposer-whose-outlet", by = by, bowl = bowl),
        (RemedyKind::ShallowerBowl, true) => say!("trade-choose-no-deeper-than", bowlsof = bowls_of, by = by),
        (RemedyKind::ShallowerBowl, false) => {
            say!("trade-shallower-bowl-alone-not", bowls = show(BOWLS[0]))
        }
        (RemedyKind::ThinnerCounter, true) => {
            say!("trade-choose-counter-no-thicker", by = by, counter = counter)
        }
        (RemedyKind::ThinnerCounter, false) => say!(
            "trade-thinner-counter-alone-not",
            counters = show(COUNTERS[0]),
            amount = show(case.first.chain.offset - remedy.amount)
        ),
        (RemedyKind::HigherCounter, _) => {
            say!("trade-set-counter-top-higher", by = by, highestcounter = show(HIGHEST_COUNTER))
        }
        (RemedyKind::RaiseStub, true) => say!("trade-raise-stub-least", by = by),
        (RemedyKind::RaiseStub, false) => say!("trade-raise-stub-least-not", by = by),
        (RemedyKind::DeeperBowl, true) => say!("trade-choose-least-deep", bowlsof = bowls_of, by = by),
        (RemedyKind::DeeperBowl, false) => {
            say!("trade-deeper-bowl-alone-not", bowls = show(BOWLS[1]))
        }
        (RemedyKind::ThickerCounter, true) => {
            say!("trade-choose-counter-least-thick", by = by, counter = counter)
        }
        (RemedyKind::ThickerCounter, false) => {
            say!("trade-thicker-counter-alone-not", counters = show(COUNTERS[1]))
        }
    }
}

/// What the changes take as usual: shown beside them.
pub(super) fn usual(remedies: &[Remedy]) -> Vec<Limit> {
    let among = |kinds: &[RemedyKind]| remedies.iter().any(|r| kinds.contains(&r.kind));
    let mut out = Vec::new();
    let mut add = |rule: Phrase, value: Said| out.push(Limit::practice(rule, value));
    if among(&[RemedyKind::ShallowerBowl, RemedyKind::DeeperBowl]) {
        add(
            Phrase("trade-usual-depth-kitchen-bowls"),
            say!("trade-to", counters = show(BOWLS[0]), counters2 = show(BOWLS[1])),
        );
    }
    if among(&[RemedyKind::ThinnerCounter, RemedyKind::ThickerCounter]) {
        add(
            Phrase("trade-usual-thickness-counters"),
            say!("trade-to", counters = show(COUNTERS[0]), counters2 = show(COUNTERS[1])),
        );
    }
    if among(&[RemedyKind::HigherCounter]) {
        add(Phrase("trade-highest-counter-usually-set"), show(HIGHEST_COUNTER).into());
    }
    if among(&[RemedyKind::ShorterDisposer]) {
        add(Phrase("trade-shortest-drop-disposers-outlet"), show(SHORTEST_DISPOSER).into());
    }
    out
}

/// Rounds up to 1/16, but lets a hair of float noise pass.
fn up(inches: f64) -> f64 {
    libm::ceil((inches - HAIR) * 16.0) / 16.0
}
/// Rounds down to 1/16, with the same allowance.
fn down(inches: f64) -> f64 {
    libm::floor((inches + HAIR) * 16.0) / 16.0
}
