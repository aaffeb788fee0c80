use super::*;
use crate::units::Quantity;

const T: Option<bool> = Some(true);
const F: Option<bool> = Some(false);
const U: Option<bool> = None;

fn words(list: &[&str]) -> Vec<String> {
    list.iter().map(|w| (*w).to_owned()).collect()
}
fn one(option: &str) -> Option<Value> {
    Some(Value::Choice(option.to_owned()))
}
fn several(list: &[&str]) -> Option<Value> {
    Some(Value::choices(words(list)))
}
/// A predicate whose value is known: an item answered "yes", "no" or not at all.
fn known(value: Option<bool>) -> (Predicate, BTreeMap<String, Value>) {
    let item = format!("{value:?}");
    let answer = value.map(|b| Value::Choice(if b { "yes" } else { "no" }.to_owned()));
    let answers = answer.map(|a| (item.clone(), a)).into_iter().collect();
    (Predicate::Item { item, test: Test::In(words(&["yes"])) }, answers)
}

#[test]
fn any_all_and_not_follow_the_tables_of_strong_three_valued_logic() {
    // Kleene 1952, section 64.
    let rows = [
        (T, T, T, T),
        (T, U, T, U),
        (T, F, T, F),
        (U, T, T, U),
        (U, U, U, U),
        (U, F, U, F),
        (F, T, T, F),
        (F, U, U, F),
        (F, F, F, F),
    ];
    for (a, b, any, all) in rows {
        let ((pa, mut answers), (pb, more)) = (known(a), known(b));
        answers.extend(more);
        let parts = vec![pa.clone(), pb];
        assert_eq!(Predicate::Any(parts.clone()).holds(&answers), any, "{a:?} or {b:?}");
        assert_eq!(Predicate::All(parts).holds(&answers), all, "{a:?} and {b:?}");
        assert_eq!(Predicate::Not(Box::new(pa)).holds(&answers), a.map(|x| !x), "not {a:?}");
    }
    assert_eq!(Predicate::Any(vec![]).holds(&BTreeMap::new()), F);
    assert_eq!(Predicate::All(vec![]).holds(&BTreeMap::new()), T);
}

#[test]
fn single_answers_are_in_or_not_in() {
    let reach = Some(Value::CouldNotReach("locked".into()));
    for (value, is_in, not_in) in [
        (None, U, U),
        (one("a"), T, F),
        (one("c"), F, T),
        (one("cant-tell"), U, U),
        (one("cant-see"), U, U),
        (one("not-done"), U, U),
        (one("not-opened"), U, U),
        (Some(Value::CantTell), U, U),
        (reach, U, U),
        (Some(Value::Withdrawn), U, U),
    ] {
        assert_eq!(Test::In(words(&["a", "b"])).holds(value.as_ref()), is_in, "{value:?}");
        assert_eq!(Test::NotIn(words(&["a", "b"])).holds(value.as_ref()), not_in, "{value:?}");
    }
}

#[test]
fn a_rule_may_name_not_knowing_itself() {
    let test = Test::In(words(&["yes", "cant-tell"]));
    assert_eq!(test.holds(one("cant-tell").as_ref()), T);
    assert_eq!(test.holds(Some(&Value::CantTell)), T);
    assert_eq!(test.holds(one("cant-see").as_ref()), U);
    assert_eq!(test.holds(one("no").as_ref()), F);
}

#[test]
fn several_answers_have_or_lack() {
    for (value, has, lacks) in [
        (None, U, U),
        (several(&["a", "x"]), T, F),
        (several(&["x"]), F, T),
        (several(&["cant-see"]), U, U),
        (several(&["not-done"]), U, U),
        (several(&["x", "cant-see"]), F, T),
        (several(&["a", "cant-see"]), T, F),
        (several(&[]), F, T),
        (Some(Value::CantTell), U, U),
        (Some(Value::CouldNotReach("locked".into())), U, U),
    ] {
        assert_eq!(Test::Has(words(&["a", "b"])).holds(value.as_ref()), has, "{value:?}");
        assert_eq!(Test::Lacks(words(&["a", "b"])).holds(value.as_ref()), lacks, "{value:?}");
    }
}

#[test]
fn numbers_and_lengths_are_compared_exactly_at_the_threshold() {
    let quantity = |text: &str| Some(Value::Number(Quantity::parse(text, "psi").unwrap()));
    let limit = |how| Test::Compare(how, Bound::Milli(80_000));
    for (text, gte, lte, gt, lt) in [("79.999", F, T, F, T), ("80", T, T, F, F), ("80.001", T, F, T, F)] {
        let value = quantity(text);
        for (how, expected) in
            [(Compare::Gte, gte), (Compare::Lte, lte), (Compare::Gt, gt), (Compare::Lt, lt)]
        {
            assert_eq!(limit(how).holds(value.as_ref()), expected, "{text} {how:?}");
        }
    }
    let three_eighths = Bound::Length(Length::from_inches(0.375).unwrap());
    let read = |n| Value::Length(Length::from_eighth_um(n));
    let at_least = Test::Compare(Compare::Gte, three_eighths);
    assert_eq!(at_least.holds(Some(&read(76_200))), T);
    assert_eq!(at_least.holds(Some(&read(76_199))), F);
    assert_eq!(at_least.holds(Some(&Value::CantTell)), U);
    assert_eq!(at_least.holds(None), U);
}

#[test]
fn unknown_is_told_from_answered() {
    for (value, unknown) in [
        (None, true),
        (Some(Value::CantTell), true),
        (Some(Value::CouldNotReach("locked".into())), true),
        (Some(Value::Withdrawn), true),
        (one("cant-tell"), true),
        (one("cant-see"), true),
        (one("not-done"), false),
        (one("a"), false),
        (several(&["a"]), false),
        (Some(Value::Number(Quantity::parse("1926", "").unwrap())), false),
    ] {
        assert_eq!(Test::Unknown(true).holds(value.as_ref()), Some(unknown), "{value:?}");
        assert_eq!(Test::Unknown(false).holds(value.as_ref()), Some(!unknown), "{value:?}");
    }
}
