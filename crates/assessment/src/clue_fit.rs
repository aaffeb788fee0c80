//! From the catalog's pairs to one table for each clue: a noisy-OR fitted by least squares on log-odds.
//!
//! The catalog says, condition by condition, P(clue | present) and P(clue | absent) "in the field", that is, with
//! the other conditions at their base rates. A clue that several conditions can cause needs one table that gives
//! all these pairs back. The model is P(no | x) = (1 − leak)·∏(1 − w_c)^{x_c}; a negative w_c makes the clue rarer.
//! Unknowns are v = ln(1 − leak) and u_c = ln(1 − w_c); 2n log-odds are asked of n + 1 unknowns, so with one
//! condition the fit is exact and with several it is the least-squares compromise. Levenberg–Marquardt, fixed
//! start, fixed number of steps: the same catalog gives the same table.

/// One pair of the catalog: what is asked of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// P(clue | condition present), others at their rates.
    pub if_present: f64,
    /// P(clue | condition absent), others at their rates.
    pub if_absent: f64,
    /// Base rate of the condition.
    pub base: f64,
    /// For each condition of the clue, in order: its rate when this one is absent and when it is present. They differ
    /// where one implies or excludes the other. The entry of the condition itself is not read.
    pub others: Vec<[f64; 2]>,
}

impl Pair {
    /// A pair among conditions that do not bear on each other.
    pub fn independent(if_present: f64, if_absent: f64, base: f64, bases: &[f64]) -> Self {
        Self { if_present, if_absent, base, others: bases.iter().map(|b| [*b, *b]).collect() }
    }
}

/// A fitted noisy-OR family.
#[derive(Clone, Debug, PartialEq)]
pub struct Family {
    /// Probability of the clue with no condition present.
    pub leak: f64,
    /// Weight of each condition, below 1; negative weights make the clue rarer.
    pub weights: Vec<f64>,
}

const P_MIN: f64 = 1e-6;
const W_MAX: f64 = 1.0 - 1e-9;

impl Family {
    /// P(clue | the conditions marked present).
    pub fn p(&self, present: impl Iterator<Item = bool>) -> f64 {
        let silent = self
            .weights
            .iter()
            .zip(present)
            .filter(|(_, x)| *x)
            .fold(1.0 - self.leak, |q, (w, _)| q * (1.0 - w));
        1.0 - silent.clamp(0.0, 1.0)
    }
    /// What the family gives for each pair: (P | present, P | absent), others at their rates.
    pub fn got(&self, pairs: &[Pair]) -> Vec<(f64, f64)> {
        let silent = |c: usize, state: usize| -> f64 {
            let others = self.weights.iter().zip(&pairs[c].others).enumerate().filter(|(j, _)| *j != c);
            others.fold(1.0 - self.leak, |q, (_, (w, rates))| q * (1.0 - w * rates[state]))
        };
        (0..self.weights.len())
            .map(|c| {
                let present = silent(c, 1) * (1.0 - self.weights[c]);
                (1.0 - present.clamp(0.0, 1.0), 1.0 - silent(c, 0).clamp(0.0, 1.0))
            })
            .collect()
    }
    /// The family with one condition taken out and left at its base rate inside the leak.
    pub fn absorb(&self, condition: usize, base: f64) -> Self {
        let mut weights = self.weights.clone();
        let weight = weights.remove(condition);
        Self { leak: (1.0 - (1.0 - self.leak) * (1.0 - weight * base)).clamp(0.0, 1.0), weights }
    }
}

fn logit(p: f64) -> f64 {
    let p = p.clamp(P_MIN, 1.0 - P_MIN);
    libm::log(p / (1.0 - p))
}

/// Fits one family to its pairs.
pub fn fit(pairs: &[Pair]) -> Family {
    if let [only] = pairs {
        return exact(only.if_present, only.if_absent);
    }
    let asked: Vec<f64> = pairs.iter().flat_map(|p| [logit(p.if_present), logit(p.if_absent)]).collect();
    let residuals = |theta: &[f64]| -> Vec<f64> {
        let got = family(theta[0], &theta[1..]).got(pairs);
        let flat = got.iter().flat_map(|(p, a)| [logit(*p), logit(*a)]);
        flat.zip(&asked).map(|(g, a)| g - a).collect()
    };
    let start = [vec![start_leak(pairs)], pairs.iter().map(start_weight).collect()].concat();
    let theta = least_squares(start, &[leak_floor(pairs)], residuals);
    family(theta[0], &theta[1..])
}

