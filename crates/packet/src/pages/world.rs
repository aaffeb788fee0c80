//! All the compiler of the pages can reach: the templates, one JSON text, the pictures of the document, four faces, one
//! date.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{DiagSpan, FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};

/// Our templates; a firm's file of the same name stands in for one.
const TEMPLATES: [(&str, &str); 5] = [
    ("look.typ", include_str!("../../templates/look.typ")),
    (OFFICE, include_str!("../../templates/office.typ")),
    (TRADE, include_str!("../../templates/trade.typ")),
    (HOUSEHOLD, include_str!("../../templates/household.typ")),
    (CHANGE_ORDERS, include_str!("../../templates/change-orders.typ")),
];
pub(super) const OFFICE: &str = "office.typ";
pub(super) const TRADE: &str = "trade.typ";
pub(super) const HOUSEHOLD: &str = "household.typ";
pub(super) const CHANGE_ORDERS: &str = "change-orders.typ";

/// The faces, read once.
static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let files: [&'static [u8]; 4] = [
        include_bytes!("../../fonts/Vollkorn-Regular.ttf"),
        include_bytes!("../../fonts/Vollkorn-SemiBold.ttf"),
        include_bytes!("../../fonts/Vollkorn-Italic.ttf"),
        crate::LETTERING,
    ];
    files.into_iter().filter_map(|bytes| Font::new(Bytes::new(bytes), 0)).collect()
});

/// Whether the book face, to which every text falls back, has a letter in all its weights.
pub(super) fn covered(letter: char) -> bool {
    let mut book = FONTS.iter().take(2);
    book.len() == 2 && book.all(|font| font.info().coverage.contains(u32::from(letter)))
}

/// Templates and standard library, the same for every document of a packet.
pub(super) struct Shelf {
    standard: LazyHash<Library>,
    book: LazyHash<FontBook>,
    sources: Vec<(FileId, Source)>,
    /// Files of the firm's folder that are no templates: its drawings.
    own: Vec<(FileId, Bytes)>,
}

impl Shelf {
    /// Our templates with the firm's in their place. `None` if a name is no path.
    pub(super) fn new(own: &BTreeMap<String, Vec<u8>>) -> Option<Self> {
        let mut texts: BTreeMap<&str, String> =
            TEMPLATES.iter().map(|(name, text)| (*name, (*text).to_owned())).collect();
        let mut others = Vec::new();
        for (name, bytes) in own {
            if name.ends_with(".typ") {
                texts.insert(name, String::from_utf8_lossy(bytes).into_owned());
            } else {
                others.push((id(name)?, Bytes::new(bytes.clone())));
            }
        }
        let sources = texts.into_iter().map(|(name, text)| {
            let id = id(name)?;
            Some((id, Source::new(id, text)))
        });
        Some(Self {
            standard: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(FONTS.iter())),
            sources: sources.collect::<Option<_>>()?,
            own: others,
        })
    }
}

/// The compiler's surroundings for one document.
pub(super) struct Desk<'s> {
    shelf: &'s Shelf,
    main: FileId,
    files: Vec<(FileId, Bytes)>,
}

impl<'s> Desk<'s> {
    /// `main`: which template is set; `files` by name: the JSON text and the pictures. `None` only if a name is no path,
    /// which ours are.
    pub(super) fn new(shelf: &'s Shelf, main: &str, files: BTreeMap<String, Bytes>) -> Option<Self> {
        let files = files.into_iter().map(|(name, bytes)| Some((id(&name)?, bytes)));
        Some(Self { shelf, main: id(main)?, files: files.collect::<Option<_>>()? })
    }

    /// Name and line of a place in a template, as "office.typ, line 12".
    pub(super) fn place(&self, span: DiagSpan) -> Option<String> {
        let at = span.id()?;
        let (_, source) = self.shelf.sources.iter().find(|(known, _)| *known == at)?;
        let line = source.lines().byte_to_line(self.range(span)?.start)? + 1;
        Some(format!("{}, line {line}", at.vpath().get_without_slash()))
    }
}

fn id(name: &str) -> Option<FileId> {
    Some(RootedPath::new(VirtualRoot::Project, VirtualPath::new(name).ok()?).intern())
}

fn absent(id: FileId) -> FileError {
    FileError::NotFound(id.vpath().get_without_slash().into())
}

impl World for Desk<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &self.shelf.standard
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &self.shelf.book
    }
    fn main(&self) -> FileId {
        self.main
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        self.shelf
            .sources
            .iter()
            .find(|(known, _)| *known == id)
            .map(|(_, s)| s.clone())
            .ok_or_else(|| absent(id))
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files
            .iter()
            .chain(&self.shelf.own)
            .find(|(known, _)| *known == id)
            .map(|(_, b)| b.clone())
            .ok_or_else(|| absent(id))
    }
    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None // the only date on the pages is the sealing date, from the data
    }
}
