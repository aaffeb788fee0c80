//! Saying things in one language.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentError, FluentResource, FluentValue};
use survey::catalog::Catalog;
use survey::said::{Message, Said};
use unic_langid::LanguageIdentifier;

use crate::pseudo::pseudo;
use crate::{Language, catalog, figures, files};

/// Deepest message within messages that is still said.
const DEEPEST: u8 = 8;

/// The words of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
    /// Ids a firm translated itself: valid whatever its catalog says in English.
    own: BTreeSet<String>,
}

/// A line of a firm's own Fluent file that cannot be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The file.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// The text of that line.
    pub text: String,
}

impl Words {
    /// The words of a language, read once.
    pub fn of(language: Language) -> &'static Self {
        static ALL: [OnceLock<Words>; 3] = [OnceLock::new(), OnceLock::new(), OnceLock::new()];
        let [en, es, qps] = &ALL;
        let place = match language {
            Language::En => en,
            Language::Es => es,
            Language::Qps => qps,
        };
        place.get_or_init(|| Self::read(language))
    }

    fn read(language: Language) -> Self {
        let identifier: LanguageIdentifier = language.region().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![identifier]);
        bundle.set_use_isolating(false); // both languages run from left to right, and a terminal shows the marks
        bundle.set_formatter(Some(match language {
            Language::En | Language::Qps => english_number,
            Language::Es => spanish_number,
        }));
        if language == Language::Qps {
            bundle.set_transform(Some(pseudo));
        }
        for file in files(language) {
            // A fault in a file of ours is found by the tests; what can be read of it is said all the same.
            let resource = match FluentResource::try_new(file.text.to_owned()) {
                Ok(resource) | Err((resource, _)) => resource,
            };
            bundle.add_resource_overriding(resource);
        }
        Self { language, bundle, own: BTreeSet::new() }
    }

    /// The words of a language with a firm's own Fluent files (name and text) laid over them.
    ///
    /// # Errors
    /// Every line that cannot be read, so that a slip is not silently left out.
    pub fn with_own(language: Language, texts: &[(String, String)]) -> Result<Self, Vec<FileFault>> {
        let mut words = Self::read(language);
        let mut faults = Vec::new();
        for (file, text) in texts {
            match FluentResource::try_new(text.clone()) {
                Ok(resource) => {
                    for entry in resource.entries() {
                        if let fluent_syntax::ast::Entry::Message(message) = entry {
                            words.own.insert(message.id.name.to_owned());
                        }
                    }
                    words.bundle.add_resource_overriding(resource);
                }
                Err((_, errors)) => faults.extend(errors.iter().map(|e| {
                    let before = text.get(..e.pos.start).unwrap_or(text);
                    let line = before.matches('\n').count() + 1;
                    let text = text.lines().nth(line - 1).unwrap_or_default().trim().to_owned();
                    FileFault { file: file.clone(), line, text }
                })),
            }
        }
        if faults.is_empty() { Ok(words) } else { Err(faults) }
    }

    /// The language.
    pub fn language(&self) -> Language {
        self.language
    }

    /// Says a message. A place nobody filled is shown with its name in braces; an id that is in no file is said as it
    /// is. Neither happens in a tested program.
    pub fn say(&self, message: &Message) -> String {
        self.say_within(message, 0)
    }

    /// Says a message that has no places.
    pub fn plain(&self, id: &str) -> String {
        self.formatted(id, None).unwrap_or_else(|| id.to_owned())
    }

    fn say_within(&self, message: &Message, depth: u8) -> String {
        if depth >= DEEPEST {
            return message.id.to_string();
        }
        let mut args = FluentArgs::new();
        for (name, arg) in &message.args {
            args.set(name.clone(), self.value(arg, depth));
        }
        self.formatted(&message.id, Some(&args)).unwrap_or_else(|| message.id.to_string())
    }

    fn value(&self, said: &Said, depth: u8) -> FluentValue<'static> {
        match said {
            Said::Number(number) => FluentValue::from(*number),
            other => FluentValue::from(self.text_within(other, depth)),
        }
    }

    /// Says what stands in a place.
    pub fn text(&self, said: &Said) -> String {
        self.text_within(said, 0)
    }

    fn text_within(&self, said: &Said, depth: u8) -> String {
        let joined = |all: &[Said], between: &str| {
            all.iter().map(|one| self.text_within(one, depth)).collect::<Vec<_>>().join(between)
        };
        match said {
            Said::Text(text) => text.clone(),
            Said::Number(number) => figures::in_message(self.language, *number, None),
            Said::Money(money) => figures::money(self.language, *money),
            Said::When(stamp) => figures::when(self.language, *stamp),
            Said::Message(message) => self.say_within(message, depth + 1),
            Said::Catalog(id, english) => self.catalog(id, english).into_owned(),
            Said::List(all) => joined(all, ", "),
            Said::Joined(between, all) => joined(all, between),
            Said::Capital(one) => capital(&self.text_within(one, depth)),
            Said::Small(one) => self.text_within(one, depth).to_lowercase(),
            Said::Open(one) => self.text_within(one, depth).trim_end_matches('.').to_owned(),
        }
    }

    fn formatted(&self, id: &str, args: Option<&FluentArgs<'_>>) -> Option<String> {
        let pattern = self.bundle.get_message(id)?.value()?;
        let mut errors: Vec<FluentError> = Vec::new(); // shown in the text itself
        Some(self.bundle.format_pattern(pattern, args, &mut errors).into_owned())
    }

    /// What a catalog or a frozen assessment says in English, in this language: translated if the translation belongs
    /// to these very words, otherwise in English as they stand. `id` is one of [`catalog::texts`], or of a message.
    pub fn catalog<'a>(&self, id: &str, english: &'a str) -> Cow<'a, str> {
        self.translated(id, english).map_or(Cow::Borrowed(english), Cow::Owned)
    }

    /// The same, or nothing where there is no translation.
    pub fn translated(&self, id: &str, english: &str) -> Option<String> {
        match self.language {
            Language::En if !self.own.contains(id) => None,
            Language::Qps => Some(pseudo(english).into_owned()),
            _ if self.own.contains(id) => self.formatted(id, None),
            _ => source(id).is_some_and(|s| s == english).then(|| self.formatted(id, None)).flatten(),
        }
    }

    /// Texts of a catalog this language has no words for, which are therefore said in English: id and English.
    pub fn untranslated<'c>(&self, catalog: &'c Catalog) -> Vec<(String, &'c str)> {
        if self.language == Language::En {
            return Vec::new();
        }
        let texts = catalog::texts(catalog).into_iter();
        texts.filter(|(id, english)| self.translated(id, english).is_none()).collect()
    }

    /// True if a message is in the files.
    pub fn has(&self, id: &str) -> bool {
        self.bundle.has_message(id)
    }
}

