//! What can go wrong at the office desk.

use std::path::PathBuf;

/// Why the desk refuses.
#[derive(Debug, thiserror::Error)]
pub enum OfficeError {
    /// The packet does not open.
    #[error("this packet was not received: {0}")]
    Packet(#[from] packet::PacketError),
    /// Assessment and packet do not belong together.
    #[error(
        "the packet of “{label}” holds an assessment of another house or of another log; it was not taken. Seal the \
         house again on the tablet"
    )]
    Mismatch {
        /// The house.
        label: String,
    },
    /// Another packet holds its place.
    #[error(
        "packet {number} of “{label}” was already received with other content ({held}); this one ({offered}) was not \
         taken. Ask which tablet sealed it twice, and seal the house again there"
    )]
    Conflict {
        /// The house.
        label: String,
        /// Its number.
        number: u32,
        /// First digits of the digest held.
        held: String,
        /// First digits of the digest offered.
        offered: String,
    },
    /// Nothing by that name.
    #[error("the office has no house “{wanted}”; it has: {known}")]
    NoSuchHouse {
        /// What was asked for.
        wanted: String,
        /// What there is.
        known: String,
    },
    /// More than one by that name.
    #[error("“{wanted}” can mean several houses: {known}; give more of the id")]
    Several {
        /// What was asked for.
        wanted: String,
        /// Which.
        known: String,
    },
    /// The condition is not in the catalog's forecast and not known.
    #[error("“{condition}” is no condition of the catalog{hint}")]
    NoSuchCondition {
        /// What was given.
        condition: String,
        /// A suggestion.
        hint: String,
    },
    /// The forecast of the house has no such place.
    #[error("the forecast of this house has no place “{place}”; it has: {known}")]
    NoSuchPlace {
        /// What was given.
        place: String,
        /// What there is.
        known: String,
    },
    /// No such packet.
    #[error("the office has no packet {packet}")]
    NoPacket {
        /// What was asked for.
        packet: String,
    },
    /// No such photograph.
    #[error("there is no photograph {photo} here")]
    NoPhoto {
        /// What was asked for.
        photo: String,
    },
    /// A photograph that cannot be taken or shown.
    #[error(transparent)]
    Pictures(#[from] apart::ApartError),
    /// No forecast to hold findings against.
    #[error("no packet of the house {survey} came before its demolition began")]
    NoForecast {
        /// The house.
        survey: String,
    },
    /// A condition the forecast held out of scope.
    #[error(
        "the forecast of this house does not hold “{condition}”; what was found all the same is entered under “found something else”, or with “underlath finding”"
    )]
    NotForecast {
        /// Its key.
        condition: String,
    },
    /// A condition the forecast holds, entered as one that nobody forecast.
    #[error("the forecast of this house holds “{condition}”; enter what was found in its row")]
    InForecast {
        /// Its key.
        condition: String,
    },
    /// A note that is too long.
    #[error("a note has at most {most} letters")]
    LongNote {
        /// How many it may have.
        most: usize,
    },
    /// Arguments of a command that are none.
    #[error("the arguments of “{command}” cannot be read: {what}")]
    Arguments {
        /// The command.
        command: String,
        /// What is wrong.
        what: String,
    },
    /// A finding that cannot be kept.
    #[error(transparent)]
    Finding(#[from] review::FindingError),
    /// The assessment in a packet cannot be read.
    #[error(transparent)]
    Forecast(#[from] assessment::forecast::ForecastError),
    /// A key, a signed text, or the store of the office's secret.
    #[error(transparent)]
    Key(#[from] keys::KeyError),
    /// A key needs the name of the firm.
    #[error("give the firm's name, in at most 120 letters")]
    NoFirm,
    /// The office has no key.
    #[error("this office has no key yet ({path}); make one first")]
    NoKey {
        /// Where it would be.
        path: String,
    },
    /// The office has a secret, and its database does not know the key.
    #[error(
        "this office has a key ({secret}), but its database {path} knows nothing of it, nor of what was certified and \
         revoked; restore the database from the last backup"
    )]
    RegisterLost {
        /// The database.
        path: PathBuf,
        /// Where the secret is.
        secret: String,
    },
    /// The packet carries no certificate, and nobody asked for it all the same.
    #[error(
        "the packet of “{label}” was not taken: no certificate of this office vouches for the key {key} that sealed it"
    )]
    NotVouched {
        /// The house.
        label: String,
        /// Thumbprint of the key.
        key: String,
    },
    /// The firm's scanner found something.
    #[error("{file} was not taken: the scanner of this office found something in it that does harm")]
    Harmful {
        /// The first digits of its digest.
        file: String,
    },
    /// The firm's scanner could not look.
    #[error("it was not taken: the scanner {program} could not look at it: {why}")]
    NotScanned {
        /// The program.
        program: PathBuf,
        /// Why.
        why: crate::NotScanned,
    },
    /// The key was revoked.
    #[error("the key {key} is revoked; have the device make a new one and ask again")]
    KeyRevoked {
        /// Its thumbprint.
        key: String,
    },
    /// Nothing to revoke.
    #[error("this office never certified {what}")]
    NeverCertified {
        /// Serial number or thumbprint.
        what: String,
    },
    /// The packet is whole, but its key does not count here.
    #[error("the packet of “{label}” was not taken: {}", fault.name())]
    NotTaken {
        /// The house.
        label: String,
        /// Why.
        fault: Box<keys::Fault>,
    },
    /// The database of the desk.
    #[error(
        "the office's database {path} cannot be used: {what}. restore it from the last backup; packets can be received again, findings cannot"
    )]
    Database {
        /// The file.
        path: PathBuf,
        /// What SQLite says.
        what: String,
    },
    /// The database was written by a newer program.
    #[error("the office's database {path} was written by a newer program; use that one")]
    Newer {
        /// The file.
        path: PathBuf,
    },
    /// A note of what was learned or decided.
    #[error("{path} cannot be read: {what}; put it back from a backup")]
    Learned {
        /// The file.
        path: PathBuf,
        /// What is wrong.
        what: String,
    },
    /// Lines that cannot be taken over.
    #[error(transparent)]
    Apply(#[from] review::learn::ApplyError),
    /// Nothing was proposed from the catalog as it is.
    #[error("nothing is proposed from the catalog as it is now; open what the houses teach again")]
    NothingProposed,
    /// Learning ended before it was done.
    #[error("learning stopped by a fault of the program; nothing was changed")]
    Stopped,
    /// A file of the overlay that may not travel.
    #[error("“{name}” is no name under which a file of the overlay can travel to a tablet")]
    NotToTravel {
        /// Its path in the overlay.
        name: String,
    },
    /// The firm's files are those of the last version, or there are none.
    #[error("there is nothing to publish: the firm's numbers are those of the last version")]
    NothingToPublish {
        /// Number of the last version.
        last: Option<u64>,
    },
    /// Files that are too large, too many, or learned from too many houses.
    #[error("the firm's files are too large to be published")]
    TooMuchToPublish,
    /// The files of the catalog.
    #[error("{0}")]
    Shelf(crate::learning::ShelfError),
    /// Codes of a second factor that could not be made.
    #[error("the codes of a second factor could not be made: {what}")]
    Codes {
        /// What the part that makes them says.
        what: String,
    },
    /// A file.
    #[error("{path}: {what}")]
    File {
        /// The file or folder.
        path: PathBuf,
        /// What the system says.
        what: String,
    },
}
