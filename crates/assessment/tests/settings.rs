//! The firm's settings: every one the catalog holds is used.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use assessment::decision::LossRules;
use assessment::promise::{MOST_LOADING, Terms};
use survey::catalog::{Catalog, SETTINGS, builtin, builtin_with};

fn with(setting: &str, value: f64) -> Catalog {
    let text =
        format!("[change.setting.{setting}]\nvalue = {value:?}\nbasis = \"firm\"\nreason = \"a test\"\n");
    builtin_with(&[("firm.toml".to_owned(), text)]).unwrap()
}

#[test]
fn the_shipped_settings_are_the_defaults_of_the_formulas() {
    let shipped = builtin().unwrap();
    assert_eq!(LossRules::of(&shipped), LossRules::default());
    assert_eq!(Terms::of(&shipped), Terms::default());
}

#[test]
fn every_setting_changes_the_one_factor_it_is_read_for() {
    let shipped = builtin().unwrap();
    let factors = |c: &Catalog| {
        let LossRules { g, f, g_a, f_a, h, idle_per_day, exclude_below, floor, labor_per_hour } =
            LossRules::of(c);
        [g, f, g_a, f_a, h, idle_per_day, exclude_below, floor, labor_per_hour, Terms::of(c).loading]
    };
    let before = factors(&shipped);
    let mut read = Vec::new();
    for id in SETTINGS {
        let was = shipped.setting(id).unwrap();
        let after = factors(&with(id, was * 1.5));
        let changed: Vec<usize> = (0..before.len()).filter(|n| before[*n] != after[*n]).collect();
        let [one] = changed[..] else { panic!("“{id}” changes {} factors", changed.len()) };
        assert!((after[one] - was * 1.5).abs() < 1e-12, "{id}: {}", after[one]);
        read.push(one);
    }
    read.sort_unstable();
    assert_eq!(read, (0..before.len()).collect::<Vec<_>>(), "no two settings share a factor");
}

#[test]
fn a_promise_takes_every_loading_the_setting_can_have() {
    let setting = &builtin().unwrap().settings["promise-spread"];
    assert_eq!(setting.range, [0.0, MOST_LOADING]);
}
