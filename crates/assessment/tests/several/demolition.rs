//! What a walk records after demolition was declared reaches no forecast.

use assessment::decision::LossRules;
use assessment::{Live, Request};
use proptest::prelude::*;
use survey::SurveyId;

use crate::laws::house;
use crate::support::{CATALOG, House, TABLES, several};

/// The frozen forecast of a house, byte for byte, or why there is none: drawn answers need not go together.
fn frozen(house: &House) -> Result<Vec<u8>, String> {
    let picture = house.picture();
    let request = Request {
        survey: SurveyId::new(1, &[9; 10]),
        picture: &picture,
        catalog: &CATALOG,
        tables: &TABLES,
        rules: LossRules::of(&CATALOG),
    };
    let made_at = "2026-04-12T10:30:00.000-05:00".parse().unwrap();
    let mut live = Live::default();
    let forecast = live.odds(&request).and_then(|mut odds| odds.freeze(made_at));
    forecast.map(|forecast| forecast.to_bytes()).map_err(|e| e.to_string())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4, ..ProptestConfig::default() })]

    #[test]
    fn a_forecast_made_after_demolition_is_that_of_the_walk_byte_for_byte(
        picks in proptest::collection::vec(proptest::option::weighted(0.2, any::<u8>()), 60..160),
        late in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..12),
    ) {
        let walk = house(&picks, |item| item.station == "bulkhead" || item.station == "sink");
        let before = frozen(&walk);
        let mut after = walk.declare_demolition().place("bulkhead", "late-soffit");
        let mut said = 1;
        for (item, pick) in &late {
            let item = &CATALOG.items[item.index(CATALOG.items.len())];
            if let Some(value) = crate::laws::answer(item, *pick) {
                after = after.say(&item.id, value);
                said += 1;
            }
        }
        prop_assert_eq!(after.picture().set_aside.len(), said);
        prop_assert!(frozen(&after) == before, "{:?}", after.picture().set_aside);
    }
}

#[test]
fn the_same_answer_before_the_declaration_moves_the_forecast() {
    let walk = House::planned(&["remove-bulkhead"]);
    let register = || several(&["register"]);
    let answered = walk.clone().say("bulkhead-fitted", register());
    assert!(frozen(&walk).is_ok() && frozen(&answered) != frozen(&walk), "or the law above says nothing");
    assert_eq!(frozen(&walk.clone().declare_demolition().say("bulkhead-fitted", register())), frozen(&walk));
}
