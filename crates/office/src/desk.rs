//! Receiving packets, entering findings, comparing.
//!
//! A packet counts as received when it opened without complaint, its file is on the disk and its row is committed,
//! in that order; the receipt comes last. A crash in between leaves a file without a row, which the next receiving
//! of the same packet adopts.

use std::collections::BTreeSet;
use std::fs::{self, File, OpenOptions};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use assessment::Forecast;
use keys::{
    CLOCKS_APART_MS, Evidence, Fault, KeyStore, SealedBy, Serial, Signed, Signer as _, Thumbprint, judge,
};
use packet::Packet;
use review::{Comparison, Finding, compare};
use serde::Serialize;
use sha2::Digest as _;
use survey::catalog::{Catalog, nearest};
use survey::model::Closing;
use survey::{Digest, Key, Stamp, SurveyId};

use crate::people::Sight;
use crate::register::Register;
use crate::repo::{self, Holds, Known, Received, Repo, alone};
use crate::scanner::{FOR_A_PACKET, FOR_A_PHOTO};
use crate::{OfficeError, Scanner};

/// How the ending of a file begins that has not its own name yet.
const PART: &str = "part-";
/// How long such a file may be worked on; an older one was left behind by a program that was ended.
const LEFT_BEHIND: Duration = Duration::from_secs(24 * 60 * 60);

/// A new file beside `to` that nobody else has and only this account reads.
fn own(to: &Path) -> std::io::Result<(PathBuf, File)> {
    static NEXT: AtomicU64 = AtomicU64::new(1);
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    loop {
        let n = NEXT.fetch_add(1, Ordering::Relaxed);
        let part = to.with_extension(format!("{PART}{}-{n}", std::process::id()));
        match options.open(&part) {
            // Left behind, or of another machine's program of the same number.
            Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {}
            opened => return opened.map(|file| (part, file)),
        }
    }
}

/// Takes away what was left behind, by the clock of the disk, on which `fresh` was just made. What cannot be taken away now
/// is the next time.
fn sweep(folder: &Path, fresh: &File) {
    let Some(now) = fresh.metadata().ok().and_then(|meta| meta.modified().ok()) else { return };
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        let part = path.extension().is_some_and(|ending| ending.to_string_lossy().starts_with(PART));
        let old = || now.duration_since(entry.metadata().ok()?.modified().ok()?).ok();
        if part && old().is_some_and(|old| old > LEFT_BEHIND) {
            let _ = fs::remove_file(path);
        }
    }
}

/// The desk of one office: its records and a folder of packets.
pub struct Desk {
    pub(crate) dir: PathBuf,
    pub(crate) repo: Box<dyn Repo>,
    pub(crate) secrets: Box<dyn KeyStore + Send>,
    scanner: Option<Scanner>,
}

/// What to do with a packet that carries no certificate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Uncertified {
    /// An office with a key refuses it.
    Refuse,
    /// Somebody who knows where it comes from asked for it.
    Take,
}

/// Says that a packet is in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Receipt {
    /// SHA-256 of the packet file.
    pub digest: Digest,
    /// The house.
    pub survey: SurveyId,
    /// Its label.
    pub label: String,
    /// Number of the packet.
    pub number: u32,
    /// When it was received the first time.
    pub received_at: Stamp,
    /// False when it was already here.
    pub first_time: bool,
    /// The key that sealed it.
    pub sealed_by: Thumbprint,
    /// Number of the certificate this office gave that key, if it did.
    pub serial: Option<Serial>,
    /// The receipt signed by the office, to be handed back; none while the office has no key.
    pub signed: Option<PathBuf>,
}

/// One packet on the desk.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReceivedPacket {
    /// SHA-256 of the packet file.
    pub digest: Digest,
    /// The house.
    pub survey: SurveyId,
    /// Its label.
    pub label: String,
    /// Number of the packet.
    pub number: u32,
    /// When it was received.
    pub received_at: String,
    /// True when its log declares demolition: its forecast never counts as one in time.
    pub after_demolition: bool,
}

