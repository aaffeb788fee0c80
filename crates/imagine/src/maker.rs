//! Drawing one house: plan, places, context, scope, hidden truth, clues, answers, walk, findings. Each part has its own
//! stream. A house that has several of a kind is gone through place by place, by a catalog written out for it
//! ([`Catalog::place_by_place`]); only its network is that of the house as a whole.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use assessment::{ClueTables, scope_of};
use survey::Key;
use survey::catalog::{AnswerKind, Catalog, Condition, MorePlace};
use survey::log::Value;

use crate::context::{self, scope_item_ids, takes_out};
use crate::forward::States;
use crate::ground::{Ground, Sight};
use crate::habits::Habits;
use crate::house::{Said, SimulatedHouse, Step, Who, places_seen};
use crate::measured::Measurable;
use crate::speak::{Facts, Question, Spoken};
use crate::stream::Stream;
use crate::{ImagineError, measured, outcome, plan, suspect, walk};

/// Most draws of an item's clues until an answer can say them.
const AGAIN: u32 = 400;

/// What houses are drawn from.
#[derive(Clone, Debug)]
pub struct Truth {
    /// The catalog that is true of the houses.
    pub catalog: Catalog,
    /// Its clue tables.
    pub tables: ClueTables,
    /// What it does not say.
    pub habits: Habits,
}

impl Truth {
    /// A catalog that is true, with the habits built in.
    ///
    /// # Errors
    /// None that a test would let pass.
    pub fn new(catalog: Catalog) -> Result<Self, ImagineError> {
        let tables = ClueTables::fit(&catalog);
        Ok(Self { catalog, tables, habits: Habits::builtin()? })
    }
}

/// Draws houses: the walk is that of one catalog, the truth that of another or the same.
pub(crate) struct Maker<'a> {
    walk: &'a Catalog,
    truth: &'a Truth,
    bare: Ground,
    /// Items whose answers say what is in scope.
    decide_scope: BTreeSet<String>,
}

/// What one house is gone through with: the catalogs and habits, place by place where it has several of a kind.
struct World<'a> {
    walk: Cow<'a, Catalog>,
    truth: Cow<'a, Catalog>,
    habits: Cow<'a, Habits>,
    more: Vec<MorePlace>,
}

/// A house while it is drawn.
struct Draft<'a> {
    scope: Vec<&'a Condition>,
    scope_ids: BTreeSet<String>,
    ground: Ground,
    states: States,
    facts: Facts,
    tolerances: BTreeMap<String, survey::units::Length>,
    redrawn: Vec<String>,
}

impl<'a> Maker<'a> {
    pub(crate) fn new(walk: &'a Catalog, truth: &'a Truth) -> Result<Self, ImagineError> {
        for item in &truth.catalog.items {
            if walk.item(&item.id).is_none_or(|w| w.answer != item.answer) {
                return Err(ImagineError::OtherWalk { item: item.id.clone() });
            }
        }
        let bare = Ground::new(&truth.catalog, &truth.tables, &[], false)?;
        Ok(Self { walk, truth, bare, decide_scope: scope_item_ids(&truth.catalog) })
    }

