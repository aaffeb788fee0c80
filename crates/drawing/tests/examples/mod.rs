//! Invented examples of every picture: no house here exists.

use trade::picture::{
    BoreSection, CalendarStrip, CeilingPlan, FallSection, LoadBar, Picture, SinkElevation, WallElevation,
};

/// Names of files and what is drawn.
pub(crate) fn examples() -> Vec<(&'static str, Picture)> {
    vec![
        ("sink-disposer", Picture::Sink(sink())),
        ("sink-strainer", Picture::Sink(strainer())),
        ("sink-two-bowls", Picture::Sink(two_bowls())),
        ("sink-too-low", Picture::Sink(too_low())),
        ("fall-arm", Picture::Fall(arm())),
        ("fall-vent", Picture::Fall(vent())),
        ("bore-stud", Picture::Bore(stud())),
        ("bore-joist", Picture::Bore(joist())),
        ("load-gas", Picture::Load(gas())),
        ("load-service", Picture::Load(service())),
        ("wall-openings", Picture::Wall(wall())),
        ("calendar-kitchen", Picture::Calendar(calendar())),
        ("calendar-bath", Picture::Calendar(bath())),
        ("ceiling-lights", Picture::Ceiling(ceiling())),
    ]
}

/// Apron-front bowl with a disposer over a stub that is too high.
fn sink() -> SinkElevation {
    SinkElevation {
        counter: 36.0,
        bowl_plane: 34.75,
        bowls: vec![24.75],
        shell_bottom: 24.0,
        connection: 17.5,
        disposer: true,
        trap_arm: 14.5,
        run: 18.0,
        trap_size: 1.5,
        seal: 2.25,
        cabinet_floor: 5.25,
        stub: 19.375,
        stub_tolerance: 0.125,
        stub_max: 14.125,
        stub_max_tolerance: 0.875,
        stub_abs: 15.875,
        stub_min_code: 1.125,
        stub_min_cabinet: 10.5,
    }
}

/// Undermount bowl with a strainer; the stub lies just above the highest, inside the tolerance.
fn strainer() -> SinkElevation {
    SinkElevation {
        counter: 36.0,
        bowl_plane: 34.8125,
        bowls: vec![25.8125],
        shell_bottom: 25.75,
        connection: 22.75,
        disposer: false,
        trap_arm: 21.25,
        run: 9.0,
        stub: 21.5,
        stub_tolerance: 0.25,
        stub_max: 21.0625,
        stub_max_tolerance: 0.9,
        stub_abs: 22.8125,
        stub_min_code: 2.375,
        stub_min_cabinet: 10.5,
        ..sink()
    }
}

/// Two bowls of unlike depth, the stub with room to spare.
fn two_bowls() -> SinkElevation {
    SinkElevation {
        bowls: vec![26.5, 28.5],
        shell_bottom: 26.4375,
        connection: 19.9375,
        trap_arm: 16.9375,
        run: 24.0,
        stub: 13.25,
        stub_max: 16.4375,
        stub_abs: 18.1875,
        ..sink()
    }
}

/// A stub below what clears the cabinet floor, and some heights not known.
fn too_low() -> SinkElevation {
    SinkElevation {
        stub: 8.5,
        stub_tolerance: 0.25,
        stub_max: 15.0,
        trap_arm: 15.375,
        connection: 18.375,
        stub_max_tolerance: f64::NAN,
        stub_min_code: f64::NAN,
        cabinet_floor: 4.5,
        ..sink()
    }
}

fn arm() -> FallSection {
    FallSection {
        from: "trap".into(),
        to: "vent".into(),
        length: 50.0,
        fall: 1.0416,
        diameter: 1.5,
        limits: vec![("longest by table".into(), 72.0)],
    }
}

fn vent() -> FallSection {
    FallSection {
        from: "island sink".into(),
        to: "stack".into(),
        length: 198.0,
        fall: 4.125,
        diameter: 2.0,
        limits: vec![
            ("longest by table".into(), 96.0),
            ("longest by fall, one diameter".into(), 96.0),
            ("shortest, two diameters".into(), 4.0),
        ],
    }
}

fn stud() -> BoreSection {
    BoreSection {
        member: "2x4 stud, bearing".into(),
        depth: 3.5,
        thickness: 1.5,
        hole: 2.375,
        center: 1.75,
        largest: 1.375,
        edge_kept: 0.625,
        plate_edge: 1.25,
    }
}

fn joist() -> BoreSection {
    BoreSection {
        member: "2x10 floor joist".into(),
        depth: 9.25,
        thickness: 1.5,
        hole: 2.5,
        center: 4.0,
        largest: 3.0625,
        edge_kept: 2.0,
        plate_edge: 1.25,
    }
}

fn gas() -> LoadBar {
    LoadBar {
        unit: "thousand Btu an hour".into(),
        parts: vec![
            ("furnace".into(), 100.0, false),
            ("water heater".into(), 35.0, false),
            ("range".into(), 65.0, true),
        ],
        carries: vec![("3/4″".into(), 137.0), ("1″".into(), 257.0)],
    }
}

