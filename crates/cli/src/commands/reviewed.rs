//! The houses of an office as a record sees them: which forecast judges each, and what is known of it besides.
//!
//! Positions come from the order in which the office took packets in, never from a clock.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use actions::{Error, Kind};
use assessment::Forecast;
use packet::Packet;
use review::Finding;
use review::record::{Again, Choice, JudgedHouse, Known, NotJudged, Trained, choose};
use survey::catalog::{Catalog, PLANNED_WORK, Place};
use survey::log::Value;
use survey::model::{Picture, fold};
use survey::{Digest, SurveyId};
use words::msg;

use super::Room;
use crate::fail;

/// Folder of the office that says which catalogs learned from which houses.
const TRAINED: &str = "learned";

/// What an office has to judge.
#[derive(Default)]
pub struct Reviewed {
    /// Houses with the forecast that judges them.
    pub judged: Vec<JudgedHouse>,
    /// Houses without one.
    pub not_judged: Vec<(SurveyId, NotJudged)>,
    /// The last forecast made again, of houses that have one.
    pub again: Vec<JudgedHouse>,
    /// How many of these came before anything was found.
    pub again_before: usize,
    /// The judged houses with their folded logs and findings.
    pub jobs: Vec<(SurveyId, Picture, Vec<Finding>)>,
}

/// Gathers all houses.
pub fn gather(room: &Room<'_>, catalog: &Catalog) -> Result<Reviewed, Error> {
    let office = room.office()?;
    let packets = office.packets().map_err(fail::office)?;
    let mut reviewed = Reviewed::default();
    let houses: BTreeSet<SurveyId> = packets.iter().map(|p| p.survey).collect();
    for survey in houses {
        let findings = office.findings(survey).map_err(fail::office)?;
        if findings.is_empty() {
            reviewed.not_judged.push((survey, NotJudged::NoFindings));
            continue;
        }
        let own: Vec<(u64, Digest)> = (1u64..)
            .zip(&packets)
            .filter(|(_, p)| p.survey == survey)
            .map(|(position, p)| (2 * position, p.digest))
            .collect();
        let mut opened = Vec::new();
        for (position, digest) in &own {
            let packet = packet::open(&office.packet_path(*digest))
                .map_err(|e| fail::office(office::OfficeError::Packet(e)))?;
            opened.push((*position, packet));
        }
        // The desk names the last packet that came before the first finding; findings lie between packets.
        let last = office.judged_forecast(survey).map_err(fail::office)?.map(|(digest, _)| digest);
        let before = last.and_then(|l| opened.iter().find(|(_, p)| Digest::of(p.assessment()) == l));
        let first_finding = before.map_or(1, |(position, _)| position + 1);
        let positions: Vec<u64> = opened.iter().map(|(position, _)| *position).collect();
        let Choice { judged, again } = choose(&positions, Some(first_finding));
        let Some(judged) = judged else {
            reviewed.not_judged.push((survey, NotJudged::NoForecastInTime));
            continue;
        };
        let (house, picture) = read(&opened[judged].1, &findings, catalog)?;
        reviewed.judged.push(house);
        reviewed.jobs.push((survey, picture, findings.clone()));
        if let Some((last, _)) = again.last() {
            reviewed.again.push(read(&opened[*last].1, &findings, catalog)?.0);
            reviewed.again_before +=
                usize::from(again.iter().any(|(_, when)| *when == Again::BeforeFindings));
        }
    }
    Ok(reviewed)
}

fn read(packet: &Packet, findings: &[Finding], catalog: &Catalog) -> Result<(JudgedHouse, Picture), Error> {
    let bytes = packet.assessment();
    let forecast = Forecast::from_bytes(bytes).map_err(|e| fail::office(office::OfficeError::Forecast(e)))?;
    // What was recorded after the assessment did not shape it.
    let upto = usize::try_from(packet.info().log_position).unwrap_or(usize::MAX);
    let picture = fold(packet.entries().iter().take(upto));
    let known = Known {
        surveyors: surveyors(&picture, catalog),
        era: catalog.era().and_then(|era| era.level(&picture)).map(str::to_owned),
        scope: match picture.value(PLANNED_WORK) {
            Some(Value::Choices(jobs)) => jobs.clone(),
            _ => Vec::new(),
        },
    };
    Ok((JudgedHouse::new(&forecast, Digest::of(bytes), findings, known), picture))
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

/// The catalogs that learned, as the office noted them.
pub fn trained(room: &Room<'_>) -> Result<Vec<Trained>, Error> {
    let folder = room.office_folder()?.join(TRAINED);
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let list = fs::read_dir(&folder).map_err(|e| fail::file(&folder, &e))?;
    let mut paths: Vec<PathBuf> = Vec::new();
    for entry in list {
        let path = entry.map_err(|e| fail::file(&folder, &e))?.path();
        if path.extension().is_some_and(|e| e == "json") {
            paths.push(path);
        }
    }
    paths.sort();
    paths.iter().map(|path| one(path)).collect()
}

fn one(path: &Path) -> Result<Trained, Error> {
    let bytes = fs::read(path).map_err(|e| fail::file(path, &e))?;
    let damaged = |said: String| {
        let message = msg!("error-learned-damaged", path = path.display().to_string(), said = said);
        Error::new(Kind::Damaged, message).hint(msg!("error-learned-damaged-hint"))
    };
    let trained: Trained = serde_json::from_slice(&bytes).map_err(|e| damaged(e.to_string()))?;
    if trained.v != Trained::VERSION {
        return Err(damaged(format!("v = {}", trained.v)));
    }
    Ok(trained)
}

/// Notes that a catalog learned; named by its digest, so that the same catalog is noted once.
pub fn note(room: &Room<'_>, trained: &Trained) -> Result<PathBuf, Error> {
    let folder = room.office_folder()?.join(TRAINED);
    fs::create_dir_all(&folder).map_err(|e| fail::file(&folder, &e))?;
    let path = folder.join(format!("{}.json", trained.catalog));
    let text = serde_json::to_vec_pretty(trained).map_err(|e| Error::new(Kind::Internal, e.to_string()))?;
    keys::write_whole(&path, &text).map_err(|e| fail::file(&path, &e))?;
    Ok(path)
}
