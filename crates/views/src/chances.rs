//! The unknown in money and days as it is drawn, and the conditions that carry it; the same on screens and pages.

use assessment::Forecast;
use assessment::forecast::{Bars, ConditionForecast};
use drawing::{Chances, Flag, Palette, Width};
use survey::units::Money;
use words::{Message, Words, msg};

use crate::phrases;
use crate::shape::{DrawingView, WeightView};

/// Conditions listed as those that weigh most.
const LISTED: usize = 5;
/// Width of a drawing that has words beside it on a tablet held on its side, px.
const BESIDE: Width = Width::Px(560.0);

/// A drawing for each way of holding a screen.
pub fn three_widths(draw: impl Fn(Width, &str) -> String) -> DrawingView {
    DrawingView {
        wide: draw(Width::Tablet, "wide"),
        beside: draw(BESIDE, "beside"),
        narrow: draw(Width::Phone, "narrow"),
    }
}

/// What the drawing of the money shows; none where the assessment was frozen without its shape.
pub fn money(words: &Words, forecast: &Forecast) -> Option<Chances> {
    let m = &forecast.money;
    let shape = m.shape.as_ref()?;
    let sums = [m.p50, m.p80, m.p90];
    let written = sums.map(|sum| phrases::round_money(words, sum));
    let [p50, p80, p90] = &written;
    Some(Chances {
        title: words.say(&msg!("chances-money")),
        said: words.say(&msg!("chances-money-said", p50 = p50, p80 = p80, p90 = p90)),
        flags: flags(words, sums.map(Money::dollars), written),
        twentieths: shape.twentieths.iter().map(|sum| sum.dollars()).collect(),
        step: shape.bars.step,
        shares: shares(&shape.bars),
    })
}

/// What the drawing of the days shows; none where the assessment was frozen without their shape.
pub fn days(words: &Words, forecast: &Forecast) -> Option<Chances> {
    let d = &forecast.days;
    let bars = d.bars.as_ref()?;
    let days = [d.p50, d.p80, d.p90];
    let written = days.map(|days| half_days(words, days));
    let [p50, p80, p90] = &written;
    Some(Chances {
        title: words.say(&msg!("chances-days")),
        said: words.say(&msg!("chances-days-said", p50 = p50, p80 = p80, p90 = p90)),
        flags: flags(words, days, written),
        twentieths: Vec::new(),
        step: bars.step,
        shares: shares(bars),
    })
}

/// The drawing of the money at a width.
pub fn draw_money(words: &Words, chances: &Chances, at: (Width, Palette, &str)) -> String {
    let (width, palette, prefix) = at;
    let write = |dollars: f64| phrases::whole_money(words, Money::from_f64(dollars).unwrap_or(Money::MAX));
    drawing::dots(chances, &write, width, palette, prefix)
}

/// The drawing of the days at a width.
pub fn draw_days(words: &Words, chances: &Chances, at: (Width, Palette, &str)) -> String {
    let (width, palette, prefix) = at;
    drawing::bars(chances, &|days| words::number(words.language(), days, 1), width, palette, prefix)
}

/// Days to the half, as they are planned: "2", "5 1/2".
pub fn half_days(words: &Words, days: f64) -> String {
    let halves = (days * 2.0).round().max(0.0);
    let whole = words::number(words.language(), (halves / 2.0).floor(), 0);
    match halves {
        1.0 => "1/2".to_owned(),
        h if h % 2.0 == 0.0 => whole,
        _ => format!("{whole} 1/2"),
    }
}

fn flags(words: &Words, at: [f64; 3], values: [String; 3]) -> [Flag; 3] {
    let says: [Message; 3] = [msg!("chance-even"), msg!("chance-8-in-10"), msg!("chance-9-in-10")];
    let mut values = values.into_iter();
    let mut flag = |i: usize, name: &str| Flag {
        at: at[i],
        name: name.to_owned(),
        value: values.next().unwrap_or_default(),
        says: words.say(&says[i]),
    };
    [flag(0, "P50"), flag(1, "P80"), flag(2, "P90")]
}

fn shares(bars: &Bars) -> Vec<f64> {
    let all = bars.counts.iter().map(|n| f64::from(*n)).sum::<f64>() + f64::from(bars.beyond);
    bars.counts.iter().map(|n| f64::from(*n) / all.max(1.0)).collect()
}

/// The conditions that weigh most in the mean, each with what it costs on average over all houses like this one and
/// what it costs if it is there; as shares of one length.
pub fn weights(words: &Words, forecast: &Forecast) -> Vec<WeightView> {
    let listed: Vec<(&ConditionForecast, Money)> = forecast
        .money
        .to_mean
        .iter()
        .take(LISTED)
        .filter_map(|c| Some((forecast.condition(&c.condition)?, c.amount)))
        .collect();
    let ends = listed.iter().flat_map(|(c, average)| [c.cost[2], *average]);
    let most = ends.max().map_or(1.0, Money::dollars).max(1.0);
    let share = |sum: Money| sum.dollars() / most;
    let row = |(c, average): &(&ConditionForecast, Money)| WeightView {
        id: c.id.clone(),
        name: phrases::condition_name(words, c),
        about_in10: phrases::about_in_10(words, c.probability),
        average_cents: average.cents(),
        low_cents: c.cost[0].cents(),
        high_cents: c.cost[2].cents(),
        average: share(*average),
        low: share(c.cost[0]),
        high: share(c.cost[2]),
    };
    listed.iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::Language;

    #[test]
    fn days_are_said_in_halves() {
        let english = Words::of(Language::En);
        let said: Vec<String> = [0.0, 0.2, 0.4, 2.0, 5.6].map(|d| half_days(english, d)).into();
        assert_eq!(said, ["0", "0", "1/2", "2", "5 1/2"]);
    }

    #[test]
    fn bars_are_shares_of_all_draws() {
        let bars = Bars { step: 200.0, counts: vec![10, 30, 40], beyond: 20 };
        assert_eq!(shares(&bars), [0.1, 0.3, 0.4]);
        assert_eq!(shares(&Bars { step: 1.0, counts: vec![0], beyond: 0 }), [0.0]);
    }
}