impl Desk {
    /// Opens the desk in `dir`, making it on first use.
    pub fn open(dir: &Path) -> Result<Self, OfficeError> {
        let packets = dir.join("packets");
        // Photographs of homes and hashes of passwords: for the account that runs the office. A folder that was there
        // keeps the rights the firm gave it.
        crate::backup::make_private(&packets).map_err(|e| file_error(&packets, &e))?;
        let repo = repo::in_folder(dir)?;
        let secrets = crate::register::in_files(&dir.join("keys"));
        let mut desk = Self { dir: dir.to_owned(), repo, secrets, scanner: None };
        desk.adopt_register()?;
        Ok(desk)
    }

    /// Keeps nothing any more that this scanner has not looked at.
    pub fn look_with(&mut self, scanner: Option<Scanner>) {
        self.scanner = scanner;
    }

    /// Takes a packet in. The same packet again gives the same receipt and changes nothing.
    ///
    /// An office with a key takes a packet whose certificate is its own, was valid and is not revoked; one that has no
    /// certificate at all only where it is asked for, because anybody can make such a packet. It is then noted
    /// that nobody vouched for it.
    ///
    /// # Errors
    /// A packet that does not open, contradicts itself or one that is here, was sealed by a key that does not count, or in
    /// which the scanner finds something.
    pub fn receive(&mut self, path: &Path, now: Stamp, bare: Uncertified) -> Result<Receipt, OfficeError> {
        let packet = packet::open(path)?;
        let digest = packet.digest();
        let register = self.register()?;
        if let Some(receipt) = self.receipt(packet.sealed_by(), &register)? {
            self.keep_file(path, digest)?; // brings back a file that was lost
            return self.sign(receipt, &register);
        }
        let vouched = counts(&packet, &register, now)?;
        if !vouched && bare == Uncertified::Refuse {
            let (label, key) = (packet.info().label.clone(), packet.sealed_by().key.to_string());
            return Err(OfficeError::NotVouched { label, key });
        }
        let forecast_bytes = packet.assessment().to_vec();
        let forecast = Forecast::from_bytes(&forecast_bytes)?;
        let info = packet.info();
        if forecast.survey != info.survey || forecast.log.entries != info.log_position {
            return Err(OfficeError::Mismatch { label: info.label.clone() });
        }
        self.keep_file(path, digest)?;
        let serial = given_by(&register, packet.sealed_by());
        let receipt = self.keep_row(&packet, serial, &forecast_bytes, now, vouched)?;
        self.sign(receipt, &register)
    }

    fn keep_row(
        &mut self,
        packet: &Packet,
        serial: Option<Serial>,
        forecast: &[u8],
        now: Stamp,
        vouched: bool,
    ) -> Result<Receipt, OfficeError> {
        let (info, digest) = (packet.info(), packet.digest());
        let receipt = |received_at, first_time| Receipt {
            digest,
            survey: info.survey,
            label: info.label.clone(),
            number: info.number,
            received_at,
            first_time,
            sealed_by: packet.sealed_by().key,
            serial,
            signed: None,
        };
        alone(self.repo.as_mut(), |repo| {
            match repo.packet_numbered(info.survey, info.device, info.number)? {
                None => {}
                // Another process took it in meanwhile.
                Some(held) if held.digest == digest => return Ok(receipt(held.received_at, false)),
                Some(held) => {
                    return Err(OfficeError::Conflict {
                        label: info.label.clone(),
                        number: info.number,
                        held: held.digest.short(),
                        offered: digest.short(),
                    });
                }
            }
            let row = Received {
                digest,
                survey: info.survey,
                device: info.device,
                number: info.number,
                label: info.label.clone(),
                sealed_at: info.sealed_at,
                received_at: now,
                position: 0, // given below
                bytes: packet.bytes(),
                vouched,
                after_demolition: Closing::of(packet.entries()).declared_by().is_some(),
            };
            repo.add_packet(&row, forecast)?;
            for (photo, at, bytes) in packet.photo_places() {
                repo.keep_known(photo, &Known { packet: digest, at, bytes })?;
            }
            Ok(receipt(now, true))
        })
    }