/// A text with its first letter large; brackets and marks before it stay.
fn capital(text: &str) -> String {
    let Some((at, first)) = text.char_indices().next() else { return String::new() };
    let rest = &text[at + first.len_utf8()..];
    first.to_uppercase().chain(rest.chars()).collect()
}

/// The English a translation was made from: of the catalog as it ships, or of our own messages.
fn source(id: &str) -> Option<Cow<'static, str>> {
    static SHIPPED: OnceLock<BTreeMap<String, String>> = OnceLock::new();
    let shipped = SHIPPED.get_or_init(|| match survey::catalog::builtin() {
        Ok(catalog) => catalog::texts(&catalog).into_iter().map(|(id, text)| (id, text.to_owned())).collect(),
        Err(_) => BTreeMap::new(), // the tests hold that it loads
    });
    match shipped.get(id) {
        Some(text) => Some(Cow::Borrowed(text.as_str())),
        None => Words::of(Language::En).formatted(id, None).map(Cow::Owned),
    }
}

fn english_number<M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    written(Language::En, value)
}

fn spanish_number<M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    written(Language::Es, value)
}

fn written(language: Language, value: &FluentValue<'_>) -> Option<String> {
    match value {
        FluentValue::Number(n) => {
            Some(figures::in_message(language, n.value, n.options.maximum_fraction_digits))
        }
        _ => None,
    }
}
