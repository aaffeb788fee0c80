//! A gas run with what is planned on it, by the longest-length method: every section is sized for the length from
//! the meter to the farthest appliance (IFGC 402.4, Appendix A).

use alloc::{
    format,
    string::{String, ToString},
    vec,
    vec::Vec,
};

use survey::catalog::{Book, Family, Shelf};

use super::capacity::{Basis, inside};
use super::form::Form;
use super::loads::{assumed, names, written};
use super::plan::{GasPlan, Segment, UNSTATED};
use super::remedies::changes;
use super::section::{Section, Sizing, roomy, smallest};
use crate::cite::{across, row, value};
use crate::error::TradeError;
use crate::number::{in_100, show_number};
use crate::picture::{LoadBar, Picture};
use crate::sheet::{Assumed, Limit, Sheet, Standing};

/// What stands beside every answer.
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed gas fitter or plumber decides, \
    sizes the pipe by the adopted fuel-gas code and tests it; the local code and its inspector govern. A tightness \
    test says nothing about capacity, and delivery pressure under load and the meter's class are not judged here.";

/// Flow in words: to a tenth, without its unit.
pub(super) fn flow(cfh: f64) -> String {
    show_number(libm::round(cfh * 10.0) / 10.0)
}

/// Feet in words, to a tenth.
pub(super) fn feet(feet: f64) -> String {
    format!("{} ft", show_number(libm::round(feet * 10.0) / 10.0))
}

/// Holds a run against the gas book.
///
/// # Errors
/// A book without the tables, or a size or fitting they do not know.
pub fn judge(plan: &GasPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    across(shelf, Family::Gas, CAUTION, |book| under(plan, book))
}

/// The sections of a run: its trunk, and its branch where there is one and something is planned on it.
///
/// # Errors
/// As [`judge`].
pub fn sections(plan: &GasPlan, book: &Book) -> Result<Vec<Section>, TradeError> {
    let sizing = Sizing::new(plan, book)?;
    let mut sections = vec![sizing.trunk(plan.trunk)?];
    if let Some(size) = plan.branch.filter(|_| !plan.planned.is_empty()) {
        sections.push(sizing.branch(size)?);
    }
    Ok(sections)
}

fn under(plan: &GasPlan, book: &Book) -> Result<Sheet, TradeError> {
    let sizing = Sizing::new(plan, book)?;
    let sections = sections(plan, book)?;
    // One length moves every section, so the chance that any lies beyond is that of the tightest.
    let chance = sections.iter().map(|s| s.chance).fold(0.0, libm::fmax);
    let standing = worst(&sections);
    let mut sheet = Sheet::new(standing, sentence(plan, &sizing, &sections, chance)?, CAUTION);
    sheet.chance_beyond = Some(chance);
    sheet.sigma = sections.first().map(|s| format!("{:.1} ft³/h of what the trunk carries", s.sigma));
    load_lines(plan, &mut sheet);
    length_line(&sizing, &mut sheet)?;
    for section in &sections {
        section_lines(section, &mut sheet);
    }
    size_lines(&sizing, &mut sheet)?;
    limits(plan, book, &sections, &mut sheet)?;
    said(plan, &mut sheet);
    if standing != Standing::Within {
        sheet.changes = changes(&sizing, &sections)?;
    }
    notes(plan, book, &sections, &mut sheet);
    sheet.picture = Some(Picture::Load(bar(plan, &sizing, &sections)?));
    Ok(sheet)
}

fn worst(sections: &[Section]) -> Standing {
    let order = [Standing::Beyond, Standing::Near];
    let found = order.into_iter().find(|o| sections.iter().any(|s| s.standing() == *o));
    found.unwrap_or(Standing::Within)
}

fn sentence(
    plan: &GasPlan,
    sizing: &Sizing<'_>,
    sections: &[Section],
    chance: f64,
) -> Result<String, TradeError> {
    let mut out = String::new();
    for section in sections {
        let how = section.standing().lies();
        let (name, verb) = match (section.segment, plan.planned.is_empty()) {
            (Segment::Trunk, true) => ("trunk", "carries".to_string()),
            (Segment::Trunk, false) => ("trunk", format!("with {} would carry", names(&plan.planned))),
            (Segment::Branch, _) => ("branch", "would carry".to_string()),
        };
        out.push_str(&format!(
            "The {} in {name} {verb} {} ft³/h, {how} {} {} over {}",
            section.size,
            flow(section.load),
            section.capacity.basis.words(),
            flow(section.carries),
            feet(section.capacity.feet),
        ));
        if section.carries_load() {
            out.push_str(". ");
        } else {
            out.push_str(&match wanted(sizing, section.segment)? {
                Some(size) => format!("; it needs {} in. ", size.size),
                None => "; no size known here carries it. ".into(),
            });
        }
    }
    out.push_str(&format!("Chance that it lies beyond, by the tolerance of the length: {}.", in_100(chance)));
    Ok(out)
}

