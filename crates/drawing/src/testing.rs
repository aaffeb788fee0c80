//! Pictures of every kind for tests: as they come, and as nobody should ever hand them in.

use alloc::{string::String, vec::Vec};

use proptest::collection::vec;
use proptest::prelude::*;
use survey::Said;
use trade::picture::{
    BoreSection, CalendarStrip, CeilingPlan, FallSection, LoadBar, Picture, SinkElevation, WallElevation,
};

/// What is said, in English.
pub(crate) fn english(said: &Said) -> String {
    words::Words::of(words::Language::En).text(said)
}

/// What numbers and words a picture is made of.
#[derive(Clone)]
struct Stuff {
    inches: BoxedStrategy<f64>,
    words: BoxedStrategy<Said>,
    /// Most things in a list.
    many: usize,
}

/// Any number at all, any words, long lists.
fn wild() -> Stuff {
    let special = prop::sample::select(&[
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        f64::MAX,
        f64::MIN,
        f64::MIN_POSITIVE,
        1e9,
        -1e9,
    ]);
    let words = prop_oneof![
        Just(String::new()),
        any::<String>(),
        "[ -~]{0,30}",
        "(<&>\"'|\u{0}\u{b}]]>| 1/2″ 2x4 ){0,4}",
        "[a-z ]{200,400}",
        "w{300}",
    ];
    Stuff {
        inches: prop_oneof![2 => special, 2 => any::<f64>(), 4 => -60.0..400.0f64].boxed(),
        words: words.prop_map(Said::from).boxed(),
        many: 200,
    }
}

/// What comes up in a house.
fn usual() -> Stuff {
    Stuff {
        inches: (0.25..48.0f64).boxed(),
        words: "[A-Z][a-z]{2,8}( [a-z]{2,9}){0,2}".prop_map(Said::from).boxed(),
        many: 12,
    }
}

fn sink(s: &Stuff) -> impl Strategy<Value = Picture> + use<> {
    (vec(s.inches.clone(), 16), vec(s.inches.clone(), 0..4), any::<bool>()).prop_map(
        |(n, bowls, disposer)| {
            Picture::Sink(SinkElevation {
                counter: n[0],
                bowl_plane: n[1],
                bowls,
                shell_bottom: n[2],
                connection: n[3],
                disposer,
                trap_arm: n[4],
                run: n[5],
                trap_size: n[6],
                seal: n[7],
                cabinet_floor: n[8],
                stub: n[9],
                stub_tolerance: n[10],
                stub_max: n[11],
                stub_max_tolerance: n[12],
                stub_abs: n[13],
                stub_min_code: n[14],
                stub_min_cabinet: n[15],
            })
        },
    )
}

/// Heights that follow from each other as in a house, with every level anywhere in its range.
fn sink_as_built() -> impl Strategy<Value = Picture> {
    let heights = (34.0..38.0f64, -0.5..1.75f64, 5.5..12.0f64, 0.06..0.75f64, 2.5..8.0f64, 1.0..4.0f64);
    let stub = (8.0..26.0f64, 0.0..1.0f64, 0.1..2.0f64, 0.0..40.0f64, 0.0..3.0f64, -2.0..14.0f64);
    (heights, stub, any::<bool>(), any::<bool>()).prop_map(
        |((counter, off, deep, shell, drop, trap), (stub, found, most, run, more, low), disposer, two)| {
            let bowl = counter - off - deep;
            let connection = bowl - shell - drop;
            let trap_arm = connection - trap;
            let stub_max = trap_arm - run * 0.25 / 12.0;
            Picture::Sink(SinkElevation {
                counter,
                bowl_plane: counter - off,
                bowls: if two { alloc::vec![bowl, bowl + more] } else { alloc::vec![bowl] },
                shell_bottom: bowl - shell,
                connection,
                disposer,
                trap_arm,
                run,
                trap_size: 1.5,
                seal: 2.25,
                cabinet_floor: 5.25,
                stub,
                stub_tolerance: found,
                stub_max,
                stub_max_tolerance: most,
                stub_abs: stub_max + more,
                stub_min_code: low,
                stub_min_cabinet: 10.5,
            })
        },
    )
}

