//! What holds of every section in plain characters.

use proptest::prelude::*;

use super::text;
use crate::testing::{any_picture, english};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]

    #[test]
    fn every_line_is_plain_and_fits(picture in any_picture(), columns in any::<usize>()) {
        let made = text(&picture, columns, &english);
        prop_assert_eq!(&made, &text(&picture, columns, &english));
        prop_assert!(made.ends_with('\n'));
        let most = columns.clamp(40, 78);
        let mut lines = 0;
        for line in made.lines() {
            prop_assert!(line.chars().count() <= most, "{line}");
            prop_assert!(line.chars().all(|c| matches!(c, ' '..='~' | '¿' | '¡' | 'À'..='ɏ')), "{line}");
            prop_assert_eq!(line, line.trim_end());
            lines += 1;
        }
        prop_assert!((3..400).contains(&lines));
    }
}
