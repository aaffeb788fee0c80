//! Two who have the records open at once: what one sees of the other, and that nothing comes between.

use std::sync::mpsc::{RecvTimeoutError, channel};
use std::thread;
use std::time::Duration;

use office::OfficeError;
use office::repo::Repo;

use super::arrivals::{finding, house, packet, places};
use super::keys::version;
use super::{Place, each};

/// Adds something and gives back its place.
type Adds = dyn Fn(&mut dyn Repo) -> Result<u64, OfficeError> + Sync;

#[test]
fn whoever_opens_beside_a_writer_sees_nothing_of_it_until_it_is_kept_and_then_all() {
    each(|adapter, place| {
        let (mut writer, beside) = (place.open(), place.open());
        writer.begin().unwrap();
        writer.add_packet(&packet(1, 1, 1), b"forecast").unwrap();
        writer.add_finding(house(1), &finding("first")).unwrap();
        writer.add_register("[1]").unwrap();
        writer.add_published(1, &version("one")).unwrap();
        let sees = |repo: &dyn Repo| {
            let forecast = repo.forecast(packet(1, 1, 1).digest).unwrap().is_some();
            let keys = [repo.register().unwrap().is_some(), repo.published().unwrap().is_some()];
            (places(repo, &[1]), repo.demolition_began(house(1)).unwrap(), forecast, keys)
        };
        let (nothing, all) = ((vec![], None, false, [false; 2]), (vec![1, 2], Some(2), true, [true; 2]));
        assert_eq!(sees(writer.as_ref()), all, "{adapter}");
        assert_eq!(sees(beside.as_ref()), nothing, "{adapter}");
        assert_eq!(sees(place.open().as_ref()), nothing, "{adapter}: opened meanwhile");
        writer.commit().unwrap();
        assert_eq!(sees(beside.as_ref()), all, "{adapter}");
        assert_eq!(sees(place.open().as_ref()), all, "{adapter}");
    });
}

#[test]
fn while_one_writes_another_waits_or_is_refused() {
    let begins = |repo: &mut dyn Repo| repo.begin().and_then(|()| repo.add_packet(&packet(2, 1, 1), b""));
    let at_once = |repo: &mut dyn Repo| repo.add_packet(&packet(3, 1, 1), b"");
    let ways: [&Adds; 2] = [&begins, &at_once];
    each(|adapter, place| {
        for (number, way) in (1..).zip(ways) {
            let mut first = place.open();
            first.begin().unwrap();
            let own = first.add_packet(&packet(1, 1, number), b"").unwrap();
            let (tell, told) = channel();
            thread::scope(|scope| {
                scope.spawn(move || {
                    let mut second = place.open();
                    tell.send(None).unwrap();
                    tell.send(Some(way(second.as_mut()))).unwrap();
                    let _ = second.commit(); // there is nothing to keep where it was refused or kept at once
                });
                assert!(told.recv().unwrap().is_none(), "{adapter}");
                let meanwhile = told.recv_timeout(Duration::from_millis(300));
                assert!(
                    matches!(meanwhile, Err(RecvTimeoutError::Timeout) | Ok(Some(Err(_)))),
                    "{adapter}: {meanwhile:?}"
                );
                first.commit().unwrap();
                if meanwhile.is_err()
                    && let Some(Ok(place)) = told.recv().unwrap()
                {
                    assert_eq!(place, own + 1, "{adapter}: after what it waited for");
                }
            });
            let given = places(place.open().as_ref(), &[]);
            assert_eq!(given, (1..=given.len() as u64).collect::<Vec<_>>(), "{adapter}");
            assert!(given.len() as u64 >= own, "{adapter}");
        }
    });
}

/// Tries until it is not refused.
fn until<T>(mut act: impl FnMut() -> Result<T, OfficeError>) -> T {
    let mut last = None;
    for _ in 0..10_000 {
        match act() {
            Ok(done) => return done,
            Err(refused) => last = Some(refused),
        }
    }
    panic!("{last:?}");
}

/// Fifty of one house, packets and findings in turn.
fn fifty(place: &Place, of: u8, whole: bool) {
    let mut repo = place.open();
    for number in 1..=25 {
        until(|| {
            if whole {
                repo.begin()?;
            }
            let done = repo.add_packet(&packet(of, 1, number), &[of; 4096]);
            if whole {
                repo.commit()?;
            }
            done
        });
        until(|| {
            if whole {
                repo.begin()?;
            }
            let done = repo.add_finding(house(of), &finding("one of many"));
            if whole {
                repo.commit()?;
            }
            done
        });
    }
}

#[test]
fn two_who_add_at_once_are_never_given_one_place() {
    each(|adapter, place| {
        for (houses, whole) in [([1, 2], true), ([3, 4], false)] {
            thread::scope(|scope| {
                for of in houses {
                    scope.spawn(move || fifty(place, of, whole));
                }
            });
            let repo = place.open();
            for of in houses {
                let numbers: Vec<u32> =
                    repo.packets_of(house(of)).unwrap().iter().map(|p| p.number).collect();
                assert_eq!(numbers, (1..=25).collect::<Vec<_>>(), "{adapter}");
                let findings: Vec<u64> = repo.findings(house(of)).unwrap().iter().map(|f| f.n).collect();
                assert_eq!(findings, (1..=25).collect::<Vec<_>>(), "{adapter}");
            }
        }
        let repo = place.open();
        assert_eq!(places(repo.as_ref(), &[1, 2, 3, 4]), (1..=200).collect::<Vec<_>>(), "{adapter}");
        repo.check().unwrap();
    });
}