/// The smallest size of a segment that carries its load at the values taken.
fn wanted(sizing: &Sizing<'_>, segment: Segment) -> Result<Option<Section>, TradeError> {
    match segment {
        Segment::Trunk => smallest(|size| sizing.trunk(size), Section::carries_load),
        Segment::Branch => smallest(|size| sizing.branch(size), Section::carries_load),
    }
}

fn load_lines(plan: &GasPlan, sheet: &mut Sheet) {
    let per = show_number(plan.heating_value.get());
    let (before, added) = (flow(plan.before()), flow(plan.added()));
    sheet.line("Load now", format!("{} ÷ {per} Btu/ft³ = {before} ft³/h", written(&plan.existing)));
    if !plan.planned.is_empty() {
        sheet.line("Load planned", format!("{} ÷ {per} Btu/ft³ = {added} ft³/h", written(&plan.planned)));
        let after = flow(plan.before() + plan.added());
        sheet.line("Load after", format!("{before} + {added} = {after} ft³/h"));
    }
}

fn length_line(sizing: &Sizing<'_>, sheet: &mut Sheet) -> Result<(), TradeError> {
    let plan = sizing.plan;
    let all = sizing.feet(plan.trunk, plan.branch)?;
    let mut text = feet(plan.length.feet());
    for (segment, size) in
        [(Segment::Trunk, plan.trunk), (Segment::Branch, plan.branch.unwrap_or(plan.trunk))]
    {
        let added = plan.fittings_feet(sizing.book, segment, size)?;
        if added <= 0.0 {
            continue;
        }
        let mut parts = Vec::new();
        for fitting in plan.fittings.iter().filter(|f| f.segment == segment) {
            let (diameters, _) = row(sizing.book, "fitting-diameters", fitting.kind)?;
            parts.push(format!("{} {} × {}", fitting.count, fitting.kind, show_number(diameters)));
        }
        let inside = inside(sizing.book, size)?.0;
        text.push_str(&format!(" + ({}) × {} in ÷ 12", parts.join(" + "), show_number(inside)));
    }
    if all > plan.length.feet() {
        text.push_str(&format!(" = {}", feet(all)));
    }
    sheet.line("Longest length", text);
    Ok(())
}

fn section_lines(section: &Section, sheet: &mut Sheet) {
    let name = match section.segment {
        Segment::Trunk => "Trunk",
        Segment::Branch => "Branch",
    };
    let (size, carries) = (section.size, section.carries);
    let mut text = format!("{size} in over {}: ", feet(section.capacity.feet));
    if carries == section.capacity.cfh {
        text.push_str(&format!("{} ft³/h", flow(carries)));
    } else {
        let (cfh, multiplier) = (section.capacity.cfh, carries / section.capacity.cfh);
        text.push_str(&format!("{} × {} = {} ft³/h", flow(cfh), show_number(multiplier), flow(carries)));
    }
    sheet.line(format!("{name} carries"), text);
    if let Some((at, row)) = section.next_row {
        sheet.line(
            format!("{name}, read by rows"),
            format!("next longer row {}: {} ft³/h", feet(at), flow(row)),
        );
    }
    let part = |load: f64| {
        format!(
            "{} ÷ {} = {} %",
            flow(load),
            flow(carries),
            show_number(libm::round(load / carries * 1000.0) / 10.0)
        )
    };
    if section.segment == Segment::Trunk {
        sheet.line("Trunk now", part(section.before));
    }
    if section.load > section.before {
        sheet.line(format!("{name} after"), part(section.load));
    }
    if section.longest.is_finite() {
        sheet.line(
            format!("{name}, longest run"),
            format!(
                "{size} in carries {} ft³/h over {} × ({} ÷ {})^(1 ÷ 0.541) = {}",
                flow(section.load),
                feet(section.capacity.feet),
                flow(carries),
                flow(section.load),
                feet(section.longest)
            ),
        );
    }
}

