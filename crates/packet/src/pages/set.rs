//! From data to PDF, a document for each reader.

use std::collections::BTreeMap;

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde::Serialize;
use serde_json::Value;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Datetime, Smart};
use typst::visualize::{ExchangeFormat, RasterImage, SvgImage};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use super::bounds::{self, at_most};
use super::clean::clean_all;
use super::data::{Drawn, PagesData, PhotoBlock};
use super::fill;
use super::shown::ShownPages;
use super::world::{self, Desk, Shelf, covered};
use super::{Book, Readers, Style};
use crate::{PacketError, PageFile};
use words::Words;

/// Sets the pages and writes the tables of a packet, each in its reader's language: tagged PDF, PDF/UA-1 (ISO 14289-1) and PDF/A-2a
/// (ISO 19005-2) as far as the compiler checks them. Equal data, equal bytes.
///
/// # Errors
/// A firm's template that the compiler does not take (said with name and line), or more than it is given to set.
pub fn book(book: &Book, style: &Style, words: Readers<'_>) -> Result<Vec<PageFile>, PacketError> {
    let mut files: Vec<PageFile> = compile(book, style, words)?
        .into_iter()
        .map(|made| PageFile { name: format!("pages/{}.pdf", made.name), bytes: made.pdf })
        .collect();
    files.extend(book.tables.files());
    Ok(files)
}

/// The page the household signs, as a screen shows it: what [`book`] makes into `pages/household.pdf`.
///
/// # Errors
/// As [`book`].
pub fn shown(book: &Book, style: &Style, words: Readers<'_>) -> Result<ShownPages, PacketError> {
    let mut shown = made(
        book,
        style,
        words,
        |document| document.name == HOUSEHOLD,
        |_, document| Ok(ShownPages::of(document)),
    )?;
    shown.pop().ok_or_else(|| failed("there is no page for the household"))
}

/// Name of the household's document; its file is [`HouseholdSignature::PAGE`](crate::HouseholdSignature::PAGE).
const HOUSEHOLD: &str = "household";

/// What the compiler gave.
pub(super) struct Made {
    pub(super) name: String,
    pub(super) pdf: Vec<u8>,
    /// Whether it was accepted as PDF/UA-1 and PDF/A-2a; otherwise it is tagged all the same.
    #[cfg_attr(not(test), expect(dead_code, reason = "told to the tests"))]
    pub(super) standards: bool,
}

/// One document before it is set.
struct Document<'a> {
    name: String,
    words: &'a Words,
    template: &'static str,
    title: String,
    tree: Value,
    files: BTreeMap<String, Bytes>,
}

pub(super) fn compile(book: &Book, style: &Style, words: Readers<'_>) -> Result<Vec<Made>, PacketError> {
    made(
        book,
        style,
        words,
        |_| true,
        |about, document| {
            let (pdf, standards) = export(&about.desk, &book.office, &about.name, &about.title, document)?;
            Ok(Made { name: about.name.clone(), pdf, standards })
        },
    )
}

/// What was set, beside the document itself.
struct About<'a> {
    desk: Desk<'a>,
    name: String,
    title: String,
}

