//! From data to PDF.

use std::collections::BTreeMap;

use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Datetime, Smart};
use typst::visualize::{ExchangeFormat, RasterImage, SvgImage};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use super::clean::clean_all;
use super::data::PagesData;
use super::fill::fill;
use super::world::{Desk, covered};
use crate::PacketError;
use words::Words;

/// Most pixels on the longer side of a small copy.
const SIDE: u32 = 1_024;

/// Sets the pages in a language: tagged PDF, PDF/UA-1 (ISO 14289-1) as far as the compiler checks it. Equal data, equal bytes.
pub fn pages(data: &PagesData, words: &Words) -> Result<Vec<u8>, PacketError> {
    compile(data, words).map(|made| made.pdf)
}

/// What the compiler gave.
pub(super) struct Made {
    pub(super) pdf: Vec<u8>,
    /// Whether it was accepted as PDF/UA-1; otherwise it is tagged all the same.
    #[cfg_attr(not(test), expect(dead_code, reason = "told to the tests"))]
    pub(super) universal: bool,
}

pub(super) fn compile(data: &PagesData, words: &Words) -> Result<Made, PacketError> {
    let mut files = BTreeMap::new();
    let mut pictures = Vec::new();
    for (n, photo) in data.photos.iter().enumerate() {
        let name = format!("photo-{n}.jpg");
        let good = is_small_jpeg(&photo.thumbnail);
        if good {
            files.insert(name.clone(), photo.thumbnail.clone());
        }
        let marks = format!("marks-{n}.svg");
        let over = photo.marks.as_ref().filter(|svg| good && is_drawing(svg));
        if let Some(svg) = over {
            files.insert(marks.clone(), svg.clone().into_bytes());
        }
        pictures.push(good.then(|| (name, over.map(|_| marks))));
    }
    let mut drawings = Vec::new();
    for (n, block) in data.calculations.iter().enumerate() {
        let name = format!("drawing-{n}.svg");
        let drawing = block.drawing.as_ref().filter(|svg| is_drawing(svg));
        if let Some(svg) = drawing {
            files.insert(name.clone(), svg.clone().into_bytes());
        }
        drawings.push(drawing.map(|_| name));
    }
    let [money, days] =
        [(&data.money.drawing, "money"), (&data.money.days_drawing, "days")].map(|(drawn, name)| {
            let drawn = drawn.as_ref().filter(|d| is_drawing(&d.svg))?;
            let name = format!("{name}.svg");
            files.insert(name.clone(), drawn.svg.clone().into_bytes());
            Some(name)
        });
    let mut tree = fill(data, words, &pictures, &drawings, [money, days]);
    clean_all(&mut tree, &covered, &words.plain("pages-cut"));
    files.insert("data.json".to_owned(), tree.to_string().into_bytes());
    let desk = Desk::new(files).ok_or_else(|| failed("a file of the template has no name"))?;
    let compiled = typst::compile::<PagedDocument>(&desk);
    let made = match &compiled.output {
        Ok(document) => export(data, document),
        Err(errors) => Err(said(errors)),
    };
    typst::comemo::evict(0); // nothing of this house stays in memory
    let (pdf, universal) = made?;
    Ok(Made { pdf, universal })
}

fn export(data: &PagesData, document: &PagedDocument) -> Result<(Vec<u8>, bool), PacketError> {
    let universal = PdfStandards::new(&[PdfStandard::Ua_1]).map_err(|e| failed(e.message()))?;
    let (year, month, day, hour, minute, second) = data.sealed_at.wall();
    let timestamp = Datetime::from_ymd_hms(year, month, day, hour, minute, second)
        .and_then(|wall| Timestamp::new_local(wall, i32::from(data.sealed_at.offset_min())));
    let options = |standards| PdfOptions {
        timestamp,
        ident: Smart::Custom(format!("{} {} {}", data.survey, data.number, data.assessment_digest)),
        creator: Smart::Custom(Some(concat!("Underlath ", env!("CARGO_PKG_VERSION")).to_owned())),
        standards,
        ..PdfOptions::default()
    };
    if let Ok(pdf) = typst_pdf::pdf(document, &options(universal)) {
        return Ok((pdf, true));
    }
    let pdf = typst_pdf::pdf(document, &options(PdfStandards::default())).map_err(|e| said(&e))?;
    Ok((pdf, false))
}

fn failed(reason: &str) -> PacketError {
    PacketError::Pages { reason: reason.to_owned() }
}

fn said(errors: &[SourceDiagnostic]) -> PacketError {
    let first: Vec<&str> = errors.iter().take(3).map(|e| e.message.as_str()).collect();
    failed(&first.join("; "))
}

fn is_small_jpeg(bytes: &[u8]) -> bool {
    let decoded = RasterImage::new(Bytes::new(bytes.to_vec()), ExchangeFormat::Jpg, Smart::Auto);
    decoded.is_ok_and(|image| image.width().max(image.height()) <= SIDE)
}

/// Whether the compiler takes a text as SVG.
fn is_drawing(svg: &str) -> bool {
    SvgImage::new(Bytes::new(svg.as_bytes().to_vec())).is_ok()
}
