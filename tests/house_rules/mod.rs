//! Rules of this house as tests: who may import whom, licences, sizes, words.

mod imports;
mod licences;
mod said;
mod size;
pub use size::sources as files;
mod words;
