//! Published shares against the network's base rate of an otherwise unanswered house.
//!
//! Share of homes with lead-based paint by building year, US EPA (figure resting on the HUD American Healthy Homes
//! Survey): before 1940 87 %, 1940 to 1959 69 %, 1960 to 1977 24 %.

use crate::support::{desk, forecast, house};

#[test]
fn lead_paint_base_rates_are_the_published_shares_by_building_year() {
    let dir = tempfile::tempdir().unwrap();
    let (mut desk, clock, mut random) = desk(dir.path());
    for (year, share) in [("1925", 0.87), ("1950", 0.69), ("1962", 0.24), ("1970", 0.24), ("1976", 0.24)] {
        let answers: [(&str, &[&str]); 2] = [("planned-work", &["open-wall"]), ("year-built", &[year])];
        let survey = house(&mut desk, &clock, &mut random, &answers);
        let forecast = forecast(&mut desk, &clock, &mut random, survey);
        let lead = forecast.condition("lead-paint").unwrap();
        // Published in whole percents; the catalog's context factors average out to within one more.
        assert!((lead.probability - share).abs() < 0.01, "{year}: {} against {share}", lead.probability);
        assert!((lead.era_base - share).abs() < 0.01, "{year}: {}", lead.era_base);
    }
}
