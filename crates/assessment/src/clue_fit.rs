//! From the catalog's pairs to one table for each clue: a noisy-OR fitted by least squares on log-odds.
//!
//! The catalog says, condition by condition, P(clue | present) and P(clue | absent) "in the field", that is, with
//! the other conditions at their base rates. A clue that several conditions can cause needs one table that gives
//! all these pairs back. The model is P(no | x) = (1 − leak)·∏(1 − w_c)^{x_c}; a negative w_c makes the clue rarer.
//! Unknowns are v = ln(1 − leak) and u_c = ln(1 − w_c); 2n log-odds are asked of n + 1 unknowns, so with one
//! condition the fit is exact and with several it is the least-squares compromise (`least_squares.rs`: fixed start,
//! fixed order of sums): the same catalog gives the same table.

mod least_squares;

use least_squares::{Problem, Rows, least_squares};

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
    let bands = [pairs];
    let theta = solve(&Asked { bands: &bands, shares: &[1.0], over_eras: false });
    family(theta[0], &theta[1..])
}

/// Fits a clue whose false positives depend on the era: one leak for each era, weights shared by all. `bands[b]` has
/// the pairs with the numbers of era b, `shares[b]` is that era's share of houses. P(clue | present) is asked over
/// all houses with the condition, P(clue | absent) era by era, each weighing its share.
pub fn fit_by_era(bands: &[Vec<Pair>], shares: &[f64]) -> Vec<Family> {
    if bands.is_empty() {
        return Vec::new();
    }
    let pairs: Vec<&[Pair]> = bands.iter().map(Vec::as_slice).collect();
    let theta = solve(&Asked { bands: &pairs, shares, over_eras: true });
    let (leaks, weights) = theta.split_at(bands.len());
    leaks.iter().map(|v| family(*v, weights)).collect()
}

fn solve(asked: &Asked<'_>) -> Vec<f64> {
    let leaks = asked.bands.iter().map(|pairs| start_leak(pairs));
    let start = leaks.chain(asked.bands[0].iter().map(start_weight)).collect();
    least_squares(start, asked)
}

/// What is asked of the families of a clue. Unknowns: a leak for each era, then a weight for each condition.
struct Asked<'a> {
    /// Pairs by era; one list where the clue does not depend on it.
    bands: &'a [&'a [Pair]],
    /// Shares of houses by era.
    shares: &'a [f64],
    /// P(clue | present) is one number over all eras, and P(clue | absent) weighs by era.
    over_eras: bool,
}

impl Problem for Asked<'_> {
    /// Log-odds got less log-odds asked, with derivatives: present and absent of each condition, or present of each
    /// over all eras and then absent by era.
    fn rows(&self, theta: &[f64], rows: &mut Rows) {
        let eras = self.bands.len();
        let (leaks, weights) = theta.split_at(eras);
        let mut silent = Silent::new(leaks, weights);
        if !self.over_eras {
            for (c, pair) in self.bands[0].iter().enumerate() {
                for (state, p) in [(1, pair.if_present), (0, pair.if_absent)] {
                    silent.of(0, self.bands[0], c, state);
                    rows.next(silent.logit() - logit(p), silent.slopes(0, 1, silent.slope()));
                }
            }
            return;
        }
        for (c, first) in self.bands[0].iter().enumerate() {
            self.present_over_eras(c, first.if_present, &mut silent, rows);
        }
        for (b, pairs) in self.bands.iter().enumerate() {
            let weight = libm::sqrt(self.shares[b]);
            for (c, pair) in pairs.iter().enumerate() {
                silent.of(b, pairs, c, 0);
                let off = weight * (silent.logit() - logit(pair.if_absent));
                rows.next(off, silent.slopes(b, eras, weight * silent.slope()));
            }
        }
    }

    fn hold_within(&self, theta: &mut [f64]) {
        let (v, u) = theta.split_at_mut(self.bands.len());
        for (v, pairs) in v.iter_mut().zip(self.bands) {
            *v = v.clamp(libm::log(P_MIN), libm::log1p(-leak_floor(pairs)));
        }
        hold_weights(v, u);
    }
}

