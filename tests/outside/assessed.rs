//! Houses made of a few answers and assessed, each once: the one place where the checks below reach into an assessment.

use std::collections::BTreeMap;

use actions::{Desk, Kit, assess};
use assessment::{Forecast, HouseNetwork};
use inference::{Evidence, posterior};
use survey::catalog::Catalog;

use crate::support::{Counted, Still, catalog, desk_with, house};

/// Answers of one house: item and words.
pub type Answers = Vec<(String, Vec<String>)>;

/// A desk and what was assessed on it.
pub struct Houses {
    desk: Desk,
    clock: Still,
    random: Counted,
    known: BTreeMap<Answers, (Forecast, HouseNetwork)>,
    _dir: tempfile::TempDir,
}

impl Houses {
    /// A desk with the built-in catalog.
    pub fn new() -> Self {
        Self::by(catalog())
    }
    /// A desk with another catalog.
    pub fn by(catalog: Catalog) -> Self {
        let dir = tempfile::tempdir().unwrap();
        let (desk, clock, random) = desk_with(dir.path(), catalog);
        Self { desk, clock, random, known: BTreeMap::new(), _dir: dir }
    }
    /// The catalog.
    pub fn catalog(&self) -> &Catalog {
        self.desk.catalog()
    }
    fn assessed(&mut self, answers: &Answers) -> &(Forecast, HouseNetwork) {
        if !self.known.contains_key(answers) {
            let words: Vec<(&str, Vec<&str>)> = answers
                .iter()
                .map(|(item, words)| (item.as_str(), words.iter().map(String::as_str).collect()))
                .collect();
            let given: Vec<(&str, &[&str])> = words.iter().map(|(i, w)| (*i, w.as_slice())).collect();
            let survey = house(&mut self.desk, &self.clock, &mut self.random, &given);
            let mut kit = Kit { clock: &self.clock, random: &mut self.random, by: "R. Ames".into() };
            let done = assess(&mut self.desk, survey, &mut kit).unwrap();
            self.known.insert(answers.clone(), (done.forecast, done.network));
        }
        &self.known[answers]
    }
    /// The frozen assessment.
    pub fn forecast(&mut self, answers: &Answers) -> &Forecast {
        &self.assessed(answers).0
    }
    /// P(condition | answers).
    pub fn p(&mut self, condition: &str, answers: &Answers) -> f64 {
        let found = self.forecast(answers).condition(condition);
        found.unwrap_or_else(|| panic!("{condition} is not in scope of {answers:?}")).probability
    }
    /// Distribution of a node of the network before evidence, by state.
    fn before(&mut self, answers: &Answers, node: &str) -> Option<Vec<(String, f64)>> {
        let net = &self.assessed(answers).1.net;
        let at = net.find(node)?;
        let shares = posterior(net, &Evidence::new()).unwrap().of(at).to_vec();
        Some(net.nodes()[at].states.iter().cloned().zip(shares).collect())
    }
    /// Shares of houses by level of a context factor.
    pub fn levels(&mut self, answers: &Answers, factor: &str) -> BTreeMap<String, f64> {
        let shares = self.before(answers, &format!("house.{factor}"));
        shares.unwrap_or_else(|| panic!("no factor {factor}")).into_iter().collect()
    }
    /// P(clue), its item having been asked. A clue that shares a node is seen in its own state and in those of the
    /// clues it contains.
    pub fn clue(&mut self, answers: &Answers, clue: &str) -> f64 {
        if let Some(alone) = self.before(answers, &format!("clue.{clue}")) {
            return alone[1].1;
        }
        let item = self.catalog().clue(clue).unwrap_or_else(|| panic!("no clue {clue}")).item.clone();
        let shares =
            self.before(answers, &format!("item.{item}")).unwrap_or_else(|| panic!("no node for {clue}"));
        let means = |id: &str| self.desk.catalog().clue(id).map(|c| c.true_when.clone());
        let wanted = means(clue);
        let inside = |state: &str| state == clue || contains(&wanted, &means(state));
        shares.iter().filter(|(state, _)| inside(state)).map(|(_, p)| p).sum()
    }
}

/// Whether the options of one clue hold those of another.
fn contains(outer: &Option<survey::catalog::TrueWhen>, inner: &Option<survey::catalog::TrueWhen>) -> bool {
    let options = |t: &Option<survey::catalog::TrueWhen>| -> Vec<String> {
        match t {
            Some(survey::catalog::TrueWhen::In(options)) => options.clone(),
            _ => Vec::new(),
        }
    };
    let (outer, inner) = (options(outer), options(inner));
    !inner.is_empty() && inner.iter().all(|o| outer.contains(o))
}

/// Answers written as (item, words separated by blanks).
pub fn answers(written: &[(&str, &str)]) -> Answers {
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect();
    written.iter().map(|(item, text)| ((*item).to_owned(), words(text))).collect()
}
