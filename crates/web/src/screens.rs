//! The files of the screens.

/// The files of the screens by path; empty where the program was built without them.
#[derive(Clone, Copy, Debug)]
pub struct Screens(&'static [(&'static str, &'static [u8])]);

/// The screens that lay in `ui/dist` when the program was built.
pub const SCREENS: Screens = Screens(include!(concat!(env!("OUT_DIR"), "/screens.rs")));

impl Screens {
    /// Screens of given files: (path, bytes).
    pub const fn of(files: &'static [(&'static str, &'static [u8])]) -> Self {
        Self(files)
    }
    /// True where there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// True where a page is among them.
    pub fn have(&self, page: &str) -> bool {
        self.0.iter().any(|(file, _)| *file == page)
    }
    /// A file and its media type; `/` is the door's page. Pages of other doors are not given.
    pub fn file(&self, path: &str, page: &str) -> Option<(&'static str, &'static [u8])> {
        let name = match path.trim_start_matches('/') {
            "" => page,
            name if name.ends_with(".html") && name != page => return None,
            name => name,
        };
        let (name, bytes) = self.0.iter().find(|(file, _)| *file == name)?;
        Some((media_type(name), bytes))
    }
}

fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "svg" => "image/svg+xml; charset=utf-8",
        "png" => "image/png",
        "woff2" => "font/woff2",
        "json" => "application/json",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_a_file_of_the_screens_or_nothing() {
        let screens =
            Screens::of(&[("index.html", b"page"), ("office.html", b"office"), ("assets/a.js", b"script")]);
        let html = |bytes: &'static [u8]| Some(("text/html; charset=utf-8", bytes));
        assert_eq!(screens.file("/", "index.html"), html(b"page"));
        assert_eq!(screens.file("/index.html", "index.html"), html(b"page"));
        assert_eq!(screens.file("/", "office.html"), html(b"office"));
        assert_eq!(screens.file("/index.html", "office.html"), None);
        let script = Some(("text/javascript; charset=utf-8", &b"script"[..]));
        assert_eq!(screens.file("/assets/a.js", "index.html"), script);
        assert!(screens.have("office.html") && !screens.have("/"));
        for path in ["/assets", "/assets/", "/../index.html", "/assets/../index.html", "/index"] {
            assert_eq!(screens.file(path, "index.html"), None, "{path}");
        }
    }
    #[test]
    fn a_text_is_said_to_be_in_utf_8_and_what_is_not_known_is_bytes() {
        for (name, media) in [
            ("office.html", "text/html; charset=utf-8"),
            ("assets/a.js", "text/javascript; charset=utf-8"),
            ("assets/a.css", "text/css; charset=utf-8"),
            ("a.svg", "image/svg+xml; charset=utf-8"),
            ("licence.txt", "text/plain; charset=utf-8"),
            // JSON is UTF-8 and has no such parameter (RFC 8259, section 11).
            ("a.json", "application/json"),
            ("a.png", "image/png"),
            ("a.woff2", "font/woff2"),
            ("a.xml", "application/octet-stream"),
            ("html", "text/html; charset=utf-8"),
            ("", "application/octet-stream"),
        ] {
            assert_eq!(media_type(name), media, "{name}");
        }
    }
}
