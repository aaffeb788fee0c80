//! Invented houses drawn from a catalog, for tests, learning and load: what is planned, what is hidden, what would be
//! answered to every question, what each check would show, and what was found.
//!
//! A house is drawn forward: plan, context, scope, then the network of the truth node by node, so that hidden common
//! causes hold what goes together; then answers that say what is to be seen, some of them missing; then findings, with
//! suspected places opened more often. What is drawn and how is explained in `docs/simulate.md`.
//!
//! Pure: the seed is handed in, nothing else is random. The same seed and catalogs give the same bytes on every
//! machine (ChaCha8, libm), and house 7 is the same however many are drawn.

mod candidates;
mod context;
mod forward;
mod ground;
mod habits;
mod house;
mod line;
mod maker;
mod measured;
pub mod orders;
mod outcome;
mod plan;
mod speak;
mod stream;
mod suspect;
mod unreadable;
mod walk;
mod wrong;

use survey::catalog::Catalog;

pub use habits::{
    Chances, Contract, Gut, Habits, HabitsError, Looks, Missing, NotTogether, Opening, Paying, PlanMix,
    Spread, Ticks, Tolerance,
};
pub use house::{Found, Loss, Payer, Said, SimulatedHouse, State, Step, Who};
pub use line::VERSION;
pub use maker::Truth;
pub use wrong::{Wrong, WrongError};

/// Why no house can be drawn.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ImagineError {
    /// The habits are at fault.
    #[error(transparent)]
    Habits(#[from] HabitsError),
    /// The catalog makes no network.
    #[error("the catalog that is taken as true makes no network: {0}")]
    Network(String),
    /// The two catalogs ask different things.
    #[error(
        "the catalog that is taken as true asks “{item}” otherwise than the catalog the houses are walked with; \
         give both the same walk"
    )]
    OtherWalk {
        /// The item.
        item: String,
    },
}

/// Houses 1, 2, 3, … of a seed, without end. They are walked by `catalog` and true by `truth`, which may be of another
/// catalog with the same walk.
///
/// # Errors
/// [`ImagineError::OtherWalk`], [`ImagineError::Network`]; the latter may come with any house too.
pub fn houses<'a>(
    catalog: &'a Catalog,
    truth: &'a Truth,
    seed: u64,
) -> Result<impl Iterator<Item = Result<SimulatedHouse, ImagineError>> + 'a, ImagineError> {
    let maker = maker::Maker::new(catalog, truth)?;
    Ok((1u64..).map(move |number| maker.house(seed, number)))
}
