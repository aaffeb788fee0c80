//! A reliability diagram in lines: a rule of probability for each bin, with the band of what was found on it.

use alloc::{format, string::String};

use survey::{Phrase, Said};

use super::COLUMNS;
use super::grid::{Grid, column, cut, wide_of};
use crate::reliability::{Reliability, description, in_tenths, title};
use crate::said::Say;

/// A reliability diagram in lines of characters, as [`crate::text()`] otherwise: on each bin's rule `:` is the mean
/// forecast, `o` the share found, `[` and `]` the ends of its band, `@` a share that lies on the forecast, `X` a share
/// whose band leaves the forecast out. Where the numbers are small only the counts are written.
pub fn reliability_text(p: &Reliability, columns: usize, say: &dyn Fn(&Said) -> String) -> String {
    let columns = columns.clamp(COLUMNS[0], COLUMNS[1]);
    let w = Say(say);
    let mut g = Grid::new(columns);
    let names: alloc::vec::Vec<[String; 2]> =
        p.bins.iter().map(|b| [cut(&w.say(b.named()), 16), cut(&w.say(b.counted()), 14)]).collect();
    let widest = |k: usize| names.iter().map(|n| wide_of(&n[k])).max().unwrap_or(0);
    let (first, second) = (widest(0), widest(1));
    let rule = first + second + 4;
    let wide = columns.saturating_sub(rule + 3);
    for (row, (bin, [name, count])) in p.bins.iter().zip(&names).enumerate() {
        g.write_before(row, first, name);
        g.write_before(row, first + 2 + second, count);
        if p.small || wide < 10 {
            continue;
        }
        let at = |share: f64| rule + column(share, wide);
        g.put(row, rule - 1, '|');
        g.put(row, rule + wide + 1, '|');
        let [low, high] = bin.band.map(at);
        g.fill(row, low, high, '-');
        g.put(row, low, '[');
        g.put(row, high, ']');
        g.put(row, at(bin.mean), ':');
        let sign = match (bin.is_off(), at(bin.share) == at(bin.mean)) {
            (true, _) => 'X',
            (false, true) => '@',
            (false, false) => 'o',
        };
        g.put(row, at(bin.share), sign);
    }
    let foot = p.bins.len();
    if p.bins.is_empty() {
        g.write(0, 0, &cut(&w.say(description(p)), columns));
    } else if !p.small && wide >= 10 {
        for tenth in [0, 2, 4, 6, 8, 10] {
            let share = f64::from(tenth) / 10.0;
            let shown = w.say(in_tenths(share));
            g.write_before(foot, rule + column(share, wide) + 1, &shown);
        }
        g.write(foot + 1, 0, &cut(&w.say(Phrase("drawing-reliability-signs")), columns));
    }
    format!("{}\n\n{}", cut(&w.say(title(p)), columns), g.into_text())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reliability::ReliabilityBin;
    use crate::testing::english;

    #[test]
    fn each_bin_has_its_rule_and_its_count() {
        let bin = |ends: [f64; 2], n, found, mean, share, band| ReliabilityBin {
            ends,
            n,
            found,
            mean,
            share,
            band,
        };
        let p = Reliability {
            bins: alloc::vec![
                bin([0.0, 0.1], 40, 2, 0.05, 0.05, [0.0, 0.2]),
                bin([0.5, 0.6], 20, 16, 0.5, 0.8, [0.6, 0.9]),
            ],
            small: false,
        };
        let made = reliability_text(&p, 60, &english);
        let lines: alloc::vec::Vec<&str> = made.lines().skip(2).collect();
        assert!(lines[0].contains("2 of 40") && lines[0].contains('@'), "{made}");
        assert!(lines[1].contains(':') && lines[1].contains('X'), "{made}");
        let column = |line: &str, sign: char| line.chars().position(|c| c == sign).unwrap();
        assert!(
            column(lines[1], ':') < column(lines[1], '[') && column(lines[1], '[') < column(lines[1], 'X')
        );
        // The stroke of five tenths would stand between 4 and 6: where the mean of the second bin is.
        let middle = (column(lines[2], '4') + column(lines[2], '6')) / 2;
        assert!(column(lines[1], ':').abs_diff(middle) <= 1, "{made}");
        assert!(made.lines().all(|l| l.chars().count() <= 60));
        let small = reliability_text(&Reliability { small: true, ..p }, 60, &english);
        assert!(!small.contains('@') && small.contains("16 of 20"), "{small}");
    }
}
