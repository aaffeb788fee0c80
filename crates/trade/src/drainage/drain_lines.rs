//! The arithmetic of `drain-size` in lines, and its picture.

use alloc::{format, string::String, vec::Vec};

use survey::{Phrase, Said, say};

use super::demand::{Demand, Size};
use super::units::Load;
use crate::number::{show_number, size_name};
use crate::picture::{LoadBar, Picture};
use crate::sheet::Sheet;

/// The load row by row.
pub(super) fn add_load(sheet: &mut Sheet, load: &Load) {
    let rows: Vec<Said> = load
        .rows
        .iter()
        .map(|(row, units)| {
            let each = units / f64::from(row.count.max(1));
            Said::between(
                " ",
                [row.fixture.name.into(), format!("{} × {}", row.count, show_number(each)).into()],
            )
        })
        .collect();
    sheet.line(
        Phrase("trade-load"),
        say!("trade-dfu-4", rows = Said::between(" + ", rows), units = show_number(load.units)),
    );
    if let Some(floor) = load.floor_of() {
        let size = size_name(floor.inches).unwrap_or_default();
        sheet.line(
            Phrase("trade-size-fixtures-ask"),
            say!("trade-least", size = size, name = floor.fixture.name, why = floor.why),
        );
        sheet.limits.push(floor.limit.clone());
    }
}

/// The load, what enters each column, and what the sizes carry.
pub(super) fn add(
    sheet: &mut Sheet,
    part: Phrase,
    load: &Load,
    demand: &Demand,
    existing: Option<Size>,
    needed: Size,
) {
    add_load(sheet, load);
    if load.closets > 0 {
        sheet.line(Phrase("trade-water-closets"), format!("{}", load.closets));
    }
    let sizes = existing.into_iter().filter(|size| *size != needed).chain([needed]);
    for size in sizes {
        for column in &demand.columns {
            let carries = match (column.table.row(size.name), column.carries(size.name)) {
                (Some(all), Some(carries)) if column.part < 1.0 => say!(
                    "trade-dfu-3",
                    all = show_number(all),
                    part = show_number(column.part),
                    carries = show_number(carries)
                ),
                (_, Some(carries)) => say!("trade-dfu", values = show_number(carries)),
                (_, None) => say!("trade-table-names-no-such-size"),
            };
            let (what, units) = (column.what, show_number(column.units));
            sheet.line(
                say!("trade-carries", name = size.name),
                say!("trade-dfu-2", carries = carries, what = what, units = units),
            );
        }
    }
    sheet.line(say!("trade-smallest", part = part), say!("trade-in", sigma = needed.name));
}

/// Fixtures laid end to end against what the sizes carry.
pub(super) fn picture(load: &Load, demand: &Demand, existing: Option<Size>, needed: Size) -> Picture {
    let parts = load.rows.iter().map(|(row, units)| {
        let many = if row.count > 1 { format!("{} ×", row.count) } else { String::new() };
        (Said::between(" ", [many.into(), row.fixture.name.into()]), *units, row.new)
    });
    let sizes = existing.into_iter().filter(|size| *size != needed).chain([needed]);
    let carried = |size: Size| {
        let carries = demand.columns.first()?.carries(size.name)?;
        Some((say!("trade-in", sigma = size.name), carries))
    };
    Picture::Load(LoadBar {
        unit: "DFU".into(),
        parts: parts.collect(),
        carries: sizes.filter_map(carried).collect(),
    })
}
