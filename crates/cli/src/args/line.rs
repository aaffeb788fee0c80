//! What can be typed about the line to the office.

use clap::Args as ClapArgs;

/// Pairing.
#[derive(ClapArgs, Debug)]
pub struct Pair {
    /// The link, as the office shows it; without one, the office this device is paired with
    #[arg(value_name = "LINK")]
    pub link: Option<String>,
    /// What this device is called at the office
    #[arg(long, value_name = "NAME", requires = "link")]
    pub name: Option<String>,
    /// Forget the office
    #[arg(long, conflicts_with = "link")]
    pub undo: bool,
}

/// Sending.
#[derive(ClapArgs, Debug)]
pub struct Send {
    /// House: its label, or the start of its id
    pub house: String,
    /// Number of the packet [default: the last one]
    #[arg(long, value_name = "N")]
    pub number: Option<u32>,
}
