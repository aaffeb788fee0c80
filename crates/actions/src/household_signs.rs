//! The household signs its page: after it was set, before the packet is written.

use packet::{HouseholdSignature, PacketError, Point};
use views::packet_shape::HouseholdPageView;
use words::{Words, msg};

use crate::{Error, Kind, Kit, Sealing};

/// The household's page while it can be signed.
pub(crate) struct ToSign {
    pub(crate) pictures: Vec<String>,
    pub(crate) texts: Vec<String>,
    /// The language of the page, and so of the sentence above the signature.
    pub(crate) words: &'static Words,
}

/// The page as the packet will hold it, to be read before it is signed.
///
/// # Errors
/// A sealing that was begun without a signature, or is already being written.
pub fn household_page(sealing: &Sealing) -> Result<HouseholdPageView, Error> {
    let ToSign { pictures, texts, words } = sealing.to_sign.as_ref().ok_or_else(too_late)?;
    Ok(HouseholdPageView {
        language: words.language().tag().to_owned(),
        pictures: pictures.clone(),
        texts: texts.clone(),
        said: said(words),
        wide: HouseholdSignature::WIDE,
        high: HouseholdSignature::HIGH,
    })
}

/// Puts the household's signature under its page: a name, and the lines that were drawn, if any were.
///
/// # Errors
/// As [`household_page`]; no name, or more lines than a hand draws.
pub fn sign_household(
    sealing: &mut Sealing,
    name: &str,
    strokes: Vec<Vec<Point>>,
    kit: &Kit<'_>,
) -> Result<(), Error> {
    let words = sealing.to_sign.as_ref().ok_or_else(too_late)?.words;
    let name = crate::enter::line_of(msg!("the-name"), name, packet::limits::NAME)?;
    let page = sealing.page(HouseholdSignature::PAGE).ok_or_else(too_late)?;
    let signature = HouseholdSignature::of(page, &said(words), &name, strokes, kit.now()).map_err(|e| {
        match e {
            // The name was held against all it can be; what is left is what was drawn.
            PacketError::Contents { .. } => Error::new(Kind::Input, msg!("error-signature-drawn")),
            other => other.into(),
        }
    })?;
    sealing.sign_household(&signature)?;
    sealing.to_sign = None;
    sealing.signed_by = Some(name);
    Ok(())
}

fn said(words: &Words) -> String {
    words.say(&msg!("pages-signature-said"))
}

fn too_late() -> Error {
    Error::new(Kind::Conflict, msg!("error-nothing-to-sign"))
}
