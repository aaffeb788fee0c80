//! Sealing: assess as the log stands, note the sealing in the log, write the packet.
//!
//! The entry comes before the file: should writing fail, the log says that sealing was begun, nothing else changed,
//! and sealing again makes a new packet.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use assessment::Forecast;
use assessment::promise::{Promised, Terms};
use keys::{Certificate, Signer as _, Thumbprint};
use packet::{Contents, Originals, PageFile, Readers, Sealer};
use store::KeptPacket;
use survey::catalog::Catalog;
use survey::log::{Body, Sealed};
use survey::model::Picture;
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};
use views::packet_shape::{PacketView, PacketsView, SealingView};
use words::{Words, msg};

use crate::household_signs::ToSign;
use crate::{Desk, Error, Kind, Kit, assess};

/// How to seal.
#[derive(Clone, Default)]
pub struct SealOptions {
    /// The firm's name, if it gives one.
    pub organization: Option<String>,
    /// The language of the pages, if it is not the desk's.
    pub pages_in: Option<&'static Words>,
    /// The language of the household's pages, if it is not that of the others.
    pub household_in: Option<&'static Words>,
    /// The line under the firm's name, if not the one this device was set to.
    pub address: Option<String>,
    /// The folder of the firm's own templates; without it the folder `templates` in the home, if it is there.
    pub templates: Option<PathBuf>,
    /// What the firm promises the household, if it does.
    pub promise: Option<OfferedPromise>,
    /// Whether the household is to sign its page before the packet is written.
    pub household_signs: bool,
}

/// A promise the firm makes: some conditions will not change the price, up to a cap.
#[derive(Clone, Debug)]
pub struct OfferedPromise {
    /// Keys of the conditions.
    pub cover: Vec<String>,
    /// The cap.
    pub cap: Money,
}

impl OfferedPromise {
    /// As it is priced, by the firm's loading.
    pub(crate) fn terms(&self, catalog: &Catalog) -> Promised<'_> {
        Promised { cover: &self.cover, cap: self.cap, under: None, terms: Terms::of(catalog) }
    }
}

/// A packet on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct SealedPacket {
    /// The file.
    pub path: PathBuf,
    /// SHA-256 of the file.
    pub digest: Digest,
    /// Its size in bytes.
    pub bytes: u64,
    /// Files inside.
    pub files: u64,
    /// Photographs inside.
    pub photos: u32,
    /// Pages and tables inside, as far as they were made.
    pub pages: Vec<PageFile>,
    /// The key that sealed it.
    pub key: Thumbprint,
    /// The certificate it carries, if the office gave this device one.
    pub certificate: Option<Certificate>,
}

/// A house being sealed, one file after the other.
pub struct Sealing {
    survey: SurveyId,
    number: u32,
    entries: u64,
    sealed_at: Stamp,
    path: PathBuf,
    packet: packet::Sealing,
    originals: Originals,
    pages: Vec<PageFile>,
    certificate: Option<Certificate>,
    pub(crate) to_sign: Option<ToSign>,
    pub(crate) signed_by: Option<String>,
}

impl Sealing {
    /// The house.
    pub fn survey(&self) -> SurveyId {
        self.survey
    }
    /// Number of the packet among the house's.
    pub fn number(&self) -> u32 {
        self.number
    }
    /// Photographs written, and photographs in all.
    pub fn photos(&self) -> (u32, u32) {
        (self.packet.photos_written(), self.packet.photos())
    }
    /// Puts the household's signature into the packet.
    pub(crate) fn sign_household(&mut self, signature: &packet::HouseholdSignature) -> Result<(), Error> {
        Ok(self.packet.sign_household(signature)?)
    }
    /// Pages and tables, as the packet will hold them.
    pub fn pages(&self) -> &[PageFile] {
        &self.pages
    }
    /// The page of that name, as the packet will hold it.
    pub(crate) fn page(&self, name: &str) -> Option<&PageFile> {
        self.pages.iter().find(|page| page.name == name)
    }
    /// Writes the next file; false once there is none.
    ///
    /// # Errors
    /// A photograph that was damaged, a disk that is full. The sealing is then to be dropped.
    pub fn step(&mut self) -> Result<bool, Error> {
        self.to_sign = None; // what is being written cannot be signed any more
        Ok(self.packet.step(&mut self.originals)?)
    }
    /// Writes what is left, names the packet and notes it on this device.
    ///
    /// # Errors
    /// As [`Sealing::step`]; another file where the packet is to lie.
    pub fn finish(mut self, desk: &mut Desk) -> Result<SealedPacket, Error> {
        let photos = self.packet.photos();
        let secret = crate::device_key::secret(desk)?;
        let sealed = self.packet.finish(&mut self.originals, &secret)?;
        desk.store.keep_packet(&KeptPacket {
            survey: self.survey,
            number: self.number,
            // Where it lies however the program is started the next time.
            path: std::path::absolute(&self.path).unwrap_or_else(|_| self.path.clone()),
            digest: sealed.digest,
            bytes: sealed.bytes,
            files: sealed.files,
            photos,
            entries: self.entries,
            pages: !self.pages.is_empty(),
            sealed_at: self.sealed_at,
            signed_by: self.signed_by,
        })?;
        Ok(SealedPacket {
            path: self.path,
            digest: sealed.digest,
            bytes: sealed.bytes,
            files: sealed.files,
            photos,
            pages: self.pages,
            key: secret.public().thumbprint(),
            certificate: self.certificate,
        })
    }
}

