//! Laws of ceiling lights and their layout, and the chances against random draws.

use crate::english::{English as _, EnglishList as _};
use proptest::prelude::*;
use serde_json::Value;
use survey::units::Length;
use trade::given::{Given, Kind};
use trade::lights::ceiling_light::{Insulation, LightPlan, judge};
use trade::lights::clearance::{lies_under_joist, room_beside_joist};
use trade::lights::{grid, light_grid};
use trade::picture::Picture;
use trade::tolerance::Reading;
use trade::{Standing, find};

use crate::support::{CATALOG, answer, reading};

/// 400 000 draws each by `make_light_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/light_mc.json");

#[test]
fn the_chance_agrees_with_random_draws() {
    let drawn: Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 5);
    for case in cases {
        let mut plan = LightPlan::new(true, reading(&case["cut_out"])).unwrap();
        plan.offset = Some(reading(&case["offset"]));
        plan.spacing = Some(reading(&case["spacing"]));
        plan.body = Some(reading(&case["body"]));
        plan.board = Some(reading(&case["board"]));
        plan.bay = Some(reading(&case["bay"]));
        plan.type_ic = Some(true);
        plan.insulation = Some(Insulation::Above);
        let p = judge(&plan, &CATALOG.shelf).unwrap().chance_beyond.unwrap();
        let share = case["beyond"].as_f64().unwrap();
        let z = (p - share) / (share * (1.0 - share) / draws).sqrt();
        assert!(z.abs() < 4.0, "{}: {p} against {share}, z {z}", case["id"]);
    }
}

#[test]
fn a_flat_light_may_lie_under_a_joist_if_its_clips_hold() {
    // Own geometry: a body of 1/2 in behind a board of 5/8 in
    let base =
        [("kind", "canless"), ("cut-out", "4-1/4"), ("offset", "1/2"), ("board", "5/8"), ("type-ic", "yes")];
    let with = |more: &[(&str, &str)]| answer("ceiling-light", &[&base[..], more].concat());
    let open = with(&[]);
    assert_eq!(open.standing, Standing::CannotSay);
    assert!(open.missing[0].contains("clips"), "{:?}", open.missing);
    assert_eq!(with(&[("clips-under-joist", "yes")]).standing, Standing::Within);
    assert_eq!(with(&[("clips-under-joist", "no")]).standing, Standing::Beyond);
    assert_eq!(with(&[("clips-under-joist", "yes"), ("body", "1")]).standing, Standing::Beyond);
}

#[test]
fn insulation_matters_only_where_the_light_is_not_type_ic() {
    // NEC 410.116(B): 3 in away and none above
    let base = [("kind", "canless"), ("cut-out", "6-1/4"), ("offset", "8")];
    let with = |more: &[(&str, &str)]| answer("ceiling-light", &[&base[..], more].concat());
    assert_eq!(with(&[]).standing, Standing::CannotSay);
    assert_eq!(with(&[("insulation", "none")]).standing, Standing::Within);
    assert_eq!(with(&[("insulation", "above")]).standing, Standing::Beyond);
    assert_eq!(with(&[("insulation", "above"), ("type-ic", "yes")]).standing, Standing::Within);
    let gap = |inches| with(&[("insulation", "beside"), ("insulation-gap", inches)]).standing;
    assert_eq!(["1", "3", "5"].map(gap), [Standing::Beyond, Standing::Near, Standing::Within]);
    assert_eq!(with(&[("insulation", "beside")]).standing, Standing::CannotSay);
}

