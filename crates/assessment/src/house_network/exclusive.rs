//! Clues read from one single-valued answer: which exclude and which contain each other, and the states they make.

use survey::catalog::{Bound, Clue, Compare, TrueWhen};

use super::cut::InScope;

/// How one clue's answers lie to another's.
#[derive(PartialEq)]
enum Lies {
    Apart,
    Inside,
    Around,
    Across,
}

fn lies(a: &Clue, b: &Clue) -> Lies {
    match (&a.true_when, &b.true_when) {
        (TrueWhen::In(x) | TrueWhen::Has(x), TrueWhen::In(y) | TrueWhen::Has(y)) => {
            let shared = x.iter().filter(|o| y.contains(o)).count();
            match shared {
                0 => Lies::Apart,
                n if n == x.len() => Lies::Inside,
                n if n == y.len() => Lies::Around,
                _ => Lies::Across,
            }
        }
        (TrueWhen::Compare(how_a, bound_a), TrueWhen::Compare(how_b, bound_b)) => {
            let up = |h: &Compare| matches!(h, Compare::Gte | Compare::Gt);
            let number = |b: &Bound| match b {
                Bound::Length(l) => l.eighth_um(),
                Bound::Milli(m) => *m,
            };
            let (x, y) = (number(bound_a), number(bound_b));
            match (up(how_a), up(how_b)) {
                (true, true) => {
                    if x >= y {
                        Lies::Inside
                    } else {
                        Lies::Around
                    }
                }
                (false, false) => {
                    if x <= y {
                        Lies::Inside
                    } else {
                        Lies::Around
                    }
                }
                (true, false) => {
                    if x >= y {
                        Lies::Apart
                    } else {
                        Lies::Across
                    }
                }
                (false, true) => {
                    if x <= y {
                        Lies::Apart
                    } else {
                        Lies::Across
                    }
                }
            }
        }
        _ => Lies::Across,
    }
}

/// True when any two clues exclude or contain each other.
pub(super) fn laminar(group: &[usize], clues: &[InScope<'_>]) -> bool {
    group
        .iter()
        .enumerate()
        .all(|(i, a)| group[..i].iter().all(|b| lies(clues[*a].clue, clues[*b].clue) != Lies::Across))
}

/// For each clue of the group the smallest clue that contains it.
pub(super) fn containment(group: &[usize], clues: &[InScope<'_>]) -> Vec<Option<usize>> {
    let around = |i: usize, j: usize| {
        i != j
            && match lies(clues[group[i]].clue, clues[group[j]].clue) {
                Lies::Inside => lies(clues[group[j]].clue, clues[group[i]].clue) != Lies::Inside || j < i,
                _ => false,
            }
    };
    (0..group.len())
        .map(|i| {
            let holders: Vec<usize> = (0..group.len()).filter(|j| around(i, *j)).collect();
            holders.iter().copied().find(|h| holders.iter().all(|o| o == h || around(*h, *o)))
        })
        .collect()
}

/// Which clues are true in each state: none, then each clue with those that contain it.
pub(super) fn truth_table(inside: &[Option<usize>]) -> Vec<Vec<bool>> {
    let mut rows = vec![vec![false; inside.len()]];
    for clue in 0..inside.len() {
        let mut row = vec![false; inside.len()];
        let mut at = Some(clue);
        while let Some(k) = at {
            row[k] = true;
            at = inside[k];
        }
        rows.push(row);
    }
    rows
}

/// Probabilities of the states from P(clue) of each: what lies inside a clue is taken out of it; apart clues whose
/// sum would pass 0.999 (several causes at once) are scaled down together.
pub(super) fn states(p: &[f64], inside: &[Option<usize>]) -> Vec<f64> {
    if let [only] = p {
        return vec![1.0 - only, *only];
    }
    let mut whole = p.to_vec();
    let fit_into = |whole: &mut Vec<f64>, parent: Option<usize>, room: f64| {
        let children: Vec<usize> = (0..inside.len()).filter(|k| inside[*k] == parent).collect();
        let sum: f64 = children.iter().map(|k| whole[*k]).sum();
        if sum > room {
            children.iter().for_each(|k| whole[*k] *= room / sum);
        }
    };
    fit_into(&mut whole, None, 0.999);
    // Containers before what they contain: depth is at most the number of clues.
    let mut done = vec![false; inside.len()];
    for _ in 0..inside.len() {
        for k in 0..inside.len() {
            if !done[k] && inside[k].is_none_or(|parent| done[parent]) {
                done[k] = true;
                let room = whole[k];
                fit_into(&mut whole, Some(k), room);
            }
        }
    }
    let own = |k: usize| {
        let children: f64 = (0..inside.len()).filter(|j| inside[*j] == Some(k)).map(|j| whole[j]).sum();
        (whole[k] - children).max(0.0)
    };
    let mut row: Vec<f64> = (0..p.len()).map(own).collect();
    let sum: f64 = row.iter().sum();
    row.insert(0, (1.0 - sum).max(0.0));
    row
}
