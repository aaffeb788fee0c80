//! `data/household-signature.json`: the household's own signature, drawn under the page it read.
//!
//! A drawn line and a typed name prove nothing by themselves. What counts is that the record names the page by its sums and
//! lies under the seal: whoever holds the packet can show which page was on the screen when the line was drawn.

use std::fmt::Write as _;

use serde::{Deserialize, Serialize};
use survey::{Digest, Stamp};

use crate::stream::Sums;
use crate::{PacketError, PageFile, gather, limits, names};

const FORMAT: &str = "underlath-household-signature";
const VERSION: u64 = 1;

/// A point of a line that was drawn: so far right, so far down, in the field of [`HouseholdSignature::WIDE`] by
/// [`HouseholdSignature::HIGH`].
pub type Point = [u16; 2];

/// The household's signature. Written as JSON with these fields in this order.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HouseholdSignature {
    format: String,
    version: u64,
    /// The page that was read, its name within `data/`.
    pub page: String,
    /// SHA-256 of that page.
    pub sha256: Digest,
    /// SHA-512 of that page, in lower-case hexadecimal.
    pub sha512: String,
    /// The sentence that stood above the line.
    pub said: String,
    /// The name as it was typed.
    pub name: String,
    /// When, by the device's clock.
    pub signed_at: Stamp,
    /// The lines in the order they were drawn; none where somebody who cannot draw them signed by name alone.
    pub strokes: Vec<Vec<Point>>,
}

impl HouseholdSignature {
    /// The page a household is shown and signs, its name within `data/`.
    pub const PAGE: &'static str = "pages/household.pdf";
    /// Points from left to right.
    pub const WIDE: u16 = 1000;
    /// Points from top to bottom.
    pub const HIGH: u16 = 320;

    /// Signs a page.
    ///
    /// # Errors
    /// No name, letters in it that steer a screen, lines that leave the field or are more than a hand draws.
    pub fn of(
        page: &PageFile,
        said: &str,
        name: &str,
        strokes: Vec<Vec<Point>>,
        signed_at: Stamp,
    ) -> Result<Self, PacketError> {
        let sums = Sums::of(&page.bytes);
        let signature = Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            page: page.name.clone(),
            sha256: sums.digest,
            sha512: sums.long,
            said: said.to_owned(),
            name: name.trim().to_owned(),
            signed_at,
            strokes,
        };
        signature.check().map_err(|reason| PacketError::Contents { reason })?;
        Ok(signature)
    }

    /// What was drawn, as SVG in black on nothing.
    pub fn svg(&self) -> String {
        let (path, wide, high) = (self.path(), Self::WIDE, Self::HIGH);
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {wide} {high}\"><path d=\"{path}\" fill=\"none\" \
             stroke=\"#000\" stroke-width=\"6\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/></svg>\n"
        )
    }

    /// The lines as the data of an SVG path, in a field of [`HouseholdSignature::WIDE`] by [`HouseholdSignature::HIGH`].
    pub fn path(&self) -> String {
        let mut path = String::new();
        for stroke in &self.strokes {
            for (n, [x, y]) in stroke.iter().enumerate() {
                let _ = write!(path, "{}{x} {y}", if n == 0 { 'M' } else { 'L' }); // a String takes everything
            }
        }
        path
    }

    fn check(&self) -> Result<(), String> {
        let bad = |reason: &str| Err(reason.to_owned());
        if self.name.is_empty() || self.name.chars().count() > limits::NAME {
            return Err(format!("a signature needs a name of 1 to {} letters", limits::NAME));
        }
        if gather::steers(&[&self.name, &self.said]) {
            return bad("the name or the sentence of the signature holds letters that steer a screen");
        }
        let points: usize = self.strokes.iter().map(Vec::len).sum();
        if points > limits::SIGNATURE_POINTS || self.strokes.len() > limits::SIGNATURE_STROKES {
            return bad("the signature has more lines or points than one that is drawn by hand");
        }
        if self.strokes.iter().any(Vec::is_empty) {
            return bad("a line of the signature has no points");
        }
        let outside = |[x, y]: &Point| *x > Self::WIDE || *y > Self::HIGH;
        if self.strokes.iter().flatten().any(outside) {
            return bad("the signature leaves its field");
        }
        if !self.page.ends_with(".pdf") {
            return bad("the signature is not under a page");
        }
        Ok(())
    }

    pub(crate) fn to_text(&self) -> Vec<u8> {
        // Strings, numbers and lists only: this cannot fail.
        let mut text = serde_json::to_vec(self).unwrap_or_default();
        text.push(b'\n');
        text
    }

    /// Reads the record strictly and holds it against the page it names, whose sums are asked for by name.
    pub(crate) fn from_text(
        text: &[u8],
        page: impl FnOnce(&str) -> Option<(Digest, String)>,
    ) -> Result<Self, PacketError> {
        #[derive(Deserialize)]
        struct Head {
            version: u64,
        }
        let bad = |reason: String| PacketError::Text { file: names::HOUSEHOLD, line: None, reason };
        let head: Head = serde_json::from_slice(text).map_err(|e| bad(e.to_string()))?;
        if head.version > VERSION {
            let found = head.version.to_string();
            return Err(PacketError::Newer { file: names::HOUSEHOLD, found, known: "1" });
        }
        let signature: Self = serde_json::from_slice(text).map_err(|e| bad(e.to_string()))?;
        if signature.format != FORMAT || signature.version != VERSION || signature.to_text() != text {
            return Err(bad("it is readable, but not spelled as sealing writes it".to_owned()));
        }
        signature.check().map_err(bad)?;
        match page(&signature.page) {
            Some((short, long)) if short == signature.sha256 && long == signature.sha512 => Ok(signature),
            Some(_) => Err(bad(format!("it is under another page than {} as it lies here", signature.page))),
            None => Err(bad(format!("it is under {}, which is not here", signature.page))),
        }
    }
}