/// Seals the house into `folder` and returns where the packet lies.
///
/// # Errors
/// As [`begin_sealing`] and [`Sealing::finish`].
pub fn seal(
    desk: &mut Desk,
    survey: SurveyId,
    folder: &Path,
    options: &SealOptions,
    kit: &mut Kit<'_>,
) -> Result<SealedPacket, Error> {
    begin_sealing(desk, survey, folder, options, kit)?.finish(desk)
}

/// Assesses the house, notes the sealing in the log and begins the packet in `folder`; it names the house's packet
/// before it, if one was sealed on this device.
///
/// # Errors
/// A house that cannot be assessed, photographs that are missing, a folder that cannot be written.
pub fn begin_sealing(
    desk: &mut Desk,
    survey: SurveyId,
    folder: &Path,
    options: &SealOptions,
    kit: &mut Kit<'_>,
) -> Result<Sealing, Error> {
    // What could be refused, a template of the firm's among it, is asked before anything is noted.
    let promise = match &options.promise {
        Some(offered) => Some(crate::promise(desk, survey, &offered.terms(&desk.catalog))?),
        None => None,
    };
    let mut style = crate::templates::style(desk, options.templates.as_deref())?;
    style.address = options.address.clone().or(style.address);
    // Nor must a key that cannot be used leave a sealing noted.
    let (secret, certificate) = crate::device_key::sealing_key(desk, kit)?;
    let (_, picture) = desk.read(survey)?;
    let mut originals = Originals::new(originals(desk, &picture));
    let assessed = assess(desk, survey, kit)?;
    let sealed_at = kit.now();
    let (entries, picture) = desk.read(survey)?;
    let number = entries.iter().filter(|e| matches!(e.body, Body::Sealed(_))).count() as u32 + 1;
    let label = picture.label().to_owned();
    let network = assessment::bif(&assessed.network, &assessed.forecast);
    let organization = match &options.organization {
        Some(firm) => Some(crate::enter::line_of(msg!("the-name"), firm, 120)?),
        None => crate::settings::firm(desk)?,
    };
    let crew = options.pages_in.unwrap_or(desk.words());
    let household = options.household_in.unwrap_or(crew);
    let readers = Readers { crew, household };
    let signs = options.household_signs.then_some(household);
    let about = crate::pages::Sealing {
        survey,
        number,
        organization: organization.as_deref(),
        sealed_at,
        assessment: assessed.digest,
        readers,
        promise: promise.as_ref(),
    };
    let (pages, to_sign) = pages(desk, &picture, &assessed.forecast, &about, &style, signs)?;
    let path = free(folder, &label, survey, number)?;
    desk.append(survey, Body::Sealed(Sealed { assessment: assessed.digest }), kit)?;
    // Another program may have taken in a photograph meanwhile.
    let (entries, picture) = desk.read(survey)?;
    originals.also(self::originals(desk, &picture));
    let contents = Contents {
        survey,
        label: &label,
        number,
        device: desk.store.device(),
        sealed_at,
        organization: organization.as_deref(),
        entries: &entries,
        log_position: assessed.forecast.log.entries,
        assessment: &assessed.bytes,
        network: network.as_bytes(),
        catalog: assessed.forecast.catalog.digest,
        engine: &assessed.forecast.engine,
        previous: desk.store.packets(survey)?.last().map(|packet| packet.digest),
        pages: &pages,
        sealer: certificate.as_ref().map_or(Sealer::Key(secret.public()), Sealer::Certified),
    };
    let packet = packet::Sealing::begin(&path, &contents, &mut originals)?;
    let (entries, certificate) = (entries.len() as u64, certificate.map(|c| c.claimed().clone()));
    Ok(Sealing {
        survey,
        number,
        entries,
        sealed_at,
        path,
        packet,
        originals,
        pages,
        certificate,
        to_sign,
        signed_by: None,
    })
}

/// The photographs of a house, where they lie.
fn originals(desk: &Desk, picture: &Picture) -> BTreeMap<Digest, PathBuf> {
    // What came after demolition was declared goes along too: nothing that was recorded is lost.
    let late = picture.set_aside.iter().flat_map(|entry| match &entry.body {
        Body::Photo(photo) => vec![photo.digest],
        Body::Answer(answer) => answer.photos.clone(),
        _ => Vec::new(),
    });
    picture.photos.keys().copied().chain(late).map(|d| (d, desk.store.blobs().path(d))).collect()
}

