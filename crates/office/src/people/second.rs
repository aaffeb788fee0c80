//! The second factor: codes of six digits that an app on somebody's phone makes from a secret and the time.
//!
//! RFC 6238 with what such apps take for granted: HMAC-SHA-1, 30 seconds, six digits, 160 random bits. Collisions of SHA-1
//! are no matter there (RFC 4226, B.2). A code of the step before or after is taken, as 5.2 of RFC 6238 allows for clocks and
//! slow hands; each is good once. Wrong ones count with wrong passwords, so that six digits cannot be tried out.

use std::collections::HashMap;
use std::net::IpAddr;
use std::sync::PoisonError;

use survey::Stamp;
use totp_rs::{Builder, Totp, TotpError};

use super::limits::LOCK;
use super::sign_in::{Known, begin, right};
use super::{AuditLine, Bits, Deed, People, PeopleError, Person, PersonId, Second, Who, drawn};
use crate::OfficeError;
use crate::repo::alone;

/// How long a secret waits for the code that shows it arrived.
const WITHIN_MS: i64 = 10 * 60 * 1000;
/// Wrong codes after which setting up begins anew.
const TRIES: u32 = 5;
/// Seconds of a step.
const STEP: i64 = 30;

/// Second factors that are being set up: of whom, since when, after how many wrong codes.
pub(super) type Begun = HashMap<PersonId, (Second, i64, u32)>;

/// What somebody brings to their phone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct ToBring {
    /// The secret in base32, to be typed.
    pub(crate) secret: String,
    /// The same as an address that the code on the screen holds.
    pub(crate) link: String,
}

