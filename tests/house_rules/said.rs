//! What the pure rooms say goes by ids, and many of them are made while the program runs: `field-<name>`,
//! `choice-<word>`, `code-<family>`, `service-<word>`, texts of the catalog by their own words. Here every one that a
//! calculation, its drawing or its refusal comes to say is looked up in both languages, and said with no place left open.

use std::cell::RefCell;
use std::collections::BTreeSet;

use drawing::{Palette, Width};
use imagine::{Truth, houses};
use survey::catalog::{Catalog, Family};
use survey::{Message, Said};
use trade::given::{Field, Given, Kind, Need, choice, spoken};
use trade::{Calculation, Sheet, calculations};
use words::{Language, Words};

use crate::outside::calculation_pages::{commands, split};
use crate::support::catalog;

/// Names that somebody gives, in the examples of the pages: in no catalog, and said as they were given.
const GIVEN: [&str; 2] = ["bedroom", "office"];

/// What was said, once each.
#[derive(Default)]
struct Heard(RefCell<Vec<Said>>);

impl Heard {
    fn hear(&self, said: &Said) {
        let mut heard = self.0.borrow_mut();
        if !heard.contains(said) {
            heard.push(said.clone());
        }
    }
    fn sheet(&self, sheet: &Sheet) {
        let lines = sheet.lines.iter().flat_map(|l| [&l.label, &l.text]);
        let limits = sheet.limits.iter().flat_map(|l| [&l.rule, &l.value, &l.edition]);
        let assumed = sheet.assumed.iter().flat_map(|a| [&a.item, &a.value]);
        let changes = sheet.changes.iter().map(|c| &c.text);
        let own = [&sheet.sentence, &sheet.caution].into_iter().chain(&sheet.sigma).chain(&sheet.missing);
        own.chain(lines)
            .chain(limits)
            .chain(assumed)
            .chain(changes)
            .chain(&sheet.notes)
            .for_each(|s| self.hear(s));
        sheet.limits.iter().for_each(|l| self.hear(&l.place()));
        let Some(picture) = &sheet.picture else { return };
        let say = |said: &Said| {
            self.hear(said);
            Words::of(Language::En).text(said)
        };
        drawing::text(picture, 78, &say);
        for width in [Width::Phone, Width::Page(165.0)] {
            drawing::svg(picture, width, Palette::Page, "x", &say);
        }
    }
    fn calculation(&self, calculation: &Calculation) {
        self.hear(&calculation.title.into());
        self.hear(&calculation.about.into());
        calculation.fields.iter().for_each(|field| self.field(field));
    }
    fn field(&self, field: &Field) {
        self.hear(&field.ask.into());
        self.hear(&field.takes());
        self.hear(&spoken(field.name));
        if let Kind::Rows(columns) = field.kind {
            columns.iter().for_each(|column| self.field(column));
        }
        if let Need::Else(default) = field.need {
            self.hear(&choice(default));
        }
    }
}

/// Every message and every text of the catalog in what is said.
fn parts<'s>(said: &'s Said, messages: &mut BTreeSet<&'s str>, texts: &mut BTreeSet<(&'s str, &'s str)>) {
    match said {
        Said::Message(Message { id, args }) => {
            messages.insert(id);
            args.iter().for_each(|(_, said)| parts(said, messages, texts));
        }
        Said::Catalog(id, english) => {
            texts.insert((id, english));
        }
        Said::List(all) | Said::Joined(_, all) => all.iter().for_each(|said| parts(said, messages, texts)),
        Said::Capital(one) | Said::Small(one) | Said::Open(one) => parts(one, messages, texts),
        Said::Text(_) | Said::Number(_) | Said::Money(_) | Said::When(_) => {}
    }
}

/// The answers and code books of an example on a page.
fn example(command: &str) -> (String, Vec<(String, String)>, Vec<String>) {
    let words = split(command.strip_prefix("underlath calc ").unwrap());
    let (mut answers, mut books) = (Vec::new(), Vec::new());
    for pair in words[1..].chunks(2) {
        let [name, value] = pair else { continue };
        match name.trim_start_matches("--") {
            "code" => books.push(value.clone()),
            "drawing" | "columns" | "language" => {}
            name => answers.push((name.to_owned(), value.clone())),
        }
    }
    (words[0].clone(), answers, books)
}

