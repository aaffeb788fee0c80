//! What can go wrong while assessing a house.

/// Why a house cannot be assessed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AssessError {
    /// The answers cannot all be true under the catalog.
    #[error(
        "these answers cannot all be true together under the catalog: {}. Look again at one of them, or answer \
         it “can't tell”; everything recorded stays recorded",
        .items.join(", ")
    )]
    Impossible {
        /// A smallest set of items found that clash, with their answers.
        items: Vec<String>,
    },
    /// The network of this house is too large to compute exactly.
    #[error(
        "this house's network is too large to compute exactly: {0}; answer first what the house has in common (year \
         built, heating, what is above and below), or take out a place"
    )]
    TooLarge(String),
    /// The catalog makes no network; a fault of the catalog.
    #[error("the catalog makes no network: {0}; check the firm's changes to the catalog")]
    Catalog(String),
}
