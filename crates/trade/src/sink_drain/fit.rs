//! From a planned sink and a measured stub to an answer: takes a default for whatever is missing, says so, and widens
//! the spread by it.

use alloc::{
    boxed::Box,
    format,
    string::{String, ToString},
    vec::Vec,
};

use survey::units::Length;

use super::chain::{Chain, Connection, Levels, Odds, Sigmas, levels, odds, root_of_squares, verdict};
use super::defaults::{DrainDefaults, Term};
use super::lines::{StubPath, arithmetic, show};
use super::plan::{Assumed, CAUTION, Datum, DrainAnswer, DrainFit, Mount, Shell, SinkPlan};
use super::remedies::single;
use crate::limits::{self, Code};
use crate::normal::chance_over;
use crate::{datum, dishwasher, trap_arm};

/// Grid of a tape read to 1/16 in, as a standard deviation (uniform over one step).
const GRID_SIGMA: f64 = 0.0625 / 3.464_101_615_137_754_6;

/// Collects what is assumed while terms are chosen.
struct Assumptions(Vec<Assumed>);

impl Assumptions {
    fn add(&mut self, item: &'static str, value: String) {
        self.0.push(Assumed { item, value });
    }
    /// The given length with its measured σ, or the default with its wide one.
    fn term(&mut self, item: &'static str, given: Option<Length>, default: Term) -> (f64, f64) {
        match given {
            Some(length) => (length.inches(), default.measured),
            None => {
                self.add(item, show(default.inches));
                (default.inches, default.assumed)
            }
        }
    }
}

/// Fits one planned sink to one stub. Never fails: what is missing is either named or assumed.
pub fn fit(plan: &SinkPlan, defaults: &DrainDefaults) -> DrainAnswer {
    let (Some(depth), Some((reading, tolerance))) = (plan.bowl_depth, plan.stub) else {
        let mut missing = Vec::new();
        if plan.stub.is_none() {
            missing.push("stub height");
        }
        if plan.bowl_depth.is_none() {
            missing.push("bowl depth");
        }
        return DrainAnswer::CannotSay { missing };
    };
    let d = defaults;
    let mut assumed = Assumptions(Vec::new());
    let (counter_height, counter_sigma) =
        assumed.term("counter height", plan.counter_height, d.counter_height);
    let (offset, thick_sigma) = offset(plan, d, &mut assumed);
    let (shell, shell_sigma) = shell(plan, d, &mut assumed);
    let under = connection(plan, d, &mut assumed);
    let run = match plan.run {
        Some(run) => (run.inches(), d.fall.measured),
        None => (assumed.term("run from trap to stub", None, d.trap_run).0, d.fall.assumed),
    };
    let (toe, floor, path, stub_sigma) = stub_path(plan, reading, tolerance, d, &mut assumed);
    let code = plan.code.unwrap_or_else(|| {
        assumed.add("code family", Code::Ipc.name().to_string());
        Code::Ipc
    });
    let chain = Chain {
        counter_height,
        offset,
        depth: depth.inches(),
        shell,
        connection: under.kind,
        connection_drop: under.drop,
        trap_drop: under.trap,
        run: run.0,
        slope: d.slope,
        trap_size: d.trap_size,
        seal: d.seal,
        seal_most: d.seal_most,
        cabinet_floor: toe + floor,
        service: d.service,
        outlet_to_weir_most: d.outlet_to_weir_most,
    };
    let sigmas = Sigmas {
        counter: counter_sigma,
        thick: thick_sigma,
        depth: d.bowl_depth.measured,
        shell: shell_sigma,
        connection: under.drop_sigma,
        trap: under.trap_sigma,
        fall: run.1,
        stub: stub_sigma,
    };
    DrainAnswer::Fit(Box::new(judged(plan, d, code, chain, sigmas, &path, assumed.0)))
}

