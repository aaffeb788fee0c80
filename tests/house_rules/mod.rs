//! Rules of this house as tests: who may import whom, licences, sizes, words, what the program does without, and the table
//! of security requirements.

mod asvs;
mod imports;
mod licences;
mod said;
mod security_page;
mod size;
pub use size::sources as files;
mod without;
mod words;
