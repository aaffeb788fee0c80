//! Hazards: what touches one names the licensed person who decides, and says that local code governs. And words that
//! nobody may say or ask in this catalog.

use super::condition::Condition;
use super::load::Loader;
use super::source_file::At;

/// A hazard: its name, groups of conditions that always touch it, words that tell of it, and who usually decides.
struct Hazard {
    name: &'static str,
    groups: &'static [&'static str],
    words: &'static [&'static str],
    decides: &'static str,
}

const HAZARDS: [Hazard; 6] = [
    Hazard {
        name: "electricity",
        groups: &["electrical"],
        words: &["electrical", "wiring", "cable", "cables", "circuit", "circuits", "breaker", "breakers"],
        decides: "licensed electrician",
    },
    Hazard { name: "gas", groups: &["gas"], words: &["gas"], decides: "licensed gas fitter" },
    Hazard {
        name: "structure",
        groups: &["structure"],
        words: &[
            "beam", "beams", "bearing", "joist", "joists", "header", "headers", "rafter", "rafters", "truss",
            "trusses",
        ],
        decides: "licensed structural engineer or the building official",
    },
    Hazard {
        name: "lead, asbestos or mold",
        groups: &[],
        words: &["lead", "asbestos", "vermiculite", "mold"],
        decides: "licensed asbestos professional, certified lead renovator or licensed mold assessor",
    },
    Hazard {
        name: "water or sewage",
        groups: &["drain", "supply"],
        words: &["pipe", "pipes", "drain", "drains", "sewage", "septic"],
        decides: "licensed plumber",
    },
    Hazard {
        name: "air and flues",
        groups: &["hvac"],
        words: &["flue", "flues"],
        decides: "licensed HVAC contractor",
    },
];

/// Words that name somebody who may decide.
const DECIDERS: [&str; 4] = ["licensed", "certified", "engineer", "building official"];

/// Claims that nobody may make: the program advises and declares nothing.
const NEVER_SAID: [&str; 10] = [
    "is safe",
    "are safe",
    "it's safe",
    "be safe",
    "safe to ",
    "compliant",
    "compliance with code",
    "clear to cut",
    "meets code",
    "up to code",
];

/// What only a licensed person may do, so that no question asks for it.
const NEVER_ASKED: [&str; 7] =
    ["climb", "on the roof", "remove the cover", "remove the panel", "cover off", "flip", "full tub"];
/// The same, unless the question says not to.
const NEVER_ASKED_UNLESS_NOT: [&str; 4] = ["scrape", "pry", "drill", "turn"];

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty())
}

impl Loader<'_> {
    /// A condition that touches a hazard names who decides about it.
    pub(super) fn check_hazard(&mut self, c: &Condition, at: &At) {
        let caution = c.caution.to_lowercase();
        let named = c.decides.as_ref().is_some_and(|d| !d.trim().is_empty());
        // A caution that names somebody itself must say the rest too.
        if named || (DECIDERS.iter().any(|d| caution.contains(d)) && caution.contains("local code")) {
            return;
        }
        let text = format!("{} {} {caution}", c.name, c.what).to_lowercase();
        let touched = HAZARDS.iter().find_map(|h| {
            let group = h.groups.iter().find(|g| **g == c.group).copied();
            Some((h, group.or_else(|| words(&text).find(|w| h.words.contains(w)))?))
        });
        if let Some((hazard, word)) = touched {
            let what = format!("“{}” touches {} (“{word}”) and names nobody who decides", c.id, hazard.name);
            let mend = format!("add decides = \"{}\"; local code governs", hazard.decides);
            self.faults.add(&at.to("caution"), what, Some(mend));
        }
    }

    /// No words of a thing claim what nobody may claim.
    pub(super) fn check_claims(&mut self, at: &At, texts: &[(&'static str, &str)]) {
        for (key, text) in texts {
            let lower = text.to_lowercase();
            if let Some(claim) = NEVER_SAID.iter().find(|n| lower.contains(*n)) {
                let mend = "say what was seen and who decides".to_owned();
                self.faults.add(&at.to(*key), format!("nobody may say “{claim}”"), Some(mend));
            }
        }
    }

    /// No question asks for what only a licensed person may do.
    pub(super) fn check_question(&mut self, at: &At, question: &str) {
        let lower = question.to_lowercase();
        let phrase = NEVER_ASKED.iter().find(|p| lower.contains(*p));
        let word = NEVER_ASKED_UNLESS_NOT
            .iter()
            .find(|w| words(&lower).any(|own| own == **w) && !lower.contains(&format!("not {w}")));
        if let Some(asked) = phrase.or(word) {
            let mend = "ask for what can be seen, or say not to".to_owned();
            let what = format!("a question may not ask an estimator to “{asked}”");
            self.faults.add(&at.to("question"), what, Some(mend));
        }
    }
}
