//! The shapes of packets: those of a house, and one that is being sealed.

use serde::Serialize;

use crate::shape::view;

view! {
    /// The packets of a house that were sealed on this device.
    PacketsView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// The firm that stands on its pages; none until one is set.
        firm: Option<String>,
        /// The packets, the last one first.
        packets: Vec<PacketView>,
        /// What is to be known of this device's certificate before sealing: that it runs out soon, or has.
        certificate: Option<String>,
        /// Entries recorded since the last one; with none, all there are.
        since: u32,
        /// The packet that is being sealed now.
        sealing: Option<SealingView>,
    }
}

view! {
    /// A packet as it was sealed.
    PacketView {
        /// Its number among the house's packets, from 1.
        number: u32,
        /// Name of the file.
        name: String,
        /// Where it lies.
        path: String,
        /// True while it lies there.
        there: bool,
        /// SHA-256 of the file, in hexadecimal.
        digest: String,
        /// Its length in bytes.
        #[cfg_attr(test, ts(type = "number"))]
        bytes: u64,
        /// Files inside.
        #[cfg_attr(test, ts(type = "number"))]
        files: u64,
        /// Photographs inside.
        photos: u32,
        /// True when it holds pages to read.
        pages: bool,
        /// When it was sealed.
        sealed_at: String,
        /// Who of the household signed the page in it.
        signed_by: Option<String>,
    }
}

view! {
    /// How far a sealing is.
    SealingView {
        /// Photographs written.
        photos_written: u32,
        /// Photographs in all.
        photos: u32,
        /// True while the household can sign its page: nothing is written yet.
        signs: bool,
        /// The packet, once it is whole.
        packet: Option<PacketView>,
    }
}

view! {
    /// The page the household signs, as the packet will hold it.
    HouseholdPageView {
        /// The language of the page, by its tag.
        language: String,
        /// Each sheet of it as SVG.
        pictures: Vec<String>,
        /// The words of each sheet, for whoever does not see the pictures.
        texts: Vec<String>,
        /// The sentence above the signature.
        said: String,
        /// The field that is drawn in: so many points wide.
        wide: u16,
        /// So many points high.
        high: u16,
    }
}

view! {
    /// What was put where people look for files.
    HandedOverView {
        /// Where it lies.
        path: String,
    }
}
