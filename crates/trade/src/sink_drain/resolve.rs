//! From a plan to its chains: every height from one plane, the finished new floor, and every error by its source.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::{Phrase, say};

use super::answer::BowlFit;
use super::chain::{Chain, Connection, Levels, Verdict, levels, verdict};
use super::defaults::DrainDefaults;
use super::plan::{CounterDatum, Datum, SinkPlan};
use super::spread::{Part, Spread};
use super::terms::{Assumptions, Under, connection, first_fixture, offset, second_fixture, shell, stated};
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::measure::InchesPerFoot;
use crate::number::size_name;
use crate::tolerance::Reading;
use crate::{cite, datum, trap_arm};

/// A plan with everything it needs.
pub(super) struct Case {
    pub(super) first: BowlFit,
    pub(super) second: Option<BowlFit>,
    pub(super) levels: Levels,
    pub(super) stub: StubPath,
    pub(super) counter: CounterPath,
    pub(super) spread: Spread,
}

/// Where the stub height came from.
pub(super) struct StubPath {
    pub(super) reading: f64,
    /// Toe kick and cabinet floor, where the reading starts at the cabinet floor.
    pub(super) from_cabinet: Option<(f64, f64)>,
    pub(super) buildup: f64,
    /// Above the finished new floor.
    pub(super) height: f64,
}

/// Where the counter height came from.
pub(super) struct CounterPath {
    pub(super) reading: f64,
    pub(super) from_old_floor: bool,
}

impl Case {
    pub(super) fn verdict(&self) -> Verdict {
        let l = &self.levels;
        verdict(self.stub.height, l.stub_min_code, l.stub_max, l.stub_abs)
    }
}

/// What a plumbing book says of the chain.
struct Rules {
    slope: f64,
    trap_size: f64,
    seal_most: f64,
    outlet_to_weir_most: f64,
}

impl Rules {
    fn of(book: &Book) -> Result<Self, TradeError> {
        let trap_size = cite::value(book, "kitchen-trap")?.0;
        let size = size_name(trap_size).unwrap_or("1-1/2");
        Ok(Self {
            slope: InchesPerFoot::new(cite::row(book, "least-slope", size)?.0)?.get(),
            trap_size,
            seal_most: cite::value(book, "seal-most")?.0,
            outlet_to_weir_most: cite::value(book, "outlet-to-weir")?.0,
        })
    }
}

/// Level distance between the outlets of a double sink, inches, and its σ: common practice, no source.
const BOWLS_APART: (f64, f64) = (16.0, 2.0);

/// Source of error of a strainer's drop.
const STRAINER_DROP: Phrase = Phrase("trade-strainer-drop");

/// A source that moves the levels by `high` and `low` and leaves the stub alone.
fn level(source: Phrase, sigma: f64, high: f64, low: f64) -> Part {
    Part { source, sigma, high, low, stub: 0.0 }
}

/// Chains, stub and spread of a plan; None where something is missing without which nothing can be said.
pub(super) fn resolve(
    plan: &SinkPlan,
    d: &DrainDefaults,
    book: &Book,
    assumed: &mut Assumptions,
) -> Result<Option<Case>, TradeError> {
    let (Some(depth), Some(reading)) = (plan.bowl_depth, plan.stub) else { return Ok(None) };
    let rules = Rules::of(book)?;
    let (buildup, floor_sigma) = match plan.floor_buildup {
        // Planned, not measured: no error of its own unless one is stated.
        Some(buildup) => (buildup.inches(), stated(buildup, 0.0)),
        None => (d.floor_buildup.inches, d.floor_buildup.assumed),
    };
    let counter = counter(plan, d, buildup, assumed);
    let (offset, offset_sigma) = offset(plan, d, assumed);
    let (shell, shell_sigma) = shell(plan, d, assumed);
    let under = connection(&first_fixture(plan, assumed), d, assumed);
    let second =
        plan.second.map(|bowl| (bowl, connection(&second_fixture(plan, &bowl, assumed), d, assumed)));
    let (run, fall_sigma) = match plan.run {
        Some(run) => (run.inches(), d.fall.measured),
        None => (assumed.term(Phrase("trade-run-trap-stub"), None, d.trap_run).0, d.fall.assumed),
    };
    let (toe, floor, stub, mut common) = stub_path(plan, reading, buildup, d, assumed);
    if plan.floor_buildup.is_none() {
        assumed.add(Phrase("trade-rise-finished-floor"), show(buildup));
    }
    let lowered = if counter.from_old_floor { -1.0 } else { 0.0 };
    // One trap hangs there: of two drops the less certain one speaks for it.
    let trap_sigma =
        second.as_ref().map_or(under.trap_sigma, |(_, other)| libm::fmax(under.trap_sigma, other.trap_sigma));
    common.extend([
        level(Phrase("trade-counter-height"), counter.sigma, 1.0, 1.0),
        Part { stub: -1.0, ..level(Phrase("trade-new-floor"), floor_sigma, lowered, lowered) },
        level(Phrase("trade-counter-thickness-rim"), offset_sigma, -1.0, -1.0),
        level(Phrase("trade-bowls-bottom"), shell_sigma, -1.0, 0.0),
        level(Phrase("trade-trap-drop"), trap_sigma, -1.0, 0.0),
        level(Phrase("trade-fall-stub"), fall_sigma, -1.0, -1.0),
    ]);
    if let Some(run) = plan.run.filter(|run| run.tolerance.is_some()) {
        common.push(level(Phrase("trade-run"), run.sigma(0.0), -rules.slope / 12.0, -rules.slope / 12.0));
    }
    let chain = Chain {
        counter_height: counter.height,
        offset,
        depth: depth.inches(),
        shell,
        connection: under.kind,
        connection_drop: under.drop,
        trap_drop: under.trap,
        run,
        slope: rules.slope,
        trap_size: rules.trap_size,
        seal: d.seal,
        seal_most: rules.seal_most,
        cabinet_floor: toe + floor,
        service: d.service,
        outlet_to_weir_most: rules.outlet_to_weir_most,
    };
    let own = |names: [Phrase; 3], depth: Reading, under: &Under| {
        let drop = if under.kind == Connection::Strainer { names[2] } else { names[1] };
        [
            level(names[0], stated(depth, d.bowl_depth.measured), -1.0, -1.0),
            level(drop, under.drop_sigma, -1.0, 0.0),
        ]
    };
    let mut spread = Spread { first: common.clone(), second: None };
    spread.first.extend(own(
        [Phrase("trade-bowl-depth"), Phrase("trade-disposer-drop"), STRAINER_DROP],
        depth,
        &under,
    ));
    let first = bowl(chain.clone(), 0.0, 0.0);
    let second = second.map(|(bowl_two, under_two)| {
        let (apart, apart_sigma) = match bowl_two.distance {
            Some(distance) => (libm::fabs(distance.inches()), stated(distance, BOWLS_APART.1 / 4.0)),
            None => {
                assumed.add(Phrase("trade-distance-between-bowls-outlets"), show(BOWLS_APART.0));
                BOWLS_APART
            }
        };
        let fall = trap_arm::fall(rules.slope, apart);
        // Two strainers are one product, unless each was measured: what one is off, the other is off.
        let strainer =
            bowl_two.strainer_drop.map_or(STRAINER_DROP, |_| Phrase("trade-second-strainers-drop"));
        let names = [Phrase("trade-second-bowls-depth"), Phrase("trade-second-disposers-drop"), strainer];
        common.extend(own(names, bowl_two.depth, &under_two));
        common.push(level(Phrase("trade-continuous-waste"), apart_sigma, -rules.slope / 12.0, 0.0));
        spread.second = Some(common);
        let chain = Chain {
            depth: bowl_two.depth.inches(),
            connection: under_two.kind,
            connection_drop: under_two.drop,
            trap_drop: under_two.trap + fall,
            ..chain
        };
        bowl(chain, apart, fall)
    });
    let levels = second.as_ref().map_or(first.levels, |other| first.levels.with_second(&other.levels));
    let counter = CounterPath { reading: counter.reading, from_old_floor: counter.from_old_floor };
    Ok(Some(Case { first, second, levels, stub, counter, spread }))
}

