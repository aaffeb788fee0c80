//! `lead-rule`: whether the federal lead rule's work practices apply to a piece of work in one room or outside.

use alloc::{format, vec::Vec};

use survey::catalog::{Book, Catalog, Family};
use survey::{Phrase, Said, say};

use crate::calculation::Calculation;
use crate::cite::across;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::measure::SquareFeet;
use crate::number::{in_100, show_number};
use crate::openings::CAUTION;
use crate::openings::lead::{LeadRule, never_minor, notes};
use crate::openings::rects::HAIR;
use crate::sheet::{Assumed, Change, Sheet, Standing};
use crate::tolerance::Budget;

/// One work, with what nobody has said left open.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Question {
    /// Year built.
    pub year: Option<u32>,
    /// Painted surface disturbed in the room, and two σ of it.
    pub inside: Option<(SquareFeet, SquareFeet)>,
    /// Painted surface disturbed outside, and two σ of it.
    pub outside: Option<(SquareFeet, SquareFeet)>,
    /// The same room within the days of one job.
    pub earlier_inside: SquareFeet,
    /// Outside within the days of one job.
    pub earlier_outside: SquareFeet,
    /// A window is replaced.
    pub window: Option<bool>,
    /// A painted surface is demolished.
    pub demolition: Option<bool>,
    /// A prohibited practice is used.
    pub prohibited: Option<bool>,
    /// Housing for elderly or disabled people, or without a bedroom.
    pub special_housing: bool,
    /// A child under 6 lives or is expected there.
    pub child: Option<bool>,
}

/// Holds a work against the rule.
///
/// # Errors
/// No book of old materials, or one without the rule.
pub fn judge(question: &Question, catalog: &Catalog) -> Result<Sheet, TradeError> {
    across(&catalog.shelf, Family::OldMaterials, CAUTION, |book| under(question, book))
}

fn under(q: &Question, book: &Book) -> Result<Sheet, TradeError> {
    let rule = LeadRule::read(book)?;
    let (beside, tests) = notes(book, &rule)?;
    let mut sheet = Sheet::new(Standing::CannotSay, "", CAUTION);
    let mut over = Vec::new(); // chance over the value, by place
    for (place, area, earlier, limit) in [
        (Phrase("trade-inside"), q.inside, q.earlier_inside, rule.inside),
        (Phrase("trade-outside"), q.outside, q.earlier_outside, rule.outside),
    ] {
        let Some((area, tolerance)) =
            area.or((earlier > SquareFeet::ZERO).then_some((SquareFeet::ZERO, SquareFeet::ZERO)))
        else {
            continue;
        };
        let total = area.get() + earlier.get();
        let spread = Budget::new().with(Phrase("trade-painted-area"), 1.0, tolerance.get() / 2.0);
        let chance = spread.chance_over(total - HAIR, limit);
        over.push((place, total, limit, spread.sigma(), chance));
        sheet.line(
            say!("trade-painted-surface-2", place = place),
            say!(
                "trade-within-days-before-ft",
                area = show_number(area.get()),
                earlier = show_number(earlier.get()),
                days = rule.days,
                total = show_number(total),
                limit = show_number(limit),
                chance = in_100(chance)
            ),
        );
    }
    sheet.limits = rule.limits.clone();
    sheet.limits.extend(tests);
    sheet.notes = beside;
    let reasons = never_minor(q.window == Some(true), q.demolition == Some(true), q.prohibited == Some(true));
    let (standing, chance, sentence) = settle(q, &rule, &over, &reasons, &mut sheet.missing);
    sheet.standing = standing;
    sheet.sentence = sentence;
    sheet.chance_beyond = chance;
    let governing = over.iter().max_by(|a, b| a.4.total_cmp(&b.4));
    sheet.sigma = governing.map(|o| say!("trade-ft-3", o = format!("{:.3}", o.3), o2 = o.0));
    if standing != Standing::Within && standing != Standing::CannotSay {
        for (place, total, limit, sigma, _) in &over {
            let less = total - limit + 1.645 * sigma; // 95 in 100 of a normal spread stays under
            if less > HAIR {
                let text = say!(
                    "trade-ft-less-painted-surface",
                    less = show_number(less),
                    place = *place,
                    days = rule.days,
                    less2 = show_number(total - less)
                );
                sheet.changes.push(Change::new(text, reasons.is_empty() && over.len() == 1));
            }
        }
        let text = Phrase("trade-certified-persons-test-surface");
        sheet.changes.push(Change::new(text, false));
    }
    Ok(sheet)
}

/// Place, total, limit, σ, chance over the limit.
type Over = (Phrase, f64, f64, f64, f64);