impl People {
    /// Begins a second factor for whoever is signed in: a secret, which counts once a code made from it came back. Whoever
    /// has one already, on another phone, gives a code of that too.
    ///
    /// # Errors
    /// A wrong password or code, which counts like one at the door.
    pub(crate) fn begin_second(
        &self,
        who: &Who,
        (password, code): (&str, Option<&str>),
        (from, now): (IpAddr, Stamp),
        bits: Bits<'_>,
    ) -> Result<ToBring, PeopleError> {
        let known = self.themselves(who, password, from, now)?;
        let shown = self.code(&known, code, from, now)?;
        let (person, firm) = alone(self.repo().as_mut(), |repo| {
            let person = right(repo, &known, shown)?;
            Ok::<_, PeopleError>((person, repo.firm()?))
        })?;
        let second = Second { secret: drawn(bits), last: 0 };
        let codes = codes(second, &person.name, firm.as_deref())?;
        let bring = ToBring { secret: codes.secret().to_base32(), link: codes.to_url().map_err(unmade)? };
        let mut begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner);
        begun.insert(person.id, (second, now.unix_ms(), 0));
        Ok(bring)
    }

    /// Takes the secret over, by a code that was made from it. All their other sessions end; this browser gets a new one.
    ///
    /// # Errors
    /// A wrong code; nothing begun, or too long ago.
    pub(crate) fn confirm_second(
        &self,
        who: &Who,
        code: &str,
        (from, now): (IpAddr, Stamp),
        bits: Bits<'_>,
    ) -> Result<(Who, String), PeopleError> {
        let second = {
            let mut begun = self.begun.lock().unwrap_or_else(PoisonError::into_inner);
            let (second, since, wrong) = begun.get(&who.id).copied().ok_or(PeopleError::NotBegun)?;
            if (now.unix_ms() - since).abs() >= WITHIN_MS || wrong >= TRIES {
                begun.remove(&who.id);
                return Err(PeopleError::NotBegun);
            }
            let Some(last) = step_of(second, code, now)? else {
                begun.insert(who.id, (second, since, wrong + 1));
                self.turn_away(Deed::WrongCode, (Some(who.id), None), from, now);
                return Err(PeopleError::WrongCode);
            };
            begun.remove(&who.id);
            Second { last, ..second }
        };
        alone(self.repo().as_mut(), |repo| {
            let person = repo.person(who.id)?.filter(|p| p.removed.is_none());
            let mut person = person.ok_or(PeopleError::NotSignedIn)?;
            person.second = Some(second);
            repo.change_person(&person)?;
            repo.end_sessions_of(person.id)?;
            let begun = begin(repo, &person, (from, now), bits)?;
            repo.add_audit(&AuditLine::by(person.id, Deed::SecondFactorSet, None, from, now))?;
            Ok(begun)
        })
    }

    /// Gives their second factor up, by password and code.
    ///
    /// # Errors
    /// A wrong password or code; a firm that demands one.
    pub(crate) fn drop_second(
        &self,
        who: &Who,
        (password, code): (&str, &str),
        (from, now): (IpAddr, Stamp),
    ) -> Result<Who, PeopleError> {
        if self.second_demanded()? {
            return Err(PeopleError::SecondDemanded);
        }
        let known = self.themselves(who, password, from, now)?;
        let shown = self.code(&known, Some(code), from, now)?;
        alone(self.repo().as_mut(), |repo| {
            let mut person = right(repo, &known, shown)?;
            person.second = None;
            repo.change_person(&person)?;
            repo.add_audit(&AuditLine::by(person.id, Deed::SecondFactorDropped, None, from, now))?;
            Who::of(repo, person, who.session)
        })
    }

    /// Demands a second factor of everybody. Whoever has none sets one up before anything else.
    ///
    /// # Errors
    /// An owner who has none, and would be shut out with the others.
    pub(crate) fn demand_second(&self, owner: &Who, (from, now): (IpAddr, Stamp)) -> Result<(), PeopleError> {
        if !owner.second {
            return Err(PeopleError::OwnSecondFirst);
        }
        alone(self.repo().as_mut(), |repo| {
            repo.demand_second(true)?;
            repo.add_audit(&AuditLine::by(owner.id, Deed::SecondFactorDemanded, None, from, now))?;
            Ok(())
        })
    }

    /// Demands it no more: by password and code, because a session that somebody left open must not undo what guards
    /// everybody's.
    ///
    /// # Errors
    /// A wrong password or code, which counts like one at the door.
    pub(crate) fn leave_second_free(
        &self,
        owner: &Who,
        (password, code): (&str, Option<&str>),
        (from, now): (IpAddr, Stamp),
    ) -> Result<(), PeopleError> {
        let known = self.themselves(owner, password, from, now)?;
        let shown = self.code(&known, code, from, now)?;
        alone(self.repo().as_mut(), |repo| {
            right(repo, &known, shown)?;
            repo.demand_second(false)?;
            repo.add_audit(&AuditLine::by(owner.id, Deed::SecondFactorLeftFree, None, from, now))?;
            Ok(())
        })
    }

    /// What somebody showed by the code beside a right password: their second factor with the step of the code; none where
    /// they have none.
    ///
    /// # Errors
    /// No code where one is wanted; a wrong or used one, which has counted as an attempt and is noted.
    pub(crate) fn code(
        &self,
        known: &Known,
        code: Option<&str>,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Option<Second>, PeopleError> {
        let person = &known.person;
        let Some(second) = person.second else {
            self.was_right(from);
            return Ok(None);
        };
        let Some(code) = code else {
            // To be asked for the code is no wrong attempt. It is noted all the same: it says that the password is known.
            self.take_back(known, from)?;
            self.turn_away(Deed::CodeAsked, (None, Some(person.name.clone())), from, now);
            return Err(PeopleError::CodeWanted);
        };
        if let Some(last) = step_of(second, code, now)? {
            self.was_right(from);
            return Ok(Some(Second { last, ..second }));
        }
        let line = |what| AuditLine { about: Some(person.name.clone()), ..AuditLine::of(what, from, now) };
        let mut repo = self.repo();
        repo.add_audit(&line(Deed::WrongCode))?;
        if person.failures == LOCK && person.is_locked() {
            repo.add_audit(&line(Deed::Locked))?;
        }
        Err(PeopleError::WrongCode)
    }
}

/// Uses up what somebody showed. Of two who come with the same code the second comes too late, and so does a code of a
/// factor that was replaced meanwhile, or none where one was set up meanwhile.
pub(super) fn use_up(person: &mut Person, shown: Option<Second>) -> Result<(), PeopleError> {
    match (&mut person.second, shown) {
        (None, _) => Ok(()),
        (Some(_), None) => Err(PeopleError::CodeWanted),
        (Some(held), Some(shown)) if held.secret == shown.secret && shown.last > held.last => {
            held.last = shown.last;
            Ok(())
        }
        (Some(_), Some(_)) => Err(PeopleError::WrongCode),
    }
}

/// The step whose code this is, if it is one of now, just before or just after, and was not used.
fn step_of(second: Second, code: &str, now: Stamp) -> Result<Option<i64>, PeopleError> {
    // As it is often typed: in two groups.
    let digits: String = code.chars().filter(|c| !c.is_whitespace()).collect();
    let seconds = u64::try_from(now.unix_ms() / 1000).unwrap_or_default();
    let step = codes(second, "", None)?.check(&digits, seconds);
    Ok(step.and_then(|step| i64::try_from(step).ok()).filter(|step| *step > second.last))
}

