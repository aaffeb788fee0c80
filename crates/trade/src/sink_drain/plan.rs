//! What goes into a fit: plain data, every missing answer said to be missing.

use alloc::vec::Vec;

use survey::Phrase;

use crate::dishwasher::Method;
use crate::tolerance::Reading;

/// How the sink is mounted.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Mount {
    /// Under the counter.
    Undermount,
    /// On a rim on the counter.
    DropIn,
    /// With its own front, taken as under the counter unless its rim is given.
    ApronFront,
}

/// What the bowl is made of.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Shell {
    /// Stainless steel.
    Steel,
    /// Composite.
    Composite,
    /// Fireclay.
    Fireclay,
    /// Cast iron.
    CastIron,
}

/// Plane the stub reading starts from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Datum {
    /// The finished floor of today.
    FinishedFloor,
    /// The floor of the sink cabinet.
    CabinetFloor,
}

/// Floor the counter height starts from.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum CounterDatum {
    /// The finished new floor: a counter still to be set.
    NewFloor,
    /// The floor of today: a counter that stays. A new floor then lowers counter and stub alike.
    OldFloor,
}

/// The second bowl of a double sink. Its continuous waste falls to the trap under the first bowl.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SecondBowl {
    /// Inside depth.
    pub depth: Reading,
    /// Whether the disposer, or another one, hangs here; a strainer if nobody said.
    pub disposer: Option<bool>,
    /// Bowl underside to that disposer's outlet center, from its sheet.
    pub disposer_drop: Option<Reading>,
    /// Bowl underside to the bottom of its strainer's body; that of the first bowl if nobody said.
    pub strainer_drop: Option<Reading>,
    /// Level distance between the two outlets.
    pub distance: Option<Reading>,
}

/// What is known of the planned sink and the stub that is there. None means nobody said.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct SinkPlan {
    /// Mount.
    pub mount: Option<Mount>,
    /// Inside bowl depth, of the bowl over the trap if there are two; without it there is no answer.
    pub bowl_depth: Option<Reading>,
    /// Bowl material.
    pub shell: Option<Shell>,
    /// Counter top above the floor that `counter_datum` names.
    pub counter_height: Option<Reading>,
    /// Where the counter height starts; the new floor if nobody said.
    pub counter_datum: Option<CounterDatum>,
    /// Counter thickness.
    pub counter_thick: Option<Reading>,
    /// Rim above the counter, of a drop-in sink or of an apron front that stands proud of the counter; 0 is flush.
    pub rim: Option<Reading>,
    /// Rise of the finished floor by the work; zero if none is planned.
    pub floor_buildup: Option<Reading>,
    /// Whether a disposer is planned.
    pub disposer: Option<bool>,
    /// Bowl underside to the disposer's outlet center, from its sheet.
    pub disposer_drop: Option<Reading>,
    /// Bowl underside to the bottom of the strainer's body, where a strainer hangs or would hang.
    pub strainer_drop: Option<Reading>,
    /// The second bowl, if there are two.
    pub second: Option<SecondBowl>,
    /// Whether a dishwasher drains at the sink.
    pub dishwasher: Option<bool>,
    /// How it is to be joined.
    pub dishwasher_method: Option<Method>,
    /// Level run from trap to stub.
    pub run: Option<Reading>,
    /// Stub reading (“± x” is taken as two standard deviations); without it there is no answer.
    pub stub: Option<Reading>,
    /// Where the reading starts.
    pub stub_datum: Option<Datum>,
    /// Toe kick.
    pub toe_kick: Option<Reading>,
    /// Cabinet floor thickness.
    pub cabinet_floor_thick: Option<Reading>,
}

impl SinkPlan {
    /// What is missing without which nothing can be said, in words.
    pub fn missing(&self) -> Vec<Phrase> {
        let needed = [
            (self.stub.is_none(), Phrase("trade-stub-height")),
            (self.bowl_depth.is_none(), Phrase("trade-bowl-depth")),
        ];
        needed.into_iter().filter_map(|(absent, what)| absent.then_some(what)).collect()
    }
    /// Whether a dishwasher is said to drain here.
    pub fn drains_dishwasher(&self) -> bool {
        self.dishwasher.unwrap_or(self.dishwasher_method.is_some())
    }
}

/// What always stands beside the answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not");
