//! A truth that disagrees with the catalog: factors on the odds of conditions and on the likelihood ratios of clues.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Deserialize;
use survey::Digest;
use survey::catalog::{Catalog, CluePair, Condition, nearest};

use crate::stream::Stream;
use crate::unreadable::complaint;

/// Factors are kept to four decimals, so that what is written down is what was used.
const DECIMALS: f64 = 1e4;
/// Probabilities of conditions stay at or below this, as those of the catalog do.
const CEILING: f64 = 0.98;

/// How a truth differs from a catalog.
#[derive(Clone, Debug, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wrong {
    /// The prior odds of a condition in every era are multiplied by this.
    #[serde(default)]
    pub odds: BTreeMap<String, f64>,
    /// By condition and clue: the odds of seeing the clue when the condition is there, against the odds of seeing it
    /// when it is not, are multiplied by this; half of the step is taken on either side.
    #[serde(default)]
    pub ratio: BTreeMap<String, BTreeMap<String, f64>>,
}

/// Factors that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WrongError {
    /// Not TOML of the right shape.
    #[error("the factors cannot be read: {0}")]
    Unreadable(String),
    /// A name the catalog does not have.
    #[error("the catalog has no {kind} “{given}”{}", .near.as_ref().map(|n| format!("; did you mean “{n}”?")).unwrap_or_default())]
    Unknown {
        /// "condition", or "clue of" a condition.
        kind: String,
        /// What was written.
        given: String,
        /// The nearest known.
        near: Option<String>,
    },
    /// A factor out of range.
    #[error("the factor {value} of {what} must lie between 0.01 and 100")]
    Range {
        /// Which.
        what: String,
        /// What was written.
        value: String,
    },
}

impl Wrong {
    /// Random factors between 1/`most` and `most`, even on a logarithmic scale: one for the odds of every condition and
    /// one for each of its clues.
    ///
    /// # Errors
    /// [`WrongError::Range`] when `most` is below 1 or above 100.
    pub fn by(catalog: &Catalog, most: f64, seed: u64) -> Result<Self, WrongError> {
        if !(1.0..=100.0).contains(&most) {
            return Err(WrongError::Range { what: "a wrong truth".into(), value: most.to_string() });
        }
        let mut stream = Stream::new(seed, 0, "wrong");
        let mut factor = || {
            let factor = libm::exp(stream.between(-1.0, 1.0) * libm::log(most));
            libm::round(factor * DECIMALS) / DECIMALS
        };
        let mut wrong = Self::default();
        for c in &catalog.conditions {
            wrong.odds.insert(c.id.clone(), factor());
            let ratios = c.clues.iter().map(|p| (p.clue.clone(), factor())).collect();
            wrong.ratio.insert(c.id.clone(), ratios);
        }
        wrong.ratio.retain(|_, r| !r.is_empty());
        Ok(wrong)
    }

    /// Reads factors from TOML: tables `odds` and `ratio.<condition>`.
    ///
    /// # Errors
    /// [`WrongError::Unreadable`].
    pub fn read(text: &str) -> Result<Self, WrongError> {
        toml::from_str(text).map_err(|e| WrongError::Unreadable(complaint(text, &e)))
    }

    /// Both together: factors on the same number are multiplied.
    #[must_use]
    pub fn and(mut self, other: &Self) -> Self {
        let times = |held: &mut f64, factor: &f64| *held = libm::round(*held * factor * DECIMALS) / DECIMALS;
        for (condition, factor) in &other.odds {
            times(self.odds.entry(condition.clone()).or_insert(1.0), factor);
        }
        for (condition, ratios) in &other.ratio {
            let here = self.ratio.entry(condition.clone()).or_default();
            ratios.iter().for_each(|(clue, factor)| times(here.entry(clue.clone()).or_insert(1.0), factor));
        }
        self
    }

