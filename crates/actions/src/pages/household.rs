//! The household's page: what may be found and what it would mean, when something is off, in plain words. Neither
//! locations nor what the firm reckons with.

use assessment::decision::Pricing;
use assessment::forecast::{Advice, ConditionForecast};
use drawing::{Palette, Width};
use packet::{Drawn, HouseholdPages};
use survey::log::Value;
use trade::picture::{CalendarStrip, Picture as Drawing};
use views::{chances, phrases};
use words::{Message, catalog, msg};

use super::brief::heaviest;
use super::sight::Sight;
use super::trades::presumed;

/// Conditions told to the household.
const TOLD: usize = 8;
/// Below this they are counted: a household asks about what is likely.
const TOLD_FROM: f64 = 0.20;
/// Width of the calendar, millimeters.
const CALENDAR: f64 = 174.0;

pub(super) fn pages(sight: &Sight<'_>) -> HouseholdPages {
    let words = |m: &Message| sight.words(m);
    let (inside, more) = inside(sight);
    let calendar = sight.calculation("outages").and_then(|c| Some((c.picture.clone()?, c)));
    HouseholdPages {
        running: words(&msg!("pages-for-household")),
        title: words(&msg!("pages-household-title")),
        lead: words(&msg!("pages-household-lead")),
        inside,
        more,
        ranges: ranges(sight),
        clashes: calendar.as_ref().map(|(picture, _)| clashes(sight, picture)).unwrap_or_default(),
        calendar: calendar.map(|(picture, c)| Drawn {
            // The clashes stand in words below it.
            svg: drawing::svg(
                &without_clashes(picture),
                Width::Page(CALENDAR),
                Palette::Page,
                "calendar",
                &|s| sight.say.words.text(s),
            ),
            said: c.sentence,
        }),
        off: off(sight),
        dust: dust(sight),
        to_move: [msg!("pages-move-cabinets"), msg!("pages-move-path"), msg!("pages-move-above")]
            .iter()
            .map(words)
            .collect(),
        medical: medical(sight),
        cautions: cautions(sight),
        questions: words(&msg!("pages-household-questions")),
    }
}

/// What may be inside, the heaviest first, and how many are left out.
fn inside(sight: &Sight<'_>) -> (Vec<[String; 3]>, String) {
    let say = sight.say;
    let told: Vec<&ConditionForecast> = heaviest(sight)
        .into_iter()
        .filter(|c| c.probability >= TOLD_FROM && !matches!(c.advice, Advice::BelowFloor | Advice::Nothing))
        .collect();
    let row = |c: &&ConditionForecast| {
        let what = sight.what(c);
        let name = phrases::condition_name(say.words, c);
        [
            if what.is_empty() {
                name
            } else {
                sight.words(&msg!("pages-household-what", name = name, what = what))
            },
            if presumed(sight, c) && matches!(c.advice, Advice::PriceInOrTest { .. }) {
                sight.words(&msg!("pages-treat-as"))
            } else {
                phrases::about_in_10(say.words, c.probability)
            },
            meaning(sight, c),
        ]
    };
    let rows: Vec<[String; 3]> = told.iter().take(TOLD).map(row).collect();
    let others = sight.forecast.conditions.len().saturating_sub(rows.len());
    let more =
        if others == 0 { String::new() } else { sight.words(&msg!("pages-household-more", n = others)) };
    (rows, more)
}

/// What a condition means for the household: in the price, set aside, or asked first.
fn meaning(sight: &Sight<'_>, c: &ConditionForecast) -> String {
    let round = |sum| phrases::round_money(sight.say.words, sum);
    let [low, high] = [round(c.cost[0]), round(c.cost[2])];
    sight.words(&match &c.advice {
        Advice::InBasePrice { .. } => msg!("pages-means-in-price"),
        Advice::LicensedLookFirst { .. } => msg!("pages-means-look-first"),
        Advice::PriceInOrTest { .. } => msg!("pages-means-treated"),
        Advice::Price { pricing: Pricing::PriceIn, .. } => msg!("pages-means-in-price"),
        Advice::Price { pricing: Pricing::Allowance, amount: Some(sum), .. } => {
            msg!("pages-means-set-aside", sum = round(*sum))
        }
        _ => msg!("pages-means-asked", low = low, high = high),
    })
}

