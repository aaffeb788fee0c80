//! The languages.

use std::fmt;

/// A language the program speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Language {
    /// US English.
    #[default]
    En,
    /// Spanish as spoken on North American job sites.
    Es,
    /// Made from English by rule, for tests and for people who edit words: what is not in these letters was never
    /// given to the translators. `qps` is the tag kept free for this.
    Qps,
}

impl Language {
    /// Every language, the pseudo-language last.
    pub const ALL: [Self; 3] = [Self::En, Self::Es, Self::Qps];
    /// The languages with files.
    pub const WRITTEN: [Self; 2] = [Self::En, Self::Es];

    /// The tag, as "en".
    pub const fn tag(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::Es => "es",
            Self::Qps => "qps",
        }
    }
    /// The tag with the region whose numbers and dates are written: the United States for both.
    pub const fn region(self) -> &'static str {
        match self {
            Self::En | Self::Qps => "en-US",
            Self::Es => "es-US",
        }
    }
    /// The folder below `words/` its messages come from.
    pub const fn folder(self) -> &'static str {
        match self {
            Self::En | Self::Qps => "en",
            Self::Es => "es",
        }
    }
    /// The language of a tag such as "es", "es-MX" or "es_MX.UTF-8"; none for one the program does not speak.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let first = tag.split(['-', '_', '.', '@']).next().unwrap_or_default().to_ascii_lowercase();
        Self::ALL.into_iter().find(|l| l.tag() == first)
    }
}

impl fmt::Display for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.tag())
    }
}
