//! Every error of a command, with its exit code.

pub use actions::file_trouble as file;
use actions::{Error, Kind};
use keys::Fault;
use office::NotScanned;
use review::learn::ApplyError;
use words::msg;

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

/// An error of the office desk as it is told over the network: what lies in the office is no fault of what came, and where its key lies is
/// nobody's business.
pub fn office_at_door(e: office::OfficeError) -> Error {
    use office::OfficeError as O;
    if let O::NoKey { .. } = e {
        return Error::new(Kind::Missing, msg!("office-no-key")).hint(msg!("error-office-no-key-hint"));
    }
    let inside =
        matches!(e, O::Database { .. } | O::Newer { .. } | O::Learned { .. } | O::RegisterLost { .. });
    let mut error = office(e);
    if inside {
        error.kind = Kind::Internal;
    }
    error
}

/// An error of the office desk.
pub fn office(e: office::OfficeError) -> Error {
    use office::OfficeError as O;
    let e = match e {
        O::Apply(e) => return apply(e),
        // The shelf is ours, and says what we say.
        O::Shelf(e) => {
            return match e.downcast::<Error>() {
                Ok(error) => *error,
                Err(other) => match other.downcast::<survey::catalog::CatalogError>() {
                    Ok(faults) => Error::new(Kind::Input, msg!("error-catalog", said = faults.to_string()))
                        .hint(msg!("error-catalog-hint")),
                    Err(other) => {
                        Error::new(Kind::Internal, msg!("error-internal", said = other.to_string()))
                    }
                },
            };
        }
        e => e,
    };
    let kind = match &e {
        O::Packet(_)
        | O::Mismatch { .. }
        | O::Forecast(_)
        | O::Database { .. }
        | O::Newer { .. }
        | O::Learned { .. }
        | O::RegisterLost { .. } => Kind::Damaged,
        O::Conflict { .. }
        | O::Several { .. }
        | O::KeyRevoked { .. }
        | O::NotTaken { .. }
        | O::NotVouched { .. }
        | O::Harmful { .. }
        | O::NothingToPublish { .. } => Kind::Conflict,
        O::NoSuchHouse { .. }
        | O::NoKey { .. }
        | O::NeverCertified { .. }
        | O::NoPacket { .. }
        | O::NoPhoto { .. }
        | O::NoForecast { .. }
        | O::NothingProposed
        | O::NotForecast { .. } => Kind::Missing,
        O::Pictures(apart::ApartError::NotStarted(_)) => Kind::Internal,
        O::Pictures(_) => Kind::Input,
        O::NoFirm => Kind::Input,
        O::Key(e) => Error::from(e.clone()).kind,
        O::NoSuchCondition { .. }
        | O::NoSuchPlace { .. }
        | O::Finding(_)
        | O::LongNote { .. }
        | O::InForecast { .. }
        | O::NotToTravel { .. }
        | O::TooMuchToPublish
        | O::Arguments { .. } => Kind::Input,
        O::File { .. } | O::NotScanned { .. } | O::Codes { .. } | O::Stopped | O::Apply(_) | O::Shelf(_) => {
            Kind::Internal
        }
    };
    let path = |path: &std::path::PathBuf| path.display().to_string();
    let message = match &e {
        O::Packet(p) => msg!("error-office-packet", said = p.to_string()),
        O::Mismatch { label } => msg!("error-office-mismatch", label = label),
        O::Conflict { label, number, held, offered } => {
            let number = number.to_string();
            msg!("error-office-conflict", label = label, number = number, held = held, offered = offered)
        }
        O::NoSuchHouse { wanted, known } => msg!("error-office-no-house", wanted = wanted, known = known),
        O::Several { wanted, known } => msg!("error-office-several", wanted = wanted, known = known),
        O::NoSuchCondition { condition, hint } => {
            msg!("error-office-no-condition", condition = condition, meant = hint)
        }
        O::NoSuchPlace { place, known } => msg!("error-office-no-place", place = place, known = known),
        O::Finding(review::FindingError::CostWithoutFinding { condition, outcome }) => {
            let outcome = crate::commands::outcome(Some(*outcome));
            msg!("error-finding-cost", condition = condition, outcome = outcome)
        }
        O::Finding(review::FindingError::PaidWithoutFinding { condition, outcome }) => {
            let outcome = crate::commands::outcome(Some(*outcome));
            msg!("error-finding-paid", condition = condition, outcome = outcome)
        }
        O::Finding(review::FindingError::OutOfRange { condition, cost, days }) => {
            msg!("error-finding-range", condition = condition, cost = *cost, days = *days)
        }
        O::NoPacket { packet } => msg!("error-office-no-packet", packet = packet),
        O::NoPhoto { photo } => msg!("error-no-photo", photo = photo),
        O::NoForecast { survey } => msg!("error-office-no-forecast", survey = survey),
        O::InForecast { condition } => msg!("error-office-in-forecast", condition = condition),
        O::NotForecast { condition } => msg!("error-office-not-forecast", condition = condition),
        O::LongNote { most } => msg!("error-office-long-note", most = *most as u64),
        O::Arguments { command, what } => msg!("error-command-args", command = command, said = what),
        O::Pictures(e) => e.said(),
        O::Codes { what } => msg!("error-internal", said = what),
        O::Key(e) => return Error::from(e.clone()),
        O::NoFirm => msg!("error-office-no-firm"),
        O::NoKey { path } => msg!("error-office-no-key", path = path),
        O::KeyRevoked { key } => msg!("error-office-key-revoked", key = key),
        O::NeverCertified { what } => msg!("error-office-never-certified", what = what),
        O::NotTaken { label, fault } => {
            msg!("error-office-not-taken", label = label, said = actions::fault_said(fault))
        }
        O::NotVouched { label, key } => msg!("error-office-not-vouched", label = label, key = key),
        O::Harmful { file } => msg!("error-office-harmful", file = file),
        O::NotScanned { program, why } => {
            let why = match why {
                NotScanned::NotStarted(said) => msg!("scanner-not-started", said = said),
                NotScanned::Ended(code) => msg!("scanner-ended", code = i64::from(*code)),
                NotScanned::Broken => msg!("scanner-broken"),
            };
            msg!("error-office-not-scanned", program = path(program), why = why)
        }
        O::RegisterLost { path: file, secret } => {
            msg!("error-office-register-lost", path = path(file), secret = secret)
        }
        O::Forecast(f) => actions::forecast_trouble(f),
        O::Database { path: file, what } => {
            msg!("error-office-database", path = path(file), said = what)
        }
        O::Newer { path: file } => msg!("error-office-newer", path = path(file)),
        O::File { path: file, what } => msg!("error-file", path = path(file), said = what),
        O::Learned { path: file, what } => msg!("error-learned-damaged", path = path(file), said = what),
        O::Stopped => msg!("error-learn-stopped"),
        O::NotToTravel { name } => msg!("error-publish-name", name = name),
        O::NothingToPublish { last: None } => msg!("error-publish-nothing"),
        O::NothingToPublish { last: Some(number) } => msg!("error-publish-same", number = *number),
        O::TooMuchToPublish => msg!("error-publish-large"),
        O::NothingProposed => msg!("error-learn-nothing-proposed"),
        // Said above.
        O::Apply(_) | O::Shelf(_) => msg!("error-internal", said = e.to_string()),
    };
    let error = Error::new(kind, message);
    match &e {
        O::Packet(p) => error.hint(actions::packet_hint(p)),
        O::NoKey { .. } => error.hint(msg!("error-office-no-key-hint")),
        O::NotToTravel { .. } => error.hint(msg!("error-publish-name-hint")),
        O::Learned { .. } => error.hint(msg!("error-learned-damaged-hint")),
        O::NotVouched { .. } => error.hint(msg!("error-office-not-vouched-hint")),
        O::Harmful { .. } => error.hint(msg!("error-office-harmful-hint")),
        O::NotScanned { .. } => error.hint(msg!("error-office-not-scanned-hint")),
        O::RegisterLost { .. } => error.hint(msg!("error-office-register-lost-hint")),
        // A revoked key is not certified again, so that is no way out.
        O::NotTaken { fault, .. }
            if matches!(**fault, Fault::Revoked { .. } | Fault::RevokedUnproven { .. }) =>
        {
            error
        }
        O::NotTaken { .. } => error.hint(msg!("error-office-not-taken-hint")),
        _ => error,
    }
}

/// Lines that cannot be taken over.
fn apply(e: ApplyError) -> Error {
    match e {
        ApplyError::OtherCatalog => Error::new(Kind::Conflict, msg!("error-learn-other-catalog")),
        ApplyError::Nothing => Error::new(Kind::Input, msg!("error-learn-nothing")),
        ApplyError::Unknown { given, near } => {
            let error = Error::new(Kind::Missing, msg!("error-learn-no-line", line = given));
            match near {
                Some(near) => error.hint(msg!("error-learn-meant", near = near)),
                None => error,
            }
        }
        ApplyError::Together { condition, other } => {
            Error::new(Kind::Conflict, msg!("error-learn-together", condition = condition, other = &other))
                .hint(msg!("error-learn-together-hint", other = &other))
        }
        ApplyError::ChangedElsewhere { condition, key, place } => Error::new(
            Kind::Conflict,
            msg!("error-learn-elsewhere", place = place, key = key, condition = condition),
        )
        .hint(msg!("error-learn-elsewhere-hint")),
    }
}
