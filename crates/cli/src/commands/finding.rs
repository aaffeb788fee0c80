//! `underlath finding`.

use actions::{Clock as _, Error};
use review::{Finding, Outcome, PaidBy};
use survey::Digest;
use survey::units::Money;
use words::msg;

use super::Room;
use super::photo::read;
use crate::args::{self, Found};
use crate::fail;
use crate::out::Out;
use crate::world::{SystemClock, person};

pub fn run(args: &args::Finding, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let catalog = room.catalog()?;
    let mut office = room.office()?;
    let survey = office.find(&args.house).map_err(fail::office)?;
    let photo = match &args.photo {
        None => None,
        Some(path) => Some(keep_photo(&mut office, path)?),
    };
    let finding = Finding {
        condition: args.condition.clone(),
        outcome: match args.found {
            Found::Found => Outcome::Found,
            Found::NotThere => Outcome::NotThere,
            Found::NotOpened => Outcome::NotOpened,
        },
        cost: Money::from_dollars(args.cost),
        days: args.days,
        priced_before_signing: args.priced_before_signing,
        paid_by: args.paid_by.map(|paid| match paid {
            args::PaidBy::Absorbed => PaidBy::Absorbed,
            args::PaidBy::Allowance => PaidBy::Allowance,
            args::PaidBy::ChangeOrder => PaidBy::ChangeOrder,
        }),
        note: args.note.clone(),
        photo,
        by: person(room.args.by.clone())?,
        at: SystemClock.now(),
    };
    let known = office.demolition(survey).map_err(fail::office)?.is_some();
    let n = office.enter(survey, &finding, &catalog).map_err(fail::office)?;
    if out.json() {
        out.value(&serde_json::json!({ "survey": survey, "n": n, "finding": finding }));
    } else {
        let key = catalog.key_of(&args.condition).unwrap_or_else(|| args.condition.clone());
        let outcome = super::outcome(Some(finding.outcome));
        out.tell(msg!("finding-done", condition = key, outcome = outcome, cost = finding.cost, n = n));
        if !known {
            out.tell(msg!("finding-begins-demolition"));
        }
    }
    Ok(())
}

/// Files a photograph of a finding at the office.
pub fn keep_photo(office: &mut office::Desk, path: &std::path::Path) -> Result<Digest, Error> {
    let bytes = read(path)?;
    photo::intake(&bytes, &super::photo::file_name(path))?;
    office.keep_photo(&bytes).map_err(fail::office)
}
