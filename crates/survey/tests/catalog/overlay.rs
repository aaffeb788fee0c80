//! A firm's overlay: what it changes, adds and leaves out, and the faults it can have, each on its own line.

use survey::Digest;
use survey::catalog::{Basis, Catalog, CatalogError, FILES, LengthIn, Writing, builtin, builtin_with, kinds};
use survey::units::Money;

fn files(overlay: &[(&str, &str)]) -> Vec<(String, String)> {
    overlay.iter().map(|(p, t)| ((*p).to_owned(), (*t).to_owned())).collect()
}

fn load(text: &str) -> Catalog {
    builtin_with(&files(&[("firm.toml", text)])).unwrap_or_else(|e| panic!("{e}\n{text}"))
}

fn refused(overlay: &[(&str, &str)]) -> CatalogError {
    match builtin_with(&files(overlay)) {
        Err(error) => error,
        Ok(_) => panic!("this was accepted: {overlay:?}"),
    }
}

const FIRM: &str = r#"
name = "Ames Kitchens"
version = 3
basis = "firm"
jobs = 34
reason = "counted in our own jobs"
on = 2026-11-02

[change.condition.bulkhead-duct]
cost = [1200, 3000, 8000]
p-cost = 0.7

[change.condition.bulkhead-duct.prior]
to-1939 = 0.31

[change.condition.bulkhead-duct.clues.register-in-bulkhead]
basis = "judgment"
reason = "nobody here saw it otherwise"
if-present = 0.66

[change.condition.bulkhead-duct.adjust.heat.no-ducts]
odds-ratio = 0.03
"#;

#[test]
fn an_overlay_that_says_nothing_leaves_the_catalog_as_it_is() {
    let base = builtin().unwrap();
    let empty: [&[(&str, &str)]; 4] = [
        &[],
        &[("firm.toml", "")],
        &[("firm.toml", "# nothing yet\n"), ("b/c.toml", "\n")],
        &[(
            "firm.toml",
            "name = \"Ames\"\nversion = 1\nbasis = \"judgment\"\nreason = \"r\"\n[change]\n[remove]\n",
        )],
    ];
    for overlay in empty {
        let laid = builtin_with(&files(overlay)).unwrap();
        assert_eq!(laid, base, "{overlay:?}");
        assert_eq!(
            (laid.digest, laid.version.to_string().as_str()),
            (base.digest, base.version.to_string().as_str())
        );
    }
}

#[test]
fn single_numbers_change_and_everything_else_stays() {
    let (base, firm) = (builtin().unwrap(), load(FIRM));
    let duct = firm.condition("bulkhead-duct").unwrap();
    assert_eq!(
        [duct.cost.low, duct.cost.likely, duct.cost.high].map(Money::cents),
        [120_000, 300_000, 800_000]
    );
    assert_eq!((duct.prior.by_band["to-1939"], duct.basis.cost), (0.31, Basis::Firm));
    let pair = duct.clues.iter().find(|p| p.clue == "register-in-bulkhead").unwrap();
    let before = base.condition("bulkhead-duct").unwrap();
    let was = before.clues.iter().find(|p| p.clue == "register-in-bulkhead").unwrap();
    assert_eq!((pair.if_present, pair.if_absent), (0.66, was.if_absent));
    // Put back, it is the base again.
    let mut same = firm.clone();
    same.conditions.iter_mut().find(|c| c.id == "bulkhead-duct").unwrap().clone_from(before);
    (same.digest, same.version, same.overlay) = (base.digest, base.version, None);
    assert_eq!(same, base);
}

#[test]
fn what_stands_behind_a_number_follows_from_the_change() {
    let firm = load(FIRM);
    for (key, basis, weight) in [
        ("cost", Basis::Firm, 34.0),
        ("p-cost", Basis::Firm, 34.0),
        ("prior.to-1939", Basis::Firm, 34.0),
        ("prior.1940-1959", Basis::Judgment, 10.0),
        ("clues.register-in-bulkhead.if-present", Basis::Judgment, 10.0),
        ("adjust.heat.no-ducts.odds-ratio", Basis::Firm, 34.0),
        ("days", Basis::Judgment, 10.0),
    ] {
        let standing = firm.standing("condition", "bulkhead-duct", key).unwrap();
        assert_eq!((standing.basis, standing.weight), (basis, weight), "{key}");
    }
    assert_eq!(firm.standing("condition", "bulkhead-duct", "name"), None);
    let lead = firm.standing("condition", "lead-paint", "prior.to-1939").unwrap();
    assert_eq!((lead.basis, lead.weight), (Basis::Published, 50.0));
    assert!(!lead.sources.is_empty());
    // Without a number of jobs it weighs as the catalog says.
    let plain = load("[change.setting.floor]\nbasis = \"firm\"\nreason = \"r\"\nvalue = 200\n");
    assert_eq!(plain.standing("setting", "floor", "value").unwrap().weight, 10.0);
}

