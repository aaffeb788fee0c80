//! Passwords: which are taken, and how they are kept.
//!
//! Kept with argon2id (RFC 9106), 19 MiB, 2 passes, 1 lane: the OWASP Password Storage Cheat Sheet's setting for it. Lengths:
//! a password may be the only factor, so it has at least 15 letters (NIST SP 800-63B-4, section 3.1.1.2; OWASP ASVS 5.0, 6.2.1
//! asks for 8 and recommends 15), and there is no rule about digits or capitals (6.2.5). Refused is what a guesser would make
//! up for this office: its own names and common words strung together, few letters over and over, runs of the alphabet or of
//! digits (6.2.11); and what was a password elsewhere and became known (6.2.4, 6.2.12): of the million most frequent ones, the
//! 9,747 that are long enough, 9,728 when folded (`scripts/known-passwords.py` says from where and makes the file).

use argon2::{Algorithm, Argon2, Params, Version};
use sha2::{Digest as _, Sha256};
use subtle::ConstantTimeEq as _;

use super::kinds::Kept;
use super::name::fold;

/// Fewest letters.
pub const FEWEST: usize = 15;
/// Most letters: far above the 64 that must be taken, and few enough that hashing them costs nothing.
pub const MOST: usize = 256;
const MEMORY_KIB: u32 = 19_456;
const PASSES: u32 = 2;
const LANES: u32 = 1;
/// Letters that must be left when all that is known of the office is taken out.
const LEFT: usize = 8;
/// Different letters.
const DIFFERENT: usize = 6;

/// Words a guesser begins with, folded; those of the firm and its people come on top.
const COMMON: [&str; 20] = [
    "underlath",
    "office",
    "oficina",
    "password",
    "passwort",
    "contraseña",
    "contrasena",
    "passphrase",
    "welcome",
    "bienvenido",
    "letmein",
    "qwerty",
    "qwertz",
    "asdfgh",
    "zxcvbn",
    "admin",
    "secret",
    "changeme",
    "iloveyou",
    "remodeling",
];

/// Passwords that became known elsewhere: the first 8 bytes of the SHA-256 of each, folded, in order.
static KNOWN: &[u8] = include_bytes!("known_passwords.bin");

/// Why a password is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weak {
    /// Too few letters.
    Short,
    /// Too many.
    Long,
    /// A guesser would come to it soon.
    Guessable,
    /// It became known elsewhere.
    Known,
}

/// Holds a new password against the rules. `about` are names that belong to the office: of the firm and of its people.
pub(crate) fn judge(password: &str, about: &[&str]) -> Result<(), Weak> {
    let letters = password.chars().count();
    if letters < FEWEST {
        return Err(Weak::Short);
    }
    if letters > MOST {
        return Err(Weak::Long);
    }
    let folded: Vec<char> = fold(password).chars().filter(|c| !c.is_whitespace()).collect();
    let mut seen = folded.clone();
    seen.sort_unstable();
    seen.dedup();
    if seen.len() < DIFFERENT || mostly_runs(&folded) || left_without(&folded, about) < LEFT {
        return Err(Weak::Guessable);
    }
    if became_known(&folded) { Err(Weak::Known) } else { Ok(()) }
}

/// True for a password that became known elsewhere, without regard to capitals and spaces.
fn became_known(folded: &[char]) -> bool {
    let hash = Sha256::digest(folded.iter().collect::<String>());
    let (known, _) = KNOWN.as_chunks::<8>();
    known.binary_search_by(|one| one.as_slice().cmp(&hash[..8])).is_ok()
}

/// True where most letters only repeat the one before or follow it: "aaaa", "1234", "dcba".
fn mostly_runs(letters: &[char]) -> bool {
    let steps = letters.windows(2).filter(|pair| (pair[0] as i64 - pair[1] as i64).abs() <= 1).count();
    steps * 3 > letters.len() * 2
}

/// Letters left when known words are taken out, the longest first, so that none hides in another.
fn left_without(letters: &[char], about: &[&str]) -> usize {
    let own = about.iter().flat_map(|text| {
        let folded = fold(text);
        let words: Vec<String> = folded.split(|c: char| !c.is_alphanumeric()).map(str::to_owned).collect();
        words.into_iter().chain([folded.split_whitespace().collect()])
    });
    let mut words: Vec<String> =
        own.chain(COMMON.map(str::to_owned)).filter(|word| word.chars().count() >= 3).collect();
    words.sort_by_key(|word| std::cmp::Reverse(word.len()));
    let mut text: String = letters.iter().collect();
    for word in words {
        text = text.replace(&word, "\n");
    }
    text.chars().filter(|c| *c != '\n').count()
}

/// Keeps a password under a random salt.
///
/// # Errors
/// What argon2 refuses with: memory it does not get.
pub(crate) fn keep(password: &str, salt: [u8; 16]) -> Result<Kept, argon2::Error> {
    keep_with(password, salt, (MEMORY_KIB, PASSES, LANES))
}

/// The same with other memory, passes and lanes than are used today.
pub(super) fn keep_with(
    password: &str,
    salt: [u8; 16],
    (memory_kib, passes, lanes): (u32, u32, u32),
) -> Result<Kept, argon2::Error> {
    let mut kept = Kept { memory_kib, passes, lanes, salt, hash: [0; 32] };
    kept.hash = hashed(password, &kept)?;
    Ok(kept)
}

