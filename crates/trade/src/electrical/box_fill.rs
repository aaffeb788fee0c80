//! Volume that wires, clamps and devices take in a box (NEC 314.16), against the box.

use alloc::{vec, vec::Vec};

use survey::catalog::{Book, Catalog};
use survey::said::in_catalog;
use survey::{Phrase, Said, say};

use super::{CAUTION, count, edition};
use crate::calculation::Calculation;
use crate::cite::{first_carrying, row, table, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::measure::CubicInches;
use crate::number::show_number;
use crate::picture::{LoadBar, Picture};
use crate::sheet::{Change, Limit, Sheet, Standing};

/// A wire size from 18 to 6 AWG.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Gauge(&'static str);

impl Gauge {
    /// Sizes there are, thin to thick.
    pub const WORDS: &'static [&'static str] = &["18", "16", "14", "12", "10", "8", "6"];

    /// A size by its number.
    ///
    /// # Errors
    /// No such size among [`Self::WORDS`].
    pub fn new(word: &str) -> Result<Self, TradeError> {
        let known = Self::WORDS.iter().find(|w| **w == word.trim());
        known.map(|w| Self(w)).ok_or_else(|| TradeError::NoWord {
            what: Phrase("trade-wire-size"),
            value: word.chars().take(60).collect(),
            known: Self::WORDS.join(", "),
        })
    }
    /// Space for one conductor of it, cubic inches.
    ///
    /// # Errors
    /// A book without the table.
    pub fn volume(self, book: &Book) -> Result<(f64, Limit), TradeError> {
        row(book, "conductor-volume", self.0)
    }
    fn thickness(self) -> usize {
        Self::WORDS.iter().position(|w| *w == self.0).unwrap_or_default()
    }
    fn thicker(self, other: Option<Self>) -> Self {
        other.filter(|o| o.thickness() > self.thickness()).unwrap_or(self)
    }
}

/// What is in a box.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Contents {
    /// Insulated conductors that come in, by size.
    pub conductors: Vec<(Gauge, u32)>,
    /// Grounding conductors that come in.
    pub grounds: u32,
    /// The thickest of them.
    pub ground_gauge: Option<Gauge>,
    /// Cable clamps inside the box.
    pub clamps: bool,
    /// Kinds of luminaire stud or hickey.
    pub supports: u32,
    /// The thickest conductor on each yoke with devices; a device wider than a 2 in box counts once for each gang.
    pub devices: Vec<Gauge>,
}

/// One thing that takes room: name, conductors' worth, size, cubic inches.
#[derive(Clone, PartialEq, Debug)]
pub struct Item {
    /// What it is.
    pub name: Said,
    /// Whether it is a device.
    pub is_device: bool,
    /// Allowances.
    pub allowances: f64,
    /// Size the allowance goes by.
    pub gauge: Gauge,
    /// Cubic inches.
    pub volume: f64,
}

impl Contents {
    /// The thickest conductor in the box.
    fn thickest(&self) -> Option<Gauge> {
        let sizes = self.conductors.iter().filter(|(_, n)| *n > 0).map(|(gauge, _)| *gauge);
        let grounds = self.ground_gauge.filter(|_| self.grounds > 0);
        sizes.chain(grounds).fold(None, |most: Option<Gauge>, gauge| Some(gauge.thicker(most)))
    }
    /// Everything that takes room.
    ///
    /// # Errors
    /// A book without the tables.
    pub fn items(&self, book: &Book) -> Result<Vec<Item>, TradeError> {
        let mut items = Vec::new();
        let mut add = |name: Said, allowances: f64, gauge: Gauge| -> Result<(), TradeError> {
            if allowances > 0.0 {
                let volume = allowances * gauge.volume(book)?.0;
                let is_device = name.holds("trade-device-awg");
                items.push(Item { name, is_device, allowances, gauge, volume });
            }
            Ok(())
        };
        let worth = |name: &str| row(book, "box-allowances", name).map(|(n, _)| n);
        for (gauge, n) in &self.conductors {
            add(say!("trade-awg-conductors", gauge = gauge.0), f64::from(*n), *gauge)?;
        }
        if let Some(thickest) = self.thickest() {
            if self.clamps {
                add(say!("trade-clamps-inside"), worth("all clamps")?, thickest)?;
            }
            add(
                say!("trade-support-fittings"),
                worth("each support fitting")? * f64::from(self.supports),
                thickest,
            )?;
        }
        for gauge in &self.devices {
            add(say!("trade-device-awg", gauge = gauge.0), worth("each device")?, *gauge)?;
        }
        if let Some(gauge) = self.ground_gauge.filter(|_| self.grounds > 0) {
            let more = value(book, "grounds-more")?.0 * f64::from(self.grounds.saturating_sub(4));
            add(
                say!("trade-n-grounding-conductors", n = self.grounds),
                worth("grounding conductors")? + more,
                gauge,
            )?;
        }
        Ok(items)
    }
    /// Cubic inches taken.
    ///
    /// # Errors
    /// A book without the tables.
    pub fn fill(&self, book: &Book) -> Result<f64, TradeError> {
        Ok(self.items(book)?.iter().map(|item| item.volume).sum())
    }
}