#[test]
fn every_change_is_told_with_old_new_and_why() {
    let overlay = load(FIRM).overlay.unwrap();
    assert_eq!((overlay.name.as_deref(), overlay.version), (Some("Ames Kitchens"), Some(3)));
    let told: Vec<_> = overlay
        .changes
        .iter()
        .map(|c| (c.key.as_str(), c.old.as_deref().unwrap_or("—"), c.new.as_str(), c.place.line))
        .collect();
    assert_eq!(
        told,
        [
            ("adjust.heat.no-ducts.odds-ratio", "0.15", "0.03", 22),
            ("clues.register-in-bulkhead.if-present", "0.6", "0.66", 19),
            ("cost", "[900, 2400, 6000]", "[1200, 3000, 8000]", 10),
            ("p-cost", "0.9", "0.7", 11),
            ("prior.to-1939", "0.06", "0.31", 14),
        ]
    );
    let cost = overlay.changes.iter().find(|c| c.key == "cost").unwrap();
    assert_eq!((cost.backing.jobs, cost.backing.on.as_deref()), (Some(34), Some("2026-11-02")));
    assert_eq!(cost.backing.reason, "counted in our own jobs");
    assert_eq!(cost.place.to_string(), "overlay/firm.toml:10");
}

#[test]
fn the_digest_covers_catalog_and_overlay_and_all_three_are_told() {
    let (base, firm) = (builtin().unwrap(), load(FIRM));
    let framed = |files: &[(&str, &str)]| {
        let mut bytes = Vec::new();
        for (path, text) in files {
            for part in [path, text] {
                bytes.extend_from_slice(&(part.len() as u64).to_be_bytes());
                bytes.extend_from_slice(part.as_bytes());
            }
        }
        Digest::of(&bytes)
    };
    let own = ("overlay/firm.toml", FIRM);
    assert_eq!((firm.base, base.base), (base.digest, base.digest));
    assert_eq!(firm.overlay.as_ref().unwrap().digest, framed(&[own]));
    assert_eq!(firm.digest, framed(&[FILES, &[own]].concat()));
    assert_eq!(firm.version.to_string(), format!("{}+3", base.version));
    // Every byte counts, also one that changes no number.
    assert_ne!(load(&format!("{FIRM}\n# a remark\n")).digest, firm.digest);
}

#[test]
fn files_are_laid_in_any_order_to_the_same_result() {
    let a = ("a.toml", "[[cause]]\nid = \"well-pump\"\nwords = \"One pump.\"\n");
    let b = (
        "b.toml",
        "[change.cause.well-pump]\nreason = \"clearer\"\nwords = \"One weak pump.\"\n\
         [[clue]]\nid = \"pump-short\"\nwords = \"pump cycles\"\nitem = \"main-valve\"\n\
         true-when = { in = [\"works\"] }\ncause = \"well-pump\"\nbasis = \"judgment\"\n",
    );
    let with = "[change.condition.weak-flow.clues.pump-short]\nbasis = \"judgment\"\nreason = \"r\"\nif-present = 0.3\nif-absent = 0.1\n";
    let c = ("sub/c.toml", with);
    let [first, second] = [[a, b, c], [c, a, b]].map(|list| builtin_with(&files(&list)));
    let first = first.unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(first, second.unwrap());
    assert_eq!(first.causes["well-pump"].words, "One weak pump.");
    assert_eq!(first.clues["pump-short"].cause.as_deref(), Some("well-pump"));
}

const ADDED: &str = r#"
basis = "judgment"
reason = "our county is full of them"

[[group]]
id = "well"
name = "Wells"

