//! What is wrong with a catalog, where, and how to mend it.

use core::fmt;

/// One fault: file, line, what is wrong, and the nearest way to mend it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Path of the file inside the catalog folder.
    pub file: String,
    /// Line, from 1; 0 when the whole file is meant.
    pub line: u32,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: Option<String>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line == 0 {
            write!(f, "{}: {}", self.file, self.what)?;
        } else {
            write!(f, "{}:{}: {}", self.file, self.line, self.what)?;
        }
        match &self.mend {
            Some(mend) => write!(f, "; {mend}"),
            None => Ok(()),
        }
    }
}

/// A catalog that cannot be used: every fault found, in the order of files and lines. Never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CatalogError {
    /// The faults.
    pub faults: Vec<Fault>,
}

impl fmt::Display for CatalogError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const SHOWN: usize = 12;
        write!(
            f,
            "the catalog has {} fault{}:",
            self.faults.len(),
            if self.faults.len() == 1 { "" } else { "s" }
        )?;
        for fault in self.faults.iter().take(SHOWN) {
            write!(f, "\n  {fault}")?;
        }
        match self.faults.len().checked_sub(SHOWN) {
            Some(more) if more > 0 => write!(f, "\n  and {more} more"),
            _ => Ok(()),
        }
    }
}

impl core::error::Error for CatalogError {}
