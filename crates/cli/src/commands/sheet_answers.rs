//! `underlath sheet-answers`: what came back from a household's sheet.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use actions::{Error, MOST_ANSWER_BYTES, TakenAnswer, TakenAnswers, misfit, take_answers, who_answered};

use words::{Words, msg};

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
        out.value(&json(&taken, out.words()));
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
    let words = out.words();
    let n = taken.recorded.len();
    out.head_of(match taken.remarks {
        0 => msg!("sheet-recorded", n = n, by = &taken.by),
        remarks => msg!("sheet-recorded-and-remarks", n = n, remarks = remarks, by = &taken.by),
    });
    let row = |a: &TakenAnswer| {
        let stood = if a.corrected > 0 {
            words.say(&msg!("sheet-corrects", answer = &a.words))
        } else {
            a.words.clone()
        };
        let against: Vec<String> = a.against.iter().map(|(words, by)| format!(" ≠ {words} ({by})")).collect();
        vec![a.item.clone(), stood + &against.concat()]
    };
    out.table(&taken.recorded.iter().map(row).collect::<Vec<_>>());
    if taken.known > 0 {
        out.tell(msg!("sheet-known", n = taken.known));
    }
    if taken.recorded.iter().any(|a| !a.against.is_empty()) {
        out.tell(msg!("sheet-side-by-side"));
    }
    if !taken.stands.is_empty() {
        out.tell(msg!("sheet-stands", items = taken.stands.clone()));
    }
    if !taken.same_catalog {
        out.tell(msg!("sheet-other-catalog"));
    }
    for left in &taken.left_out {
        out.tell(msg!(
            "sheet-not-taken",
            item = &left.item,
            said = &left.said,
            why = misfit(left.why.clone())
        ));
    }
    if !taken.at_the_table.is_empty() {
        out.tell(msg!("sheet-at-the-table", items = taken.at_the_table.clone()));
    }
}

fn json(taken: &TakenAnswers, words: &Words) -> serde_json::Value {
    let one = |a: &TakenAnswer| {
        serde_json::json!({
            "item": a.item, "words": a.words, "own_words": a.own_words, "corrected": a.corrected,
            "against": a.against.iter().map(|(words, by)| serde_json::json!({ "words": words, "by": by })).collect::<Vec<_>>(),
        })
    };
    let left = |l: &sheet::LeftOut| serde_json::json!({ "item": l.item, "said": l.said, "why": words.say(&misfit(l.why.clone())) });
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
