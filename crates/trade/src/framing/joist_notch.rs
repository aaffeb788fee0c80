//! A notch in a joist: depth, length, place in the span, and the side in tension.

use alloc::{format, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::joist::{Rules, rules};
use super::joist_hole::{Cut, JoistPlan};
use super::lumber::thickness;
use super::nail_plate::distances;
use super::{CAUTION, HAIR, inch, num, spreads};
use crate::cite::equals;
use crate::error::TradeError;
use crate::number::in_100;
use crate::sheet::{Assumed, Change, Sheet, Standing};
use crate::tolerance::{Budget, Reading};

/// σ of a length along a joist, taped from below: common practice, no source.
const ALONG_SIGMA: f64 = 0.5;
/// σ of the length of a notch: common practice, no source.
const LENGTH_SIGMA: f64 = 1.0 / 16.0;
/// By how much a dressed thickness is under its nominal one, inches.
const DRESSED: f64 = 0.5;

/// The requirement on the place.
const MIDDLE: Phrase = Phrase("trade-rule-keeps-notches-out");

/// How one requirement on the notch stands.
struct Check {
    /// What it is, as it ends the sentence.
    what: Said,
    chance: f64,
}

/// The sheet for a notch.
pub(super) fn judge(plan: &JoistPlan, book: &Book) -> Result<Sheet, TradeError> {
    let rules = rules(book)?;
    let mut sheet = Sheet::new(Standing::CannotSay, "", CAUTION);
    let depth_spread = plan.hole.budget.clone();
    let mut checks: Vec<Check> = Vec::new();
    checks.push(depth_check(&mut sheet, plan, &rules));
    checks.extend(length_check(&mut sheet, plan, &rules));
    if plan.cut == Cut::Notch {
        checks.extend(place_check(&mut sheet, plan, &rules)?);
        checks.extend(tension_check(&mut sheet, plan, &rules, book)?);
    }
    // Depth, length, place and side are read apart, each with its own error.
    let chance = 1.0 - checks.iter().map(|c| 1.0 - c.chance).product::<f64>();
    let worst = checks.iter().max_by(|a, b| a.chance.total_cmp(&b.chance));
    let what = worst.map_or_else(Said::nothing, |c| c.what.clone());
    let standing = Standing::of_chance(chance);
    let name = if plan.cut == Cut::EndNotch { Phrase("trade-notch-end") } else { Phrase("trade-notch") };
    let hole = inch(plan.hole.diameter());
    if sheet.missing.is_empty() || standing == Standing::Beyond {
        sheet.missing.clear();
        sheet.standing = standing;
        sheet.sentence = say!(
            "trade-deep-solid-joist-chance",
            name = name,
            hole = hole,
            name2 = &plan.pipe.name,
            word = standing.lies(),
            what = what,
            name3 = &plan.member.name,
            chance = in_100(chance)
        );
        sheet.chance_beyond = Some(chance);
        let share = if plan.cut == Cut::EndNotch { rules.end_notch } else { rules.notch };
        let spread = depth_spread.with(Phrase("trade-lumber"), -1.0 / share, plan.member.sigma);
        sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", spread.sigma())));
    } else {
        sheet.sentence = say!("trade-deep-where-lies-span", name = name, hole = hole);
    }
    let ends = plan.cut == Cut::EndNotch;
    let used = |n: &usize| if ends { [3, 4].contains(n) } else { [2, 3, 5, 6].contains(n) };
    sheet.limits.extend(rules.limits.iter().enumerate().filter(|(n, _)| used(n)).map(|(_, l)| l.clone()));
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    let plates = distances(book)?;
    if plan.pipe.hard {
        sheet.line(Phrase("trade-nail-plates"), Phrase("trade-0-rule-excepts-cast"));
    } else {
        sheet.line(Phrase("trade-nail-plates"), say!("trade-one-over-each-notch", crossed = plan.crossed));
    }
    sheet.limits.extend(plates.limits.into_iter().take(2));
    sheet.limits.push(spreads());
    if sheet.standing != Standing::Within {
        changes(&mut sheet, plan, &rules, &checks);
    }
    Ok(sheet)
}

fn depth_check(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules) -> Check {
    let parts = if plan.cut == Cut::EndNotch { rules.end_notch } else { rules.notch };
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let most = depth / parts;
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line(Phrase("trade-depth-notch"), equals(format!("{pipe} + {clearance}"), inch(hole)));
    sheet.line(Phrase("trade-deepest"), equals(format!("{} ÷ {}", num(depth), num(parts)), inch(most)));
    let spread = plan.hole.budget.clone().with(Phrase("trade-lumber"), -1.0 / parts, plan.member.sigma);
    Check {
        what: say!("trade-table-value-depth", most = inch(most)),
        chance: spread.chance_over(hole, most + HAIR),
    }
}

/// None where the length is taken as the width of the hole: a notch that is not too deep is then not too long.
fn length_check(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules) -> Option<Check> {
    let most = plan.member.depth / rules.notch_length;
    let sum = equals(format!("{} ÷ {}", num(plan.member.depth), num(rules.notch_length)), inch(most));
    sheet.line(Phrase("trade-longest"), sum);
    let Some(length) = plan.length else {
        let value = say!("trade-wide-pipe-needs", diameter = inch(plan.hole.diameter()));
        sheet.assumed.push(Assumed::new(say!("trade-length-notch"), value));
        return None;
    };
    let spread = Budget::new().with(Phrase("trade-length-notch"), 1.0, length.sigma(LENGTH_SIGMA)).with(
        Phrase("trade-lumber"),
        -1.0 / rules.notch_length,
        plan.member.sigma,
    );
    Some(Check {
        what: say!("trade-table-value-length", most = inch(most)),
        chance: spread.chance_over(length.inches(), most + HAIR),
    })
}

/// Beyond where any of the notch lies in the middle part of the span.
fn place_check(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules) -> Result<Option<Check>, TradeError> {
    let (Some(span), Some(from)) = (plan.span, plan.from_support) else {
        sheet.missing.extend(plan.span.is_none().then(|| say!("trade-span-joist")));
        let from = say!("trade-distance-notch-support");
        sheet.missing.extend(plan.from_support.is_none().then_some(from));
        return Ok(None);
    };
    let (span_in, from_in) = (span.inches(), from.inches());
    if from_in > span_in {
        let what = say!("trade-notch-support-span", fromin = inch(from_in), spanin = inch(span_in));
        return Err(TradeError::Clash { what, mend: Phrase("trade-read-both-again-one") });
    }
    let length = plan.length.map_or(plan.hole.diameter(), |l: Reading| l.inches());
    // From the nearer support; seen from the other one the span enters once more.
    let (nearer, from_share, span_share) =
        if from_in <= span_in / 2.0 { (from_in, 1.0, 0.0) } else { (span_in - from_in, -1.0, 1.0) };
    let free = span_in / rules.parts;
    let end = nearer + length / 2.0;
    sheet.line(
        Phrase("trade-far-end-nearer-support"),
        equals(format!("{} + {} ÷ 2", num(nearer), num(length)), inch(end)),
    );
    sheet.line(
        Phrase("trade-middle-part-begins"),
        equals(format!("{} ÷ {}", num(span_in), num(rules.parts)), inch(free)),
    );
    let spread = Budget::new()
        .with(Phrase("trade-place-notch"), from_share, from.sigma(ALONG_SIGMA))
        .with(Phrase("trade-span"), span_share, span.sigma(ALONG_SIGMA))
        .with(Phrase("trade-span"), -1.0 / rules.parts, span.sigma(ALONG_SIGMA));
    Ok(Some(Check { what: MIDDLE.into(), chance: spread.chance_over(end, free + HAIR) }))
}

fn tension_check(
    sheet: &mut Sheet,
    plan: &JoistPlan,
    rules: &Rules,
    book: &Book,
) -> Result<Option<Check>, TradeError> {
    let (usual, _) = thickness(book)?;
    let thick = plan.thickness.map_or(usual, |t| t.inches());
    if plan.thickness.is_none() {
        sheet.assumed.push(Assumed::new(Phrase("trade-thickness"), inch(usual)));
    }
    if thick < rules.tension - DRESSED - HAIR {
        return Ok(None);
    }
    if plan.in_top.is_none() {
        let value = say!("trade-bottom-side-tension-while");
        sheet.assumed.push(Assumed::new(say!("trade-face-notch"), value));
    }
    let bottom = !plan.in_top.unwrap_or(false);
    Ok(bottom.then(|| Check {
        what: say!("trade-rule-tension-side-members", tension = inch(rules.tension)),
        chance: 1.0,
    }))
}

fn changes(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules, checks: &[Check]) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let limits = rules.at(depth);
    let mut add = |text: Said, enough: bool| sheet.changes.push(Change::new(text, enough));
    add(say!("trade-bore-instead-notching-middle", hole = inch(limits.hole)), hole <= limits.hole + HAIR);
    let pipe = plan.hole.pipe;
    add(say!("trade-run-along-joists-bay", pipe = inch(pipe), depth = inch(depth)), pipe <= depth + HAIR);
    let in_the_middle = checks.iter().any(|c| c.what == MIDDLE.into() && c.chance > 0.05);
    if let (true, Some(span)) = (in_the_middle, plan.span) {
        let length = plan.length.map_or(hole, |l| l.inches());
        let nearest = span.inches() / rules.parts - length / 2.0;
        let others = checks.iter().all(|c| c.what == MIDDLE.into() || c.chance <= 0.05);
        add(
            say!("trade-notch-within-support", nearest = inch(libm::fmax(nearest, 0.0))),
            others && nearest > 0.0,
        );
    }
}