/// Fits a clue whose false positives depend on the era: one leak for each era, weights shared by all. `bands[b]` has
/// the pairs with the numbers of era b, `shares[b]` is that era's share of houses. P(clue | present) is asked over
/// all houses with the condition, P(clue | absent) era by era, each weighing its share.
pub fn fit_by_era(bands: &[Vec<Pair>], shares: &[f64]) -> Vec<Family> {
    let Some(first) = bands.first() else { return Vec::new() };
    let (eras, n) = (bands.len(), first.len());
    let residuals = |theta: &[f64]| -> Vec<f64> {
        let families: Vec<Family> = (0..eras).map(|b| family(theta[b], &theta[eras..])).collect();
        let got = got_by_era(&families, bands, shares);
        let present = got.present.iter().zip(first).map(|(g, p)| logit(*g) - logit(p.if_present));
        let absent = (0..eras).flat_map(|b| {
            let (got, weight) = (&got.absent[b], libm::sqrt(shares[b]));
            bands[b].iter().enumerate().map(move |(c, p)| weight * (logit(got[c]) - logit(p.if_absent)))
        });
        present.chain(absent).collect()
    };
    let leaks: Vec<f64> = bands.iter().map(|pairs| start_leak(pairs)).collect();
    let start = [leaks, first.iter().map(start_weight).collect()].concat();
    debug_assert_eq!(start.len(), eras + n);
    let floors: Vec<f64> = bands.iter().map(|pairs| leak_floor(pairs)).collect();
    let theta = least_squares(start, &floors, residuals);
    (0..eras).map(|b| family(theta[b], &theta[eras..])).collect()
}

/// What families of several eras give: P(clue | present) over all houses with each condition, and
/// P(clue | absent) by era and condition.
pub struct GotByEra {
    /// By condition.
    pub present: Vec<f64>,
    /// By era, then condition.
    pub absent: Vec<Vec<f64>>,
}

/// What families of several eras give back.
pub fn got_by_era(families: &[Family], bands: &[Vec<Pair>], shares: &[f64]) -> GotByEra {
    let by_era: Vec<Vec<(f64, f64)>> = families.iter().zip(bands).map(|(f, pairs)| f.got(pairs)).collect();
    let conditions = bands.first().map_or(0, Vec::len);
    let present = (0..conditions)
        .map(|c| {
            let weights: Vec<f64> = bands.iter().zip(shares).map(|(pairs, s)| s * pairs[c].base).collect();
            let sum: f64 = weights.iter().sum();
            by_era.iter().zip(&weights).map(|(got, w)| got[c].0 * w).sum::<f64>() / sum.max(1e-300)
        })
        .collect();
    GotByEra { present, absent: by_era.iter().map(|got| got.iter().map(|g| g.1).collect()).collect() }
}

/// The one family of a clue that a single condition causes.
fn exact(if_present: f64, if_absent: f64) -> Family {
    let leak = if_absent.clamp(0.0, W_MAX);
    Family { leak, weights: vec![(1.0 - (1.0 - if_present) / (1.0 - leak)).min(W_MAX)] }
}

fn family(v: f64, u: &[f64]) -> Family {
    Family { leak: 1.0 - libm::exp(v), weights: u.iter().map(|u| 1.0 - libm::exp(*u)).collect() }
}

/// Start: half of what is asked when absent.
fn start_leak(pairs: &[Pair]) -> f64 {
    let mean_absent = pairs.iter().map(|p| p.if_absent).sum::<f64>() / pairs.len().max(1) as f64;
    libm::log(1.0 - (0.5 * mean_absent).clamp(P_MIN, 0.9))
}

/// Start: each condition alone explains its own pair.
fn start_weight(pair: &Pair) -> f64 {
    libm::log(((1.0 - pair.if_present) / (1.0 - pair.if_absent)).clamp(1e-9, 1e3))
}

