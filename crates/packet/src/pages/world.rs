//! All the compiler of the pages can reach: two template files, one JSON text, the photographs, four faces, one date.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

const MAIN: &str = "packet.typ";
const LOOK: &str = "look.typ";
const TEMPLATES: [(&str, &str); 2] =
    [(MAIN, include_str!("../../templates/packet.typ")), (LOOK, include_str!("../../templates/look.typ"))];

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

/// The compiler's surroundings for one set of pages.
pub(super) struct Desk {
    standard: LazyHash<Library>,
    book: LazyHash<FontBook>,
    main: FileId,
    sources: Vec<(FileId, Source)>,
    files: Vec<(FileId, Bytes)>,
}

impl Desk {
    /// `files` by name: the JSON text and the photographs. `None` only if a name is no path, which ours are.
    pub(super) fn new(files: BTreeMap<String, Vec<u8>>) -> Option<Self> {
        let sources = TEMPLATES.iter().map(|(name, text)| {
            let id = id(name)?;
            Some((id, Source::new(id, (*text).to_owned())))
        });
        let sources: Vec<_> = sources.collect::<Option<_>>()?;
        let files = files.into_iter().map(|(name, bytes)| Some((id(&name)?, Bytes::new(bytes))));
        Some(Self {
            standard: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(FONTS.iter())),
            main: id(MAIN)?,
            sources,
            files: files.collect::<Option<_>>()?,
        })
    }
}

fn id(name: &str) -> Option<FileId> {
    Some(RootedPath::new(VirtualRoot::Project, VirtualPath::new(name).ok()?).intern())
}

fn absent(id: FileId) -> FileError {
    FileError::NotFound(id.vpath().get_without_slash().into())
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.standard
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }
    fn main(&self) -> FileId {
        self.main
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.iter().find(|(known, _)| *known == id).map(|(_, s)| s.clone()).ok_or_else(|| absent(id))
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.iter().find(|(known, _)| *known == id).map(|(_, b)| b.clone()).ok_or_else(|| absent(id))
    }
    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None // the only date on the pages is the sealing date, from the data
    }
}
