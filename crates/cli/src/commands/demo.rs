//! `underlath demo`: the whole job on the sample houses, with their own clock, so that every run makes the same.

use std::cell::Cell;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use actions::{
    Clock as _, Desk, Entered, Error, Kind, Kit, NewSurvey, SealOptions, SealedPacket, add_place, assess,
    declare_demolition, drawn, house, import_photo, mark_photo, name_place, note, open_survey, record, seal,
};
use review::Finding;
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};
use words::msg;

use super::{Room, assess as telling, compare, next};
use crate::args::Demo;
use crate::fail;
use crate::out::Out;
use crate::samples::{self, Findings, Walk, Words};
use crate::world::{Counted, SetClock};

/// Marks the folder as the demo's, so that it never clears one it did not make.
const MARK: &str = "made-by-underlath-demo.txt";

struct Made {
    packet: String,
    pages: Option<String>,
    comparison: String,
}

pub fn run(args: &Demo, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    super::fresh::folder(&args.into, MARK, "The demo")?;
    let catalog = room.catalog()?;
    let mut made = Vec::new();
    let mut reports = Vec::new();
    for (n, folder) in (1u64..).zip(samples::houses(&args.samples)?) {
        let walk: Walk = samples::read(&folder.join("survey.toml"))?;
        let findings: Findings = samples::read(&folder.join("findings.toml"))?;
        let clock = SetClock(Cell::new(walk.started));
        let mut random = Counted(n << 32);
        let by = walk.surveyor.clone();
        let mut kit = Kit { clock: &clock, random: &mut random, by };
        let mut desk = Desk::open(&args.into.join("device"), catalog.clone(), &mut kit)?;
        desk.speak(out.words());
        let (survey, early) = walk_house(&mut desk, &walk, &folder, &clock, &mut kit)?;
        let (packet, sealed) = hand_over(&mut desk, survey, &args.into, &mut kit)?;
        let mut office = office::Desk::open(&args.into.join("office")).map_err(fail::office)?;
        let first =
            office.receive(&sealed.path, clock.now(), office::Uncertified::Refuse).map_err(fail::office)?;
        let second =
            office.receive(&sealed.path, clock.now(), office::Uncertified::Refuse).map_err(fail::office)?;
        if !first.first_time || second.first_time {
            return Err(Error::new(Kind::Internal, msg!("error-demo-twice")));
        }
        clock.0.set(findings.recorded_at);
        kit.by = findings.recorded_by.clone();
        declare_demolition(&mut desk, survey, None, &mut kit)?;
        for finding in &findings.finding {
            enter(&mut office, survey, finding, &findings, &folder, &desk)?;
        }
        let comparison = office.comparison(survey).map_err(fail::office)?;
        let text = serde_json::to_string_pretty(&comparison)
            .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
        let name = sealed.path.file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
        let comparison_path = args.into.join(format!("{name}-comparison.json"));
        fs::write(&comparison_path, text + "\n").map_err(|e| fail::file(&comparison_path, &e))?;
        let shown = |p: &Path| p.display().to_string();
        let pages = packet.map(|p| shown(&p));
        made.push(Made { packet: shown(&sealed.path), pages, comparison: shown(&comparison_path) });
        if !out.json() {
            screen(&desk, survey, &walk, early, &sealed, &comparison, out)?;
        }
        reports.push(comparison);
    }
    finish(&made, &reports, out);
    Ok(())
}

/// One screen for one house.
fn screen(
    desk: &Desk,
    survey: SurveyId,
    walk: &Walk,
    looks: Vec<assessment::forecast::Look>,
    sealed: &SealedPacket,
    comparison: &review::Comparison,
    out: &mut Out,
) -> Result<(), Error> {
    let view = house(desk, survey)?;
    let answered: usize = view.stations.iter().map(|s| s.rows.len()).sum();
    out.head(format!("==== {} ====", walk.label));
    out.line(format!("  {}", walk.about));
    out.tell_in(2, msg!("demo-invented"));
    out.tell_in(2, msg!("demo-walked", by = &walk.surveyor, items = answered, photos = view.photos));
    out.line("");
    if let Some(forecast) = desk.latest(survey)? {
        telling::tell(&forecast, desk.catalog(), Some(10), out);
    }
    out.line("");
    out.head_of(msg!("demo-halfway"));
    next::looks(&looks, desk.catalog(), 2, out);
    out.line("");
    let kilobytes = sealed.bytes.div_ceil(1000);
    let (files, photos, sum) = (sealed.files, sealed.photos, sealed.digest.short());
    out.tell_in(2, msg!("demo-sealed", files = files, photos = photos, size = kilobytes, sum = sum));
    out.line("");
    compare::tell(comparison, false, out);
    out.line("");
    Ok(())
}

fn finish(made: &[Made], comparisons: &[review::Comparison], out: &mut Out) {
    if out.json() {
        let list: Vec<_> = made
            .iter()
            .zip(comparisons)
            .map(|(m, c)| {
                serde_json::json!({
                    "label": c.label, "packet": m.packet, "pages": m.pages, "comparison": m.comparison,
                })
            })
            .collect();
        out.value(&list);
        return;
    }
    out.tell(msg!("demo-made"));
    for m in made {
        out.tell(msg!("demo-packet", path = &m.packet));
        if let Some(pages) = &m.pages {
            out.tell(msg!("demo-pages", path = pages));
        }
        out.tell(msg!("demo-comparison", path = &m.comparison));
    }
}

