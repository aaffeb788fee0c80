//! What the plan breaks beside the height of the stub: the run as a trap arm, the room over the cabinet floor, two
//! outlets on one trap. It is said with the result. The chance of the sheet stays that of the height alone, for it
//! enters the odds that the stub must change.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::chain::HAIR;
use super::resolve::Case;
use super::sources::ON_ONE_TRAP;
use crate::cite;
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::sheet::{Sheet, Standing};
use crate::trap_arm::{Fault, TrapArm};

/// A value that the plan breaks, beside the height of the stub.
#[derive(Clone, PartialEq, Debug)]
pub struct Broken {
    /// What, as the rest of a sentence.
    pub text: Said,
    /// Whether a code book sets the value; else it is room to work in.
    pub of_code: bool,
}

/// Everything broken at the values taken.
pub(super) fn broken(book: &Book, case: &Case, arm: Option<&TrapArm>) -> Result<Vec<Broken>, TradeError> {
    let mut out = Vec::new();
    let (title, chain) = (&book.title, &case.first.chain);
    let mut of_code = |text: Said| out.push(Broken { text, of_code: true });
    if let Some(arm) = arm {
        let run = show(chain.run);
        if arm.faults.contains(&Fault::TooLong) {
            let most = show(arm.longest);
            of_code(say!("trade-under-run-longer-than", title = title, run = run, most = most));
        } else if arm.faults.contains(&Fault::FallsTooFar) {
            let fall = show(arm.fall);
            of_code(say!("trade-under-run-falls-more", title = title, run = run, fall = fall));
        }
    }
    for [found, most, what] in on_one_trap(book, case)? {
        of_code(say!("trade-under-two-outlets-more", title = title, found = found, what = what, most = most));
    }
    out.extend(at_the_cabinet_floor(case));
    Ok(out)
}

/// Two outlets on one trap beyond the book's distance or difference of depth: what was found, the most, and which.
fn on_one_trap(book: &Book, case: &Case) -> Result<Vec<[Said; 3]>, TradeError> {
    let Some(second) = &case.second else { return Ok(Vec::new()) };
    let deeper = libm::fabs(second.levels.outlet - case.first.levels.outlet);
    let mut out = Vec::new();
    for (id, found, what) in [
        (ON_ONE_TRAP[0], second.waste_run, Phrase("trade-apart")),
        (ON_ONE_TRAP[1], deeper, Phrase("trade-different-depth")),
    ] {
        if book.table(id).is_none() {
            continue;
        }
        let (most, _) = cite::value(book, id)?;
        if found > most + HAIR {
            out.push([show(found).into(), show(most).into(), what.into()]);
        }
    }
    Ok(out)
}

fn at_the_cabinet_floor(case: &Case) -> Option<Broken> {
    let room = case.first.chain.service - (case.levels.stub_min_cabinet - case.stub.height);
    let text = if room < -HAIR {
        say!("trade-trap-would-lie-below", room = show(-room))
    } else if room < case.first.chain.service - HAIR {
        say!("trade-trap-would-come-within", room = show(room))
    } else {
        return None;
    };
    Some(Broken { text, of_code: false })
}

/// Says what else is broken with the result. A value of a code book that is broken is near at best.
pub(super) fn say(sheet: &mut Sheet, broken: &[Broken]) {
    let mut texts: Vec<&Said> = Vec::new();
    for one in broken {
        if !texts.contains(&&one.text) {
            texts.push(&one.text);
        }
    }
    if texts.is_empty() {
        return;
    }
    let (so_far, one) = (core::mem::take(&mut sheet.sentence).open(), texts.remove(0).clone());
    let all =
        texts.into_iter().fold(one, |before, next| say!("trade-and-also", before = before, next = next));
    sheet.sentence = if sheet.standing == Standing::Beyond {
        say!("trade-also", before = so_far, also = all)
    } else {
        say!("trade-but", before = so_far, but = all)
    };
    if sheet.standing == Standing::Within && broken.iter().any(|b| b.of_code) {
        sheet.standing = Standing::Near;
    }
}