/// Puts the answer together once chain, spread and stub are known.
fn judged(
    plan: &SinkPlan,
    defaults: &DrainDefaults,
    code: Code,
    chain: Chain,
    sigmas: Sigmas,
    path: &StubPath,
    assumed: Vec<Assumed>,
) -> DrainFit {
    let levels = levels(&chain);
    let stub = path.stub;
    let verdict = verdict(stub, levels.stub_min_code, levels.stub_max, levels.stub_abs);
    let Odds { sigma, over_practical, over_absolute } = odds(stub, levels.stub_max, levels.stub_abs, &sigmas);
    let low_sigma = sigmas.low_margin();
    let shown = Odds { sigma, over_practical, over_absolute };
    let arm = trap_arm::check(code, chain.trap_size, chain.run, chain.slope).ok();
    DrainFit {
        levels,
        stub,
        verdict,
        margin: levels.stub_max - stub,
        sigmas,
        sigma,
        p_over_practical: over_practical,
        p_over_absolute: over_absolute,
        p_too_low: chance_over(-stub, -levels.stub_min_code, low_sigma),
        remedies: single(verdict, stub, &chain, &levels, defaults),
        lines: arithmetic(&chain, &levels, path, &shown, low_sigma),
        limits: limits::of_sink_drain(code).to_vec(),
        notes: notes(plan, code, &chain, &levels, stub, arm.as_ref()),
        trap_arm: arm,
        assumed,
        caution: CAUTION,
        chain,
    }
}

/// Counter top to the plane of the bowl depth, and its σ.
fn offset(plan: &SinkPlan, d: &DrainDefaults, assumed: &mut Assumptions) -> (f64, f64) {
    match plan.mount {
        Some(Mount::DropIn) => {
            assumed.add("rim of the drop-in sink above the counter", show(d.rim.inches));
            (-d.rim.inches, d.rim.assumed)
        }
        Some(Mount::Undermount | Mount::ApronFront) => {
            assumed.term("counter thickness", plan.counter_thick, d.counter_thick)
        }
        None => {
            // The deeper mount is taken; drop-in or not moves the bowl by both offsets, read as a range of ±2σ.
            assumed.add("mount of the sink", "undermount".to_string());
            let (thick, sigma) = assumed.term("counter thickness", plan.counter_thick, d.counter_thick);
            (thick, libm::fmax(libm::fmax(sigma, d.counter_thick.assumed), (thick + d.rim.inches) / 4.0))
        }
    }
}

/// Thickness of the bowl's bottom, and its σ.
fn shell(plan: &SinkPlan, d: &DrainDefaults, assumed: &mut Assumptions) -> (f64, f64) {
    let known = plan.shell.map(|shell| match shell {
        Shell::Steel => d.shell_steel,
        Shell::Composite => d.shell_composite,
        Shell::Fireclay => d.shell_fireclay,
        Shell::CastIron => d.shell_cast_iron,
    });
    match known {
        Some(term) => (term.inches, term.measured),
        None => {
            assumed.add("bowl material", format!("steel, {} thick", show(d.shell_steel.inches)));
            (d.shell_steel.inches, d.shell_steel.assumed)
        }
    }
}

/// What hangs under the bowl.
struct Under {
    kind: Connection,
    drop: f64,
    drop_sigma: f64,
    trap: f64,
    trap_sigma: f64,
}

/// Disposer or strainer with their drops. A trap drop is never measured beforehand: its σ is the narrower one once
/// it is settled what it hangs on.
fn connection(plan: &SinkPlan, d: &DrainDefaults, assumed: &mut Assumptions) -> Under {
    let trap_item = "drop of the trap assembly";
    if plan.disposer == Some(false) {
        let (drop, drop_sigma) = assumed.term("drop of the strainer", None, d.drop_strainer);
        assumed.add(trap_item, show(d.trap_drop_strainer.inches));
        let (trap, trap_sigma) = (d.trap_drop_strainer.inches, d.trap_drop_strainer.measured);
        return Under { kind: Connection::Strainer, drop, drop_sigma, trap, trap_sigma };
    }
    if plan.disposer.is_none() && plan.disposer_drop.is_none() {
        assumed.add("disposer", "planned".to_string());
    }
    let (drop, drop_sigma) = match plan.disposer_drop {
        Some(length) => (length.inches(), d.drop_disposer.measured),
        None => {
            let open = d.drop_disposer_open;
            assumed.add(
                "drop of the disposer, none chosen",
                format!("{} ± {}", show(open.inches), show(2.0 * open.assumed)),
            );
            (open.inches, libm::fmax(open.assumed, d.drop_disposer.assumed))
        }
    };
    assumed.add(trap_item, show(d.trap_drop_disposer.inches));
    let trap = d.trap_drop_disposer;
    let trap_sigma = if plan.disposer_drop.is_some() { trap.measured } else { trap.assumed };
    Under { kind: Connection::Disposer, drop, drop_sigma, trap: trap.inches, trap_sigma }
}

