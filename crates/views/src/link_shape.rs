//! The shapes of the line between a tablet and its office: who is paired with whom, and what is on its way.
//!
//! | door | command | arguments | answer |
//! | --- | --- | --- | --- |
//! | tablet | `office` | | [`OfficeLink`] |
//! | tablet | `read-link` | `link` | [`Pairing`] |
//! | tablet | `pair-photo` | the bytes of a picture, as photographs travel | [`Pairing`] |
//! | tablet | `pair` | `link`, `name` | [`OfficeLink`] |
//! | tablet | `unpair` | | [`OfficeLink`] |
//! | tablet | `send` | `survey`, `packet` | all [`Sending`] |
//! | tablet | `sending` | | all [`Sending`] |
//! | tablet | `fetch-catalog` | | [`OfficeLink`] |
//! | office | `tablets` | | all [`Tablet`] |
//! | office | `invite-tablet` | `address`, may be left out | [`Invitation`] |
//! | office | `revoke-tablet` | `id`, `key` | all [`Tablet`] |
//! | office | `arriving` | | all [`Arriving`] |
//! | office | `published` | | [`PublishedView`] |
//! | office | `publish-catalog` | `again`, may be left out | [`PublishedView`] |

use serde::Serialize;

use crate::shape::view;

view! {
    /// The office this tablet hands its packets to.
    OfficeLink {
        /// The office; none until the tablet is paired.
        office: Option<LinkedOffice>,
        /// The catalog an office published and this tablet took; none: it walks by the shipped one, or its own files.
        catalog: Option<TakenView>,
        /// Why the last one that came was not taken.
        not_taken: Option<String>,
    }
}

view! {
    /// A published catalog that a tablet took.
    TakenView {
        /// Which.
        version: VersionView,
        /// When this tablet took it, by its own clock.
        since: String,
        /// Why it is not in use all the same; none where it is.
        unused: Option<String>,
    }
}

view! {
    /// A version of a firm's catalog.
    VersionView {
        /// Its number.
        number: u32,
        /// When it was published, by the office's clock.
        at: String,
        /// By whom.
        by: String,
        /// How many houses stand in its numbers.
        houses: u32,
        /// First digits of the digest of the whole catalog.
        catalog: String,
    }
}

view! {
    /// What an office published to its tablets.
    PublishedView {
        /// The last version; none: nothing was published.
        last: Option<VersionView>,
        /// True where the firm's numbers are others by now.
        differs: bool,
    }
}

view! {
    /// An office this tablet is paired with.
    LinkedOffice {
        /// Name of the firm.
        firm: String,
        /// Where the office is: a name or an address, and a port.
        address: String,
        /// SHA-256 of the office's certificate, as the office's console prints it.
        fingerprint: String,
        /// What this tablet is called there.
        device: String,
        /// When it was paired, by this tablet's clock.
        since: String,
    }
}

view! {
    /// What stands in a link, to be compared by a person before pairing.
    Pairing {
        /// The link itself, to be handed to `pair`.
        link: String,
        /// Name of the firm, as the link says.
        firm: String,
        /// Where the office is: a name or an address, and a port.
        address: String,
        /// SHA-256 of the certificate the office will show, as its console prints it.
        fingerprint: String,
    }
}

/// How far a packet is on its way to the office.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum SendingState {
    /// Begun and not going on at this moment: the line is down, or the program was ended. It is taken up again by `send`.
    Waiting,
    /// On its way.
    Going,
    /// The office has it and signed a receipt.
    Acknowledged,
    /// The office does not take it.
    Refused,
}

view! {
    /// A packet on its way to the office.
    Sending {
        /// SHA-256 of the packet.
        packet: String,
        /// Survey id.
        survey: String,
        /// Its length in bytes.
        #[cfg_attr(test, ts(type = "number"))]
        bytes: u64,
        /// Bytes the office has of it.
        #[cfg_attr(test, ts(type = "number"))]
        sent: u64,
        /// How far it is.
        state: SendingState,
        /// What is to be said of it: why it waits, why it was refused, when the office had it.
        said: Option<String>,
        /// When it came to stand so.
        at: String,
    }
}

view! {
    /// A tablet that was paired with this office.
    Tablet {
        /// Its number.
        id: String,
        /// What it is called.
        name: String,
        /// Thumbprint of its key.
        key: String,
        /// When it was paired.
        paired_at: String,
        /// Who invited it.
        paired_by: Option<String>,
        /// When it was last here.
        last_seen: Option<String>,
        /// Since when it may send nothing more.
        revoked_at: Option<String>,
        /// What it said it holds of the published catalog.
        holds: HoldsView,
        /// The version it said it holds.
        version: Option<u32>,
        /// A version that was handed to it, until it says that it took it.
        handed: Option<u32>,
    }
}

/// What a tablet said it holds of the published catalog.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum HoldsView {
    /// It never asked.
    NotSaid,
    /// None.
    Nothing,
    /// A version of this office.
    Version,
    /// One that is not this office's.
    Another,
}

view! {
    /// An invitation for one tablet.
    Invitation {
        /// The link, to be pasted where no camera is.
        link: String,
        /// The same as a picture.
        qr: QrCode,
        /// Until when it can be used, and once only.
        until: String,
    }
}

view! {
    /// A QR code (ISO/IEC 18004) to be drawn black on white.
    QrCode {
        /// Modules on each side, the quiet zone of four around it counted in.
        size: u32,
        /// Its black modules as the `d` of an SVG path, one unit to a module.
        path: String,
    }
}

view! {
    /// A packet that is coming over the line and is not whole yet.
    Arriving {
        /// SHA-256 of the packet.
        packet: String,
        /// Which tablet sends it.
        tablet: String,
        /// Its length in bytes.
        #[cfg_attr(test, ts(type = "number"))]
        bytes: u64,
        /// Bytes that are here.
        #[cfg_attr(test, ts(type = "number"))]
        have: u64,
        /// When it was begun.
        since: String,
        /// When the last piece of it came.
        last: String,
    }
}
