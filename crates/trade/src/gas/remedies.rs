//! Single changes that would help a gas run, each with its amount.

use alloc::{
    format,
    string::{String, ToString},
    vec::Vec,
};

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
            Some(length) => format!("for {}, from the meter to the branch", feet(length.inches() / 12.0)),
            None => "over its length from the meter to the branch, which nobody gave".to_string(),
        };
        let bigger = roomy(|size| sizing.trunk(size))?;
        let text = match &bigger {
            Some(to) => format!("Trunk to {} in {over}: {}", to.size, needs(to)),
            None => {
                format!("Trunk larger than any size known here, {over}: needs {} ft³/h", flow(trunk.load))
            }
        };
        out.push(Change { text, enough: bigger.is_some() && carried(Segment::Branch) });
    }
    if let Some(branch) = branch {
        let bigger = roomy(|size| sizing.branch(size))?;
        let text = match &bigger {
            Some(to) => format!("Branch to {} in over its length: {}", to.size, needs(to)),
            None => format!("Branch larger than any size known here: needs {} ft³/h", flow(branch.load)),
        };
        out.push(Change { text, enough: bigger.is_some() && carried(Segment::Trunk) });
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
        Some(trunk) => format!("the trunk stays at {} of {} ft³/h", flow(before), flow(trunk.carries)),
        None => format!("the trunk stays at {} ft³/h", flow(before)),
    };
    if let Some(own) = roomy(|size| sizing.own_run(size))? {
        let long = match plan.own_run {
            Some(length) => format!("about {}", feet(length.inches() / 12.0)),
            None => "its length to be measured".to_string(),
        };
        let text = format!(
            "Own run of {} in, {long}, from the meter to {names}: {}; {stays}",
            own.size,
            needs(&own)
        );
        out.push(Change { text, enough });
    }
    out.push(Change { text: format!("No gas for {names} (electric, or later): {stays}"), enough });
    Ok(out)
}

fn needs(section: &Section) -> String {
    format!("carries {} ft³/h, needs {}", flow(section.carries), flow(section.load))
}