/// Toe kick, cabinet floor, the stub's height over the new floor and its σ. Every missing link of the reading adds
/// its own wide σ.
fn stub_path(
    plan: &SinkPlan,
    reading: Length,
    tolerance: Length,
    d: &DrainDefaults,
    assumed: &mut Assumptions,
) -> (f64, f64, StubPath, f64) {
    let mut sigmas = [libm::fmax(tolerance.abs().inches() / 2.0, GRID_SIGMA), 0.0, 0.0, 0.0];
    let from_cabinet = match plan.stub_datum {
        Some(datum) => datum == Datum::CabinetFloor,
        None => {
            assumed.add("where the stub reading starts", "finished floor".to_string());
            sigmas[1] = d.stub.assumed;
            false
        }
    };
    let (toe, toe_sigma) = assumed.term("toe kick", plan.toe_kick, d.toe_kick);
    let (floor, floor_sigma) =
        assumed.term("cabinet floor thickness", plan.cabinet_floor_thick, d.cabinet_floor);
    if from_cabinet {
        sigmas[2] = root_of_squares(&[toe_sigma, floor_sigma]);
    }
    let buildup = match plan.floor_buildup {
        Some(buildup) => buildup.inches(), // planned, not measured: no error of its own
        None => {
            assumed.add("rise of the finished floor", show(d.floor_buildup.inches));
            sigmas[3] = d.floor_buildup.assumed;
            d.floor_buildup.inches
        }
    };
    let reading = reading.inches();
    let stub = if from_cabinet {
        datum::aff_from_cabinet_floor(toe, floor, reading, buildup)
    } else {
        datum::aff_after_new_floor(reading, buildup)
    };
    let path = StubPath { reading, from_cabinet: from_cabinet.then_some((toe, floor)), buildup, stub };
    (toe, floor, path, root_of_squares(&sigmas))
}

/// What else the reader should know.
fn notes(
    plan: &SinkPlan,
    code: Code,
    chain: &Chain,
    levels: &Levels,
    stub: f64,
    arm: Option<&trap_arm::TrapArm>,
) -> Vec<String> {
    let mut out = Vec::new();
    if chain.connection == Connection::Disposer && plan.disposer_drop.is_none() {
        out.push(
            "Ask for the disposer's sheet: its outlet drop is the widest guess in this answer.".to_string(),
        );
    }
    if plan.stub_datum.is_none() {
        out.push(format!(
            "A reading that starts at the cabinet floor would put the stub {} higher.",
            show(chain.cabinet_floor)
        ));
    }
    if stub < levels.stub_min_cabinet {
        out.push(format!(
            "The trap would come closer than {} to the cabinet floor, or below it.",
            show(chain.service)
        ));
    }
    if arm.is_some_and(|arm| arm.faults.contains(&trap_arm::Fault::TooLong)) {
        out.push("The run alone is longer than the trap arm may be before its vent.".to_string());
    }
    if plan.dishwasher == Some(true) {
        let (high_loop, limit) = dishwasher::is_named(code, dishwasher::Method::HighLoop);
        let how = if high_loop {
            "an air gap, or a line raised and fastened under the counter"
        } else {
            "an air-gap fitting"
        };
        out.push(format!(
            "Dishwasher drain under {}: {how} ({}, {}).",
            code.name(),
            limit.clause,
            limit.edition
        ));
    }
    out
}