#[test]
fn a_housing_wants_height_and_a_box_wants_room() {
    // PS 20: 2x6 is 5-1/2 deep, 2x10 9-1/4; a housing of 7 in behind a board of 1/2 in takes 6-1/2
    let housing =
        [("kind", "housing"), ("cut-out", "6-1/4"), ("offset", "8"), ("type-ic", "yes"), ("body", "7")];
    let with = |more: &[(&str, &str)]| answer("ceiling-light", &[&housing[..], more].concat()).standing;
    assert_eq!(with(&[("joist", "2x6")]), Standing::Beyond);
    assert_eq!(with(&[("joist", "2x10")]), Standing::Within);
    assert_eq!(with(&[]), Standing::CannotSay);
    let canless = [("kind", "canless"), ("cut-out", "4-1/4"), ("offset", "8"), ("type-ic", "yes")];
    let beside = |room| answer("ceiling-light", &[&canless[..], &[("beside", room)]].concat()).standing;
    assert_eq!(["2", "6"].map(beside), [Standing::Beyond, Standing::Within]);
}

#[test]
fn a_bath_above_is_said() {
    let base = [("kind", "canless"), ("cut-out", "4-1/4"), ("offset", "8"), ("type-ic", "yes")];
    let bath = answer("ceiling-light", &[&base[..], &[("bath-above", "yes")]].concat());
    assert!(bath.notes.iter().any(|n| n.contains("bath lies above")), "{:?}", bath.notes);
}

#[test]
fn a_kitchen_of_twelve_by_ten_takes_nine_lights_under_eight_feet() {
    // Common practice by hand: 96 ÷ 2 = 48; 144 ÷ 48 = 3 across, 120 ÷ 48 = 2.5: 3 at 40 are nearer than 2 at 60
    let room = [("across", "12"), ("along", "10"), ("height", "8"), ("cut-out", "4-1/4")];
    let still = answer("light-grid", &[&room[..], &[("first-joist", "16")]].concat());
    assert!(
        still.sentence.starts_with("9 lights, 3 across the joists by 3 along them"),
        "{}",
        still.sentence
    );
    let moved = answer("light-grid", &[&room[..], &[("first-joist", "8 ± 1/4")]].concat());
    // Joists at 8, 24, 40, …: each light at 24, 72, 120 hangs under one and moves 3-3/8.
    assert!(moved.sentence.contains("3 columns moved"), "{}", moved.sentence);
    let Some(Picture::Ceiling(plan)) = &moved.picture else { panic!("no ceiling") };
    assert!(plan.lights.iter().all(|(_, _, _, moved)| *moved));
    let (first, last) = (plan.lights[0].0, plan.lights[2].0);
    assert_eq!(first + last, 144.0); // a pair moved alike
    assert_eq!((first - 24.0).abs(), 3.375);
}

#[test]
fn without_the_first_joist_nothing_is_laid_out() {
    let sheet =
        answer("light-grid", &[("across", "12"), ("along", "10"), ("height", "8"), ("cut-out", "4-1/4")]);
    assert_eq!((sheet.standing, sheet.missing.read_all()), (Standing::CannotSay, vec!["first joist"]));
}

fn any_answer(kind: &Kind) -> BoxedStrategy<Option<String>> {
    let some: BoxedStrategy<String> = match *kind {
        Kind::Length { min, max, feet } => {
            let scale = if feet { 12.0 } else { 1.0 };
            prop_oneof![Just(min), Just(max), min..=max]
                .prop_map(move |x| format!("{}", (x / scale * 64.0).floor() / 64.0))
                .boxed()
        }
        Kind::Word(words) => prop::sample::select(words).prop_map(str::to_owned).boxed(),
        _ => prop_oneof![Just("yes"), Just("no"), Just("can't tell")].prop_map(str::to_owned).boxed(),
    };
    prop::option::weighted(0.9, some).boxed()
}

fn any_answers(word: &'static str) -> impl Strategy<Value = Vec<(String, String)>> {
    let fields = find(word).unwrap().fields;
    let each: Vec<BoxedStrategy<Option<String>>> = fields.iter().map(|f| any_answer(&f.kind)).collect();
    each.prop_map(move |answers| {
        let named = fields.iter().zip(answers);
        named.filter_map(|(f, a)| a.map(|a| (f.name.to_owned(), a))).collect()
    })
}

fn plain(sixteenths: i64) -> Reading {
    Reading::plain(Length::from_sixty_fourths(sixteenths * 4))
}

