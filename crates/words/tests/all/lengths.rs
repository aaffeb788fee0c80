//! What the reader of lengths says of a slip, in both languages.

use survey::units::{LengthStatus, LengthUnit, parse_length};
use words::{Language, Words};

/// A slip or an unusual note, and what is said of it in English and Spanish.
const SAID: [(&str, LengthStatus, &str, &str); 6] = [
    (
        "12 1/2x",
        LengthStatus::Error,
        "two sizes in one entry; enter each as its own length",
        "dos medidas en una sola anotación; anote cada una como su propio largo",
    ),
    (
        "36 apples",
        LengthStatus::Error,
        "“apples” is not a unit this reads; write 19 3/8, 19.375, 3' 6 1/2\" or 492 mm",
        "«apples» no es una unidad que se lea aquí; escriba 19 3/8, 19.375, 3' 6 1/2\" o 492 mm",
    ),
    (
        "1,5",
        LengthStatus::Ambiguous,
        "a comma may be a decimal point or a thousands mark; write 36.5, or 1200 without a comma",
        "una coma puede ser punto decimal o separador de miles; escriba 36.5, o 1200 sin coma",
    ),
    (
        "36 to 37",
        LengthStatus::Ambiguous,
        "it could be a range; enter one number, and the other as its own reading",
        "podría ser un margen; anote un solo número, y el otro como medida aparte",
    ),
    (
        "~3' 14 1/3\"",
        LengthStatus::Warn,
        "marked as about: take the reading again if you can; no tape has this fraction; halves to sixty-fourths are \
         usual; 12 inches or more after feet: check the feet; not a whole number of 1/8 µm: rounded once",
        "marcado como aproximado: vuelva a medir si puede; ninguna cinta trae esta fracción; lo usual va de medios a \
         sesenta y cuatroavos; 12 pulgadas o más después de los pies: revise los pies; no es un número entero de 1/8 µm: \
         se redondeó una vez",
    ),
    ("19 3/8", LengthStatus::Ok, "", ""),
];

#[test]
fn a_slip_is_named_in_the_language_of_whoever_made_it() {
    for (text, status, english, spanish) in SAID {
        let parsed = parse_length(text, LengthUnit::Inch);
        assert_eq!(parsed.status, status, "{text}");
        assert_eq!(Words::of(Language::En).text(&parsed.note), english, "{text}");
        assert_eq!(Words::of(Language::Es).text(&parsed.note), spanish, "{text}");
    }
}

#[test]
fn whoever_wrote_two_meanings_is_told_what_to_write() {
    let asks = [(Language::En, ["write", "enter"]), (Language::Es, ["escriba", "anote"])];
    for text in ["3 6 1/2", "36-37", "36\" to 37\"", "5-6 1/2", "3'-4'", "10 mm - 12 mm", "36, 5", "3'6,5\""]
    {
        let parsed = parse_length(text, LengthUnit::Inch);
        assert_eq!(parsed.status, LengthStatus::Ambiguous, "{text}");
        for (language, verbs) in asks {
            let said = Words::of(language).text(&parsed.note);
            assert!(verbs.iter().any(|verb| said.contains(verb)), "{text}: {said}");
        }
    }
}