/// True for one that was kept with less or other than passwords are kept with today.
pub(crate) fn is_dated(kept: &Kept) -> bool {
    (kept.memory_kib, kept.passes, kept.lanes) != (MEMORY_KIB, PASSES, LANES)
}

/// True for the right password; takes as long for a wrong one. Without anybody to hold it against it is worked out all the
/// same, so that the time does not tell whether there is such a person.
pub(crate) fn is_right(password: &str, kept: Option<&Kept>) -> Result<bool, argon2::Error> {
    let nobody = Kept { memory_kib: MEMORY_KIB, passes: PASSES, lanes: LANES, salt: [0; 16], hash: [0; 32] };
    // Letters beyond the most are never hashed: they cannot be right.
    let most = password.char_indices().nth(MOST).map_or(password.len(), |(at, _)| at);
    let against = kept.unwrap_or(&nobody);
    let same: bool = hashed(&password[..most], against)?.ct_eq(&against.hash).into();
    Ok(same && kept.is_some() && most == password.len())
}

fn hashed(password: &str, with: &Kept) -> Result<[u8; 32], argon2::Error> {
    let params = Params::new(with.memory_kib, with.passes, with.lanes, Some(32))?;
    let mut hash = [0; 32];
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params).hash_password_into(
        password.as_bytes(),
        &with.salt,
        &mut hash,
    )?;
    Ok(hash)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_passwords_are_taken_and_what_a_guesser_would_make_up_is_not() {
        let about = ["Hale & Daughter", "Rosa Ames"];
        for (password, told) in [
            ("correct horse battery", Ok(())),
            ("tres tejas rotas y un gato", Ok(())),
            ("Kx9#mQ2$vL7!pR4", Ok(())),
            (&"drain vent trap arm ".repeat(12), Ok(())),
            ("", Err(Weak::Short)),
            ("fourteen lette", Err(Weak::Short)),
            (&"drain vent trap arm ".repeat(13), Err(Weak::Long)),
            ("aaaaaaaaaaaaaaaaaaaa", Err(Weak::Guessable)),
            ("ababababababababab", Err(Weak::Guessable)),
            ("123456789012345678", Err(Weak::Guessable)),
            ("abcdefghijklmnopqrst", Err(Weak::Guessable)),
            ("hale and daughter 2026", Err(Weak::Guessable)),
            ("HaleDaughterRosaAmes", Err(Weak::Guessable)),
            ("Password2026!Office", Err(Weak::Guessable)),
            ("Underlath!Underlath!", Err(Weak::Guessable)),
            ("rosa ames the best of all", Ok(())),
            ("1qaz2wsx3edc4rfv", Err(Weak::Known)),
            ("Q1W2 E3R4 T5Y6 U7I8", Err(Weak::Known)),
            ("zQjphsyf6ctifgu", Err(Weak::Known)),
            ("1qaz2wsx3edc4rfw", Ok(())),
        ] {
            assert_eq!(judge(password, &about), told, "{password}");
        }
    }

    /// The list is there whole: at least the 3,000 that ASVS 5.0, 6.2.4 asks for, in the order the search takes for granted.
    #[test]
    fn more_than_three_thousand_passwords_that_became_known_are_refused() {
        let (known, rest) = KNOWN.as_chunks::<8>();
        assert!(rest.is_empty() && known.is_sorted());
        assert!(known.len() > 9_000, "{}", known.len());
        let mut folded: Vec<&[u8; 8]> = known.iter().collect();
        folded.dedup();
        assert_eq!(folded.len(), known.len(), "each stands there once");
    }

    #[test]
    fn a_password_is_known_again_and_no_other() {
        let kept = keep("correct horse battery", [7; 16]).unwrap();
        assert_eq!((kept.memory_kib, kept.passes, kept.lanes), (19_456, 2, 1));
        assert_ne!(kept.hash, keep("correct horse battery", [8; 16]).unwrap().hash, "the salt counts");
        for (given, right) in [
            ("correct horse battery", true),
            ("correct horse batter", false),
            ("correct horse battery ", false),
            ("Correct horse battery", false),
            ("", false),
        ] {
            assert_eq!(is_right(given, Some(&kept)).unwrap(), right, "{given}");
        }
        assert!(!is_right("correct horse battery", None).unwrap());
        let long = "x".repeat(MOST);
        let kept = keep(&long, [7; 16]).unwrap();
        assert!(is_right(&long, Some(&kept)).unwrap());
        assert!(
            !is_right(&format!("{long}y"), Some(&kept)).unwrap(),
            "what is cut off does not count as right"
        );
    }

    /// The reference library's Python binding (argon2-cffi 25.1.0, bindings 26.2.0):
    /// `argon2.low_level.hash_secret_raw(b"correct horse battery", b"\x07"*16, 2, 19456, 1, 32, Type.ID, 19).hex()`.
    #[test]
    fn the_hash_is_the_one_of_the_reference_library() {
        let kept = keep("correct horse battery", [7; 16]).unwrap();
        let hex: String = kept.hash.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hex, "58b44651ad77fc1dcc5f39c5b1edf71487783bef836982faba561430486946a1");
    }
}
