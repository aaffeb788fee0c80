//! The houses of the office as a record sees them: which forecast judges each, and what is known of it besides.
//!
//! Which came first is told by the office's own count, never by a clock. A record is asked for over hundreds of houses,
//! and opening a packet compares every bit of it; so the answers a forecast was made from are kept beside the packet
//! ([`Desk::walked`]) and may be thrown away like everything there.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use assessment::Forecast;
use review::Finding;
use review::record::{Again, Choice, JudgedHouse, Known, NotJudged, Trained, choose};
use survey::catalog::{Catalog, PLANNED_WORK, Place};
use survey::log::{Entry, Value};
use survey::model::{Picture, fold};
use survey::{Digest, SurveyId};

use crate::desk::file_error;
use crate::people::Sight;
use crate::{Desk, OfficeError};

/// Folder of the office that says which catalogs learned from which houses.
const TRAINED: &str = "learned";
/// Name of the kept answers beside a packet.
const WALK: &str = "walk.jsonl";

/// What an office has to judge.
#[derive(Default)]
pub struct Reviewed {
    /// Houses with the forecast that judges them.
    pub judged: Vec<JudgedHouse>,
    /// Houses without one.
    pub not_judged: Vec<(SurveyId, NotJudged)>,
    /// The last forecast made again, of houses that have one.
    pub again: Vec<JudgedHouse>,
    /// How many of these came before demolition began.
    pub again_before: usize,
    /// The judged houses with their folded logs and findings.
    pub jobs: Vec<(SurveyId, Picture, Vec<Finding>)>,
}

impl Reviewed {
    /// Without the houses that somebody does not see: numbers over few houses would tell what was found in one of them.
    pub(crate) fn seen_by(mut self, sight: &Sight) -> Self {
        self.judged.retain(|house| !sight.hides(house.survey));
        self.not_judged.retain(|(survey, _)| !sight.hides(*survey));
        self.again.retain(|house| !sight.hides(house.survey));
        self
    }
}

impl Desk {
    /// Gathers all houses.
    ///
    /// # Errors
    /// A packet that does not open any more, or a database that cannot be read.
    pub fn reviewed(&self, catalog: &Catalog) -> Result<Reviewed, OfficeError> {
        let packets = self.packets()?;
        let mut reviewed = Reviewed::default();
        let houses: BTreeSet<SurveyId> = packets.iter().map(|p| p.survey).collect();
        for survey in houses {
            let findings = self.findings(survey)?;
            if findings.is_empty() {
                reviewed.not_judged.push((survey, NotJudged::NoFindings));
                continue;
            }
            // Packets first: whatever came before one of them is counted by then.
            let own = self.repo.packets_of(survey)?;
            let positions: Vec<u64> = own.iter().map(|packet| packet.position).collect();
            let Choice { judged, again } = choose(&positions, self.repo.demolition_began(survey)?);
            let Some(judged) = judged else {
                reviewed.not_judged.push((survey, NotJudged::NoForecastInTime));
                continue;
            };
            let (house, picture) = self.judge(own[judged].digest, &findings, catalog)?;
            reviewed.judged.push(house);
            if let Some((last, _)) = again.last() {
                reviewed.again.push(self.judge(own[*last].digest, &findings, catalog)?.0);
                reviewed.again_before +=
                    usize::from(again.iter().any(|(_, when)| *when == Again::BeforeDemolition));
            }
            reviewed.jobs.push((survey, picture, findings));
        }
        Ok(reviewed)
    }

    fn judge(
        &self,
        packet: Digest,
        findings: &[Finding],
        catalog: &Catalog,
    ) -> Result<(JudgedHouse, Picture), OfficeError> {
        let bytes = self.forecast_of(packet)?;
        let forecast = Forecast::from_bytes(&bytes)?;
        let picture = fold(&self.walked(packet)?);
        let known = Known {
            surveyors: surveyors(&picture, catalog),
            era: catalog.era().and_then(|era| era.level(&picture)).map(str::to_owned),
            scope: match picture.value(PLANNED_WORK) {
                Some(Value::Choices(jobs)) => jobs.clone(),
                _ => Vec::new(),
            },
        };
        Ok((JudgedHouse::new(&forecast, Digest::of(&bytes), findings, known), picture))
    }

