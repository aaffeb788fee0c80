//! Reading and writing BIF.

use inference::bif::{read, read_document, write};
use inference::{Evidence, Network, NetworkBuilder, posterior};
use proptest::prelude::*;

use crate::support::{network, text};

const PUBLISHED: [&str; 6] = ["asia", "cancer", "earthquake", "survey", "sachs", "child"];

fn published(name: &str) -> String {
    text(&format!("published/{name}.bif"))
}

/// Nodes compared by name, since the two files list them in different orders at times.
fn same(a: &Network, b: &Network) {
    assert_eq!(a.len(), b.len());
    for node in a.nodes() {
        let other = &b.nodes()[b.find(&node.name).unwrap()];
        assert_eq!(node.states, other.states, "{}", node.name);
        let names = |n: &Network, list: &[usize]| -> Vec<String> {
            list.iter().map(|p| n.nodes()[*p].name.clone()).collect()
        };
        assert_eq!(names(a, &node.parents), names(b, &other.parents), "{}", node.name);
        let bits = |cpt: &[f64]| cpt.iter().map(|x| x.to_bits()).collect::<Vec<u64>>();
        assert_eq!(bits(&node.cpt), bits(&other.cpt), "{}", node.name);
    }
}

#[test]
fn published_files_read_and_normalized_equal_the_reference_to_the_last_bit() {
    for name in PUBLISHED {
        same(&read(&published(name)).unwrap(), &network(name));
    }
}

#[test]
fn a_slash_in_a_state_name_is_kept() {
    let net = read(&published("child")).unwrap();
    assert_eq!(net.state(net.find("ChestXray").unwrap(), "Asy/Patch"), Some(4));
}

#[test]
fn written_networks_read_back_bit_for_bit() {
    for name in
        ["asia", "child", "alarm", "insurance", "house_s", "house_m", "t_zero", "t_onestate", "t_islands"]
    {
        let net = network(name);
        let properties =
            ["made = by hand, (a test)", "a \"free\"; text\n", "note = x", "", " k = v", "k = // v"];
        let once = write(&net, name, &properties);
        let document = read_document(&once).unwrap();
        assert_eq!(document.network, net, "{name}");
        assert_eq!(document.name, name);
        assert_eq!(document.properties, properties);
        assert_eq!(write(&document.network, name, &properties), once);
    }
}

#[test]
fn names_with_any_signs_survive() {
    let mut b = NetworkBuilder::new();
    let a = b.node("wet \"wall\", (2nd)", &["a//b", "", "c\\d\ne", "{x;|y}", "/* z */"]).unwrap();
    let c = b.node("network", &["table", "default"]).unwrap();
    b.table(a, &[], vec![0.1, 0.2, 0.3, 0.3, 0.1]).unwrap();
    b.table(c, &[a], [0.1, 0.9, 0.2, 0.8, 0.3, 0.7, 1e-9, 1.0 - 1e-9, 0.0, 1.0].into()).unwrap();
    let net = b.build().unwrap();
    assert_eq!(read(&write(&net, "a house", &[])).unwrap(), net);
}

#[test]
fn defaults_tables_comments_and_properties_are_understood() {
    let text = "// a comment\nnetwork \"two words\" { property author = me ; property \"b\" ; }\n\
        variable a { type discrete [2] { x y }; property pos = (1, 2) ; }\n\
        variable b { /* over\n two lines */ type discrete[3] { u, v, w }; }\n\
        probability(a) { table 0.25 0.75; }\n\
        probability(b | a) { default 0.2, 0.3, 0.5; (y) 1e0, 0, 0; property p; }\n";
    let document = read_document(text).unwrap();
    assert_eq!(document.name, "two words");
    assert_eq!(document.properties, ["author = me", "b"]);
    assert_eq!(document.network.nodes()[1].cpt, [0.2, 0.3, 0.5, 1.0, 0.0, 0.0]);
}

#[test]
fn a_table_under_parents_runs_through_the_child_slowest() {
    let text = "variable a { type discrete [2] { x, y }; } variable b { type discrete [2] { u, v }; }\n\
        probability (a) { table 0.5, 0.5; } probability (b | a) { table 0.1, 0.2, 0.9, 0.8; }";
    assert_eq!(read(text).unwrap().nodes()[1].cpt, [0.1, 0.9, 0.2, 0.8]);
}

#[test]
fn rows_off_by_rounding_are_normalized_and_worse_ones_refused() {
    let text = |x: &str| {
        format!("variable a {{ type discrete [3] {{ x, y, z }}; }}\nprobability (a) {{\n table {x}; }}")
    };
    let net = read(&text("0.3333334, 0.3333334, 0.3333335")).unwrap();
    assert!((net.nodes()[0].cpt.iter().sum::<f64>() - 1.0).abs() < 1e-15);
    let e = read(&text("0.33334, 0.33333, 0.33334")).unwrap_err();
    assert_eq!(e.line, 3);
    assert!(e.message.contains("sums to 1.00001"), "{e}");
}

