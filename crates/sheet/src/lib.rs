//! The household's part as a sheet sent before the visit: a page that is filled in on any screen or printed, and the
//! file of answers that comes back.
//!
//! Pure: catalog, picture and language are handed in; nothing is read or written here, and the page itself loads,
//! sends and keeps nothing. Which entries the answers become is decided by who takes them in.

mod answers;
mod catalog_text;
mod form;
mod off;
mod origin;
mod page;
mod phrases;
mod questions;

pub use answers::{
    Answered, AnswersError, AnswersFile, FORM, Fit, Fitted, Given, LeftOut, MOST_BYTES, VERSION, read, words,
};
pub use catalog_text::{Said, catalog_text};
pub use form::{Form, Question, Takes};
pub use origin::{from_a_sheet, from_this_file, remark};
pub use page::{MARK, Page, file_name};
pub use phrases::{ALL as PHRASES, Language, Phrase};