[[item]]
id = "well-head"
station = "water"
after = "main-valve"
question = "Where does the well head stand?"
why = "A buried head must be dug out."
answer = "choice"
options = [{ id = "above", label = "above ground" }, { id = "buried", label = "buried" }]

[[item]]
id = "well-depth"
station = "water"
question = "How deep is the well, by its record?"
why = "A deep pump costs more to pull."
answer = "length"
unit = "ft"
min = 10
max = 1500

[[cause]]
id = "old-well"
words = "One old well."

[[clue]]
id = "head-buried"
words = "well head is buried"
item = "well-head"
true-when = { in = ["buried"] }
cause = "old-well"

[[clue]]
id = "well-deep"
words = "well is deep"
item = "well-depth"
true-when = { gte = 300 }
cause = "old-well"

[[check]]
id = "pull-record"
name = "Ask the county for the well record"
invasive = 0
minutes = [10, 20, 40]
cost = [0, 0, 25]
who = "office"
basis = "firm"

[[condition]]
group = "well"
id = "well-casing-rusted"
name = "Rusted well casing"
what = "The steel casing of an old well is rusted through below ground."
triggers = ["bath-remodel", "deep-sink"]
applies-if = { item = "water-from", in = ["well"] }
dated-by = "house"
stage = "rough-in"
trades = ["plumber"]
decides = "licensed well driller"
caution = "A driller judges the casing; the health department tests the water."
cost = [800, 2500, 9000]
days = [0.5, 1, 3]
clues = [
  { clue = "head-buried", if-present = 0.6, if-absent = 0.2 },
  { clue = "well-deep", if-present = 0.4, if-absent = 0.3 },
]
checks = [{ check = "pull-record", sensitivity = 0.5, specificity = 0.8 }]
basis = { prior = "firm", likelihoods = "judgment", checks = "judgment", cost = "firm", days = "judgment" }
[condition.prior]
to-1939 = 0.3
1940-1959 = 0.3
1960-1964 = 0.2
1965-1973 = 0.2
1974-1977 = 0.1
1978-1995 = 0.1
1996-2010 = 0.05
from-2011 = 0.02

[[outage]]
id = "well-off"
task = "Pull the pump"
off = ["water"]
scope = "whole house"
hours = [4, 6, 12]
help = "Fill the tubs."

[[wish]]
id = "steam-shower"
rough-in = "Circuit and drain for a steam generator"
now = [300, 800]
later = [1500, 3000]

[[source]]
id = "county-wells"
topic = "wells"
statement = "3 in 10 casings before 1960 are rusted"
source = "county well survey 2024"
read-in = "the county's page"
read = true
trust = "medium"

[[excludes]]
pair = ["well-casing-rusted", "lead-service"]

[[book]]
id = "county-plumbing"
family = "plumbing"
title = "County"
document = "County amendments to the plumbing code"
edition = "2025"
based-on = "upc-2012"
[[book.table]]
id = "trap-arm-longest"
rule = "Trap to vent, at most, by trap-arm size"
clause = "14-203"
mark = "published"
unit = "in"
rows = [["1-1/4", 30], ["1-1/2", 36], ["2", 60], ["3", 72], ["4", 120]]

[change.adopted]
plumbing = "county-plumbing"

[change.item.wishes.options.steam-shower]
label = "steam shower"
"#;

