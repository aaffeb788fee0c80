//! How a refusal about people is said.

use actions::{Error, Kind};
use office::people::{FEWEST_LETTERS, MOST_LETTERS, PeopleError, Role, Weak};
use server::Refusal;
use words::{Message, Words, msg};

use crate::fail;

/// A refusal in words.
pub fn said(e: PeopleError, words: &Words) -> Refusal {
    match kind_and_words(e) {
        Ok((kind, message, hint)) => {
            Refusal { kind, message: words.say(&message), hint: hint.map(|hint| words.say(&hint)) }
        }
        Err(e) => told(&e, words),
    }
}

/// An error of the command line.
pub fn error(e: PeopleError) -> Error {
    match kind_and_words(e) {
        Ok((kind, message, hint)) => {
            let kind = match kind {
                "missing" => Kind::Missing,
                "conflict" => Kind::Conflict,
                "internal" => Kind::Internal,
                _ => Kind::Input,
            };
            let error = Error::new(kind, message);
            if let Some(hint) = hint { error.hint(hint) } else { error }
        }
        Err(e) => e,
    }
}

/// What kind it is and how it is said; an error of the office's records is said as elsewhere.
fn kind_and_words(e: PeopleError) -> Result<(&'static str, Message, Option<Message>), Error> {
    use PeopleError as P;
    Ok(match e {
        P::NotSignedIn => ("signed-out", msg!("people-signed-out"), None),
        P::NotAllowed { role, least } => {
            ("role", msg!("people-role", role = role_said(role), least = role_said(least)), None)
        }
        P::FirstPassword => ("role", msg!("people-first-password"), None),
        P::SecondFirst => ("role", msg!("people-second-first"), None),
        P::SecondDemanded => ("conflict", msg!("people-second-demanded"), None),
        P::CodeWanted => ("code", msg!("people-code-wanted"), None),
        P::WrongCode => ("code", msg!("people-wrong-code"), Some(msg!("people-wrong-code-hint"))),
        P::NotBegun => ("conflict", msg!("people-not-begun"), Some(msg!("people-not-begun-hint"))),
        P::OwnSecond => ("conflict", msg!("people-own-second"), None),
        P::OwnSecondFirst => ("conflict", msg!("people-own-second-first"), None),
        P::TooQuick(_) => ("too-many", msg!("people-too-quick"), Some(msg!("people-too-quick-hint"))),
        P::WrongNameOrPassword => ("input", msg!("people-wrong"), Some(msg!("people-wrong-hint"))),
        P::Locked => ("conflict", msg!("people-locked"), Some(msg!("people-locked-hint"))),
        P::TooMany => ("too-many", msg!("people-too-many"), Some(msg!("people-wait-hint"))),
        P::Busy => ("too-many", msg!("people-busy"), Some(msg!("people-busy-hint"))),
        P::WrongLink => ("input", msg!("people-link"), Some(msg!("people-link-hint"))),
        P::Name => ("input", msg!("people-name"), None),
        P::Firm => ("input", msg!("error-office-no-firm"), None),
        P::NameTaken { name } => ("conflict", msg!("people-name-taken", name = name), None),
        P::Weak(weak) => {
            let message = match weak {
                Weak::Short => msg!("people-short", n = FEWEST_LETTERS),
                Weak::Long => msg!("people-long", n = MOST_LETTERS),
                Weak::Guessable => msg!("people-guessable"),
                Weak::Known => msg!("people-became-known"),
            };
            ("input", message, Some(msg!("people-weak-hint")))
        }
        P::WrongOldPassword => ("input", msg!("people-wrong-old"), None),
        P::NoSuchPerson => ("missing", msg!("people-nobody"), None),
        P::LastOwner => ("conflict", msg!("people-last-owner"), Some(msg!("people-last-owner-hint"))),
        P::NoSuchCommand(name) => ("missing", msg!("people-no-command", name = name), None),
        P::Arguments { command, what } => {
            ("input", msg!("people-arguments", command = command, what = what), None)
        }
        P::Hashing(what) => ("internal", msg!("error-internal", said = what), None),
        P::Office(e) => return Err(fail::office(e)),
    })
}