#[test]
fn errors_carry_the_line() {
    let good = "network n {\n}\nvariable a {\n  type discrete [ 2 ] { x, y };\n}\nvariable b {\n  type discrete [ 2 ] { u, v };\n}\n\
        probability ( a ) {\n  table 0.5, 0.5;\n}\nprobability ( b | a ) {\n  (x) 0.1, 0.9;\n  (y) 0.2, 0.8;\n}\n";
    assert!(read(good).is_ok());
    for (from, to, line, words) in [
        ("[ 2 ] { x, y }", "[ 3 ] { x, y }", 4, "announces 3 states and lists 2"),
        ("[ 2 ] { u, v }", "[ 2 ] { u, u }", 6, "two states named \"u\""),
        ("variable b", "variable a", 6, "two nodes are named \"a\""),
        ("0.5, 0.5", "0.5, half", 10, "\"half\" is no probability"),
        ("0.5, 0.5", "0.5, -0.5", 10, "\"-0.5\" is no probability"),
        ("0.5, 0.5", "0.5, NaN", 10, "\"NaN\" is no probability"),
        ("0.5, 0.5", "1.0", 10, "1 numbers and needs 2"),
        ("(y) 0.2, 0.8", "(z) 0.2, 0.8", 14, "\"z\" is no state"),
        ("(y) 0.2, 0.8", "(x) 0.2, 0.8", 14, "given twice"),
        ("(y) 0.2, 0.8", "(y, x) 0.2, 0.8", 14, "names 2 parent states; there are 1"),
        ("(y) 0.2, 0.8;", "(y) 0.2, 0.8, 0.0;", 14, "3 numbers and needs 2"),
        ("(y) 0.2, 0.8;", "(y) 0.2, 0.7;", 14, "sums to"),
        ("  (y) 0.2, 0.8;\n", "", 12, "has 1 of its 2 rows"),
        ("( b | a )", "( b | c )", 12, "no variable is named \"c\""),
        ("( b | a )", "( a )", 12, "block in line 9"),
        ("( a ) {\n  table 0.5, 0.5;", "( a | b ) {\n  default 0.5, 0.5;", 9, "circle"),
        ("probability ( a ) {\n  table 0.5, 0.5;\n}\n", "", 3, "has no probability block"),
        ("type discrete [ 2 ] { x, y };", "", 3, "has no states"),
        ("type discrete [ 2 ] { x", "type continuous [ 2 ] { x", 4, "not discrete"),
        ("probability ( b", "likelihood ( b", 12, "\"likelihood\" opens no block"),
        ("(y) 0.2, 0.8;\n}\n", "(y) 0.2, 0.8;", 14, "the text ends"),
        ("network n {", "network \"n {", 1, "never closed"),
        ("network n {", "/* network n {", 1, "never closed"),
    ] {
        let text = good.replacen(from, to, 1);
        assert_ne!(text, good, "{from}");
        let e = read(&text).unwrap_err();
        assert_eq!(e.line, line, "{to}: {e}");
        assert!(e.message.contains(words), "{to}: {e}");
    }
}

#[test]
fn a_short_text_cannot_ask_for_a_huge_table() {
    let mut text = String::new();
    let names: Vec<String> = (0..40).map(|i| format!("v{i}")).collect();
    for name in &names {
        text += &format!("variable {name} {{ type discrete [2] {{ a, b }}; }}\n");
    }
    text += &format!("probability (v0 | {}) {{ default 0.5, 0.5; }}", names[1..].join(", "));
    let e = read(&text).unwrap_err();
    assert_eq!(e.line, 41);
    assert!(e.message.contains("cells"), "{e}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn damaged_text_never_panics(
        name in prop::sample::select(&PUBLISHED[..]),
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0u8..5, any::<char>(), 0usize..40), 1..6),
    ) {
        let mut chars: Vec<char> = published(name).chars().collect();
        for (at, kind, c, length) in edits {
            let at = at.index(chars.len());
            let end = (at + length).min(chars.len());
            match kind {
                0 => drop(chars.drain(at..end)),
                1 => chars.insert(at, c),
                2 => chars[at] = ['{', '}', '(', ')', '[', ']', ',', ';', '|', '"', '/', '*', '9', 'e', '-', '\n', '\\'][length % 17],
                3 => chars.truncate(at.max(1)),
                _ => {
                    let copy = chars[at..end].to_vec();
                    chars.splice(at..at, copy);
                }
            }
            if chars.is_empty() {
                chars.push(c);
            }
        }
        let text: String = chars.into_iter().collect();
        match read(&text) {
            // Whatever is accepted is a sound network.
            Ok(net) => prop_assert!(posterior(&net, &Evidence::new()).is_ok()),
            Err(e) => prop_assert!(e.line >= 1 && e.line as usize <= text.lines().count().max(1)),
        }
    }
}
