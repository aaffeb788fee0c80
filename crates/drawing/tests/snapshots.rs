//! Every example at every width, held against committed files. `UPDATE_SNAPSHOTS=1 cargo test -p drawing` rewrites
//! them; look at what changed as pictures before committing.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test may stop, and is told to rewrite by name"
)]

mod examples;

use std::fs;
use std::path::Path;

use drawing::{
    Chances, Flag, Palette, Plumb, Reliability, ReliabilityBin, Width, bars, dots, plumbed_bars,
    plumbed_dots, reliability, reliability_text, svg, text,
};

fn english(said: &survey::Said) -> String {
    words::Words::of(words::Language::En).text(said)
}

fn hold(name: &str, made: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots").join(name);
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::write(path, made).unwrap();
        return;
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == made, "{name} changed; look at it, then UPDATE_SNAPSHOTS=1 cargo test -p drawing");
}

#[test]
fn every_drawing_is_as_it_was_looked_at() {
    for (name, picture) in examples::examples() {
        for (width, palette, at) in [
            (Width::Tablet, Palette::Screen, "tablet"),
            (Width::Px(560.0), Palette::Screen, "beside"),
            (Width::Phone, Palette::Screen, "phone"),
            (Width::Page(168.0), Palette::Page, "page"),
        ] {
            hold(&format!("{name}-{at}.svg"), &svg(&picture, width, palette, name, &english));
        }
        hold(&format!("{name}.txt"), &text(&picture, 78, &english));
    }
}

/// An invented house: a log-normal sum around $4,150, and days.
fn chances(money: bool) -> Chances {
    let flag = |at: f64, name: &str, value: &str, says: &str| Flag {
        at,
        name: name.into(),
        value: value.into(),
        says: says.into(),
    };
    let flags = |at: [f64; 3], values: [&str; 3]| {
        [
            flag(at[0], "P50", values[0], "even odds"),
            flag(at[1], "P80", values[1], "8 in 10 below"),
            flag(at[2], "P90", values[2], "9 in 10 below"),
        ]
    };
    if money {
        let twentieths = [
            950, 1_400, 1_720, 2_020, 2_310, 2_600, 2_900, 3_220, 3_570, 3_950, 4_360, 4_830, 5_370, 5_990,
            6_740, 7_400, 8_520, 9_900, 12_200, 18_200,
        ];
        // Shares of the same law in bars of $500.
        let shares = [
            0.0028, 0.0286, 0.0608, 0.0787, 0.0844, 0.0827, 0.0772, 0.0701, 0.0628, 0.0558, 0.0494, 0.0437,
            0.0386, 0.0342, 0.0303, 0.0269, 0.0239, 0.0213, 0.019, 0.0169, 0.0152, 0.0136, 0.0122, 0.011,
            0.01, 0.009, 0.0081, 0.0074, 0.0067, 0.0061, 0.0055, 0.005, 0.0046, 0.0042, 0.0038, 0.0035,
        ];
        Chances {
            title: "Money for the unknown, twenty dots, each one chance in twenty".into(),
            said: "Half of the outcomes lie within $4,150, eight in ten within $7,900, nine in ten within $11,100."
                .into(),
            flags: flags([4_150.0, 7_900.0, 11_100.0], ["$4,150", "$7,900", "$11,100"]),
            twentieths: twentieths.map(f64::from).to_vec(),
            step: 500.0,
            shares: shares.to_vec(),
        }
    } else {
        Chances {
            title: "Extra working days".into(),
            said:
                "Half of the outcomes take at most 2 days, eight in ten at most 4, nine in ten at most 5 1/2."
                    .into(),
            flags: flags([2.0, 4.0, 5.5], ["2", "4", "5 1/2"]),
            twentieths: Vec::new(),
            step: 1.0,
            shares: [0.16, 0.2, 0.17, 0.14, 0.11, 0.08, 0.06, 0.04, 0.025, 0.015].to_vec(),
        }
    }
}

/// Whole dollars with a comma at the thousands.
fn dollars(x: f64) -> String {
    let x = x.round() as u64;
    if x < 1000 { format!("${x}") } else { format!("${},{:03}", x / 1000, x % 1000) }
}

