//! Opening schedules worked by hand, with the working shown.
//!
//! No published table of such schedules exists: each number below can be redone with a pencil. Square inches ÷ 144 are
//! square feet. Rooms and holes are invented. Laws and random draws stand in `src/openings/laws.rs`.

use crate::english::{English as _, EnglishList as _};
use std::sync::LazyLock;

use survey::catalog::{Catalog, builtin};
use trade::given::Given;
use trade::picture::Picture;
use trade::{Sheet, Standing, TradeError, find};

static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn ask(word: &str, answers: &[(&str, &str)]) -> Result<Sheet, TradeError> {
    let answers: Vec<(String, String)> = answers.iter().map(|(n, t)| ((*n).into(), (*t).into())).collect();
    let calculation = find(word).unwrap();
    (calculation.run)(&Given::read(calculation.fields, &answers)?, &CATALOG)
}

fn openings(answers: &[(&str, &str)]) -> Sheet {
    ask("openings", answers).unwrap()
}

/// The text of the line whose label is this.
fn line<'a>(sheet: &'a Sheet, label: &str) -> &'a str {
    let found = sheet.lines.iter().find(|l| l.label.read() == label);
    let labels: Vec<&str> = sheet.lines.iter().map(|l| l.label.read()).collect();
    found.unwrap_or_else(|| panic!("no line “{label}” in {labels:?}")).text.read()
}

#[track_caller]
fn ends(sheet: &Sheet, label: &str, end: &str) {
    let text = line(sheet, label);
    assert!(text.ends_with(end), "{label}: {text}");
}

#[test]
fn schedule_1_three_trades_each_in_a_bay_of_its_own() {
    // Framing every 16 in from x = 0.
    // plumbing    3 to 14-1/2, reaches  0 to 16: hole 11.5 × 24 = 276 → 1.917 ft²; patch 16 × 24 = 384 → 2.667 ft²
    // electrical 20 to 24,     reaches 16 to 32: hole  4   ×  6 =  24 → 0.167 ft²; patch 16 ×  6 =  96 → 0.667 ft²
    // gas        34 to 45,     reaches 32 to 48: hole 11   × 12 = 132 → 0.917 ft²; patch 16 × 12 = 192 → 1.333 ft²
    // No two meet (the first ends at 38 up, the second begins at 40). Sum and union: 672 ÷ 144 = 4.667 ft².
    // Sheets: 4.667 × 1.15 = 5.367 ÷ 32 = 0.168, so 1.
    let sheet = openings(&[
        ("year", "1965"),
        ("hole", "plumbing, kitchen, wall, sink wall, 3 ± 1/4, 14, 11-1/2 ± 1/4, 24 ± 1/4, 16, , yes, no"),
        ("hole", "electrical, kitchen, wall, sink wall, 20 ± 1/4, 40, 4 ± 1/4, 6 ± 1/4, 16, , yes, no"),
        ("hole", "gas, kitchen, wall, sink wall, 34 ± 1/4, 2, 11 ± 1/4, 12 ± 1/4, 16, , yes, no"),
    ]);
    ends(&sheet, "kitchen, sink wall, hole 1, plumbing", "patch 16\" × 24\" ÷ 144 = 2.667 ft²");
    ends(&sheet, "kitchen, sink wall, hole 2, electrical", "patch 16\" × 6\" ÷ 144 = 0.667 ft²");
    ends(&sheet, "kitchen, sink wall, hole 3, gas", "patch 16\" × 12\" ÷ 144 = 1.333 ft²");
    assert_eq!(
        line(&sheet, "kitchen, sink wall, patches"),
        "4.667 ft² one by one − 0 ft² of overlap = 4.667 ft²"
    );
    assert_eq!(
        line(&sheet, "For plumbing"),
        "holes: 1; 1.917 ft² of holes; 2.667 ft² of patches if they were the only ones"
    );
    assert_eq!(line(&sheet, "Sheets of wallboard, 4 × 8"), "4.667 ft² × 1.15 ÷ 32, rounded up = 1");
    // Painted surface 4.667 ft², under 6 ft²; σ of a height 1/8 in: 16 ÷ 144 ÷ 8 = 0.0139 ft² each, √3 of it in all
    assert_eq!(sheet.standing, Standing::Within);
    assert_eq!(sheet.sigma.as_ref().map(|s| s.read()), Some("0.024 ft² of painted surface, kitchen"));
}

