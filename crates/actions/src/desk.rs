//! The device as actions see it: its store and the catalog it walks by.

use std::cell::{OnceCell, RefCell};
use std::path::Path;
use std::sync::Arc;

use assessment::decision::LossRules;
use assessment::{ClueTables, Forecast, Request};
use keys::{KeyFiles, KeyStore};
use store::{LogMark, Store};
use survey::catalog::{Catalog, nearest};
use survey::log::{Body, Entry, check_chain};
use survey::model::{Picture, fold};
use survey::units::Money;
use survey::{Digest, SurveyId, guide};
use words::{Arg, CatalogWords, Language, Words, msg};

use crate::{Error, Kind, Kit};

/// Most houses named when one is not there.
const MOST_NAMED: usize = 8;

/// Store and catalog of one device.
pub struct Desk {
    pub(crate) store: Store,
    pub(crate) catalog: Catalog,
    tables: OnceCell<ClueTables>,
    pub(crate) secrets: Box<dyn KeyStore + Send>,
    words: &'static Words,
    last_read: RefCell<Option<LastRead>>,
    /// Money to carry in the frozen assessment that was read last, by the digest of its bytes.
    last_frozen: RefCell<Option<(Digest, Money)>>,
}

/// The log of a house and the picture folded from it.
pub(crate) type ReadLog = (Arc<Vec<Entry>>, Arc<Picture>);

/// The log that was read last. Reading one, checking its chain and folding it takes longer than anything else a touch needs,
/// and a touch asks for it several times.
struct LastRead {
    survey: SurveyId,
    mark: LogMark,
    read: ReadLog,
}