    /// Copies the packet file beside the others. What is copied is hashed on the way, because the file may have changed since
    /// it was opened.
    fn keep_file(&self, from: &Path, digest: Digest) -> Result<(), OfficeError> {
        let to = self.packet_path(digest);
        let whole = |file: &Path| File::open(file).and_then(|mut file| sum(&mut file, &mut std::io::sink()));
        if to.exists() && whole(&to).map_err(|e| file_error(&to, &e))? == digest {
            return Ok(());
        }
        self.place(&to, &digest.short(), FOR_A_PACKET, |out| {
            if sum(&mut File::open(from)?, out)? != digest {
                return Err(std::io::Error::other(
                    "the packet changed while it was being received; send it again",
                ));
            }
            Ok(())
        })
    }

    /// Has a file written under a name that nobody reads, looked at by the scanner, and only then given its own: what lies
    /// under that has passed. Two who do so at once hold each other up in nothing.
    fn place(
        &self,
        to: &Path,
        name: &str,
        patience: Duration,
        write: impl FnOnce(&mut File) -> std::io::Result<()>,
    ) -> Result<(), OfficeError> {
        let trouble = |e: std::io::Error| file_error(to, &e);
        let folder = to.parent().unwrap_or(&self.dir);
        crate::backup::make_private(folder).map_err(trouble)?;
        let (part, mut file) = own(to).map_err(trouble)?;
        sweep(folder, &file);
        let placed = || -> Result<(), OfficeError> {
            write(&mut file).and_then(|()| file.sync_all()).map_err(trouble)?;
            if let Some(scanner) = &self.scanner {
                scanner.look(&part, name, patience)?;
            }
            fs::rename(&part, to).map_err(trouble)?;
            // A folder can be flushed only where the system allows it.
            if cfg!(unix) {
                File::open(folder).and_then(|folder| folder.sync_all()).map_err(trouble)
            } else {
                Ok(())
            }
        };
        placed().inspect_err(|_| {
            let _ = fs::remove_file(&part); // the first error is the one to tell
        })
    }

    /// Where a received packet lies.
    pub fn packet_path(&self, digest: Digest) -> PathBuf {
        self.dir.join("packets").join(format!("{digest}.zip"))
    }

    fn receipt(&self, sealed: &SealedBy, register: &Register) -> Result<Option<Receipt>, OfficeError> {
        Ok(self.repo.packet(sealed.packet)?.map(|p| Receipt {
            digest: sealed.packet,
            survey: p.survey,
            label: p.label,
            number: p.number,
            received_at: p.received_at,
            first_time: false,
            sealed_by: sealed.key,
            serial: given_by(register, sealed),
            signed: None,
        }))
    }

    /// The signed receipt of a packet that is here, its file and all; none where it is not, or the office has no key.
    ///
    /// # Errors
    /// A database or file that cannot be read; a key the register does not know.
    pub fn signed_receipt(&self, digest: Digest) -> Result<Option<String>, OfficeError> {
        let register = self.register()?;
        let Some(packet) = self.repo.packet(digest)? else { return Ok(None) };
        if !self.packet_path(digest).is_file() {
            return Ok(None);
        }
        let path = self.sign_once(digest, packet.received_at, &register)?;
        path.map(|path| fs::read_to_string(&path).map_err(|e| file_error(&path, &e))).transpose()
    }

    /// Where the signed receipt of a packet lies.
    pub fn receipt_path(&self, digest: Digest) -> PathBuf {
        self.dir.join("packets").join(format!("{digest}.receipt.jws"))
    }

    /// Signs the receipt, once: a packet that came before has the one it was given then.
    fn sign(&self, receipt: Receipt, register: &Register) -> Result<Receipt, OfficeError> {
        let signed = self.sign_once(receipt.digest, receipt.received_at, register)?;
        Ok(Receipt { signed, ..receipt })
    }