    pub(crate) fn house(&self, seed: u64, number: u64) -> Result<SimulatedHouse, ImagineError> {
        let stream = |purpose: &str| Stream::new(seed, number, purpose);
        let plan = plan::draw(self.walk, &self.truth.habits, &mut stream("plan"));
        let world =
            self.world(plan::several(self.walk, &self.truth.habits, &plan.jobs, &mut stream("several")));
        let (walked, truth, habits): (&Catalog, &Catalog, &Habits) =
            (&world.walk, &world.truth, &world.habits);
        let context = context::draw(truth, habits, &plan.jobs, &self.bare, &mut stream("context"));
        let mut draft = self.draft(&world, context, &mut stream("truth"))?;
        let present: BTreeSet<String> = draft
            .ground
            .conditions()
            .iter()
            .filter(|(_, node)| draft.states[*node] == Some(1))
            .map(|(id, _)| id.clone())
            .collect();
        self.measure(&world, &mut draft, &present, &mut stream("measured"));
        self.speak(&world, &mut draft, &mut stream("answers"));

        let Draft { scope, ground, states, facts, tolerances, redrawn, .. } = draft;

        let gone = walk::missing(walked, habits, &mut stream("missing"));
        let mut said: BTreeMap<String, Said> = BTreeMap::new();
        for item in walked.items.iter().filter(|i| !matches!(i.answer, AnswerKind::Checks)) {
            let there = facts.get(&item.id).cloned();
            let value = gone.get(&item.id).cloned().or_else(|| there.clone()).unwrap_or(Value::CantTell);
            let tolerance = tolerances.get(&item.id).copied().filter(|_| matches!(value, Value::Length(_)));
            said.insert(item.id.clone(), Said { value, tolerance, there });
        }
        let mut steps = walk::walk(walked, habits, &said, &mut stream("walk"));
        let checks = walk::check_results(habits, &scope, &present, &mut stream("checks"));
        let recorded: Facts = steps.iter().map(|s| (s.item.clone(), s.value.clone())).collect();
        let odds: Vec<f64> = scope.iter().map(|c| suspect::odds(truth, c, &recorded, |_| true)).collect();
        let looks = walk::looks(truth, habits, &scope, &recorded, &odds, &checks, &mut stream("looks"));
        let states_of = outcome::states(&scope, &present, &facts, &mut stream("cost"));
        let findings = outcome::findings(habits, &scope, &odds, &states_of, &looks, &mut stream("findings"));
        if let Some(item) = walked.items.iter().find(|i| matches!(i.answer, AnswerKind::Checks))
            && !looks.is_empty()
        {
            let minute = steps.last().map_or(0, |s| s.minute) + 15;
            let (item, place, value) = (item.id.clone(), item.station.clone(), Value::Checks(looks));
            steps.push(Step { item, place, value, tolerance: None, who: Who::Surveyor, minute });
        }
        let opened =
            |id: &str| findings.iter().any(|f| f.condition == id && f.outcome != review::Outcome::NotOpened);
        let clues = ground_clues(truth, &ground, &states);
        Ok(SimulatedHouse {
            seed,
            number,
            label: format!("Invented house {seed}-{number}"),
            note: format!(
                "An invented house: number {number} of seed {seed} ({}), drawn from catalog version {} ({}). \
                 Nobody lives in it; every answer, price and finding was made up by chance.",
                plan.name,
                truth.version,
                truth.digest.short()
            ),
            contract: plan.contract,
            contract_days: plan.days,
            places: world.more.clone(),
            loss: outcome::loss(&scope, &states_of, &|_| true),
            paid: outcome::loss(&scope, &states_of, &opened),
            shows: ground.shows().iter().map(|(name, n)| (name.clone(), states[*n] == Some(1))).collect(),
            conditions: states_of,
            said,
            walk: steps,
            clues,
            redrawn,
            checks,
            findings,
        })
    }

