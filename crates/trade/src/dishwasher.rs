//! How a dishwasher may drain at the sink. Sources: IPC 802.1.6 and IRC P2717.2 (2015); California Plumbing Code
//! 2013 (UPC 2012) 807.4 and 419.2. The plumber and the dishwasher's own sheet decide.

use crate::limits::{Code, DISHWASHER_IPC, DISHWASHER_UPC, DISPOSER_UPC, Limit};

/// A way to connect the dishwasher's drain.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Method {
    /// Through an air-gap fitting at or above the flood level, then to the disposer's inlet or a tailpiece wye.
    AirGap,
    /// Through an air gap, but joining the drain after the disposer.
    AirGapDownstreamOfDisposer,
    /// Raised to the underside of the rim or counter and fastened there, without an air gap.
    HighLoop,
}

impl Method {
    /// Words that [`Method::parse`] knows.
    pub const WORDS: &'static str = "air_gap, air_gap_downstream_of_disposer, high_loop";

    /// The method by its word.
    pub fn parse(word: &str) -> Option<Self> {
        match word {
            "air_gap" => Some(Self::AirGap),
            "air_gap_downstream_of_disposer" => Some(Self::AirGapDownstreamOfDisposer),
            "high_loop" => Some(Self::HighLoop),
            _ => None,
        }
    }
}

/// Whether the published rule names this way, and the rule.
///
/// The IPC names two places to connect, a wye on the sink's tailpiece or the disposer's own dishwasher inlet; the
/// pipe after a disposer is neither, so it counts as not named here.
pub const fn is_named(code: Code, method: Method) -> (bool, Limit) {
    match (code, method) {
        (Code::Ipc, Method::AirGap | Method::HighLoop) => (true, DISHWASHER_IPC),
        (Code::Ipc, Method::AirGapDownstreamOfDisposer) => (false, DISHWASHER_IPC),
        (Code::Upc, Method::AirGap) => (true, DISHWASHER_UPC),
        (Code::Upc, Method::HighLoop) => (false, DISHWASHER_UPC),
        (Code::Upc, Method::AirGapDownstreamOfDisposer) => (false, DISPOSER_UPC),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_upc_wants_an_air_gap_and_the_ipc_takes_a_high_loop() {
        // IPC 802.1.6 / IRC P2717.2 (2015); California Plumbing Code 2013 (UPC 2012) 807.4, 419.2
        assert!(is_named(Code::Ipc, Method::HighLoop).0 && is_named(Code::Ipc, Method::AirGap).0);
        assert!(is_named(Code::Upc, Method::AirGap).0 && !is_named(Code::Upc, Method::HighLoop).0);
        assert_eq!(is_named(Code::Upc, Method::AirGapDownstreamOfDisposer).1.clause, "419.2");
    }
}