    fn sign_once(
        &self,
        digest: Digest,
        received_at: Stamp,
        register: &Register,
    ) -> Result<Option<PathBuf>, OfficeError> {
        let path = self.receipt_path(digest);
        if path.is_file() {
            return Ok(Some(path));
        }
        let Some(secret) = self.secret_if_any()? else { return Ok(None) };
        if register.keys.key(&secret.public().thumbprint()).is_none() {
            return Err(OfficeError::NoKey { path: self.secret_place() });
        }
        let revocations = register.revocations()?.map_or(0, |list| list.claimed().number);
        let record = keys::Receipt { packet: digest, received_at, firm: register.firm.clone(), revocations };
        let signed = Signed::new(record, &secret)?;
        keys::write_whole(&path, format!("{}\n", signed.text()).as_bytes())
            .map_err(|e| file_error(&path, &e))?;
        Ok(Some(path))
    }

    /// The folder of the office's keys.
    pub(crate) fn keys_folder(&self) -> PathBuf {
        self.dir.join("keys")
    }

    /// All packets in the order they came.
    pub fn packets(&self) -> Result<Vec<ReceivedPacket>, OfficeError> {
        let told = |packet: Received| ReceivedPacket {
            digest: packet.digest,
            survey: packet.survey,
            label: packet.label,
            number: packet.number,
            received_at: packet.received_at.to_string(),
            after_demolition: packet.after_demolition,
        };
        Ok(self.repo.packets()?.into_iter().map(told).collect())
    }

    /// The house a person means: id, start of an id, or label.
    pub fn find(&self, wanted: &str) -> Result<SurveyId, OfficeError> {
        self.find_among(wanted, |_| true)
    }

    /// The same among some of the houses: the others are as if they were not there.
    pub(crate) fn find_among(
        &self,
        wanted: &str,
        among: impl Fn(SurveyId) -> bool,
    ) -> Result<SurveyId, OfficeError> {
        let packets = self.packets()?.into_iter().filter(|packet| among(packet.survey));
        let mut houses: Vec<(SurveyId, String)> = packets.map(|p| (p.survey, p.label)).collect();
        houses.sort();
        houses.dedup_by_key(|h| h.0);
        let list = |houses: &[(SurveyId, String)]| {
            let shown: Vec<String> =
                houses.iter().take(8).map(|(id, label)| format!("{label} ({id})")).collect();
            if shown.is_empty() { "none yet".to_owned() } else { shown.join(", ") }
        };
        let fits = |(id, label): &&(SurveyId, String)| {
            label.eq_ignore_ascii_case(wanted) || (wanted.len() >= 4 && id.to_string().starts_with(wanted))
        };
        let found: Vec<(SurveyId, String)> = houses.iter().filter(fits).cloned().collect();
        match found.as_slice() {
            [(id, _)] => Ok(*id),
            [] => Err(OfficeError::NoSuchHouse { wanted: wanted.to_owned(), known: list(&houses) }),
            several => Err(OfficeError::Several { wanted: wanted.to_owned(), known: list(several) }),
        }
    }

    /// Enters a finding. A later one about the same condition stands; the earlier stays in the record.
    pub fn enter(
        &mut self,
        survey: SurveyId,
        finding: &Finding,
        catalog: &Catalog,
    ) -> Result<u64, OfficeError> {
        finding.check()?;
        let finding = &Finding {
            condition: self.condition_key(survey, &finding.condition, catalog)?,
            ..finding.clone()
        };
        alone(self.repo.as_mut(), |repo| repo.add_finding(survey, finding))
    }

    /// The key of a condition as it is kept. A place must be one that the forecast knows, so that a slip of the pen
    /// does not become a soffit nobody forecast.
    pub(crate) fn condition_key(
        &self,
        survey: SurveyId,
        key: &str,
        catalog: &Catalog,
    ) -> Result<String, OfficeError> {
        let no = |hint: String| OfficeError::NoSuchCondition { condition: key.to_owned(), hint };
        let parsed = Key::parse(key);
        let Some(known) = catalog.condition(parsed.id) else {
            let near = nearest(parsed.id, catalog.conditions.iter().map(|c| c.id.as_str()));
            return Err(no(near.map(|n| format!("; did you mean “{n}”?")).unwrap_or_default()));
        };
        let (Some(place), canonical) = (parsed.place, catalog.key_of(key)) else {
            return Ok(known.id.clone());
        };
        let Some(canonical) = canonical else {
            return Err(no(format!("; a house has “{}” once, without a place", known.id)));
        };
        let forecast = self.judged_forecast(survey)?;
        let places =
            forecast.iter().flat_map(|(_, f)| &f.places).filter(|p| Some(&p.station) == known.place.as_ref());
        let places: Vec<&str> = places.map(|p| p.id.as_str()).collect();
        if Key::parse(&canonical).place.is_none() || places.contains(&place) {
            return Ok(canonical);
        }
        let list = if places.is_empty() { "there is only one".to_owned() } else { places.join(", ") };
        Err(OfficeError::NoSuchPlace { place: place.to_owned(), known: list })
    }

