//! A sink base with its doors off: what is drawn before anything is measured on it.

use trade::picture::SinkElevation;

use super::canvas::Canvas;
use super::parts::{floor, shortened};
use super::path::Path;
use super::pens::{Fill, Hatch, Ink, Pen};
use crate::finding::governing;
use crate::setting::held;

/// Outside width of the cabinet that is drawn, inches: a common one. Only heights and the run are to scale.
pub(super) const CABINET: f64 = 36.0;
/// Board of the cabinet.
const BOARD: f64 = 0.75;
/// Highest that anything is drawn.
const TOP: f64 = 56.0;
/// Lowest.
const BOTTOM: f64 = -3.0;
const INSIDE: [f64; 2] = [3.0, 33.0];
/// Farthest right a stub is drawn.
const STUB_MOST: f64 = 33.2;
const STUB_USUAL: f64 = 31.0;
/// Where the drain stands when the run is not to scale anyway.
const CROPPED_DRAIN: f64 = 9.5;

/// From inches to px: x from the cabinet's left side, z from the finished floor.
#[derive(Clone, Copy)]
pub(super) struct Frame {
    pub(super) left: f64,
    pub(super) floor: f64,
    /// px in an inch.
    pub(super) scale: f64,
}

impl Frame {
    pub(super) fn x(&self, x: f64) -> f64 {
        self.left + x * self.scale
    }
    /// What is out of range is drawn at its edge.
    pub(super) fn z(&self, z: f64) -> f64 {
        self.floor - held(z, BOTTOM, TOP) * self.scale
    }
    fn rect(&self, c: &mut Canvas<'_>, x: [f64; 2], z: [f64; 2], fill: Fill, pen: Pen) {
        let (top, bottom) = (self.z(z[1]), self.z(z[0]));
        c.rect(self.x(x[0]), top, self.x(x[1]) - self.x(x[0]), bottom - top, fill, Some(pen));
    }
}

/// A level, or a usual one where it is not known.
pub(super) fn or(z: f64, usual: f64) -> f64 {
    if z.is_finite() { held(z, BOTTOM, TOP) } else { usual }
}

/// Where things stand across the cabinet, inches from its left side.
#[derive(Clone, Copy)]
pub(super) struct Plan {
    /// Middle of disposer or strainer.
    pub(super) drain: f64,
    /// Inlet and outlet leg of the trap.
    pub(super) legs: [f64; 2],
    pub(super) stub: f64,
    /// The run is longer than drawn.
    pub(super) cropped: bool,
    /// Bore of the trap, as drawn.
    pub(super) bore: f64,
}

/// Places the drain under its bowl and the stub a run away.
pub(super) fn plan(p: &SinkElevation) -> Plan {
    let bore = if p.trap_size.is_finite() && p.trap_size > 0.0 { held(p.trap_size, 1.0, 3.0) } else { 1.5 };
    let legs = 2.4 * bore;
    let before = if p.disposer { 5.9 } else { 0.0 };
    let run = if p.run.is_finite() { held(p.run, 0.0, 1000.0) } else { 12.0 };
    let least = if p.disposer { 5.3 } else { 6.0 };
    let (from, to) = match (p.bowls.len(), governing(&p.bowls)) {
        (2.., Some((i, _))) if i > 0 => (21.2, 21.2),
        (2.., Some(_)) => (least, 14.5),
        _ => (least, 18.0),
    };
    let cropped = from + before + legs + run > STUB_MOST;
    let drain = if cropped {
        held(CROPPED_DRAIN, from, to)
    } else {
        held(STUB_USUAL - run - legs - before, from, to)
    };
    let outlet = drain + before + legs;
    Plan {
        drain,
        legs: [drain + before, outlet],
        stub: held(outlet + run, outlet + 2.5, STUB_MOST),
        cropped,
        bore,
    }
}