fn bowl(chain: Chain, waste_run: f64, waste_fall: f64) -> BowlFit {
    let levels = levels(&chain);
    BowlFit { chain, waste_run, waste_fall, levels }
}

struct Counter {
    reading: f64,
    from_old_floor: bool,
    height: f64,
    sigma: f64,
}

/// Counter top above the new floor.
fn counter(plan: &SinkPlan, d: &DrainDefaults, buildup: f64, assumed: &mut Assumptions) -> Counter {
    let (reading, sigma) =
        assumed.term(Phrase("trade-counter-height"), plan.counter_height, d.counter_height);
    let from_old_floor = plan.counter_datum == Some(CounterDatum::OldFloor);
    if plan.counter_datum.is_none() && plan.counter_height.is_some() && buildup != 0.0 {
        assumed.add(Phrase("trade-where-counter-height-starts"), say!("trade-finished-new-floor"));
    }
    let height = if from_old_floor { datum::aff_after_new_floor(reading, buildup) } else { reading };
    Counter { reading, from_old_floor, height, sigma }
}

/// Toe kick, cabinet floor, the stub's height over the new floor and the errors of its reading. Every missing link
/// of the reading adds its own wide one.
fn stub_path(
    plan: &SinkPlan,
    reading: Reading,
    buildup: f64,
    d: &DrainDefaults,
    assumed: &mut Assumptions,
) -> (f64, f64, StubPath, Vec<Part>) {
    let of_stub = |source, sigma| Part { stub: 1.0, ..level(source, sigma, 0.0, 0.0) };
    let mut parts = alloc::vec![of_stub(Phrase("trade-stub-reading"), reading.sigma(d.stub.measured))];
    let from_cabinet = match plan.stub_datum {
        Some(datum) => datum == Datum::CabinetFloor,
        None => {
            assumed.add(Phrase("trade-where-stub-reading-starts"), say!("trade-finished-floor"));
            parts.push(of_stub(Phrase("trade-start-stub-reading"), d.stub.assumed));
            false
        }
    };
    let (toe, toe_sigma) = assumed.term(Phrase("trade-toe-kick"), plan.toe_kick, d.toe_kick);
    let (floor, floor_sigma) =
        assumed.term(Phrase("trade-cabinet-floor-thickness"), plan.cabinet_floor_thick, d.cabinet_floor);
    if from_cabinet {
        parts.push(of_stub(Phrase("trade-toe-kick"), toe_sigma));
        parts.push(of_stub(Phrase("trade-cabinet-floor"), floor_sigma));
    }
    let reading = reading.inches();
    let height = if from_cabinet {
        datum::aff_from_cabinet_floor(toe, floor, reading, buildup)
    } else {
        datum::aff_after_new_floor(reading, buildup)
    };
    let path = StubPath { reading, from_cabinet: from_cabinet.then_some((toe, floor)), buildup, height };
    (toe, floor, path, parts)
}
