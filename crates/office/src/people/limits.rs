//! How often may be tried: by name, by address, and how many passwords are hashed at once.

use std::collections::HashMap;
use std::net::IpAddr;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use super::{Deed, PeopleError, Role};

/// Wrong passwords after which one must wait.
pub(crate) const FREE: u32 = 5;
/// Wrong passwords that lock an account, but an owner's.
pub(crate) const LOCK: u32 = 10;
const MINUTE_MS: i64 = 60 * 1000;
const LONGEST_MS: i64 = 15 * MINUTE_MS;
/// Attempts from an address within [`WINDOW_MS`].
pub(crate) const FROM_ONE: u32 = 30;
const WINDOW_MS: i64 = 15 * MINUTE_MS;
/// Names and addresses remembered; beyond them the oldest are forgotten.
const MOST: usize = 10_000;
/// What one browser may ask within a minute: screens with hundreds of pictures ask far less (our own choice, no source).
pub(crate) const ASKED: u32 = 3_000;
/// Lines of those turned away that are noted in a minute, of each group (our own choice, no source).
const NOTED: u32 = 30;
/// Passwords that wait to be hashed.
const WAITING: usize = 16;

/// Whether a name may be tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Standing {
    Open,
    Waits,
    Locked,
}

/// The standing of a name after so many wrong passwords, the last one then.
pub(crate) fn standing(role: Role, failures: u32, last: i64, now: i64) -> Standing {
    if failures < FREE {
        return Standing::Open;
    }
    if failures >= LOCK && role != Role::Owner {
        return Standing::Locked;
    }
    let wait = (MINUTE_MS << (failures - FREE).min(8)).min(LONGEST_MS);
    // Either way round, so that a clock that was wrong once locks nobody out for years.
    if (now - last).abs() < wait { Standing::Waits } else { Standing::Open }
}

/// Counts by key, the oldest forgotten first.
struct Counts<K>(HashMap<K, (u32, i64)>);

impl<K> Default for Counts<K> {
    fn default() -> Self {
        Self(HashMap::new())
    }
}

impl<K: std::hash::Hash + Eq + Copy> Counts<K> {
    fn get(&self, key: &K) -> (u32, i64) {
        self.0.get(key).copied().unwrap_or_default()
    }
    fn set(&mut self, key: K, count: u32, at: i64) {
        if self.0.len() >= MOST && !self.0.contains_key(&key) {
            // Half of them at once, so that a flood does not sort at every drop.
            let mut times: Vec<i64> = self.0.values().map(|(_, at)| *at).collect();
            let (_, middle, _) = times.select_nth_unstable(MOST / 2);
            let middle = *middle;
            self.0.retain(|_, (_, at)| *at > middle);
        }
        self.0.insert(key, (count, at));
    }
}

/// Names that nobody here has: they come to be locked like any other, so that a lock does not tell who is here.
#[derive(Default)]
pub(crate) struct Strangers(Counts<[u8; 32]>);

impl Strangers {
    /// Counts an attempt and says how the name stood before it.
    pub(crate) fn attempt(&mut self, name: [u8; 32], now: i64) -> Standing {
        let (failures, last) = self.0.get(&name);
        let standing = standing(Role::Estimator, failures, last, now);
        if standing == Standing::Open {
            self.0.set(name, failures + 1, now);
        }
        standing
    }
}

/// Attempts by address.
#[derive(Default)]
pub(crate) struct Addresses(Counts<u64>);

impl Addresses {
    /// Counts an attempt, or refuses it.
    pub(crate) fn attempt(&mut self, from: IpAddr, now: i64) -> Result<(), PeopleError> {
        let key = network(from);
        let (count, since) = self.0.get(&key);
        if count == 0 || (now - since).abs() >= WINDOW_MS {
            self.0.set(key, 1, now);
        } else if count >= FROM_ONE {
            return Err(PeopleError::TooMany);
        } else {
            self.0.set(key, count + 1, since);
        }
        Ok(())
    }
    /// Takes one back: it was a right one.
    pub(crate) fn right(&mut self, from: IpAddr) {
        let key = network(from);
        let (count, since) = self.0.get(&key);
        self.0.set(key, count.saturating_sub(1), since);
    }
}

