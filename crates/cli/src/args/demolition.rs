//! The end of the walk.

use clap::Args as ClapArgs;

/// Declare demolition of a house, or withdraw the declaration.
#[derive(ClapArgs, Debug)]
pub struct Demolition {
    /// House: its label, or the start of its id
    pub house: String,
    /// Words to it: what was opened, and where
    #[arg(long, value_name = "WORDS", conflicts_with = "withdraw")]
    pub reason: Option<String>,
    /// Withdraw a declaration made by mistake, because of this; only while nothing was sealed after it
    #[arg(long, value_name = "WHY")]
    pub withdraw: Option<String>,
}
