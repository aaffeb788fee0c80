//! A thing to say before it is known in which language: an id and what stands in its places.

use survey::Stamp;
use survey::units::Money;

/// What stands in a place of a message.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// Text as it is: a name, an id, words of a person, words already in the language.
    Text(String),
    /// A number, written as the language writes it; a message may choose its form by it.
    Number(f64),
    /// A sum of money to the cent.
    Money(Money),
    /// A moment on the clock of the house.
    When(Stamp),
    /// Another message.
    Message(Box<Message>),
    /// Things said one after the other, with commas between.
    List(Vec<Arg>),
}

/// An id of a Fluent message and what stands in its places. Made with [`msg!`](crate::msg).
#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    /// The id.
    pub id: &'static str,
    /// Names of places and what stands there.
    pub args: Vec<(&'static str, Arg)>,
}

/// A message: `msg!("photos", n = 3)`. A place takes text, a number, money, a moment, or another message.
#[macro_export]
macro_rules! msg {
    ($id:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::Message { id: $id, args: vec![$((stringify!($name), $crate::Arg::from($value))),*] }
    };
}

impl From<String> for Arg {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}
impl From<&String> for Arg {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}
impl From<&str> for Arg {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}
impl From<std::borrow::Cow<'_, str>> for Arg {
    fn from(text: std::borrow::Cow<'_, str>) -> Self {
        Self::Text(text.into_owned())
    }
}
impl From<Message> for Arg {
    fn from(message: Message) -> Self {
        Self::Message(Box::new(message))
    }
}
impl From<Money> for Arg {
    fn from(money: Money) -> Self {
        Self::Money(money)
    }
}
impl From<Stamp> for Arg {
    fn from(stamp: Stamp) -> Self {
        Self::When(stamp)
    }
}
impl<T: Into<Arg>> From<Vec<T>> for Arg {
    fn from(list: Vec<T>) -> Self {
        Self::List(list.into_iter().map(Into::into).collect())
    }
}
macro_rules! numbers {
    ($($type:ty),*) => { $(
        impl From<$type> for Arg {
            fn from(number: $type) -> Self {
                Self::Number(number as f64)
            }
        }
    )* };
}
numbers!(u8, u16, u32, u64, usize, i32, i64, f64);
