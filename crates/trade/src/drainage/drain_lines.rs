//! The arithmetic of `drain-size` in lines, and its picture.

use alloc::{format, string::String, vec::Vec};

use super::demand::{Demand, Size};
use super::units::Load;
use crate::number::{show_number, size_name};
use crate::picture::{LoadBar, Picture};
use crate::sheet::Sheet;

/// The load row by row.
pub(super) fn add_load(sheet: &mut Sheet, load: &Load) {
    let rows: Vec<String> = load
        .rows
        .iter()
        .map(|(row, units)| {
            let each = units / f64::from(row.count.max(1));
            format!("{} {} × {}", row.fixture.name, row.count, show_number(each))
        })
        .collect();
    sheet.line("Load", format!("{} = {} DFU", rows.join(" + "), show_number(load.units)));
    if let Some(floor) = load.floor_of() {
        let size = size_name(floor.inches).unwrap_or_default();
        sheet.line(
            "Size the fixtures ask",
            format!("{size} in at least: {}, {}", floor.fixture.name, floor.why),
        );
        sheet.limits.push(floor.limit.clone());
    }
}

/// The load, what enters each column, and what the sizes carry.
pub(super) fn add(
    sheet: &mut Sheet,
    part: &str,
    load: &Load,
    demand: &Demand,
    existing: Option<Size>,
    needed: Size,
) {
    add_load(sheet, load);
    if load.closets > 0 {
        sheet.line("Water closets", format!("{}", load.closets));
    }
    let sizes = existing.into_iter().filter(|size| *size != needed).chain([needed]);
    for size in sizes {
        for column in &demand.columns {
            let carries = match (column.table.row(size.name), column.carries(size.name)) {
                (Some(all), Some(carries)) if column.part < 1.0 => format!(
                    "{} × {} = {} DFU",
                    show_number(all),
                    show_number(column.part),
                    show_number(carries)
                ),
                (_, Some(carries)) => format!("{} DFU", show_number(carries)),
                (_, None) => "the table names no such size".into(),
            };
            let (what, units) = (column.what, show_number(column.units));
            sheet.line(format!("{} in carries", size.name), format!("{carries}; {what} {units} DFU"));
        }
    }
    sheet.line(format!("Smallest {part}"), format!("{} in", needed.name));
}

/// Fixtures laid end to end against what the sizes carry.
pub(super) fn picture(load: &Load, demand: &Demand, existing: Option<Size>, needed: Size) -> Picture {
    let parts = load.rows.iter().map(|(row, units)| {
        let many = if row.count > 1 { format!("{} × ", row.count) } else { String::new() };
        (format!("{many}{}", row.fixture.name), *units, row.new)
    });
    let sizes = existing.into_iter().filter(|size| *size != needed).chain([needed]);
    let carried = |size: Size| {
        let carries = demand.columns.first()?.carries(size.name)?;
        Some((format!("{} in", size.name), carries))
    };
    Picture::Load(LoadBar {
        unit: "DFU".into(),
        parts: parts.collect(),
        carries: sizes.filter_map(carried).collect(),
    })
}
