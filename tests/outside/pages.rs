//! The pages of the sample houses, read by programs of others: every sum on them by poppler's `pdftotext` against the
//! frozen assessment, tags and alternative texts by `pikepdf` (QPDF), the tables by Python's `csv` and by `openpyxl`,
//! what leaves the firm by `exiftool`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::LazyLock;

use serde_json::Value;

use crate::stories::demo::plain;
use crate::support::{copy_folder, python, run};

/// The sample houses, sealed in English and in Spanish, each unpacked into a folder.
struct Sealed {
    _dir: tempfile::TempDir,
    /// Language and folder of the unpacked packet.
    packets: Vec<(&'static str, PathBuf)>,
}

static SEALED: LazyLock<Sealed> = LazyLock::new(|| {
    let dir = tempfile::tempdir().unwrap();
    copy_folder(&plain().dir.join("demo-made/device"), &dir.path().join("made/device"));
    let houses = ["Alder Street kitchen", "Heron Court kitchen and hall bath", "Quarry Bend kitchen"];
    let mut packets = Vec::new();
    for (language, house) in ["en", "es"].into_iter().flat_map(|l| houses.map(|h| (l, h))) {
        let out = dir.path().join(format!("{language}-{}", packets.len()));
        let said = run(
            dir.path(),
            &["--home", "made/device", "--json", "seal", house, "--into", "sealed", "--pages", language],
        );
        let said: Value = serde_json::from_str(&said).unwrap();
        let packet = dir.path().join(said["packet"].as_str().unwrap());
        let unzip = Command::new("unzip").arg("-q").arg(&packet).arg("-d").arg(&out).status().unwrap();
        assert!(unzip.success());
        let inside = std::fs::read_dir(&out).unwrap().next().unwrap().unwrap().path();
        packets.push((language, inside.join("data")));
    }
    Sealed { _dir: dir, packets }
});

fn text(pdf: &Path) -> String {
    let out = Command::new("pdftotext").arg("-layout").arg(pdf).arg("-").output();
    String::from_utf8(out.expect("pdftotext is needed (poppler-utils)").stdout).unwrap()
}

fn pdfs(data: &Path) -> Vec<(String, PathBuf)> {
    let mut all: Vec<(String, PathBuf)> = std::fs::read_dir(data.join("pages"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "pdf"))
        .map(|p| (p.file_stem().unwrap().to_string_lossy().into_owned(), p))
        .collect();
    all.sort();
    all
}

/// Every sum of a text, as "$1,850" or "$46.50".
fn sums(text: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for part in text.split('$').skip(1) {
        let end = part.find(|c: char| !c.is_ascii_digit() && c != ',' && c != '.').unwrap_or(part.len());
        let sum = part[..end].trim_end_matches(['.', ',']);
        if sum.starts_with(|c: char| c.is_ascii_digit()) {
            found.insert(format!("${sum}"));
        }
    }
    found
}

/// Every sum the assessment holds, in cents: numbers under the names that are money.
fn cents(value: &Value, money: bool, into: &mut BTreeSet<i64>) {
    const MONEY: [&str; 17] = [
        "cost",
        "amount",
        "contract",
        "mean",
        "p50",
        "p80",
        "p90",
        "standard_errors",
        "quantiles",
        "twentieths",
        "in_base_mean",
        "value",
        "net_per_minute",
        "loss",
        "low",
        "likely",
        "high",
    ];
    match value {
        Value::Number(n) if money => into.extend(n.as_i64()),
        Value::Array(list) => list.iter().for_each(|v| cents(v, money, into)),
        Value::Object(map) => map.iter().for_each(|(k, v)| cents(v, MONEY.contains(&k.as_str()), into)),
        _ => {}
    }
}

/// A sum as pages may write it: to the dollar, and as an estimator says it (tens below 1,000, fifties above).
fn written(cents: i64) -> [String; 2] {
    let dollars = cents as f64 / 100.0;
    let step = if dollars.abs() < 1000.0 { 10.0 } else { 50.0 };
    [dollars.round(), (dollars / step).round() * step].map(|d| format!("${}", grouped(d as i64)))
}

fn grouped(n: i64) -> String {
    let digits = n.abs().to_string();
    let mut out = String::new();
    for (i, c) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(c);
    }
    out
}

