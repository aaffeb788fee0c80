//! What a firm can address: where each kind of thing is written, which keys are lists of parts with ids, and which
//! stay as they are.

/// Where the things of a kind are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Home {
    /// A list in one file.
    List(&'static str),
    /// A list in every file of a folder.
    Lists(&'static str),
    /// One table in every file of a folder, with an id of its own.
    Tables(&'static str),
    /// One table of one file; it has no id.
    Table(&'static str),
    /// A whole file of a folder.
    Files(&'static str),
}

/// A list inside a thing whose parts are addressed by what they name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Parts {
    /// Its key.
    pub(super) key: &'static str,
    /// The keys that name a part, outermost first.
    pub(super) named_by: &'static [&'static str],
    /// What its parts are made of.
    pub(super) spec: Spec,
}

/// What a thing or a part of it is made of, as far as changing it goes. Keys not mentioned are replaced whole.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spec {
    /// Keys that stay as they are, and why.
    fixed: &'static [(&'static str, &'static str)],
    /// Tables whose entries are set one by one.
    pub(super) maps: &'static [&'static str],
    /// Lists of parts with ids.
    parts: &'static [Parts],
    /// Where the basis of a key is written: it becomes that of the change.
    basis: &'static [(&'static str, &'static str)],
    /// The key that holds the published sources of a basis, where there is one.
    pub(super) sources: Option<&'static str>,
    /// Two keys of which setting one takes the other away.
    pub(super) either: Option<[&'static str; 2]>,
}

/// A kind of thing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kind {
    /// Its word in an overlay.
    pub(super) word: &'static str,
    /// Where it is written.
    pub(super) home: Home,
    /// Key of the list or table there.
    pub(super) key: &'static str,
    /// What it is made of; `Err`: it cannot be changed, and why.
    pub(super) change: Result<Spec, &'static str>,
    /// Whether a firm can add one.
    pub(super) add: bool,
    /// Whether a firm can say that it is not offered here.
    pub(super) remove: bool,
    /// Whether it takes its basis from the head of the file, unless it has one of its own.
    pub(super) basis_at_head: bool,
}

const ID: (&str, &str) = ("id", "ids never change, because logs refer to them; add one of your own");
const BASIS: (&str, &str) = ("basis", "the basis of a number follows from the basis of its change");
const RECORDED: &str = "answers already recorded would no longer fit; add a question of your own";
const PLAIN: Spec = Spec { fixed: &[ID], maps: &[], parts: &[], basis: &[], sources: None, either: None };
const OWN_BASIS: Spec = Spec { fixed: &[ID, BASIS], sources: Some("sources"), ..PLAIN };
/// Parts that are named by their id.
const BY_ID: &[&str] = &["id"];

const CONDITION: Spec = Spec {
    fixed: &[
        ID,
        BASIS,
        ("core", "the core is the same for every firm"),
        ("decision", "a gate before a hazard is the same for every firm"),
        ("measured-by", "which calculation covers a condition is the program's"),
    ],
    maps: &["prior", "p-cost-by-trigger"],
    parts: &[
        Parts {
            key: "clues",
            named_by: &["clue"],
            spec: Spec { fixed: &[], maps: &["if-absent-by-band"], ..PLAIN },
        },
        Parts {
            key: "checks",
            named_by: &["check"],
            spec: Spec {
                fixed: &[BASIS],
                basis: &[("sensitivity", "basis"), ("specificity", "basis")],
                sources: Some("source"),
                ..PLAIN
            },
        },
        Parts { key: "adjust", named_by: &["factor", "level"], spec: Spec { fixed: &[], ..PLAIN } },
    ],
    basis: &[
        ("cost", "basis.cost"),
        ("cost-when", "basis.cost"),
        ("days", "basis.days"),
        ("p-cost", "basis.p-cost"),
        ("p-cost-by-trigger", "basis.p-cost"),
    ],
    sources: Some("sources"),
    either: Some(["p-cost", "p-cost-by-trigger"]),
};
const CLUE: Spec = Spec {
    fixed: &[ID, BASIS, ("item", "a clue stays with its question; add a clue of your own")],
    maps: &["by-code"],
    basis: &[("true-when", "basis"), ("by-code", "basis")],
    sources: Some("sources"),
    ..PLAIN
};
const CHECK: Spec = Spec { basis: &[("minutes", "basis"), ("cost", "basis")], ..OWN_BASIS };
const ITEM: Spec = Spec {
    fixed: &[ID, ("answer", RECORDED), ("unit", RECORDED)],
    parts: &[Parts { key: "options", named_by: BY_ID, spec: PLAIN }],
    ..PLAIN
};
const STATION: Spec = Spec { fixed: &[ID, ("where", "a station stays where it is")], ..PLAIN };
const FACTOR: Spec = Spec {
    fixed: &[
        ID,
        BASIS,
        ("item", "a factor stays with its question"),
        ("given", "shares given another factor stay as they are"),
    ],
    parts: &[Parts { key: "levels", named_by: BY_ID, spec: PLAIN }],
    ..PLAIN
};
const OUTAGE: Spec = Spec { basis: &[("hours", "basis")], ..OWN_BASIS };
const WISH: Spec = Spec { basis: &[("now", "basis"), ("later", "basis")], ..OWN_BASIS };
const LENGTH: Spec = Spec {
    basis: &[("inches", "basis"), ("sigma-measured", "basis"), ("sigma-assumed", "basis")],
    ..OWN_BASIS
};
const SETTING: Spec = Spec {
    fixed: &[
        ID,
        BASIS,
        ("words", "what a setting means is the program's"),
        ("unit", "the unit of a setting is the program's"),
        ("min", "the range of a setting is the program's"),
        ("max", "the range of a setting is the program's"),
    ],
    basis: &[("value", "basis")],
    sources: Some("sources"),
    ..PLAIN
};
const REFERENCE: Spec = Spec {
    fixed: &[
        ("early-price-basis", BASIS.1),
        ("shared-cause-damping-basis", BASIS.1),
        ("mid-range-kitchen", "it is the published figure that costs were set beside"),
        ("mid-range-kitchen-source", "it is the published figure that costs were set beside"),
    ],
    basis: &[
        ("early-price-factor", "early-price-basis"),
        ("shared-cause-damping", "shared-cause-damping-basis"),
    ],
    ..PLAIN
};
const BASE_ODDS: Spec = Spec { basis: &[("factor", "basis")], sources: None, ..OWN_BASIS };

