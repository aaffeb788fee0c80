//! Things to say before it is known in which language: the id of a message and what stands in its places. A pure room
//! makes them, the `words` room says them.

use std::borrow::Cow;
use std::fmt;

use serde::{Deserialize, Serialize};

use crate::Stamp;
use crate::units::Money;

/// What is said, or stands in a place of a message.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Said {
    /// Text as it is: figures with their marks, a name, an id, words of a person, words already in the language.
    Text(String),
    /// A number, written as the language writes it; a message may choose its form by it.
    Number(f64),
    /// A sum of money to the cent.
    Money(Money),
    /// A moment on the clock of the house.
    When(Stamp),
    /// A message.
    Message(Message),
    /// A text of the catalog: its id there (`words::catalog`) and its English.
    Catalog(String, String),
    /// Things said one after the other, with commas between.
    List(Vec<Said>),
    /// Things said one after the other, with the first text between.
    Joined(String, Vec<Said>),
    /// The same with its first letter large.
    Capital(Box<Said>),
    /// The same with small letters throughout.
    Small(Box<Said>),
    /// The same without a period at its end.
    Open(Box<Said>),
}

/// An id of a Fluent message and what stands in its places. Made with [`msg!`](crate::msg).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Message {
    /// The id.
    pub id: Cow<'static, str>,
    /// Names of places and what stands there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub args: Vec<(Cow<'static, str>, Said)>,
}

/// A message without places, by its id: what a constant can hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Phrase(pub &'static str);

impl Message {
    /// A message with what stands in its places.
    pub fn new<const N: usize>(id: &'static str, args: [(&'static str, Said); N]) -> Self {
        Self {
            id: Cow::Borrowed(id),
            args: args.into_iter().map(|(name, said)| (Cow::Borrowed(name), said)).collect(),
        }
    }
}

impl Said {
    /// Nothing said.
    pub fn nothing() -> Self {
        Self::Text(String::new())
    }
    /// True where nothing is said.
    pub fn is_nothing(&self) -> bool {
        matches!(self, Self::Text(text) if text.is_empty())
    }
    /// A message without places whose id is made from ids.
    pub fn by_id(id: String) -> Self {
        Self::Message(Message { id: Cow::Owned(id), args: Vec::new() })
    }
    /// A text of the catalog: its id there and its English.
    pub fn of_catalog(id: impl Into<String>, english: impl Into<String>) -> Self {
        Self::Catalog(id.into(), english.into())
    }
    /// With its first letter large.
    #[must_use]
    pub fn capital(self) -> Self {
        Self::Capital(Box::new(self))
    }
    /// Without a period at its end.
    #[must_use]
    pub fn open(self) -> Self {
        Self::Open(Box::new(self))
    }
    /// In small letters throughout.
    #[must_use]
    pub fn small(self) -> Self {
        Self::Small(Box::new(self))
    }
    /// Things said one after the other with nothing between.
    pub fn run(all: impl IntoIterator<Item = Self>) -> Self {
        Self::between("", all)
    }
    /// Whether the same is said here, alone or in a list.
    pub fn is_among(&self, one: &Self) -> bool {
        self == one || matches!(self, Self::List(all) if all.contains(one))
    }
    /// Says one thing more, as a list.
    pub fn also(&mut self, one: Self) {
        match self {
            Self::List(all) => all.push(one),
            _ => *self = Self::List(vec![core::mem::take(self), one]),
        }
    }
    /// Sentences, one after the other.
    pub fn sentences(all: impl IntoIterator<Item = Self>) -> Self {
        Self::between(" ", all)
    }
    /// Things said one after the other with something between; one alone stays as it is.
    pub fn between(between: &str, all: impl IntoIterator<Item = Self>) -> Self {
        let mut all: Vec<Self> = all.into_iter().filter(|one| !one.is_nothing()).collect();
        match all.len() {
            1 => all.remove(0),
            _ => Self::Joined(between.to_owned(), all),
        }
    }
    /// Whether the message of this id is said, or stands anywhere in what is said.
    pub fn holds(&self, id: &str) -> bool {
        match self {
            Self::Message(m) => m.id == id || m.args.iter().any(|(_, said)| said.holds(id)),
            Self::List(all) | Self::Joined(_, all) => all.iter().any(|said| said.holds(id)),
            Self::Capital(one) | Self::Small(one) | Self::Open(one) => one.holds(id),
            Self::Text(_) | Self::Number(_) | Self::Money(_) | Self::When(_) | Self::Catalog(..) => false,
        }
    }
}