#[test]
fn conditions_clues_causes_checks_questions_outages_wishes_sources_relations_and_books_are_added() {
    let c = load(ADDED);
    let casing = c.condition("well-casing-rusted").unwrap();
    assert_eq!((casing.group.as_str(), casing.core), ("well", false));
    assert_eq!(c.conditions.last().unwrap().id, "well-casing-rusted");
    assert_eq!(casing.overlaps[0].0, "old-well");
    let head = c.item("well-head").unwrap();
    assert_eq!(head.order, c.item("main-valve").unwrap().order + 1);
    assert_eq!((head.station.as_str(), &head.clues[..]), ("water", &["head-buried".to_owned()][..]));
    assert!(head.informs.contains("well-casing-rusted"));
    let last = c.items.iter().rfind(|i| i.station == "water").unwrap();
    assert_eq!(last.id, "well-depth");
    assert_eq!(c.clue("well-deep").unwrap().basis, Basis::Judgment);
    let survey::catalog::TrueWhen::Compare(_, survey::catalog::Bound::Length(depth)) =
        c.clues["well-deep"].true_when
    else {
        panic!()
    };
    assert_eq!(LengthIn::Foot.number(depth), 300.0);
    assert_eq!(c.check("pull-record").unwrap().basis, Basis::Firm);
    assert!(c.outages.iter().any(|o| o.id == "well-off"));
    assert!(c.wishes.iter().any(|w| w.id == "steam-shower"));
    assert!(c.sources.contains_key("county-wells"));
    let adopted = c.shelf.adopted(survey::catalog::Family::Plumbing).books();
    assert_eq!(adopted.iter().map(|b| b.id.as_str()).collect::<Vec<_>>(), ["county-plumbing"]);
    assert_eq!(adopted[0].table("trap-arm-longest").unwrap().row("1-1/2"), Some(36.0));
    assert_eq!(adopted[0].table("trap-arm-shortest").unwrap().value, Some(2.0));
    let overlay = c.overlay.unwrap();
    assert_eq!(overlay.added.len(), 13);
    assert!(
        overlay.added.iter().any(|a| a.kind == "excludes" && a.id == "well-casing-rusted and lead-service")
    );
}

#[test]
fn what_is_not_offered_here_goes_with_what_only_it_needs() {
    let base = builtin().unwrap();
    let c = load(
        "[remove.condition]\nfloor-heated = \"never in our county\"\nrodent-nest = \"left to pest control\"\n\
         [remove.check]\nheat-view = \"we own no thermal camera\"\n[remove.outage]\nriser-repipe = \"never in our jobs\"\n\
         [remove.wish]\ngas-grill = \"no gas here\"\n",
    );
    assert_eq!(c.conditions.len(), base.conditions.len() - 2);
    assert!(c.condition("floor-heated").is_none() && c.check("heat-view").is_none());
    for condition in &c.conditions {
        assert!(condition.checks.iter().all(|p| p.check != "heat-view"), "{}", condition.id);
        assert!(!condition.checks.is_empty());
        assert!(condition.covers_cost_of.iter().all(|id| c.condition(id).is_some()));
        assert_eq!(c.condition(&condition.id), Some(condition), "the index follows");
    }
    assert!(c.items.iter().all(|i| !i.informs.contains("floor-heated")));
    assert!(c.items.iter().flat_map(|i| &i.clues).all(|k| c.clue(k).is_some()));
    let removed = c.overlay.unwrap().removed;
    let told: Vec<_> = removed.iter().map(|r| (r.kind.as_str(), r.id.as_str())).collect();
    assert_eq!(
        told,
        [
            ("check", "heat-view"),
            ("condition", "floor-heated"),
            ("condition", "rodent-nest"),
            ("outage", "riser-repipe"),
            ("wish", "gas-grill"),
        ]
    );
    assert_eq!(removed[1].reason, "never in our county");
    assert!(removed.iter().any(|r| r.with.iter().any(|w| w.starts_with("clue "))), "{removed:?}");
}

