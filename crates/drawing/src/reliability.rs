//! Forecasts beside how often they came true: what a reliability diagram is drawn of, and what it says.

use alloc::vec::Vec;

use survey::{Phrase, Said, say};

use crate::setting::held;

/// Forecasts in bins of probability against what was found.
#[derive(Clone, PartialEq, Debug)]
pub struct Reliability {
    /// Bins that hold an outcome, lowest first.
    pub bins: Vec<ReliabilityBin>,
    /// True where there are too few outcomes for a curve: counts alone are drawn then.
    pub small: bool,
}

/// One bin. Probabilities and shares from 0 to 1.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ReliabilityBin {
    /// Lower and upper end.
    pub ends: [f64; 2],
    /// Outcomes.
    pub n: u32,
    /// Of those, found.
    pub found: u32,
    /// Mean forecast.
    pub mean: f64,
    /// Share found.
    pub share: f64,
    /// Band around the share.
    pub band: [f64; 2],
}

impl ReliabilityBin {
    /// True where the band leaves out what was forecast.
    pub(crate) fn is_off(&self) -> bool {
        let mean = held(self.mean, 0.0, 1.0);
        mean < self.band[0] || mean > self.band[1]
    }
    /// Its ends in tenths: "3 to 4 in 10".
    pub(crate) fn named(&self) -> Said {
        let [from, to] = self.ends.map(in_tenths);
        say!("drawing-reliability-bin", from = from, to = to)
    }
    /// "3 of 12".
    pub(crate) fn counted(&self) -> Said {
        say!("drawing-reliability-count", found = self.found, n = self.n)
    }
}

/// A share in tenths with one place at most.
pub(crate) fn in_tenths(share: f64) -> Said {
    crate::written::amount(held(share, 0.0, 1.0) * 10.0)
}

/// What is drawn.
pub(crate) fn title(p: &Reliability) -> Said {
    if p.small {
        Phrase("drawing-reliability-title-small").into()
    } else {
        Phrase("drawing-reliability-title").into()
    }
}

/// What it shows, bin by bin.
pub(crate) fn description(p: &Reliability) -> Said {
    if p.bins.is_empty() {
        return Phrase("drawing-reliability-none").into();
    }
    let bin = |b: &ReliabilityBin| {
        if p.small {
            return say!("drawing-reliability-bin-small", bin = b.named(), count = b.counted());
        }
        let (low, high) = (in_tenths(b.band[0]), in_tenths(b.band[1]));
        if b.is_off() {
            say!("drawing-reliability-bin-off", bin = b.named(), count = b.counted(), low = low, high = high)
        } else {
            say!("drawing-reliability-bin-said", bin = b.named(), count = b.counted(), low = low, high = high)
        }
    };
    Said::sentences(p.bins.iter().map(bin))
}
