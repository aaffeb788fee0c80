//! What the walk still asks in one house: the order is the walk's, what an answer is good for comes from the odds.

use survey::guide::{self, Plan, Status, Step, Use};
use survey::units::Money;

use crate::bearing::Bearing;
use crate::error::AssessError;
use crate::forecast::cents;
use crate::live::Odds;

/// The rest of the walk.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Questions<'a> {
    /// What is asked, in order, and what is not.
    pub plan: Plan<'a>,
    /// What each open step bears on, in walking order.
    pub bearings: Vec<Bearing>,
}

impl Questions<'_> {
    /// What a step bears on.
    pub fn bearing(&self, step: &Step<'_>) -> Option<&Bearing> {
        self.bearings.iter().find(|b| b.item == step.item.id && b.place == step.place)
    }
}

impl<'a> Odds<'a> {
    /// What is still asked; `from`, a station or a place, is where the walk goes on. `None` if `go_on` said no.
    ///
    /// # Errors
    /// As [`crate::Live::odds`].
    pub fn questions(
        &mut self,
        from: Option<&str>,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Questions<'a>>, AssessError> {
        let (catalog, picture) = (self.request.catalog, self.request.picture);
        let costs = self.request.rules.question();
        let open: Vec<Step<'_>> = guide::walk_as_listed(catalog, picture)
            .into_iter()
            .filter(|step| matches!(step.status, Status::Open | Status::SecondLook))
            .collect();
        let Some(bearings) = self.bearings(&open, go_on)? else { return Ok(None) };
        let mut questions = Questions { plan: Plan::default(), bearings };
        let least: Money = cents(costs);
        questions.plan = guide::plan(catalog, picture, guide::Scope::default(), from, least, |step| {
            questions
                .bearing(step)
                .map_or_else(Use::default, |b| Use { matters: b.worth_asking(costs), value: cents(b.value) })
        });
        Ok(Some(questions))
    }
}