    /// Where the photograph of a finding lies.
    pub(crate) fn finding_photo_path(&self, digest: Digest) -> PathBuf {
        self.dir.join("findings-photos").join(format!("{digest}.jpg"))
    }

    /// Whether somebody sees this packet; one that is not here is seen by nobody.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn is_seen(&self, packet: Digest, sight: &Sight) -> Result<bool, OfficeError> {
        Ok(self.repo.packet(packet)?.is_some_and(|packet| !sight.hides(packet.survey)))
    }

    /// Whether somebody sees this photograph of a finding: it is in a finding of a house they see, or of none.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn is_finding_photo_seen(&self, photo: Digest, sight: &Sight) -> Result<bool, OfficeError> {
        if sight.is_whole() {
            return Ok(true);
        }
        let houses: BTreeSet<SurveyId> =
            self.repo.packets()?.into_iter().map(|packet| packet.survey).collect();
        let mut hidden = false;
        for survey in houses {
            if self.findings(survey)?.iter().any(|finding| finding.photo == Some(photo)) {
                if !sight.hides(survey) {
                    return Ok(true);
                }
                hidden = true;
            }
        }
        Ok(!hidden)
    }

    /// Files the photograph of a finding by its digest.
    ///
    /// # Errors
    /// A disk that refuses; what the scanner finds.
    pub fn keep_photo(&self, bytes: &[u8]) -> Result<Digest, OfficeError> {
        let digest = Digest::of(bytes);
        let to = self.finding_photo_path(digest);
        if !to.exists() {
            self.place(&to, &digest.short(), FOR_A_PHOTO, |out| out.write_all(bytes))?;
        }
        Ok(digest)
    }

    /// Findings of a house in the order they were entered.
    pub fn findings(&self, survey: SurveyId) -> Result<Vec<Finding>, OfficeError> {
        Ok(self.repo.findings(survey)?.into_iter().map(|entered| entered.finding).collect())
    }

    /// The forecast a house is judged by: that of the last packet received before its demolition began, so that no later
    /// forecast can profit from what was found. A packet that nobody vouches for stands back behind all others.
    pub fn judged_forecast(&self, survey: SurveyId) -> Result<Option<(Digest, Forecast)>, OfficeError> {
        self.judged(survey)?.map(|b| Ok((Digest::of(&b), Forecast::from_bytes(&b)?))).transpose()
    }

    /// The digest of that forecast, which is not read for it: a list of hundreds of packets asks.
    pub(crate) fn judged_digest(&self, survey: SurveyId) -> Result<Option<Digest>, OfficeError> {
        Ok(self.judged(survey)?.map(|bytes| Digest::of(&bytes)))
    }

    fn judged(&self, survey: SurveyId) -> Result<Option<Vec<u8>>, OfficeError> {
        // Packets first: whatever came before one of them is counted by then.
        let packets = self.repo.packets_of(survey)?;
        let began = self.repo.demolition_began(survey)?;
        let in_time = packets.iter().filter(|packet| began.is_none_or(|began| packet.position < began));
        match in_time.max_by_key(|packet| (packet.vouched, packet.position)) {
            Some(packet) => self.repo.forecast(packet.digest),
            None => Ok(None),
        }
    }

    /// Prediction beside finding.
    pub fn comparison(&self, survey: SurveyId) -> Result<Comparison, OfficeError> {
        match self.judged_forecast(survey)? {
            Some((digest, forecast)) => Ok(compare(&forecast, digest, &self.findings(survey)?)),
            None => Err(OfficeError::NoSuchHouse {
                wanted: survey.to_string(),
                known: "packets received before the demolition of their house began only".to_owned(),
            }),
        }
    }

    pub(crate) fn damaged(&self, what: String) -> OfficeError {
        OfficeError::Database { path: self.repo.place().to_owned(), what }
    }
}