/// What is noted, and which of them where they are told apart.
pub(crate) type Kind = (Deed, Option<[u8; 32]>);

/// Which of those who were turned away are noted: one line of a kind from an address in a minute, and so many in all, so
/// that a flood fills neither the log nor the disk.
#[derive(Default)]
pub(crate) struct TurnedAway {
    lines: Counts<(u64, Kind)>,
    /// Faults, refused packets and all others, each by themselves: a flood of one hides no other.
    all: [(u32, i64); 3],
}

impl TurnedAway {
    /// True where one of this kind is noted.
    pub(crate) fn noted(&mut self, what: Kind, from: IpAddr, now: i64) -> bool {
        let key = (network(from), what);
        let (count, at) = self.lines.get(&key);
        if count > 0 && (now - at).abs() < MINUTE_MS {
            return false;
        }
        let group = match what.0 {
            Deed::Fault => 0,
            Deed::PacketRefused => 1,
            _ => 2,
        };
        let (all, since) = self.all[group];
        let fresh = (now - since).abs() >= MINUTE_MS;
        if !fresh && all >= NOTED {
            return false;
        }
        self.all[group] = if fresh { (1, now) } else { (all + 1, since) };
        self.lines.set(key, 1, now);
        true
    }
}

/// How much each browser asked within a minute, by the hash of its session's secret.
#[derive(Default)]
pub(crate) struct Asked(Counts<[u8; 32]>);

impl Asked {
    /// Counts a question; false where it is one too many.
    pub(crate) fn once_more(&mut self, session: [u8; 32], now: i64) -> bool {
        let (count, since) = self.0.get(&session);
        let fresh = count == 0 || (now - since).abs() >= MINUTE_MS;
        if !fresh && count >= ASKED {
            return false;
        }
        let (count, since) = if fresh { (1, now) } else { (count + 1, since) };
        self.0.set(session, count, since);
        true
    }
}

/// An IPv4 address, or the 64 bits of an IPv6 one that a household or office has for itself.
fn network(address: IpAddr) -> u64 {
    match address.to_canonical() {
        IpAddr::V4(v4) => u64::from(v4.to_bits()),
        IpAddr::V6(v6) => (v6.to_bits() >> 64) as u64,
    }
}

/// One password is hashed after the other: each takes 19 MiB and a core.
#[derive(Default)]
pub(crate) struct Hashing {
    turn: Mutex<()>,
    waiting: AtomicUsize,
}

