//! Frozen forecasts.

use store::{ErrorKind, Forecast};
use survey::Digest;

use crate::support::*;

fn forecast(bytes: &[u8]) -> Forecast {
    Forecast::new(Digest::of(b"catalog"), "underlath 0.1.0", 25, stamp(3), bytes.to_vec())
}

#[test]
fn forecasts_are_numbered_and_come_back_as_they_were_put() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    assert_eq!(store.latest_forecast(house(1)).unwrap(), None);
    let one = store.put_forecast(house(1), &forecast(b"{\"one\":1}")).unwrap();
    let two = store.put_forecast(house(1), &forecast(&vec![b'x'; 300_000])).unwrap();
    let again = store.put_forecast(house(1), &forecast(b"{\"one\":1}")).unwrap();
    let other = store.put_forecast(house(2), &forecast(b"{}")).unwrap();
    assert_eq!((one.n, two.n, again.n, other.n), (1, 2, 3, 1));
    assert_eq!(one.digest, Digest::of(b"{\"one\":1}"));
    drop(store);
    let store = open(dir.path(), 1);
    assert_eq!(store.forecasts(house(1)).unwrap(), [one, two, again.clone()]);
    assert_eq!(store.latest_forecast(house(1)).unwrap(), Some(again));
    let report = store.check();
    assert!(report.is_whole() && report.forecasts == 4, "{report:?}");
}

#[test]
fn freezing_the_same_bytes_twice_in_a_row_adds_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    let one = store.put_forecast(house(1), &forecast(b"same")).unwrap();
    let later = Forecast { made_at: stamp(99), ..forecast(b"same") };
    assert_eq!(store.put_forecast(house(1), &later).unwrap(), one);
    assert_eq!(store.forecasts(house(1)).unwrap().len(), 1);
}

#[test]
fn a_forecast_changed_in_the_file_is_named_and_not_handed_out() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = open(dir.path(), 1);
    store.put_forecast(house(1), &forecast(b"P80 is 12,000.00")).unwrap();
    drop(store);
    let conn = rusqlite::Connection::open(database(dir.path())).unwrap();
    conn.execute_batch(
        "DROP TRIGGER forecast_is_never_changed; UPDATE forecast SET bytes = CAST('P80 is 10,000.00' AS BLOB);",
    )
    .unwrap();
    drop(conn);
    let store = open(dir.path(), 1);
    let error = store.latest_forecast(house(1)).unwrap_err();
    assert!(error.kind() == ErrorKind::Damaged && said(&error).contains("Forecast 1"), "{error}");
    let words: Vec<String> = store.check().problems.iter().map(said).collect();
    assert!(words.iter().any(|w| w.contains("forecast_is_never_changed is missing")), "{words:?}");
    assert!(words.iter().any(|w| w.contains("Forecast 1 was changed")), "{words:?}");
}
