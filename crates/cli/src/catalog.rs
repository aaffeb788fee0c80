//! What a firm writes beside its catalog and its overlay in its own words.

use std::path::Path;
use std::sync::OnceLock;

use actions::{Error, Kind};
use words::{FileFault, Language, Words, msg};

/// The words of a language with those the firm wrote into `words/<language>/*.ftl` of its folders, later ones over
/// earlier ones; `published` are the (file, text) pairs of a catalog that an office published.
pub fn own_words(
    folders: &[&Path],
    published: Vec<(String, String)>,
    language: Language,
) -> Result<&'static Words, Error> {
    static OWN: OnceLock<Words> = OnceLock::new();
    let mut texts = published;
    for folder in folders {
        let own = actions::word_files(folder, language)?;
        texts.extend(own.into_iter().map(|(path, text)| (path.display().to_string(), text)));
    }
    if texts.is_empty() {
        return Ok(Words::of(language));
    }
    let words = Words::with_own(language, &texts).map_err(|faults| match faults.first() {
        Some(FileFault { file, line, text }) => {
            let message = msg!("error-own-words", file = file, line = *line, text = text);
            Error::new(Kind::Input, message).hint(msg!("error-own-words-hint"))
        }
        None => Error::new(Kind::Internal, msg!("error-own-words-hint")),
    })?;
    Ok(OWN.get_or_init(|| words))
}