/// Keeps a box that is exactly full within it.
const HAIR: f64 = 1e-9;

/// Holds contents against a box of so many cubic inches, or says how large one has to be.
///
/// # Errors
/// A book without the tables.
pub fn judge(
    contents: &Contents,
    room: Option<(CubicInches, Limit)>,
    book: &Book,
) -> Result<Sheet, TradeError> {
    let items = contents.items(book)?;
    let fill: f64 = items.iter().map(|item| item.volume).sum();
    let boxes = table(book, "box-volume")?;
    let next = first_carrying(boxes, fill - HAIR);
    let shown = say!("trade-in-8", fill = show_number(fill));
    let mut sheet = match &room {
        None => Sheet::new(Standing::Quantity, say!("trade-box-needs-least", shown = &shown), CAUTION),
        Some((room, _)) => {
            let within = fill <= room.get() + HAIR;
            let (standing, word) = if within {
                (Standing::Within, Phrase("trade-within"))
            } else {
                (Standing::Beyond, Phrase("trade-beyond"))
            };
            let sentence =
                say!("trade-taken-box", shown = &shown, word = word, room = show_number(room.get()));
            Sheet::new(standing, sentence, CAUTION)
        }
    };
    for item in &items {
        let each = show_number(item.gauge.volume(book)?.0);
        let text = say!(
            "trade-in-in",
            allowances = show_number(item.allowances),
            each = each,
            volume = show_number(item.volume)
        );
        sheet.line(item.name.clone(), text);
    }
    sheet.line(Phrase("trade-taken"), shown);
    sheet.limits = vec![Limit::of(book, table(book, "conductor-volume")?, Phrase("trade-wire-size-2"))];
    sheet.limits.push(Limit::of(book, table(book, "box-allowances")?, Phrase("trade-clamps-1-device-2")));
    if contents.grounds > 4 {
        sheet.limits.push(value(book, "grounds-more")?.1);
    }
    if let Some((room, limit)) = room {
        let left = room.get() - fill;
        sheet.line(
            Phrase("trade-room-left"),
            say!(
                "trade-in-7",
                room = show_number(room.get()),
                fill = show_number(fill),
                left = show_number(left)
            ),
        );
        devices_line(&mut sheet, contents, &items, room.get(), book)?;
        sheet.limits.push(limit);
        if let Some((name, volume)) = next.filter(|_| sheet.standing == Standing::Beyond) {
            let text = say!("trade-box", volume = show_number(volume), name = name);
            sheet.changes.push(Change::new(text, true));
        }
        sheet.picture = Some(Picture::Load(LoadBar {
            unit: in_catalog("unit", "in³"),
            parts: items.iter().map(|i| (i.name.clone(), i.volume, false)).collect(),
            carries: vec![(Phrase("trade-box-2").into(), room.get())],
        }));
    } else if let Some((name, volume)) = next {
        sheet.line(
            Phrase("trade-smallest-box-table"),
            say!("trade-in-6", name = name, volume = show_number(volume)),
        );
        sheet.limits.push(Limit::of(
            book,
            boxes,
            say!("trade-in-5", name = name, volume = show_number(volume)),
        ));
    } else {
        sheet.note(Phrase("trade-no-box-table-large"));
    }
    sheet.note(Phrase("trade-volume-marked-box-outranks"));
    Ok(sheet)
}

/// How many devices the box could hold beside the wires.
fn devices_line(
    sheet: &mut Sheet,
    contents: &Contents,
    items: &[Item],
    room: f64,
    book: &Book,
) -> Result<(), TradeError> {
    let Some(gauge) = contents.devices.first().copied().or(contents.thickest()) else { return Ok(()) };
    let each = row(book, "box-allowances", "each device")?.0 * gauge.volume(book)?.0;
    let others: f64 = items.iter().filter(|i| !i.is_device).map(|i| i.volume).sum();
    let most = libm::fmax(libm::floor((room - others + HAIR) / each), 0.0);
    let text = say!(
        "trade-most-2",
        room = show_number(room),
        others = show_number(others),
        each = show_number(each),
        most = show_number(most)
    );
    sheet.line(Phrase("trade-devices-beside-wires"), text);
    Ok(())
}

