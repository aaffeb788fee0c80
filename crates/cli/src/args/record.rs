//! The track record, and what houses teach.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueEnum};

/// The track record.
#[derive(ClapArgs, Debug)]
pub struct Track {
    /// Split it: condition, era, scope, surveyor or month
    #[arg(long, value_name = "WHAT")]
    pub split: Option<TrackBy>,
    /// Leave in what was forecast by a catalog that had learned from the house
    #[arg(long)]
    pub seen_too: bool,
    /// Draw how often forecasts came true into this file, as SVG
    #[arg(long, value_name = "FILE")]
    pub drawing: Option<PathBuf>,
}

/// By what the track record is split.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum TrackBy {
    /// Condition of the catalog
    Condition,
    /// Era by the year built
    Era,
    /// Job planned
    Scope,
    /// Who walked the house
    Surveyor,
    /// Month of the forecast
    Month,
}

/// What houses teach.
#[derive(ClapArgs, Debug)]
pub struct Learn {
    /// Take these lines over into the firm's overlay; without it lines are only proposed
    #[arg(long, num_args = 1.., value_name = "LINE")]
    pub accept: Vec<String>,
    /// Folder of the overlay they are written into [default: the one in use, or “overlay” in the home]
    #[arg(long, value_name = "DIR", requires = "accept")]
    pub into: Option<PathBuf>,
    /// Leave out the score on houses that were not learned from, which takes five times as long
    #[arg(long)]
    pub quick: bool,
}
