//! What can be drawn of a result, as plain data: where things lie, not how they look. The drawing room turns it into
//! a section to scale or into lettering for a terminal.

use alloc::{string::String, vec::Vec};

use survey::Said;

use serde::{Deserialize, Serialize};

/// A result that can be drawn.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Picture {
    /// Sink, trap and stub seen from the front.
    Sink(SinkElevation),
    /// Pipes that fall from one end to the other: trap arm, vent.
    Fall(FallSection),
    /// A stud or joist with its hole, cut across.
    Bore(BoreSection),
    /// Parts of a load laid end to end against what carries them.
    Load(LoadBar),
    /// A wall with its holes and patches, seen from the front.
    Wall(WallElevation),
    /// What is off, day by day.
    Calendar(CalendarStrip),
    /// A ceiling with joists and lights, seen from below.
    Ceiling(CeilingPlan),
}

impl Picture {
    /// The same with every number rounded to a ten-thousandth, as it is frozen: the last bits of a sum do not reach a
    /// digest. None if a number is not finite.
    pub fn frozen(mut self) -> Option<Self> {
        let mut finite = true;
        self.numbers(&mut |x| {
            *x = libm::round(*x * 1e4) / 1e4 + 0.0;
            finite &= x.is_finite();
        });
        finite.then_some(self)
    }

    /// The same with everything that is said in it as text: what a drawing letters.
    #[must_use]
    pub fn spoken(mut self, say: &dyn Fn(&Said) -> String) -> Self {
        let each = |said: &mut Said| *said = Said::Text(say(said));
        match &mut self {
            Self::Sink(_) | Self::Ceiling(_) => {}
            Self::Fall(p) => {
                each(&mut p.from);
                each(&mut p.to);
                p.limits.iter_mut().for_each(|(name, _)| each(name));
            }
            Self::Bore(p) => each(&mut p.member),
            Self::Load(p) => {
                each(&mut p.unit);
                p.parts.iter_mut().for_each(|(name, ..)| each(name));
                p.carries.iter_mut().for_each(|(name, _)| each(name));
            }
            Self::Wall(p) => {
                each(&mut p.name);
                for (tag, trade, _) in &mut p.holes {
                    each(tag);
                    each(trade);
                }
            }
            Self::Calendar(p) => {
                p.stages.iter_mut().for_each(|(name, ..)| each(name));
                p.rows.iter_mut().for_each(|(name, _)| each(name));
                p.conflicts.iter_mut().for_each(|(_, words)| each(words));
            }
        }
        self
    }

    /// Every number of the picture.
    fn numbers(&mut self, each: &mut dyn FnMut(&mut f64)) {
        match self {
            Self::Sink(s) => {
                let own = [
                    &mut s.counter,
                    &mut s.bowl_plane,
                    &mut s.shell_bottom,
                    &mut s.connection,
                    &mut s.trap_arm,
                    &mut s.run,
                    &mut s.trap_size,
                    &mut s.seal,
                    &mut s.cabinet_floor,
                    &mut s.stub,
                    &mut s.stub_tolerance,
                    &mut s.stub_max,
                    &mut s.stub_max_tolerance,
                    &mut s.stub_abs,
                    &mut s.stub_min_code,
                    &mut s.stub_min_cabinet,
                ];
                own.into_iter().chain(s.bowls.iter_mut()).for_each(each);
            }
            Self::Fall(f) => {
                let own = [&mut f.length, &mut f.fall, &mut f.diameter];
                own.into_iter().chain(f.limits.iter_mut().map(|(_, x)| x)).for_each(each);
            }
            Self::Bore(b) => [
                &mut b.depth,
                &mut b.thickness,
                &mut b.hole,
                &mut b.center,
                &mut b.largest,
                &mut b.edge_kept,
                &mut b.plate_edge,
            ]
            .into_iter()
            .for_each(each),
            Self::Load(l) => {
                let parts = l.parts.iter_mut().map(|(_, x, _)| x);
                parts.chain(l.carries.iter_mut().map(|(_, x)| x)).for_each(each);
            }
            Self::Wall(w) => {
                let holes = w.holes.iter_mut().flat_map(|(_, _, at)| at.iter_mut());
                let patches = w.patches.iter_mut().flatten();
                let own = [&mut w.width, &mut w.height].into_iter().chain(w.framing.iter_mut());
                own.chain(holes).chain(patches).for_each(each);
            }
            Self::Calendar(c) => {
                let blocks = c.rows.iter_mut().flat_map(|(_, blocks)| blocks.iter_mut());
                let numbers = blocks.flat_map(|(_, from, to, chance)| [from, to, chance]);
                c.hours.iter_mut().chain(numbers).for_each(each);
            }
            Self::Ceiling(c) => {
                let lights = c.lights.iter_mut().flat_map(|(x, y, cut, _)| [x, y, cut]);
                let old = c.old_fixture.iter_mut().flat_map(|(x, y)| [x, y]);
                let own = [&mut c.width, &mut c.depth].into_iter().chain(c.joists.iter_mut());
                own.chain(lights).chain(old).for_each(each);
            }
        }
    }
}