#[test]
fn schedule_2_an_overlap_is_not_paid_twice() {
    // plumbing   10 to 40 reaches  0 to 48, 20 to 68 up: 48 × 48 = 2304 → 16 ft²
    // electrical 20 to 26 reaches 16 to 32, 60 to 80 up: 16 × 20 =  320 → 2.222 ft²
    // Both cover 16 to 32, 60 to 68 up: 16 × 8 = 128 → 0.889 ft². Union 2304 + 320 − 128 = 2496 → 17.333 ft².
    // Sheets: 17.333 × 1.15 = 19.933 ÷ 32 = 0.623, so 1. Around both: 0 to 48, 20 to 80 up.
    let sheet = openings(&[
        ("year", "1995"),
        ("hole", "plumbing, kitchen, wall, range wall, 10, 20, 30, 48"),
        ("hole", "electrical, kitchen, wall, range wall, 20, 60, 6, 20"),
    ]);
    assert_eq!(
        line(&sheet, "kitchen, range wall, patches"),
        "18.222 ft² one by one − 0.889 ft² of overlap = 17.333 ft²"
    );
    assert_eq!(
        line(&sheet, "kitchen, range wall, one patch over holes 1, 2"),
        "within 0\" to 48\" and 20\" to 80\" up: 17.333 ft², overlaps once"
    );
    assert_eq!(sheet.standing, Standing::Quantity); // built after the rule's years
    assert!(
        sheet
            .sentence
            .starts_with("17.333 ft² of patches for 2 holes on 1 plane, 1 sheet of wallboard, 4 × 8.")
    );
}

#[test]
fn schedule_3_a_wall_ends_in_framing_and_its_corners_are_taped() {
    // Wall 60 × 96, first stud at 14-1/2, then 30-1/2 and 46-1/2; the ends at 0 and 60 are framing.
    // plumbing  2 to 12 reaches  0     to 14-1/2: 14.5 × 12 = 174 → 1.208 ft²
    // air      33 to 43 reaches 30-1/2 to 46-1/2: 16   × 12 = 192 → 1.333 ft², its top at 84 + 12 = 96, the ceiling
    // plumbing 40 to 50 reaches 30-1/2 to 60:     29.5 × 12 = 354 → 2.458 ft²
    // Sum 720 ÷ 144 = 5 ft², nothing overlaps (12 in up to 28, and 84 up). Finishing corner to corner: 60 × 96 → 40 ft².
    // Corners: left 12 in, right 12 in, ceiling line 16 in: 40 ÷ 12 = 3.333 ft.
    let sheet = openings(&[
        ("year", "1985"),
        ("hole", "plumbing, bath, wall, vanity wall, 2, 16, 10, 12, 16, 14-1/2"),
        ("hole", "plumbing, bath, wall, vanity wall, 40, 16, 10, 12, 16, 14-1/2"),
        ("hole", "air, bath, wall, vanity wall, 33, 84, 10, 12, 16, 14-1/2"),
        ("plane", "bath, wall, vanity wall, 60, 96, no"),
    ]);
    ends(
        &sheet,
        "bath, vanity wall, hole 1, plumbing",
        "to framing 0\" to 14-1/2\": patch 14-1/2\" × 12\" ÷ 144 = 1.208 ft²",
    );
    ends(
        &sheet,
        "bath, vanity wall, hole 3, plumbing",
        "to framing 30-1/2\" to 60\": patch 29-1/2\" × 12\" ÷ 144 = 2.458 ft²",
    );
    ends(&sheet, "bath, vanity wall, patches", "= 5 ft²");
    assert_eq!(line(&sheet, "bath, vanity wall, finishing"), "corner to corner: 60\" × 96\" ÷ 144 = 40 ft²");
    assert_eq!(
        line(&sheet, "bath, vanity wall, corner strips"),
        "3.333 ft of corner or ceiling line taped anew"
    );
    let Some(Picture::Wall(wall)) = &sheet.picture else { panic!("no wall is drawn") };
    assert_eq!(wall.framing, [0.0, 14.5, 30.5, 46.5, 60.0]);
    assert_eq!((wall.width, wall.height, wall.holes.len(), wall.patches.len()), (60.0, 96.0, 3, 3));
}

