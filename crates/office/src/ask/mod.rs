//! What the screens of the office ask of its houses: one table, each command with the least role it takes.
//!
//! A command reads its arguments, looks at the desk and gives plain data in the language of whoever asks. Who asks, and
//! whether they may, is held by the door before it runs; how an error is said, after.

mod compared;
mod findings;
mod house;
mod inbox;
mod kept;
mod published;
mod record;

use std::path::Path;

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use survey::catalog::Catalog;
use survey::{Stamp, SurveyId};
use words::{CatalogWords, Words};

pub use inbox::{arrival, received};
pub use kept::Kept;

use crate::learning::Shelf;
use crate::people::{Role, Sight};
use crate::{Desk, OfficeError};

/// What a command has at hand.
pub struct Call<'a> {
    /// The desk.
    pub desk: &'a mut Desk,
    /// Packets that were opened before.
    pub kept: &'a mut Kept,
    /// The catalog by which houses are told.
    pub catalog: &'a Catalog,
    /// Where its files lie, for what is learned.
    pub shelf: &'a dyn Shelf,
    /// The folder that is watched, if one is.
    pub watched: Option<&'a Path>,
    /// In which language.
    pub words: &'a Words,
    /// Who asks.
    pub by: &'a str,
    /// Which houses they see.
    pub sight: &'a Sight,
    /// When.
    pub now: Stamp,
}

/// One command.
pub struct Command {
    /// Its name.
    pub name: &'static str,
    /// The least role that may ask it.
    pub least: Role,
    /// True when it writes.
    pub writes: bool,
    run: Run,
}

type Run = fn(&mut Call<'_>, Arguments) -> Result<Value, OfficeError>;

/// Takes learned lines over, after which the catalog is another.
pub const ACCEPT: &str = "accept-learning";
/// Publishes the firm's catalog to its tablets.
pub const PUBLISH: &str = "publish-catalog";

/// Every command.
pub const COMMANDS: &[Command] = &[
    Command { name: "inbox", least: Role::Estimator, writes: false, run: inbox::inbox },
    Command { name: "house", least: Role::Estimator, writes: false, run: house::house },
    Command { name: "findings", least: Role::Estimator, writes: false, run: findings::findings },
    Command { name: "enter-finding", least: Role::Reviewer, writes: true, run: findings::enter },
    Command { name: "enter-other-finding", least: Role::Reviewer, writes: true, run: findings::enter_other },
    Command { name: "comparison", least: Role::Estimator, writes: false, run: compared::comparison },
    Command { name: "track", least: Role::Estimator, writes: false, run: record::record },
    Command { name: "learning", least: Role::Reviewer, writes: false, run: record::learning },
    Command { name: ACCEPT, least: Role::Reviewer, writes: true, run: record::accept },
    Command { name: "refuse-learning", least: Role::Reviewer, writes: true, run: record::refuse },
    Command { name: "published", least: Role::Reviewer, writes: false, run: published::published },
    Command { name: PUBLISH, least: Role::Reviewer, writes: true, run: published::publish },
];

/// The command of a name, if there is one.
pub fn command(name: &str) -> Option<&'static Command> {
    COMMANDS.iter().find(|command| command.name == name)
}

impl Command {
    /// Runs it.
    ///
    /// # Errors
    /// Arguments that are none; what the desk refuses.
    pub fn run(&self, call: &mut Call<'_>, args: Value) -> Result<Value, OfficeError> {
        (self.run)(call, Arguments { command: self.name, args })
    }
}

/// The arguments of a command, as they came.
struct Arguments {
    command: &'static str,
    args: Value,
}

impl Arguments {
    fn read<T: DeserializeOwned>(self) -> Result<T, OfficeError> {
        serde_json::from_value(self.args).map_err(|e| OfficeError::Arguments {
            command: self.command.to_owned(),
            what: short(&e.to_string()),
        })
    }
}

/// No arguments.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

/// One house: its id, the start of it, or its label.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct House {
    survey: String,
}

impl<'a> Call<'a> {
    fn say(&self) -> CatalogWords<'a> {
        CatalogWords::new(self.words, self.catalog)
    }
    fn house(&self, args: Arguments) -> Result<SurveyId, OfficeError> {
        let House { survey } = args.read()?;
        self.find(&survey)
    }
    /// The house that is meant, among those that whoever asks sees.
    fn find(&self, wanted: &str) -> Result<SurveyId, OfficeError> {
        self.desk.find_among(wanted, |survey| !self.sight.hides(survey))
    }
}

fn write<T: Serialize>(value: &T) -> Result<Value, OfficeError> {
    serde_json::to_value(value)
        .map_err(|e| OfficeError::Arguments { command: String::new(), what: e.to_string() })
}

/// What came from outside, short enough to be said.
fn short(text: &str) -> String {
    text.chars().take(160).collect()
}
