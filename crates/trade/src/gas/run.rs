//! A gas run with what is planned on it, by the longest-length method: every section is sized for the length from
//! the meter to the farthest appliance (IFGC 402.4, Appendix A).

use alloc::{format, string::String, vec, vec::Vec};

use survey::catalog::{Book, Family, Shelf};
use survey::said::in_catalog;
use survey::{Phrase, Said, say};

use super::capacity::{Basis, inside};
use super::form::Form;
use super::loads::{assumed, names, written};
use super::plan::{GasPlan, Segment, UNSTATED};
use super::remedies::changes;
use super::section::{Section, Sizing, roomy, smallest};
use crate::cite::{across, row, value};
use crate::error::TradeError;
use crate::given::choice;
use crate::number::{in_100, show_number};
use crate::picture::{LoadBar, Picture};
use crate::sheet::{Assumed, Limit, Sheet, Standing};

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-licensed-gas");

/// Flow in words: to a tenth, without its unit.
pub(super) fn flow(cfh: f64) -> String {
    show_number(libm::round(cfh * 10.0) / 10.0)
}

/// Feet in words, to a tenth.
pub(super) fn feet(feet: f64) -> Said {
    say!("trade-ft", x = show_number(libm::round(feet * 10.0) / 10.0))
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
    sheet.sigma = sections.first().map(|s| say!("trade-ft-h-what-trunk", sigma = format!("{:.1}", s.sigma)));
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
) -> Result<Said, TradeError> {
    let mut out = Vec::new();
    for section in sections {
        let (size, load, carries) = (section.size, flow(section.load), flow(section.carries));
        let (how, basis) = (section.standing().lies(), section.capacity.basis.words());
        let over = feet(section.capacity.feet);
        let end = if section.carries_load() {
            Said::nothing()
        } else {
            match wanted(sizing, section.segment)? {
                Some(size) => say!("trade-needs-2", size = size.size),
                None => say!("trade-no-size-known-here"),
            }
        };
        out.push(match (section.segment, plan.planned.is_empty()) {
            (Segment::Trunk, true) => say!(
                "trade-trunk-carries-ft-h",
                size = size,
                load = load,
                how = how,
                basis = basis,
                carries = carries,
                over = over,
                end = end
            ),
            (Segment::Trunk, false) => {
                let planned = names(&plan.planned);
                say!(
                    "trade-trunk-would-carry-ft",
                    size = size,
                    planned = planned,
                    load = load,
                    how = how,
                    basis = basis,
                    carries = carries,
                    over = over,
                    end = end
                )
            }
            (Segment::Branch, _) => say!(
                "trade-branch-would-carry-ft",
                size = size,
                load = load,
                how = how,
                basis = basis,
                carries = carries,
                over = over,
                end = end
            ),
        });
    }
    out.push(say!("trade-chance-lies-beyond-tolerance", chance = in_100(chance)));
    Ok(Said::sentences(out))
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
    sheet.line(
        Phrase("trade-load-now"),
        say!("trade-btu-ft-ft-h", planned = written(&plan.existing), per = &per, added = &before),
    );
    if !plan.planned.is_empty() {
        sheet.line(
            Phrase("trade-load-planned"),
            say!("trade-btu-ft-ft-h", planned = written(&plan.planned), per = &per, added = &added),
        );
        let after = flow(plan.before() + plan.added());
        sheet.line(
            Phrase("trade-load-after"),
            say!("trade-ft-h-2", before = &before, added = &added, after = after),
        );
    }
}

fn length_line(sizing: &Sizing<'_>, sheet: &mut Sheet) -> Result<(), TradeError> {
    let plan = sizing.plan;
    let all = sizing.feet(plan.trunk, plan.branch)?;
    let mut parts = vec![feet(plan.length.feet())];
    for (segment, size) in
        [(Segment::Trunk, plan.trunk), (Segment::Branch, plan.branch.unwrap_or(plan.trunk))]
    {
        let added = plan.fittings_feet(sizing.book, segment, size)?;
        if added <= 0.0 {
            continue;
        }
        let mut pieces = Vec::new();
        for fitting in plan.fittings.iter().filter(|f| f.segment == segment) {
            let (diameters, _) = row(sizing.book, "fitting-diameters", fitting.kind)?;
            let (count, diameters) = (format!("{}", fitting.count), format!("× {}", show_number(diameters)));
            pieces.push(Said::between(" ", [count.into(), choice(fitting.kind), diameters.into()]));
        }
        let inside = inside(sizing.book, size)?.0;
        parts.push(say!(
            "trade-fittings-length",
            pieces = Said::between(" + ", pieces),
            inside = show_number(inside)
        ));
    }
    let mut text = Said::between(" + ", parts);
    if all > plan.length.feet() {
        text = Said::between(" = ", [text, feet(all)]);
    }
    sheet.line(Phrase("trade-longest-length"), text);
    Ok(())
}

