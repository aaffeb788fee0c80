//! Likely change orders, written down before anything is opened: what the condition is, why nobody could see it, what
//! speaks for it, and what it would cost.

use std::collections::BTreeSet;

use assessment::decision::Pricing;
use assessment::forecast::{Advice, ConditionForecast};
use assessment::promise::Promise;
use packet::{ChangeOrderPages, OrderBlock, PromiseBlock};
use survey::Key;
use views::phrases;
use words::{Words, msg};

use super::brief::heaviest;
use super::sight::Sight;

/// Change orders written out.
const WRITTEN: usize = 12;
/// Most photographs behind them.
const PHOTOS: usize = 12;

pub(super) fn pages(sight: &Sight<'_>, promise: Option<&Promise>) -> ChangeOrderPages {
    let all: Vec<&ConditionForecast> = heaviest(sight).into_iter().filter(|c| could_come(c)).collect();
    let written: Vec<&ConditionForecast> = all.iter().take(WRITTEN).copied().collect();
    let photos: BTreeSet<usize> =
        written.iter().flat_map(|c| sight.photos_of(c).into_iter().take(2)).collect();
    ChangeOrderPages {
        running: sight.words(&msg!("pages-for-orders")),
        title: sight.words(&msg!("pages-orders-title", n = written.len())),
        lead: sight.words(&msg!("pages-orders-lead")),
        orders: written.iter().map(|c| order(sight, c)).collect(),
        more: match all.len() - written.len() {
            0 => String::new(),
            n => sight.words(&msg!("pages-orders-more", n = n)),
        },
        promise: promise.map(|p| promised(sight, p)),
        photos: photos.into_iter().take(PHOTOS).collect(),
    }
}

/// What is neither in the price nor too small can come as a change order.
fn could_come(c: &ConditionForecast) -> bool {
    match &c.advice {
        Advice::Price { pricing, .. } => *pricing != Pricing::PriceIn,
        Advice::LicensedLookFirst { .. } | Advice::PriceInOrTest { .. } => true,
        Advice::InBasePrice { .. } | Advice::BelowFloor | Advice::Nothing => false,
    }
}

fn order(sight: &Sight<'_>, c: &ConditionForecast) -> OrderBlock {
    let words = sight.say.words;
    let round = |sum| phrases::round_money(words, sum);
    let name = phrases::condition_name(words, c);
    let place = c.place.as_ref().map_or_else(|| sight.words(&msg!("pages-within-work")), |p| p.label.clone());
    let mut price = vec![[
        sight.words(&msg!("pages-price-range")),
        sight.words(&msg!("pages-cost", low = round(c.cost[0]), high = round(c.cost[2]))),
    ]];
    price.push(match &c.advice {
        Advice::Price { pricing: Pricing::Allowance, amount: Some(sum), .. } => {
            [sight.words(&msg!("pages-price-allowance")), round(*sum)]
        }
        Advice::Price { pricing: Pricing::UnitPrice, amount: Some(sum), .. } => {
            [sight.words(&msg!("pages-price-unit")), round(*sum)]
        }
        _ => [sight.words(&msg!("pages-price-likely")), round(c.cost[1])],
    });
    price.push([sight.words(&msg!("pages-price-time")), sight.days(c)]);
    let photos: Vec<String> = sight.photos_of(c).into_iter().take(2).map(|n| (n + 1).to_string()).collect();
    let mut evidence: Vec<String> =
        c.because.iter().take(4).map(|r| phrases::reason_words(sight.say, r)).collect();
    if evidence.is_empty() {
        evidence.push(sight.words(&msg!("pages-evidence-none")));
    }
    if !photos.is_empty() {
        evidence.push(sight.words(&msg!("pages-evidence-photos", photos = photos)));
    }
    OrderBlock {
        clause: sight.words(&msg!(
            "pages-clause-text",
            condition = &name,
            what = sight.what(c),
            place = place
        )),
        name,
        words: phrases::about_in_10(words, c.probability),
        odds: c.probability,
        hidden: hidden(sight, c),
        evidence,
        price,
        caution: sight.caution(c),
    }
}

/// Why nobody could see it: what it takes to see it, and what was not reached on the walk.
fn hidden(sight: &Sight<'_>, c: &ConditionForecast) -> Vec<String> {
    let say = sight.say;
    let mut out = vec![sight.words(&msg!("pages-hidden-by", stage = sight.stage(&c.stage)))];
    let checks = sight.catalogued(c).map(|condition| condition.checks.as_slice()).unwrap_or_default();
    let checks: Vec<String> = checks.iter().map(|pair| say.check(&pair.check).into_owned()).take(3).collect();
    if !checks.is_empty() {
        out.push(sight.words(&msg!("pages-hidden-looks", looks = checks)));
    }
    let items = sight.items_of(c);
    let here = |n: &&assessment::forecast::NotKnown| {
        let place = Key::parse(&c.id).place;
        let elsewhere = matches!((place, &n.place), (Some(place), Some(of)) if of.id != place);
        items.contains(&n.item.as_str()) && !elsewhere
    };
    out.extend(sight.forecast.not_known.iter().filter(here).map(|n| {
        let why = phrases::why_words(say.words, &n.why);
        sight.words(&msg!("pages-hidden-unknown", question = say.question(&n.item).into_owned(), why = why))
    }));
    out
}

/// What the firm promises: it is computed on the draws of the same forecast.
fn promised(sight: &Sight<'_>, promise: &Promise) -> PromiseBlock {
    let words: &Words = sight.say.words;
    let round = |sum| phrases::round_money(words, sum);
    let named = promise.covered.iter().map(|covered| match sight.forecast.condition(&covered.key) {
        Some(c) => phrases::condition_name(words, c),
        None => covered.name.clone(),
    });
    PromiseBlock {
        says: sight.words(&msg!("pages-promise-says", cap = round(promise.cap))),
        covers: named.collect(),
        figures: vec![
            [sight.words(&msg!("pages-promise-cap")), round(promise.cap)],
            [sight.words(&msg!("pages-promise-cost")), round(promise.price.premium)],
            [sight.words(&msg!("pages-promise-reached")), phrases::in_100(words, promise.price.cap_reached)],
        ],
        not: vec![sight.words(&msg!("pages-promise-above")), sight.words(&msg!("pages-promise-hazards"))],
    }
}