/// The same answer with every other word its field takes, and something no field can read.
fn others(field: Option<&Field>, text: &str) -> Vec<String> {
    let spoiled = std::iter::once("12 1/2x, ?".to_owned());
    match field.map(|field| field.kind) {
        Some(Kind::Word(all)) => spoiled.chain(all.iter().map(|word| (*word).to_owned())).collect(),
        Some(Kind::YesNo) => spoiled.chain(["yes", "no"].map(str::to_owned)).collect(),
        Some(Kind::Rows(columns)) => {
            let cells: Vec<&str> = text.split(',').map(str::trim).collect();
            let one = |(at, column): (usize, &Field)| {
                let words: &[&str] = match column.kind {
                    Kind::Word(all) if at < cells.len() => all,
                    _ => &[],
                };
                let row = |word: &&str| {
                    let mut row: Vec<&str> = cells.clone();
                    row[at] = word;
                    row.join(", ")
                };
                words.iter().map(row).collect::<Vec<_>>()
            };
            spoiled.chain(columns.iter().enumerate().flat_map(one)).collect()
        }
        _ => spoiled.collect(),
    }
}

/// Everything said of the calculations: what they ask, the examples of their pages, and what a hundred invented houses
/// bring them.
fn heard(catalog: &Catalog) -> Vec<Said> {
    let heard = Heard::default();
    calculations().for_each(|calculation| heard.calculation(calculation));
    Family::ALL.into_iter().for_each(|family| heard.hear(&trade::cite::code_of(family)));
    let mut examples = 0;
    for command in commands() {
        let (word, answers, books) = example(&command);
        let calculation = trade::find(&word).unwrap();
        let catalog = actions::with_books(catalog.clone(), &books).unwrap();
        let try_it = |answers: &[(String, String)]| match Given::read(calculation.fields, answers)
            .and_then(|given| (calculation.run)(&given, &catalog))
        {
            Ok(sheet) => heard.sheet(&sheet),
            Err(error) => heard.hear(&error.message().into()),
        };
        try_it(&answers);
        // With each answer left out, and with each put otherwise.
        for (at, (name, text)) in answers.iter().enumerate() {
            let mut given = answers.clone();
            given.remove(at);
            try_it(&given);
            for other in others(calculation.fields.iter().find(|f| f.name == name), text) {
                let mut given = answers.clone();
                given[at].1 = other;
                try_it(&given);
            }
        }
        examples += 1;
    }
    assert!(examples >= calculations().count(), "each page has an example: {examples}");
    let truth = Truth::new(catalog.clone()).unwrap();
    for house in houses(catalog, &truth, 5).unwrap().take(100) {
        let picture = house.unwrap().walked(catalog);
        let scope = assessment::scope_of(catalog, &picture);
        for calculated in assessment::calculate(catalog, &picture, &scope) {
            heard.sheet(&calculated.sheet);
        }
    }
    heard.0.into_inner()
}

#[test]
fn every_id_made_while_the_program_runs_is_in_the_files_of_both_languages() {
    let catalog = catalog();
    let all = heard(&catalog);
    let (mut messages, mut texts) = (BTreeSet::new(), BTreeSet::new());
    all.iter().for_each(|said| parts(said, &mut messages, &mut texts));
    assert!(messages.len() > 500 && texts.len() > 50, "{} {}", messages.len(), texts.len());
    let spanish = Words::of(Language::Es);
    let mut missing: Vec<String> = Vec::new();
    for language in Language::WRITTEN {
        let words = Words::of(language);
        missing.extend(messages.iter().filter(|id| !words.has(id)).map(|id| format!("{language}: {id}")));
        let open = all.iter().map(|said| words.text(said)).filter(|text| text.contains("{$"));
        missing.extend(open.map(|text| format!("{language}, a place left open: {text}")));
    }
    let named = |english: &str| GIVEN.contains(&english);
    for (id, english) in texts.iter().filter(|(_, english)| !named(english)) {
        if spanish.translated(id, english).is_none() {
            missing.push(format!("es: {id} of “{english}”"));
        }
    }
    assert!(missing.is_empty(), "{missing:#?}");
}