/// Money and days in sentences.
fn ranges(sight: &Sight<'_>) -> Vec<String> {
    let (words, f) = (sight.say.words, sight.forecast);
    let round = |sum| phrases::round_money(words, sum);
    let days = |d| chances::half_days(words, d);
    let mut out = vec![
        sight.words(&msg!("pages-range-money", half = round(f.money.p50), nine = round(f.money.p90))),
        sight.words(&msg!("pages-range-days", half = days(f.days.p50), nine = days(f.days.p90))),
    ];
    if f.days.utility_wait[1] > 0.0 {
        out.push(sight.words(&msg!("pages-utility", n = f.days.utility_wait[1])));
    }
    out.push(sight.words(&msg!("pages-range-asked")));
    out
}

fn without_clashes(picture: Drawing) -> Drawing {
    match picture {
        Drawing::Calendar(strip) => Drawing::Calendar(CalendarStrip { conflicts: Vec::new(), ..strip }),
        other => other,
    }
}

/// Where the work meets how the household lives, as the calendar says.
fn clashes(sight: &Sight<'_>, picture: &Drawing) -> Vec<String> {
    let Drawing::Calendar(strip) = picture else { return Vec::new() };
    let say = |(day, what): &(u32, survey::Said)| {
        sight.words(&msg!("pages-clash", day = *day, what = sight.say.words.text(what)))
    };
    strip.conflicts.iter().map(say).collect()
}

/// What the planned work takes away: task, services, how long, what helps.
fn off(sight: &Sight<'_>) -> Vec<[String; 4]> {
    let words = sight.say.words;
    let planned = sight.say.catalog.planned_outages(sight.picture);
    planned
        .map(|o| {
            let off: Vec<String> = o
                .off
                .iter()
                .map(|s| words.catalog(&format!("off-{}", catalog::slug(s)), s).into_owned())
                .collect();
            let long = o.in_days();
            let time = |hours: f64| {
                if long {
                    words::number(words.language(), (hours / 24.0).round(), 0)
                } else {
                    words::number(words.language(), hours, 1)
                }
            };
            let (low, high) = (time(o.hours.low), time(o.hours.high));
            [
                words.catalog(&format!("outage-{}-task", o.id), &o.task).into_owned(),
                off.join(", "),
                sight.words(&if long {
                    msg!("pages-off-days", low = low, high = high)
                } else {
                    msg!("pages-off-some-hours", low = low, high = high)
                }),
                words.catalog(&format!("outage-{}-help", o.id), &o.help).into_owned(),
            ]
        })
        .collect()
}

/// Dust and holes: what is opened, and the rules of the house during the work.
fn dust(sight: &Sight<'_>) -> Vec<String> {
    let mut out = Vec::new();
    if !super::trades::openings(sight, sight.listed()).is_empty() {
        out.push(sight.words(&msg!("pages-dust-openings")));
    }
    out.push(sight.words(&msg!("pages-dust-closed-off")));
    if sight.calculation("lead-rule").is_some() {
        out.push(sight.words(&msg!("pages-dust-lead")));
    }
    // What concerns a medical device stands under its own head.
    let rules = sight.say.catalog.household_rules.iter().filter(|rule| rule.id != MEDICAL);
    out.extend(rules.map(|r| sight.say.words.catalog(&format!("rule-{}", r.id), &r.words).into_owned()));
    out
}

/// Item of the walk and rule of the catalog about devices that must not lose power.
const MEDICAL: &str = "medical-power";

fn medical(sight: &Sight<'_>) -> Vec<String> {
    let said = match sight.value(MEDICAL) {
        Some(Value::Choice(id)) if id == "yes" => msg!("pages-medical-yes"),
        Some(Value::Choice(id)) if id == "no" => msg!("pages-medical-no"),
        _ => msg!("pages-medical-unknown"),
    };
    let rule = sight.say.catalog.household_rules.iter().find(|rule| rule.id == MEDICAL);
    let rule = rule.map(|r| sight.say.words.catalog(&format!("rule-{}", r.id), &r.words).into_owned());
    [sight.words(&said), sight.words(&msg!("pages-medical-who"))].into_iter().chain(rule).collect()
}

/// Conditions before which a gate stands, and who decides.
fn cautions(sight: &Sight<'_>) -> Vec<[String; 2]> {
    let mut said: Vec<[String; 2]> = Vec::new();
    for c in sight.listed().filter(|c| c.advice.is_gate()) {
        // A condition at each of several places is told once.
        let one = [phrases::bare_name(sight.say.words, c), sight.caution(c)];
        if !said.contains(&one) {
            said.push(one);
        }
    }
    said
}
