//! `underlath promise`.

use actions::{Error, promise};
use assessment::promise::{CheckPlan, Promise, Promised, Terms};
use survey::catalog::{Basis, Catalog};
use survey::units::Money;
use views::phrases::{
    about_in_10, caution_words, check_words_of, in_100, key_words, some_conditions, whole_money,
};
use words::{CatalogWords, msg};

use super::Room;
use crate::args;
use crate::out::Out;

pub fn run(args: &args::Promise, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let firm = Terms::of(desk.catalog());
    let loading = args.loading.unwrap_or(firm.loading);
    let promised = Promised {
        cover: &args.cover,
        cap: Money::from_dollars(args.cap),
        under: args.under.map(Money::from_dollars),
        terms: Terms { loading, chance: args.chance },
    };
    let priced = promise(&desk, survey, &promised)?;
    if out.json() {
        out.value(&priced);
    } else {
        let own = desk.catalog().standing("setting", "promise-spread", "value");
        let own = args.loading.is_none() && own.is_some_and(|s| s.basis == Basis::Firm);
        tell(&priced, own, desk.catalog(), out);
    }
    Ok(())
}

fn tell(promise: &Promise, own_loading: bool, catalog: &Catalog, out: &mut Out) {
    let Promise { price, covered, terms, .. } = promise;
    let say = CatalogWords::new(out.words(), catalog);
    let whole = |sum: Money| whole_money(say.words, sum);
    out.head_of(msg!("promise-head", n = covered.len(), cap = whole(promise.cap)));
    let [mean, p80, p90, premium] = price.standard_errors.map(whole);
    let loading = words::number(say.words.language(), terms.loading, 3);
    out.tell_in(
        2,
        msg!(
            "promise-premium",
            premium = whole(price.premium),
            error = premium,
            mean = whole(price.mean),
            loading = &loading,
            nine = whole(price.p90),
        ),
    );
    if price.p90 < price.mean {
        out.tell_in(4, msg!("promise-rare-and-dear"));
    }
    out.tell_in(
        2,
        msg!(
            "promise-payout",
            mean = whole(price.mean),
            error = mean,
            eight = whole(price.p80),
            eight_error = p80,
            nine = whole(price.p90),
            nine_error = p90,
        ),
    );
    out.tell_in(2, msg!("promise-cap", chance = in_100(say.words, price.cap_reached)));
    out.line("");
    out.head_of(msg!("promise-without"));
    let row = |c: &assessment::promise::Covered| {
        let without = say.words.say(&msg!("promise-without-it", sum = whole(c.without.premium)));
        vec![c.key.clone(), key_words(say, &c.key), about_in_10(say.words, c.probability), without]
    };
    out.table(&covered.iter().map(row).collect::<Vec<_>>());
    if let Some(plan) = &promise.under {
        out.line("");
        out.head_of(msg!("promise-under", sum = whole(plan.wanted)));
        tell_plan(plan, terms, say, out);
    }
    out.line("");
    for c in covered {
        let caution = caution_words(say, &c.key, &c.caution);
        out.tell(msg!("named", name = key_words(say, &c.key), text = caution));
    }
    out.tell(msg!("promise-draws", n = promise.draws));
    out.tell(msg!("odds-are-judgment"));
    out.tell(match own_loading {
        true => msg!("promise-loading-own", loading = loading),
        false => msg!("promise-loading", loading = loading),
    });
}

fn tell_plan(plan: &CheckPlan, terms: &Terms, say: CatalogWords<'_>, out: &mut Out) {
    if plan.already {
        out.tell_in(2, msg!("promise-already"));
        return;
    }
    if plan.checks.is_empty() {
        out.tell_in(2, msg!("promise-no-check"));
        return;
    }
    let chance = in_100(say.words, terms.chance);
    out.tell_in(
        2,
        match (plan.sufficient, plan.every) {
            (true, true) => msg!("promise-cheapest", chance = chance),
            (true, false) => msg!("promise-cheap", chance = chance),
            (false, true) => msg!("promise-nearest", chance = chance),
            (false, false) => msg!("promise-near", chance = chance),
        },
    );
    for part in &plan.checks {
        let told = check_words_of(say.words, &part.check, [&part.name, &part.who], &part.ask_first);
        let reads = some_conditions(say, &part.reads, part.reads.len());
        out.tell_in(4, msg!("promise-check", check = told.label, who = told.who, conditions = reads));
        if !told.ask_first.is_empty() {
            out.tell_in(8, msg!("next-not-while", ask = told.ask_first.join("; ")));
        }
    }
    let whole = |sum: Money| whole_money(say.words, sum);
    let minutes = words::number(say.words.language(), plan.minutes, 0);
    out.tell_in(
        2,
        msg!(
            "promise-plan",
            minutes = minutes,
            cost = whole(plan.cost),
            wanted = whole(plan.wanted),
            chance = in_100(say.words, plan.chance),
        ),
    );
    out.tell_in(
        2,
        msg!(
            "promise-clear",
            chance = in_100(say.words, plan.clear),
            sum = whole(plan.if_clear),
            mean = whole(plan.expected),
        ),
    );
}