/// Sets the documents that are wanted and makes something of each.
fn made<T>(
    book: &Book,
    style: &Style,
    words: Readers<'_>,
    wanted: impl Fn(&Document<'_>) -> bool,
    make: impl Fn(&About<'_>, &PagedDocument) -> Result<T, PacketError>,
) -> Result<Vec<T>, PacketError> {
    bounds::templates(&style.templates)?;
    let shelf = Shelf::new(&style.templates).ok_or_else(|| failed("a template has no name"))?;
    let set = |document: Document<'_>| {
        let made = set(&shelf, document).and_then(|(about, document)| make(&about, &document));
        // Nothing of this house stays in memory, and no document beside what the one before it left there.
        typst::comemo::evict(0);
        made
    };
    documents(book, style, words).and_then(|all| all.into_iter().filter(wanted).map(set).collect())
}

/// Every document with its data, and with the pictures it shows and no others.
fn documents<'a>(book: &Book, style: &Style, readers: Readers<'a>) -> Result<Vec<Document<'a>>, PacketError> {
    let words = readers.crew;
    let office = &book.office;
    let pictures = Pictures::of(office)?;
    let mut mark = BTreeMap::new();
    let letterhead =
        fill::letterhead(office, style, picture(&mut mark, "letterhead.svg", style.mark.as_deref())?);
    let document = |name: &str,
                    words: &'a Words,
                    template,
                    title: String,
                    mut tree: Value,
                    files: BTreeMap<String, Bytes>| {
        let head = fill::head(office, &title, &letterhead, words);
        if let Value::Object(tree) = &mut tree {
            tree.extend(head);
        }
        let files = files.into_iter().chain(mark.clone()).collect();
        Document { name: name.to_owned(), words, template, title, tree, files }
    };
    let mut all = Vec::new();

    let mut files = pictures.all();
    let plots = [(&office.money.drawing, "money.svg"), (&office.money.days_drawing, "days.svg")];
    let [money, days] =
        plots.map(|(drawn, name)| picture(&mut files, name, drawn.as_ref().map(|d| d.svg.as_str())));
    let tree = fill::office(office, words, &pictures, [money?, days?]);
    let title = fill::office_title(office, words);
    all.push(document("office", words, world::OFFICE, title, tree, files));

    for trade in &book.trades {
        let photos = pictures.photos_json(&office.photos, &trade.photos);
        let tree = fill::trade(trade, office, &pictures, photos, words);
        let files = pictures.these(&trade.photos, &trade.calculations);
        let title = fill::title(&trade.running, office);
        all.push(document(&trade.file, words, world::TRADE, title, tree, files));
    }

    let household = &book.household;
    let mut files = BTreeMap::new();
    let drawn: &Option<Drawn> = &household.calendar;
    let calendar = picture(&mut files, "calendar.svg", drawn.as_ref().map(|d| d.svg.as_str()))?;
    let tree = fill::household(household, calendar);
    let title = fill::title(&household.running, office);
    all.push(document(HOUSEHOLD, readers.household, world::HOUSEHOLD, title, tree, files));

    let orders = &book.change_orders;
    let photos = pictures.photos_json(&office.photos, &orders.photos);
    let tree = fill::change_orders(orders, photos);
    let title = fill::title(&orders.running, office);
    all.push(document(
        "change-orders",
        words,
        world::CHANGE_ORDERS,
        title,
        tree,
        pictures.these(&orders.photos, &[]),
    ));
    Ok(all)
}

fn set<'a>(shelf: &'a Shelf, document: Document<'_>) -> Result<(About<'a>, PagedDocument), PacketError> {
    let Document { name, words, template, title, mut tree, mut files } = document;
    clean_all(&mut tree, &covered, &words.plain("pages-cut"));
    let text = tree.to_string();
    at_most(&format!("the data of pages/{name}.pdf"), text.len(), bounds::DATA)?;
    files.insert("data.json".to_owned(), Bytes::new(text.into_bytes()));
    let desk = Desk::new(shelf, template, files).ok_or_else(|| failed("a picture has no name"))?;
    let document = typst::compile::<PagedDocument>(&desk).output.map_err(|e| said(&desk, &e))?;
    // What was worked out on the way is not needed to write it.
    typst::comemo::evict(0);
    Ok((About { desk, name, title }, document))
}

fn export(
    desk: &Desk<'_>,
    data: &PagesData,
    name: &str,
    title: &str,
    document: &PagedDocument,
) -> Result<(Vec<u8>, bool), PacketError> {
    let both = PdfStandards::new(&[PdfStandard::Ua_1, PdfStandard::A_2a]).map_err(|e| failed(e.message()))?;
    let (year, month, day, hour, minute, second) = data.sealed_at.wall();
    let timestamp = Datetime::from_ymd_hms(year, month, day, hour, minute, second)
        .and_then(|wall| Timestamp::new_local(wall, i32::from(data.sealed_at.offset_min())));
    let options = |standards| PdfOptions {
        timestamp,
        ident: Smart::Custom(format!(
            "{} {} {} {name} {title}",
            data.survey, data.number, data.assessment_digest
        )),
        creator: Smart::Custom(Some(concat!("Underlath ", env!("CARGO_PKG_VERSION")).to_owned())),
        standards,
        ..PdfOptions::default()
    };
    if let Ok(pdf) = typst_pdf::pdf(document, &options(both)) {
        return Ok((pdf, true));
    }
    // A firm's own template may leave out what the standards ask for; its pages are made all the same.
    let pdf = typst_pdf::pdf(document, &options(PdfStandards::default())).map_err(|e| said(desk, &e))?;
    Ok((pdf, false))
}

fn failed(reason: &str) -> PacketError {
    PacketError::Pages { reason: reason.to_owned() }
}

fn said(desk: &Desk<'_>, errors: &[SourceDiagnostic]) -> PacketError {
    let one = |e: &SourceDiagnostic| match desk.place(e.span) {
        Some(place) => format!("{place}: {}", e.message),
        None => e.message.to_string(),
    };
    let first: Vec<String> = errors.iter().take(3).map(one).collect();
    failed(&first.join("; "))
}

/// The pictures of a packet's pages by file name, checked once.
pub(super) struct Pictures {
    /// For each photograph its small copy and, where there are marks, their drawing.
    photos: Vec<Vec<(String, Bytes)>>,
    /// For each calculation its drawing.
    drawings: Vec<Option<(String, Bytes)>>,
}

