//! How things are said.

use survey::catalog::{Catalog, FILES, builtin};
use survey::units::Money;
use words::{Arg, CatalogWords, Language, Words, msg};

fn english() -> &'static Words {
    Words::of(Language::En)
}
fn spanish() -> &'static Words {
    Words::of(Language::Es)
}

/// The shipped catalog with one text replaced by another.
fn edited(from: &str, to: &str) -> Catalog {
    let files: Vec<(String, String)> =
        FILES.iter().map(|(path, text)| ((*path).to_owned(), text.replace(from, to))).collect();
    Catalog::load(&files).unwrap()
}

#[test]
fn a_number_chooses_the_form_and_is_written_as_the_language_writes_it() {
    let photos = |words: &Words, n: u32| words.say(&msg!("show-photos", n = n));
    assert_eq!(
        [0, 1, 2, 1200].map(|n| photos(english(), n)),
        ["0 photos", "1 photo", "2 photos", "1,200 photos"]
    );
    assert_eq!(
        [0, 1, 2, 1200].map(|n| photos(spanish(), n)),
        ["0 fotos", "1 foto", "2 fotos", "1,200 fotos"]
    );
}

#[test]
fn a_place_takes_money_a_message_or_a_list() {
    let list = vec![Arg::from("a"), Arg::from(Money::from_cents(123_450)), Arg::from(msg!("found"))];
    assert_eq!(spanish().say(&msg!("and-more", list = list, n = 2)), "a, $1,234.50, hallado y 2 más");
}

#[test]
fn what_is_missing_is_shown_and_never_a_panic() {
    assert_eq!(english().say(&msg!("no-such-message")), "no-such-message");
    let hollow = english().say(&msg!("in-10"));
    assert!(hollow.contains("{$n}"), "{hollow}");
}

#[test]
fn languages_are_read_from_tags_of_systems_and_of_terminals() {
    for (tag, language) in [
        ("es", Some(Language::Es)),
        ("es-MX", Some(Language::Es)),
        ("es_US.UTF-8", Some(Language::Es)),
        ("ES", Some(Language::Es)),
        ("en_US.UTF-8", Some(Language::En)),
        ("qps", Some(Language::Qps)),
        ("C.UTF-8", None),
        ("fr_CA", None),
        ("", None),
    ] {
        assert_eq!(Language::of_tag(tag), language, "{tag}");
    }
}

#[test]
fn the_shipped_catalog_is_said_in_spanish_to_the_last_text() {
    let shipped = builtin().unwrap();
    assert_eq!(spanish().untranslated(&shipped), []);
    let say = CatalogWords::new(spanish(), &shipped);
    assert_eq!(
        say.question("stub-height"),
        "¿A qué altura sobre eso está el centro de la salida de desagüe?"
    );
    assert_eq!(say.condition("bulkhead-wires"), "Cables en el cajón");
    assert_eq!(say.station("sink"), "Cocina: bajo el fregadero");
    assert_eq!(say.option(shipped.item("disposer-plan").unwrap(), "cant-tell"), "no se puede saber");
    assert_eq!(say.condition("nobody-knows"), "nobody-knows");
}

#[test]
fn a_firms_own_words_in_english_are_said_in_its_english_and_listed() {
    let firm = edited("Is a disposer planned?", "Does the client want a disposer?");
    let say = CatalogWords::new(spanish(), &firm);
    assert_eq!(say.question("disposer-plan"), "Does the client want a disposer?");
    assert_eq!(say.question("bowl-depth"), "¿Qué tan honda es la tina del fregadero previsto?");
    let missing = spanish().untranslated(&firm);
    assert_eq!(missing, [("item-disposer-plan-question".to_owned(), "Does the client want a disposer?")]);
    assert_eq!(english().untranslated(&firm), []);
}

#[test]
fn a_firms_own_spanish_is_laid_over_ours() {
    let firm = edited("Is a disposer planned?", "Does the client want a disposer?");
    let own =
        "item-disposer-plan-question = ¿Quiere el cliente un triturador?\nadvice-exclude = Dejarlo fuera.\n";
    let words = Words::with_own(Language::Es, &[("own.ftl".to_owned(), own.to_owned())]).unwrap();
    assert_eq!(words.untranslated(&firm), []);
    assert_eq!(
        CatalogWords::new(&words, &firm).question("disposer-plan"),
        "¿Quiere el cliente un triturador?"
    );
    assert_eq!(words.say(&msg!("advice-exclude")), "Dejarlo fuera.");
    assert_eq!(words.say(&msg!("advice-nothing")), "Sin costo propio.");
}

#[test]
fn a_slip_in_a_firms_file_is_named_with_its_line() {
    let own = "good = bien\nthis is no message\n".to_owned();
    let faults = Words::with_own(Language::Es, &[("own.ftl".to_owned(), own)]).err().unwrap();
    assert_eq!((faults[0].file.as_str(), faults[0].line), ("own.ftl", 2));
    assert_eq!(faults[0].text, "this is no message");
}

#[test]
fn the_pseudo_language_leaves_no_plain_letter_in_a_text() {
    let words = Words::of(Language::Qps);
    let said = words.say(&msg!("show-photos", n = 3));
    assert!(said.contains('[') && !said.chars().any(|c| c.is_ascii_alphabetic()), "{said}");
    let shipped = builtin().unwrap();
    let name = words.catalog("condition-lead-paint-name", &shipped.condition("lead-paint").unwrap().name);
    assert!(!name.chars().any(|c| c.is_ascii_alphabetic()), "{name}");
}

#[test]
fn nothing_said_claims_that_anything_is_safe_or_allowed() {
    let never = [
        "is safe",
        "are safe",
        "it's safe",
        "code-compliant",
        "clear to cut",
        "meets code",
        "es seguro",
        "es segura",
        "son seguros",
        "está a salvo",
        "sin peligro",
        "sin riesgo",
        "cumple con el código",
        "cumple el código",
        "se puede cortar",
        "puede cortarse",
        "aprobado por",
    ];
    for language in Language::WRITTEN {
        for (id, message) in crate::support::messages(language) {
            let text = message.text.to_lowercase();
            assert_eq!(never.iter().find(|n| text.contains(**n)), None, "{language} {id}: {text}");
        }
    }
}

#[test]
fn spanish_speaks_to_people_as_usted() {
    // Forms that can only be meant for tú; "mira" or "abre" also are what somebody or something does.
    let familiar = [
        "tú", "tu", "tus", "te", "ti", "contigo", "haz", "pon", "ten", "puedes", "tienes", "quieres",
        "debes", "eres",
    ];
    for (id, message) in crate::support::messages(Language::Es) {
        let text = message.text.to_lowercase();
        // "{$ten}" is the name of a place
        let words: Vec<&str> = text.split(|c: char| !c.is_alphabetic() && c != '$').collect();
        assert_eq!(familiar.iter().find(|f| words.contains(f)), None, "{id}: {text}");
    }
}