fn section_lines(section: &Section, sheet: &mut Sheet) {
    let name = match section.segment {
        Segment::Trunk => Phrase("trade-trunk-2"),
        Segment::Branch => Phrase("trade-branch"),
    };
    let (size, carries) = (section.size, section.carries);
    let over = feet(section.capacity.feet);
    let text = if carries == section.capacity.cfh {
        say!("trade-over-ft-h", size = size, over = over, carries = flow(carries))
    } else {
        let (cfh, multiplier) = (section.capacity.cfh, carries / section.capacity.cfh);
        say!(
            "trade-over-ft-h-2",
            size = size,
            over = over,
            cfh = flow(cfh),
            multiplier = show_number(multiplier),
            carries = flow(carries)
        )
    };
    sheet.line(say!("trade-carries-2", name = name), text);
    if let Some((at, row)) = section.next_row {
        sheet.line(
            say!("trade-read-rows", name = name),
            say!("trade-next-longer-row-ft", at = feet(at), row = flow(row)),
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
        sheet.line(Phrase("trade-trunk-now"), part(section.before));
    }
    if section.load > section.before {
        sheet.line(say!("trade-after", name = name), part(section.load));
    }
    if section.longest.is_finite() {
        sheet.line(
            say!("trade-longest-run", name = name),
            say!(
                "trade-carries-ft-h-over",
                size = size,
                load = flow(section.load),
                capacity = feet(section.capacity.feet),
                carries = flow(carries),
                longest = feet(section.longest)
            ),
        );
    }
}

fn size_lines(sizing: &Sizing<'_>, sheet: &mut Sheet) -> Result<(), TradeError> {
    let mut line = |label: Phrase, found: Option<Section>| match found {
        Some(s) => sheet.line(label, say!("trade-ft-h", size = s.size, carries = flow(s.carries))),
        None => sheet.line(label, Phrase("trade-none-sizes-known-here")),
    };
    line(Phrase("trade-trunk-size-needed"), wanted(sizing, Segment::Trunk)?);
    if !sizing.plan.planned.is_empty() {
        line(Phrase("trade-branch-size-needed"), wanted(sizing, Segment::Branch)?);
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
                say!("trade-over-next-longer-row", size = section.size, at = feet(at), cfh = flow(cfh));
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
        let value = say!("trade-length", unstated = show_number(UNSTATED * 100.0));
        add(Limit::practice(Phrase("trade-tolerance-run-paced-off"), value));
    }
    Ok(())
}

/// What was taken because nobody said.
fn said(plan: &GasPlan, sheet: &mut Sheet) {
    sheet.assumed.extend(assumed(&plan.existing));
    sheet.assumed.extend(assumed(&plan.planned));
    let mut add = |item: Phrase, value: Said| sheet.assumed.push(Assumed::new(item, value));
    if !plan.length.stated() {
        add(Phrase("trade-tolerance-length"), Said::run(["±".into(), feet(plan.length.feet() * UNSTATED)]));
    }
    if plan.fittings.is_empty() {
        add(Phrase("trade-fittings"), say!("trade-fewer-than-four-any"));
    }
}

fn notes(plan: &GasPlan, book: &Book, sections: &[Section], sheet: &mut Sheet) {
    if sections.iter().any(|s| !s.carries_load() && s.before > s.carries) {
        sheet.note(Phrase("trade-trunk-beyond-value-before"));
    }
    for section in sections.iter().filter(|s| s.carries_load() && s.short_by_rows()) {
        sheet.note(say!("trade-read-rows-alone-next", size = section.size));
    }
    sheet.note(Phrase("trade-all-appliances-taken-burn"));
    if plan.planned.len() > 1 {
        sheet.note(Phrase("trade-one-branch-taken-carry"));
    }
    let ranges = plan.existing.iter().chain(&plan.planned);
    if ranges.into_iter().any(|a| a.typical.is_some() && a.name.to_lowercase().contains("range")) {
        sheet.note(Phrase("trade-wide-ranges-professional-kind"));
    }
    let by_table = sections.iter().any(|s| s.capacity.basis != Basis::Derived);
    let table = book.table(plan.drop.table()).filter(|_| by_table);
    sheet.notes.extend(table.filter(|t| !t.note.is_empty()).map(|t| in_catalog("code-note", &t.note)));
}

fn bar(plan: &GasPlan, sizing: &Sizing<'_>, sections: &[Section]) -> Result<LoadBar, TradeError> {
    let per = plan.heating_value.get();
    let there = plan.existing.iter().map(|a| (Said::from(&a.name), a.input.get() / per, false));
    let planned = plan.planned.iter().map(|a| (Said::from(&a.name), a.input.get() / per, true));
    let mut carries = Vec::new();
    if let Some(trunk) = sections.first() {
        carries.push((say!("trade-in", sigma = trunk.size), trunk.carries));
        if let Some(next) = roomy(|size| sizing.trunk(size))?.filter(|n| n.carries > trunk.carries) {
            carries.push((say!("trade-in", sigma = next.size), next.carries));
        }
    }
    Ok(LoadBar { unit: in_catalog("unit", "ft³/h"), parts: there.chain(planned).collect(), carries })
}