impl Hashing {
    pub(crate) fn alone<T>(&self, hash: impl FnOnce() -> Result<T, argon2::Error>) -> Result<T, PeopleError> {
        struct Place<'a>(&'a AtomicUsize);
        impl Drop for Place<'_> {
            fn drop(&mut self) {
                self.0.fetch_sub(1, Ordering::Relaxed);
            }
        }
        let before = self.waiting.fetch_add(1, Ordering::Relaxed);
        let _place = Place(&self.waiting);
        if before >= WAITING {
            return Err(PeopleError::Busy);
        }
        let _turn = self.turn.lock().unwrap_or_else(PoisonError::into_inner);
        Ok(hash()?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Standing::{Locked, Open, Waits};

    #[test]
    fn a_flood_of_those_turned_away_fills_no_log() {
        let mut away = TurnedAway::default();
        let from = |n: u32| IpAddr::from(std::net::Ipv4Addr::from(0xC633_6400 + n));
        assert!(away.noted((Deed::NotAllowed, None), from(1), 0));
        assert!(!away.noted((Deed::NotAllowed, None), from(1), MINUTE_MS - 1), "once a minute");
        assert!(away.noted((Deed::WrongLink, None), from(1), 0), "another kind is another line");
        assert!(away.noted((Deed::NotAllowed, None), from(1), MINUTE_MS));
        let noted = (0..10_000)
            .filter(|n| away.noted((Deed::RequestRefused, None), from(2 + n), MINUTE_MS + 1))
            .count();
        assert_eq!(noted, NOTED as usize - 1, "with the line before, in this minute");
        assert!(away.noted((Deed::RequestRefused, None), from(20_000), 2 * MINUTE_MS), "and it goes on");
        // Faults are told apart by what failed.
        let fault = |n: u8| (Deed::Fault, Some([n; 32]));
        assert!(away.noted(fault(1), from(1), 9 * MINUTE_MS) && away.noted(fault(2), from(1), 9 * MINUTE_MS));
        assert!(!away.noted(fault(1), from(1), 9 * MINUTE_MS));
        // A clock that is set back by hours does not silence it.
        assert!(away.noted((Deed::NotAllowed, None), from(1), -600 * MINUTE_MS));
    }

    #[test]
    fn five_are_free_then_one_waits_and_the_tenth_locks_but_an_owner() {
        let m = MINUTE_MS;
        for (failures, passed, others, owner) in [
            (0, 0, Open, Open),
            (4, 0, Open, Open),
            (5, 0, Waits, Waits),
            (5, m - 1, Waits, Waits),
            (5, m, Open, Open),
            (6, 2 * m - 1, Waits, Waits),
            (6, 2 * m, Open, Open),
            (9, 15 * m - 1, Waits, Waits),
            (9, 15 * m, Open, Open),
            (10, 15 * m - 1, Locked, Waits),
            (10, 15 * m, Locked, Open),
            (4_000_000_000, 15 * m, Locked, Open),
            // the clock was set back
            (5, -m + 1, Waits, Waits),
            (5, -1_000_000 * m, Open, Open),
        ] {
            for role in Role::ALL {
                let told = standing(role, failures, 7 * m, 7 * m + passed);
                let expected = if role == Role::Owner { owner } else { others };
                assert_eq!(told, expected, "{role:?} after {failures}, {passed} ms");
            }
        }
    }

    #[test]
    fn a_name_nobody_has_stands_like_one_that_somebody_has() {
        let mut strangers = Strangers::default();
        let (mut now, mut told) = (0, Vec::new());
        for _ in 0..14 {
            told.push(strangers.attempt([1; 32], now));
            now += LONGEST_MS;
        }
        assert_eq!(told[..10], [Open; 10]);
        assert_eq!(told[10..], [Locked; 4]);
        let at_once: Vec<_> = (0..7).map(|_| strangers.attempt([2; 32], now)).collect();
        assert_eq!(at_once, [Open, Open, Open, Open, Open, Waits, Waits]);
    }

    #[test]
    fn an_address_has_so_many_attempts_and_then_waits() {
        let mut addresses = Addresses::default();
        let (a, b) = ("192.0.2.1".parse().unwrap(), "192.0.2.2".parse().unwrap());
        for n in 0..FROM_ONE {
            assert!(addresses.attempt(a, i64::from(n)).is_ok());
        }
        assert!(matches!(addresses.attempt(a, 100), Err(PeopleError::TooMany)));
        assert!(addresses.attempt(b, 100).is_ok(), "another address is not concerned");
        addresses.right(a);
        assert!(addresses.attempt(a, 100).is_ok(), "a right password is taken back");
        assert!(addresses.attempt(a, 100).is_err());
        assert!(addresses.attempt(a, WINDOW_MS).is_ok());
        let near: [IpAddr; 2] = ["2001:db8::1".parse().unwrap(), "2001:db8::ffff".parse().unwrap()];
        assert_eq!(network(near[0]), network(near[1]));
        assert_eq!(network("::ffff:192.0.2.1".parse().unwrap()), network(a));
    }

    #[test]
    fn no_flood_fills_the_memory() {
        let mut addresses = Addresses::default();
        for n in 0..3 * MOST as u32 {
            let from = IpAddr::V4(n.into());
            assert!(addresses.attempt(from, i64::from(n)).is_ok());
        }
        assert!(addresses.0.0.len() <= MOST);
        let last = IpAddr::V4((3 * MOST as u32 - 1).into());
        assert_eq!(addresses.0.get(&network(last)).0, 1, "the newest are kept");
    }

    #[test]
    fn those_who_cannot_wait_are_told() {
        let hashing = Hashing::default();
        hashing.waiting.store(WAITING, Ordering::Relaxed);
        assert!(matches!(hashing.alone(|| Ok(())), Err(PeopleError::Busy)));
        hashing.waiting.store(WAITING - 1, Ordering::Relaxed);
        assert!(hashing.alone(|| Ok(())).is_ok());
        assert_eq!(hashing.waiting.load(Ordering::Relaxed), WAITING - 1);
    }
}
