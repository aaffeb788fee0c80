//! The version of a catalog, with that of the overlay laid over it.

use core::fmt;

/// Version of a catalog, raised with every edit by whoever edits it. Written `2`; with an overlay `2+7`, or
/// `2+overlay` where that has no version of its own.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Version {
    /// Of the catalog itself.
    pub catalog: u32,
    /// Of the overlay: not there, there without a version, or this one.
    pub overlay: Option<Option<u32>>,
}

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.catalog)?;
        match self.overlay {
            None => Ok(()),
            Some(None) => write!(f, "+overlay"),
            Some(Some(version)) => write!(f, "+{version}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_version_tells_of_an_overlay() {
        for (overlay, words) in [(None, "2"), (Some(None), "2+overlay"), (Some(Some(7)), "2+7")] {
            assert_eq!(Version { catalog: 2, overlay }.to_string(), words);
        }
    }
}
