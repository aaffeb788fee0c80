//! The questions as HTML: a fieldset for each, large things to tick, a line for one's own words.

use maud::{Markup, html};
use survey::catalog::{Catalog, Choice, Wish};
use survey::units::Money;

use crate::catalog_text::{Said, catalog_text};
use crate::form::{Question, Takes};
use crate::phrases::{self as say, Language, Phrase};

/// Where a part of the sheet begins: at the first of these items that is asked.
const PARTS: [(&[&str], Phrase); 4] = [
    (&["year-built", "last-gut"], say::HOUSE),
    (&["who-home", "home-work"], say::PEOPLE),
    (&["quiet-hours", "parking"], say::WORK),
    (&["wishes"], say::LATER),
];
/// Longest answer in one's own words, in characters.
pub(crate) const MOST_WORDS: usize = 500;
/// Longest name of who filled the sheet in, in characters.
pub(crate) const MOST_NAME: usize = 60;

/// A catalog text with its language declared where it is not the page's.
pub(crate) fn text(language: Language, said: &Said<'_>) -> Markup {
    html! {
        @if said.language == language { (said.text) } @else { span lang=(said.language.tag()) { (said.text) } }
    }
}

/// All questions, in parts with a heading each.
pub(crate) fn questions(catalog: &Catalog, language: Language, questions: &[Question<'_>]) -> Markup {
    let mut parts: Vec<(Phrase, Vec<&Question<'_>>)> = Vec::new();
    for question in questions {
        let begins = PARTS.iter().find(|(items, phrase)| {
            items.contains(&question.item.id.as_str()) && parts.iter().all(|(p, _)| p.id != phrase.id)
        });
        match (begins, parts.last_mut()) {
            (None, Some((_, list))) => list.push(question),
            (begins, _) => parts.push((begins.map_or(say::HOUSE, |(_, phrase)| *phrase), vec![question])),
        }
    }
    html! {
        @for (at, (heading, list)) in parts.iter().enumerate() {
            section aria-labelledby=(format!("part-{at}")) {
                h2 id=(format!("part-{at}")) { (heading.said(language)) }
                @if heading.id == say::LATER.id { p { (say::LATER_WHY.said(language)) } }
                @for question in list { (one(catalog, language, question)) }
            }
        }
    }
}

fn one(catalog: &Catalog, language: Language, question: &Question<'_>) -> Markup {
    let id = &question.item.id;
    let number = question.number.to_string();
    let kind = match question.takes {
        Takes::One(_) => "choice",
        Takes::Several(..) => "choices",
        Takes::Number { .. } => "number",
    };
    html! {
        fieldset data-item=(id) data-kind=(kind) data-number=(number) {
            legend {
                span .no aria-hidden="true" { (number) }
                span .vh { (say::NUMBER.with(language, &[("number", &number)])) ": " }
                span .asks { (text(language, &question.asks(language))) }
            }
            p .why {
                // The phrase around the catalog's words is split, so that each keeps its language.
                @let (before, after) = say::WHY.said(language).split_once("{ $why }").unwrap_or_default();
                (before) (text(language, &question.why(language))) (after)
                @if matches!(question.takes, Takes::Several(..)) { " " (say::SEVERAL.said(language)) }
                @if question.picture_helps() { " " (say::PICTURE_HELPS.said(language)) }
            }
            div .answers {
                @match &question.takes {
                    Takes::One(options) => {
                        @for choice in options { (option(catalog, language, question, choice, "radio", false)) }
                    }
                    Takes::Several(options, alone) => {
                        @for choice in options {
                            (option(catalog, language, question, choice, "checkbox", alone.contains(&choice.id)))
                        }
                    }
                    Takes::Number { unit, least, most, zero } => {
                        label .number {
                            span { (say::YEAR.said(language)) }
                            input type="text" name=(id) inputmode="numeric" maxlength="12" autocomplete="off"
                                data-least=(least) data-most=(most) data-unit=(unit);
                            @if !unit.is_empty() { span { (unit) } }
                        }
                        @if let Some(zero) = zero {
                            @let said = catalog_text(language, &format!("item-{id}-zero"), zero);
                            label .answer {
                                input type="checkbox" name=(id) value="0" data-zero data-alone;
                                span { (text(language, &said)) }
                            }
                        }
                    }
                }
                label .answer {
                    @let radio = matches!(question.takes, Takes::One(_));
                    input type=(if radio { "radio" } else { "checkbox" }) name=(id) data-unsure data-alone;
                    span { (say::UNSURE.said(language)) }
                }
            }
            label .words {
                span { (say::OWN_WORDS.said(language)) }
                textarea name=(format!("{id}-words")) rows="1" maxlength=(MOST_WORDS) autocomplete="off" {}
            }
            p .tail {
                button .clear type="button" hidden { (say::CLEAR.said(language)) }
                span .code { (say::OFFICE.with(language, &[("item", id)])) }
            }
        }
    }
}

fn option(
    catalog: &Catalog,
    language: Language,
    question: &Question<'_>,
    choice: &Choice,
    kind: &str,
    alone: bool,
) -> Markup {
    let id = &question.item.id;
    let said = {
        let id = crate::catalog_text::option_id(id, &choice.id, &choice.label);
        catalog_text(language, &id, &choice.label)
    };
    let wish = catalog.wishes.iter().find(|w| id == "wishes" && w.id == choice.id);
    html! {
        label .answer {
            input type=(kind) name=(id) value=(choice.id) data-alone[alone];
            span {
                (text(language, &said))
                @if let Some(wish) = wish { (roughed_in(language, wish)) }
            }
        }
    }
}

/// What a wish needs now and what it costs now and later.
fn roughed_in(language: Language, wish: &Wish) -> Markup {
    let dollars = |[low, high]: [Money; 2]| (low.to_string(), high.to_string());
    let sums = |phrase: Phrase, range| {
        let (low, high) = dollars(range);
        phrase.with(language, &[("low", &low), ("high", &high)])
    };
    let said = catalog_text(language, &format!("wish-{}", wish.id), &wish.rough_in);
    html! {
        span .more {
            (text(language, &said)) ": " (sums(say::WISH_NOW, wish.now))
            @if let Some(later) = wish.later {
                "; " (sums(say::WISH_LATER, later))
                @if let Some(note) = &wish.later_note {
                    @let note = catalog_text(language, &format!("wish-{}-later", wish.id), note);
                    " " (text(language, &note))
                }
            }
        }
    }
}