impl Asked<'_> {
    fn present_over_eras(&self, c: usize, asked: f64, silent: &mut Silent, rows: &mut Rows) {
        let eras = self.bands.len();
        let shares: Vec<f64> =
            self.bands.iter().zip(self.shares).map(|(pairs, s)| s * pairs[c].base).collect();
        let sum = shares.iter().sum::<f64>().max(1e-300);
        let mut p = 0.0;
        let mut slopes = vec![0.0; eras + silent.by_weight.len()];
        for (b, pairs) in self.bands.iter().enumerate() {
            silent.of(b, pairs, c, 1);
            let share = shares[b] / sum;
            p += share * (1.0 - silent.p);
            // d(1 − S)/dθ = −S·d(ln S)/dθ.
            let moved = if silent.held { 0.0 } else { -share * silent.p };
            slopes[b] += moved;
            for (slope, by) in slopes[eras..].iter_mut().zip(&silent.by_weight) {
                *slope += moved * by;
            }
        }
        let slope = if (P_MIN..=1.0 - P_MIN).contains(&p) { 1.0 / (p * (1.0 - p)) } else { 0.0 };
        rows.next(logit(p) - logit(asked), slopes.into_iter().map(|s| slope * s).enumerate());
    }
}

/// P(no clue) for one condition in one state, others at their rates, and how ln P moves with each weight's unknown.
struct Silent {
    p: f64,
    /// True where P was held at 1.
    held: bool,
    by_weight: Vec<f64>,
    /// 1 − leak by era, 1 − weight by condition.
    no_leak: Vec<f64>,
    no_weight: Vec<f64>,
}

impl Silent {
    fn new(v: &[f64], u: &[f64]) -> Self {
        let exp = |list: &[f64]| list.iter().map(|x| libm::exp(*x)).collect();
        Self { p: 1.0, held: false, by_weight: vec![0.0; u.len()], no_leak: exp(v), no_weight: exp(u) }
    }
    fn of(&mut self, era: usize, pairs: &[Pair], c: usize, state: usize) {
        let mut p = self.no_leak[era];
        for (j, no_weight) in self.no_weight.iter().enumerate() {
            let rate = if j == c { f64::from(u8::from(state == 1)) } else { pairs[c].others[j][state] };
            let factor = 1.0 - rate + rate * no_weight;
            self.by_weight[j] = rate * no_weight / factor;
            p *= factor;
        }
        self.held = p > 1.0;
        self.p = p.clamp(0.0, 1.0);
    }
    /// Derivatives by the leak of an era and by every weight, `first` being the place of the first weight.
    fn slopes(&self, era: usize, first: usize, slope: f64) -> impl Iterator<Item = (usize, f64)> {
        let weights = self.by_weight.iter().map(move |by| slope * by);
        core::iter::once((era, slope)).chain((first..).zip(weights))
    }
    fn logit(&self) -> f64 {
        logit(1.0 - self.p)
    }
    /// d logit(1 − P) / d ln P.
    fn slope(&self) -> f64 {
        let p = 1.0 - self.p;
        if self.held || !(P_MIN..=1.0 - P_MIN).contains(&p) { 0.0 } else { -1.0 / p }
    }
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

/// Keeps weights below 1 and P(no) ≤ 1 for every configuration.
fn hold_weights(v: &[f64], u: &mut [f64]) {
    let most = v.iter().fold(f64::INFINITY, |least, v| least.min(-v));
    u.iter_mut().for_each(|u| *u = u.clamp(libm::log(1e-9), most));
    let rarer: f64 = u.iter().filter(|u| **u > 0.0).sum();
    if rarer > most {
        u.iter_mut().filter(|u| **u > 0.0).for_each(|u| *u *= most / rarer);
    }
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
