//! Single changes that would help a gas run, each with its amount.

use alloc::vec::Vec;

use survey::{Said, say};

use super::loads::names;
use super::plan::Segment;
use super::run::{feet, flow};
use super::section::{Section, Sizing, roomy};
use crate::error::TradeError;
use crate::sheet::{Change, Standing};

/// The changes for sections of which one at least is near or beyond its value.
///
/// # Errors
/// As [`Sizing::section`].
pub(super) fn changes(sizing: &Sizing<'_>, sections: &[Section]) -> Result<Vec<Change>, TradeError> {
    let plan = sizing.plan;
    let short = |segment| sections.iter().find(|s| s.segment == segment && s.standing() != Standing::Within);
    let carried = |segment| sections.iter().filter(|s| s.segment == segment).all(Section::carries_load);
    let (trunk, branch) = (short(Segment::Trunk), short(Segment::Branch));
    let mut out = Vec::new();
    if let Some(trunk) = trunk {
        let over = match plan.trunk_length {
            Some(length) => say!("trade-meter-branch", length = feet(length.inches() / 12.0)),
            None => say!("trade-over-length-meter-branch"),
        };
        let bigger = roomy(|size| sizing.trunk(size))?;
        let text = match &bigger {
            Some(to) => say!("trade-trunk", size = to.size, over = over, to = needs(to)),
            None => {
                say!("trade-trunk-larger-than-any", over = over, load = flow(trunk.load))
            }
        };
        out.push(Change::new(text, bigger.is_some() && carried(Segment::Branch)));
    }
    if let Some(branch) = branch {
        let bigger = roomy(|size| sizing.branch(size))?;
        let text = match &bigger {
            Some(to) => say!("trade-branch-over-length", size = to.size, to = needs(to)),
            None => say!("trade-branch-larger-than-any", load = flow(branch.load)),
        };
        out.push(Change::new(text, bigger.is_some() && carried(Segment::Trunk)));
    }
    if plan.planned.is_empty() {
        return Ok(out);
    }
    let (names, before) = (names(&plan.planned), plan.before());
    // The trunk without what is planned, held against the same value.
    let relieved = sections.first().map(|s| sizing.section(Segment::Trunk, s.size, s.feet, [before, before]));
    let relieved = relieved.transpose()?;
    let enough = relieved.as_ref().is_some_and(|trunk| trunk.standing() == Standing::Within);
    let stays = match &relieved {
        Some(trunk) => say!("trade-trunk-stays-ft-h-2", before = flow(before), carries = flow(trunk.carries)),
        None => say!("trade-trunk-stays-ft-h", before = flow(before)),
    };
    if let Some(own) = roomy(|size| sizing.own_run(size))? {
        let long = match plan.own_run {
            Some(length) => say!("trade-about", length = feet(length.inches() / 12.0)),
            None => say!("trade-length-measured"),
        };
        let text = say!(
            "trade-own-run-meter",
            size = own.size,
            long = long,
            names = &names,
            own = needs(&own),
            stays = &stays
        );
        out.push(Change::new(text, enough));
    }
    out.push(Change::new(say!("trade-no-gas-electric-later", names = &names, stays = &stays), enough));
    Ok(out)
}

fn needs(section: &Section) -> Said {
    say!("trade-carries-ft-h-needs", carries = flow(section.carries), load = flow(section.load))
}