#[test]
fn every_kind_can_be_shown_key_by_key_as_an_overlay_names_it() {
    let firm = load(FIRM);
    let duct =
        Writing::new(FILES, &[("firm.toml", FIRM)]).thing(&firm, "condition", "bulkhead-duct").unwrap();
    assert_eq!(duct.rows[0].key, "id");
    let row = |key: &str| duct.rows.iter().find(|r| r.key == key).unwrap();
    assert_eq!(row("cost").value, "[1200, 3000, 8000]");
    assert_eq!(row("cost").change.as_ref().unwrap().old.as_deref(), Some("[900, 2400, 6000]"));
    assert_eq!(row("cost").standing.as_ref().unwrap().weight, 34.0);
    assert_eq!(row("clues.register-in-bulkhead.if-present").value, "0.66");
    assert!(row("prior.1940-1959").change.is_none() && row("prior.1940-1959").standing.is_some());
    assert!(duct.place.file == "conditions/bulkhead.toml" && duct.place.line > 1);
    // Every number of every thing has something behind it.
    let catalog = builtin().unwrap();
    let ids: Vec<(&str, Vec<String>)> = vec![
        ("condition", catalog.conditions.iter().map(|c| c.id.clone()).collect()),
        ("clue", catalog.clues.keys().cloned().collect()),
        ("check", catalog.checks.keys().cloned().collect()),
        ("item", catalog.items.iter().map(|i| i.id.clone()).collect()),
        ("station", catalog.stations.iter().map(|s| s.id.clone()).collect()),
        ("factor", catalog.factors.iter().map(|f| f.id.clone()).collect()),
        ("outage", catalog.outages.iter().map(|o| o.id.clone()).collect()),
        ("wish", catalog.wishes.iter().map(|w| w.id.clone()).collect()),
        ("length", catalog.drain_defaults.keys().cloned().collect()),
        ("setting", catalog.settings.keys().cloned().collect()),
        ("reference", vec![String::new()]),
        ("base-odds", vec![String::new()]),
        ("weights", vec![String::new()]),
    ];
    let mut numbers = 0;
    let bare = Writing::new(FILES, &[]);
    for (kind, ids) in ids {
        assert!(kinds().any(|k| k == kind));
        for id in ids {
            let thing = bare.thing(&catalog, kind, &id).unwrap_or_else(|e| panic!("{kind} {id}: {e}"));
            for row in thing.rows.iter().filter(|r| r.value.parse::<f64>().is_ok()) {
                let rank =
                    matches!((kind, row.key.as_str()), ("check", "invasive") | ("setting", "min" | "max"));
                assert!(row.standing.is_some() || rank, "{kind} {id} {}", row.key);
                numbers += 1;
            }
        }
    }
    assert!(numbers > 2000, "{numbers}");
    let error = bare.thing(&catalog, "condition", "bulkhead-dukt").unwrap_err();
    assert_eq!(error, "there is no condition “bulkhead-dukt”; did you mean “bulkhead-duct”?");
    let error = bare.thing(&catalog, "conditon", "x").unwrap_err();
    assert_eq!(error, "there is no kind of thing “conditon”; did you mean “condition”?");
}

