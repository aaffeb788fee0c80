//! What can be typed about bare computations.

use std::path::PathBuf;

use clap::{Args as ClapArgs, ValueEnum};

/// Bare computations.
#[derive(ClapArgs, Debug)]
pub struct Reckon {
    /// What to compute
    pub kind: ReckonKind,
    /// One network for all cases (JSON or BIF, also gzipped)
    #[arg(long, value_name = "FILE")]
    pub net: Option<PathBuf>,
    /// Folder in which a case's network is found by its name
    #[arg(long, value_name = "DIR")]
    pub nets: Option<PathBuf>,
}

/// Kinds of bare computation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ReckonKind {
    /// Posteriors and probability of the evidence on a network
    Posterior,
    /// The most probable explanation of the evidence
    Mpe,
    /// One effect of independent causes
    NoisyOr,
    /// What further observations are worth
    Value,
    /// How far each finding moved a hypothesis
    Weight,
    /// Tables learned from records
    Learning,
    /// Sums of risky costs
    Money,
    /// Sums of costs over dependent hidden nodes
    JointSum,
    /// Scores of probabilities against outcomes
    ForecastScores,
    /// Scores of ensembles against outcomes
    EnsembleScores,
    /// Trade calculations and lengths
    Trade,
}