fn picture(s: &Stuff) -> BoxedStrategy<Picture> {
    let (x, words, many) = (&s.inches, &s.words, s.many);
    let fall =
        (words.clone(), words.clone(), vec(x.clone(), 3), vec((words.clone(), x.clone()), 0..many.min(30)))
            .prop_map(|(from, to, n, limits)| {
                Picture::Fall(FallSection { from, to, length: n[0], fall: n[1], diameter: n[2], limits })
            });
    let members = prop_oneof![Just(Said::from("2x4 stud")), Just(Said::from("2x10 joist")), words.clone()];
    let bore = (members, vec(x.clone(), 7)).prop_map(|(member, n): (Said, _)| {
        Picture::Bore(BoreSection {
            member,
            depth: n[0],
            thickness: n[1],
            hole: n[2],
            center: n[3],
            largest: n[4],
            edge_kept: n[5],
            plate_edge: n[6],
        })
    });
    let parts = vec((words.clone(), x.clone(), any::<bool>()), 0..many);
    let load = (words.clone(), parts, vec((words.clone(), x.clone()), 0..many.min(20)))
        .prop_map(|(unit, parts, carries)| Picture::Load(LoadBar { unit, parts, carries }));
    let area = [x.clone(), x.clone(), x.clone(), x.clone()];
    let trades = prop_oneof![Just(Said::from("plumber")), Just(Said::from("electrician")), words.clone()];
    let tags = prop_oneof!["[A-Z][0-9]{1,2}".prop_map(Said::from), words.clone()];
    let wall = (
        words.clone(),
        (x.clone(), x.clone()),
        vec(x.clone(), 0..many),
        vec((tags, trades, area.clone()), 0..many),
        vec(area, 0..many),
    )
        .prop_map(|(name, (width, height), framing, holes, patches)| {
            Picture::Wall(WallElevation { name, width, height, framing, holes, patches })
        });
    let days = prop_oneof![0..40u32, any::<u32>()];
    let day = prop_oneof![0..40u32, any::<u32>()];
    let hours = prop_oneof![Just([8.0, 17.0]), [x.clone(), x.clone()]];
    let block = (day.clone(), 6.0..20.0f64, 6.0..20.0f64, 0.0..1.2f64);
    let wild_block = (day.clone(), x.clone(), x.clone(), x.clone());
    let blocks = vec(prop_oneof![3 => block, 1 => wild_block], 0..many.min(40));
    let calendar = (
        days,
        hours,
        vec((words.clone(), day.clone(), day.clone()), 0..many.min(20)),
        vec((words.clone(), blocks), 0..many.min(30)),
        vec((day, words.clone()), 0..many.min(20)),
    )
        .prop_map(|(days, hours, stages, rows, conflicts)| {
            Picture::Calendar(CalendarStrip { days, hours, stages, rows, conflicts })
        });
    let lights = vec((x.clone(), x.clone(), x.clone(), any::<bool>()), 0..many);
    let ceiling =
        ((x.clone(), x.clone()), vec(x.clone(), 0..many), lights, prop::option::of((x.clone(), x.clone())))
            .prop_map(|((width, depth), joists, lights, old_fixture)| {
                Picture::Ceiling(CeilingPlan { width, depth, joists, lights, old_fixture })
            });
    prop_oneof![
        sink(s).boxed(),
        sink_as_built().boxed(),
        fall.boxed(),
        bore.boxed(),
        load.boxed(),
        wall.boxed(),
        calendar.boxed(),
        ceiling.boxed()
    ]
    .boxed()
}

/// Any picture a program could hand in.
pub(crate) fn any_picture() -> BoxedStrategy<Picture> {
    prop_oneof![1 => picture(&usual()), 2 => picture(&wild())].boxed()
}

/// Words of a document under every node.
pub(crate) fn words_of(node: roxmltree::Node<'_, '_>) -> Vec<String> {
    node.descendants().filter(|n| n.is_text()).filter_map(|n| n.text()).map(Into::into).collect()
}