/// Text, part of what is wrong, part of how to mend it, line.
const FAULTS: &[(&str, &str, &str, u32)] = &[
    // Words that are not known.
    ("[chnage.condition.bulkhead-duct]\n", "an overlay has no key “chnage”", "“change”", 1),
    (
        "[change.conditon.bulkhead-duct]\n",
        "there is no kind of thing “conditon” that can be changed",
        "“condition”",
        1,
    ),
    ("[change.condition.bulkhead-dukt]\n", "there is no condition “bulkhead-dukt”", "“bulkhead-duct”", 1),
    ("basis = \"judgement\"\n", "unknown variant `judgement`", "“judgment”", 1),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct]\ncots = [1, 2, 3]\n",
        "unknown field `cots`",
        "“cost”",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct.prior]\nto-1393 = 0.3\n",
        "there is no era “to-1393”",
        "“to-1939”",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct.clues.register-in-bulkhed]\nif-present = 0.3\nif-absent = 0.1\n",
        "there is no clue “register-in-bulkhed”",
        "“register-in-bulkhead”",
        3,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct.clues.hot-line]\nif-present = 0.3\n",
        "missing field `if-absent`",
        "",
        3,
    ),
    (
        "[change.adopted]\nreason = \"r\"\nplumbing = \"upc-2102\"\n",
        "there is no book of plumbing “upc-2102”",
        "“upc-2012”",
        3,
    ),
    (
        "[change.setting.flor]\nreason = \"r\"\nbasis = \"firm\"\nvalue = 1\n",
        "there is no setting “flor”",
        "“floor”",
        1,
    ),
    ("[[conditions]]\nid = \"x\"\n", "an overlay has no key “conditions”", "“condition”", 1),
    (
        "[remove.conditions]\nslab-lines = \"r\"\n",
        "no kind of thing “conditions” that can be left out",
        "“condition”",
        1,
    ),
    ("[remove.condition]\nslab-line = \"r\"\n", "there is no condition “slab-line”", "“slab-lines”", 2),
    // What must be said.
    (
        "[change.condition.bulkhead-duct]\nreason = \"r\"\ncost = [1, 2, 3]\n",
        "the number “cost” of condition “bulkhead-duct” has no basis",
        "basis = \"firm\"",
        3,
    ),
    (
        "[change.condition.bulkhead-duct]\nbasis = \"judgment\"\ncost = [1, 2, 3]\n",
        "“cost” of condition “bulkhead-duct” is changed without a reason",
        "reason = ",
        3,
    ),
    ("[change.cause.no-gas]\nwords = \"x\"\n", "changed without a reason", "reason = ", 2),
    (
        "[change.condition.bulkhead-duct]\nbasis = \"published\"\nreason = \"r\"\ncost = [1, 2, 3]\n",
        "claims a published basis and names no source",
        "sources",
        4,
    ),
    (
        "[change.condition.bulkhead-duct]\nbasis = \"published\"\nsources = [\"cost-kichen\"]\nreason = \"r\"\ncost = [1, 2, 3]\n",
        "there is no source “cost-kichen”",
        "“cost-kitchen”",
        3,
    ),
    ("[remove.condition]\nslab-lines = \"\"\n", "left out without a reason", "slab-lines = ", 2),
    (
        "[[check]]\nid = \"x-ray\"\nname = \"x\"\ninvasive = 0\nminutes = [1, 2, 3]\ncost = [0, 0, 0]\nwho = \"office\"\n",
        "the check “x-ray” has no basis",
        "basis",
        1,
    ),
    // What stays.
    (
        "reason = \"r\"\n[change.condition.bulkhead-duct]\nid = \"x\"\n",
        "“id” of condition “bulkhead-duct” stays",
        "never change",
        3,
    ),
    (
        "reason = \"r\"\n[change.condition.bulkhead-duct]\ncore = false\n",
        "“core” of",
        "the same for every firm",
        3,
    ),
    (
        "reason = \"r\"\n[change.condition.lead-paint.decision]\nnever = []\n",
        "“decision” of condition “lead-paint” stays as it is",
        "gate",
        2,
    ),
    (
        "reason = \"r\"\n[change.item.stub-height]\nunit = \"ft\"\n",
        "“unit” of item “stub-height” stays",
        "recorded",
        3,
    ),
    (
        "reason = \"r\"\n[change.source.cost-kitchen]\ntopic = \"x\"\n",
        "a source cannot be changed",
        "as it was read",
        2,
    ),
    ("reason = \"r\"\n[change.book.upc-2012]\ntitle = \"x\"\n", "a book cannot be changed", "based-on", 2),
    ("[remove.condition]\nlead-paint = \"r\"\n", "belongs to the core", "change its numbers", 2),
    ("[remove.condition]\nheader-small = \"r\"\n", "behind a gate before a hazard", "leave it in", 2),
    ("[remove.clue]\nhot-line = \"r\"\n", "a clue cannot be left out", "known: ", 1),
    ("[remove.item]\nstub-height = \"r\"\n", "the item “stub-height” is read by the clue", "ask it", 2),
    // What the rules of the catalog say of the result.
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct]\ncost = [3, 2, 1]\n",
        "low, likely, high in that order",
        "",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct.prior]\nto-1939 = 1.31\n",
        "must lie between",
        "",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct.clues.register-in-bulkhead]\nif-present = 0.001\n",
        "does not raise “bulkhead-duct”",
        "more than if-absent",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.setting.floor]\nvalue = -1\n",
        "“floor” lies between 0 and 50000",
        "dollars",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.setting.floor]\nvalue = \"1\"\n",
        "invalid type: string",
        "",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-cable-bundle.prior]\nto-1939 = 0.97\n",
        "“bulkhead-cable-bundle” means “bulkhead-wires”",
        "",
        4,
    ),
    (
        "basis = \"firm\"\nreason = \"r\"\n[change.factor.foundation.levels.slab]\nprior = 0.5\n",
        "the shares of “foundation” add up to",
        "",
        4,
    ),
    (
        "[[item]]\nid = \"x-item\"\nstation = \"watre\"\nquestion = \"q?\"\nwhy = \"w\"\nanswer = \"number\"\nunit = \"\"\nmin = 0\nmax = 1\n",
        "there is no station “watre”",
        "“water”",
        3,
    ),
    (
        "[[item]]\nid = \"x-item\"\nstation = \"plan\"\nquestion = \"q?\"\nwhy = \"w\"\nanswer = \"number\"\nunit = \"\"\nmin = 0\nmax = 1\nskip-if = { item = \"stub-height\", gte = 3 }\n",
        "there is no earlier item “stub-height”",
        "",
        10,
    ),
    (
        "[[clue]]\nid = \"x-clue\"\nwords = \"w\"\nitem = \"main-valve\"\ntrue-when = { in = [\"stiff\"] }\nbasis = \"judgment\"\n",
        "no condition uses the clue “x-clue”",
        "use it or delete it",
        2,
    ),
    // Shapes.
    ("change = 3\n", "change holds tables", "[change.KIND.ID]", 1),
    ("[change]\ncondition = 3\n", "“change.condition” is a table", "[change.condition]", 2),
    ("[change.condition]\nbulkhead-duct = 3\n", "“change.condition.bulkhead-duct” is a table", "write", 2),
    (
        "reason = \"r\"\n[change.condition.bulkhead-duct]\nclues = []\n",
        "“clues” of condition “bulkhead-duct” is changed part by part",
        "[change.condition.bulkhead-duct.clues.CLUE]",
        3,
    ),
    ("condition = 3\n", "“condition” is a list of things to add", "[[condition]]", 1),
    ("[[condition]]\nid = \"x-y\"\n", "says its group", "group", 1),
    ("name = 3\n", "a name is said in words", "", 1),
    ("version = \"a\"\n", "a version is a whole number", "", 1),
    ("a = \n", "", "", 1),
];