#[test]
fn schedule_4_paint_stops_at_a_break_and_texture_does_not() {
    // Wall 144 × 96 with casings at 48 and 100; framing at 16, 32, 48, 64. Hole 35 to 60 reaches 32 to 64, so it lies
    // left and right of the casing at 48: both pieces 0 to 48 and 48 to 100 are painted: 100 × 96 = 9600 → 66.667 ft².
    // Patch 32 × 18 = 576 → 4 ft².
    // Ceiling 144 × 120, textured: the full plane, 17,280 → 120 ft². Joists every 24 in: 20 to 60 reaches 0 to 72,
    // 72 × 6 = 432 → 3 ft².
    // Wallboard for both: 7 × 1.15 = 8.05 ÷ 32, so 1 sheet.
    let sheet = openings(&[
        ("year", "2001"),
        ("hole", "electrical, den, wall, window wall, 35, 30, 25, 18, 16, 16"),
        ("hole", "electrical, den, ceiling, ceiling, 20, 40, 40, 6, 24"),
        ("plane", "den, wall, window wall, 144, 96, no"),
        ("plane", "den, ceiling, ceiling, 144, 120, yes"),
        ("break", "den, wall, window wall, 48"),
        ("break", "den, wall, window wall, 100"),
    ]);
    assert_eq!(
        line(&sheet, "den, window wall, finishing"),
        "to the nearest corner or break: 100\" × 96\" ÷ 144 = 66.667 ft²"
    );
    assert_eq!(line(&sheet, "den, ceiling, finishing"), "texture, full plane: 144\" × 120\" ÷ 144 = 120 ft²");
    ends(&sheet, "den, window wall, patches", "= 4 ft²");
    ends(&sheet, "den, ceiling, patches", "= 3 ft²");
    assert_eq!(line(&sheet, "Sheets of wallboard, 4 × 8"), "7 ft² × 1.15 ÷ 32, rounded up = 1");
}

#[test]
fn schedule_5_each_room_has_its_own_six_square_feet() {
    // Built 1958, nothing called demolition, all edges on framing.
    // Kitchen: 16 × 24 = 384 → 2.667 and 16 × 18 = 288 → 2 on another wall: 4.667; before, in these 30 days, 2: 6.667 ft²
    // Hall: 16 × 12 = 192 → 1.333, and a casing of 1.5 ft² taken out whole: 2.833 ft²
    // Bath: tile, not painted: 0
    // Outside: 32 × 60 = 1920 → 13.333 ft², under the 20 of outside
    let sheet = openings(&[
        ("year", "1958"),
        ("hole", "plumbing, kitchen, wall, sink wall, 0 ± 1/8, 14, 16 ± 1/8, 24 ± 1/8, 16, , yes, no"),
        ("hole", "electrical, Kitchen, wall, range wall, 32 ± 1/8, 40, 16 ± 1/8, 18 ± 1/8, 16, , yes, no"),
        ("hole", "electrical, hall, wall, stair wall, 16 ± 1/8, 40, 16 ± 1/8, 12 ± 1/8, 16, , yes, no"),
        ("hole", "plumbing, bath, wall, tub wall, 0, 20, 48, 48, 16, , no, no"),
        ("hole", "gas, yard, outside, north side, 16 ± 1/8, 10, 32 ± 1/8, 60 ± 1/8, 16, , yes, no"),
        ("earlier", "kitchen, 2"),
        ("removed", "hall, 1.5"),
    ]);
    let room = |name: &str, sum: &str| {
        let text = line(&sheet, &format!("Painted surface, {name}"));
        assert!(text.contains(sum), "{name}: {text}");
    };
    room(
        "kitchen",
        "4.667 ft² + components taken out 0 ft² + 2 ft² within 30 days before = 6.667 ft², at most 6 ft²",
    );
    room(
        "hall",
        "1.333 ft² + components taken out 1.5 ft² + 0 ft² within 30 days before = 2.833 ft², at most 6 ft²",
    );
    room("bath", "= 0 ft², at most 6 ft²");
    room("outside", "= 13.333 ft², at most 20 ft²");
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(
        sheet.sentence.contains("kitchen: 6.667 ft², beyond the table value of 6 ft²"),
        "{}",
        sheet.sentence
    );
}

