//! Invented houses on a device, recorded answer by answer through the ordinary actions; and, sealed, at an office.

use std::cell::Cell;
use std::path::Path;

use actions::{
    Desk, Entered, Error, Kind, Kit, NewSurvey, Random, SealOptions, add_place, note, open_survey, record,
    seal,
};
use imagine::{Found, Payer, SimulatedHouse, Step, Who};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng as _, SeedableRng as _};
use review::{Finding, PaidBy};
use serde::Serialize;
use survey::catalog::Catalog;
use survey::log::{CheckResult, Value};
use survey::units::Length;
use survey::{Digest, Key, Stamp, SurveyId};

use crate::fail;
use crate::out::Out;
use crate::world::SetClock;

/// The first house is walked on this morning, each further one a day earlier.
const MORNING: &str = "2026-03-02T08:30:00-06:00";
const DAY: i64 = 24 * 3_600_000;
/// Demolition comes so many days after the walk.
const DEMOLITION: i64 = 45;

/// What was made.
#[derive(Serialize)]
pub(super) struct Made {
    /// Houses on the device.
    pub(super) houses: u64,
    /// Entries in its logs.
    pub(super) entries: u64,
    /// Drawn photographs among them.
    pub(super) photographs: u64,
    /// Folder of the device.
    pub(super) device: String,
    /// Folder of the office, if packets were made.
    pub(super) office: Option<String>,
    /// Findings entered there.
    pub(super) findings: u64,
}

/// Random bits of ids that follow from the seed, so that the same simulation makes the same ids.
struct Seeded(ChaCha8Rng);

impl Random for Seeded {
    fn ten(&mut self) -> [u8; 10] {
        let mut bytes = [0; 10];
        self.0.fill_bytes(&mut bytes);
        bytes
    }
}

/// Writes the houses into `into`/device; sealed, also packets and an office with findings.
pub(super) fn write(
    houses: &[SimulatedHouse],
    catalog: Catalog,
    into: &Path,
    (sealed, photographs): (bool, u64),
    out: &mut Out,
) -> Result<Made, Error> {
    let folder = into.join("device");
    let mut made = Made {
        houses: 0,
        entries: 0,
        photographs: 0,
        device: folder.display().to_string(),
        office: sealed.then(|| into.join("office").display().to_string()),
        findings: 0,
    };
    let clock = SetClock(Cell::new(morning(0)?));
    let seed = houses.first().map_or(0, |h| h.seed);
    let words = format!("underlath simulate|{seed}|ids");
    let mut random = Seeded(ChaCha8Rng::from_seed(*Digest::of(words.as_bytes()).as_bytes()));
    let mut kit = Kit { clock: &clock, random: &mut random, by: who(Who::Surveyor).to_owned() };
    let mut desk = Desk::open(&folder, catalog, &mut kit)?;
    let mut office = match sealed {
        true => Some(office::Desk::open(&into.join("office")).map_err(fail::office)?),
        false => None,
    };
    for (n, house) in (0i64..).zip(houses) {
        let start = morning(n)?;
        clock.0.set(start);
        let survey = walk(&mut desk, house, start, &clock, &mut kit)?;
        super::pictures::take(&mut desk, house, survey, photographs, &mut kit)?;
        made.houses += 1;
        out.progress(&format!("{} of {} houses", made.houses, houses.len()));
        made.photographs += photographs;
        made.entries += (house.walk.len() + house.places.len()) as u64 + photographs + 2;
        if let Some(office) = &mut office {
            made.findings += hand_over(&mut desk, office, house, survey, into, (&clock, start), &mut kit)?;
            made.entries += 1;
        }
    }
    out.progress("");
    Ok(made)
}

fn morning(days_before: i64) -> Result<Stamp, Error> {
    let first: Stamp = MORNING.parse().map_err(|e| Error::new(Kind::Internal, format!("{e}")))?;
    later(first, -days_before * DAY)
}

fn later(stamp: Stamp, ms: i64) -> Result<Stamp, Error> {
    Stamp::new(stamp.unix_ms() + ms, stamp.offset_min()).map_err(|e| {
        Error::new(Kind::Input, e.to_string()).hint("fewer houses: each is walked on a day of its own")
    })
}

fn who(who: Who) -> &'static str {
    match who {
        Who::Surveyor => "invented surveyor",
        Who::Household => "invented household",
        Who::Office => "invented office",
    }
}

