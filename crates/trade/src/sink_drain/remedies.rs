//! Single changes that would bring the stub inside its limits, with amounts. Each stands alone; each is for the
//! plumber to judge: what is below the tee decides whether a stub can be lowered at all.

use alloc::{format, string::String, vec::Vec};

use super::chain::{Chain, Connection, Levels, Verdict, without_disposer_gain};
use super::defaults::DrainDefaults;
use super::lines::show;

/// Shallowest kitchen bowl usually sold, inches: common practice, no source.
const SHALLOWEST_BOWL: f64 = 5.5;
/// Deepest kitchen bowl usually sold, inches: common practice, no source.
const DEEPEST_BOWL: f64 = 12.0;

/// Which change.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum RemedyKind {
    /// Lower the stub by the amount or more.
    LowerStub,
    /// Leave out the disposer; the amount is the height gained.
    OmitDisposer,
    /// A bowl no deeper than the amount.
    ShallowerBowl,
    /// Raise the stub by the amount or more.
    RaiseStub,
    /// A bowl at least as deep as the amount.
    DeeperBowl,
}

/// One single change.
#[derive(Clone, PartialEq, Debug)]
pub struct Remedy {
    /// Which.
    pub kind: RemedyKind,
    /// How much, inches, rounded to 1/16 on the helpful side.
    pub amount: f64,
    /// Whether it is enough by itself, at the values taken.
    pub enough: bool,
    /// The change in words.
    pub text: String,
}

/// The single changes for a stub outside its limits; none when it fits.
pub(super) fn single(
    verdict: Verdict,
    stub: f64,
    chain: &Chain,
    levels: &Levels,
    defaults: &DrainDefaults,
) -> Vec<Remedy> {
    match verdict {
        Verdict::Fits => Vec::new(),
        Verdict::TooLow => too_low(levels.stub_min_code - stub, chain),
        Verdict::Marginal | Verdict::MustMove => too_high(stub - levels.stub_max, chain, defaults),
    }
}

fn too_high(excess: f64, chain: &Chain, defaults: &DrainDefaults) -> Vec<Remedy> {
    let by = up(excess);
    let mut out = Vec::new();
    out.push(Remedy {
        kind: RemedyKind::LowerStub,
        amount: by,
        enough: true,
        text: format!(
            "Lower the stub by at least {}. Holds only where the pipe below the tee is vertical and free: ask what is \
             below.",
            show(by)
        ),
    });
    if chain.connection == Connection::Disposer {
        let gain = without_disposer_gain(
            chain.connection_drop,
            chain.trap_drop,
            defaults.drop_strainer.inches,
            defaults.trap_drop_strainer.inches,
        );
        let enough = gain >= excess;
        let end = if enough { "enough by itself" } else { "not enough by itself" };
        out.push(Remedy {
            kind: RemedyKind::OmitDisposer,
            amount: gain,
            enough,
            text: format!("Omit the disposer: a strainer in its place gains {}, {end}.", show(gain)),
        });
    }
    let depth = down(chain.depth - excess);
    let enough = depth >= SHALLOWEST_BOWL;
    out.push(Remedy {
        kind: RemedyKind::ShallowerBowl,
        amount: depth,
        enough,
        text: if enough {
            format!("Choose a bowl no deeper than {}.", show(depth))
        } else {
            format!("A shallower bowl alone is not enough: none under {} is usual.", show(SHALLOWEST_BOWL))
        },
    });
    out
}

fn too_low(lack: f64, chain: &Chain) -> Vec<Remedy> {
    let by = up(lack);
    let depth = up(chain.depth + lack);
    let enough = depth <= DEEPEST_BOWL;
    alloc::vec![
        Remedy {
            kind: RemedyKind::RaiseStub,
            amount: by,
            enough: true,
            text: format!("Raise the stub by at least {}.", show(by)),
        },
        Remedy {
            kind: RemedyKind::DeeperBowl,
            amount: depth,
            enough,
            text: if enough {
                format!("Choose a bowl at least {} deep.", show(depth))
            } else {
                format!("A deeper bowl alone is not enough: none over {} is usual.", show(DEEPEST_BOWL))
            },
        },
    ]
}

/// Rounds up to 1/16, but lets a millionth of an inch of float noise pass.
fn up(inches: f64) -> f64 {
    libm::ceil(inches * 16.0 - 1e-6) / 16.0
}
/// Rounds down to 1/16, with the same allowance.
fn down(inches: f64) -> f64 {
    libm::floor(inches * 16.0 + 1e-6) / 16.0
}