/// Floor, cabinet and counter.
pub(super) fn cabinet(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation) {
    let counter = or(p.counter, 36.0);
    let bottom = or(p.cabinet_floor, 5.25);
    let under = counter - thickness(p);
    floor(c, f.x(-2.0), f.x(CABINET + 2.0), f.floor);
    let wood = Fill::Over(Hatch::Wood);
    for side in [0.0, CABINET - BOARD] {
        f.rect(c, [side, side + BOARD], [0.0, under], wood, Pen::CUT);
    }
    if bottom > BOARD && bottom < under {
        f.rect(c, [BOARD, CABINET - BOARD], [bottom - BOARD, bottom], wood, Pen::CUT);
    }
    let stone = Fill::Over(Hatch::Dots);
    f.rect(c, [-1.0, INSIDE[0]], [under, counter], stone, Pen::CUT);
    f.rect(c, [INSIDE[1], CABINET + 1.0], [under, counter], stone, Pen::CUT);
}

fn thickness(p: &SinkElevation) -> f64 {
    let under = or(p.counter, 36.0) - or(p.bowl_plane, 34.75);
    if under > 0.3 { held(under, 0.5, 3.0) } else { 1.25 }
}

/// The bowls, cut; the strainer of a bowl that does not govern, beyond.
pub(super) fn bowls(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation) {
    let Some((lead, deepest)) = governing(&p.bowls) else { return };
    let shell = held(deepest - p.shell_bottom, 0.25, 2.0);
    let rim = or(p.bowl_plane, 34.75);
    let n = p.bowls.len().min(2);
    let middle = (INSIDE[0] + INSIDE[1]) / 2.0;
    for (i, inside) in p.bowls.iter().take(n).enumerate() {
        if !inside.is_finite() {
            continue;
        }
        let [x0, x1] = match (n, i) {
            (1, _) => INSIDE,
            (_, 0) => [INSIDE[0], middle + shell / 2.0],
            _ => [middle - shell / 2.0, INSIDE[1]],
        };
        if i != lead {
            let at = (x0 + x1) / 2.0;
            f.rect(
                c,
                [at - 1.7, at + 1.7],
                [inside - shell - 1.6, inside - shell],
                Fill::Flat(Ink::Paper),
                Pen::BEYOND,
            );
            f.rect(
                c,
                [at - 0.75, at + 0.75],
                [inside - shell - 4.0, inside - shell - 1.6],
                Fill::None,
                Pen::BEYOND,
            );
        }
        bowl(c, f, [x0, x1], rim, *inside, shell);
    }
}

/// One bowl: its shell cut, rounded at the bottom.
fn bowl(c: &mut Canvas<'_>, f: &Frame, [x0, x1]: [f64; 2], rim: f64, inside: f64, shell: f64) {
    let s = f.scale;
    let depth = f.z(inside) - f.z(rim);
    let round = libm::fmin(1.4 * s, libm::fmax(depth * 0.4, 0.0));
    let small = round * 0.7;
    let t = shell * s;
    let (bottom, outer) = (f.z(inside), f.z(inside) + t);
    let path = Path::new()
        .to(f.x(x0), f.z(rim))
        .down(outer - round)
        .bend(0.0, round, round, round)
        .across(f.x(x1) - round)
        .bend(round, 0.0, round, -round)
        .down(f.z(rim))
        .across(f.x(x1) - t)
        .down(bottom - small)
        .bend(0.0, small, -small, small)
        .across(f.x(x0) + t + small)
        .bend(-small, 0.0, -small, -small)
        .down(f.z(rim))
        .close();
    c.path(&path, Fill::Over(Hatch::Dense), Some(Pen::CUT));
}