impl Holds for Desk {
    fn held(&mut self) -> &mut dyn Repo {
        self.repo.as_mut()
    }
}

/// Number of the certificate a packet was sealed under, if this office gave it.
fn given_by(register: &Register, sealed: &SealedBy) -> Option<Serial> {
    let signed = sealed.certificate.as_ref()?;
    signed.by_firm(&register.keys).ok().map(|certificate| certificate.serial)
}

/// Refuses a packet whose key does not count, and says whether anybody vouches for it. An office without a key cannot
/// tell, and takes all alike.
fn counts(packet: &Packet, register: &Register, now: Stamp) -> Result<bool, OfficeError> {
    if register.keys.keys().is_empty() {
        return Ok(true);
    }
    let sealed = packet.sealed_by();
    let refuse = |fault: Fault| {
        let label = packet.info().label.clone();
        Err(OfficeError::NotTaken { label, fault: Box::new(fault) })
    };
    // Taken in, it would be received before it was sealed for ever.
    if sealed.sealed_at.unix_ms() > now.unix_ms() + CLOCKS_APART_MS {
        return refuse(Fault::ReceivedBeforeSealed(now));
    }
    let revocations = register.revocations()?;
    if let Some(one) = revocations
        .iter()
        .flat_map(|list| &list.claimed().revoked)
        .find(|one| one.key == Some(sealed.key) && sealed.certificate.is_none())
    {
        return refuse(Fault::Revoked { since: one.since, why: one.why.clone() });
    }
    let evidence = Evidence { firm: Some(register.keys.clone()), receipt: None, revocations };
    for (_, said) in judge(sealed, &evidence) {
        match said {
            keys::Said::Fails(Fault::NoCertificate) | keys::Said::Holds | keys::Said::NotChecked => {}
            keys::Said::Fails(fault) => return refuse(fault),
        }
    }
    Ok(sealed.certificate.is_some())
}

/// Copies and hashes in one pass.
pub(crate) fn sum(from: &mut dyn Read, to: &mut dyn Write) -> std::io::Result<Digest> {
    let mut hasher = sha2::Sha256::new();
    let mut chunk = vec![0; 128 * 1024];
    loop {
        let n = from.read(&mut chunk)?;
        if n == 0 {
            return Ok(Digest::from_bytes(hasher.finalize().into()));
        }
        hasher.update(&chunk[..n]);
        to.write_all(&chunk[..n])?;
    }
}

pub(crate) fn file_error(path: &Path, e: &std::io::Error) -> OfficeError {
    OfficeError::File { path: path.to_owned(), what: e.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_left_behind_is_in_nobodys_way_and_is_swept_after_a_day() {
        let dir = tempfile::tempdir().unwrap();
        let desk = Desk::open(dir.path()).unwrap();
        let bytes = b"a photograph";
        let to = desk.finding_photo_path(Digest::of(bytes));
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        // By a program that had the number this one has.
        let left = |n: u32| to.with_extension(format!("{PART}{}-{n}", std::process::id()));
        (1..500).for_each(|n| drop(File::create(left(n)).unwrap()));
        let old = to.with_extension("part-7-7");
        let file = File::create(&old).unwrap();
        let day_before = file.metadata().unwrap().modified().unwrap() - 2 * LEFT_BEHIND;
        file.set_modified(day_before).unwrap();
        assert_eq!(desk.keep_photo(bytes).unwrap(), Digest::of(bytes));
        assert_eq!(fs::read(&to).unwrap(), bytes);
        assert!(!old.exists() && left(499).exists());
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            assert_eq!(to.metadata().unwrap().permissions().mode() & 0o777, 0o600);
        }
    }
}
