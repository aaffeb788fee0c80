//! What an experienced estimator would assert, asked of the assessed network. Common practice, no source: every fact
//! here. What came out stands in `docs/trade-facts.md` (`UPDATE_DOCS=1` writes it).
//!
//! A fact says a direction or a coarse level, never a fine number: a catalog may be edited freely between them.

use std::fmt::Write as _;

use super::assessed::{Houses, answers};
use crate::support::root;

mod table;
mod trade;

use table::FACTS;

/// Answers as (item, words).
type Given = &'static [(&'static str, &'static str)];

/// One fact.
struct Fact {
    /// In words.
    says: &'static str,
    /// Jobs planned.
    plan: &'static str,
    /// What is known besides.
    house: Given,
    /// The condition it is about.
    of: &'static str,
    /// What it asserts.
    asserts: Asserts,
}

/// What a fact asserts of the probability of its condition.
enum Asserts {
    /// This answer multiplies its odds at least so many times, against the house without it.
    Raises(Given, f64),
    /// This answer divides its odds at least so many times.
    Lowers(Given, f64),
    /// With the first answers it has at least so many times the odds as with the second.
    Over(Given, Given, f64),
    /// With this answer it stays within a factor on the odds: no evidence, or little.
    Leaves(Given, f64),
    /// At least so probable with this answer.
    AtLeast(Given, f64),
    /// At most so probable with this answer.
    AtMost(Given, f64),
    /// Likelier than another condition with this answer.
    LikelierThan(&'static str, Given),
    /// In scope with the first answers, not with the second.
    OnlyWith(Given, Given),
}

fn odds(p: f64) -> f64 {
    p / (1.0 - p)
}

/// Whether it holds, and what came out in words.
fn holds(houses: &mut Houses, fact: &Fact) -> (bool, String) {
    let all = |more: Given| {
        let mut all = answers(&[("planned-work", fact.plan)]);
        all.extend(answers(fact.house));
        all.extend(answers(more));
        all
    };
    let mut p = |condition: &str, more: Given| houses.p(condition, &all(more));
    let two = |a: f64, b: f64| format!("{a:.3} against {b:.3}");
    match fact.asserts {
        Asserts::Raises(given, times) => {
            let (with, without) = (p(fact.of, given), p(fact.of, &[]));
            (odds(with) >= times * odds(without), two(with, without))
        }
        Asserts::Lowers(given, times) => {
            let (with, without) = (p(fact.of, given), p(fact.of, &[]));
            (odds(with) * times <= odds(without), two(with, without))
        }
        Asserts::Over(more, less, times) => {
            let (more, less) = (p(fact.of, more), p(fact.of, less));
            (odds(more) >= times * odds(less), two(more, less))
        }
        Asserts::Leaves(given, times) => {
            let (with, without) = (p(fact.of, given), p(fact.of, &[]));
            let ratio = odds(with) / odds(without);
            ((1.0 / times..=times).contains(&ratio), two(with, without))
        }
        Asserts::AtLeast(given, least) => {
            let p = p(fact.of, given);
            (p >= least, format!("{p:.3}"))
        }
        Asserts::AtMost(given, most) => {
            let p = p(fact.of, given);
            (p <= most, format!("{p:.3}"))
        }
        Asserts::LikelierThan(other, given) => {
            let (this, other) = (p(fact.of, given), p(other, given));
            (this > other, two(this, other))
        }
        Asserts::OnlyWith(given, not) => {
            let mut there = |more: Given| houses.forecast(&all(more)).condition(fact.of).is_some();
            let (with, without) = (there(given), there(not));
            let words = |there: bool| if there { "in scope" } else { "out of scope" };
            (with && !without, format!("{} against {}", words(with), words(without)))
        }
    }
}

/// What is asked of it, in words.
fn asked(asserts: &Asserts) -> String {
    match asserts {
        Asserts::Raises(_, times) => format!("odds at least ×{times}"),
        Asserts::Lowers(_, times) => format!("odds at most ÷{times}"),
        Asserts::Over(_, _, times) => format!("odds at least ×{times} of the other"),
        Asserts::Leaves(_, times) => format!("odds within ×{times}"),
        Asserts::AtLeast(_, p) => format!("at least {p}"),
        Asserts::AtMost(_, p) => format!("at most {p}"),
        Asserts::LikelierThan(other, _) => format!("likelier than {other}"),
        Asserts::OnlyWith(..) => "in scope only then".to_owned(),
    }
}

#[test]
fn the_network_says_what_an_experienced_estimator_would() {
    let mut houses = Houses::new();
    let mut text = String::from(
        "# What an experienced estimator would assert\n\n\
         Made by the test `outside::trade_facts`; run it with `UPDATE_DOCS=1` to write this page.\n\
         Common practice, no source: every line. Each is asked of an assessed house with the plan and answers it needs, \
         nothing else recorded.\n\
         It asks for a direction or a coarse level, so a firm can edit its catalog freely between them.\n\n\
         | fact | condition | asked | came out |\n|---|---|---|---|\n",
    );
    let mut wrong = Vec::new();
    for fact in FACTS {
        let (holds, out) = holds(&mut houses, fact);
        let _ = writeln!(text, "| {} | `{}` | {} | {out} |", fact.says, fact.of, asked(&fact.asserts));
        if !holds {
            wrong.push(format!(
                "{} ({}): asked {}, came out {out}",
                fact.says,
                fact.of,
                asked(&fact.asserts)
            ));
        }
    }
    let path = root().join("docs/trade-facts.md");
    if std::env::var_os("UPDATE_DOCS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    assert!(wrong.is_empty(), "common practice says otherwise:\n{}", wrong.join("\n"));
    assert_eq!(std::fs::read_to_string(&path).unwrap_or_default(), text, "docs/trade-facts.md is stale");
}

#[test]
fn a_fact_the_network_denies_is_found() {
    let mut houses = Houses::new();
    let deny = |asserts| Fact { says: "", plan: "open-wall", house: &[], of: "lead-paint", asserts };
    let old: Given = &[("year-built", "1925")];
    for asserts in [
        Asserts::Lowers(old, 1.0),
        Asserts::AtMost(old, 0.5),
        Asserts::Leaves(old, 2.0),
        Asserts::Over(&[("year-built", "1990")], old, 1.0),
        Asserts::LikelierThan("lead-paint", old),
        Asserts::OnlyWith(old, &[]),
    ] {
        assert!(!holds(&mut houses, &deny(asserts)).0);
    }
}
