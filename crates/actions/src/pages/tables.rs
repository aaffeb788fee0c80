//! Conditions, openings and measurements as tables: figures as they are frozen, with their unit in the head.

use assessment::forecast::Advice;
use packet::{Cell, Table, Tables};
use survey::catalog::AnswerKind;
use survey::log::Value;
use survey::units::Length;
use views::phrases;
use words::{Message, msg};

use super::sight::Sight;

pub(super) fn tables(sight: &Sight<'_>) -> Tables {
    Tables(vec![conditions(sight), openings(sight), measurements(sight)])
}

fn heads(sight: &Sight<'_>, list: &[Message]) -> Vec<String> {
    list.iter().map(|head| sight.words(head)).collect()
}

fn conditions(sight: &Sight<'_>) -> Table {
    let say = sight.say;
    let row = |c: &assessment::forecast::ConditionForecast| {
        let mut cells: Vec<Cell> = vec![
            c.id.clone().into(),
            phrases::bare_name(say.words, c).into(),
            c.place.as_ref().map(|p| p.label.clone()).unwrap_or_default().into(),
            c.probability.into(),
        ];
        cells.extend([0, 1].map(|end| c.band.map_or(Cell::Empty, |band| band[end].into())));
        cells.extend(c.cost.map(|sum| Cell::Number(sum.dollars())));
        cells.extend(c.days.map(Cell::Number));
        cells.extend([
            Cell::Text(sight.stage(&c.stage)),
            sight.trade(&c.trade).into(),
            phrases::advice_short(say.words, &c.advice).into(),
            match &c.advice {
                Advice::Price { amount: Some(sum), .. } => sum.dollars().into(),
                _ => Cell::Empty,
            },
            sight.caution(c).into(),
        ]);
        cells
    };
    Table {
        name: "conditions",
        heads: heads(
            sight,
            &[
                msg!("table-key"),
                msg!("table-condition"),
                msg!("table-place"),
                msg!("table-probability"),
                msg!("table-band-low"),
                msg!("table-band-high"),
                msg!("table-cost-low"),
                msg!("table-cost-likely"),
                msg!("table-cost-high"),
                msg!("table-days-low"),
                msg!("table-days-likely"),
                msg!("table-days-high"),
                msg!("table-stage"),
                msg!("table-trade"),
                msg!("table-do"),
                msg!("table-amount"),
                msg!("table-decides"),
            ],
        ),
        rows: sight.forecast.conditions.iter().map(row).collect(),
    }
}

fn openings(sight: &Sight<'_>) -> Table {
    let rows = sight.listed().flat_map(|c| {
        super::trades::openings(sight, std::iter::once(c)).into_iter().map(move |o| {
            let sizes = c.cut.map_or([const { Cell::Empty }; 5], |cut| {
                let [few, usual, many] = cut.number.map(f64::from);
                [few, usual, many, cut.width.inches(), cut.height.inches()].map(Cell::Number)
            });
            let head = [Cell::Text(o.what), o.place.into(), c.probability.into(), o.stage.into()];
            head.into_iter().chain(sizes).chain([o.opens.into(), o.closes.into()]).collect()
        })
    });
    Table {
        name: "openings",
        heads: heads(
            sight,
            &[
                msg!("table-opening-for"),
                msg!("table-place"),
                msg!("table-probability"),
                msg!("table-stage"),
                msg!("table-openings-few"),
                msg!("table-openings-usual"),
                msg!("table-openings-many"),
                msg!("table-opening-width"),
                msg!("table-opening-height"),
                msg!("table-opens"),
                msg!("table-closes"),
            ],
        ),
        rows: rows.collect(),
    }
}

fn measurements(sight: &Sight<'_>) -> Table {
    let say = sight.say;
    let inches = |length: Length| length.inches();
    let row = |(place, item, standing): (&str, &survey::catalog::Item, &survey::model::Standing)| {
        let claim = standing.leading();
        let (value, unit) = match (&item.answer, &claim.answer.value) {
            (_, Value::Length(length)) => (Cell::Number(inches(*length)), "in".to_owned()),
            (AnswerKind::Number { unit, .. }, Value::Number(q)) => {
                (Cell::Number(q.get()), say.unit(unit).into_owned())
            }
            (AnswerKind::Number { .. } | AnswerKind::Length { .. }, _) => (Cell::Empty, String::new()),
            _ => return None,
        };
        Some(vec![
            Cell::Text(phrases::place_words(say, sight.picture, place)),
            say.question(&item.id).into_owned().into(),
            phrases::value_words(say, &item.id, &claim.answer.value).into(),
            value,
            unit.into(),
            claim.answer.tolerance.map_or(Cell::Empty, |t| inches(t).into()),
            claim.answer.entered.clone().unwrap_or_default().into(),
            claim.by.clone().into(),
            claim.at.to_string().into(),
        ])
    };
    Table {
        name: "measurements",
        heads: heads(
            sight,
            &[
                msg!("table-place"),
                msg!("table-question"),
                msg!("table-answer"),
                msg!("table-value"),
                msg!("table-unit"),
                msg!("table-tolerance"),
                msg!("table-entered"),
                msg!("table-who"),
                msg!("table-when"),
            ],
        ),
        rows: sight.answers().into_iter().filter_map(row).collect(),
    }
}