/// Lower-case letters and digits of a text, joined by hyphens: "HVAC technician" is "hvac-technician".
pub fn slug(text: &str) -> String {
    let mut slug = String::new();
    for letter in text.chars() {
        match letter {
            'a'..='z' | '0'..='9' | '_' => slug.push(letter),
            'A'..='Z' => slug.push(letter.to_ascii_lowercase()),
            '²' => slug.push('2'),
            '³' => slug.push('3'),
            '%' => slug.push_str("percent"),
            _ if !slug.ends_with('-') && !slug.is_empty() => slug.push('-'),
            _ => {}
        }
    }
    slug.trim_end_matches('-').to_owned()
}

/// A text of the catalog that many things share, with an id made from itself: "unit" and "ft²" are `unit-ft2`. What
/// holds no word (two letters or more) is figures or a symbol and stays as it is.
pub fn in_catalog(kind: &str, english: &str) -> Said {
    if has_words(english) {
        Said::Catalog(format!("{kind}-{}", slug(english)), english.to_owned())
    } else {
        Said::Text(english.to_owned())
    }
}

/// Whether a letter steers a screen: a control character, or a mark that hides in a line or turns it around.
pub fn steers(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// Whether a text holds a word: two letters side by side.
pub fn has_words(text: &str) -> bool {
    text.as_bytes().windows(2).any(|two| two.iter().all(u8::is_ascii_alphabetic))
}

/// A message: `msg!("photos", n = 3)`. A place takes text, a number, money, a moment, or another message.
#[macro_export]
macro_rules! msg {
    ($id:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::said::Message::new($id, [$((stringify!($name), $crate::said::Said::from($value))),*])
    };
}

/// The same as something said: `say!("photos", n = 3)`.
#[macro_export]
macro_rules! say {
    ($id:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::said::Said::Message($crate::msg!($id $(, $name = $value)*))
    };
}

/// Bare, for logs and tests: text as it is, a message as its id with what stands in its places.
impl fmt::Display for Said {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) | Self::Catalog(_, text) => f.write_str(text),
            Self::Number(number) => write!(f, "{number}"),
            Self::Money(money) => write!(f, "{money}"),
            Self::When(stamp) => f.write_str(&stamp.minute_text()),
            Self::Message(message) => {
                f.write_str(&message.id)?;
                message.args.iter().try_for_each(|(name, said)| write!(f, " {name}=({said})"))
            }
            Self::List(all) | Self::Joined(_, all) => all.iter().try_for_each(|said| write!(f, "{said} ")),
            Self::Capital(one) | Self::Small(one) | Self::Open(one) => write!(f, "{one}"),
        }
    }
}

impl Default for Said {
    fn default() -> Self {
        Self::nothing()
    }
}
impl From<String> for Said {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}
impl From<&String> for Said {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}
impl From<&str> for Said {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}
impl From<Cow<'_, str>> for Said {
    fn from(text: Cow<'_, str>) -> Self {
        Self::Text(text.into_owned())
    }
}
impl From<Message> for Said {
    fn from(message: Message) -> Self {
        Self::Message(message)
    }
}
impl From<Phrase> for Said {
    fn from(phrase: Phrase) -> Self {
        Self::Message(Message::new(phrase.0, []))
    }
}
impl From<Phrase> for Message {
    fn from(phrase: Phrase) -> Self {
        Self::new(phrase.0, [])
    }
}
impl From<&Self> for Said {
    fn from(said: &Self) -> Self {
        said.clone()
    }
}
impl From<Money> for Said {
    fn from(money: Money) -> Self {
        Self::Money(money)
    }
}
impl From<Stamp> for Said {
    fn from(stamp: Stamp) -> Self {
        Self::When(stamp)
    }
}
impl<T: Into<Self>> From<Vec<T>> for Said {
    fn from(list: Vec<T>) -> Self {
        Self::List(list.into_iter().map(Into::into).collect())
    }
}
macro_rules! numbers {
    ($($type:ty),*) => { $(
        impl From<$type> for Said {
            fn from(number: $type) -> Self {
                Self::Number(number as f64)
            }
        }
    )* };
}
numbers!(u8, u16, u32, u64, usize, i32, i64, f64);
