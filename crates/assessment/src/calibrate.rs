//! The one factor on base odds, set so that the expected unknown of a typical house that nobody has looked at is a wanted
//! share of a mid-range kitchen's price.
//!
//! The expected unknown is exact, not drawn: P(present) from the network × P(it becomes a cost) × mean cost, summed over
//! the conditions that the base price does not hold. A condition that others cover counts only where none of them
//! becomes a cost, from the joint table of both.

use inference::{Evidence, NodeId, joint};
use survey::catalog::{Catalog, PLANNED_WORK};
use survey::log::{Answer, Value};
use survey::model::{Claim, Picture, Standing};
use survey::{DeviceId, EntryId, Stamp};

use crate::assess::Request;
use crate::clue_table::ClueTables;
use crate::decision::LossRules;
use crate::error::AssessError;
use crate::live::{Live, explain_plain};
use survey::SurveyId;

/// Factors that are tried: a thousandth to a thousandfold.
const REACH: [f64; 2] = [1e-3, 1e3];
/// Halvings of that range, in logarithms: to a millionth of the factor.
const HALVINGS: u32 = 24;

/// A catalog whose factor reaches a wanted share.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    /// The share wanted.
    pub wanted: f64,
    /// Factor and share of the catalog as it is.
    pub now: Level,
    /// The factor that gives the share, to four significant digits, and the share it gives.
    pub proposed: Level,
    /// Share given less share wanted.
    pub residual: f64,
    /// By era: id, share now, share with the proposed factor. One factor does not fit all eras.
    pub by_era: Vec<(String, f64, f64)>,
}

/// A factor and the share it gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// Factor on the base odds.
    pub factor: f64,
    /// Expected unknown of the typical house as a share of the mid-range kitchen.
    pub share: f64,
}

/// Why there is no such factor.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CalibrateError {
    /// A share that no kitchen has.
    #[error("{0} is no share of a price; it lies above 0 and below 1")]
    Share(f64),
    /// No factor gives the share.
    #[error(
        "no factor gives a share of {wanted:.4}: {} gives {lowest:.4} and {} gives {highest:.4}; mend costs or shares of the catalog first",
        REACH[0], REACH[1]
    )]
    OutOfReach {
        /// The share wanted.
        wanted: f64,
        /// What the least factor gives.
        lowest: f64,
        /// What the greatest gives.
        highest: f64,
    },
    /// The catalog makes no network.
    #[error(transparent)]
    Assess(#[from] AssessError),
}

/// The expected unknown of a house as its answers stand, dollars; where `era` is given, with the house known to be of
/// that level of the era.
///
/// # Errors
/// As [`crate::assess()`].
pub fn expected_unknown(
    catalog: &Catalog,
    tables: &ClueTables,
    picture: &Picture,
    era: Option<usize>,
) -> Result<f64, AssessError> {
    let mut live = Live::default();
    let survey = picture.survey.unwrap_or_else(|| SurveyId::new(0, &[0; 10]));
    let odds = live.odds(&Request { survey, picture, catalog, tables, rules: LossRules::of(catalog) })?;
    let (house, items) = (odds.network(), odds.sim_items());
    let mut evidence: Evidence = odds.all().clone();
    let era_node = catalog.era().and_then(|factor| house.factors.get(&factor.id));
    if let (Some(level), Some(node)) = (era, era_node) {
        evidence.observe(*node, level);
    }
    let nodes: Vec<Option<NodeId>> = odds.nodes().iter().map(|node| Some(*node)).collect();
    let mut sum = 0.0;
    for (i, item) in items.iter().enumerate().filter(|(_, item)| !item.in_base) {
        let Some(node) = nodes[i] else { continue };
        // The condition first, then those that cover it.
        let covering = (0..items.len()).filter(|j| items[*j].covers.contains(&i));
        let mut asked = vec![(node, 0.0)];
        asked.extend(covering.filter_map(|j| Some((nodes[j]?, items[j].p_cost))));
        let wanted: Vec<NodeId> = asked.iter().map(|(node, _)| *node).collect();
        let table = joint(&house.net, &evidence, &wanted).map_err(|e| explain_plain(&e))?;
        let last = asked.len() - 1;
        let present = table.iter().enumerate().filter(|(cell, _)| cell >> last & 1 == 1);
        let uncovered: f64 = present
            .map(|(cell, p)| {
                let there = |k: &usize| cell >> (last - k) & 1 == 1;
                let none: f64 = (1..asked.len()).filter(there).map(|k| 1.0 - asked[k].1).product();
                p * none
            })
            .sum();
        sum += uncovered * item.p_cost * item.cost.mean();
    }
    Ok(sum)
}

/// Expected unknown of the typical house (the plan the factor was set with, nothing else answered) as a share of the
/// mid-range kitchen, overall or of one era.
///
/// # Errors
/// As [`crate::assess()`].
pub fn typical_share(catalog: &Catalog, tables: &ClueTables, era: Option<usize>) -> Result<f64, AssessError> {
    let expected = expected_unknown(catalog, tables, &typical(catalog), era)?;
    Ok(expected / catalog.reference.mid_range_kitchen.dollars())
}

