//! Learning takes seconds to many minutes, and nobody at the office waits for it: it goes on beside everything else, and
//! whoever asks is told how far it is. First come the lines, then their score on houses apart, which takes five times as
//! long. One piece of work goes on at a time; what it was about is told by a key.

use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;

use review::Finding;
use review::learn::{self, FOLDS, Proposal, propose};
use review::record::SMALL_HOUSES;
use survey::catalog::Catalog;
use survey::model::Picture;
use survey::{Digest, SurveyId};

/// A house that teaches: what was answered before, and what was found.
pub type Job = (SurveyId, Picture, Vec<Finding>);

/// How far it is.
#[derive(Debug)]
pub struct Taught<'w> {
    /// What is proposed; none while it is worked out, and where no house says anything.
    pub proposal: Option<&'w Proposal>,
    /// False while the first lines are still worked out.
    pub is_here: bool,
    /// False while the score on houses apart is still worked out.
    pub is_whole: bool,
    /// It ended before it was done: a fault of the program.
    pub has_failed: bool,
}

enum Told {
    Lines(Option<Proposal>),
    Whole(Option<Proposal>),
}

/// Work that goes on, or is done.
#[derive(Default)]
pub struct Work(Option<Going>);

struct Going {
    key: Digest,
    told: Receiver<Told>,
    proposal: Option<Proposal>,
    is_here: bool,
    is_whole: bool,
    has_failed: bool,
}

impl Work {
    /// How far what is asked for is; begun where nothing else goes on.
    pub fn on(&mut self, catalog: &Catalog, jobs: &[&Job]) -> Taught<'_> {
        let key = super::key(catalog.digest, jobs);
        if let Some(going) = &mut self.0 {
            going.listen();
        }
        let other = self.0.as_ref().is_none_or(|going| going.key != key && going.is_whole);
        if other {
            self.0 = Some(begin(key, catalog.clone(), jobs.iter().copied().cloned().collect()));
        }
        match &self.0 {
            Some(going) if going.key == key => Taught {
                proposal: going.proposal.as_ref(),
                is_here: going.is_here,
                is_whole: going.is_whole,
                has_failed: going.has_failed,
            },
            // Something else still goes on; this begins when it is done.
            _ => Taught { proposal: None, is_here: false, is_whole: false, has_failed: false },
        }
    }

    /// What was proposed last, where it was worked out from this catalog.
    pub fn last(&self, catalog: Digest) -> Option<&Proposal> {
        self.0.as_ref()?.proposal.as_ref().filter(|p| p.catalog == catalog)
    }
}

impl Going {
    fn listen(&mut self) {
        loop {
            match self.told.try_recv() {
                Ok(Told::Lines(proposal)) => (self.proposal, self.is_here) = (proposal, true),
                Ok(Told::Whole(proposal)) => {
                    (self.proposal, self.is_here, self.is_whole) = (proposal, true, true);
                }
                Err(TryRecvError::Empty) => return,
                Err(TryRecvError::Disconnected) => {
                    // What is here is all there is.
                    self.has_failed = !self.is_whole;
                    (self.is_here, self.is_whole) = (true, true);
                    return;
                }
            }
        }
    }
}

fn begin(key: Digest, catalog: Catalog, jobs: Vec<Job>) -> Going {
    let (tell, told) = channel();
    let work = move || {
        let taught: Vec<learn::Job<'_>> = jobs
            .iter()
            .map(|(survey, picture, findings)| learn::Job { survey: *survey, picture, findings })
            .collect();
        let lines = propose(&catalog, &taught, false);
        // Too few to hold any out: there is nothing more to come.
        let first = if lines.is_none() || taught.len() < 2 * FOLDS.max(SMALL_HOUSES) {
            Told::Whole(lines)
        } else {
            Told::Lines(lines)
        };
        let goes_on = matches!(first, Told::Lines(_));
        // Nobody listens any more when the office ends.
        if tell.send(first).is_ok() && goes_on {
            let _ = tell.send(Told::Whole(propose(&catalog, &taught, true)));
        }
    };
    let begun = thread::Builder::new().name("learning".to_owned()).spawn(work);
    // Without a thread nobody tells anything, which is heard as a fault.
    drop(begun);
    Going { key, told, proposal: None, is_here: false, is_whole: false, has_failed: false }
}
