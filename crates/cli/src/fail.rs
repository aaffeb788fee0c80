//! Every error of a command, with its exit code.

use std::path::Path;

use actions::{Error, Kind};

/// Exit code of a kind of error.
pub fn exit_code(kind: Kind) -> u8 {
    match kind {
        Kind::Internal => 1,
        Kind::Input => 2,
        Kind::Missing => 3,
        Kind::Conflict => 4,
        Kind::Damaged => 5,
    }
}

/// A file that could not be read or written.
pub fn file(path: &Path, e: &std::io::Error) -> Error {
    let kind = if e.kind() == std::io::ErrorKind::NotFound { Kind::Missing } else { Kind::Internal };
    let error = Error::new(kind, format!("{}: {e}", path.display()));
    match e.kind() {
        std::io::ErrorKind::NotFound => error.hint("check the path; nothing was recorded"),
        std::io::ErrorKind::StorageFull => error.hint("make room on that disk and try again"),
        _ => error,
    }
}

/// An error of the office desk.
pub fn office(e: office::OfficeError) -> Error {
    use office::OfficeError as O;
    let kind = match &e {
        O::Packet(_) | O::Mismatch { .. } | O::Forecast(_) | O::Database { .. } | O::Newer { .. } => {
            Kind::Damaged
        }
        O::Conflict { .. } | O::Several { .. } => Kind::Conflict,
        O::NoSuchHouse { .. } => Kind::Missing,
        O::NoSuchCondition { .. } | O::NoSuchPlace { .. } | O::Finding(_) => Kind::Input,
        O::File { .. } => Kind::Internal,
    };
    let hint = if let O::Packet(p) = &e { Some(p.hint()) } else { None };
    let error = Error::new(kind, e.to_string());
    match hint {
        Some(hint) => error.hint(hint),
        None => error,
    }
}