/// Opens the house, says that it is invented, and records the walk.
fn walk(
    desk: &mut Desk,
    house: &SimulatedHouse,
    start: Stamp,
    clock: &SetClock,
    kit: &mut Kit<'_>,
) -> Result<SurveyId, Error> {
    kit.by = who(Who::Surveyor).to_owned();
    let new = NewSurvey {
        label: house.label.clone(),
        contract: Some(house.contract),
        contract_days: Some(house.contract_days),
    };
    let survey = open_survey(desk, &new, kit)?;
    note(desk, survey, None, &house.note, kit)?;
    for place in &house.places {
        add_place(desk, survey, &place.station, &place.label, kit)?;
    }
    for step in &house.walk {
        clock.0.set(later(start, i64::from(step.minute) * 60_000)?);
        kit.by = who(step.who).to_owned();
        let recorded = record(desk, survey, &asked_at(step), &entered(step), &[], kit)?;
        let kept = match &recorded.entry.body {
            survey::log::Body::Answer(answer) => Some(&answer.value),
            _ => None,
        };
        if kept != Some(&step.value) {
            let what = format!("{}: {:?} was recorded as {kept:?}", step.item, step.value);
            return Err(Error::new(Kind::Internal, what));
        }
    }
    kit.by = who(Who::Surveyor).to_owned();
    Ok(survey)
}

/// The item with its place, as it must be said where the house has several of a kind.
pub(super) fn asked_at(step: &Step) -> String {
    format!("{}@{}", Key::parse(&step.item).id, step.place)
}

/// The words by which a person would enter an answer.
fn entered(step: &Step) -> Entered {
    let unsure = || vec!["cant-tell".to_owned()];
    let (answer, could_not_reach) = match &step.value {
        Value::Choice(option) => (vec![option.clone()], None),
        Value::Choices(options) => (options.clone(), None),
        Value::Length(length) => (vec![length.exact_mm()], None),
        Value::Number(number) => (vec![number.to_string()], None),
        Value::Checks(results) => (results.iter().map(check_words).collect(), None),
        Value::CouldNotReach(because) => (vec![], Some(because.clone())),
        Value::Text(_) | Value::CantTell | Value::Withdrawn => (unsure(), None),
    };
    let tolerance = step.tolerance.map(Length::exact_mm);
    Entered { answer, could_not_reach, tolerance, reason: None, sure: false }
}

fn check_words(result: &CheckResult) -> String {
    format!("{} {} {}", result.check, result.result.word(), result.conditions.join(","))
}

/// Seals the house, has the office receive it, and enters what was found.
fn hand_over(
    desk: &mut Desk,
    office: &mut office::Desk,
    house: &SimulatedHouse,
    survey: SurveyId,
    into: &Path,
    (clock, start): (&SetClock, Stamp),
    kit: &mut Kit<'_>,
) -> Result<u64, Error> {
    let packets = into.join("packets");
    std::fs::create_dir_all(&packets).map_err(|e| fail::file(&packets, &e))?;
    let sealed = seal(desk, survey, &packets, &SealOptions::default(), kit)?;
    office.receive(&sealed.path, kit.now(), office::Uncertified::Refuse).map_err(fail::office)?;
    let at = later(start, DEMOLITION * DAY)?;
    clock.0.set(at);
    for found in &house.findings {
        office.enter(survey, &finding(found, at), desk.catalog()).map_err(fail::office)?;
    }
    Ok(house.findings.len() as u64)
}

fn finding(found: &Found, at: Stamp) -> Finding {
    let paid = match found.paid_by {
        None => String::new(),
        Some(Payer::Contract) => " It stood in the contract price.".to_owned(),
        Some(Payer::Household) => " The household paid by a change order.".to_owned(),
        Some(Payer::Firm) => " The firm paid.".to_owned(),
        Some(Payer::Shared) => " Household and firm shared the cost.".to_owned(),
    };
    Finding {
        condition: found.condition.clone(),
        outcome: found.outcome,
        cost: found.cost,
        days: found.days,
        priced_before_signing: found.priced_before_signing,
        paid_by: match found.paid_by {
            Some(Payer::Household) => Some(PaidBy::ChangeOrder),
            Some(Payer::Firm) => Some(PaidBy::Absorbed),
            // A shared cost has no word of its own; its note says so.
            None | Some(Payer::Contract | Payer::Shared) => None,
        },
        note: format!("Invented.{paid}"),
        photo: None,
        by: "invented reviewer".to_owned(),
        at,
    }
}