#[test]
fn every_sum_on_the_pages_is_one_of_the_frozen_assessment() {
    for (language, data) in &SEALED.packets {
        let frozen = std::fs::read_to_string(data.join("assessment.json")).unwrap();
        let json: Value = serde_json::from_str(&frozen).unwrap();
        let mut held = BTreeSet::new();
        cents(&json, false, &mut held);
        let mut known: BTreeSet<String> = held.into_iter().flat_map(written).collect();
        // Sums that are words in the assessment: what calculations say.
        known.extend(sums(&json["calculations"].to_string()));
        known.extend(sums(&std::fs::read_to_string(data.join("log.jsonl")).unwrap()));
        for (name, pdf) in pdfs(data) {
            let tick = |sum: &String| {
                let dollars: Option<i64> = sum.replace(['$', ','], "").parse().ok();
                name == "office" && dollars.is_some_and(|d| d % 5_000 == 0) // lettered under the drawing of the money
            };
            let strange: Vec<String> =
                sums(&text(&pdf)).difference(&known).filter(|sum| !tick(sum)).cloned().collect();
            assert!(strange.is_empty(), "{language} {name}: not in the assessment: {strange:?}");
        }
        let office = text(&data.join("pages/office.pdf"));
        for (what, cents) in ["p50", "p80", "p90", "mean"].map(|k| (k, json["money"][k].as_i64().unwrap())) {
            assert!(office.contains(&written(cents)[0]), "{language}: {what} is not on the office's pages");
        }
        let household = text(&data.join("pages/household.pdf"));
        for key in ["p50", "p90"] {
            let sum = &written(json["money"][key].as_i64().unwrap())[1];
            assert!(household.contains(sum), "{language}: {key}, {sum}, is not on the household's page");
        }
        let orders = text(&data.join("pages/change-orders.pdf"));
        let first = json["conditions"].as_array().unwrap().iter().filter(|c| {
            let priced = c["advice"]["pricing"] == "allowance" || c["advice"]["pricing"] == "unit-price";
            priced && orders.contains(c["name"].as_str().unwrap())
        });
        for c in first {
            for sum in [&c["cost"][0], &c["cost"][2], &c["advice"]["amount"]] {
                let sum = &written(sum.as_i64().unwrap())[1];
                assert!(orders.contains(sum), "{language}: {} of {}", sum, c["name"]);
            }
        }
    }
}

#[test]
fn what_a_reader_is_not_to_know_does_not_stand_on_his_pages() {
    for (language, data) in &SEALED.packets {
        for (name, pdf) in pdfs(data) {
            let text = text(&pdf);
            let never: &[&str] = match name.as_str() {
                "household" => &["P80", "P90", "±$", "decibans"],
                n if n.starts_with("trade-") => &["P80", "±$"],
                _ => &[],
            };
            for words in never {
                assert!(!text.contains(words), "{language} {name}: “{words}”");
            }
            for word in ["safe to", "compliant", "clear to cut"] {
                assert!(!text.to_lowercase().contains(word), "{language} {name}: “{word}”");
            }
            if name.starts_with("trade-") {
                // Only what the trade's own calculations say in money.
                let json: Value =
                    serde_json::from_slice(&std::fs::read(data.join("assessment.json")).unwrap()).unwrap();
                let said = sums(&json["calculations"].to_string());
                let other: Vec<String> = sums(&text).difference(&said).cloned().collect();
                assert!(other.is_empty(), "{language} {name}: the office's money: {other:?}");
            }
        }
    }
}

const READ: &str = r#"
import csv, json, pathlib, sys
import openpyxl, pikepdf

data, language = pathlib.Path(sys.argv[1]), sys.argv[2]
figures = 0

def walk(node, seen):
    global figures
    if isinstance(node, pikepdf.Array):
        for kid in node: walk(kid, seen)
    elif isinstance(node, pikepdf.Dictionary):
        if node.get('/S') == '/Figure':
            figures += 1
            assert str(node.get('/Alt', '')).strip(), 'a figure without words'
        seen.add(str(node.get('/S', '')))
        if '/K' in node: walk(node.K, seen)