/// A refusal as it leaves the office. What failed inside it goes without its reason, which holds paths and words of the
/// system: that is given to `note`. A packet or photograph that came damaged is no fault of the office.
pub fn outward(refusal: Refusal, came: bool, words: &Words, note: impl FnOnce(&str)) -> Refusal {
    if refusal.kind != "internal" && (refusal.kind != "damaged" || came) {
        return refusal;
    }
    note(&refusal.message);
    let hint = Some(words.say(&msg!("office-fault-hint")));
    Refusal { kind: refusal.kind, message: words.say(&msg!("office-fault")), hint }
}

/// A refusal of anything else.
pub fn told(e: &Error, words: &Words) -> Refusal {
    Refusal { kind: e.kind_word(), message: e.say(words), hint: e.say_hint(words) }
}

fn role_said(role: Role) -> Message {
    match role {
        Role::Estimator => msg!("people-role-estimator"),
        Role::Office => msg!("people-role-office"),
        Role::Reviewer => msg!("people-role-reviewer"),
        Role::Owner => msg!("people-role-owner"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::Language;

    #[test]
    fn what_failed_inside_goes_out_without_its_reason_and_is_noted_with_it() {
        let words = Words::of(Language::En);
        let refusal = |kind| Refusal {
            kind,
            message: "/srv/office/office.sqlite: the disk image is malformed".to_owned(),
            hint: Some("look at /srv/office".to_owned()),
        };
        for (kind, came, told) in [
            ("internal", false, false),
            ("internal", true, false),
            ("damaged", false, false),
            ("damaged", true, true),
            ("input", false, true),
            ("conflict", false, true),
        ] {
            let mut noted = None;
            let out = outward(refusal(kind), came, words, |why| noted = Some(why.to_owned()));
            if told {
                assert_eq!((out, noted), (refusal(kind), None), "{kind}");
            } else {
                assert_eq!(noted, Some(refusal(kind).message), "{kind}");
                let all = out.body();
                assert!(!all.contains("/srv") && !all.contains("malformed") && out.kind == kind, "{all}");
            }
        }
    }

    #[test]
    fn every_refusal_is_said_in_both_languages_with_no_place_left_open() {
        let all = || {
            [
                PeopleError::NotSignedIn,
                PeopleError::NotAllowed { role: Role::Office, least: Role::Owner },
                PeopleError::FirstPassword,
                PeopleError::SecondFirst,
                PeopleError::SecondDemanded,
                PeopleError::CodeWanted,
                PeopleError::WrongCode,
                PeopleError::NotBegun,
                PeopleError::OwnSecond,
                PeopleError::OwnSecondFirst,
                PeopleError::TooQuick(office::people::PersonId([1; 16])),
                PeopleError::Weak(Weak::Known),
                PeopleError::WrongNameOrPassword,
                PeopleError::Locked,
                PeopleError::TooMany,
                PeopleError::Busy,
                PeopleError::WrongLink,
                PeopleError::Name,
                PeopleError::Firm,
                PeopleError::NameTaken { name: "Rosa Ames".to_owned() },
                PeopleError::Weak(Weak::Short),
                PeopleError::Weak(Weak::Long),
                PeopleError::Weak(Weak::Guessable),
                PeopleError::WrongOldPassword,
                PeopleError::NoSuchPerson,
                PeopleError::LastOwner,
                PeopleError::NoSuchCommand("fly".to_owned()),
                PeopleError::Arguments { command: "set-role".to_owned(), what: "a fault".to_owned() },
                PeopleError::Hashing("no memory".to_owned()),
            ]
        };
        let say = |language| all().map(|e| said(e, Words::of(language)));
        for (english, spanish) in say(Language::En).iter().zip(say(Language::Es).iter()) {
            assert_ne!(english.message, spanish.message);
            for text in [&english.message, &spanish.message] {
                assert!(!text.contains("{$") && !text.is_empty(), "{text}");
            }
            assert_eq!((english.kind, english.hint.is_some()), (spanish.kind, spanish.hint.is_some()));
        }
    }
}
