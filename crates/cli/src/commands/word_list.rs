//! `underlath words`: what the catalog says with its ids, and what a language has no words for. What is missing is
//! written as a Fluent file to be filled in.

use actions::Error;
use survey::catalog::Catalog;
use words::{Language, catalog, msg};

use super::Room;
use crate::args::{WordList, WordsAsked};
use crate::out::Out;

pub fn run(args: &WordList, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let catalog = room.catalog()?;
    let list = listed(args.list, &catalog, out);
    if out.json() {
        let one = |(id, english): &(String, &str)| serde_json::json!({ "id": id, "english": english });
        out.value(&list.iter().map(one).collect::<Vec<_>>());
        return Ok(());
    }
    if list.is_empty() {
        out.tell(msg!("words-none"));
    }
    for (id, english) in &list {
        out.line(format!("{id} = {english}"));
    }
    if args.list == WordsAsked::Missing && !list.is_empty() {
        out.line("");
        let language = out.words().language();
        out.tell(msg!("words-how", n = list.len(), file = format!("words/{language}/*.ftl")));
    }
    Ok(())
}

/// English is the catalog's own, so nothing is ever missing in it.
fn listed<'c>(asked: WordsAsked, catalog: &'c Catalog, out: &Out) -> Vec<(String, &'c str)> {
    match asked {
        WordsAsked::All => catalog::texts(catalog),
        WordsAsked::Missing if out.words().language() == Language::En => Vec::new(),
        WordsAsked::Missing => out.words().untranslated(catalog),
    }
}