fn settle(
    q: &Question,
    rule: &LeadRule,
    over: &[Over],
    reasons: &[Said],
    missing: &mut Vec<Said>,
) -> (Standing, Option<f64>, Said) {
    let Some(year) = q.year else {
        missing.push(say!("trade-year-built"));
        let text = Phrase("trade-without-year-house-was");
        return (Standing::CannotSay, None, text.into());
    };
    if !rule.names(year) {
        let text = say!(
            "trade-built-not-before-within",
            year = format!("{year}"),
            before = format!("{}", rule.before)
        );
        return (Standing::Within, Some(0.0), text);
    }
    if q.special_housing && q.child == Some(false) {
        let text = Phrase("trade-described-house-none-lead");
        return (Standing::Within, Some(0.0), text.into());
    }
    if !reasons.is_empty() {
        let text =
            say!("trade-built-beyond-minor-repair", year = format!("{year}"), reasons = reasons.to_vec());
        return (Standing::Beyond, Some(1.0), text);
    }
    let chance = 1.0 - over.iter().map(|o| 1.0 - o.4).product::<f64>();
    let standing = Standing::of_chance(chance);
    if over.is_empty() {
        missing.push(say!("trade-painted-area-disturbed-inside"));
    }
    if standing != Standing::Beyond {
        for (open, what) in [
            (q.window, Phrase("trade-whether-window-replaced")),
            (q.demolition, Phrase("trade-whether-painted-surface-demolished")),
            (q.prohibited, Phrase("trade-whether-prohibited-practice-used")),
        ] {
            if open.is_none() {
                missing.push(what.into());
            }
        }
    }
    if !missing.is_empty() {
        let text = say!("trade-built-cannot-said-whether", year = format!("{year}"));
        return (Standing::CannotSay, None, text);
    }
    let parts: Vec<Said> = over
        .iter()
        .map(|(place, total, limit, _, chance)| {
            let word = Standing::of_chance(*chance).lies();
            say!(
                "trade-ft-painted-surface-table",
                total = show_number(*total),
                place = *place,
                word = word,
                limit = show_number(*limit)
            )
        })
        .collect();
    let text = say!(
        "trade-built-chance-rules-work",
        year = format!("{year}"),
        parts = Said::between("; ", parts),
        chance = in_100(chance)
    );
    (standing, Some(chance), text)
}

const SQUARE_FEET: Kind = Kind::Number { unit: "ft²", min: 0.0, max: 10_000.0 };

/// Years a house may be built in.
pub(super) const YEARS: Kind = Kind::Number { unit: "", min: 1600.0, max: 2100.0 };

