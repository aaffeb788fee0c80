//! The shapes of the settings of one device.

use serde::Serialize;

use crate::shape::view;

view! {
    /// How this device is set.
    SettingsView {
        /// The firm, as it stands on pages; empty until it is set.
        firm: String,
        /// The line under it, as street and telephone; empty until it is set.
        address: String,
        /// Who walks; empty until somebody said so.
        by: String,
        /// Name of the device.
        device: String,
        /// Id of the device.
        device_id: String,
        /// Thumbprint of the key it seals with; empty until it made one.
        key: String,
        /// Who vouches for that key, in words.
        key_state: String,
        /// Language of the screens; none: as the device.
        language: Option<String>,
        /// "paper" or "dark"; none: as the device.
        light: Option<String>,
        /// True where the keypad begins in millimeters.
        metric: bool,
        /// How close a reading is until somebody says otherwise, as the keypad writes it: `1/8"`.
        tolerance: String,
        /// The code books, by family.
        codes: Vec<CodesView>,
        /// Houses on this device.
        houses: u32,
        /// Photographs on this device.
        photos: u32,
        /// Where the records lie.
        folder: String,
        /// Name and digest of the catalog.
        catalog: String,
        /// Name and version of the program.
        software: String,
    }
}

view! {
    /// What the screens begin with.
    ScreensView {
        /// Their language; none: as the device.
        language: Option<String>,
        /// "paper" or "dark"; none: as the device.
        light: Option<String>,
    }
}

view! {
    /// What may be worked by in one family of codes.
    CodesView {
        /// Word of the family.
        family: String,
        /// The family in words.
        label: String,
        /// Its books.
        books: Vec<BookView>,
        /// The book that is worked by; none: every book is held up, and where they differ the answer is "ask locally".
        chosen: Option<String>,
        /// True where the catalog of the firm says it, so that it is not chosen here.
        fixed: bool,
    }
}

view! {
    /// One code book.
    BookView {
        /// Id.
        id: String,
        /// Short name.
        title: String,
        /// Document and edition.
        document: String,
    }
}