    fn forecast_of(&self, packet: Digest) -> Result<Vec<u8>, OfficeError> {
        let none = || OfficeError::NoPacket { packet: packet.to_string() };
        self.repo.forecast(packet)?.ok_or_else(none)
    }

    /// The entries a packet's forecast was made from; what was recorded after it did not shape it.
    fn walked(&self, packet: Digest) -> Result<Vec<Entry>, OfficeError> {
        let path = self.derived(packet).join(WALK);
        let kept = fs::read(&path).ok().and_then(|text| {
            let lines = text.split(|byte| *byte == b'\n').filter(|line| !line.is_empty());
            lines.map(|line| Entry::from_bytes(line).ok()).collect::<Option<Vec<Entry>>>()
        });
        if let Some(entries) = kept {
            return Ok(entries);
        }
        let open = self.open_packet(packet)?;
        let upto = usize::try_from(open.info().log_position).unwrap_or(usize::MAX);
        let entries: Vec<Entry> = open.entries().iter().take(upto).cloned().collect();
        let mut text = Vec::new();
        for entry in &entries {
            text.extend(entry.to_bytes());
            text.push(b'\n');
        }
        // Where nothing can be noted, the packet is opened again next time.
        let _ = keys::write_whole(&path, &text);
        Ok(entries)
    }

    /// The catalogs that learned, as the office noted them.
    ///
    /// # Errors
    /// A note that cannot be read: without it the record cannot leave those houses out.
    pub fn trained(&self) -> Result<Vec<Trained>, OfficeError> {
        let folder = self.dir.join(TRAINED);
        if !folder.is_dir() {
            return Ok(Vec::new());
        }
        let list = fs::read_dir(&folder).map_err(|e| file_error(&folder, &e))?;
        let mut paths: Vec<PathBuf> = Vec::new();
        for entry in list {
            let path = entry.map_err(|e| file_error(&folder, &e))?.path();
            if path.extension().is_some_and(|e| e == "json") {
                paths.push(path);
            }
        }
        paths.sort();
        paths.iter().map(|path| one(path)).collect()
    }

    /// Notes that a catalog learned; named by its digest, so that the same catalog is noted once.
    ///
    /// # Errors
    /// A folder that cannot be written.
    pub(crate) fn note_trained(&self, trained: &Trained) -> Result<PathBuf, OfficeError> {
        let path = self.dir.join(TRAINED).join(format!("{}.json", trained.catalog));
        let text = serde_json::to_vec_pretty(trained)
            .map_err(|e| OfficeError::File { path: path.clone(), what: e.to_string() })?;
        keys::write_whole(&path, &text).map_err(|e| file_error(&path, &e))?;
        Ok(path)
    }
}

/// Who answered in the house itself; whoever fills in a sheet or looks something up in the office walks no house.
fn surveyors(picture: &Picture, catalog: &Catalog) -> Vec<String> {
    let walked = |item: &str| {
        let station = catalog.item(item).and_then(|i| catalog.station(&i.station));
        station.is_some_and(|s| s.place == Place::House)
    };
    let answers = picture.answers.iter().filter(|((_, item), _)| walked(item));
    let by: BTreeSet<&str> = answers.flat_map(|(_, a)| a.claims.iter().map(|c| c.by.as_str())).collect();
    by.into_iter().map(str::to_owned).collect()
}

fn one(path: &Path) -> Result<Trained, OfficeError> {
    let bytes = fs::read(path).map_err(|e| file_error(path, &e))?;
    let damaged = |what: String| OfficeError::Learned { path: path.to_owned(), what };
    let trained: Trained = serde_json::from_slice(&bytes).map_err(|e| damaged(e.to_string()))?;
    if trained.v != Trained::VERSION {
        return Err(damaged(format!("v = {}", trained.v)));
    }
    Ok(trained)
}