#[test]
fn schedule_6_demolition_or_a_window_leaves_no_small_area_exempt() {
    // One hole 4 × 4, 6 to 10, reaches 0 to 16: 16 × 4 = 64 → 0.444 ft², far under 6 ft².
    let with = |year: &str, demolition: &str, window: Option<&str>| {
        let hole = format!("electrical, bedroom, wall, east wall, 6, 14, 4, 4, 16, , yes, {demolition}");
        let mut answers = vec![("year", year), ("hole", hole.as_str())];
        answers.extend(window.map(|room| ("window", room)));
        openings(&answers)
    };
    assert_eq!(with("1977", "no", None).standing, Standing::Within);
    let demolition = with("1977", "yes", None);
    assert_eq!((demolition.standing, demolition.chance_beyond), (Standing::Beyond, Some(1.0)));
    assert!(
        demolition
            .sentence
            .contains("0.444 ft², within the table value of 6 ft²; a painted surface is demolished")
    );
    assert_eq!(with("1977", "no", Some("Bedroom")).standing, Standing::Beyond);
    assert_eq!(with("1978", "yes", Some("bedroom")).standing, Standing::Quantity);
    // Nobody said whether the cut-out is demolition: it is counted so, and said to be assumed.
    let unsaid = with("1977", "", None);
    assert_eq!(unsaid.standing, Standing::Beyond);
    assert!(unsaid.assumed.iter().any(|a| a.item.starts_with("demolition") && a.value.read() == "yes"));
    let no_year = with("", "no", None);
    assert_eq!((no_year.standing, no_year.missing.read_all()), (Standing::CannotSay, vec!["year built"]));
    assert!(no_year.sentence.starts_with("0.444 ft² of patches"), "the areas hold without the year");
}

#[test]
fn schedule_7_near_six_square_feet_the_tolerance_decides() {
    // Cut on the centers 0 and 16, so only the height counts: 16 × 54 = 864 → 6 ft² exactly. ± 1 in is σ 1/2 in:
    // 16 ÷ 144 ÷ 2 = 0.05556 ft². At 53-1/2 in: 5.9444, z = −1, P = 0.1587; at 53: z = −2, P = 0.0228; at 55: z = +2
    // (Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, Table 26.1: Φ(1) = 0.841345, Φ(2) = 0.977250).
    for (height, standing, chance) in [
        ("53", Standing::Within, 0.022_750),
        ("53-1/2", Standing::Near, 0.158_655),
        ("54", Standing::Near, 0.5),
        ("55", Standing::Beyond, 0.977_250),
    ] {
        let hole = format!("plumbing, kitchen, wall, sink wall, 0, 14, 16, {height} ± 1, 16, , yes, no");
        let sheet = openings(&[("year", "1940"), ("hole", &hole)]);
        assert_eq!(sheet.standing, standing, "{height}");
        assert!((sheet.chance_beyond.unwrap() - chance).abs() < 1e-4, "{height}: {:?}", sheet.chance_beyond);
    }
}

