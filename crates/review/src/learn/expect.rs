//! The expectation step for one house.

use std::collections::BTreeMap;

use assessment::{AssessError, ClueTables, SeenCondition, SeenHouse};
use inference::learn::{LearnError, Records};
use inference::{Evidence, InferError, Network};
use survey::catalog::Catalog;

use super::Job;
use super::numbers::Group;
use super::tally::{Counts, Tally};
use crate::finding::Outcome;

/// Most cells of one table: a clue of a dozen places.
const MOST_CELLS: u64 = 1 << 13;

/// Why a house says nothing.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Mute {
    /// The catalog makes no network.
    Network(AssessError),
    /// Answers and findings cannot all be true under the catalog, or the network is too large.
    Records(LearnError),
    /// The network does not fit in memory.
    Large(InferError),
}

/// A house with the plan of its propagation kept, which does not depend on the numbers.
#[derive(Default)]
pub(crate) struct Kept {
    records: Option<Records>,
}

impl Kept {
    /// Counts of one house under a catalog. Findings enter as what they are: the condition was there, or not.
    pub(crate) fn expect(
        &mut self,
        catalog: &Catalog,
        tables: &ClueTables,
        job: &Job<'_>,
    ) -> Result<Tally, Mute> {
        let seen = SeenHouse::new(catalog, tables, job.picture).map_err(Mute::Network)?;
        let found: BTreeMap<&str, Outcome> =
            job.findings.iter().map(|f| (f.condition.as_str(), f.outcome)).collect();
        let mut evidence = seen.evidence.clone();
        for c in &seen.conditions {
            if let Some(there) = there(&found, c) {
                evidence.observe(c.node, usize::from(there));
            }
        }
        // Counts go by tables; clues of several places are kept factored until here.
        let net = seen.house.net.tabled(MOST_CELLS).map_err(Mute::Large)?;
        let counts = self.count(&net, evidence).map_err(Mute::Records)?;
        let mut tally = Tally { log_likelihood: counts.log_likelihood, groups: BTreeMap::new() };
        for c in &seen.conditions {
            let p: f64 = counts.of(c.node).chunks_exact(2).map(|row| row[1]).sum();
            let opened = there(&found, c).is_some();
            let mut put = |group: Group, fill: &dyn Fn(&mut Counts)| {
                let counts = tally.groups.entry((c.id.clone(), group)).or_default();
                fill(counts);
                counts.houses.insert(job.survey);
                counts.opened += u32::from(opened);
            };
            let open = p * (1.0 - p);
            if let Some(rows) = &c.prior {
                put(Group::Prior, &|held| {
                    let table = counts.of(c.node).chunks_exact(2 * rows.each);
                    for (row, cells) in rows.rows.iter().zip(table) {
                        let (yes, all) = (cells.iter().skip(1).step_by(2).sum(), cells.iter().sum::<f64>());
                        if all > 0.0 {
                            held.add(Some(&row.band), libm::log(row.odds_ratio), yes, all);
                        }
                    }
                    held.lost += open;
                });
            }
            pairs(catalog, c, p, &mut put);
        }
        Ok(tally)
    }

    fn count(&mut self, net: &Network, evidence: Evidence) -> Result<inference::learn::Counts, LearnError> {
        if let Some(records) = &mut self.records {
            match records.expect(net) {
                // A table that became or ceased to be certain can change what hangs on what.
                Err(LearnError::Shape { .. }) => {}
                counted => return counted,
            }
        }
        let mut records = Records::new(net, [(evidence, 1.0)])?;
        let counts = records.expect(net);
        self.records = Some(records);
        counts
    }
}

fn there(found: &BTreeMap<&str, Outcome>, c: &SeenCondition) -> Option<bool> {
    match found.get(c.key.as_str())? {
        Outcome::Found => Some(true),
        Outcome::NotThere => Some(false),
        Outcome::NotOpened => None,
    }
}

/// Fills the counts of a group.
type Put<'a> = &'a mut dyn FnMut(Group, &dyn Fn(&mut Counts));

/// Clues and checks of a condition that is there with probability `p`. What a closed place leaves open of a score
/// c·(y − q) is p(1 − p)(y − q)².
fn pairs(catalog: &Catalog, c: &SeenCondition, p: f64, put: Put<'_>) {
    let Some(condition) = catalog.condition(&c.id) else { return };
    let yes = |seen: bool| f64::from(u8::from(seen));
    let lost = |y: f64, q: f64| p * (1.0 - p) * (y - q) * (y - q);
    for clue in &c.clues {
        let Some(pair) = condition.clues.iter().find(|x| x.clue == clue.clue) else { continue };
        let y = yes(clue.seen);
        put(Group::Present(clue.clue.clone()), &|held| {
            held.add(None, 0.0, p * y, p);
            held.lost += lost(y, pair.if_present);
        });
        // A band without a number of its own goes by the overall one.
        let band = clue.band.as_deref().filter(|b| pair.if_absent_by_band.contains_key(*b));
        put(Group::Absent(clue.clue.clone()), &|held| {
            held.add(band, 0.0, (1.0 - p) * y, 1.0 - p);
            held.lost += lost(y, pair.absent_in(band));
        });
    }
    for check in &c.checks {
        let Some(pair) = condition.checks.iter().find(|x| x.check == check.check) else { continue };
        let y = yes(check.shows);
        put(Group::Sensitivity(check.check.clone()), &|held| {
            held.add(None, 0.0, p * y, p);
            held.lost += lost(y, pair.sensitivity);
        });
        put(Group::Specificity(check.check.clone()), &|held| {
            held.add(None, 0.0, (1.0 - p) * (1.0 - y), 1.0 - p);
            held.lost += lost(1.0 - y, pair.specificity);
        });
    }
}