#[test]
fn chances_are_drawn_as_they_were_looked_at() {
    for (width, palette, at) in [
        (Width::Tablet, Palette::Screen, "tablet"),
        (Width::Px(560.0), Palette::Screen, "beside"),
        (Width::Phone, Palette::Screen, "phone"),
        (Width::Page(174.0), Palette::Page, "page"),
    ] {
        let made = dots(&chances(true), &dollars, width, palette, "chances-money");
        hold(&format!("chances-money-{at}.svg"), &made);
        let made = bars(&chances(false), &|x| format!("{x}"), width, palette, "chances-days");
        hold(&format!("chances-days-{at}.svg"), &made);
    }
}

/// Invented: 400 outcomes, overconfident near the top.
fn outcomes() -> Reliability {
    let rows = [
        (0, 182, 7, 0.043, 0.0384615385, [0.0187, 0.0772]),
        (1, 74, 12, 0.142, 0.1621621622, [0.0954, 0.2621]),
        (2, 41, 9, 0.248, 0.2195121951, [0.1200, 0.3671]),
        (3, 30, 12, 0.351, 0.4, [0.2459, 0.5768]),
        (4, 22, 9, 0.449, 0.4090909091, [0.2325, 0.6127]),
        (5, 16, 9, 0.552, 0.5625, [0.3318, 0.7690]),
        (6, 12, 8, 0.648, 0.6666666667, [0.3906, 0.8619]),
        (8, 14, 7, 0.853, 0.5, [0.2680, 0.7320]),
        (9, 9, 9, 0.953, 1.0, [0.7008, 1.0]),
    ];
    let bin = |(k, n, found, mean, share, band): (u32, u32, u32, f64, f64, [f64; 2])| {
        let from = f64::from(k) / 10.0;
        ReliabilityBin { ends: [from, f64::from(k + 1) / 10.0], n, found, mean, share, band }
    };
    Reliability { bins: rows.map(bin).to_vec(), small: false }
}

#[test]
fn reliability_is_drawn_as_it_was_looked_at() {
    for (width, palette, at) in [
        (Width::Tablet, Palette::Screen, "tablet"),
        (Width::Phone, Palette::Screen, "phone"),
        (Width::Page(174.0), Palette::Page, "page"),
    ] {
        let made = reliability(&outcomes(), width, palette, "reliability", &english);
        hold(&format!("reliability-{at}.svg"), &made);
    }
    let few = Reliability { bins: outcomes().bins[5..].to_vec(), small: true };
    let made = reliability(&few, Width::Phone, Palette::Screen, "reliability", &english);
    hold("reliability-small-phone.svg", &made);
    hold("reliability.txt", &reliability_text(&outcomes(), 78, &english));
    hold("reliability-small.txt", &reliability_text(&few, 78, &english));
}

fn plumb(at: f64, value: &str, says: &str) -> Plumb {
    Plumb { at, value: value.into(), says: says.into() }
}

#[test]
fn what_it_came_to_hangs_through_the_chances() {
    for (width, at) in [(Width::Tablet, "tablet"), (Width::Phone, "phone")] {
        let place = (width, Palette::Screen, "came-money");
        let came = plumb(4_400.0, "came to $4,400", "between P50 and P80");
        hold(&format!("came-money-{at}.svg"), &plumbed_dots(&chances(true), &came, &dollars, place));
        let far = plumb(64_000.0, "came to $64,000", "beyond P90");
        hold(&format!("came-money-far-{at}.svg"), &plumbed_dots(&chances(true), &far, &dollars, place));
        let place = (width, Palette::Screen, "came-days");
        let came = plumb(3.0, "took 3", "between P50 and P80");
        hold(
            &format!("came-days-{at}.svg"),
            &plumbed_bars(&chances(false), &came, &|x| format!("{x}"), place),
        );
    }
}

/// The dots below what it came to are filled, however the sum lies to the draws.
#[test]
fn as_many_dots_are_filled_as_lie_below_what_it_came_to() {
    let place = (Width::Tablet, Palette::Screen, "came");
    for (at, below) in
        [(0.0, 0), (950.0, 1), (4_400.0, 11), (18_200.0, 20), (1e9, 20), (-5.0, 0), (f64::NAN, 0)]
    {
        let drawn = plumbed_dots(&chances(true), &plumb(at, "came to it", "there"), &dollars, place);
        let dots: Vec<&str> = drawn.lines().filter(|line| line.contains("<circle")).collect();
        assert_eq!(dots.len(), 20, "{at}");
        let filled = dots.iter().filter(|dot| dot.contains("fill=\"var(--ink")).count();
        assert_eq!(filled, below, "{at}");
    }
}
