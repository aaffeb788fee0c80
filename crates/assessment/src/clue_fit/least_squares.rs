//! Least squares by Levenberg–Marquardt (Levenberg 1944, Marquardt 1963) with exact derivatives, inside bounds that a
//! problem keeps itself. Fixed order of sums, no randomness: the same problem gives the same answer.

/// Steps at most: a clue whose unknowns all lie inside their bounds takes some ten, one that runs along a bound all.
const STEPS: usize = 300;
/// A step that lowers the sum of squares by less than this part of it is the last.
const ENOUGH: f64 = 1e-13;

/// What is asked of some unknowns.
pub(super) trait Problem {
    /// Writes one row for each thing asked: got less asked, and its derivatives.
    fn rows(&self, theta: &[f64], rows: &mut Rows);
    /// Moves the unknowns to where they are allowed.
    fn hold_within(&self, theta: &mut [f64]);
}

/// Sums over the rows: the square of what is off, its gradient and the normal matrix.
pub(super) struct Rows {
    square: f64,
    gradient: Vec<f64>,
    normal: Vec<f64>,
    row: Vec<(usize, f64)>,
}

impl Rows {
    fn new(n: usize) -> Self {
        Self { square: 0.0, gradient: vec![0.0; n], normal: vec![0.0; n * n], row: Vec::with_capacity(n) }
    }
    /// One row: how far it is off, and the derivatives that are not 0, by unknown.
    pub(super) fn next(&mut self, off: f64, slopes: impl Iterator<Item = (usize, f64)>) {
        let n = self.gradient.len();
        self.square += off * off;
        self.row.clear();
        self.row.extend(slopes);
        for (i, a) in &self.row {
            self.gradient[*i] += a * off;
            for (k, b) in &self.row {
                self.normal[i * n + k] += a * b;
            }
        }
    }
    fn fill(&mut self, problem: &impl Problem, theta: &[f64]) {
        self.square = 0.0;
        self.gradient.fill(0.0);
        self.normal.fill(0.0);
        problem.rows(theta, self);
    }

    /// Solves (JᵀJ + λ·diag) δ = −Jᵀr by Gaussian elimination with pivoting, in room handed in; false if singular.
    fn damped_step(&self, lambda: f64, system: &mut [f64], delta: &mut [f64]) -> bool {
        let n = delta.len();
        let wide = n + 1;
        for (i, row) in system.chunks_exact_mut(wide).enumerate() {
            row[..n].copy_from_slice(&self.normal[i * n..(i + 1) * n]);
            row[i] += lambda * row[i].max(1e-12);
            row[n] = -self.gradient[i];
        }
        for col in 0..n {
            let size = |row: usize| system[row * wide + col].abs();
            let pivot = (col + 1..n).fold(col, |best, row| if size(row) >= size(best) { row } else { best });
            if size(pivot) < 1e-300 {
                return false;
            }
            if pivot != col {
                let (above, below) = system.split_at_mut(pivot * wide);
                above[col * wide..(col + 1) * wide].swap_with_slice(&mut below[..wide]);
            }
            for row in (0..n).filter(|row| *row != col) {
                let factor = system[row * wide + col] / system[col * wide + col];
                for k in col..wide {
                    system[row * wide + k] -= factor * system[col * wide + k];
                }
            }
        }
        for (i, d) in delta.iter_mut().enumerate() {
            *d = system[i * wide + n] / system[i * wide + i];
        }
        true
    }
}

/// The unknowns that lie least off, from a start.
pub(super) fn least_squares(mut theta: Vec<f64>, problem: &impl Problem) -> Vec<f64> {
    let n = theta.len();
    let (mut now, mut next) = (Rows::new(n), Rows::new(n));
    now.fill(problem, &theta);
    let mut system = vec![0.0; n * (n + 1)];
    let mut trial = vec![0.0; n];
    let mut lambda = 1e-3;
    for _ in 0..STEPS {
        if !now.damped_step(lambda, &mut system, &mut trial) {
            lambda *= 10.0;
            continue;
        }
        trial.iter_mut().zip(&theta).for_each(|(d, t)| *d += t);
        problem.hold_within(&mut trial);
        next.fill(problem, &trial);
        if next.square < now.square {
            let last = now.square - next.square <= ENOUGH * now.square;
            core::mem::swap(&mut theta, &mut trial);
            core::mem::swap(&mut now, &mut next);
            lambda = (lambda * 0.3).max(1e-12);
            if last {
                break;
            }
        } else if lambda >= 1e12 {
            break; // no direction helps any more
        } else {
            lambda *= 4.0;
        }
    }
    theta
}

#[cfg(test)]
mod tests {
    use super::*;

    /// y = a·exp(b·t) through points made with a = 2, b = −0.5, where b is kept at or above a bound.
    struct Decay {
        least: f64,
    }

    impl Problem for Decay {
        fn rows(&self, theta: &[f64], rows: &mut Rows) {
            for t in [0.0, 1.0, 2.0, 3.0, 4.0] {
                let grown = libm::exp(theta[1] * t);
                let asked = 2.0 * libm::exp(-0.5 * t);
                rows.next(theta[0] * grown - asked, [(0, grown), (1, theta[0] * t * grown)].into_iter());
            }
        }
        fn hold_within(&self, theta: &mut [f64]) {
            theta[1] = theta[1].max(self.least);
        }
    }

    #[test]
    fn the_made_unknowns_are_found_and_a_bound_is_kept() {
        let found = least_squares(vec![1.0, 0.0], &Decay { least: -1.0 });
        assert!((found[0] - 2.0).abs() < 1e-9 && (found[1] + 0.5).abs() < 1e-9, "{found:?}");
        assert_eq!(least_squares(vec![1.0, 0.0], &Decay { least: -0.45 })[1], -0.45);
    }
}
