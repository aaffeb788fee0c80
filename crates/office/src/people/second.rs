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

use super::sign_in::{begin, right};
use super::{AuditLine, Bits, Deed, People, PeopleError, Person, PersonId, Second, Who, drawn};
use crate::OfficeError;
use crate::repo::{Repo, alone};

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
    /// Begins a second factor for whoever is signed in: a secret, which counts once a code made from it came back.
    ///
    /// # Errors
    /// A wrong password, which counts like one at the door.
    pub(crate) fn begin_second(
        &self,
        who: &Who,
        password: &str,
        (from, now): (IpAddr, Stamp),
        bits: Bits<'_>,
    ) -> Result<ToBring, PeopleError> {
        let person = self.themselves(who, password, from, now)?;
        let firm = alone(self.repo().as_mut(), |repo| {
            right(repo, &person)?;
            Ok::<_, PeopleError>(repo.firm()?)
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
        if self.repo().second_demanded()? {
            return Err(PeopleError::SecondDemanded);
        }
        let person = self.themselves(who, password, from, now)?;
        let step = self.code(&person, Some(code), from, now)?;
        alone(self.repo().as_mut(), |repo| {
            let person = right(repo, &person)?;
            let mut person = used(repo, person, step)?;
            person.second = None;
            repo.change_person(&person)?;
            repo.add_audit(&AuditLine::by(person.id, Deed::SecondFactorDropped, None, from, now))?;
            Who::of(repo, person, who.session)
        })
    }

    /// Demands a second factor of everybody, or no more. Whoever has none sets one up before anything else.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub(crate) fn demand_second(
        &self,
        owner: &Who,
        demanded: bool,
        (from, now): (IpAddr, Stamp),
    ) -> Result<(), PeopleError> {
        let what = if demanded { Deed::SecondFactorDemanded } else { Deed::SecondFactorLeftFree };
        alone(self.repo().as_mut(), |repo| {
            repo.demand_second(demanded)?;
            repo.add_audit(&AuditLine::by(owner.id, what, None, from, now))?;
            Ok(())
        })
    }

    /// The step of the code that somebody gave beside a right password; none where they have no second factor.
    ///
    /// # Errors
    /// No code where one is wanted; a wrong or used one, which has counted as an attempt and is noted.
    pub(crate) fn code(
        &self,
        person: &Person,
        code: Option<&str>,
        from: IpAddr,
        now: Stamp,
    ) -> Result<Option<i64>, PeopleError> {
        let Some(second) = person.second else { return Ok(None) };
        let Some(code) = code else {
            // To be asked for the code is no wrong attempt: the one that was counted is taken back.
            alone(self.repo().as_mut(), |repo| {
                if let Some(mut person) = repo.person(person.id)?.filter(|p| p.removed.is_none()) {
                    person.failures = person.failures.saturating_sub(1);
                    repo.change_person(&person)?;
                }
                Ok::<_, PeopleError>(())
            })?;
            return Err(PeopleError::CodeWanted);
        };
        if let Some(step) = step_of(second, code, now)? {
            return Ok(Some(step));
        }
        let line =
            AuditLine { about: Some(person.name.clone()), ..AuditLine::of(Deed::WrongCode, from, now) };
        self.repo().add_audit(&line)?;
        Err(PeopleError::WrongCode)
    }
}

/// Uses the code of a step up: of two who come with the same one, the second comes too late.
pub(super) fn used(
    repo: &mut dyn Repo,
    mut person: Person,
    step: Option<i64>,
) -> Result<Person, PeopleError> {
    if let (Some(second), Some(step)) = (&mut person.second, step) {
        if step <= second.last {
            return Err(PeopleError::WrongCode);
        }
        second.last = step;
        repo.change_person(&person)?;
    }
    Ok(person)
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
