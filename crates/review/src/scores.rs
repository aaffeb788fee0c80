//! Scores of probability forecasts. Shapes: equal-length slices of forecasts p in [0, 1] and outcomes; where the
//! lengths differ, the longer slice is cut.

pub mod bins;
pub mod ensemble;
pub mod isotonic;
pub mod ranking;
pub mod wilson;

/// Forecasts are held this far from 0 and 1 before the logarithm, so that one certain miss is bad but finite.
pub const CLIP: f64 = 1e-6;

/// Brier score: mean of (p − y)² (G. W. Brier, Monthly Weather Review 78, 1950); 0 is perfect. `None` without cases.
pub fn brier(p: &[f64], y: &[bool]) -> Option<f64> {
    mean(p.iter().zip(y).map(|(p, y)| (p - truth(*y)) * (p - truth(*y))))
}

/// Log score: mean of −ln of the probability given to what happened, in nats, with p clipped to [1e-6, 1 − 1e-6].
/// `None` without cases.
pub fn log_score(p: &[f64], y: &[bool]) -> Option<f64> {
    mean(p.iter().zip(y).map(|(p, y)| {
        let p = p.clamp(CLIP, 1.0 - CLIP);
        -libm::log(if *y { p } else { 1.0 - p })
    }))
}

/// 1 − Brier score / that of always saying the share that came true among these very cases. `None` without cases, and
/// where all outcomes are the same, so that the reference is perfect.
pub fn brier_skill_vs_base_rate(p: &[f64], y: &[bool]) -> Option<f64> {
    let rate = mean(y.iter().map(|y| truth(*y)))?;
    skill(brier(p, y)?, rate * (1.0 - rate))
}

/// 1 − score / reference: the share of the reference's error that is gone. `None` if the reference is perfect.
pub fn skill(score: f64, reference: f64) -> Option<f64> {
    (reference > 0.0).then(|| 1.0 - score / reference)
}

fn truth(y: bool) -> f64 {
    if y { 1.0 } else { 0.0 }
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, n) = values.fold((0.0, 0u32), |(s, n), v| (s + v, n + 1));
    (n > 0).then(|| sum / f64::from(n))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference scores by scikit-learn (brier_score_loss, log_loss).
    #[test]
    fn scores_agree_with_scikit_learn() {
        let file: serde_json::Value =
            serde_json::from_str(include_str!("../../../tests/vectors/review/calibration.json")).unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert!(cases.len() > 5);
        for case in cases {
            let p: Vec<f64> = case["p"].as_array().unwrap().iter().map(|v| v.as_f64().unwrap()).collect();
            let y: Vec<bool> =
                case["y"].as_array().unwrap().iter().map(|v| v.as_f64().unwrap() == 1.0).collect();
            let near =
                |got: Option<f64>, key: &str| (got.unwrap() - case[key].as_f64().unwrap()).abs() < 1e-12;
            assert!(near(brier(&p, &y), "brier"), "{}", case["id"]);
            assert!(near(log_score(&p, &y), "log_loss_nats"), "{}", case["id"]);
            let skill = brier_skill_vs_base_rate(&p, &y);
            match case["brier_skill_vs_base_rate"].as_f64() {
                Some(_) => assert!(near(skill, "brier_skill_vs_base_rate"), "{}", case["id"]),
                None => assert_eq!(skill, None, "{}", case["id"]),
            }
        }
    }

    #[test]
    fn no_cases_give_no_score() {
        assert_eq!(brier(&[], &[]), None);
        assert_eq!(log_score(&[], &[]), None);
    }
}