impl Desk {
    /// Opens the device's folder, making it on first use.
    pub fn open(dir: &Path, catalog: Catalog, kit: &mut Kit<'_>) -> Result<Self, Error> {
        let (now, fresh) = (kit.now(), kit.device_id());
        Ok(Self {
            store: Store::open(dir, now, fresh)?,
            catalog,
            tables: OnceCell::new(),
            secrets: Box::new(KeyFiles::new(&dir.join(crate::device_key::FOLDER))),
            words: Words::of(Language::En),
            last_read: RefCell::default(),
            last_frozen: RefCell::default(),
        })
    }
    /// Walks by another catalog from now on.
    pub(crate) fn walk_by(&mut self, catalog: Catalog) {
        self.catalog = catalog;
        self.tables = OnceCell::new();
    }
    /// Says everything in another language from now on; English until then.
    pub fn speak(&mut self, words: &'static Words) {
        self.words = words;
    }
    /// Keeps the device's secret key elsewhere than in a file of its folder from now on.
    pub fn keep_secrets_in(&mut self, secrets: Box<dyn KeyStore + Send>) {
        self.secrets = secrets;
    }
    /// The words it speaks in.
    pub fn words(&self) -> &'static Words {
        self.words
    }
    /// What its catalog says, in its language.
    pub fn say(&self) -> CatalogWords<'_> {
        CatalogWords::new(self.words, &self.catalog)
    }
    pub(crate) fn said(&self, list: &[Arg]) -> Vec<String> {
        list.iter().map(|arg| self.words.text(arg)).collect()
    }
    /// The store, for checking and rescue.
    pub fn store(&self) -> &Store {
        &self.store
    }
    /// Makes anew what is made of records: the readable tables, and the small pictures of photographs that are missing
    /// or damaged; files that no photograph has are taken away.
    pub fn mend(&mut self) -> Result<crate::Mended, Error> {
        self.store.rebuild()?;
        crate::previews::mend(self)
    }
    /// The catalog.
    pub fn catalog(&self) -> &Catalog {
        &self.catalog
    }
    /// Clue tables of the catalog, fitted on first use.
    pub fn tables(&self) -> &ClueTables {
        self.tables.get_or_init(|| ClueTables::fit(&self.catalog))
    }
    /// The survey a person means: id, start of an id, or label.
    pub fn find(&self, text: &str) -> Result<SurveyId, Error> {
        let names = |rows: &[store::SurveyRow]| -> Vec<String> {
            let name = |r: &store::SurveyRow| format!("{} ({}…)", r.label, &r.survey.to_string()[..23]);
            rows.iter().take(MOST_NAMED).map(name).collect()
        };
        match self.store.find_survey(text) {
            Ok(row) => Ok(row.survey),
            Err(e) if e.kind() == store::ErrorKind::Missing => {
                let (rows, message) = (self.store.surveys()?, msg!("error-no-house", wanted = text.trim()));
                let hint = match rows.as_slice() {
                    [] => msg!("error-no-house-yet"),
                    rows => msg!("error-no-house-hint", there = names(rows)),
                };
                Err(Error::new(Kind::Missing, message).hint(hint))
            }
            Err(e) => Err(e.into()),
        }
    }
    /// The folded picture of a survey.
    pub fn picture(&self, survey: SurveyId) -> Result<Arc<Picture>, Error> {
        Ok(self.read(survey)?.1)
    }
    /// Entries and picture of a survey: those read last where nothing has come since.
    pub(crate) fn read(&self, survey: SurveyId) -> Result<ReadLog, Error> {
        let mark = self.store.log_mark(survey)?;
        if let Some(last) = self.last_read.borrow().as_ref()
            && (last.survey, last.mark) == (survey, mark)
        {
            return Ok(last.read.clone());
        }
        let entries = self.store.entries(survey)?;
        if entries.is_empty() {
            return Err(Error::new(Kind::Missing, msg!("error-no-survey", survey = survey.to_string())));
        }
        check_chain(&entries).map_err(|e| {
            Error::new(Kind::Damaged, msg!("error-log-damaged", said = e.said()))
                .hint(msg!("error-rescue-hint"))
        })?;
        let picture = fold(&entries);
        let read = (Arc::new(entries), Arc::new(picture));
        *self.last_read.borrow_mut() = Some(LastRead { survey, mark, read: read.clone() });
        Ok(read)
    }
    /// Puts what was just recorded to the log that was read last. Where anything else has come too, it is read anew when
    /// next asked for.
    fn read_on(&self, survey: SurveyId, new: &[Entry]) {
        let mut kept = self.last_read.borrow_mut();
        let Some(mut last) = kept.take().filter(|last| last.survey == survey) else { return };
        let follows = last.read.0.last().zip(new.first()).is_some_and(|(l, n)| l.order() < n.order());
        let wanted = LogMark { entries: last.mark.entries + new.len() as u64, ..last.mark };
        if follows && self.store.log_mark(survey).is_ok_and(|mark| mark == wanted) {
            let (entries, picture) = &mut last.read;
            Arc::make_mut(entries).extend_from_slice(new);
            *picture = Arc::new(fold(entries.iter()));
            *kept = Some(LastRead { mark: wanted, ..last });
        }
    }
    /// What is assessed: the house as `picture` shows it, by this desk's catalog and the firm's factors.
    pub(crate) fn request<'a>(&'a self, survey: SurveyId, picture: &'a Picture) -> Request<'a> {
        Request {
            survey,
            picture,
            catalog: &self.catalog,
            tables: self.tables(),
            rules: LossRules::of(&self.catalog),
        }
    }
    /// Checks that a station or a place of the house is known.
    pub(crate) fn known_stop(&self, picture: &Picture, name: &str) -> Result<(), Error> {
        let stops: Vec<_> = guide::stops(&self.catalog, picture).collect();
        if stops.iter().any(|s| s.station.id == name || s.place == name) {
            return Ok(());
        }
        let names = stops.iter().flat_map(|s| [s.station.id.as_str(), s.place]);
        let all: Vec<&str> = self.catalog.stations.iter().map(|s| s.id.as_str()).collect();
        let hint = match nearest(name, names) {
            Some(near) => msg!("error-no-stop-near-hint", near = near, stations = all),
            None => msg!("error-no-stop-hint", stations = all),
        };
        Err(Error::new(Kind::Missing, msg!("error-no-stop", name = name)).hint(hint))
    }
    /// The latest frozen assessment, if any.
    pub fn latest(&self, survey: SurveyId) -> Result<Option<Forecast>, Error> {
        match self.store.latest_forecast(survey)? {
            Some(kept) => Ok(Some(Forecast::from_bytes(&kept.bytes)?)),
            None => Ok(None),
        }
    }
    /// Money to carry at P80 in the latest frozen assessment, if any.
    pub(crate) fn latest_p80(&self, survey: SurveyId) -> Result<Option<Money>, Error> {
        let Some(digest) = self.store.latest_digest(survey)? else { return Ok(None) };
        let mut last = self.last_frozen.borrow_mut();
        if let Some((_, p80)) = last.as_ref().filter(|(known, _)| *known == digest) {
            return Ok(Some(*p80));
        }
        let p80 = self.latest(survey)?.map(|frozen| frozen.money.p80);
        *last = p80.map(|p80| (digest, p80));
        Ok(p80)
    }
    /// Whether the walk of a house still takes entries. Every entry is held to it as it is recorded; asked before that where
    /// an act does work first, or records nothing and would speak of a walk that is over.
    pub(crate) fn still_walked(&self, survey: SurveyId) -> Result<(), Error> {
        Ok(self.store.still_walked(survey)?)
    }
    /// Appends one entry; it is on the disk when this returns.
    pub(crate) fn append(&mut self, survey: SurveyId, body: Body, kit: &mut Kit<'_>) -> Result<Entry, Error> {
        self.append_photo(survey, body, None, kit)
    }
    /// The same, and keeps what was made of the photograph the entry is about: both or neither.
    pub(crate) fn append_photo(
        &mut self,
        survey: SurveyId,
        body: Body,
        made: Option<&store::Made<'_>>,
        kit: &mut Kit<'_>,
    ) -> Result<Entry, Error> {
        let (id, at, by) = (kit.entry_id(), kit.now(), kit.by.clone());
        let entry = self.store.append_photo_with(survey, made, |next| Entry {
            v: body.form(),
            id,
            survey: next.survey,
            device: next.device,
            seq: next.seq,
            lamport: next.lamport,
            at,
            by: by.clone(),
            prev: next.prev,
            body: body.clone(),
        })?;
        self.read_on(survey, std::slice::from_ref(&entry));
        Ok(entry)
    }
    /// Appends entries of one moment, all or none; they are on the disk when this returns.
    pub(crate) fn append_all(
        &mut self,
        survey: SurveyId,
        bodies: Vec<Body>,
        kit: &mut Kit<'_>,
    ) -> Result<Vec<Entry>, Error> {
        let mut next = self.store.next(survey)?;
        let mut entries = Vec::new();
        for body in bodies {
            let entry = Entry {
                v: body.form(),
                id: kit.entry_id(),
                survey: next.survey,
                device: next.device,
                seq: next.seq,
                lamport: next.lamport,
                at: kit.now(),
                by: kit.by.clone(),
                prev: next.prev,
                body,
            };
            next = store::Next {
                seq: next.seq + 1,
                lamport: next.lamport + 1,
                prev: Some(entry.hash()),
                ..next
            };
            entries.push(entry);
        }
        if !entries.is_empty() {
            self.store.append(&entries)?;
            self.read_on(survey, &entries);
        }
        Ok(entries)
    }
}