/// Looks for the factor that gives a wanted share, by halving the range of factors.
///
/// # Errors
/// [`CalibrateError`].
pub fn calibrate(catalog: &Catalog, tables: &ClueTables, wanted: f64) -> Result<Calibration, CalibrateError> {
    if !(wanted > 0.0 && wanted < 1.0) {
        return Err(CalibrateError::Share(wanted));
    }
    let mut trial = catalog.clone();
    let mut share_at = |factor: f64, era: Option<usize>| {
        trial.reference.base_odds.factor = factor;
        typical_share(&trial, tables, era)
    };
    let [lowest, highest] = [share_at(REACH[0], None)?, share_at(REACH[1], None)?];
    if !(lowest <= wanted && wanted <= highest) {
        return Err(CalibrateError::OutOfReach { wanted, lowest, highest });
    }
    let [mut below, mut above] = REACH.map(libm::log);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (below + above);
        if share_at(libm::exp(middle), None)? < wanted { below = middle } else { above = middle }
    }
    let proposed = four_digits(libm::exp(0.5 * (below + above)));
    let now = catalog.reference.base_odds.factor;
    let (share_now, share) = (share_at(now, None)?, share_at(proposed, None)?);
    let eras = catalog.era().map(|era| era.levels.as_slice()).unwrap_or_default();
    let mut by_era = Vec::new();
    for (level, era) in eras.iter().enumerate() {
        by_era.push((era.id.clone(), share_at(now, Some(level))?, share_at(proposed, Some(level))?));
    }
    Ok(Calibration {
        wanted,
        now: Level { factor: now, share: share_now },
        proposed: Level { factor: proposed, share },
        residual: share - wanted,
        by_era,
    })
}

/// More digits than four would claim what nobody knows.
fn four_digits(x: f64) -> f64 {
    let scale = libm::pow(10.0, 3.0 - libm::floor(libm::log10(x)));
    libm::round(x * scale) / scale
}

/// A picture with the plan the factor was set with and nothing else.
fn typical(catalog: &Catalog) -> Picture {
    let place = catalog.item(PLANNED_WORK).map(|item| item.station.clone()).unwrap_or_default();
    let answer = Answer {
        place: place.clone(),
        item: PLANNED_WORK.to_owned(),
        value: Value::choices(catalog.reference.base_odds.typical_plan.clone()),
        tolerance: None,
        entered: None,
        photos: Vec::new(),
        corrects: Vec::new(),
        reason: None,
    };
    let claim = Claim {
        id: EntryId::new(0, &[0; 10]),
        by: String::new(),
        at: Stamp::EPOCH,
        device: DeviceId::new(0, &[0; 10]),
        answer,
    };
    let mut picture = Picture::default();
    picture.answers.insert((place, PLANNED_WORK.to_owned()), Standing { claims: vec![claim], corrected: 0 });
    picture
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::Request;
    use crate::decision::LossRules;
    use crate::house_draws::HouseDraws;
    use survey::SurveyId;

    fn shipped() -> (Catalog, ClueTables) {
        let catalog = survey::catalog::builtin().unwrap();
        let tables = ClueTables::fit(&catalog);
        (catalog, tables)
    }

    /// The catalog's own claim: 12 % of the mid-range kitchen (`catalog.toml`, at the factor).
    #[test]
    fn the_shipped_factor_brings_a_typical_kitchen_to_twelve_percent() {
        let (catalog, tables) = shipped();
        let share = typical_share(&catalog, &tables, None).unwrap();
        assert!((0.11..=0.13).contains(&share), "{share}");
        let mut plain = catalog.clone();
        plain.reference.base_odds.factor = 1.0;
        let without = typical_share(&plain, &tables, None).unwrap();
        assert!(without > share + 0.03, "without the factor {without}");
    }

    #[test]
    fn the_expected_unknown_is_the_mean_of_the_draws() {
        let (catalog, tables) = shipped();
        let picture = typical(&catalog);
        let request = Request {
            survey: SurveyId::new(0, &[7; 10]),
            picture: &picture,
            catalog: &catalog,
            tables: &tables,
            rules: LossRules::default(),
        };
        let exact = expected_unknown(&catalog, &tables, &picture, None).unwrap();
        let mut live = Live::default();
        let house = HouseDraws::of(&live.odds(&request).unwrap(), || true).unwrap().unwrap();
        let drawn = house.draws.outcome(&house.items).money;
        assert!(house.items.iter().any(|i| !i.covers.is_empty()), "covering is among it");
        assert!((drawn.mean - exact).abs() < 4.0 * drawn.se[0], "{} ± {} {exact}", drawn.mean, drawn.se[0]);
    }

    #[test]
    fn a_wanted_share_is_met_by_the_factor_proposed() {
        let (catalog, tables) = shipped();
        for wanted in [0.06, 0.2] {
            let found = calibrate(&catalog, &tables, wanted).unwrap();
            assert!(
                found.residual.abs() < 2e-4 && found.proposed.share == wanted + found.residual,
                "{found:?}"
            );
            assert_eq!(found.now.factor, catalog.reference.base_odds.factor);
            assert!((found.proposed.factor > found.now.factor) == (wanted > found.now.share));
            assert_eq!(found.by_era.len(), catalog.era().unwrap().levels.len());
        }
        // What the factor proposes is its own fixed point.
        let mut mended = catalog.clone();
        let found = calibrate(&catalog, &tables, 0.1).unwrap();
        mended.reference.base_odds.factor = found.proposed.factor;
        assert_eq!(calibrate(&mended, &tables, 0.1).unwrap().proposed, found.proposed);
    }

    #[test]
    fn a_share_that_no_factor_gives_is_refused_with_what_can_be_had() {
        let (catalog, tables) = shipped();
        for wanted in [0.0, 1.0, f64::NAN] {
            assert!(matches!(calibrate(&catalog, &tables, wanted), Err(CalibrateError::Share(_))));
        }
        match calibrate(&catalog, &tables, 0.99) {
            Err(CalibrateError::OutOfReach { lowest, highest, .. }) => {
                assert!(lowest < 0.05 && highest > 0.12)
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn four_digits_are_kept() {
        assert_eq!([0.531_234, 12.345_6, 0.001_234_56].map(four_digits), [0.5312, 12.35, 0.001_235]);
    }
}
