//! What the plan breaks beside the height of the stub: the run as a trap arm, the room over the cabinet floor, two
//! outlets on one trap. It is said with the result. The chance of the sheet stays that of the height alone, for it
//! enters the odds that the stub must change.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Book;

use super::chain::HAIR;
use super::resolve::Case;
use super::sources::ON_ONE_TRAP;
use crate::cite;
use crate::error::TradeError;
use crate::given::show_inches as show;
use crate::sheet::{Sheet, Standing};
use crate::trap_arm::{Fault, TrapArm};

/// A value that the plan breaks, beside the height of the stub.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Broken {
    /// What, as the rest of a sentence.
    pub text: String,
    /// Whether a code book sets the value; else it is room to work in.
    pub of_code: bool,
}

/// Everything broken at the values taken.
pub(super) fn broken(book: &Book, case: &Case, arm: Option<&TrapArm>) -> Result<Vec<Broken>, TradeError> {
    let mut out = Vec::new();
    let (title, chain) = (&book.title, &case.first.chain);
    let mut of_code = |text: String| out.push(Broken { text, of_code: true });
    if let Some(arm) = arm {
        let run = show(chain.run);
        if arm.faults.contains(&Fault::TooLong) {
            let most = show(arm.longest);
            of_code(format!("under {title} the run of {run} is longer than the {most} of a trap arm"));
        } else if arm.faults.contains(&Fault::FallsTooFar) {
            let fall = show(arm.fall);
            of_code(format!("under {title} the run of {run} falls {fall}, more than a trap arm may"));
        }
    }
    for [found, most, what] in on_one_trap(book, case)? {
        of_code(format!(
            "under {title} the two outlets are {found} {what}, more than the {most} of one trap"
        ));
    }
    out.extend(at_the_cabinet_floor(case));
    Ok(out)
}

/// Two outlets on one trap beyond the book's distance or difference of depth: what was found, the most, and which.
fn on_one_trap(book: &Book, case: &Case) -> Result<Vec<[String; 3]>, TradeError> {
    let Some(second) = &case.second else { return Ok(Vec::new()) };
    let deeper = libm::fabs(second.levels.outlet - case.first.levels.outlet);
    let mut out = Vec::new();
    for (id, found, what) in
        [(ON_ONE_TRAP[0], second.waste_run, "apart"), (ON_ONE_TRAP[1], deeper, "different in depth")]
    {
        if book.table(id).is_none() {
            continue;
        }
        let (most, _) = cite::value(book, id)?;
        if found > most + HAIR {
            out.push([show(found), show(most), what.into()]);
        }
    }
    Ok(out)
}

fn at_the_cabinet_floor(case: &Case) -> Option<Broken> {
    let room = case.first.chain.service - (case.levels.stub_min_cabinet - case.stub.height);
    let text = if room < -HAIR {
        format!("the trap would lie {} below the cabinet floor", show(-room))
    } else if room < case.first.chain.service - HAIR {
        format!("the trap would come within {} of the cabinet floor", show(room))
    } else {
        return None;
    };
    Some(Broken { text, of_code: false })
}

/// Says what else is broken with the result. A value of a code book that is broken is near at best.
pub(super) fn say(sheet: &mut Sheet, broken: &[Broken]) {
    let mut texts: Vec<&str> = Vec::new();
    for one in broken {
        if !texts.contains(&one.text.as_str()) {
            texts.push(&one.text);
        }
    }
    if texts.is_empty() {
        return;
    }
    let link = if sheet.standing == Standing::Beyond { "also" } else { "but" };
    let so_far = sheet.sentence.trim_end_matches('.');
    sheet.sentence = format!("{so_far}; {link} {}.", texts.join(", and "));
    if sheet.standing == Standing::Within && broken.iter().any(|b| b.of_code) {
        sheet.standing = Standing::Near;
    }
}