proptest! {
    #[test]
    fn no_cut_out_overlaps_a_joist_and_all_lie_in_the_room(
        across in 640_i64..6400, along in 640_i64..6400, height in 1344_i64..2400, spacing in 160_i64..480,
        first in 0_i64..640, cut_out in 32_i64..384
    ) {
        let room = (plain(across), plain(along));
        let joists = (plain(spacing), plain(first));
        let plan = light_grid::GridPlan::new(room, plain(height), joists, plain(cut_out)).unwrap();
        let grid = light_grid::grid(&plan, 1.5).unwrap();
        let (width, depth) = (across as f64 / 16.0, along as f64 / 16.0);
        let cut_out = cut_out as f64 / 16.0;
        if let Some(layout) = &grid.layout {
            for place in &layout.across {
                prop_assert!(place.to >= cut_out / 2.0 && place.to <= width - cut_out / 2.0);
                for joist in &grid.joists {
                    let apart = (place.to - joist).abs();
                    prop_assert!(room_beside_joist(apart, 1.5, cut_out, 0.25) >= -1e-9, "{} {}", place.to, joist);
                }
            }
            prop_assert!(layout.across.windows(2).all(|w| w[1].to - w[0].to >= cut_out));
            prop_assert!(layout.along.iter().all(|y| *y >= cut_out / 2.0 && *y <= depth - cut_out / 2.0));
        } else {
            // Only where the bays leave no room for it.
            prop_assert!(cut_out + 2.0 * 0.25 > spacing as f64 / 16.0 - 1.5 - 1e-9);
        }
    }

    #[test]
    fn every_move_is_the_least_or_mirrors_its_pair(
        width in 60.0..600.0, first in 0.0..24.0, spacing in 10.0..24.0, off in 1.0..4.5, n in 1_u32..12
    ) {
        let joists = grid::joists(width, first, spacing);
        let free = grid::free(width, &joists, off, 2.0);
        let places = grid::even(width, n);
        let moved = grid::off_joists(&places, &free, spacing / 4.0).unwrap();
        for (i, m) in moved.iter().enumerate() {
            prop_assert!(free.iter().any(|(a, b)| (*a - 1e-9..=*b + 1e-9).contains(&m.to)));
            let least = free.iter().map(|(a, b)| (m.from - m.from.clamp(*a, *b)).abs()).fold(f64::INFINITY, f64::min);
            let pair = &moved[moved.len() - 1 - i];
            let mirrored = (m.by() + pair.by()).abs() < 1e-9;
            prop_assert!(m.by().abs() <= least + 1e-9 || mirrored, "{:?}", m);
        }
    }

    #[test]
    fn a_larger_hole_or_a_nearer_joist_never_leaves_more_room(
        to in 0.0..12.0, nearer in 0.0..6.0, cut_out in 1.0..12.0, more in 0.0..6.0, clip in 0.0..1.0
    ) {
        let room = |to, cut_out| room_beside_joist(to, 1.5, cut_out, clip);
        prop_assert!(room(to, cut_out + more) <= room(to, cut_out));
        prop_assert!(room(to - nearer, cut_out) <= room(to, cut_out));
        prop_assert!(!lies_under_joist(cut_out + more, clip) || lies_under_joist(cut_out, clip));
    }

    #[test]
    fn no_readable_answers_fail(light in any_answers("ceiling-light"), room in any_answers("light-grid")) {
        for (word, answers) in [("ceiling-light", light), ("light-grid", room)] {
            let calculation = find(word).unwrap();
            let given = Given::read(calculation.fields, &answers).unwrap();
            let sheet = (calculation.run)(&given, &CATALOG).unwrap();
            prop_assert_eq!(sheet.standing == Standing::CannotSay, !sheet.missing.is_empty());
            prop_assert!(sheet.chance_beyond.is_none_or(|p| (0.0..=1.0).contains(&p)), "{:?}", answers);
            prop_assert!(!sheet.sentence.is_empty() && !sheet.caution.is_empty());
        }
    }
}