/// The packets of a house that were sealed on this device, and how far a sealing is that goes on.
///
/// # Errors
/// A house that is not there.
pub fn packets(
    desk: &Desk,
    survey: SurveyId,
    sealing: Option<&Sealing>,
    now: Stamp,
) -> Result<PacketsView, Error> {
    let (entries, picture) = desk.read(survey)?;
    let kept = desk.store.packets(survey)?;
    let inside = kept.last().map_or(0, |packet| packet.entries);
    Ok(PacketsView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        firm: crate::settings::firm(desk)?,
        certificate: crate::device_key::warning(desk, now).map(|said| desk.words().say(&said)),
        packets: kept.iter().rev().map(packet_view).collect(),
        since: u32::try_from((entries.len() as u64).saturating_sub(inside)).unwrap_or(u32::MAX),
        sealing: sealing.filter(|s| s.survey == survey).map(|s| going(s, None)),
    })
}

/// How far a sealing is.
pub fn going(sealing: &Sealing, packet: Option<PacketView>) -> SealingView {
    let (photos_written, photos) = sealing.photos();
    SealingView { photos_written, photos, signs: sealing.to_sign.is_some(), packet }
}

/// A packet of a house by its number.
///
/// # Errors
/// A number that no packet on this device has.
pub fn packet_of(desk: &Desk, survey: SurveyId, number: u32) -> Result<KeptPacket, Error> {
    let found = desk.store.packets(survey)?.into_iter().find(|packet| packet.number == number);
    found.ok_or_else(|| {
        Error::new(Kind::Missing, msg!("error-no-packet", n = number)).hint(msg!("error-no-packet-hint"))
    })
}

/// A packet for the screens.
pub fn packet_view(packet: &KeptPacket) -> PacketView {
    let name = packet.path.file_name().unwrap_or_default();
    PacketView {
        number: packet.number,
        name: name.to_string_lossy().into_owned(),
        path: packet.path.display().to_string(),
        there: packet.path.is_file(),
        digest: packet.digest.to_string(),
        bytes: packet.bytes,
        files: packet.files,
        photos: packet.photos,
        pages: packet.pages,
        sealed_at: packet.sealed_at.to_string(),
        signed_by: packet.signed_by.clone(),
    }
}

/// Where the packet is to lie: named by the label; where another house's packet has that name, by the id too, because two
/// labels can differ by a dot alone. Asked before the sealing is noted.
fn free(folder: &Path, label: &str, survey: SurveyId, number: u32) -> Result<PathBuf, Error> {
    let named = folder.join(format!("{}-{number}.zip", file_name(label, survey)));
    if !named.exists() {
        return Ok(named);
    }
    let with_id = folder.join(format!("{}-{survey}-{number}.zip", file_name(label, survey)));
    if !with_id.exists() {
        return Ok(with_id);
    }
    let message = msg!("error-file-there", path = with_id.display().to_string());
    Err(Error::new(Kind::Conflict, message).hint(msg!("error-other-file-hint")))
}

/// A file name without spaces from a label: lower case, digits and hyphens; the id where nothing is left.
fn file_name(label: &str, survey: SurveyId) -> String {
    let mut name = String::new();
    for c in label.chars() {
        if c.is_ascii_alphanumeric() {
            name.push(c.to_ascii_lowercase());
        } else if !name.ends_with('-') && !name.is_empty() {
            name.push('-');
        }
    }
    let name: String = name.trim_end_matches('-').chars().take(60).collect();
    if name.is_empty() { survey.to_string() } else { name }
}

/// Pages to read, when this program was built with them, and the household's as it is shown to be signed.
#[cfg(feature = "pdf")]
fn pages(
    desk: &Desk,
    picture: &Picture,
    forecast: &Forecast,
    sealing: &crate::pages::Sealing<'_>,
    style: &packet::Style,
    signs: Option<&'static Words>,
) -> Result<(Vec<PageFile>, Option<ToSign>), Error> {
    let book = crate::pages::book(desk, picture, forecast, sealing)?;
    let files = packet::book(&book, style, sealing.readers)?;
    let to_sign = match signs {
        None => None,
        Some(words) => {
            let shown = packet::shown(&book, style, sealing.readers)?;
            Some(ToSign { pictures: shown.pictures, texts: shown.texts, words })
        }
    };
    Ok((files, to_sign))
}

#[cfg(not(feature = "pdf"))]
fn pages(
    _: &Desk,
    _: &Picture,
    _: &Forecast,
    _: &crate::pages::Sealing<'_>,
    _: &packet::Style,
    signs: Option<&'static Words>,
) -> Result<(Vec<PageFile>, Option<ToSign>), Error> {
    if signs.is_some() {
        return Err(Error::new(Kind::Missing, msg!("error-no-page-to-sign")));
    }
    Ok((Vec::new(), None))
}