for path in sorted((data / 'pages').glob('*.pdf')):
    with pikepdf.open(path) as pdf:
        assert pdf.check() == [] if hasattr(pdf, 'check') else True, pdf.check()
        root = pdf.Root
        assert bool(root.MarkInfo.Marked), path
        assert str(root.Lang).startswith(language), (path, root.Lang)
        assert bool(root.ViewerPreferences.DisplayDocTitle), path
        with pdf.open_metadata() as meta:
            assert meta.get('dc:title'), path
            assert meta.pdfa_status == '2A', (path, meta.pdfa_status)
            assert meta.get('pdfuaid:part') == '1', path
        seen = set()
        walk(root.StructTreeRoot.K, seen)
        assert '/H1' in seen and '/H2' in seen, (path, seen)
        if path.stem in ('office', 'household'): assert '/Table' in seen, (path, seen)
assert figures > 0

frozen = json.loads((data / 'assessment.json').read_text())
book = openpyxl.load_workbook(data / 'pages' / 'tables.xlsx')
assert book.sheetnames == ['conditions', 'openings', 'measurements'], book.sheetnames
for sheet in book:
    rows = list(csv.reader((data / 'pages' / f'{sheet.title}.csv').open(encoding='utf-8-sig', newline='')))
    cells = [list(row) for row in sheet.iter_rows()]
    assert len(rows) == len(cells), sheet.title
    for written, row in zip(rows, cells):
        assert len(written) >= len(row)
        for text, cell in zip(written, row):
            assert cell.data_type != 'f', (sheet.title, cell.coordinate)
            if cell.data_type == 'n' and cell.value is not None: assert float(text) == cell.value
            else: assert text.lstrip("'") == (cell.value or '').lstrip("'"), (text, cell.value)
rows = list(csv.reader((data / 'pages' / 'conditions.csv').open(encoding='utf-8-sig', newline='')))
by_key = {c['id']: c for c in frozen['conditions']}
assert len(rows) - 1 == len(by_key)
for row in rows[1:]:
    c = by_key[row[0]]
    assert float(row[3]) == c['probability'], row
    assert [float(x) for x in row[6:9]] == [x / 100 for x in c['cost']], row
    assert [float(x) for x in row[9:12]] == c['days'], row
    amount = c['advice'].get('amount')
    assert (float(row[15]) if row[15] else None) == (amount / 100 if amount is not None else None), row
print('read', figures)
"#;

#[test]
fn other_programs_read_tags_alternative_texts_and_tables() {
    for (language, data) in &SEALED.packets {
        let out = python().args(["-c", READ]).arg(data).arg(language).output().unwrap();
        let told = String::from_utf8_lossy(&out.stderr);
        assert!(out.status.success(), "pikepdf and openpyxl are needed (make test installs them): {told}");
        assert!(String::from_utf8_lossy(&out.stdout).starts_with("read"));
        for (name, pdf) in pdfs(data) {
            // Only where the program is there; pikepdf is the same library.
            if let Ok(out) = Command::new("qpdf").arg("--check").arg(&pdf).output() {
                assert!(out.status.success(), "{name}: {}", String::from_utf8_lossy(&out.stdout));
            }
        }
    }
}

#[test]
fn what_leaves_the_firm_tells_no_place_and_no_camera() {
    for (_, data) in &SEALED.packets {
        for (name, pdf) in pdfs(data) {
            let bytes = std::fs::read(&pdf).unwrap();
            // Pictures inside are small copies made anew: no EXIF block is left in them.
            assert!(!bytes.windows(6).any(|w| w == b"Exif\0\0"), "{name}");
            let out = Command::new("exiftool").args(["-json", "-a", "-u", "-ee"]).arg(&pdf).output();
            let facts = String::from_utf8(out.expect("exiftool is needed").stdout).unwrap().to_lowercase();
            for key in ["gps", "serial", "\"make\"", "\"model\""] {
                assert!(!facts.contains(key), "{name}: {key}: {facts}");
            }
        }
    }
}
