//! The order of asking against a fixed, a random and an entropy order, on invented houses whose answers it cannot know.
//! `docs/orders.md` holds the figures of many houses; these few keep the walk from getting worse unseen.

use assessment::ClueTables;
use imagine::orders::{AFTER, Order, Table, compare};
use imagine::{Truth, houses};
use survey::catalog::builtin;

const MANY: usize = 8;

#[test]
fn the_adaptive_walk_asks_less_and_gathers_nearly_all_that_answers_are_worth() {
    let catalog = builtin().unwrap();
    let truth = Truth::new(catalog.clone()).unwrap();
    let tables = ClueTables::fit(&catalog);
    let drawn = houses(&catalog, &truth, 3).unwrap().take(MANY).map(Result::unwrap);
    let runs: Vec<_> = drawn.map(|house| compare(&catalog, &tables, &truth, &house).unwrap()).collect();
    let table = Table::of(&runs);
    let line = |order| table.lines.iter().find(|line| line.0 == order).unwrap();
    let (end, twenty) = (AFTER.len(), AFTER.iter().position(|n| *n == 20).unwrap());
    let share = |order, at: usize| line(order).2[at].value;

    assert!(share(Order::Adaptive, end) > 0.9, "{}", table.markdown());
    assert!(share(Order::Adaptive, end) > share(Order::Fixed, end), "{}", table.markdown());
    assert!(line(Order::Adaptive).1.value + 15.0 < line(Order::Random).1.value, "{}", table.markdown());
    assert!(share(Order::WorthFirst, twenty) > share(Order::Random, twenty) + 0.2, "{}", table.markdown());
    assert!(share(Order::WorthFirst, twenty) > share(Order::Fixed, twenty), "{}", table.markdown());
    // Whatever the order, asking everything tells the same.
    assert!((share(Order::Random, end) - 1.0).abs() < 0.1, "{}", table.markdown());
}
