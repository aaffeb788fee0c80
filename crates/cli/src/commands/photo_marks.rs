//! `underlath photo mark`, `photo marks`, `photo measure`.

use std::path::Path;

use actions::{
    Drawn, Error, Kind, MeasuredOnPhoto, PhotoShown, Sheet, mark_photo, marks as marks_on, measure_on_photo,
    photo_of, photo_shown, take_mark_back,
};
use base64::Engine as _;
use survey::EntryId;
use survey::log::Shape;
use survey::units::inches_16;
use views::marks::{dimension_words, overlay};
use words::{Message, msg};

use super::{Room, about};
use crate::args::{PhotoMark, PhotoMarks, PhotoMeasure};
use crate::fail;
use crate::out::Out;

pub fn mark(args: &PhotoMark, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let photo = photo_of(&desk, survey, &args.photo)?;
    let mut kit = room.kit()?;
    if let Some(text) = &args.take_back {
        let id: EntryId =
            text.parse().map_err(|_| Error::new(Kind::Input, msg!("error-no-mark-id", text = text)))?;
        let entry = take_mark_back(&mut desk, survey, photo, id, &mut kit)?;
        if out.json() {
            out.value(&serde_json::json!({ "entry": entry }));
        } else {
            out.tell(msg!("mark-taken-back", mark = text));
        }
        return Ok(());
    }
    let shape = shape(args)?;
    let said = shape_words(&shape);
    let entry = mark_photo(&mut desk, survey, photo, shape, &mut kit)?;
    if out.json() {
        out.value(&serde_json::json!({ "entry": entry }));
    } else {
        out.tell(msg!("mark-made", mark = entry.id.to_string(), shape = said, photo = photo.short()));
    }
    Ok(())
}

fn shape(args: &PhotoMark) -> Result<Shape, Error> {
    let two = |texts: &[String]| Ok::<_, Error>([point(&texts[0])?, point(&texts[1])?]);
    actions::drawn(if let [_, _] = args.arrow.as_slice() {
        Drawn::Arrow(two(&args.arrow)?)
    } else if let [_, _] = args.ring.as_slice() {
        Drawn::Ring(two(&args.ring)?)
    } else if let [_, _] = args.dimension.as_slice() {
        let length = args.length.clone().unwrap_or_default();
        Drawn::Dimension(two(&args.dimension)?, length, args.tolerance.clone())
    } else {
        // The parser lets nothing else through.
        Drawn::Words(point(args.at.as_deref().unwrap_or_default())?, args.words.clone().unwrap_or_default())
    })
}

pub fn marks(args: &PhotoMarks, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let photo = photo_of(&desk, survey, &args.photo)?;
    let list = marks_on(&desk, survey, photo)?;
    if let Some(file) = args.drawn.as_ref().filter(|file| is_jpeg(file)) {
        let copy = actions::marked_copy(&desk, survey, photo)?;
        std::fs::write(file, copy.jpeg).map_err(|e| fail::file(file, &e))?;
    } else if let Some(file) = &args.drawn {
        let PhotoShown { jpeg, width, height } = photo_shown(&desk, survey, photo)?;
        let over = overlay(list.iter().map(|m| &m.mark), width, height);
        let picture = base64::engine::general_purpose::STANDARD.encode(jpeg);
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\">\
             <image width=\"{width}\" height=\"{height}\" href=\"data:image/jpeg;base64,{picture}\"/>{over}</svg>\n",
        );
        std::fs::write(file, svg).map_err(|e| fail::file(file, &e))?;
    }
    if out.json() {
        let one = |m: &actions::Marked| serde_json::json!({ "id": m.id, "by": m.by, "mark": m.mark });
        out.value(&serde_json::json!({
            "photo": photo,
            "marks": list.iter().map(one).collect::<Vec<_>>(),
            "drawn": args.drawn,
        }));
        return Ok(());
    }
    if list.is_empty() {
        out.tell(msg!("mark-none", photo = photo.short()));
    }
    let row = |m: &actions::Marked| vec![m.id.to_string(), out.say(&shape_words(&m.mark)), m.by.clone()];
    let rows: Vec<_> = list.iter().map(row).collect();
    out.table(&rows);
    if let Some(file) = &args.drawn {
        out.tell(msg!("mark-drawn", file = file.display().to_string()));
    }
    Ok(())
}