    /// The factors as TOML, readable by [`Wrong::read`].
    pub fn to_toml(&self) -> String {
        let mut text =
            String::from("# Factors by which the truth of invented houses differs from the catalog.\n");
        text.push_str("# odds: on the prior odds of a condition; ratio: on the likelihood ratio of one of its clues.\n\n[odds]\n");
        // Ids are bare keys: lower-case words joined by hyphens.
        for (condition, factor) in &self.odds {
            let _ = writeln!(text, "{condition} = {factor:?}");
        }
        for (condition, ratios) in &self.ratio {
            let _ = writeln!(text, "\n[ratio.{condition}]");
            for (clue, factor) in ratios {
                let _ = writeln!(text, "{clue} = {factor:?}");
            }
        }
        text
    }

    /// The catalog with the factors applied, under a digest of its own. Probabilities stay within what a catalog may
    /// hold; where one condition means another, the other stays at least as likely.
    ///
    /// # Errors
    /// [`WrongError::Unknown`], [`WrongError::Range`].
    pub fn applied(&self, catalog: &Catalog) -> Result<Catalog, WrongError> {
        self.check(catalog)?;
        let mut wrong = catalog.clone();
        let shares: Vec<(String, f64)> = catalog
            .era()
            .map(|e| e.levels.iter().map(|l| (l.id.clone(), l.prior)).collect())
            .unwrap_or_default();
        for c in &mut wrong.conditions {
            let factor = self.odds.get(&c.id).copied().unwrap_or(1.0);
            c.prior.by_band.values_mut().for_each(|p| *p = times(*p, factor).min(CEILING.max(*p)));
            for pair in &mut c.clues {
                let ratio = self.ratio.get(&c.id).and_then(|r| r.get(&pair.clue));
                if let Some(ratio) = ratio {
                    stretch(pair, *ratio);
                }
            }
        }
        for rule in &catalog.implies {
            let premise = wrong.condition(&rule.premise).map(|c| c.prior.by_band.clone()).unwrap_or_default();
            if let Some(c) = wrong.conditions.iter_mut().find(|c| c.id == rule.conclusion) {
                raise(c, &premise);
            }
        }
        for c in &mut wrong.conditions {
            let total: f64 = shares.iter().map(|(_, s)| s).sum();
            let mean: f64 =
                shares.iter().map(|(band, s)| s * c.prior.by_band.get(band).copied().unwrap_or(0.0)).sum();
            if total > 0.0 {
                c.prior.unknown = mean / total;
            }
        }
        wrong.digest = Digest::of(format!("{}\n{}", catalog.digest, self.to_toml()).as_bytes());
        Ok(wrong)
    }

    fn check(&self, catalog: &Catalog) -> Result<(), WrongError> {
        let condition = |id: &str| {
            catalog.condition(id).ok_or_else(|| WrongError::Unknown {
                kind: "condition".into(),
                given: id.to_owned(),
                near: nearest(id, catalog.conditions.iter().map(|c| c.id.as_str())).map(str::to_owned),
            })
        };
        let range = |what: String, factor: f64| {
            if (0.01..=100.0).contains(&factor) {
                return Ok(());
            }
            Err(WrongError::Range { what, value: factor.to_string() })
        };
        for (id, factor) in &self.odds {
            condition(id)?;
            range(format!("odds.{id}"), *factor)?;
        }
        for (id, ratios) in &self.ratio {
            let c = condition(id)?;
            for (clue, factor) in ratios {
                if !c.clues.iter().any(|p| p.clue == *clue) {
                    return Err(WrongError::Unknown {
                        kind: format!("clue of “{id}” called"),
                        given: clue.clone(),
                        near: nearest(clue, c.clues.iter().map(|p| p.clue.as_str())).map(str::to_owned),
                    });
                }
                range(format!("ratio.{id}.{clue}"), *factor)?;
            }
        }
        Ok(())
    }
}

/// A probability whose odds are multiplied by a factor.
fn times(p: f64, factor: f64) -> f64 {
    if factor == 1.0 {
        return p;
    }
    let odds = p / (1.0 - p).max(1e-12) * factor;
    odds / (1.0 + odds)
}

fn stretch(pair: &mut CluePair, ratio: f64) {
    let half = libm::sqrt(ratio);
    pair.if_present = times(pair.if_present, half);
    pair.if_absent = times(pair.if_absent, 1.0 / half);
    pair.if_absent_by_band.values_mut().for_each(|p| *p = times(*p, 1.0 / half));
}

