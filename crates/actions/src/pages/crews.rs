//! Which trades get pages of their own, and what on the house is theirs: by the catalog's word for who is needed, and by
//! the trade a calculation stands under.

use assessment::forecast::ConditionForecast;
use trade::Trade;
use words::{Message, msg};

use super::sight::Sight;

/// A trade with pages of its own.
pub(super) struct Crew {
    /// File name.
    pub(super) file: &'static str,
    /// The catalog's words for those who read them.
    pub(super) trades: &'static [&'static str],
    /// What its calculations stand under.
    pub(super) calculations: &'static [Trade],
    /// Running head: for whom.
    pub(super) running: fn() -> Message,
}

/// The trades, in the order the work calls them.
pub(super) const CREWS: [Crew; 5] = [
    Crew {
        file: "trade-framer",
        trades: &["framer", "carpenter", "engineer"],
        calculations: &[Trade::Framing],
        running: || msg!("pages-for-framer"),
    },
    Crew {
        file: "trade-plumber",
        trades: &["plumber", "gas fitter"],
        calculations: &[Trade::Drains, Trade::Gas],
        running: || msg!("pages-for-plumber"),
    },
    Crew {
        file: "trade-electrician",
        trades: &["electrician"],
        calculations: &[Trade::Electrical, Trade::Lights],
        running: || msg!("pages-for-electrician"),
    },
    Crew { file: "trade-hvac", trades: &["HVAC"], calculations: &[], running: || msg!("pages-for-hvac") },
    Crew {
        file: "trade-drywall",
        trades: &["drywall", "painter"],
        calculations: &[Trade::Openings],
        running: || msg!("pages-for-drywall"),
    },
];

impl Crew {
    /// Whether it leads at a condition: the first that the catalog names.
    pub(super) fn leads(&self, sight: &Sight<'_>, c: &ConditionForecast) -> bool {
        let first = sight.catalogued(c).and_then(|condition| condition.trades.first());
        let first = first.map_or(c.trade.as_str(), String::as_str);
        self.trades.contains(&first)
    }

    /// Whether it is needed at a condition after another trade.
    pub(super) fn follows(&self, sight: &Sight<'_>, c: &ConditionForecast) -> bool {
        let all = sight.catalogued(c).map(|condition| condition.trades.as_slice()).unwrap_or_default();
        !self.leads(sight, c) && all.iter().any(|t| self.trades.contains(&t.as_str()))
    }

    /// Whether a calculation is its own.
    pub(super) fn calculates(&self, word: &str) -> bool {
        let of = trade::by_trade().find(|(_, list)| list.iter().any(|c| c.word == word));
        of.is_some_and(|(trade, _)| self.calculations.contains(&trade))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_trade_of_the_catalog_has_pages_or_is_told_by_the_office() {
        // These come once and are sent by the office, which has everything in its own pages.
        let by_the_office = [
            "abatement",
            "all",
            "certified renovator",
            "concrete",
            "demolition",
            "excavation",
            "floor",
            "health department",
            "insulation",
            "internet provider",
            "mason",
            "pest",
            "remediation",
            "roofer",
            "scanning",
            "siding",
            "tile",
            "utility",
        ];
        let catalog = survey::catalog::builtin().unwrap();
        for trade in catalog.conditions.iter().flat_map(|c| &c.trades) {
            let crews = CREWS.iter().filter(|crew| crew.trades.contains(&trade.as_str())).count();
            assert_eq!(crews + usize::from(by_the_office.contains(&trade.as_str())), 1, "{trade}");
        }
    }

    #[test]
    fn no_calculation_stands_under_two_trades() {
        for c in trade::by_trade().flat_map(|(_, list)| list) {
            assert!(CREWS.iter().filter(|crew| crew.calculates(c.word)).count() <= 1, "{}", c.word);
        }
    }
}