fn is_jpeg(file: &Path) -> bool {
    file.extension().is_some_and(|end| end.eq_ignore_ascii_case("jpg") || end.eq_ignore_ascii_case("jpeg"))
}

pub fn measure(args: &PhotoMeasure, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let photo = photo_of(&desk, survey, &args.photo)?;
    let points = |texts: &[String]| texts.iter().map(|t| point(t)).collect::<Result<Vec<_>, Error>>();
    let no_number = |_| Error::new(Kind::Input, msg!("error-plane-number"));
    let on_photo = actions::on_photo(
        &sheet(&args.paper)?,
        false,
        points(&args.corners)?.try_into().map_err(no_number)?,
        points(&args.ends)?.try_into().map_err(no_number)?,
        args.off_plane.as_deref(),
    )?;
    let item = about(args.item.as_deref(), args.place.as_deref());
    let done = measure_on_photo(&mut desk, survey, photo, &on_photo, item.as_deref(), &mut room.kit()?)?;
    let MeasuredOnPhoto { length, tolerance, sigma, distance, focal_assumed, marks, recorded } = &done;
    if out.json() {
        out.value(&serde_json::json!({
            "length_eighth_um": length.eighth_um(),
            "inches": length.inches(),
            "tolerance_inches": tolerance.inches(),
            "sigma_inches": sigma,
            "distance_inches": distance,
            "focal_assumed": focal_assumed,
            "marks": marks,
            "entry": recorded.as_ref().map(|r| &r.entry),
            "complaints": recorded.as_ref().map(|r| &r.complaints),
        }));
        return Ok(());
    }
    let sigma = words::number(out.words().language(), *sigma, 3);
    out.tell(msg!(
        "measure-length",
        length = inches_16(*length),
        tolerance = inches_16(*tolerance),
        sigma = sigma
    ));
    let (feet, inches) = ((distance / 12.0).floor(), (distance % 12.0).floor());
    out.tell_in(2, msg!("measure-distance", feet = feet, inches = inches));
    if *focal_assumed {
        out.tell_in(2, msg!("measure-focal"));
    }
    match recorded {
        None => out.tell_in(2, msg!("measure-not-recorded")),
        Some(recorded) => {
            out.tell(msg!("record-done", item = &recorded.key, answer = &recorded.words));
            for complaint in &recorded.complaints {
                out.tell_in(2, msg!("record-complaint", said = complaint));
            }
        }
    }
    Ok(())
}

fn shape_words(mark: &Shape) -> Message {
    match mark {
        Shape::Arrow { .. } => msg!("shape-arrow"),
        Shape::Ring { .. } => msg!("shape-ring"),
        Shape::Words { text, .. } => msg!("shape-words", text = text),
        Shape::Dimension { length, tolerance, .. } => {
            msg!("shape-dimension", length = dimension_words(*length, *tolerance))
        }
        Shape::Paper { width, height, .. } => {
            msg!("shape-paper", width = inches_16(*width), height = inches_16(*height))
        }
    }
}

fn point(text: &str) -> Result<[f64; 2], Error> {
    let number = |t: &str| t.trim().parse::<f64>().ok().filter(|n| n.is_finite());
    let parsed = text.split_once(',').and_then(|(x, y)| Some([number(x)?, number(y)?]));
    parsed.ok_or_else(|| {
        Error::new(Kind::Input, msg!("error-no-point", text = text)).hint(msg!("error-no-point-hint"))
    })
}

fn sheet(text: &str) -> Result<Sheet, Error> {
    match text {
        "letter" => Ok(Sheet::Letter),
        "a4" => Ok(Sheet::A4),
        other => match other.split_once(['x', '×']) {
            Some((width, height)) => Ok(Sheet::Own(width.to_owned(), height.to_owned())),
            None => Err(Error::new(Kind::Input, msg!("error-no-paper", text = other))
                .hint(msg!("error-no-paper-hint"))),
        },
    }
}