fn raise(c: &mut Condition, least: &BTreeMap<String, f64>) {
    for (band, p) in &mut c.prior.by_band {
        *p = p.max(least.get(band).copied().unwrap_or(0.0));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use survey::catalog::builtin;

    #[test]
    fn odds_and_ratios_are_multiplied_and_nothing_else() {
        let catalog = builtin().unwrap();
        let wrong = Wrong::read("[odds]\nfloor-sag = 2.0\n[ratio.floor-sag]\nprops-added = 4.0\n").unwrap();
        let truth = wrong.applied(&catalog).unwrap();
        let odds = |p: f64| p / (1.0 - p);
        for (a, b) in catalog.conditions.iter().zip(&truth.conditions).filter(|(a, _)| a.id != "floor-sag") {
            if a.id != "floor-out-of-level" {
                assert_eq!((&a.prior.by_band, &a.clues), (&b.prior.by_band, &b.clues), "{}", a.id);
            }
        }
        let (a, b) = (catalog.condition("floor-sag").unwrap(), truth.condition("floor-sag").unwrap());
        for (band, p) in &a.prior.by_band {
            assert!((odds(b.prior.by_band[band]) / odds(*p) - 2.0).abs() < 1e-9, "{band}");
        }
        let pair = |c: &Condition| c.clues.iter().find(|p| p.clue == "props-added").unwrap().clone();
        let ratio = |p: &CluePair| odds(p.if_present) / odds(p.if_absent);
        assert!((ratio(&pair(b)) / ratio(&pair(a)) - 4.0).abs() < 1e-9);
        // A floor that sags is out of level, however likely sagging became.
        for (band, p) in &b.prior.by_band {
            assert!(truth.condition("floor-out-of-level").unwrap().prior.by_band[band] >= *p);
        }
        assert_ne!(truth.digest, catalog.digest);
    }

    #[test]
    fn random_factors_lie_within_their_bound_and_come_back_from_their_file() {
        let catalog = builtin().unwrap();
        let wrong = Wrong::by(&catalog, 2.0, 5).unwrap();
        let all: Vec<f64> =
            wrong.odds.values().chain(wrong.ratio.values().flat_map(BTreeMap::values)).copied().collect();
        assert!(all.len() > 300 && all.iter().all(|f| (0.4999..=2.0001).contains(f)));
        let mean_log = all.iter().map(|f| libm::log(*f)).sum::<f64>() / all.len() as f64;
        // Even on a logarithmic scale: mean 0, standard deviation ln 2/√3.
        let sd = std::f64::consts::LN_2 / libm::sqrt(3.0 * all.len() as f64);
        assert!(mean_log.abs() < 4.5 * sd, "{mean_log}");
        assert_eq!(Wrong::read(&wrong.to_toml()).unwrap(), wrong);
        let twice = Wrong::read("[odds]\nfloor-sag = 2.0").unwrap().and(&wrong);
        assert!((twice.odds["floor-sag"] / wrong.odds["floor-sag"] - 2.0).abs() < 1e-3);
        assert_ne!(Wrong::by(&catalog, 2.0, 6).unwrap(), wrong);
        assert_eq!(Wrong::by(&catalog, 1.0, 5).unwrap().applied(&catalog).unwrap().conditions[0].clues, {
            catalog.conditions[0].clues.clone()
        });
    }

    #[test]
    fn names_and_factors_that_cannot_be_are_refused() {
        let catalog = builtin().unwrap();
        let refused = |text: &str| Wrong::read(text).unwrap().applied(&catalog).unwrap_err().to_string();
        assert!(refused("[odds]\nfloor-sagg = 2.0").contains("did you mean “floor-sag”?"));
        assert!(refused("[ratio.floor-sag]\nprops-add = 2.0").contains("did you mean “props-added”?"));
        assert!(refused("[odds]\nfloor-sag = 0.0").contains("between 0.01 and 100"));
        assert!(matches!(Wrong::read("odds = 3"), Err(WrongError::Unreadable(_))));
        assert!(Wrong::by(&catalog, 0.5, 1).is_err());
    }
}
