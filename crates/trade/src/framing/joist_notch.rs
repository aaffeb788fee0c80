//! A notch in a joist: depth, length, place in the span, and the side in tension.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Book;

use super::joist::{Rules, rules};
use super::joist_hole::{Cut, JoistPlan};
use super::lumber::thickness;
use super::nail_plate::distances;
use super::{CAUTION, HAIR, inch, num, spreads};
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
const MIDDLE: &str = "rule that keeps notches out of the middle part of the span";

/// How one requirement on the notch stands.
struct Check {
    /// What it is, as it ends the sentence.
    what: String,
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
    let what = worst.map_or("", |c| c.what.as_str());
    let standing = Standing::of_chance(chance);
    let name = if plan.cut == Cut::EndNotch { "A notch at the end," } else { "A notch" };
    let hole = inch(plan.hole.diameter());
    if sheet.missing.is_empty() || standing == Standing::Beyond {
        sheet.missing.clear();
        sheet.standing = standing;
        sheet.sentence = format!(
            "{name} {hole} deep for {}, {} the {what} in a solid {} joist; chance that it lies beyond: {}.",
            plan.pipe.name,
            standing.word(),
            plan.member.name,
            in_100(chance)
        );
        sheet.chance_beyond = Some(chance);
        let share = if plan.cut == Cut::EndNotch { rules.end_notch } else { rules.notch };
        let spread = depth_spread.with("lumber", -1.0 / share, plan.member.sigma);
        sheet.sigma = Some(format!("{:.3} in", spread.sigma()));
    } else {
        sheet.sentence = format!(
            "{name} {hole} deep: where it lies in the span is not known, and in the middle part there may be none."
        );
    }
    let ends = plan.cut == Cut::EndNotch;
    let used = |n: &usize| if ends { [3, 4].contains(n) } else { [2, 3, 5, 6].contains(n) };
    sheet.limits.extend(rules.limits.iter().enumerate().filter(|(n, _)| used(n)).map(|(_, l)| l.clone()));
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    let plates = distances(book)?;
    if plan.pipe.hard {
        sheet.line("Nail plates", "0: the rule excepts cast-iron and galvanized steel pipe");
    } else {
        sheet.line(
            "Nail plates",
            format!("one over each notch; joists crossed: {0}; plates: {0}", plan.crossed),
        );
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
    sheet.line("Depth of the notch", format!("{pipe} + {clearance} = {}", inch(hole)));
    sheet.line("Deepest", format!("{} ÷ {} = {}", num(depth), num(parts), inch(most)));
    let spread = plan.hole.budget.clone().with("lumber", -1.0 / parts, plan.member.sigma);
    Check {
        what: format!("table value of {} in depth", inch(most)),
        chance: spread.chance_over(hole, most + HAIR),
    }
}

/// None where the length is taken as the width of the hole: a notch that is not too deep is then not too long.
fn length_check(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules) -> Option<Check> {
    let most = plan.member.depth / rules.notch_length;
    let sum = format!("{} ÷ {} = {}", num(plan.member.depth), num(rules.notch_length), inch(most));
    sheet.line("Longest", sum);
    let Some(length) = plan.length else {
        let value = format!("{}: as wide as the pipe needs", inch(plan.hole.diameter()));
        sheet.assumed.push(Assumed { item: "length of the notch".into(), value });
        return None;
    };
    let spread = Budget::new().with("length of the notch", 1.0, length.sigma(LENGTH_SIGMA)).with(
        "lumber",
        -1.0 / rules.notch_length,
        plan.member.sigma,
    );
    Some(Check {
        what: format!("table value of {} in length", inch(most)),
        chance: spread.chance_over(length.inches(), most + HAIR),
    })
}

/// Beyond where any of the notch lies in the middle part of the span.
fn place_check(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules) -> Result<Option<Check>, TradeError> {
    let (Some(span), Some(from)) = (plan.span, plan.from_support) else {
        sheet.missing.extend(plan.span.is_none().then(|| "span of the joist".into()));
        let from = "distance of the notch from a support".into();
        sheet.missing.extend(plan.from_support.is_none().then_some(from));
        return Ok(None);
    };
    let (span_in, from_in) = (span.inches(), from.inches());
    if from_in > span_in {
        let what = format!("the notch is {} from a support, in a span of {}", inch(from_in), inch(span_in));
        return Err(TradeError::Clash { what, mend: "read both again from one support" });
    }
    let length = plan.length.map_or(plan.hole.diameter(), |l: Reading| l.inches());
    // From the nearer support; seen from the other one the span enters once more.
    let (nearer, from_share, span_share) =
        if from_in <= span_in / 2.0 { (from_in, 1.0, 0.0) } else { (span_in - from_in, -1.0, 1.0) };
    let free = span_in / rules.parts;
    let end = nearer + length / 2.0;
    sheet.line(
        "Far end from the nearer support",
        format!("{} + {} ÷ 2 = {}", num(nearer), num(length), inch(end)),
    );
    sheet.line("Middle part begins", format!("{} ÷ {} = {}", num(span_in), num(rules.parts), inch(free)));
    let spread = Budget::new()
        .with("place of the notch", from_share, from.sigma(ALONG_SIGMA))
        .with("span", span_share, span.sigma(ALONG_SIGMA))
        .with("span", -1.0 / rules.parts, span.sigma(ALONG_SIGMA));
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
        sheet.assumed.push(Assumed { item: "thickness".into(), value: inch(usual) });
    }
    if thick < rules.tension - DRESSED - HAIR {
        return Ok(None);
    }
    if plan.in_top.is_none() {
        let value = "bottom, the side in tension, while nobody says".into();
        sheet.assumed.push(Assumed { item: "face of the notch".into(), value });
    }
    let bottom = !plan.in_top.unwrap_or(false);
    Ok(bottom.then(|| Check {
        what: format!("rule for the tension side of members {} or more nominal", inch(rules.tension)),
        chance: 1.0,
    }))
}

fn changes(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules, checks: &[Check]) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let limits = rules.at(depth);
    let mut add = |text: String, enough: bool| sheet.changes.push(Change { text, enough });
    add(
        format!(
            "Bore instead of notching, in the middle of the depth: the largest hole is {}.",
            inch(limits.hole)
        ),
        hole <= limits.hole + HAIR,
    );
    let pipe = plan.hole.pipe;
    add(
        format!("Run it along the joists, in a bay: {} in a depth of {}.", inch(pipe), inch(depth)),
        pipe <= depth + HAIR,
    );
    let in_the_middle = checks.iter().any(|c| c.what == MIDDLE && c.chance > 0.05);
    if let (true, Some(span)) = (in_the_middle, plan.span) {
        let length = plan.length.map_or(hole, |l| l.inches());
        let nearest = span.inches() / rules.parts - length / 2.0;
        let others = checks.iter().all(|c| c.what == MIDDLE || c.chance <= 0.05);
        add(
            format!("Notch within {} of a support.", inch(libm::fmax(nearest, 0.0))),
            others && nearest > 0.0,
        );
    }
}