const FIELDS: &[Field] = &[
    Field::must("year", Phrase("trade-what-year-was-house"), YEARS),
    Field::may("interior-area", Phrase("trade-how-much-painted-surface"), SQUARE_FEET),
    Field::or("interior-tolerance", Phrase("trade-plus-minus-how-much"), SQUARE_FEET, "0 ft²"),
    Field::may("exterior-area", Phrase("trade-how-much-painted-surface-disturbed"), SQUARE_FEET),
    Field::or("exterior-tolerance", Phrase("trade-plus-minus-how-much-outside"), SQUARE_FEET, "0 ft²"),
    Field::or("earlier-interior", Phrase("trade-how-much-same-room"), SQUARE_FEET, "0 ft²"),
    Field::or("earlier-exterior", Phrase("trade-how-much-outside-30"), SQUARE_FEET, "0 ft²"),
    Field::may("window", Phrase("trade-window-replaced"), Kind::YesNo),
    Field::may("demolition", Phrase("trade-painted-surface-demolished-also"), Kind::YesNo),
    Field::may("prohibited-practice", Phrase("trade-practice-used-rule-prohibits"), Kind::YesNo),
    Field::or(
        "housing",
        Phrase("trade-housing-elderly-disabled-people"),
        Kind::Word(&["other", "elderly-or-disabled", "no-bedroom"]),
        "other",
    ),
    Field::may("child-under-6", Phrase("trade-does-child-under-6"), Kind::YesNo),
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "lead-rule",
    title: Phrase("trade-lead-rule"),
    about: Phrase("trade-whether-work-paint-house"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let feet = |name: &str| given.number(name).map(SquareFeet::new).transpose();
    let with = |area: &str, tolerance: &str| -> Result<_, TradeError> {
        let tolerance = feet(tolerance)?.unwrap_or_default();
        Ok(feet(area)?.map(|a| (a, tolerance)))
    };
    let question = Question {
        year: given.number("year").map(|y| y as u32),
        inside: with("interior-area", "interior-tolerance")?,
        outside: with("exterior-area", "exterior-tolerance")?,
        earlier_inside: feet("earlier-interior")?.unwrap_or_default(),
        earlier_outside: feet("earlier-exterior")?.unwrap_or_default(),
        window: given.yes("window"),
        demolition: given.yes("demolition"),
        prohibited: given.yes("prohibited-practice"),
        special_housing: given.word("housing").is_some_and(|w| w != "other"),
        child: given.yes("child-under-6"),
    };
    let mut sheet = judge(&question, catalog)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    for (place, name, other) in [
        (Phrase("trade-inside"), "interior-area", "exterior-area"),
        (Phrase("trade-outside"), "exterior-area", "interior-area"),
    ] {
        if !given.has(name) && given.has(other) {
            let item = say!("trade-painted-surface", place = place);
            sheet.assumed.push(Assumed::new(item, say!("trade-none-because-none-was")));
        }
    }
    Ok(sheet)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{English as _, EnglishList as _};
    use crate::testing::{catalog, run_words};

    const ALL_NO: [(&str, &str); 3] = [("window", "no"), ("demolition", "no"), ("prohibited-practice", "no")];

    fn sheet(more: &[(&str, &str)]) -> Sheet {
        run_words(&CALCULATION, more, &catalog())
    }
    fn with_no(more: &[(&'static str, &'static str)]) -> Sheet {
        let answers: Vec<_> = ALL_NO.into_iter().chain(more.iter().copied()).collect();
        sheet(&answers)
    }

    #[test]
    fn the_area_decides_when_all_else_is_answered_no() {
        // 40 CFR 745.83: at most 6 ft² a room inside, 20 ft² outside
        assert_eq!(with_no(&[("year", "1965"), ("interior-area", "6")]).standing, Standing::Within);
        assert_eq!(with_no(&[("year", "1965"), ("interior-area", "6.01")]).standing, Standing::Beyond);
        assert_eq!(with_no(&[("year", "1965"), ("exterior-area", "20")]).standing, Standing::Within);
        let near = with_no(&[("year", "1965"), ("interior-area", "5.8"), ("interior-tolerance", "0.4")]);
        // z = (5.8 − 6) ÷ 0.2 = −1: one minus 0.8413 (Abramowitz and Stegun, Table 26.1)
        assert_eq!(near.standing, Standing::Near);
        assert!((near.chance_beyond.unwrap() - 0.158_655).abs() < 1e-6);
    }

    #[test]
    fn demolition_leaves_no_area_exempt() {
        let one_foot = sheet(&[("year", "1965"), ("interior-area", "1"), ("demolition", "yes")]);
        assert_eq!((one_foot.standing, one_foot.chance_beyond), (Standing::Beyond, Some(1.0)));
        assert!(one_foot.sentence.contains("whatever the area"), "{}", one_foot.sentence);
    }

    #[test]
    fn what_nobody_has_said_is_asked_for_and_not_guessed() {
        let open = sheet(&[("year", "1965"), ("interior-area", "1")]);
        assert_eq!((open.standing, open.missing.len()), (Standing::CannotSay, 3));
        assert_eq!(sheet(&[]).missing.read_all(), ["year built"]);
        let no_area = with_no(&[("year", "1965")]);
        assert_eq!(no_area.standing, Standing::CannotSay);
        // Near the area the open questions may still decide.
        let near = [("year", "1965"), ("interior-area", "5.8"), ("interior-tolerance", "0.4")];
        assert_eq!((sheet(&near).standing, sheet(&near).missing.len()), (Standing::CannotSay, 3));
        // Over the area nothing more need be known.
        assert_eq!(sheet(&[("year", "1965"), ("interior-area", "9")]).standing, Standing::Beyond);
    }

    #[test]
    fn earlier_work_in_the_room_adds_up() {
        let answers = [("year", "1965"), ("interior-area", "3.5"), ("earlier-interior", "3")];
        assert_eq!(with_no(&answers).standing, Standing::Beyond); // 6.5 ft²
        let text = &with_no(&answers).lines[0].text;
        assert!(text.starts_with("3.5 + 3 within 30 days before = 6.5 ft²"), "{text}");
    }

    #[test]
    fn a_later_house_and_special_housing_lie_outside_the_rule_without_being_called_free_of_lead() {
        let later = sheet(&[("year", "1978"), ("interior-area", "90")]);
        assert_eq!(later.standing, Standing::Within);
        let elderly = [("year", "1960"), ("housing", "elderly-or-disabled"), ("demolition", "yes")];
        assert_eq!(sheet(&elderly).standing, Standing::Beyond); // nobody said that no child lives there
        let mut childless = elderly.to_vec();
        childless.push(("child-under-6", "no"));
        assert_eq!(sheet(&childless).standing, Standing::Within);
        assert!(later.caution.contains("Nobody can tell by eye"));
    }
}
