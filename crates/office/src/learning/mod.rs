//! What the office's houses teach about the catalog's numbers, and taking lines of it over; the same for the screens and
//! for the command line.
//!
//! Where the firm's own numbers lie is the door's to know ([`Shelf`]). What was taken over or refused, by whom and when, is
//! kept beside the packets ([`Decision`]).

mod decisions;
mod work;

use std::collections::BTreeSet;
use std::io;
use std::path::PathBuf;

use review::learn::{FILE, Line, Proposal, apply};
use review::record::Trained;
use survey::catalog::{Catalog, OVERLAY};
use survey::{Digest, Stamp, SurveyId};

use crate::desk::file_error;
use crate::{Desk, OfficeError, Reviewed};

pub use decisions::{Decided, Decision, Verdict};
pub use work::{Job, Taught, Work};

/// Whatever a door says of files it cannot read or write.
pub type ShelfError = Box<dyn std::error::Error + Send + Sync>;

/// The files of the catalog in use.
pub trait Shelf {
    /// The catalog as its files stand now.
    ///
    /// # Errors
    /// What the door says of them.
    fn catalog(&self) -> Result<Catalog, ShelfError>;
    /// The same with one file of the firm's overlay written anew, or one more; nothing is written.
    ///
    /// # Errors
    /// Numbers that no catalog may hold.
    fn tried(&self, file: &str, text: &str) -> Result<Catalog, ShelfError>;
    /// Where a file of the overlay lies, or would.
    ///
    /// # Errors
    /// An overlay that is no folder.
    fn place(&self, file: &str) -> Result<PathBuf, ShelfError>;
    /// The firm's files as they travel to tablets: (path inside the overlay, text), nothing that is one device's own.
    ///
    /// # Errors
    /// A catalog of the firm's own in place of the shipped one, which no tablet has; files that cannot be read.
    fn files(&self) -> Result<Vec<(String, String)>, ShelfError>;
}

/// Who takes lines over, and when.
#[derive(Clone, Copy)]
pub struct Hand<'a> {
    /// Their name.
    pub by: &'a str,
    /// When.
    pub now: Stamp,
}

/// Lines that were taken over.
#[derive(Debug)]
pub struct Accepted {
    /// The file of the overlay that holds them.
    pub file: PathBuf,
    /// Which houses the catalog has learned from.
    pub trained: Trained,
    /// Where that is noted.
    pub note: PathBuf,
    /// The catalog with them.
    pub catalog: Catalog,
}

/// Houses the catalog has learned from: they stand in its numbers already, with their weight. A catalog that holds learned
/// numbers and is not on the list has another file beside them; it may have learned from any house that is noted.
pub fn known(catalog: &Catalog, trained: &[Trained]) -> Vec<SurveyId> {
    let own: Vec<&Trained> = trained.iter().filter(|t| t.catalog == catalog.digest).collect();
    let mut changes = catalog.overlay.iter().flat_map(|o| &o.changes);
    let learned = changes.any(|c| c.place.file.strip_prefix(OVERLAY) == Some(FILE));
    let from: Vec<&Trained> = match (own.is_empty(), learned) {
        (false, _) => own,
        (true, true) => trained.iter().collect(),
        (true, false) => Vec::new(),
    };
    let houses: BTreeSet<SurveyId> = from.iter().flat_map(|t| t.houses.iter().copied()).collect();
    houses.into_iter().collect()
}

/// The houses there is still something to learn from.
pub fn left<'r>(reviewed: &'r Reviewed, known: &[SurveyId]) -> Vec<&'r Job> {
    reviewed.jobs.iter().filter(|(survey, ..)| !known.contains(survey)).collect()
}

impl Desk {
    /// Takes lines of a proposal over into the firm's overlay.
    ///
    /// # Errors
    /// Lines that are not proposed, do not stand together or were changed elsewhere; a catalog that is another by now; files
    /// that cannot be written.
    pub fn accept_learned(
        &self,
        shelf: &dyn Shelf,
        proposal: &Proposal,
        lines: &[String],
        hand: Hand<'_>,
    ) -> Result<Accepted, OfficeError> {
        let before = shelf.catalog().map_err(OfficeError::Shelf)?;
        let known = known(&before, &self.trained()?);
        let on: String = hand.now.to_string().chars().take(10).collect();
        let (text, houses) = apply(&before, proposal, lines, &known, &on)?;
        // The catalog has to take it before a byte is written.
        let catalog = shelf.tried(FILE, &text).map_err(OfficeError::Shelf)?;
        let file = shelf.place(FILE).map_err(OfficeError::Shelf)?;
        let trained = Trained { v: Trained::VERSION, catalog: catalog.digest, at: hand.now, houses };
        // First what it learned from and who said so, then the numbers: a crash between leaves notes about a catalog
        // nobody has.
        let note = self.note_trained(&trained)?;
        let taken = proposal.lines.iter().filter(|line| lines.contains(&line.id));
        let decided = taken.map(|line| decision(line, Verdict::Accepted, String::new())).collect();
        self.decide(Decided::new(hand, before.digest, Some(catalog.digest), decided))?;
        keys::write_whole(&file, text.as_bytes()).map_err(|e: io::Error| file_error(&file, &e))?;
        Ok(Accepted { file, trained, note, catalog })
    }

    /// Notes that a line was refused, and why. The line may still be taken over later.
    ///
    /// # Errors
    /// A line that is not proposed; a note that cannot be written.
    pub fn refuse_learned(
        &self,
        proposal: &Proposal,
        line: &str,
        why: &str,
        hand: Hand<'_>,
    ) -> Result<(), OfficeError> {
        let line = proposal.lines.iter().find(|l| l.id == line).ok_or_else(|| {
            let known = proposal.lines.iter().map(|l| l.id.as_str());
            let near = survey::catalog::nearest(line, known).map(str::to_owned);
            review::learn::ApplyError::Unknown { given: line.to_owned(), near }
        })?;
        let decided = vec![decision(line, Verdict::Refused, why.trim().to_owned())];
        self.decide(Decided::new(hand, proposal.catalog, None, decided))
    }
}

fn decision(line: &Line, verdict: Verdict, why: String) -> Decision {
    Decision { line: line.id.clone(), verdict, numbers: numbers(line), why }
}

/// The numbers of a line as a decision names them.
fn numbers(line: &Line) -> Vec<(String, f64, f64)> {
    line.numbers.iter().map(|n| (n.key.clone(), n.old, n.new)).collect()
}

impl Decision {
    /// True where it was made about just these numbers.
    pub fn is_about(&self, line: &Line) -> bool {
        self.line == line.id && self.numbers == numbers(line)
    }
}

/// What a proposal is worked out from, so that another is told from it.
pub(crate) fn key(catalog: Digest, jobs: &[&Job]) -> Digest {
    let mut text = catalog.to_string();
    for (survey, picture, findings) in jobs {
        // A finding of a house changes what it teaches; which packet judges it is fixed by then.
        let last = findings.last().map(|f| f.at.to_string()).unwrap_or_default();
        text.push_str(&format!("{survey} {} {} {last}\n", picture.answers.len(), findings.len()));
    }
    Digest::of(text.as_bytes())
}