const FEW: Kind = Kind::Number { unit: "", min: 0.0, max: 40.0 };
/// Names of `box-volume`, in its order.
const BOXES: &[&str] = &[
    "3 x 2 x 1-1/2 device",
    "3 x 2 x 2 device",
    "4 x 2-1/8 x 1-1/2 device",
    "3 x 2 x 2-1/4 device",
    "3 x 2 x 2-1/2 device",
    "4 x 1-1/4 round",
    "4 x 2-1/8 x 1-7/8 device",
    "3 x 2 x 2-3/4 device",
    "3-3/4 x 2 x 2-1/2 masonry",
    "4 x 2-1/8 x 2-1/8 device",
    "4 x 1-1/2 round",
    "3 x 2 x 3-1/2 device",
    "4 x 1-1/4 square",
    "4 x 1-1/2 square",
    "3-3/4 x 2 x 3-1/2 masonry",
    "4 x 2-1/8 round",
    "4-11/16 x 1-1/4 square",
    "4-11/16 x 1-1/2 square",
    "4 x 2-1/8 square",
    "4-11/16 x 2-1/8 square",
];

const FIELDS: &[Field] = &[
    Field::must(
        "cable",
        Phrase("trade-which-cables-come"),
        Kind::Rows(&[
            Field::must("awg", Phrase("trade-wire-size-3"), Kind::Word(Gauge::WORDS)),
            Field::must("conductors", Phrase("trade-how-many-insulated-conductors"), FEW),
            Field::or("ground", Phrase("trade-there-grounding-conductor"), Kind::YesNo, "yes"),
        ]),
    ),
    Field::or("devices", Phrase("trade-how-many-yokes-switch"), FEW, "1"),
    Field::may("device-awg", Phrase("trade-thickest-wire-devices"), Kind::Word(Gauge::WORDS)),
    Field::or("clamps", Phrase("trade-there-cable-clamps-inside"), Kind::YesNo, "yes"),
    Field::or("support-fittings", Phrase("trade-how-many-kinds-luminaire"), FEW, "0"),
    Field::may(
        "box-volume",
        Phrase("trade-what-volume-marked-box"),
        Kind::Number { unit: "in³", min: 1.0, max: 500.0 },
    ),
    Field::may("box", Phrase("trade-which-metal-box"), Kind::Word(BOXES)),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "box-fill",
    title: Phrase("trade-box-fill"),
    about: Phrase("trade-whether-wires-clamps-devices"),
    fields: FIELDS,
    run,
};