impl Pictures {
    fn of(data: &PagesData) -> Result<Self, PacketError> {
        at_most("the number of photographs on the pages", data.photos.len(), bounds::PICTURES)?;
        let photo = |(n, photo): (usize, &PhotoBlock)| {
            let mut files = Vec::new();
            if let Some(size) = small_jpeg(&photo.thumbnail) {
                files.push((format!("photo-{n}.svg"), framed(&photo.thumbnail, size)));
                let over = photo.marks.as_ref().filter(|svg| is_drawing(svg));
                files
                    .extend(over.map(|svg| (format!("marks-{n}.svg"), Bytes::new(svg.clone().into_bytes()))));
            }
            files
        };
        let drawing = |(n, svg): (usize, Option<&String>)| {
            let svg = svg.filter(|svg| is_drawing(svg))?;
            Some((format!("drawing-{n}.svg"), Bytes::new(svg.clone().into_bytes())))
        };
        Ok(Self {
            photos: data.photos.iter().enumerate().map(photo).collect(),
            drawings: data.calculations.iter().map(|c| c.drawing.as_ref()).enumerate().map(drawing).collect(),
        })
    }

    fn all(&self) -> BTreeMap<String, Bytes> {
        self.photos.iter().flatten().chain(self.drawings.iter().flatten()).cloned().collect()
    }

    fn these(&self, photos: &[usize], calculations: &[usize]) -> BTreeMap<String, Bytes> {
        let photos = photos.iter().filter_map(|n| self.photos.get(*n)).flatten();
        let drawings = calculations.iter().filter_map(|n| self.drawings.get(*n)).flatten();
        photos.chain(drawings).cloned().collect()
    }

    /// File of a calculation's drawing.
    pub(super) fn drawing(&self, n: usize) -> Option<&str> {
        Some(self.drawings.get(n)?.as_ref()?.0.as_str())
    }

    /// Files of a photograph and of its marks.
    pub(super) fn photo(&self, n: usize) -> [Option<&str>; 2] {
        let files = self.photos.get(n).map(Vec::as_slice).unwrap_or_default();
        [0, 1].map(|k| files.get(k).map(|(name, _)| name.as_str()))
    }

    fn photos_json(&self, all: &[PhotoBlock], which: &[usize]) -> Vec<Value> {
        which.iter().filter_map(|n| Some(fill::photo(*n, all.get(*n)?, self.photo(*n)))).collect()
    }
}

/// Puts a drawing among the files under a name and gives the name back, if there is one that the compiler takes.
fn picture(
    files: &mut BTreeMap<String, Bytes>,
    name: &str,
    svg: Option<&str>,
) -> Result<Option<String>, PacketError> {
    let Some(svg) = svg else { return Ok(None) };
    at_most(name, svg.len(), bounds::PICTURE)?;
    if !is_drawing(svg) {
        return Ok(None);
    }
    files.insert(name.to_owned(), Bytes::new(svg.as_bytes().to_vec()));
    Ok(Some(name.to_owned()))
}

/// Width and height in dots of a JPEG that is small enough, if it is one that can be decoded.
fn small_jpeg(bytes: &[u8]) -> Option<(u32, u32)> {
    if bytes.len() > bounds::PICTURE {
        return None;
    }
    let decoded = RasterImage::new(Bytes::new(bytes.to_vec()), ExchangeFormat::Jpg, Smart::Auto);
    let size = decoded.ok().map(|image| (image.width(), image.height()));
    // The compiler would keep it decoded for the next document.
    typst::comemo::evict(0);
    size.filter(|(width, height)| *width.max(height) <= bounds::SIDE)
}

/// A JPEG inside a drawing of its size: what the compiler reads as a drawing goes into the document as it is, while of a
/// photograph it keeps all dots in memory until the document is written, a quarter of a megabyte each.
fn framed(jpeg: &[u8], (width, height): (u32, u32)) -> Bytes {
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\">\
         <image width=\"{width}\" height=\"{height}\" href=\"data:image/jpeg;base64,"
    );
    const END: &str = "\"/></svg>";
    // No more room than it takes: there are hundreds, and all stay until the document is written.
    svg.reserve_exact(jpeg.len().div_ceil(3) * 4 + END.len());
    BASE64_STANDARD.encode_string(jpeg, &mut svg);
    svg.push_str(END);
    Bytes::new(svg.into_bytes())
}

/// Whether the compiler takes a text as SVG.
fn is_drawing(svg: &str) -> bool {
    svg.len() <= bounds::PICTURE && SvgImage::new(Bytes::new(svg.as_bytes().to_vec())).is_ok()
}

/// A tree of plain data; our types have nothing that could not be one.
pub(super) fn tree(data: &impl Serialize) -> Value {
    serde_json::to_value(data).unwrap_or_default()
}
