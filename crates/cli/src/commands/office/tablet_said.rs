//! How a refusal about tablets is said.

use actions::{Error, Kind};
use office::arriving::{ArrivingError, MOST_OF_ONE};
use office::tablets::TabletError;
use server::Refusal;
use words::{Message, Words, msg};

use super::people_said::told;
use crate::fail;

/// A refusal whose kind is one of the door's own, or an error like any other.
pub enum Said {
    Door(&'static str, Message, Option<Message>),
    Error(Error),
}

impl Said {
    pub fn say(&self, words: &Words) -> Refusal {
        match self {
            Self::Door(kind, message, hint) => {
                Refusal { kind, message: words.say(message), hint: hint.as_ref().map(|hint| words.say(hint)) }
            }
            Self::Error(e) => told(e, words),
        }
    }
}

/// A refusal about tablets.
pub fn tablet_error(e: TabletError) -> Said {
    use TabletError as T;
    match e {
        T::NotPaired => Said::Door("signed-out", msg!("tablet-not-paired"), Some(msg!("tablet-pair-hint"))),
        T::Revoked { name, since } => Said::Door(
            "signed-out",
            msg!("tablet-revoked", name = name, since = since.minute_text()),
            Some(msg!("tablet-pair-hint")),
        ),
        T::WrongCode => Said::Door("input", msg!("tablet-code"), Some(msg!("tablet-code-hint"))),
        T::TooMany => Said::Door("too-many", msg!("people-too-many"), Some(msg!("people-wait-hint"))),
        T::Name => Said::Door("input", msg!("tablet-name"), None),
        T::NoSuchTablet => Said::Door("missing", msg!("tablet-none"), None),
        T::People(e) => Said::Error(super::people_said::error(*e)),
        T::Office(e) => Said::Error(fail::office_at_door(e)),
    }
}

/// An error of what comes in pieces.
pub fn arriving_error(e: ArrivingError) -> Error {
    use ArrivingError as A;
    match e {
        A::NotBegun => Error::new(Kind::Missing, msg!("arriving-not-begun")).hint(msg!("office-again")),
        A::NotInRecipe => Error::new(Kind::Input, msg!("arriving-foreign")).hint(msg!("office-again")),
        // Told by their numbers; in words only should a program take them for words.
        A::NotNext { .. } | A::Missing(_) => {
            Error::new(Kind::Conflict, msg!("arriving-not-whole")).hint(msg!("office-again"))
        }
        A::Another => Error::new(Kind::Damaged, msg!("arriving-another")).hint(msg!("office-again")),
        A::TooMany => Error::new(Kind::Conflict, msg!("arriving-too-many", most = MOST_OF_ONE as u64))
            .hint(msg!("arriving-too-many-hint")),
        A::Full => Error::new(Kind::Internal, msg!("office-full")).hint(msg!("office-full-hint")),
        A::File { path, what } => {
            Error::new(Kind::Internal, msg!("error-file", path = path.display().to_string(), said = what))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::Language;

    #[test]
    fn every_refusal_is_said_in_both_languages_with_no_place_left_open() {
        let since = || "2026-04-14T09:30:00-05:00".parse().unwrap();
        let tablets = || {
            [
                TabletError::NotPaired,
                TabletError::Revoked { name: "Tablet 3".to_owned(), since: since() },
                TabletError::WrongCode,
                TabletError::TooMany,
                TabletError::Name,
                TabletError::NoSuchTablet,
            ]
        };
        let arriving = || {
            [
                ArrivingError::NotBegun,
                ArrivingError::NotInRecipe,
                ArrivingError::NotNext { have: 3 },
                ArrivingError::Another,
                ArrivingError::TooMany,
                ArrivingError::Full,
            ]
        };
        let say = |language| {
            let words = Words::of(language);
            let tablets = tablets().map(|e| tablet_error(e).say(words));
            let arriving = arriving().map(|e| told(&arriving_error(e), words));
            tablets.into_iter().chain(arriving).collect::<Vec<_>>()
        };
        for (english, spanish) in say(Language::En).iter().zip(say(Language::Es).iter()) {
            assert_ne!(english.message, spanish.message);
            for text in [&english.message, &spanish.message] {
                assert!(!text.contains("{$") && !text.is_empty(), "{text}");
            }
            assert_eq!((english.kind, english.hint.is_some()), (spanish.kind, spanish.hint.is_some()));
        }
    }
}