/// Heights in inches above the finished new floor.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct SinkElevation {
    /// Counter top.
    pub counter: f64,
    /// Plane the bowl depth is measured from.
    pub bowl_plane: f64,
    /// Inside bottom of each bowl, left to right: one or two.
    pub bowls: Vec<f64>,
    /// Bottom of the shell of the governing bowl.
    pub shell_bottom: f64,
    /// Disposer outlet centerline or bottom of the strainer body.
    pub connection: f64,
    /// A disposer hangs there; else a strainer.
    pub disposer: bool,
    /// Trap-arm centerline at the trap.
    pub trap_arm: f64,
    /// Level run from trap to stub.
    pub run: f64,
    /// Nominal trap size.
    pub trap_size: f64,
    /// Seal of the trap.
    pub seal: f64,
    /// Cabinet floor.
    pub cabinet_floor: f64,
    /// Stub as found.
    pub stub: f64,
    /// Its tolerance: two σ of the reading.
    pub stub_tolerance: f64,
    /// Highest practical stub.
    pub stub_max: f64,
    /// Two σ of the highest practical stub.
    pub stub_max_tolerance: f64,
    /// Above this the stub must move.
    pub stub_abs: f64,
    /// Lowest stub by the outlet-to-weir limit.
    pub stub_min_code: f64,
    /// Lowest stub that keeps the trap off the cabinet floor.
    pub stub_min_cabinet: f64,
}

/// A pipe that falls over a run. Inches.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct FallSection {
    /// Name at the high end, such as "trap".
    pub from: Said,
    /// Name at the low end, such as "vent".
    pub to: Said,
    /// Level length.
    pub length: f64,
    /// Fall over the length.
    pub fall: f64,
    /// Nominal diameter.
    pub diameter: f64,
    /// Lengths it is held against: name and inches.
    pub limits: Vec<(Said, f64)>,
}

/// A member bored across. Inches.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct BoreSection {
    /// Name, such as "2x4 stud, bearing".
    pub member: Said,
    /// Depth of the member: the way the hole weakens it.
    pub depth: f64,
    /// Thickness.
    pub thickness: f64,
    /// Hole needed.
    pub hole: f64,
    /// Center of the hole from one edge.
    pub center: f64,
    /// Largest hole by the table.
    pub largest: f64,
    /// Wood to be kept at each edge.
    pub edge_kept: f64,
    /// Edge distance under which a nail plate belongs there.
    pub plate_edge: f64,
}

/// Parts of a load against what carries them.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct LoadBar {
    /// Unit of every number.
    pub unit: Said,
    /// Parts, in order: name, amount, and whether it is planned (else it is there).
    pub parts: Vec<(Said, f64, bool)>,
    /// What carries: name and amount.
    pub carries: Vec<(Said, f64)>,
}

/// A wall from the front. Inches, from the left end and the floor.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct WallElevation {
    /// Name.
    pub name: Said,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// Centers of framing.
    pub framing: Vec<f64>,
    /// Holes: tag, trade, x0, y0, x1, y1.
    pub holes: Vec<(Said, Said, [f64; 4])>,
    /// Patches: x0, y0, x1, y1.
    pub patches: Vec<[f64; 4]>,
}

/// A time something is off: day (from 1), from hour, to hour, chance that it is off then.
pub type OffBlock = (u32, f64, f64, f64);

/// What is off, day by day.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct CalendarStrip {
    /// Working days shown.
    pub days: u32,
    /// Hour the working day starts and ends.
    pub hours: [f64; 2],
    /// Stages bracketed above: name, first day, last day (from 1).
    pub stages: Vec<(Said, u32, u32)>,
    /// Rows: what is off, and its blocks.
    pub rows: Vec<(Said, Vec<OffBlock>)>,
    /// Conflicts: day and words.
    pub conflicts: Vec<(u32, Said)>,
}

/// A ceiling from below. Inches, from one corner.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct CeilingPlan {
    /// Length along x.
    pub width: f64,
    /// Length along y.
    pub depth: f64,
    /// Centers of the joists along x; they run along y.
    pub joists: Vec<f64>,
    /// Lights: x, y, cut-out, moved off a joist.
    pub lights: Vec<(f64, f64, f64, bool)>,
    /// The fixture that is replaced.
    pub old_fixture: Option<(f64, f64)>,
}

#[cfg(test)]
mod tests {
    use alloc::vec;

    use super::*;

    #[test]
    fn what_is_frozen_is_rounded_and_what_is_no_number_is_left_out() {
        let bar = |x| {
            Picture::Load(LoadBar { unit: "A".into(), parts: vec![("a".into(), x, false)], carries: vec![] })
        };
        assert_eq!(bar(65.600_000_000_000_01).frozen(), Some(bar(65.6)));
        assert_eq!(bar(-1e-9).frozen(), Some(bar(0.0)));
        assert_eq!(bar(f64::NAN).frozen(), None);
    }
}