#[test]
fn every_fault_of_an_overlay_is_told_on_its_own_line_with_a_way_to_mend_it() {
    for (text, what, mend, line) in FAULTS {
        let error = refused(&[("firm.toml", text)]);
        let label = format!("{text}\n{error}");
        let fault = error.faults.iter().find(|f| f.what.contains(what)).unwrap_or_else(|| panic!("{label}"));
        assert_eq!((fault.file.as_str(), fault.line), ("overlay/firm.toml", *line), "{label}");
        assert!(fault.mend.as_deref().unwrap_or_default().contains(mend), "{label}");
        for fault in &error.faults {
            assert!(fault.file.starts_with("overlay/"), "{label}");
        }
    }
}

#[test]
fn the_same_key_twice_is_a_fault_that_names_both_places() {
    let a = "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct]\ncost = [1, 2, 3]\n";
    let b = "basis = \"firm\"\nreason = \"r\"\n\n[change.condition.bulkhead-duct]\ncost = [1, 2, 4]\n";
    let error = refused(&[("b.toml", b), ("a.toml", a)]);
    assert_eq!(
        error.faults[0].to_string(),
        "overlay/b.toml:5: “cost” of condition “bulkhead-duct” is said twice: here and at overlay/a.toml:4; keep one"
    );
    let error = refused(&[
        ("a.toml", "version = 1\n[remove.wish]\ngas-grill = \"r\"\n"),
        ("b.toml", "version = 2\n[remove.wish]\ngas-grill = \"q\"\n"),
    ]);
    let told: Vec<u32> = error.faults.iter().map(|f| f.line).collect();
    assert_eq!((told, error.faults[0].file.as_str()), (vec![1, 3], "overlay/b.toml"));
    let error = refused(&[(
        "a.toml",
        "reason = \"r\"\n[change.wish.gas-grill]\nrough-in = \"x\"\n[remove.wish]\ngas-grill = \"r\"\n",
    )]);
    assert!(error.faults[0].what.contains("changed or added by the overlay and left out too"), "{error}");
}

#[test]
fn faults_of_several_files_come_together_and_those_of_the_catalog_come_first() {
    let error = refused(&[
        ("a.toml", "[change.conditon.x]\n"),
        ("b.toml", "a = \n"),
        (
            "c.toml",
            "basis = \"firm\"\nreason = \"r\"\n[change.condition.bulkhead-duct]\ncots = 1\n[change.condition.rodent-nest]\ndayz = 2\n",
        ),
    ]);
    let told: Vec<(&str, u32)> = error.faults.iter().map(|f| (f.file.as_str(), f.line)).collect();
    assert_eq!(
        told,
        [("overlay/a.toml", 1), ("overlay/b.toml", 1), ("overlay/c.toml", 4), ("overlay/c.toml", 6)]
    );
    let mut broken = files(FILES);
    broken.iter_mut().find(|(p, _)| p == "wishes.toml").unwrap().1.push_str("wish = 3\n");
    let error = Catalog::load_with(&broken, &files(&[("a.toml", "[change.conditon.x]\n")])).unwrap_err();
    assert!(error.faults.iter().all(|f| f.file == "wishes.toml"), "{error}");
}