/// Records the walk entry by entry, the clock standing where the sample says. Returns the looks advised halfway.
fn walk_house(
    desk: &mut Desk,
    walk: &Walk,
    folder: &Path,
    clock: &SetClock,
    kit: &mut Kit<'_>,
) -> Result<(SurveyId, Vec<assessment::forecast::Look>), Error> {
    let new = NewSurvey {
        label: walk.label.clone(),
        contract: Some(Money::from_dollars(walk.contract_price)),
        contract_days: Some(walk.contract_days),
    };
    let survey = open_survey(desk, &new, kit)?;
    for reading in &walk.measurement {
        note(desk, survey, None, &format!("{}: {}", reading.name, reading.value), kit)?;
    }
    let set = |minutes: i64| -> Result<(), Error> {
        let ms = walk.started.unix_ms() + minutes * 60_000;
        let at = Stamp::new(ms, walk.started.offset_min());
        clock.0.set(at.map_err(|e| Error::new(Kind::Input, msg!("error-internal", said = e.to_string())))?);
        Ok(())
    };
    let mut looks = Vec::new();
    let mut named = walk.named_place.iter().peekable();
    let mut marks = walk.mark.iter().peekable();
    let mut taken: BTreeMap<&Path, Digest> = BTreeMap::new();
    for (i, entry) in walk.entry.iter().enumerate() {
        while let Some(place) = named.next_if(|p| p.minutes_after_start <= entry.minutes_after_start) {
            set(place.minutes_after_start)?;
            kit.by = walk.surveyor.clone();
            if place.first {
                name_place(desk, survey, &place.station, &place.label, kit)?;
            } else {
                add_place(desk, survey, &place.station, &place.label, kit)?;
            }
        }
        while let Some(mark) = marks.next_if(|m| m.minutes_after_start < entry.minutes_after_start) {
            set(mark.minutes_after_start)?;
            draw(desk, survey, mark, &taken, walk, kit)?;
        }
        set(entry.minutes_after_start)?;
        kit.by = entry.who.clone().unwrap_or_else(|| walk.surveyor.clone());
        let mut photos: Vec<Digest> = Vec::new();
        for photo in &entry.photos {
            let path = folder.join(photo);
            let bytes = super::photo::read(&path)?;
            let name = super::photo::file_name(&path);
            let digest = import_photo(desk, survey, Some(&entry.item), &name, &bytes, None, kit)?.digest;
            taken.insert(photo, digest);
            photos.push(digest);
        }
        let entered = Entered {
            answer: match &entry.answer {
                Some(Words::One(word)) => vec![word.clone()],
                Some(Words::Several(words)) => words.clone(),
                None => vec![],
            },
            could_not_reach: entry.could_not_reach.clone(),
            tolerance: entry.tolerance.clone(),
            reason: entry.correction_reason.clone().or_else(|| entry.note.clone()),
            sure: false,
        };
        record(desk, survey, &entry.item, &entered, &photos, kit)?;
        if i == walk.entry.len() / 2 {
            looks = assess(desk, survey, kit)?.forecast.looks;
        }
    }
    for mark in marks {
        set(mark.minutes_after_start)?;
        draw(desk, survey, mark, &taken, walk, kit)?;
    }
    kit.by = walk.surveyor.clone();
    Ok((survey, looks))
}

/// Draws a mark over a photograph that was taken before it.
fn draw(
    desk: &mut Desk,
    survey: SurveyId,
    mark: &samples::Mark,
    taken: &BTreeMap<&Path, Digest>,
    walk: &Walk,
    kit: &mut Kit<'_>,
) -> Result<(), Error> {
    kit.by = walk.surveyor.clone();
    let missing = || {
        let photo = mark.photo.display().to_string();
        Error::new(Kind::Input, msg!("error-photo-not-here", photo = photo))
    };
    let photo = *taken.get(mark.photo.as_path()).ok_or_else(missing)?;
    mark_photo(desk, survey, photo, drawn(mark.draw.drawn())?, kit).map(drop)
}

/// Seals and puts the pages beside the packet.
fn hand_over(
    desk: &mut Desk,
    survey: SurveyId,
    into: &Path,
    kit: &mut Kit<'_>,
) -> Result<(Option<std::path::PathBuf>, SealedPacket), Error> {
    let sealed = seal(desk, survey, into, &SealOptions::default(), kit)?;
    if sealed.pages.is_empty() {
        return Ok((None, sealed));
    }
    let stem = sealed.path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let folder = into.join(format!("{stem}-pages"));
    fs::create_dir_all(&folder).map_err(|e| fail::file(&folder, &e))?;
    for page in &sealed.pages {
        let path = folder.join(page.name.rsplit('/').next().unwrap_or(&page.name));
        fs::write(&path, &page.bytes).map_err(|e| fail::file(&path, &e))?;
    }
    Ok((Some(folder), sealed))
}

fn enter(
    office: &mut office::Desk,
    survey: SurveyId,
    finding: &samples::SampleFinding,
    findings: &Findings,
    folder: &Path,
    desk: &Desk,
) -> Result<(), Error> {
    let photo = match &finding.photo {
        None => None,
        Some(photo) => Some(super::finding::keep_photo(office, &folder.join(photo))?),
    };
    let cost = Money::from_f64(finding.cost).ok_or_else(|| {
        let cost = finding.cost.to_string();
        Error::new(Kind::Input, msg!("error-cost", condition = &finding.condition, cost = cost))
    })?;
    let finding = Finding {
        condition: finding.condition.clone(),
        outcome: finding.found,
        cost,
        days: finding.days,
        priced_before_signing: finding.priced_before_signing,
        paid_by: finding.paid_by,
        note: finding.note.clone(),
        photo,
        by: findings.recorded_by.clone(),
        at: findings.recorded_at,
    };
    office.enter(survey, &finding, desk.catalog()).map(drop).map_err(fail::office)
}
