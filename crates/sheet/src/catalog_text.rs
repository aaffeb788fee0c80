//! What the catalog says, in a language: the one place through which every catalog text reaches the page.

use std::borrow::Cow;

use words::Words;

use crate::phrases::Language;

/// A catalog text as it is said, and the language it is said in, which a page must declare where it differs.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Said<'a> {
    /// The words.
    pub text: Cow<'a, str>,
    /// Their language.
    pub language: Language,
}

/// A text of the catalog by its id: `item-<item>-question`, `item-<item>-why`, `item-<item>-option-<option>`
/// (`option-yes` and `option-no` where they are just that), `outage-<outage>-task`, `outage-<outage>-help`,
/// `scope-<words joined by hyphens>`, `rule-<rule>`, `wish-<wish>`, `wish-<wish>-later`, `item-<item>-zero`.
///
/// What has no translation, or was changed by the firm since, is said in the catalog's English.
pub fn catalog_text<'a>(language: Language, id: &str, english: &'a str) -> Said<'a> {
    let translated = match language {
        Language::En => None,
        Language::Es => Words::of(words::Language::Es).translated(id, english),
    };
    match translated {
        Some(text) => Said { text: Cow::Owned(text), language },
        None => Said { text: Cow::Borrowed(english), language: Language::En },
    }
}

pub(crate) use words::catalog::{option as option_id, slug};
