//! Which clue misled: of the answers that moved a condition's odds, the one that moved them furthest the wrong way.

use assessment::forecast::ConditionForecast;

use crate::compare::{FALSE_ALARM_FROM, MISSED_BELOW};
use crate::finding::Outcome;

/// Closer to never or always than this the odds of a step are not told apart.
const SURE: f64 = 1e-6;

/// The step of [`ConditionForecast::path`] that misled most, where the forecast was a miss or a false alarm. None where it
/// was neither, or where no single answer moved it the wrong way: then the base rate or the rest of the path did.
pub fn misled(condition: &ConditionForecast, outcome: Outcome) -> Option<usize> {
    let wrong_way = match outcome {
        Outcome::Found if condition.probability < MISSED_BELOW => -1.0,
        Outcome::NotThere if condition.probability >= FALSE_ALARM_FROM => 1.0,
        _ => return None,
    };
    let steps = condition.path.as_deref().unwrap_or_default();
    let mut from = condition.base;
    let mut furthest: Option<(usize, f64)> = None;
    for (i, step) in steps.iter().enumerate() {
        let moved = wrong_way * (log_odds(step.to) - log_odds(from));
        from = step.to;
        if step.answer.is_some() && moved > 0.0 && furthest.is_none_or(|(_, most)| moved > most) {
            furthest = Some((i, moved));
        }
    }
    furthest.map(|(i, _)| i)
}

fn log_odds(p: f64) -> f64 {
    let p = p.clamp(SURE, 1.0 - SURE);
    libm::log(p / (1.0 - p))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{Value, json};

    /// A condition from 0.3, through these steps; one without an item is several answers together.
    fn moved(steps: &[(&str, f64)]) -> ConditionForecast {
        let path: Vec<Value> = steps
            .iter()
            .map(|(item, to)| {
                let reason = json!({ "item": item, "place": null, "value": "cant-tell", "decibans": 0.0 });
                json!({ "answer": if item.is_empty() { Value::Null } else { reason }, "answers": 1, "to": to })
            })
            .collect();
        let last = steps.last().map_or(0.3, |(_, to)| *to);
        serde_json::from_value(json!({
            "id": "lead-paint", "name": "Lead paint", "place": null, "group": "paint", "probability": last, "base": 0.3,
            "era_base": 0.3, "p_cost": 1.0, "measured_by": null, "cost": [0, 0, 0], "days": [0.0, 0.0, 0.0],
            "stage": "demolition", "trade": "painter", "utility_wait": false, "in_base_price": false,
            "advice": { "what": "nothing" }, "because": [], "path": path, "caution": "",
        }))
        .unwrap()
    }

    #[test]
    fn the_answer_that_moved_a_miss_furthest_down_misled() {
        let miss = moved(&[("a", 0.5), ("b", 0.2), ("c", 0.15), ("d", 0.05)]);
        assert_eq!(misled(&miss, Outcome::Found), Some(1), "1:4 from 1:1 is further than 1:19 from 3:17");
        assert_eq!(misled(&miss, Outcome::NotThere), None, "it was right");
        assert_eq!(misled(&miss, Outcome::NotOpened), None, "nobody knows");
    }

    #[test]
    fn the_answer_that_moved_a_false_alarm_furthest_up_misled() {
        let alarm = moved(&[("a", 0.2), ("b", 0.6), ("c", 0.65)]);
        assert_eq!(misled(&alarm, Outcome::NotThere), Some(1));
        assert_eq!(misled(&alarm, Outcome::Found), None);
    }

    #[test]
    fn where_no_single_answer_led_the_wrong_way_none_is_named() {
        assert_eq!(misled(&moved(&[("", 0.1)]), Outcome::Found), None, "several together");
        assert_eq!(misled(&moved(&[]), Outcome::Found), None, "no path");
        assert_eq!(misled(&moved(&[("a", 0.29)]), Outcome::Found), Some(0));
    }
}