/// No clue is perfectly specific: its leak stays at least a quarter of the smallest P(clue | absent) asked.
fn leak_floor(pairs: &[Pair]) -> f64 {
    (0.25 * pairs.iter().map(|p| p.if_absent).fold(1.0, f64::min)).max(P_MIN)
}

/// Levenberg–Marquardt with a numerical Jacobian. The first unknowns are leaks, one for each floor; the others weights.
fn least_squares(mut theta: Vec<f64>, floors: &[f64], residuals: impl Fn(&[f64]) -> Vec<f64>) -> Vec<f64> {
    let square = |r: &[f64]| r.iter().map(|x| x * x).sum::<f64>();
    let mut lambda = 1e-3;
    let mut now = residuals(&theta);
    for _ in 0..300 {
        let step = 1e-6;
        let jacobian: Vec<Vec<f64>> = (0..theta.len())
            .map(|k| {
                let mut moved = theta.clone();
                moved[k] += step;
                residuals(&moved).iter().zip(&now).map(|(a, b)| (a - b) / step).collect()
            })
            .collect();
        let Some(delta) = damped_step(&jacobian, &now, lambda) else {
            lambda *= 10.0;
            continue;
        };
        let mut trial: Vec<f64> = theta.iter().zip(&delta).map(|(t, d)| t + d).collect();
        hold_within(&mut trial, floors);
        let next = residuals(&trial);
        if square(&next) < square(&now) {
            theta = trial;
            now = next;
            lambda = (lambda * 0.3).max(1e-12);
        } else if lambda >= 1e12 {
            break; // no direction helps any more
        } else {
            lambda *= 4.0;
        }
    }
    theta
}

/// Keeps leaks and weights below 1 and P(no) ≤ 1 for every configuration.
fn hold_within(theta: &mut [f64], floors: &[f64]) {
    let (v, u) = theta.split_at_mut(floors.len());
    v.iter_mut().zip(floors).for_each(|(v, floor)| *v = v.clamp(libm::log(P_MIN), libm::log1p(-floor)));
    let most = v.iter().fold(f64::INFINITY, |least, v| least.min(-v));
    u.iter_mut().for_each(|u| *u = u.clamp(libm::log(1e-9), most));
    let rarer: f64 = u.iter().filter(|u| **u > 0.0).sum();
    if rarer > most {
        u.iter_mut().filter(|u| **u > 0.0).for_each(|u| *u *= most / rarer);
    }
}