/// Every kind, in the order they are told.
pub(super) const KINDS: &[Kind] = &[
    kind("condition", Home::Lists("conditions/"), "condition", Ok(CONDITION)).added().removed(),
    kind("clue", Home::Lists("clues/"), "clue", Ok(CLUE)).added().basis_at_head(),
    kind("check", Home::List("checks.toml"), "check", Ok(CHECK)).added().removed().basis_at_head(),
    kind("item", Home::Lists("walk/"), "item", Ok(ITEM)).added().removed(),
    kind("station", Home::Tables("walk/"), "station", Ok(STATION)),
    kind("cause", Home::List("causes.toml"), "cause", Ok(PLAIN)).added(),
    kind("factor", Home::List("context.toml"), "factor", Ok(FACTOR)).added().basis_at_head(),
    kind("group", Home::List("catalog.toml"), "group", Ok(PLAIN)).added(),
    kind("outage", Home::List("outages.toml"), "outage", Ok(OUTAGE)).added().removed().basis_at_head(),
    kind("household-rule", Home::List("outages.toml"), "household-rule", Ok(PLAIN)).added(),
    kind("wish", Home::List("wishes.toml"), "wish", Ok(WISH)).added().removed().basis_at_head(),
    kind("length", Home::List("drain-defaults.toml"), "length", Ok(LENGTH)),
    kind("setting", Home::List("settings.toml"), "setting", Ok(SETTING)),
    kind("reference", Home::Table("catalog.toml"), "reference", Ok(REFERENCE)),
    kind("base-odds", Home::Table("catalog.toml"), "base-odds", Ok(BASE_ODDS)),
    kind("weights", Home::Table("catalog.toml"), "weights", Ok(OWN_BASIS)),
    kind("adopted", Home::Table("codes/adopted.toml"), "adopted", Ok(PLAIN)),
    kind(
        "source",
        Home::List("sources.toml"),
        "source",
        Err("a published figure stays as it was read; add a source of your own"),
    )
    .added(),
    kind(
        "book",
        Home::Files("codes/"),
        "",
        Err("a code book stays as it was read; add a book of your own that is based-on it"),
    )
    .added(),
    kind("excludes", Home::List("relations.toml"), "excludes", Err(RELATION)).added(),
    kind("implies", Home::List("relations.toml"), "implies", Err(RELATION)).added(),
    kind("derived", Home::List("relations.toml"), "derived", Err(RELATION)).added(),
];
const RELATION: &str = "how conditions hang together stays as it is; add a relation of your own";

const fn kind(word: &'static str, home: Home, key: &'static str, change: Result<Spec, &'static str>) -> Kind {
    Kind { word, home, key, change, add: false, remove: false, basis_at_head: false }
}

impl Kind {
    const fn added(mut self) -> Self {
        self.add = true;
        self
    }
    const fn removed(mut self) -> Self {
        self.remove = true;
        self
    }
    const fn basis_at_head(mut self) -> Self {
        self.basis_at_head = true;
        self
    }
    /// The kind with this word.
    pub(super) fn of(word: &str) -> Option<&'static Self> {
        KINDS.iter().find(|k| k.word == word)
    }
    /// True for the one table of a file, which has no id.
    pub(super) fn is_single(&self) -> bool {
        matches!(self.home, Home::Table(_))
    }
}

impl Spec {
    /// Why a key stays as it is.
    pub(super) fn fixed(&self, key: &str) -> Option<&'static str> {
        self.fixed.iter().find(|(k, _)| *k == key).map(|(_, why)| *why)
    }
    /// The list of parts with this key.
    pub(super) fn parts(&self, key: &str) -> Option<&'static Parts> {
        self.parts.iter().find(|p| p.key == key)
    }
    /// Where the basis of a key is written.
    pub(super) fn basis(&self, key: &str) -> Option<&'static str> {
        self.basis.iter().find(|(k, _)| *k == key).map(|(_, place)| *place)
    }
}
