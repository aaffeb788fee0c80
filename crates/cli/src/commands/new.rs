//! `underlath new`.

use actions::{Error, NewSurvey, open_survey};
use survey::units::Money;
use words::msg;

use super::Room;
use crate::args::New;
use crate::out::Out;

pub fn run(args: &New, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let new = NewSurvey {
        label: args.label.clone(),
        contract: args.contract.map(Money::from_dollars),
        contract_days: args.days,
    };
    let survey = open_survey(&mut desk, &new, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({ "survey": survey, "label": args.label.trim() }));
    } else {
        out.tell(msg!("new-done", survey = survey.to_string(), label = args.label.trim()));
    }
    Ok(())
}