#[test]
fn schedule_8_floors_walls_and_trades_that_share_a_patch() {
    // Floor, joists every 19.2 in: 3 to 33 reaches 0 to 38.4: 38.4 × 40 = 1536 → 10.667 ft² of floor sheathing:
    // × 1.15 = 12.267 ÷ 32, so 1 sheet.
    // Wall: plumbing 1 to 47 reaches 0 to 48 and electrical 50 to 95 reaches 48 to 96, both 10 to 55 up: they meet at
    // the stud at 48 and make one patch, 96 × 45 = 4320 → 30 ft²; × 1.15 = 34.5 ÷ 32 = 1.078, so 2 sheets.
    let sheet = openings(&[
        ("year", "1970"),
        ("hole", "plumbing, bath, floor, floor, 3, 20, 30, 40, 19.2, , no"),
        ("hole", "plumbing, bath, wall, wet wall, 1, 10, 46, 45, 16, , no"),
        ("hole", "electrical, bath, wall, wet wall, 50, 10, 45, 45, 16, , no"),
    ]);
    ends(&sheet, "bath, floor, patches", "= 10.667 ft²");
    assert_eq!(
        line(&sheet, "bath, wet wall, one patch over holes 1, 2"),
        "within 0\" to 96\" and 10\" to 55\" up: 30 ft², overlaps once"
    );
    assert_eq!(line(&sheet, "Sheets of wallboard, 4 × 8"), "30 ft² × 1.15 ÷ 32, rounded up = 2");
    assert_eq!(line(&sheet, "Sheets of floor sheathing, 4 × 8"), "10.667 ft² × 1.15 ÷ 32, rounded up = 1");
    assert!(sheet.sentence.contains("2 sheets of wallboard, 4 × 8 and 1 sheet of floor sheathing, 4 × 8"));
    let notes = sheet.notes.join(" ");
    assert!(notes.contains("(built 1970)") && notes.contains("resilient flooring"), "{notes}");
}

#[test]
fn schedule_9_a_hole_moved_a_little_spares_a_bay() {
    // 3 to 17 reaches 0 to 32: 32 × 36 = 1152 → 8 ft². One inch to the left, 2 to 16, it reaches 0 to 16: 4 ft².
    let sheet = openings(&[
        ("year", "1960"),
        ("hole", "plumbing, kitchen, wall, sink wall, 3 ± 1/8, 14, 14 ± 1/8, 36 ± 1/8, 16, , yes, no"),
    ]);
    assert_eq!(sheet.standing, Standing::Beyond);
    let change = &sheet.changes[0];
    assert!(change.text.contains("1\" further left spares a bay, 4 ft² of patch"), "{}", change.text);
    assert!(change.enough); // 4 ft² of painted surface is within 6 ft²
}

#[test]
fn more_than_four_units_are_told_of_the_notice_rule() {
    // 40 CFR 61.145(a): 260 ft, 160 ft², 35 ft³; 61.141: over four units, or several buildings under one owner
    let hole = ("hole", "plumbing, kitchen, wall, sink wall, 3, 14, 10, 24");
    let told = |more: &[(&str, &str)]| {
        let answers: Vec<_> = [("year", "1960"), hole].into_iter().chain(more.iter().copied()).collect();
        openings(&answers).notes.join(" ").contains("from 260 ft of pipe, 160 ft² or 35 ft³")
    };
    assert!(!told(&[]) && !told(&[("dwelling-units", "4")]) && told(&[("dwelling-units", "5")]));
    assert!(told(&[("dwelling-units", "1"), ("several-buildings", "yes")]));
}

#[test]
fn rows_that_contradict_each_other_are_named() {
    let hole = "plumbing, kitchen, wall, sink wall, 3, 14, 10, 24, 16";
    for (more, part) in [
        (("hole", "gas, kitchen, wall, sink wall, 40, 14, 10, 24, 24"), "different framing"),
        (("plane", "kitchen, wall, sink wal, 120, 96"), "sink wal has no hole"),
        (("plane", "kitchen, wall, sink wall, 120, 30"), "smaller than its hole reaches"),
        (("break", "hall, wall, sink wall, 30"), "has no hole"),
        (("hole", "gas, kitchen, wall, sink wall, 40 ± 60, 14, 10, 24"), "tolerance of a hole"),
        (("hole", "gas, kitchen, roof, sink wall, 40, 14, 10, 24"), "wall, ceiling, floor, outside"),
        (("material", "horsehair"), "joint-compound"),
    ] {
        let error = ask("openings", &[("hole", hole), more]).unwrap_err().message().en();
        assert!(error.contains(part), "{more:?}: {error}");
    }
    assert_eq!(openings(&[("year", "1960")]).missing.read_all(), ["hole"]);
}