fn service() -> LoadBar {
    let part = |name: &str, x: f64, new: bool| (name.into(), x, new);
    LoadBar {
        unit: "A".into(),
        parts: vec![
            part("lighting and receptacles", 18.8, false),
            part("small appliance circuits", 12.5, false),
            part("laundry circuit", 6.3, false),
            part("dryer", 20.8, false),
            part("water heater", 18.8, false),
            part("dishwasher", 5.0, false),
            part("range, electric", 33.3, true),
            part("second counter circuit", 6.3, true),
        ],
        carries: vec![("service".into(), 100.0)],
    }
}

fn wall() -> WallElevation {
    let hole = |tag: &str, trade: &str, x: f64, y: f64, w: f64, h: f64| {
        (tag.into(), trade.into(), [x, y, x + w, y + h])
    };
    WallElevation {
        name: "Sink wall".into(),
        width: 144.0,
        height: 96.0,
        framing: (0..10).map(|i| 0.75 + 16.0 * f64::from(i)).filter(|x| *x < 144.0).chain([143.25]).collect(),
        holes: vec![
            hole("P1", "plumber", 36.0, 8.0, 14.5, 24.0),
            hole("P2", "plumber", 61.0, 37.5, 14.5, 14.0),
            hole("E1", "electrician", 8.0, 42.0, 8.0, 6.0),
            hole("E2", "electrician", 77.0, 42.0, 8.0, 6.0),
            hole("E3", "electrician", 118.0, 42.0, 8.0, 6.0),
            hole("E4", "electrician", 134.0, 42.0, 8.0, 6.0),
            hole("E5", "electrician", 121.0, 56.0, 16.0, 24.0),
            hole("D1", "ducts", 92.0, 66.0, 14.0, 14.0),
        ],
        patches: vec![
            [32.75, 6.0, 64.75, 34.0],
            [48.75, 35.5, 80.75, 53.5],
            [112.75, 40.0, 143.25, 82.0],
            [80.75, 64.0, 112.75, 82.0],
        ],
    }
}

fn calendar() -> CalendarStrip {
    CalendarStrip {
        days: 12,
        hours: [8.0, 17.0],
        stages: vec![
            ("Demolition".into(), 1, 2),
            ("Rough-in".into(), 3, 6),
            ("Close-up".into(), 7, 9),
            ("Finish".into(), 10, 12),
        ],
        rows: vec![
            ("Water".into(), vec![(2, 8.0, 12.5, 1.0), (6, 8.0, 17.0, 1.0), (11, 12.5, 14.5, 0.6)]),
            (
                "Power".into(),
                vec![(3, 8.0, 17.0, 1.0), (4, 8.0, 17.0, 1.0), (5, 8.0, 17.0, 0.7), (10, 8.0, 17.0, 1.0)],
            ),
            ("Gas".into(), vec![(6, 8.0, 12.5, 1.0), (7, 8.0, 12.5, 0.3)]),
            ("Internet".into(), vec![(3, 9.0, 10.0, 1.0)]),
        ],
        conflicts: vec![(3, "someone works at home and the router is on the dining room circuit".into())],
    }
}

fn bath() -> CalendarStrip {
    CalendarStrip {
        days: 23,
        hours: [7.5, 16.0],
        stages: vec![
            ("Demolition".into(), 1, 3),
            ("Rough-in".into(), 4, 9),
            ("Inspection".into(), 9, 10),
            ("Tile".into(), 11, 17),
            ("Finish".into(), 18, 23),
        ],
        rows: vec![
            (
                "Only bathroom".into(),
                (1..=20)
                    .map(|d| (d, 7.5, 16.0, if d < 15 { 1.0 } else { 0.8 - f64::from(d - 15) * 0.1 }))
                    .collect(),
            ),
            (
                "Water".into(),
                vec![(1, 7.5, 9.5, 1.0), (4, 7.5, 16.0, 1.0), (9, 12.0, 16.0, 0.5), (21, 7.5, 12.0, 1.0)],
            ),
            ("Hot water".into(), vec![(4, 7.5, 16.0, 1.0), (5, 7.5, 12.0, 0.2)]),
        ],
        conflicts: vec![(4, "no toilet in the house: rent one".into()), (9, "family visit".into())],
    }
}

fn ceiling() -> CeilingPlan {
    CeilingPlan {
        width: 150.0,
        depth: 122.0,
        joists: (0..10).map(|i| 5.0 + 16.0 * f64::from(i)).filter(|x| *x < 150.0).collect(),
        lights: vec![
            (30.0, 30.5, 6.25, false),
            (77.0, 30.5, 6.25, true),
            (120.0, 30.5, 6.25, false),
            (30.0, 91.5, 6.25, false),
            (77.0, 91.5, 6.25, true),
            (120.0, 91.5, 6.25, false),
        ],
        old_fixture: Some((76.0, 62.0)),
    }
}
