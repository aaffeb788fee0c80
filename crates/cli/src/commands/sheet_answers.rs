//! `underlath sheet-answers`: what came back from a household's sheet.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use actions::{Error, MOST_ANSWER_BYTES, TakenAnswer, TakenAnswers, take_answers, who_answered};

use super::Room;
use crate::args::SheetAnswers;
use crate::fail;
use crate::out::Out;

pub fn run(args: &SheetAnswers, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let bytes = read(&args.file)?;
    let by = match who_answered(&desk, survey, &bytes)? {
        Some(name) => format!("household ({name})"),
        None => "household".to_owned(),
    };
    let taken = take_answers(&mut desk, survey, &bytes, &mut room.kit_of(by)?)?;
    if out.json() {
        out.value(&json(&taken));
    } else {
        tell(&taken, out);
    }
    Ok(())
}

/// The file, but no more of it than answers can have: what is larger is refused by its size.
fn read(path: &Path) -> Result<Vec<u8>, Error> {
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(|e| fail::file(path, &e))?;
    file.take(MOST_ANSWER_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(|e| fail::file(path, &e))?;
    Ok(bytes)
}

fn tell(taken: &TakenAnswers, out: &mut Out) {
    let recorded = taken.recorded.len();
    let s = if recorded == 1 { "" } else { "s" };
    let remarks = if taken.remarks == 0 { String::new() } else { format!(" and {} in words", taken.remarks) };
    out.head(format!("{recorded} answer{s}{remarks} recorded, said by {}", taken.by));
    let row = |a: &TakenAnswer| {
        let corrects = if a.corrected > 0 { " (corrects what stood there; both are kept)" } else { "" };
        let against: Vec<String> = a.against.iter().map(|(words, by)| format!(" ≠ {words} ({by})")).collect();
        vec![a.item.clone(), format!("{}{corrects}{}", a.words, against.concat())]
    };
    out.table(&taken.recorded.iter().map(row).collect::<Vec<_>>());
    if taken.known > 0 {
        out.line(format!("{} of this file were here already", taken.known));
    }
    if taken.recorded.iter().any(|a| !a.against.is_empty()) {
        out.line("≠ two answers stand side by side and count as none: record the item again to settle it");
    }
    if !taken.stands.is_empty() {
        out.line(format!("the household is not sure, others have answered: {}", taken.stands.join(", ")));
    }
    if !taken.same_catalog {
        out.line("the sheet was made from another catalog; what still fits was taken");
    }
    for left in &taken.left_out {
        out.line(format!("not taken: {} = {} ({})", left.item, left.said, left.why));
    }
    if !taken.at_the_table.is_empty() {
        out.line(format!("to ask at the table: {}", taken.at_the_table.join(", ")));
    }
}

fn json(taken: &TakenAnswers) -> serde_json::Value {
    let one = |a: &TakenAnswer| {
        serde_json::json!({
            "item": a.item, "words": a.words, "own_words": a.own_words, "corrected": a.corrected,
            "against": a.against.iter().map(|(words, by)| serde_json::json!({ "words": words, "by": by })).collect::<Vec<_>>(),
        })
    };
    let left = |l: &sheet::LeftOut| serde_json::json!({ "item": l.item, "said": l.said, "why": l.why });
    serde_json::json!({
        "by": taken.by,
        "recorded": taken.recorded.iter().map(one).collect::<Vec<_>>(),
        "remarks": taken.remarks,
        "known": taken.known,
        "stands": taken.stands,
        "left_out": taken.left_out.iter().map(left).collect::<Vec<_>>(),
        "same_catalog": taken.same_catalog,
        "at_the_table": taken.at_the_table,
    })
}