/// Disposer or strainer under the governing bowl, with the trap and its arm to the wall.
pub(super) fn drain(c: &mut Canvas<'_>, f: &Frame, p: &SinkElevation, at: &Plan) {
    let s = f.scale;
    let shell = or(p.shell_bottom, 24.5);
    let connection = or(p.connection, shell - 5.0);
    let arm = or(p.trap_arm, connection - 3.0);
    let end = or(p.stub_max, arm);
    let seal = if p.seal.is_finite() { held(p.seal, 0.5, 6.0) } else { 2.25 };
    let [inlet, outlet] = at.legs;
    let r = (outlet - inlet) / 2.0;
    // the dip's top lies a seal below the weir, which is the bottom of the arm's bore
    let dip = arm - at.bore - seal;
    let turn = dip + r;
    let elbow = 0.9 * s;

    let start = if p.disposer {
        Path::new()
            .to(f.x(at.drain + 3.9), f.z(connection))
            .across(f.x(inlet) - elbow)
            .bend(elbow, 0.0, elbow, elbow)
    } else {
        Path::new().to(f.x(inlet), f.z(connection))
    };
    let pipe = start
        .down(f.z(turn))
        .under(r * s, 2.0 * r * s)
        .down(f.z(arm) + elbow)
        .bend(0.0, -elbow, elbow, -elbow)
        .line(f.x(at.stub), f.z(end));
    let wide = (at.bore + 0.1) * s;
    c.path(&pipe, Fill::None, Some(Pen::whole(Ink::Strong, wide)));
    c.path(&pipe, Fill::None, Some(Pen::whole(Ink::Paper, libm::fmax(wide - 3.0, 1.0))));
    if at.cropped {
        let middle = (outlet + at.stub) / 2.0;
        shortened(c, f.x(middle), (f.z(arm) + f.z(end)) / 2.0, wide / 2.0 + 3.0);
    }
    if p.disposer {
        disposer(c, f, at.drain, shell, connection)
    } else {
        strainer(c, f, at.drain, shell, connection)
    }
}

fn disposer(c: &mut Canvas<'_>, f: &Frame, x: f64, shell: f64, outlet: f64) {
    let s = f.scale;
    let paper = Fill::Flat(Ink::Paper);
    f.rect(c, [x - 2.2, x + 2.2], [shell - 1.2, shell], paper, Pen::SEEN);
    let top = shell - 1.2;
    // the body hangs below its outlet; never through the floor
    let foot = libm::fmax(outlet - 6.2, 0.5);
    let shoulder = libm::fmin(1.6, libm::fmax((top - foot) * 0.3, 0.0)) * s;
    let round = libm::fmin(1.3 * s, shoulder);
    let body = Path::new()
        .to(f.x(x - 2.6), f.z(top))
        .across(f.x(x + 2.6))
        .step(1.3 * s, shoulder)
        .down(f.z(foot) - round)
        .bend(0.0, round, -round, round)
        .across(f.x(x - 3.9) + round)
        .bend(-round, 0.0, -round, -round)
        .down(f.z(top) + shoulder)
        .close();
    c.path(&body, paper, Some(Pen::SEEN));
    for z in [outlet + 1.9, foot + 2.2] {
        if z < top - 1.6 && z > foot + 1.3 {
            c.line(f.x(x - 3.9), f.z(z), f.x(x + 3.9), f.z(z), Pen::BEYOND);
        }
    }
    c.circle(f.x(x + 4.6), f.z(outlet), 2.6, paper, Some(Pen::SEEN));
}

fn strainer(c: &mut Canvas<'_>, f: &Frame, x: f64, shell: f64, bottom: f64) {
    let paper = Fill::Flat(Ink::Paper);
    let nut = libm::fmin(1.0, libm::fmax((shell - bottom) * 0.35, 0.0));
    f.rect(c, [x - 1.6, x + 1.6], [bottom, shell], paper, Pen::SEEN);
    f.rect(c, [x - 2.1, x + 2.1], [shell - nut, shell], paper, Pen::SEEN);
    f.rect(c, [x - 1.15, x + 1.15], [bottom - 0.9, bottom], paper, Pen::SEEN);
}
