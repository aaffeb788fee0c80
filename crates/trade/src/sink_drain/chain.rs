//! The chain itself, in inches: levels and verdict of one bowl, and of two bowls on one trap.

use crate::trap_arm::fall;

/// What the tailpiece under the bowl is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Connection {
    /// A food-waste disposer; the level is its outlet's centerline.
    Disposer,
    /// A basket strainer; the level is the bottom of its body.
    Strainer,
}

impl Connection {
    /// Words that [`Connection::parse`] knows.
    pub const WORDS: &'static str = "disposer, strainer";

    /// The connection by its word.
    pub fn parse(word: &str) -> Option<Self> {
        match word {
            "disposer" => Some(Self::Disposer),
            "strainer" => Some(Self::Strainer),
            _ => None,
        }
    }
}

/// Everything the chain needs; inches, heights above the finished new floor.
#[derive(Clone, PartialEq, Debug)]
pub struct Chain {
    /// Counter top.
    pub counter_height: f64,
    /// Counter top down to the plane the bowl depth is measured from; negative for a drop-in rim.
    pub offset: f64,
    /// Inside bowl depth.
    pub depth: f64,
    /// Thickness of the bowl's bottom.
    pub shell: f64,
    /// Disposer or strainer.
    pub connection: Connection,
    /// Bowl underside down to the connection.
    pub connection_drop: f64,
    /// Connection down to the highest trap-arm centerline at the trap.
    pub trap_drop: f64,
    /// Level run from trap to stub.
    pub run: f64,
    /// Slope of the run, inches per foot.
    pub slope: f64,
    /// Nominal trap size.
    pub trap_size: f64,
    /// Seal of the unmodified trap.
    pub seal: f64,
    /// Deepest seal allowed.
    pub seal_most: f64,
    /// Cabinet floor.
    pub cabinet_floor: f64,
    /// Room kept under the trap for service.
    pub service: f64,
    /// Longest vertical distance from outlet to weir.
    pub outlet_to_weir_most: f64,
}

/// The levels of a chain, inches above the finished new floor.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Levels {
    /// Inside bottom of the bowl.
    pub outlet: f64,
    /// Disposer outlet centerline or bottom of the strainer body.
    pub connection: f64,
    /// Highest trap-arm centerline at the trap.
    pub trap_arm: f64,
    /// Fall from trap to stub, inches.
    pub fall: f64,
    /// Highest practical stub-out centerline.
    pub stub_max: f64,
    /// Above this the stub must move: the lower of `flood` and `seal`.
    pub stub_abs: f64,
    /// Stub level at which water stands in the disposer's outlet or at the bowl's bottom.
    pub flood: f64,
    /// Stub level reached with the deepest seal allowed.
    pub seal: f64,
    /// Lowest stub by the outlet-to-weir limit.
    pub stub_min_code: f64,
    /// Lowest stub that keeps the trap above the cabinet floor.
    pub stub_min_cabinet: f64,
}

impl Levels {
    /// The levels of two bowls on one trap: the lower of each upper limit, the higher of each lower one. Outlet,
    /// connection and trap arm are those of the bowl whose highest practical stub is the lower.
    #[must_use]
    pub fn with_second(self, second: &Self) -> Self {
        let governing = if second.stub_max < self.stub_max { second } else { &self };
        Self {
            stub_abs: libm::fmin(self.stub_abs, second.stub_abs),
            flood: libm::fmin(self.flood, second.flood),
            seal: libm::fmin(self.seal, second.seal),
            stub_min_code: libm::fmax(self.stub_min_code, second.stub_min_code),
            stub_min_cabinet: libm::fmax(self.stub_min_cabinet, second.stub_min_cabinet),
            ..*governing
        }
    }
}

/// The levels of one chain. Finite inputs give finite levels within ordinary sizes; nothing here can fail.
pub fn levels(c: &Chain) -> Levels {
    let outlet = c.counter_height - c.offset - c.depth;
    let connection = outlet - c.shell - c.connection_drop;
    let trap_arm = connection - c.trap_drop;
    let fall = fall(c.slope, c.run);
    let stub_max = trap_arm - fall;
    let flood = match c.connection {
        Connection::Disposer => connection - fall,
        Connection::Strainer => outlet + c.trap_size / 2.0 - fall,
    };
    let seal = stub_max + (c.seal_most - c.seal);
    // From the arm's centerline down: half a bore to the weir, the seal, the dip's bore, 1/8 in of wall.
    let below_arm = c.trap_size / 2.0 + c.seal + c.trap_size + 0.125;
    Levels {
        outlet,
        connection,
        trap_arm,
        fall,
        stub_max,
        stub_abs: libm::fmin(flood, seal),
        flood,
        seal,
        stub_min_code: outlet - c.outlet_to_weir_most + c.trap_size / 2.0 - fall,
        stub_min_cabinet: c.cabinet_floor + c.service + below_arm - fall,
    }
}

/// How the stub lies to the planned sink. Never an approval.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Verdict {
    /// Below the outlet-to-weir limit.
    TooLow,
    /// Between the lowest by code and the highest practical.
    Fits,
    /// Only with a stretched trap: plan to move it.
    Marginal,
    /// Above what any allowed trap reaches.
    MustMove,
}

impl Verdict {
    /// The word used in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::TooLow => "too_low",
            Self::Fits => "fits",
            Self::Marginal => "marginal",
            Self::MustMove => "must_move",
        }
    }
}

/// Inches; keeps a stub exactly at a level inside it whatever the last bit of the sum.
pub(super) const HAIR: f64 = 1e-9;

/// too_low < `stub_min_code` ≤ fits ≤ `stub_max` < marginal ≤ `stub_abs` < must_move.
pub fn verdict(stub: f64, stub_min_code: f64, stub_max: f64, stub_abs: f64) -> Verdict {
    if stub < stub_min_code - HAIR {
        Verdict::TooLow
    } else if stub <= stub_max + HAIR {
        Verdict::Fits
    } else if stub <= stub_abs + HAIR {
        Verdict::Marginal
    } else {
        Verdict::MustMove
    }
}

/// Least distance from the bowl-depth plane down to the stub: a check with one tape reading and no floor.
pub fn required_below_counter_plane(
    depth: f64,
    shell: f64,
    connection_drop: f64,
    trap_drop: f64,
    fall: f64,
) -> f64 {
    depth + shell + connection_drop + trap_drop + fall
}

/// How much higher the stub may be without the disposer: both drops with it, less both without.
pub fn without_disposer_gain(disposer: f64, disposer_trap: f64, strainer: f64, strainer_trap: f64) -> f64 {
    (disposer + disposer_trap) - (strainer + strainer_trap)
}