    /// What a house with these places beyond the first is gone through with.
    fn world(&self, more: Vec<MorePlace>) -> World<'a> {
        let Truth { catalog: truth, habits, .. } = self.truth;
        if more.is_empty() {
            let (walk, truth, habits) =
                (Cow::Borrowed(self.walk), Cow::Borrowed(truth), Cow::Borrowed(habits));
            return World { walk, truth, habits, more };
        }
        World {
            walk: Cow::Owned(self.walk.place_by_place(&more)),
            truth: Cow::Owned(truth.place_by_place(&more)),
            habits: Cow::Owned(habits.place_by_place(self.walk, &more)),
            more,
        }
    }

    /// Scope, network and hidden truth.
    fn draft<'w>(
        &self,
        world: &'w World<'a>,
        context: context::Context,
        stream: &mut Stream,
    ) -> Result<Draft<'w>, ImagineError> {
        let Truth { catalog: true_of, tables, .. } = self.truth;
        let truth: &Catalog = &world.truth;
        let facts = context.facts;
        let mut scope: Vec<&Condition> =
            truth.conditions.iter().filter(|c| c.applies(&facts) != Some(false)).collect();
        let ground = if world.more.is_empty() {
            Ground::new(truth, tables, &scope, context.room.is_some())?
        } else {
            let answers = facts.iter().map(|(key, value)| (key.as_str(), value.clone(), None));
            let mut picture = measured::picture(self.walk, answers);
            picture.places = places_seen(&world.more);
            let whole = scope_of(true_of, &picture);
            scope = whole.iter().filter_map(|s| truth.condition(s.key())).collect();
            Ground::over((true_of, tables), truth, &whole, context.room.is_some())?
        };
        let mut states = ground.blank();
        for (factor, level) in &context.levels {
            ground.settle_factor(&mut states, factor, *level);
        }
        if let Some(band) = context.room {
            ground.settle_room_era(&mut states, band);
        }
        let said: Vec<(&Sight, Vec<Option<bool>>)> = facts
            .keys()
            .flat_map(|item| ground.sights(item))
            .map(|sight| (sight, sight.said(truth, &facts)))
            .filter(|(_, said)| said.iter().any(Option::is_some))
            .collect();
        let mut redrawn = Vec::new();
        if !said.is_empty() && !ground.draw_as_said(&said, &mut states, stream) {
            redrawn.extend(facts.keys().filter(|i| !ground.sights(i).is_empty()).cloned());
        }
        ground.draw(&mut states, stream);
        let scope_ids = scope.iter().map(|c| c.id.clone()).collect();
        Ok(Draft { scope, scope_ids, ground, states, facts, tolerances: BTreeMap::new(), redrawn })
    }

    /// The inputs of the calculations that stand in for conditions in scope.
    fn measure<'w>(
        &self,
        world: &'w World<'a>,
        draft: &mut Draft<'w>,
        present: &BTreeSet<String>,
        stream: &mut Stream,
    ) {
        let truth: &Catalog = &world.truth;
        let measurable = draft.scope.iter().filter_map(|c| {
            let by = c.measured_by.as_ref()?;
            Some(Measurable { condition: c, by, present: present.contains(&c.id) })
        });
        let all: Vec<Measurable<'_>> = measurable.collect();
        for group in measured::groups(&all, &draft.facts) {
            let ask = |item: &str, free: &[String], facts: &Facts, stream: &mut Stream| {
                let bound = |s: &&Sight| !s.clues.iter().all(|c| free.contains(c));
                self.question(world, draft, item, facts, &bound)?(stream)
            };
            let drawn = measured::draw(&ask, truth, &world.walk, &group, &draft.facts, stream);
            let items: Vec<String> = drawn.keys().cloned().collect();
            for (item, spoken) in drawn {
                draft.take(item, spoken);
            }
            for item in items {
                draft.read_off(truth, &item);
            }
        }
    }

    /// Every other answer, in walking order.
    fn speak<'w>(&self, world: &'w World<'a>, draft: &mut Draft<'w>, stream: &mut Stream) {
        for item in &world.walk.items {
            if draft.facts.contains_key(&item.id) || matches!(item.answer, AnswerKind::Checks) {
                continue;
            }
            let mut spoken = None;
            for tries in 0..AGAIN {
                spoken = self
                    .question(world, draft, &item.id, &draft.facts, &|_| true)
                    .and_then(|ask| ask(stream));
                if spoken.is_some() || draft.ground.sights(&item.id).is_empty() {
                    break;
                }
                if tries == 0 {
                    draft.redrawn.push(item.id.clone());
                }
                draft.ground.draw_sights_again(&item.id, &mut draft.states, stream);
            }
            if let Some(spoken) = spoken {
                draft.take(item.id.clone(), spoken);
            }
        }
    }

    /// Puts the question of an item with the sights that count.
    fn question<'b, 'w>(
        &'b self,
        world: &'b World<'a>,
        draft: &'b Draft<'w>,
        item: &str,
        facts: &'b Facts,
        counts: &dyn Fn(&&Sight) -> bool,
    ) -> Option<impl FnOnce(&mut Stream) -> Option<Spoken> + use<'a, 'b, 'w>> {
        let found = world.walk.item(item)?;
        let sights: Vec<&Sight> = draft.ground.sights(item).iter().filter(|s| counts(s)).collect();
        let (truth, habits): (&Catalog, &Habits) = (&world.truth, &world.habits);
        Some(move |stream: &mut Stream| {
            let decides = self.decide_scope.contains(Key::parse(&found.id).id);
            let forbidden = |value: &Value| decides && takes_out(truth, facts, &found.id, value);
            let scope = &draft.scope_ids;
            let question =
                Question { catalog: truth, habits, item: found, sights, facts, forbidden: &forbidden, scope };
            question.answer(&draft.states, stream)
        })
    }
}

impl Draft<'_> {
    fn take(&mut self, item: String, spoken: Spoken) {
        if let Some(tolerance) = spoken.tolerance {
            self.tolerances.insert(item.clone(), tolerance);
        }
        self.facts.insert(item, spoken.value);
    }
    /// Settles the sights of an item as its answer says.
    fn read_off(&mut self, catalog: &Catalog, item: &str) {
        for sight in self.ground.sights(item) {
            let said = sight.said(catalog, &self.facts);
            let fits = |row: &Vec<bool>| said.iter().zip(row).all(|(s, r)| s.is_none_or(|s| s == *r));
            if said.iter().any(Option::is_some)
                && !fits(&sight.row(&self.states).to_vec())
                && let Some(state) = sight.rows.iter().position(fits)
            {
                self.states[sight.node] = Some(state);
            }
        }
    }
}

/// What is to be seen, clue by clue.
fn ground_clues(catalog: &Catalog, ground: &Ground, states: &States) -> BTreeMap<String, bool> {
    let sights = catalog.items.iter().flat_map(|i| ground.sights(&i.id));
    sights.flat_map(|s| s.clues.iter().cloned().zip(s.row(states).iter().copied())).collect()
}