/// The codes of a secret. Names stand in what is brought to the phone, and there a colon parts one from the other.
fn codes(second: Second, name: &str, firm: Option<&str>) -> Result<Totp, PeopleError> {
    let issuer = format!("Underlath {}", firm.unwrap_or_default()).replace(':', " ");
    Builder::new()
        .with_secret(second.secret)
        .with_digits(6)
        .with_skew(1)
        .with_step_duration(STEP.unsigned_abs())
        .with_issuer(Some(issuer.trim()))
        .with_account_name(name.replace(':', " "))
        .build()
        .map_err(unmade)
}

fn unmade(e: TotpError) -> PeopleError {
    PeopleError::Office(OfficeError::Codes { what: e.to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 6238, appendix B, for SHA-1: the secret is the ASCII text "12345678901234567890". The table has eight digits; six
    /// are the last six of them (RFC 4226, 5.3).
    const PUBLISHED: [(i64, &str); 6] = [
        (59, "94287082"),
        (1_111_111_109, "07081804"),
        (1_111_111_111, "14050471"),
        (1_234_567_890, "89005924"),
        (2_000_000_000, "69279037"),
        (20_000_000_000, "65353130"),
    ];

    fn at(seconds: i64) -> Stamp {
        Stamp::new(seconds * 1000, 0).unwrap()
    }

    #[test]
    fn what_was_shown_is_good_for_the_factor_it_was_of_and_once() {
        let held = Second { secret: [7; 20], last: 9 };
        let person = |second| Person {
            id: PersonId([1; 16]),
            name: "Rosa Ames".to_owned(),
            folded: "rosa ames".to_owned(),
            role: super::super::Role::Owner,
            since: at(0),
            removed: None,
            password: None,
            failures: 0,
            last_failure: 0,
            first_password: false,
            second,
        };
        let told = |second, shown| {
            let mut person = person(second);
            use_up(&mut person, shown).map(|()| person.second).map_err(|e| format!("{e:?}"))
        };
        let next = Second { last: 10, ..held };
        assert_eq!(told(Some(held), Some(next)), Ok(Some(next)));
        assert_eq!(told(None, None), Ok(None));
        for late in [held, Second { last: 3, ..held }, Second { secret: [8; 20], last: 10 }] {
            assert_eq!(told(Some(held), Some(late)), Err("WrongCode".to_owned()), "{}", late.last);
        }
        // It was set up while a sign-in by the password alone was under way.
        assert_eq!(told(Some(held), None), Err("CodeWanted".to_owned()));
    }

    #[test]
    fn codes_are_those_of_rfc_6238_good_for_a_step_before_and_after_and_once() {
        let second = Second { secret: *b"12345678901234567890", last: 0 };
        for (seconds, published) in PUBLISHED {
            let code = &published[2..];
            let step = seconds / STEP;
            for (later, told) in
                [(0, true), (STEP, true), (-STEP, true), (2 * STEP, false), (-2 * STEP, false)]
            {
                if seconds + later < 0 {
                    continue;
                }
                let found = step_of(second, code, at(seconds + later)).unwrap();
                assert_eq!(found, told.then_some(step), "{published}, {later} s later");
            }
            let spaced = format!(" {} {}", &code[..3], &code[3..]);
            assert_eq!(step_of(second, &spaced, at(seconds)).unwrap(), Some(step));
            for used in [step, step + 1] {
                assert_eq!(step_of(Second { last: used, ..second }, code, at(seconds)).unwrap(), None);
            }
            for wrong in ["", "0", "000000", published, &code[1..], "١٢٣٤٥٦"] {
                assert_eq!(step_of(second, wrong, at(seconds)).unwrap(), None, "{wrong}");
            }
        }
    }

    /// The address is what apps read (the key URI format that they share): its parts, and the secret in the base32 of RFC 4648.
    #[test]
    fn what_is_brought_to_the_phone_holds_the_secret_and_whose_it_is() {
        let second = Second { secret: *b"12345678901234567890", last: 0 };
        let codes = codes(second, "Rosa: Ames", Some("Hale & Daughter")).unwrap();
        assert_eq!(codes.secret().to_base32(), "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ");
        let link = codes.to_url().unwrap();
        assert!(
            link.starts_with("otpauth://totp/Underlath%20Hale%20%26%20Daughter:Rosa%20%20Ames?"),
            "{link}"
        );
        for part in ["secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ", "issuer=Underlath%20Hale%20%26%20Daughter"] {
            assert!(link.contains(part), "{link}");
        }
        assert_eq!(format!("{second:?}"), "Second { last: 0, .. }", "a secret stands in no message");
    }
}