fn size_lines(sizing: &Sizing<'_>, sheet: &mut Sheet) -> Result<(), TradeError> {
    let mut line = |label: &str, found: Option<Section>| match found {
        Some(s) => sheet.line(label, format!("{} in: {} ft³/h", s.size, flow(s.carries))),
        None => sheet.line(label, "none of the sizes known here"),
    };
    line("Trunk size needed", wanted(sizing, Segment::Trunk)?);
    if !sizing.plan.planned.is_empty() {
        line("Branch size needed", wanted(sizing, Segment::Branch)?);
    }
    Ok(())
}

fn limits(plan: &GasPlan, book: &Book, sections: &[Section], sheet: &mut Sheet) -> Result<(), TradeError> {
    let mut add = |limit: Limit| {
        if !sheet.limits.contains(&limit) {
            sheet.limits.push(limit);
        }
    };
    for section in sections {
        add(section.capacity.limit.clone());
        if let (Some((at, cfh)), Some(table)) = (section.capacity.next_row, book.table(plan.drop.table())) {
            let value =
                format!("{} in over {}, the next longer row: {} ft³/h", section.size, feet(at), flow(cfh));
            add(Limit::of(book, table, value));
        }
    }
    add(Form::limit(book)?);
    if plan.gravity != "0.60" {
        add(row(book, "gravity-multiplier", plan.gravity)?.1);
    }
    if !plan.fittings.is_empty() {
        add(value(book, "fittings-from")?.1);
        for fitting in &plan.fittings {
            add(row(book, "fitting-diameters", fitting.kind)?.1);
        }
    }
    for limit in plan.existing.iter().chain(&plan.planned).filter_map(|a| a.typical.clone()) {
        add(limit);
    }
    if !plan.length.stated() {
        let value = format!("±{} % of the length", show_number(UNSTATED * 100.0));
        add(Limit::practice("Tolerance of a run paced off or added up from a sketch", value));
    }
    Ok(())
}

/// What was taken because nobody said.
fn said(plan: &GasPlan, sheet: &mut Sheet) {
    sheet.assumed.extend(assumed(&plan.existing));
    sheet.assumed.extend(assumed(&plan.planned));
    let mut add = |item: &str, value: String| sheet.assumed.push(Assumed { item: item.into(), value });
    if !plan.length.stated() {
        add("tolerance of the length", format!("±{}", feet(plan.length.feet() * UNSTATED)));
    }
    if plan.fittings.is_empty() {
        add("fittings", "fewer than four in any segment".into());
    }
}

fn notes(plan: &GasPlan, book: &Book, sections: &[Section], sheet: &mut Sheet) {
    if sections.iter().any(|s| !s.carries_load() && s.before > s.carries) {
        sheet.note("The trunk is beyond its value as it is, before anything is added.");
    }
    for section in sections.iter().filter(|s| s.carries_load() && s.short_by_rows()) {
        sheet.note(format!(
            "Read by rows alone, the next longer row of {} in carries less than the load: a fitter who sizes by rows \
             goes up a size.",
            section.size
        ));
    }
    sheet.note("All appliances are taken to burn at once, on steel pipe of one size along each section.");
    if plan.planned.len() > 1 {
        sheet.note("One branch is taken to carry all that is planned.");
    }
    let ranges = plan.existing.iter().chain(&plan.planned);
    if ranges.into_iter().any(|a| a.typical.is_some() && a.name.to_lowercase().contains("range")) {
        sheet.note("Wide ranges of the professional kind can exceed 100,000 Btu/h: the nameplate governs.");
    }
    let by_table = sections.iter().any(|s| s.capacity.basis != Basis::Derived);
    let table = book.table(plan.drop.table()).filter(|_| by_table);
    sheet.notes.extend(table.map(|t| t.note.clone()).filter(|n| !n.is_empty()));
}

fn bar(plan: &GasPlan, sizing: &Sizing<'_>, sections: &[Section]) -> Result<LoadBar, TradeError> {
    let per = plan.heating_value.get();
    let there = plan.existing.iter().map(|a| (a.name.clone(), a.input.get() / per, false));
    let planned = plan.planned.iter().map(|a| (a.name.clone(), a.input.get() / per, true));
    let mut carries = Vec::new();
    if let Some(trunk) = sections.first() {
        carries.push((format!("{} in", trunk.size), trunk.carries));
        if let Some(next) = roomy(|size| sizing.trunk(size))?.filter(|n| n.carries > trunk.carries) {
            carries.push((format!("{} in", next.size), next.carries));
        }
    }
    Ok(LoadBar { unit: "ft³/h".into(), parts: there.chain(planned).collect(), carries })
}
