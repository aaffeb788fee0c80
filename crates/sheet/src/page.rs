//! The page: one file that works from a mail attachment, offline, and prints on letter paper.
//!
//! It loads nothing, sends nothing and keeps nothing: its policy allows only its own script and styles, by their
//! hashes, and no connection of any kind. Whatever a person wrote (the house, the firm, a firm's own catalog) enters
//! as text, escaped by the library that writes the HTML.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use survey::catalog::{Catalog, PLANNED_WORK};
use survey::log::Value;
use survey::model::Picture;
use survey::{Digest, SurveyId};

use crate::answers::VERSION;
use crate::catalog_text::{catalog_text, option_id, slug};
use crate::form::Form;
use crate::off::{Off, days_said, hours_said, service_said};
use crate::phrases::{self as say, Language, Phrase};
use crate::questions::{MOST_NAME, MOST_WORDS, questions, text};

const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");

/// The first bytes of every sheet: how one is told from another file before it is written over.
pub const MARK: &str = "<!DOCTYPE html><!-- Underlath household sheet -->";

/// Pictures of the house a household can take without opening anything, and the item that must be asked for them;
/// none: always. Common practice, no source.
const VIEWS: [(Option<&str>, Phrase); 4] = [
    (None, say::VIEW_ROOM),
    (Some("trap-shape"), say::VIEW_SINK),
    (Some("bulkhead-form"), say::VIEW_SOFFIT),
    (Some("ceiling-mark"), say::VIEW_CEILING),
];

/// What a sheet is made from.
#[derive(Clone, Copy, Debug)]
pub struct Page<'a> {
    /// The catalog.
    pub catalog: &'a Catalog,
    /// The house as its log stands.
    pub picture: &'a Picture,
    /// Its id.
    pub survey: SurveyId,
    /// The firm's name, if it gives one.
    pub firm: Option<&'a str>,
    /// The outage calculation on the plan, if one could be made.
    pub outages: Option<&'a trade::Sheet>,
    /// The language.
    pub language: Language,
}

/// The source of a policy that allows exactly this text.
fn hash(text: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Digest::of(text.as_bytes()).as_bytes()))
}

/// Nothing may be loaded, sent or framed; forms go nowhere; one script and one style, by their hashes.
fn policy() -> String {
    format!(
        "default-src 'none'; script-src {}; style-src {}; form-action 'none'; base-uri 'none'",
        hash(SCRIPT),
        hash(STYLE)
    )
}

