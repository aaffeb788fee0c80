//! Two tablets in one house, by the command line: each takes in the other's packet, photographs included.

use std::path::Path;

use crate::support::{run, sample_photo};

const HOUSE: &str = "Mill Lane kitchen";

fn seal(dir: &Path) -> String {
    let sealed: serde_json::Value =
        serde_json::from_str(&run(dir, &["seal", HOUSE, "--into", ".", "--json"])).unwrap();
    dir.join(sealed["packet"].as_str().unwrap()).to_str().unwrap().to_owned()
}

#[test]
fn two_tablets_take_in_each_others_packets_and_show_where_they_disagree() {
    let (tablet, phone) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let photo = sample_photo();
    run(tablet.path(), &["new", HOUSE]);
    run(tablet.path(), &["record", HOUSE, "planned-work", "deep-sink"]);
    run(tablet.path(), &["record", HOUSE, "stub-height", "91", "--sure", "--photo", photo.to_str().unwrap()]);
    let said = run(phone.path(), &["merge", &seal(tablet.path())]);
    assert!(said.starts_with("5 entries taken in"), "{said}");

    run(tablet.path(), &["record", HOUSE, "stub-height", "19"]);
    run(phone.path(), &["record", HOUSE, "stub-height", "20"]);
    run(tablet.path(), &["merge", &seal(phone.path())]);
    let shown = run(tablet.path(), &["show", HOUSE]);
    let row = shown.lines().find(|l| l.contains("stub-height")).unwrap();
    assert!(row.contains('≠') && row.contains("19\"") && row.contains("20\""), "{row}");
    assert!(run(tablet.path(), &["check"]).contains("as they were recorded"));

    // Taken in once more, nothing changes; settled by one answer, nothing disagrees.
    let again = run(tablet.path(), &["merge", &seal(phone.path())]);
    assert!(again.contains("were here already"), "{again}");
    run(tablet.path(), &["record", HOUSE, "stub-height", "19", "--reason", "measured together"]);
    assert!(!run(tablet.path(), &["show", HOUSE]).contains('≠'));
}

#[test]
fn a_correction_keeps_the_photograph_and_a_second_check_keeps_the_first() {
    let dir = tempfile::tempdir().unwrap();
    let photo = sample_photo();
    run(dir.path(), &["new", HOUSE]);
    run(dir.path(), &["record", HOUSE, "planned-work", "remove-bulkhead", "deep-sink"]);
    run(dir.path(), &["record", HOUSE, "stub-height", "91", "--sure", "--photo", photo.to_str().unwrap()]);
    run(dir.path(), &["record", HOUSE, "stub-height", "19"]);
    run(dir.path(), &["record", HOUSE, "check-result", "live-scan shows-it bulkhead-wires"]);
    run(dir.path(), &["record", HOUSE, "check-result", "damp-pin shows-it sink-base-rot"]);
    let shown = run(dir.path(), &["show", HOUSE]);
    let row =
        |item: &str| shown.lines().find(|l| l.contains(item)).unwrap_or_else(|| panic!("{item}: {shown}"));
    assert!(row("stub-height").contains("[1 photo]"), "{}", row("stub-height"));
    assert!(row("check-result").contains("Cables in the soffit"), "{}", row("check-result"));
    assert!(row("check-result").contains("Rot in sink cabinet"), "{}", row("check-result"));
}

#[test]
fn a_remark_is_shown_with_the_house() {
    let dir = tempfile::tempdir().unwrap();
    run(dir.path(), &["new", HOUSE]);
    run(dir.path(), &["note", HOUSE, "dog in the yard", "--item", "pets-kept"]);
    assert!(run(dir.path(), &["show", HOUSE]).contains("pets-kept: dog in the yard"));
}

#[test]
fn a_lower_floor_is_a_length_below_zero() {
    let dir = tempfile::tempdir().unwrap();
    run(dir.path(), &["new", HOUSE]);
    for text in ["-0.25", "minus 1/4 in"] {
        let said = run(dir.path(), &["record", HOUSE, "floor-buildup", text]);
        assert!(said.contains("-1/4") || said.contains("−1/4"), "{said}");
    }
}