fn contents(given: &Given) -> Result<Contents, TradeError> {
    let mut contents = Contents { clamps: given.yes("clamps").unwrap_or(true), ..Contents::default() };
    for cable in given.rows("cable") {
        let gauge = Gauge::new(cable.word("awg").unwrap_or_default())?;
        contents.conductors.push((gauge, count(cable, "conductors")?.unwrap_or_default()));
        if cable.yes("ground") == Some(true) {
            contents.grounds += 1;
            contents.ground_gauge = Some(gauge.thicker(contents.ground_gauge));
        }
    }
    contents.supports = count(given, "support-fittings")?.unwrap_or_default();
    let on_devices = given.word("device-awg").map(Gauge::new).transpose()?.or(contents.thickest());
    let devices = count(given, "devices")?.unwrap_or_default();
    contents.devices = on_devices.into_iter().cycle().take(devices as usize).collect();
    Ok(contents)
}

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    if given.rows("cable").is_empty() {
        let sentence = Phrase("trade-without-cables-come-nothing");
        return Ok(Sheet::cannot_say(sentence, given.missing(FIELDS), CAUTION));
    }
    let contents = contents(given)?;
    let marked = given.number("box-volume").map(CubicInches::new).transpose()?;
    let mut sheet = edition::under(given, catalog, edition::Alike::Standing, |book| {
        let room = match (marked, given.word("box")) {
            (Some(marked), _) => {
                Some((marked, Limit::practice(Phrase("trade-volume-marked-box"), Phrase("trade-read"))))
            }
            (None, Some(name)) => {
                let (volume, limit) = row(book, "box-volume", name)?;
                Some((CubicInches::new(volume)?, limit))
            }
            (None, None) => None,
        };
        judge(&contents, room, book)
    })?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    if given.word("device-awg").is_none() && !contents.devices.is_empty() {
        sheet.note(Phrase("trade-devices-counted-thickest-wire"));
    }
    Ok(sheet)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{English as _, EnglishList as _};
    use crate::testing::{catalog, run_words};

    fn fill(edition: &str, conductors: &[(&str, u32)], grounds: u32, ground: &str, devices: &[&str]) -> f64 {
        let catalog = catalog();
        let gauge = |w: &str| Gauge::new(w).unwrap();
        let contents = Contents {
            conductors: conductors.iter().map(|(w, n)| (gauge(w), *n)).collect(),
            grounds,
            ground_gauge: Some(gauge(ground)),
            clamps: true,
            supports: 0,
            devices: devices.iter().map(|w| gauge(w)).collect(),
        };
        contents.fill(catalog.shelf.book(edition).unwrap()).unwrap()
    }

    #[test]
    fn common_boxes_fill_as_worked_by_hand() {
        // NEC 314.16(B)(1) to (5), Table 314.16(B): 14 AWG 2.00, 12 AWG 2.25 in³
        assert_eq!(fill("nec-2011", &[("12", 4)], 2, "12", &["12"]), 18.0);
        assert_eq!(fill("nec-2011", &[("14", 4)], 2, "14", &["14"]), 16.0);
        assert_eq!(fill("nec-2011", &[("14", 5)], 2, "14", &["14"]), 18.0);
        assert_eq!(fill("nec-2011", &[("12", 6)], 3, "12", &["12"]), 22.5);
    }

    #[test]
    fn the_2020_edition_counts_a_quarter_for_each_ground_beyond_four() {
        // NEC 2020 314.16(B)(5) as quoted on a public forum: ten grounds of 12 AWG take 2.5 × 2.25 = 5.625 in³
        let alone = |edition| fill(edition, &[], 10, "12", &[]) - 2.25; // less the clamp
        assert_eq!((alone("nec-2011"), alone("nec-2020"), alone("nec-2023")), (2.25, 5.625, 5.625));
    }

    #[test]
    fn the_thickest_wire_rules_clamps_and_its_own_device() {
        // two 12 AWG 2.25, two 14 AWG 2.00, clamp by 12, device by 14, ground by 12: 4.5 + 4 + 2.25 + 4 + 2.25
        assert_eq!(fill("nec-2011", &[("12", 2), ("14", 2)], 2, "12", &["14"]), 17.0);
    }

    #[test]
    fn every_named_box_stands_in_the_table_and_no_other() {
        let catalog = catalog();
        let table = catalog.shelf.book("nec-2011").unwrap().table("box-volume").unwrap();
        assert_eq!(table.rows.iter().map(|(n, _)| n.as_str()).collect::<Vec<_>>(), BOXES);
        assert!(table.rows.windows(2).all(|w| w[0].1 <= w[1].1), "in order of volume");
    }

    #[test]
    fn an_exactly_full_box_is_within_and_one_cable_more_is_beyond() {
        let two = [("cable", "12, 2"), ("cable", "12, 2"), ("box", "3 x 2 x 3-1/2 device")];
        let sheet = run_words(&CALCULATION, &two, &catalog());
        assert_eq!(sheet.standing, Standing::Within);
        assert_eq!(sheet.sentence.read(), "18 in³ taken, within the 18 in³ of the box.");
        assert!(sheet.lines.iter().any(|l| l.text.ends_with("= 1 at most")), "{:?}", sheet.lines);
        let three: Vec<_> = two.into_iter().chain([("cable", "12, 2")]).collect();
        let sheet = run_words(&CALCULATION, &three, &catalog());
        assert_eq!(sheet.standing, Standing::Beyond);
        assert_eq!(sheet.changes[0].text.read(), "A box of 25.5 in³, 4-11/16 x 1-1/4 square.");
    }

    #[test]
    fn without_a_box_the_editions_are_asked_for_only_where_they_differ() {
        let cable = ("cable", "14, 2");
        let few = run_words(&CALCULATION, &[cable, cable], &catalog());
        assert_eq!(
            (few.standing, few.sentence.read()),
            (Standing::Quantity, "The box needs 16 in³ at least.")
        );
        let many = run_words(&CALCULATION, &[cable; 6], &catalog());
        assert_eq!(many.standing, Standing::AskLocally);
        assert!(many.sentence.contains("32 in³") && many.sentence.contains("33 in³"), "{}", many.sentence);
        let chosen = run_words(
            &CALCULATION,
            &[cable, cable, cable, cable, cable, cable, ("edition", "2020")],
            &catalog(),
        );
        assert_eq!(chosen.sentence.read(), "The box needs 33 in³ at least.");
    }

    #[test]
    fn nothing_is_said_without_cables() {
        let sheet = run_words(&CALCULATION, &[], &catalog());
        assert_eq!((sheet.standing, sheet.missing.read_all()), (Standing::CannotSay, vec!["cable"]));
    }
}