impl Page<'_> {
    /// The page.
    pub fn html(&self) -> String {
        let form = Form::of(self.catalog, self.picture, self.survey);
        let house = self.picture.label();
        let l = self.language;
        let title = say::TITLE.with(l, &[("house", house)]);
        let body = html! {
            html lang=(l.tag()) {
                head {
                    meta charset="utf-8";
                    meta http-equiv="Content-Security-Policy" content=(policy());
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta name="referrer" content="no-referrer";
                    meta name="robots" content="noindex";
                    meta name="format-detection" content="telephone=no";
                    title { (title) }
                    style { (PreEscaped(STYLE)) }
                }
                body data-version=(VERSION) data-survey=(self.survey.to_string()) data-catalog=(form.catalog.hex())
                    data-language=(l.tag()) data-file=(file_name(house)) {
                    header {
                        @if let Some(firm) = self.firm { p .firm { (say::FROM.with(l, &[("firm", firm)])) } }
                        h1 { (title) }
                        p { (say::INTRO.said(l)) } p { (say::INTRO_FREE.said(l)) }
                        p .scripted hidden { (say::INTRO_SCREEN.said(l)) }
                        p .unscripted { (say::NO_SCRIPT.said(l)) }
                        p .paper { (say::INTRO_PAPER.said(l)) }
                        p { (say::PRIVACY.said(l)) }
                    }
                    main {
                        (self.plan())
                        (questions(self.catalog, l, &form.questions))
                        (self.off())
                        (self.pictures(&form))
                        (self.finish(form.questions.len()))
                    }
                    script { (PreEscaped(SCRIPT)) }
                }
            }
        };
        let page = html! { (DOCTYPE) (body) }.into_string();
        page.replacen("<!DOCTYPE html>", MARK, 1) + "\n"
    }

    /// What is planned, so that a misunderstanding shows before the visit.
    fn plan(&self) -> Markup {
        let l = self.language;
        let planned = match self.picture.value(PLANNED_WORK) {
            Some(Value::Choices(jobs)) => jobs.as_slice(),
            _ => &[],
        };
        let options = self.catalog.item(PLANNED_WORK).map(|i| i.answer.options()).unwrap_or_default();
        let jobs: Vec<_> = options.iter().filter(|o| planned.contains(&o.id)).collect();
        html! {
            section aria-labelledby="plan" {
                h2 id="plan" { (say::PLAN.said(l)) }
                @if jobs.is_empty() { p { (say::PLAN_NONE.said(l)) } } @else {
                    ul {
                        @for job in jobs {
                            li { (text(l, &catalog_text(l, &option_id(PLANNED_WORK, &job.id, &job.label), &job.label))) }
                        }
                    }
                    p { (say::PLAN_WRONG.said(l)) }
                }
            }
        }
    }

    fn off(&self) -> Markup {
        let l = self.language;
        let off = Off::of(self.catalog, self.picture, self.outages);
        let list = |names: &[String]| names.iter().map(|n| service_said(l, n)).collect::<Vec<_>>().join(", ");
        let when = |likely: &[u32], possible: &[u32]| {
            let said = [(say::LIKELY, likely), (say::POSSIBLE, possible)];
            let said = said.iter().filter(|(_, days)| !days.is_empty());
            said.map(|(phrase, days)| phrase.with(l, &[("days", &days_said(l, days))]))
                .collect::<Vec<_>>()
                .join("; ")
        };
        html! {
            section aria-labelledby="off" {
                h2 id="off" { (say::OFF.said(l)) }
                @if !off.plan_known { p { (say::OFF_UNKNOWN.said(l)) } }
                @else if off.tasks.is_empty() { p { (say::OFF_NOTHING.said(l)) } }
                @else {
                    p { strong { (say::OFF_FIRST.said(l)) } }
                    @for outage in &off.tasks {
                        div .outage {
                            @let task = catalog_text(l, &format!("outage-{}-task", outage.id), &outage.task);
                            @let scope = catalog_text(l, &format!("scope-{}", slug(&outage.scope)), &outage.scope);
                            @let help = catalog_text(l, &format!("outage-{}-help", outage.id), &outage.help);
                            h3 { (text(l, &task)) }
                            dl {
                                dt { (say::OFF_WHAT.said(l)) } dd {
                                    (list(&outage.off))
                                    @if outage.off != [outage.scope.as_str()] { " (" (text(l, &scope)) ")" }
                                }
                                dt { (say::OFF_LONG.said(l)) } dd { (hours_said(l, &outage.hours)) }
                                dt { (say::OFF_HELP.said(l)) } dd { (text(l, &help)) }
                            }
                        }
                    }
                    @if !off.days.is_empty() {
                        h3 { (say::OFF_DAYS.said(l)) }
                        dl .days {
                            @for (service, [likely, possible]) in &off.days {
                                dt { (service_said(l, service)) }
                                dd { (when(likely, possible)) }
                            }
                        }
                    }
                }
                h3 { (say::RULES.said(l)) }
                ul {
                    @for rule in &self.catalog.household_rules {
                        li { (text(l, &catalog_text(l, &format!("rule-{}", rule.id), &rule.words))) }
                    }
                }
                p .decides { (say::DECIDES.said(l)) }
            }
        }
    }

    fn pictures(&self, form: &Form<'_>) -> Markup {
        let l = self.language;
        let asked = |item: &str| self.catalog.item(item).is_some_and(|i| !i.skipped(self.picture));
        let helped = form.questions.iter().filter(|q| q.picture_helps());
        let helped: Vec<String> = helped.map(|q| q.number.to_string()).collect();
        let views = VIEWS.iter().filter(|(item, _)| item.is_none_or(asked));
        html! {
            section aria-labelledby="pictures" {
                h2 id="pictures" { (say::PICTURES.said(l)) }
                p { (say::PICTURES_HOW.said(l)) }
                ul {
                    @for (_, view) in views { li { (view.said(l)) } }
                    @if !helped.is_empty() {
                        li { (say::VIEW_FOR.with(l, &[("numbers", &helped.join(", "))])) }
                    }
                }
                p { (say::PICTURES_SEND.said(l)) }
            }
        }
    }

    fn finish(&self, all: usize) -> Markup {
        let l = self.language;
        html! {
            section aria-labelledby="finish" {
                h2 id="finish" { (say::FINISH.said(l)) }
                label .words .wide {
                    span { (say::ANYTHING.said(l)) }
                    textarea name="remark" rows="4" maxlength=(MOST_WORDS) autocomplete="off" {}
                }
                label .words {
                    span { (say::WHO.said(l)) }
                    input type="text" name="who" maxlength=(MOST_NAME) autocomplete="off";
                }
                div .scripted hidden {
                    // What the script says, in the language of the page.
                    p #count data-said=(say::COUNT.said(l)) data-all=(all) {}
                    p #said role="status" data-saved=(say::SAVED.said(l)) data-look=(say::LOOK_AGAIN.said(l))
                        data-range=(say::RANGE.said(l)) data-reopened=(say::REOPENED.said(l))
                        data-not-ours=(say::NOT_OURS.said(l)) {}
                    p .press {
                        button #save type="button" { (say::SAVE.said(l)) }
                        button #print type="button" { (say::PRINT.said(l)) }
                    }
                    label .reopen { span { (say::REOPEN.said(l)) } input #reopen type="file" accept=".json,application/json"; }
                }
            }
        }
    }
}

/// Name of the answers' file: the house in lower-case letters, digits and hyphens.
pub fn file_name(house: &str) -> String {
    let house = slug(&house.chars().take(60).collect::<String>());
    if house.is_empty() { "answers".to_owned() } else { format!("answers-{house}") }
}
