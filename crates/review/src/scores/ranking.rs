//! How well forecasts put what happened above what did not, whatever the numbers themselves.

/// Area under the receiver operating characteristic: the share of pairs (one that happened, one that did not) in which
/// the first has the higher forecast, an equal forecast counting half. By mid-ranks: H. B. Mann and D. R. Whitney,
/// Annals of Mathematical Statistics 18, 1947. `None` unless both outcomes occur.
pub fn roc_auc(p: &[f64], y: &[bool]) -> Option<f64> {
    let (happened, all) = (y.iter().filter(|y| **y).count() as f64, p.len().min(y.len()) as f64);
    if happened == 0.0 || happened == all {
        return None;
    }
    let mut rank_sum = 0.0;
    let mut below = 0.0;
    for (n, k) in tied_groups(p, y) {
        // The ranks of the group are below + 1 to below + n; each of its members gets their middle.
        rank_sum += k * (below + 0.5 * (n + 1.0));
        below += n;
    }
    Some((rank_sum - 0.5 * happened * (happened + 1.0)) / (happened * (all - happened)))
}

/// Average precision: Σ (Rₙ − Rₙ₋₁)·Pₙ over thresholds from the highest forecast down, with P the share of true ones
/// at or above the threshold and R the share of the true ones that are there; equal forecasts share one threshold, and
/// nothing is interpolated (the definition of scikit-learn's `average_precision_score`). `None` if nothing happened.
pub fn average_precision(p: &[f64], y: &[bool]) -> Option<f64> {
    let happened = y.iter().filter(|y| **y).count() as f64;
    if happened == 0.0 {
        return None;
    }
    let (mut taken, mut hits, mut sum) = (0.0, 0.0, 0.0);
    for (n, k) in tied_groups(p, y).into_iter().rev() {
        taken += n;
        hits += k;
        sum += k / happened * (hits / taken);
    }
    Some(sum)
}

/// (cases, cases that happened) of each distinct forecast, lowest first.
fn tied_groups(p: &[f64], y: &[bool]) -> Vec<(f64, f64)> {
    super::bins::by_value(p, y).iter().map(|bin| (bin.n as f64, bin.happened as f64)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ties_count_half_and_one_class_has_no_area() {
        // Pairs: (0.5, 0.2) right, (0.5, 0.5) tied, (0.9, both) right: 3.5 of 4.
        let y = [true, true, false, false];
        assert_eq!(roc_auc(&[0.5, 0.9, 0.2, 0.5], &y), Some(3.5 / 4.0));
        assert_eq!(roc_auc(&[0.5, 0.9], &[true, true]), None);
        assert_eq!(roc_auc(&[], &[]), None);
    }

    #[test]
    fn average_precision_steps_down_the_list() {
        // 0.9 true: P 1, R 1/2; 0.5 one of two: P 2/3, R 1. Sum 1/2·1 + 1/2·2/3.
        let ap = average_precision(&[0.5, 0.9, 0.2, 0.5], &[true, true, false, false]).unwrap();
        assert!((ap - 5.0 / 6.0).abs() < 1e-15);
        assert_eq!(average_precision(&[0.3], &[false]), None);
    }
}
