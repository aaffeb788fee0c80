//! Published limits of a sink drain, each with document, edition and section. Read in the editions named here;
//! later editions renumber and places amend, so a result always names what it used.

/// Family of plumbing code a place adopts.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, PartialOrd, Ord)]
pub enum Code {
    /// International Plumbing Code and the plumbing chapters of the International Residential Code.
    Ipc,
    /// Uniform Plumbing Code (read in its Californian edition).
    Upc,
}

impl Code {
    /// Words that [`Code::parse`] knows.
    pub const WORDS: &'static str = "IPC, UPC";

    /// `IPC` or `UPC`.
    pub fn parse(word: &str) -> Option<Self> {
        match word {
            "IPC" => Some(Self::Ipc),
            "UPC" => Some(Self::Upc),
            _ => None,
        }
    }
    /// The short name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ipc => "IPC/IRC",
            Self::Upc => "UPC",
        }
    }
}

/// One published limit: what, how much, where.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Limit {
    /// The rule in our words.
    pub rule: &'static str,
    /// The limit, with its unit.
    pub value: &'static str,
    /// Document.
    pub document: &'static str,
    /// Edition read.
    pub edition: &'static str,
    /// Section or table.
    pub clause: &'static str,
}

const IRC: &str = "International Residential Code (IRC)";
const CPC: &str = "California Plumbing Code, Title 24 Part 5";
const CPC_EDITION: &str = "2013, based on UPC 2012";

/// Outlet to trap weir, IRC.
pub const OUTLET_TO_WEIR_IRC: Limit = Limit {
    rule: "Vertical distance from fixture outlet to trap weir, at most",
    value: "24 in",
    document: IRC,
    edition: "2006; IPC 1002.1 states the same",
    clause: "P3201.2, P3201.6",
};
/// Tailpiece, UPC; the outlet-to-weir distance itself is only to be as short as practicable there.
pub const TAILPIECE_UPC: Limit = Limit {
    rule: "Tailpiece, at most (outlet to weir as short as practicable); used here for outlet to weir",
    value: "24 in",
    document: CPC,
    edition: CPC_EDITION,
    clause: "1001.1",
};
/// Trap seal, IRC.
pub const SEAL_IRC: Limit =
    Limit { rule: "Trap seal", value: "2 to 4 in", document: IRC, edition: "2006", clause: "P3201.2" };
/// Trap seal, UPC.
pub const SEAL_UPC: Limit =
    Limit { rule: "Trap seal", value: "2 to 4 in", document: CPC, edition: CPC_EDITION, clause: "1005.1" };
/// Slope of small drains, IPC.
pub const SLOPE_IPC: Limit = Limit {
    rule: "Slope of drains 2-1/2 in and smaller, at least",
    value: "1/4 in per ft",
    document: "International Plumbing Code (IPC)",
    edition: "as adopted in Chicago, 18-29-704.1",
    clause: "704.1",
};
/// Slope, UPC.
pub const SLOPE_UPC: Limit = Limit {
    rule: "Slope of horizontal drains, at least",
    value: "1/4 in per ft",
    document: CPC,
    edition: CPC_EDITION,
    clause: "708.1",
};
/// Kitchen trap size, IRC.
pub const TRAP_SIZE_IRC: Limit = Limit {
    rule: "Kitchen sink trap, at least",
    value: "1-1/2 in",
    document: IRC,
    edition: "2021",
    clause: "P3201.7",
};
/// Kitchen trap size, UPC.
pub const TRAP_SIZE_UPC: Limit = Limit {
    rule: "Kitchen sink trap and trap arm, at least",
    value: "1-1/2 in",
    document: CPC,
    edition: CPC_EDITION,
    clause: "1003.3",
};
/// Trap-arm lengths, IRC and IPC.
pub const TRAP_ARM_IRC: Limit = Limit {
    rule: "Trap to vent, at most, for 1-1/4, 1-1/2, 2, 3, 4 in",
    value: "60, 72, 96, 144, 192 in",
    document: "International Residential Code (IRC), and International Plumbing Code Table 909.1",
    edition: "2021",
    clause: "Table P3105.1",
};
/// Trap-arm lengths, UPC.
pub const TRAP_ARM_UPC: Limit = Limit {
    rule: "Trap to vent, at most, for 1-1/4, 1-1/2, 2, 3, 4 in",
    value: "30, 42, 60, 72, 120 in",
    document: CPC,
    edition: CPC_EDITION,
    clause: "Table 1002.2",
};
/// Fall of a trap arm, IRC; under the UPC the vent opening may not lie below the weir (1002.4, 905.5), which for a
/// level-bored arm is the same.
pub const TRAP_ARM_FALL: Limit = Limit {
    rule: "Total fall of a trap arm, at most",
    value: "one pipe diameter",
    document: IRC,
    edition: "as quoted on a public forum, edition not named; UPC 2012 1002.4 and 905.5 amount to the same",
    clause: "P3105.2",
};
/// Shortest trap arm, both families.
pub const TRAP_ARM_LEAST: Limit = Limit {
    rule: "Trap arm, at least",
    value: "two pipe diameters",
    document: IRC,
    edition: "2006; California Plumbing Code 2013 (UPC 2012) 1002.2 states the same",
    clause: "P3105.3",
};
/// Dishwasher connection, IPC and IRC.
pub const DISHWASHER_IPC: Limit = Limit {
    rule: "Dishwasher drain: air gap, or line raised and fastened under the rim or counter, to a tailpiece wye or the \
           disposer's own inlet",
    value: "one of these",
    document: "International Plumbing Code (IPC) and International Residential Code (IRC)",
    edition: "2015 for both",
    clause: "IPC 802.1.6, IRC P2717.2",
};
/// Dishwasher connection, UPC.
pub const DISHWASHER_UPC: Limit = Limit {
    rule: "Dishwasher drain: listed air-gap fitting at or above the flood level",
    value: "required",
    document: CPC,
    edition: CPC_EDITION,
    clause: "807.4",
};
/// Dishwasher and disposer, UPC.
pub const DISPOSER_UPC: Limit = Limit {
    rule: "Dishwasher drain downstream of a disposer",
    value: "not allowed",
    document: CPC,
    edition: CPC_EDITION,
    clause: "419.2",
};

/// The limits a sink drain fit uses under one family of code.
pub const fn of_sink_drain(code: Code) -> &'static [Limit] {
    match code {
        Code::Ipc => &[
            OUTLET_TO_WEIR_IRC,
            SEAL_IRC,
            SLOPE_IPC,
            TRAP_SIZE_IRC,
            TRAP_ARM_IRC,
            TRAP_ARM_FALL,
            TRAP_ARM_LEAST,
        ],
        Code::Upc => {
            &[TAILPIECE_UPC, SEAL_UPC, SLOPE_UPC, TRAP_SIZE_UPC, TRAP_ARM_UPC, TRAP_ARM_FALL, TRAP_ARM_LEAST]
        }
    }
}