/// Solves (JᵀJ + λ·diag) δ = −Jᵀr by Gaussian elimination with pivoting; `None` if singular.
fn damped_step(jacobian: &[Vec<f64>], residuals: &[f64], lambda: f64) -> Option<Vec<f64>> {
    let n = jacobian.len();
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let mut m: Vec<Vec<f64>> = (0..n)
        .map(|i| {
            let mut row: Vec<f64> = (0..n).map(|j| dot(&jacobian[i], &jacobian[j])).collect();
            row[i] += lambda * row[i].max(1e-12);
            row.push(-dot(&jacobian[i], residuals));
            row
        })
        .collect();
    for col in 0..n {
        let pivot = (col..n).max_by(|a, b| m[*a][col].abs().total_cmp(&m[*b][col].abs()))?;
        if m[pivot][col].abs() < 1e-300 {
            return None;
        }
        m.swap(col, pivot);
        let pivot_row = m[col].clone();
        for (_, row) in m.iter_mut().enumerate().filter(|(r, _)| *r != col) {
            let factor = row[col] / pivot_row[col];
            row.iter_mut().zip(&pivot_row).skip(col).for_each(|(x, p)| *x -= factor * p);
        }
    }
    Some((0..n).map(|i| m[i][n] / m[i][i]).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_condition_is_given_back_exactly() {
        let pairs = [Pair::independent(0.6, 0.12, 0.3, &[0.3])];
        let got = fit(&pairs).got(&pairs)[0];
        assert!((got.0 - 0.6).abs() < 1e-12 && (got.1 - 0.12).abs() < 1e-12);
    }

    #[test]
    fn pairs_made_by_a_noisy_or_are_found_again() {
        let truth = Family { leak: 0.05, weights: vec![0.7, 0.3, -0.02] };
        let bases = [0.2, 0.5, 0.4];
        let bare: Vec<Pair> = bases.iter().map(|b| Pair::independent(0.0, 0.0, *b, &bases)).collect();
        let asked = truth.got(&bare).into_iter().zip(bases);
        let pairs: Vec<Pair> = asked.map(|((p, a), base)| Pair::independent(p, a, base, &bases)).collect();
        let found = fit(&pairs);
        assert!((found.leak - 0.05).abs() < 1e-6, "{found:?}");
        for (a, b) in found.weights.iter().zip(&truth.weights) {
            assert!((a - b).abs() < 1e-6, "{found:?}");
        }
    }

    #[test]
    fn eras_with_their_own_false_positives_share_the_weights() {
        let shares = [0.3, 0.7];
        let truth =
            [Family { leak: 0.30, weights: vec![0.6, 0.2] }, Family { leak: 0.02, weights: vec![0.6, 0.2] }];
        let rates = [[0.4, 0.5], [0.1, 0.2]];
        let bare = |b: usize| -> Vec<Pair> {
            rates[b].iter().map(|base| Pair::independent(0.0, 0.0, *base, &rates[b])).collect()
        };
        let got = got_by_era(&truth, &[bare(0), bare(1)], &shares);
        let asked: Vec<Vec<Pair>> = (0..2)
            .map(|b| {
                (0..2)
                    .map(|c| Pair::independent(got.present[c], got.absent[b][c], rates[b][c], &rates[b]))
                    .collect()
            })
            .collect();
        let found = fit_by_era(&asked, &shares);
        for (a, b) in found.iter().zip(&truth) {
            assert!((a.leak - b.leak).abs() < 1e-5, "{found:?}");
            assert!(a.weights.iter().zip(&b.weights).all(|(x, y)| (x - y).abs() < 1e-5), "{found:?}");
        }
    }

    #[test]
    fn contradicting_pairs_meet_in_the_middle() {
        // Two conditions that disagree on how often the clue shows when they are absent.
        let bases = [0.1, 0.1];
        let pairs = [Pair::independent(0.5, 0.10, 0.1, &bases), Pair::independent(0.5, 0.20, 0.1, &bases)];
        let got = fit(&pairs).got(&pairs);
        assert!(got[0].1 > 0.10 && got[1].1 < 0.20, "{got:?}");
    }

    #[test]
    fn a_condition_out_of_scope_stays_in_the_leak_at_its_base_rate() {
        let family = Family { leak: 0.1, weights: vec![0.5, 0.4] };
        let both: Vec<Pair> =
            [0.3, 0.2].iter().map(|b| Pair::independent(0.0, 0.0, *b, &[0.3, 0.2])).collect();
        let got = family.got(&both);
        let small = family.absorb(1, 0.2).got(&[Pair::independent(0.0, 0.0, 0.3, &[0.3])]);
        assert!((small[0].0 - got[0].0).abs() < 1e-12 && (small[0].1 - got[0].1).abs() < 1e-12);
    }

    #[test]
    fn a_condition_that_implies_another_is_absent_when_the_other_is() {
        // The second implies the first: bundle → wires. Asked: 0.6 / 0.12 for wires, 0.85 / 0.5 for the bundle.
        let (wires, bundle) = (0.95, 0.4);
        let pairs = [
            Pair {
                if_present: 0.6,
                if_absent: 0.12,
                base: wires,
                others: vec![[0.0, 1.0], [0.0, bundle / wires]],
            },
            Pair {
                if_present: 0.85,
                if_absent: 0.45,
                base: bundle,
                others: vec![[(wires - bundle) / (1.0 - bundle), 1.0], [0.0, 1.0]],
            },
        ];
        let family = fit(&pairs);
        // With neither there, the clue is as rare as the catalog says for "no wires", not impossible.
        assert!((family.leak - 0.12).abs() < 0.05, "{family:?} {:?}", family.got(&pairs));
    }
}
